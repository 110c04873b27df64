//! What stops a person and what leads back (R13, R16).

use super::super::shop::*;
use super::{suspended, withdrawn};
use crate::record::entry::{Left, Reinstated, Seen, WorkflowRetired};
use crate::record::scribe::{id, person, scope, scope_of};
use crate::standing::{Count, Need, Refusal, Rule, Standing, admit};

#[test]
fn r13_one_suspends_at_once_and_two_reinstate_with_evidence() {
    let mut shop = Shop::with_one_signed_off();
    let at = "2026-03-01T08:00:00+01:00";
    shop.at(at);
    let suspension = shop.sign(1, suspended(3));
    assert_eq!(shop.word(3, at), "suspended");
    let lifted = |evidence| Reinstated {
        person: person(3),
        workflow: id("stock-teeth"),
        suspension,
        evidence,
        proof: None,
    };
    shop.at("2026-03-02T08:00:00+01:00");
    let bare = shop.refusal(2, lifted(Vec::new()));
    assert_eq!(bare, Refusal::NoReinstatingEvidence);
    assert_eq!(bare.rule(), Some(Rule::R13));
    let seen = shop.sign(1, observed(3, 1, Seen::Done));
    let lifting = shop.sign(2, lifted(vec![seen]));
    assert_eq!(
        shop.word(3, "2026-03-02T08:00:00+01:00"),
        "suspended",
        "one is not enough"
    );
    for (by, refusal) in [
        (2, Refusal::NotASecondPerson),
        (3, Refusal::NotASecondPerson),
    ] {
        let second = shop.scribe.second(by, lifting);
        assert_eq!(admit(&shop.ledger, &second), Err(refusal));
    }
    shop.at("2026-03-03T08:00:00+01:00").second(1, lifting);
    assert_eq!(shop.word(3, "2026-03-03T07:59:59+01:00"), "suspended");
    assert_eq!(shop.word(3, "2026-03-03T08:00:00+01:00"), "signed-off");
    // It lifts the suspension that it names, not a later one.
    shop.at("2026-03-04T08:00:00+01:00").sign(1, suspended(3));
    assert_eq!(shop.word(3, "2026-03-04T08:00:00+01:00"), "suspended");
    let wrong = Reinstated {
        suspension: seen,
        ..lifted(vec![seen])
    };
    assert_eq!(shop.refusal(2, wrong), Refusal::NoSuchSuspension(seen));
}

#[test]
fn r16_of_several_states_the_strictest_is_shown() {
    let at = "2026-12-31T00:00:00+01:00";
    type Act = (&'static str, fn(&mut Shop));
    let acts: [Act; 3] = [
        ("suspended", |shop| {
            shop.sign(2, suspended(3));
        }),
        ("withdrawn", |shop| {
            shop.sign(2, withdrawn(3));
        }),
        ("left", |shop| {
            shop.sign(0, Left { person: person(3) });
        }),
    ];
    for chosen in 0..8 {
        let mut shop = Shop::with_one_signed_off();
        let mut expected = "lapsed";
        for (bit, (word, act)) in acts.iter().enumerate() {
            if chosen >> bit & 1 == 1 {
                act(&mut shop);
                expected = word;
            }
        }
        assert_eq!(shop.word(3, at), expected, "{chosen:03b}");
    }
    // Withdrawn after the person had left is still left.
    let mut shop = Shop::with_one_signed_off();
    shop.sign(0, Left { person: person(3) });
    shop.sign(2, withdrawn(3));
    assert_eq!(shop.word(3, at), "left");
}

#[test]
fn after_a_withdrawal_only_a_new_need_and_the_whole_path_lead_back() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-03-01T08:00:00+01:00").sign(2, withdrawn(3));
    shop.at("2026-03-02T08:00:00+01:00").sign(2, assigned(3));
    assert_eq!(shop.word(3, "2026-03-02T08:00:00+01:00"), "in-training");
    let readiness = shop
        .view("2026-03-02T08:00:00+01:00")
        .readiness(person(3), &scope());
    assert!(readiness.missing.contains(&Need::Read));
    assert!(
        readiness
            .missing
            .contains(&Need::Observed(Count { have: 0, of: 2 }))
    );
}

#[test]
fn a_retired_workflow_leaves_everybody() {
    let mut shop = Shop::with_one_signed_off();
    let retired = WorkflowRetired {
        workflow: id("stock-teeth"),
    };
    shop.at("2026-03-01T08:00:00+01:00").sign(2, retired);
    assert_eq!(shop.word(3, "2026-03-01T08:00:00+01:00"), "left");
    let other = shop.standing_in(3, &scope_of("printed-teeth"), "2026-03-01T08:00:00+01:00");
    assert_eq!(other, Standing::NotAssigned);
}
