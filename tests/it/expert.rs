//! A correct run is clean: for every case card, in every allowed order, whatever comes up.

use crate::support::expert::{Expert, start};
use drybench::app::rehearse::Disturbances;
use drybench::app::shelf::Shelf;

#[test]
fn a_correct_run_is_clean_for_every_case_card() {
    let shelf = Shelf::shipped();
    for wash in ["ultrasonic", "orbital"] {
        for teeth in [6, 7, 14] {
            for arch in ["upper", "lower"] {
                let case = format!("wash={wash},teeth={teeth},arch={arch}");
                let done = Expert::new(start(&shelf, &case, 1, Disturbances::None)).run();
                assert!(
                    done.graded.roots.is_empty(),
                    "{case}: {:#?}",
                    done.graded.roots
                );
                assert!(done.graded.clean, "{case}");
            }
        }
    }
}
