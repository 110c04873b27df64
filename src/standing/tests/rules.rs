//! The rules R1 to R16, each by example, and what else is refused.

use super::shop::*;
use crate::record::canonical::Value;
use crate::record::entry::{
    Allowed, Basis, CalledIn, Cause, Corrected, Drilled, Effect, Entry, Evaluated, Impact,
    Independence, Judgement, Left, Observed, OutsideEvidence, OutsideWay, PolicySet, Reinstated,
    Seen, SignedOff, Stage, Suspended, Voided, Withdrawn, WorkflowRetired,
};
use crate::record::scope::Scope;
use crate::record::scribe::{digest, id, person, scope, scope_of, stamp};
use crate::standing::{
    Count, Doubt, DueCause, LapseCause, Need, Refusal, Remark, Rule, Run, Standing, admit, audit,
    run_of,
};

fn suspended(number: u8) -> Suspended {
    Suspended {
        person: person(number),
        workflow: id("stock-teeth"),
        allowed: Allowed::Nothing,
    }
}

fn withdrawn(number: u8) -> Withdrawn {
    Withdrawn {
        person: person(number),
        scope: scope(),
    }
}

fn called_in(number: u8) -> CalledIn {
    CalledIn {
        person: person(number),
        scope: scope(),
        cause: Cause::Complaint,
    }
}

#[test]
fn the_ten_standings_follow_one_another() {
    let mut shop = Shop::with_one_signed_off();
    for (at, word) in [
        ("2026-01-12T07:59:59+01:00", "not-assigned"),
        ("2026-01-12T08:00:00+01:00", "in-training"),
        // Everything before supervised work is there, and nobody to supervise.
        ("2026-01-13T12:00:00+01:00", "in-training"),
        ("2026-01-14T08:00:00+01:00", "under-supervision"),
        ("2026-01-22T08:00:00+01:00", "ready-for-sign-off"),
        ("2026-02-01T08:59:59+01:00", "ready-for-sign-off"),
        ("2026-02-01T09:00:00+01:00", "signed-off"),
        ("2026-06-02T23:59:59+01:00", "signed-off"),
        ("2026-06-03T00:00:00+01:00", "due"),
        ("2026-08-01T23:59:59+01:00", "due"),
        ("2026-08-02T00:00:00+01:00", "lapsed"),
    ] {
        assert_eq!(shop.word(3, at), word, "{at}");
        assert_eq!(shop.word_then(3, at), word, "{at}, as recorded then");
    }
    let readings = |shop: &Shop| shop.word(3, "2026-12-31T00:00:00+01:00");
    shop.at("2026-08-03T08:00:00+01:00").sign(2, suspended(3));
    assert_eq!(readings(&shop), "suspended");
    shop.sign(2, withdrawn(3));
    assert_eq!(readings(&shop), "withdrawn");
    shop.sign(0, Left { person: person(3) });
    assert_eq!(readings(&shop), "left");
}

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
fn r1_standing_has_two_readings_of_the_same_entries() {
    let mut shop = Shop::with_one_signed_off();
    // On 10 March it is written down that the person was suspended on 1 March.
    shop.at("2026-03-10T08:00:00+01:00");
    let late = shop
        .scribe
        .draft(2, stamp("2026-03-01T08:00:00+01:00"), suspended(3));
    shop.admit(late);
    for (at, now, then) in [
        ("2026-02-28T12:00:00+01:00", "signed-off", "signed-off"),
        ("2026-03-01T08:00:00+01:00", "suspended", "signed-off"),
        ("2026-03-10T07:59:59+01:00", "suspended", "signed-off"),
        ("2026-03-10T08:00:00+01:00", "suspended", "suspended"),
    ] {
        assert_eq!(
            (shop.word(3, at), shop.word_then(3, at)),
            (now, then),
            "{at}"
        );
    }
    // What comes later changes nothing that was.
    shop.at("2026-04-01T08:00:00+01:00").sign(2, withdrawn(3));
    assert_eq!(shop.word(3, "2026-02-28T12:00:00+01:00"), "signed-off");
}

