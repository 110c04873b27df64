//! When somebody is signed off, and on what ground (R2, R4, R6, R7).

use super::super::shop::*;
use super::suspended;
use crate::record::entry::{
    Basis, Entry, Impact, Independence, OutsideEvidence, OutsideWay, PolicySet, Reinstated, Seen,
    SignedOff,
};
use crate::record::scope::Scope;
use crate::record::scribe::{digest, id, person, scope, stamp};
use crate::record::seal::Seal;
use crate::standing::{Count, Need, Reading, Refusal, Remark, Rule, Standing, View, admit};

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
fn rehearsals_that_a_laboratory_does_not_ask_for_are_neither_missing_nor_counted() {
    let mut shop = Shop::open();
    let mut next = adopted(2, "2026-01-08T08:00:00+01:00", Impact::None);
    (next.profile.first.clean_runs, next.profile.first.clean_days) = (0, 0);
    let next = shop.sign(2, next);
    shop.second(1, next);
    shop.at("2026-01-12T08:00:00+01:00").sign(2, assigned(4));
    shop.sign(4, read(4, 2));
    shop.sign(1, protected(4));
    let readiness = shop
        .view("2026-01-12T08:00:00+01:00")
        .readiness(person(4), &scope());
    let rehearsal = |need: &Need| matches!(need, Need::CleanRuns(_) | Need::CleanDays(_));
    let mut all = readiness.met.iter().chain(&readiness.missing);
    assert!(!all.any(rehearsal), "{readiness:?}");
    // Nothing else is asked for before supervised work.
    assert!(readiness.may_be_supervised(), "{readiness:?}");
    // One who does rehearse all the same is counted as before: not at all.
    shop.note(rehearsed(4, 2));
    let after = shop
        .view("2026-01-12T08:00:00+01:00")
        .readiness(person(4), &scope());
    assert_eq!(after, readiness);
}

#[test]
fn what_is_left_out_of_what_was_seen_asks_for_a_reason() {
    let mut shop = Shop::with_one_ready();
    let view = View::new(
        &shop.ledger,
        shop.scribe.now().instant(),
        Reading::AsNowKnown,
    );
    let mut seen = view.assessed_since(person(3), &scope(), None);
    let mut judged = |evidence: &[Seal], reason| {
        shop.scribe.giving_reason(reason);
        let now = shop.scribe.now();
        let fact = signed_off(3, 1, now, Basis::Evidence(evidence.to_vec()));
        admit(&shop.ledger, &shop.scribe.draft(2, now, fact))
    };
    assert_eq!(judged(&seen, None), Ok(()));
    let all = seen.len();
    seen.truncate(1);
    let refused = Err(Refusal::LeftOutWithoutReason(all - 1));
    assert_eq!(judged(&seen, None), refused);
    assert_eq!(judged(&seen, Some("the material was another")), Ok(()));
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
