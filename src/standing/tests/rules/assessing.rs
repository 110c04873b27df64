//! Who assesses, and what an assessment is worth (R5, R8, R9, R10).

use super::super::shop::*;
use super::suspended;
use crate::record::entry::{Basis, Drilled, Impact, Judgement, Observed, Seen, Voided};
use crate::record::scribe::{id, person, scope};
use crate::standing::{
    Count, DueCause, Need, Refusal, Rule, Run, SetBack, Standing, run_of, weighed,
};

#[test]
fn supervision_ends_with_its_time_and_with_its_supervisor() {
    let mut shop = Shop::open();
    shop.at("2026-01-12T08:00:00+01:00").sign(2, assigned(3));
    shop.sign(3, read(3, 1));
    shop.sign(1, protected(3));
    shop.note(rehearsed(3, 1));
    shop.at("2026-01-13T08:00:00+01:00").note(rehearsed(3, 1));
    shop.sign(
        1,
        supervised(3, "2026-01-13T08:00:00+01:00", "2026-01-31T18:00:00+01:00"),
    );
    assert_eq!(
        shop.word(3, "2026-01-31T18:00:00+01:00"),
        "under-supervision"
    );
    assert_eq!(shop.word(3, "2026-01-31T18:00:01+01:00"), "in-training");
    shop.at("2026-01-20T08:00:00+01:00").sign(2, suspended(1));
    assert_eq!(shop.word(3, "2026-01-20T08:00:00+01:00"), "in-training");
    let too_long = supervised(3, "2026-02-01T08:00:00+01:00", "2026-06-01T08:00:00+01:00");
    assert_eq!(shop.refusal(1, too_long), Refusal::SupervisionTooLong(92));
    let again = supervised(3, "2026-02-01T08:00:00+01:00", "2026-02-02T08:00:00+01:00");
    assert_eq!(
        shop.refusal(1, again),
        Refusal::SupervisorNotInForce(person(1))
    );
}

#[test]
fn r5_nobody_assesses_themself_or_without_being_signed_off() {
    let mut shop = Shop::with_one_ready();
    let own = shop.refusal(1, observed(1, 1, Seen::Done));
    assert_eq!(own, Refusal::SelfAssessment);
    assert_eq!(own.rule(), Some(Rule::R5));
    shop.scribe
        .grant(4, crate::record::scope::Authority::Assess, None);
    shop.ledger.add(shop.scribe.entries.last().unwrap().clone());
    let refusal = shop.refusal(4, observed(3, 1, Seen::Done));
    assert_eq!(refusal, Refusal::AssessorNotInForce(person(4)));
    assert_eq!(refusal.rule(), Some(Rule::R5));
    // Forced in, it counts for nothing.
    let mut shop = Shop::with_one_ready();
    shop.scribe
        .grant(4, crate::record::scope::Authority::Assess, None);
    shop.ledger.add(shop.scribe.entries.last().unwrap().clone());
    let forced = shop
        .scribe
        .draft(4, shop.scribe.now(), observed(3, 1, Seen::Done));
    shop.force(forced);
    let readiness = shop
        .view("2026-02-01T09:00:00+01:00")
        .readiness(person(3), &scope());
    assert!(
        readiness
            .met
            .contains(&Need::Observed(Count { have: 2, of: 2 }))
    );
}

#[test]
fn r5_a_sign_off_is_due_when_its_assessor_turns_out_not_to_have_been_one() {
    let mut shop = Shop::with_one_signed_off();
    let first = shop
        .scribe
        .entries
        .iter()
        .find(|entry| entry.word() == "signed-off")
        .unwrap()
        .seal();
    shop.at("2026-03-01T08:00:00+01:00");
    let void = shop.sign(2, Voided { target: first });
    assert_eq!(
        shop.word(3, "2026-03-01T08:00:00+01:00"),
        "signed-off",
        "one signature is not enough"
    );
    shop.second(0, void);
    let Standing::Due(_, causes) = shop.standing(3, "2026-02-02T08:00:00+01:00") else {
        panic!("to be looked at again");
    };
    assert!(matches!(causes[..], [DueCause::ToReview(_)]));
    assert_eq!(shop.word_then(3, "2026-02-02T08:00:00+01:00"), "signed-off");
}