#[test]
fn r2_a_sign_off_never_begins_before_its_signature() {
    let mut shop = Shop::with_one_ready();
    let early = signed_off(3, 1, stamp("2026-02-01T08:59:59+01:00"), shop.evidence(3));
    let refusal = shop.refusal(2, early.clone());
    assert_eq!(refusal, Refusal::BeforeSignature);
    assert_eq!(refusal.rule(), Some(Rule::R2));
    // Nor may it be entered as if it had been signed before.
    let draft = shop
        .scribe
        .draft(2, stamp("2026-01-31T09:00:00+01:00"), early.clone());
    assert_eq!(
        admit(&shop.ledger, &draft),
        Err(Refusal::SignedAtAnotherTime)
    );
    // Forced in, it holds from its signature.
    shop.force(draft);
    assert_eq!(
        shop.word(3, "2026-02-01T08:59:59+01:00"),
        "ready-for-sign-off"
    );
    assert_eq!(shop.word(3, "2026-02-01T09:00:00+01:00"), "signed-off");
    // A later beginning may be chosen.
    let mut shop = Shop::with_one_ready();
    let later = signed_off(3, 1, stamp("2026-02-10T00:00:00+01:00"), shop.evidence(3));
    shop.sign(2, later);
    assert_eq!(
        shop.word(3, "2026-02-09T23:59:59+01:00"),
        "ready-for-sign-off"
    );
    assert_eq!(shop.word(3, "2026-02-10T00:00:00+01:00"), "signed-off");
}

#[test]
fn r3_a_sign_off_ends_after_its_months_or_by_the_earliest_trigger() {
    let mut shop = Shop::with_one_signed_off();
    let Standing::Due(validity, causes) = shop.standing(3, "2026-07-01T00:00:00+01:00") else {
        panic!("due in July");
    };
    assert_eq!(causes, [DueCause::Interval]);
    assert_eq!(validity.until, stamp("2026-08-01T23:59:59+01:00").instant());
    // Somebody calls the person in on 1 March: due at once, over after the window of 60 days.
    shop.at("2026-03-01T12:00:00+01:00").sign(2, called_in(3));
    assert_eq!(shop.word(3, "2026-03-01T11:59:59+01:00"), "signed-off");
    let Standing::Due(_, causes) = shop.standing(3, "2026-03-01T12:00:00+01:00") else {
        panic!("due at once");
    };
    assert_eq!(causes, [DueCause::CalledIn(Cause::Complaint)]);
    assert_eq!(shop.word(3, "2026-04-30T12:00:00+01:00"), "due");
    let Standing::Lapsed(_, cause) = shop.standing(3, "2026-04-30T12:00:01+01:00") else {
        panic!("over");
    };
    assert_eq!(cause, LapseCause::NotReassessed);
    // What the first sign-off rested on does not serve twice.
    shop.at("2026-03-15T08:00:00+01:00");
    let old = shop.refusal(2, signed_off(3, 1, shop.scribe.now(), shop.evidence(3)));
    assert!(
        matches!(old, Refusal::Missing(ref missing) if missing.len() == 4
        && missing[0] == Need::Observed(Count { have: 0, of: 1 })),
        "{old:?}"
    );
    // Signing off again ends that; the second time holds twelve months.
    shop.sign(1, observed(3, 1, Seen::Done));
    shop.sign(1, evaluated(3, 1, Stage::AtAssessment));
    let evidence = shop.evidence(3);
    shop.sign(
        2,
        signed_off(3, 1, stamp("2026-03-15T08:00:00+01:00"), evidence),
    );
    assert_eq!(shop.word(3, "2026-04-30T12:00:01+01:00"), "signed-off");
    assert_eq!(shop.word(3, "2027-03-15T23:59:59+01:00"), "due");
    assert_eq!(shop.word(3, "2027-03-16T00:00:00+01:00"), "lapsed");
}

#[test]
fn r3_months_are_clamped_to_their_end_in_the_offset_of_the_sign_off() {
    let mut shop = Shop::with_one_ready();
    shop.at("2026-08-31T23:30:00-05:00");
    shop.sign(
        2,
        signed_off(3, 1, stamp("2026-08-31T23:30:00-05:00"), shop.evidence(3)),
    );
    assert_eq!(shop.word(3, "2027-02-28T23:59:59-05:00"), "due");
    assert_eq!(shop.word(3, "2027-03-01T00:00:00-05:00"), "lapsed");
}

