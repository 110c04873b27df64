//! A correct run is clean: for every case card, in every allowed order, whatever comes up.

use crate::support::expert::{Expert, start, stock_teeth};
use drybench::app::rehearse::Disturbances;

#[test]
fn a_correct_run_is_clean_for_every_case_card() {
    let taken = stock_teeth();
    for wash in ["ultrasonic", "orbital"] {
        for teeth in [6, 7, 14] {
            for arch in ["upper", "lower"] {
                let case = format!("wash={wash},teeth={teeth},arch={arch}");
                let done = Expert::new(start(taken, &case, 1, Disturbances::None)).run();
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

#[test]
fn a_correct_run_is_clean_in_any_allowed_order() {
    let taken = stock_teeth();
    for seed in 0..200 {
        let wash = ["ultrasonic", "orbital"][seed as usize % 2];
        let teeth = [6, 7, 14][seed as usize % 3];
        let case = format!("wash={wash},teeth={teeth}");
        let session = start(taken, &case, seed, Disturbances::None);
        let done = Expert::new(session).in_any_order(seed).run();
        assert!(
            done.graded.roots.is_empty(),
            "{case}, seed {seed}: {:#?}",
            done.graded.roots
        );
    }
}

#[test]
fn an_expert_is_clean_over_a_thousand_seeds_whatever_comes_up() {
    let taken = stock_teeth();
    let mut came_up = 0;
    for seed in 0..1_000 {
        let session = start(taken, "", seed, Disturbances::Drawn);
        came_up += session.run().disturbances.len();
        let card = session.run().card.to_string();
        let done = Expert::new(session).run();
        assert!(
            done.graded.clean,
            "{card}, seed {seed}: {:#?}",
            done.graded.roots
        );
        assert!(
            done.graded.roots.is_empty(),
            "{card}, seed {seed}: {:#?}",
            done.graded.roots
        );
    }
    println!("1000 seeds, {came_up} disturbances");
    assert!(came_up > 1_000, "only {came_up} disturbances");
}