#[test]
fn the_steps_that_decide_how_a_run_counts_are_named() {
    let decide = |seen, judgement| {
        let observed = observed(3, 1, seen);
        let (_, steps) = weighed(&observed.steps, judgement);
        assert!(steps.iter().all(|step| step.seen == seen));
        steps.len()
    };
    for seen in [Seen::NotDone, Seen::Prompted, Seen::NotSeen] {
        assert!(decide(seen, Judgement::Acceptable) > 0, "{seen:?}");
    }
    assert_eq!(decide(Seen::Done, Judgement::Acceptable), 0);
    // Where the judgement alone decides, no step does.
    assert_eq!(decide(Seen::NotSeen, Judgement::NotAcceptable), 0);
    assert_eq!(decide(Seen::Prompted, Judgement::NotAcceptable), 0);
    assert!(decide(Seen::NotDone, Judgement::NotAcceptable) > 0);
}

#[test]
fn r8_a_critical_step_not_done_fails_the_run_whatever_the_judgement() {
    let good = observed(3, 1, Seen::Done);
    assert_eq!(run_of(&good), Run::Clean);
    assert_eq!(run_of(&observed(3, 1, Seen::NotDone)), Run::Failed);
    assert_eq!(run_of(&observed(3, 1, Seen::Prompted)), Run::NotClean);
    assert_eq!(run_of(&observed(3, 1, Seen::NotSeen)), Run::NotCounted);
    let judged = Observed {
        judgement: Judgement::NotAcceptable,
        ..good.clone()
    };
    assert_eq!(run_of(&judged), Run::Failed);
    let mut uncritical = good;
    uncritical.steps[1].seen = Seen::NotDone;
    assert_eq!(run_of(&uncritical), Run::NotClean);
    uncritical.steps[1].seen = Seen::NotSeen;
    assert_eq!(run_of(&uncritical), Run::Clean);
    let mut shop = Shop::with_one_ready();
    shop.sign(1, observed(3, 1, Seen::NotDone));
    assert_eq!(shop.word(3, "2026-02-01T09:00:00+01:00"), "in-training");
}

#[test]
fn r9_a_failed_attempt_stays_and_breaks_the_row() {
    let mut shop = Shop::with_one_ready();
    let in_a_row = |shop: &Shop| {
        let view = shop.view("2026-02-28T08:00:00+01:00");
        let readiness = view.readiness(person(3), &scope());
        let all = readiness.met.into_iter().chain(readiness.missing);
        let mut counts = all.filter_map(|need| match need {
            Need::CleanInARow(count) => Some(count.have),
            _ => None,
        });
        counts.next().unwrap()
    };
    for (seen, expected) in [
        (Seen::Done, 3),
        (Seen::NotSeen, 3),
        (Seen::NotDone, 0),
        (Seen::Done, 1),
        (Seen::Prompted, 0),
        (Seen::Done, 1),
    ] {
        shop.sign(1, observed(3, 1, seen));
        assert_eq!(in_a_row(&shop), expected, "{seen:?}");
    }
    shop.sign(1, observed(3, 1, Seen::Done));
    // The row is long enough again, but whoever failed is trained first.
    let readiness = shop
        .view("2026-02-28T08:00:00+01:00")
        .readiness(person(3), &scope());
    assert_eq!(readiness.missing, [Need::TrainedAfterFailure]);
    shop.sign(1, trained(3, 1));
    assert_eq!(
        shop.word(3, "2026-02-28T08:00:00+01:00"),
        "ready-for-sign-off"
    );
}