#[test]
fn r3_a_failed_observation_makes_due_at_once() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-03-01T12:00:00+01:00");
    let failed = shop.sign(1, observed(3, 1, Seen::NotDone));
    let Standing::Due(_, causes) = shop.standing(3, "2026-03-01T12:00:00+01:00") else {
        panic!("due at once");
    };
    assert_eq!(causes, [DueCause::Failed(failed)]);
}

#[test]
fn r4_a_sign_off_needs_everything_that_the_profile_asks_for() {
    let shop = Shop::with_one_ready();
    let readiness = shop
        .view("2026-02-01T09:00:00+01:00")
        .readiness(person(3), &scope());
    assert_eq!(readiness.missing, []);
    assert_eq!(readiness.met.len(), 13);
    // Each of these entries is missed when it was not made.
    for (left_out, missing) in [
        ("assigned", vec![Need::Assigned]),
        ("read", vec![Need::Read]),
        ("protection-shown", vec![Need::Protection]),
        (
            "supervised-by",
            vec![Need::SupervisedCases(Count { have: 0, of: 1 })],
        ),
        ("evaluated", vec![Need::Evaluated]),
        (
            "observed",
            vec![
                Need::Observed(Count { have: 0, of: 2 }),
                Need::Assessors(Count { have: 0, of: 1 }),
                Need::CleanInARow(Count { have: 0, of: 2 }),
                Need::Method(
                    crate::record::entry::Method::BlindSample,
                    Count { have: 0, of: 1 },
                ),
            ],
        ),
        (
            "rehearsed",
            vec![
                Need::CleanRuns(Count { have: 0, of: 2 }),
                Need::CleanDays(Count { have: 0, of: 2 }),
            ],
        ),
    ] {
        let mut thinner = Shop::with_one_ready();
        let about_3 = |entry: &Entry| {
            entry.word() == left_out && entry.kind().subject().person == Some(person(3))
        };
        let kept = thinner
            .scribe
            .entries
            .iter()
            .filter(|entry| !about_3(entry))
            .cloned();
        thinner.ledger = crate::standing::Ledger::collect(kept);
        let evidence = Basis::Evidence(Vec::new());
        let refusal = thinner.refusal(2, signed_off(3, 1, thinner.scribe.now(), evidence));
        assert_eq!(refusal, Refusal::Missing(missing), "{left_out}");
        assert_eq!(refusal.rule(), Some(Rule::R4));
    }
    // An open suspension stands in the way too.
    let mut shop = Shop::with_one_ready();
    shop.sign(2, suspended(3));
    let refusal = shop.refusal(2, signed_off(3, 1, shop.scribe.now(), shop.evidence(3)));
    assert_eq!(refusal, Refusal::Missing(vec![Need::NoSuspension]));
}

#[test]
fn r4_evidence_is_about_the_same_person_scope_and_revision() {
    let mut shop = Shop::with_one_ready();
    let others = shop.scribe.entries[0].seal();
    let refusal = shop.refusal(
        2,
        signed_off(3, 1, shop.scribe.now(), Basis::Evidence(vec![others])),
    );
    assert_eq!(refusal, Refusal::NoEvidence(others));
    let elsewhere = Scope {
        cure: id("one-side"),
        ..scope()
    };
    shop.sign(
        2,
        crate::record::entry::Assigned {
            person: person(3),
            scope: elsewhere.clone(),
        },
    );
    let refusal = shop.refusal(
        2,
        SignedOff {
            scope: elsewhere,
            ..signed_off(3, 1, shop.scribe.now(), Basis::Evidence(Vec::new()))
        },
    );
    assert!(matches!(refusal, Refusal::Missing(missing) if missing.len() == 6));
    // A revision that has to be assessed anew makes all of it stale.
    shop.at("2026-02-02T08:00:00+01:00");
    let next = shop.sign(2, adopted(2, "2026-02-03T00:00:00+01:00", Impact::Reassess));
    shop.second(1, next);
    assert_eq!(
        shop.word(3, "2026-02-02T23:59:59+01:00"),
        "ready-for-sign-off"
    );
    assert_eq!(shop.word(3, "2026-02-03T00:00:00+01:00"), "in-training");
}

