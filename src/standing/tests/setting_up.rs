//! What a laboratory that has just begun still lacks.

use super::shop::{Shop, adopted, assigned, policy};
use crate::record::entry::{Impact, Independence, PolicySet};
use crate::record::scope::Authority;
use crate::record::scribe::Scribe;
use crate::standing::{Ledger, SetUpStep};

const NOW: &str = "2026-01-09T08:00:00+01:00";

fn founded() -> Shop {
    let scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
    Shop {
        ledger: Ledger::collect(scribe.entries.clone()),
        scribe,
    }
}

fn lacks(shop: &Shop) -> Vec<SetUpStep> {
    let lacks = shop.view(NOW).set_up_lacks();
    lacks.into_iter().map(|one| one.step).collect()
}

#[test]
fn the_steps_of_setting_up_come_in_order_and_go_as_they_are_taken() {
    use SetUpStep::{Assigned, FirstAssessor, People, Rights, Workflow};
    let shop = founded();
    assert_eq!(
        lacks(&shop),
        [People, Rights, Workflow, Assigned, FirstAssessor]
    );
    let Shop { mut scribe, .. } = shop;
    scribe.join(1, &[Authority::Publish, Authority::Train]);
    let mut shop = Shop {
        ledger: Ledger::collect(scribe.entries.clone()),
        scribe,
    };
    assert_eq!(lacks(&shop), [Rights, Workflow, Assigned, FirstAssessor]);
    let rights = shop.view(NOW).set_up_lacks().swap_remove(0).rights;
    assert_eq!(rights, [Authority::Assess, Authority::Approve]);
    shop.at("2026-01-06T08:00:00+01:00")
        .sign(1, adopted(1, "2026-01-07T00:00:00+01:00", Impact::Reassess));
    assert_eq!(lacks(&shop), [Rights, Assigned, FirstAssessor]);
    shop.sign(1, assigned(1));
    assert_eq!(lacks(&shop), [Rights, FirstAssessor]);
    // Everything is there from the start, once somebody is signed off.
    assert_eq!(lacks(&Shop::open()), []);
}

#[test]
fn where_nobody_can_assess_independently_nobody_else_is_waited_for_and_the_first_is_assessed_from_outside()
 {
    let mut shop = founded();
    let alone = PolicySet {
        independence: Independence::NoIndependentAssessor,
        ..policy()
    };
    shop.sign(0, alone);
    let lacks = lacks(&shop);
    assert!(!lacks.contains(&SetUpStep::People), "{lacks:?}");
    assert!(!lacks.contains(&SetUpStep::FirstAssessor), "{lacks:?}");
    assert_eq!(lacks.last(), Some(&SetUpStep::FromOutside));
}