#[test]
fn r10_practice_is_never_evidence() {
    let mut shop = Shop::open();
    shop.at("2026-01-12T08:00:00+01:00").sign(2, assigned(3));
    shop.sign(3, read(3, 1));
    let mut practice = Vec::new();
    for day in 10..30 {
        shop.at(&format!("2026-01-{day}T08:00:00+01:00"));
        practice.push(shop.note(rehearsed(3, 1)));
        practice.push(shop.note(Drilled {
            person: person(3),
            workflow: id("stock-teeth"),
            edition: edition(1),
            drill: id("order"),
            right: 5,
            of: 5,
        }));
    }
    let readiness = shop
        .view("2026-02-01T08:00:00+01:00")
        .readiness(person(3), &scope());
    assert!(
        readiness
            .missing
            .contains(&Need::Observed(Count { have: 0, of: 2 }))
    );
    assert!(
        readiness
            .met
            .contains(&Need::CleanRuns(Count { have: 20, of: 2 }))
    );
    let basis = Basis::Evidence(practice.clone());
    let refusal = shop.refusal(2, signed_off(3, 1, shop.scribe.now(), basis));
    assert_eq!(refusal, Refusal::NoEvidence(practice[0]));
}

#[test]
fn who_got_further_and_is_in_training_again_is_told_from_who_never_did() {
    let set_back = |shop: &Shop, number: u8, at: &str| {
        let view = shop.view(at);
        let readiness = view.readiness(person(number), &scope());
        view.set_back(person(number), &scope(), &readiness)
    };
    let mut shop = Shop::open();
    shop.at("2026-01-12T08:00:00+01:00").sign(2, assigned(3));
    assert_eq!(set_back(&shop, 3, "2026-01-12T09:00:00+01:00"), None);
    // Everything that comes before supervised work, and still nobody has supervised.
    shop.sign(3, read(3, 1));
    shop.sign(1, protected(3));
    shop.note(rehearsed(3, 1));
    shop.at("2026-01-13T08:00:00+01:00").note(rehearsed(3, 1));
    assert_eq!(set_back(&shop, 3, "2026-01-13T08:00:00+01:00"), None);
    shop.sign(
        1,
        supervised(3, "2026-01-14T08:00:00+01:00", "2026-01-31T18:00:00+01:00"),
    );
    assert_eq!(set_back(&shop, 3, "2026-01-14T07:59:59+01:00"), None);
    let over = "2026-02-01T08:00:00+01:00";
    assert_eq!(shop.word(3, over), "in-training");
    assert_eq!(set_back(&shop, 3, over), Some(SetBack::Unsupervised));
    shop.at("2026-01-20T08:00:00+01:00")
        .sign(1, observed(3, 1, Seen::NotDone));
    let failed = "2026-01-20T09:00:00+01:00";
    assert_eq!(shop.word(3, failed), "in-training");
    assert_eq!(set_back(&shop, 3, failed), Some(SetBack::Failed));
    shop.at("2026-01-21T08:00:00+01:00").sign(1, trained(3, 1));
    assert_eq!(
        shop.word(3, "2026-01-21T08:00:00+01:00"),
        "under-supervision"
    );
    assert_eq!(
        set_back(&shop, 3, over),
        Some(SetBack::Unsupervised),
        "the supervision ends as before"
    );
}

#[test]
fn a_new_edition_that_nobody_has_read_sets_back() {
    let mut shop = Shop::with_one_ready();
    shop.at("2026-02-02T08:00:00+01:00");
    let next = shop.sign(2, adopted(2, "2026-02-03T00:00:00+01:00", Impact::Reassess));
    shop.second(1, next);
    let at = "2026-02-03T09:00:00+01:00";
    assert_eq!(shop.word(3, at), "in-training");
    let view = shop.view(at);
    let readiness = view.readiness(person(3), &scope());
    let set_back = view.set_back(person(3), &scope(), &readiness);
    assert_eq!(set_back, Some(SetBack::Missing));
}