#[test]
fn r4_another_workflow_can_be_asked_for_first() {
    let mut shop = Shop::with_one_ready();
    shop.at("2026-02-02T08:00:00+01:00");
    let mut next = adopted(2, "2026-02-03T00:00:00+01:00", Impact::None);
    next.profile.requires = vec![id("solvent-and-skin")];
    let next = shop.sign(2, next);
    shop.second(1, next);
    let readiness = shop
        .view("2026-02-03T08:00:00+01:00")
        .readiness(person(3), &scope());
    assert_eq!(readiness.missing, [Need::Workflow(id("solvent-and-skin"))]);
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
fn r6_nobody_signs_off_themself_and_an_approver_who_trained_is_named() {
    let mut shop = Shop::with_one_ready();
    let own = shop.refusal(3, signed_off(3, 1, shop.scribe.now(), shop.evidence(3)));
    assert_eq!(own, Refusal::SelfSignOff);
    assert_eq!(own.rule(), Some(Rule::R6));
    let evidence = shop.evidence(3);
    let now = shop.scribe.now();
    shop.sign(2, signed_off(3, 1, now, evidence));
    let remarks = |shop: &Shop| match shop.standing(3, "2026-02-01T10:00:00+01:00") {
        Standing::SignedOff(validity) => validity.remarks,
        other => panic!("{other:?}"),
    };
    assert_eq!(remarks(&shop), []);
    // The same with an approver who had trained and assessed the person.
    let mut shop = Shop::with_one_ready();
    shop.scribe
        .grant(1, crate::record::scope::Authority::Approve, None);
    shop.ledger.add(shop.scribe.entries.last().unwrap().clone());
    let evidence = shop.evidence(3);
    shop.sign(1, signed_off(3, 1, now, evidence));
    assert_eq!(
        remarks(&shop),
        [Remark::ApproverTrained, Remark::ApproverAssessed]
    );
}

#[test]
fn r7_only_the_first_who_can_assess_needs_no_assessor() {
    let mut shop = Shop::with_one_ready();
    let second = shop.refusal(2, signed_off(3, 1, shop.scribe.now(), first_assessor()));
    assert_eq!(second, Refusal::NotTheFirst(person(1)));
    assert_eq!(second.rule(), Some(Rule::R7));
    let Standing::SignedOff(validity) = shop.standing(1, "2026-02-01T08:00:00+01:00") else {
        panic!("the first assessor is signed off");
    };
    assert_eq!(validity.remarks, [Remark::FirstAssessor]);
    // Where nobody can assess any longer, there has to be a first one again; the reading and the rehearsals are not waived.
    shop.at("2026-02-02T08:00:00+01:00").sign(2, suspended(1));
    shop.sign(2, assigned(4));
    let refusal = shop.refusal(2, signed_off(4, 1, shop.scribe.now(), first_assessor()));
    assert!(matches!(refusal, Refusal::Missing(missing)
        if missing[0] == Need::Read && missing.len() == 3));
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
fn r11_what_a_revision_asks_is_a_signed_decision_of_two() {
    assert_eq!(Impact::default(), Impact::Reassess);
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-03-01T08:00:00+01:00");
    let next = shop.sign(2, adopted(2, "2026-03-10T00:00:00+01:00", Impact::Reassess));
    assert_eq!(
        shop.word(3, "2026-03-31T08:00:00+01:00"),
        "signed-off",
        "one signature adopts nothing"
    );
    let own = shop.scribe.second(2, next);
    assert_eq!(admit(&shop.ledger, &own), Err(Refusal::NotASecondPerson));
    let technician = shop.scribe.second(3, next);
    assert_eq!(
        admit(&shop.ledger, &technician),
        Err(Refusal::SecondNotEntitled)
    );
    shop.second(1, next);
    assert_eq!(shop.word(3, "2026-03-31T08:00:00+01:00"), "lapsed");
    let again = shop.refusal(2, adopted(2, "2026-04-01T00:00:00+01:00", Impact::None));
    assert_eq!(again, Refusal::NotNewer(2));
    assert_eq!(again.rule(), Some(Rule::R11));
    let mut other = read(3, 2);
    other.edition.digest = digest("another text");
    assert_eq!(shop.refusal(3, other), Refusal::OtherText(2));
    assert_eq!(shop.refusal(3, read(3, 3)), Refusal::NotAdopted(3));
}

#[test]
fn r12_an_old_sign_off_covers_a_new_revision_only_as_decided() {
    let before = "2026-03-09T23:59:59+01:00";
    let after = "2026-03-10T00:00:00+01:00";
    for (impact, words) in [
        (Impact::None, ["signed-off", "signed-off", "signed-off"]),
        (Impact::Awareness, ["due", "lapsed", "signed-off"]),
        (Impact::Retrain, ["due", "lapsed", "signed-off"]),
        (Impact::Reassess, ["due", "lapsed", "lapsed"]),
    ] {
        let mut shop = Shop::with_one_signed_off();
        shop.at("2026-03-01T08:00:00+01:00");
        let next = shop.sign(2, adopted(2, after, impact));
        shop.second(1, next);
        assert_eq!(shop.word(3, before), words[0], "{impact:?}");
        assert_eq!(shop.word(3, after), words[1], "{impact:?}");
        if let Standing::Lapsed(_, cause) = shop.standing(3, after) {
            assert_eq!(cause, LapseCause::Revision(2));
        }
        shop.at("2026-03-05T08:00:00+01:00").sign(3, aware(3, 2));
        shop.sign(1, trained(3, 2));
        assert_eq!(
            shop.word(3, after),
            words[2],
            "{impact:?}, with what it asks"
        );
    }
}

#[test]
fn r12_bridging_takes_what_a_renewal_takes_on_the_new_revision() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-03-01T08:00:00+01:00");
    let next = shop.sign(2, adopted(2, "2026-03-10T00:00:00+01:00", Impact::Reassess));
    shop.second(1, next);
    let on_old = shop.sign(1, observed(3, 1, Seen::Done));
    shop.sign(3, read(3, 2));
    let refusal = shop.refusal(
        2,
        signed_off(3, 2, shop.scribe.now(), Basis::Evidence(vec![on_old])),
    );
    assert!(matches!(refusal, Refusal::Missing(ref missing)
        if missing[0] == Need::Observed(Count { have: 0, of: 1 })));
    // Before the new revision holds, people signed off on the old one assess each other on it.
    let on_new = shop.sign(1, observed(3, 2, Seen::Done));
    shop.sign(1, evaluated(3, 2, Stage::AtAssessment));
    let now = shop.scribe.now();
    shop.sign(2, signed_off(3, 2, now, Basis::Evidence(vec![on_new])));
    assert_eq!(shop.word(3, "2026-03-09T12:00:00+01:00"), "due");
    assert_eq!(shop.word(3, "2026-03-10T00:00:00+01:00"), "signed-off");
    assert_eq!(shop.word(1, "2026-03-10T00:00:00+01:00"), "lapsed");
    shop.at("2026-03-11T00:00:00+01:00");
    let old = shop.refusal(
        2,
        signed_off(3, 1, shop.scribe.now(), Basis::Evidence(Vec::new())),
    );
    assert_eq!(old, Refusal::Superseded(2));
    assert_eq!(old.rule(), Some(Rule::R12));
}

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
fn r14_grace_is_a_recorded_policy_and_none_by_default() {
    let mut shop = Shop::with_one_signed_off();
    assert_eq!(shop.word(3, "2026-08-02T00:00:00+01:00"), "lapsed");
    let with_grace = PolicySet {
        grace_days: 14,
        ..policy()
    };
    shop.at("2026-08-05T08:00:00+01:00").sign(0, with_grace);
    for (at, word) in [
        ("2026-08-05T07:59:59+01:00", "lapsed"),
        ("2026-08-05T08:00:00+01:00", "due"),
        ("2026-08-15T23:59:59+01:00", "due"),
        ("2026-08-16T00:00:00+01:00", "lapsed"),
    ] {
        assert_eq!(shop.word(3, at), word, "{at}");
    }
    let not_owner = shop.refusal(2, policy());
    assert!(matches!(not_owner, Refusal::Authority(_)));
}

#[test]
fn r15_nothing_happens_later_than_it_is_recorded() {
    let mut shop = Shop::open();
    shop.at("2026-01-12T08:00:00+01:00");
    let ahead = shop
        .scribe
        .draft(2, stamp("2026-01-12T08:00:01+01:00"), assigned(3));
    let refusal = admit(&shop.ledger, &ahead).unwrap_err();
    assert_eq!(
        (refusal.clone(), refusal.rule()),
        (Refusal::DatedAhead, Some(Rule::R15))
    );
    // What is late says why.
    shop.scribe.giving_reason(None);
    let late = shop
        .scribe
        .draft(2, stamp("2026-01-11T07:59:59+01:00"), assigned(3));
    assert_eq!(admit(&shop.ledger, &late), Err(Refusal::LateWithoutReason));
    let in_time = shop
        .scribe
        .draft(2, stamp("2026-01-11T08:00:00+01:00"), assigned(3));
    assert_eq!(admit(&shop.ledger, &in_time), Ok(()));
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

#[test]
fn a_missing_later_check_makes_due_until_it_is_made() {
    let mut shop = Shop::with_one_ready();
    let mut next = adopted(2, "2026-02-01T00:00:00+01:00", Impact::None);
    next.profile.effect_check = Some(effect_check());
    let next = shop.sign(2, next);
    shop.second(1, next);
    let evidence = shop.evidence(3);
    let now = shop.scribe.now();
    shop.sign(2, signed_off(3, 2, now, evidence));
    assert_eq!(shop.word(3, "2026-05-02T09:00:00+01:00"), "signed-off");
    let Standing::Due(_, causes) = shop.standing(3, "2026-05-02T09:00:01+01:00") else {
        panic!("due after 90 days");
    };
    assert_eq!(causes, [DueCause::EffectNotChecked]);
    // Too early to tell.
    shop.at("2026-03-01T08:00:00+01:00")
        .sign(1, evaluated(3, 2, Stage::Later));
    assert_eq!(shop.word(3, "2026-05-02T09:00:01+01:00"), "due");
    shop.at("2026-05-10T08:00:00+01:00")
        .sign(1, evaluated(3, 2, Stage::Later));
    assert_eq!(shop.word(3, "2026-05-10T08:00:00+01:00"), "signed-off");
    let not = Evaluated {
        effect: Effect::NotEffective,
        ..evaluated(3, 2, Stage::Later)
    };
    let not = shop.at("2026-05-11T08:00:00+01:00").sign(1, not);
    let Standing::Due(_, causes) = shop.standing(3, "2026-05-11T08:00:00+01:00") else {
        panic!("due at once");
    };
    assert_eq!(causes, [DueCause::NotEffective(not)]);
}

#[test]
fn a_laboratory_of_one_person_has_one_path_and_says_so() {
    use crate::record::scope::Authority::{Approve, Publish, Quality};
    let mut shop = Shop::open();
    let outside = || {
        Basis::Outside(OutsideEvidence {
            way: OutsideWay::Observation,
            assessor: digest("name of the outside assessor"),
            proof: digest("report"),
        })
    };
    for authority in [Approve, Publish, Quality] {
        shop.scribe.grant(0, authority, None);
        shop.ledger.add(shop.scribe.entries.last().unwrap().clone());
    }
    shop.at("2026-02-01T08:00:00+01:00").sign(0, assigned(0));
    shop.sign(0, read(0, 1));
    shop.note(rehearsed(0, 1));
    shop.at("2026-02-02T08:00:00+01:00").note(rehearsed(0, 1));
    let now = shop.scribe.now();
    assert_eq!(
        shop.refusal(0, signed_off(0, 1, now, outside())),
        Refusal::NotAlone
    );
    let alone = PolicySet {
        independence: Independence::NoIndependentAssessor,
        ..policy()
    };
    shop.sign(0, alone);
    assert_eq!(
        shop.refusal(0, observed(0, 1, Seen::Done)),
        Refusal::SelfAssessment
    );
    let evidence = Basis::Evidence(Vec::new());
    assert_eq!(
        shop.refusal(0, signed_off(0, 1, now, evidence)),
        Refusal::SelfSignOff
    );
    shop.sign(0, signed_off(0, 1, now, outside()));
    let Standing::SignedOff(validity) = shop.standing(0, "2026-02-03T08:00:00+01:00") else {
        panic!("signed off on what somebody from outside saw");
    };
    assert_eq!(validity.remarks, [Remark::NoIndependentAssessor]);
    // Reinstating and publishing alone, the first with proof from outside.
    let suspension = shop.sign(0, suspended(0));
    let lifted = |proof| Reinstated {
        person: person(0),
        workflow: id("stock-teeth"),
        suspension,
        evidence: vec![suspension],
        proof,
    };
    assert_eq!(shop.refusal(0, lifted(None)), Refusal::SelfReinstatement);
    shop.sign(0, lifted(Some(digest("report"))));
    assert_eq!(shop.word(0, "2026-02-03T08:00:00+01:00"), "signed-off");
    shop.sign(0, adopted(2, "2026-02-02T08:00:00+01:00", Impact::Reassess));
    assert_eq!(shop.word(0, "2026-02-03T08:00:00+01:00"), "lapsed");
}

#[test]
fn corrections_keep_the_original_and_need_a_second_person_where_it_matters() {
    let mut shop = Shop::with_one_ready();
    let seen = shop
        .scribe
        .entries
        .iter()
        .find(|entry| entry.word() == "observed")
        .unwrap()
        .seal();
    let text = |text: &str| Some(Value::Text(text.to_owned()));
    let corrected = |member: &str, old, new| Corrected {
        target: seen,
        member: id(member),
        old,
        new,
    };
    let good = || corrected("judgement", text("acceptable"), text("not-acceptable"));
    for (fact, refusal) in [
        (
            corrected("person", None, text("P-000000")),
            Refusal::NotCorrectable,
        ),
        (
            corrected("judgement", text("good"), None),
            Refusal::OldDiffers,
        ),
        (
            corrected("judgement", text("acceptable"), text("good")),
            Refusal::NewWrong,
        ),
        (
            corrected("judgement", text("acceptable"), None),
            Refusal::NewWrong,
        ),
        (corrected("colour", None, text("red")), Refusal::NewWrong),
    ] {
        assert_eq!(shop.refusal(1, fact), refusal);
    }
    assert!(matches!(shop.refusal(3, good()), Refusal::Authority(_)));
    let correction = shop.sign(1, good());
    assert_eq!(
        shop.word(3, "2026-02-01T09:00:00+01:00"),
        "ready-for-sign-off"
    );
    shop.second(2, correction);
    assert_eq!(shop.word(3, "2026-02-01T09:00:00+01:00"), "in-training");
    // It is about its target, so it counts for the time of its target.
    assert_eq!(shop.word(3, "2026-01-25T09:00:00+01:00"), "in-training");
    assert_eq!(
        shop.word_then(3, "2026-01-25T09:00:00+01:00"),
        "ready-for-sign-off"
    );
    let off = shop
        .scribe
        .entries
        .iter()
        .find(|entry| entry.word() == "granted")
        .unwrap()
        .seal();
    assert_eq!(
        shop.refusal(2, Voided { target: off }),
        Refusal::NotAmendable
    );
}

#[test]
fn what_cannot_be_shown_is_no_standing() {
    let mut shop = Shop::with_one_signed_off();
    let number = shop
        .scribe
        .entries
        .iter()
        .find(|entry| entry.word() == "evaluated")
        .unwrap();
    let number = number.frame().number;
    shop.ledger.doubt(Doubt {
        strand: id("front"),
        number,
        hidden_since: None,
    });
    let standing = |number, at| shop.view(at).standing(person(number), &scope());
    assert!(
        standing(3, "2026-01-21T08:00:00+01:00").is_ok(),
        "before the entry in doubt"
    );
    let doubted = standing(3, "2026-02-02T08:00:00+01:00").unwrap_err();
    assert_eq!(doubted.number, number);
    assert!(
        standing(1, "2026-02-02T08:00:00+01:00").is_ok(),
        "nothing about this person"
    );
    // What is missing might have been about anybody.
    shop.ledger.doubt(Doubt {
        strand: id("front"),
        number: number + 1,
        hidden_since: Some(stamp("2026-01-22T08:00:00+01:00").instant()),
    });
    let standing = |number, at| shop.view(at).standing(person(number), &scope());
    assert!(standing(1, "2026-01-21T08:00:00+01:00").is_ok());
    assert!(standing(1, "2026-02-02T08:00:00+01:00").is_err());
}

#[test]
fn a_record_is_gone_through_again_and_what_was_forced_in_is_named() {
    let mut shop = Shop::with_one_ready();
    assert_eq!(audit(shop.scribe.entries.clone()), []);
    shop.sign(2, assigned(4));
    let now = shop.scribe.now();
    let forced = shop
        .scribe
        .draft(2, now, signed_off(4, 1, now, Basis::Evidence(Vec::new())));
    let seal = shop.force(forced);
    let found = audit(shop.scribe.entries.clone());
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].0, found[0].1.rule()), (seal, Some(Rule::R4)));
}
