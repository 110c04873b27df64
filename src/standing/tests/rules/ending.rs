//! How long a sign-off holds and what ends it (R3, R11, R12, R14).

use super::super::shop::*;
use super::called_in;
use crate::record::entry::{
    Basis, Cause, Effect, Evaluated, Impact, PolicySet, RevisionAdopted, Seen, Signed, Stage,
    ValidMonths,
};
use crate::record::scribe::{digest, person, scope, stamp};
use crate::standing::{
    CarriedBy, Count, DueCause, LapseCause, Need, Reading, Refusal, Rule, Standing, View, admit,
};

#[test]
fn r3_a_sign_off_ends_after_its_months_or_by_the_earliest_trigger() {
    let mut shop = Shop::with_one_signed_off();
    let Standing::Due(validity, causes) = shop.standing(3, "2026-07-01T00:00:00+01:00") else {
        panic!("due in July");
    };
    assert_eq!(causes, [DueCause::Interval]);
    assert_eq!(validity.until, stamp("2026-08-01T23:59:59+01:00").instant());
    // Somebody calls the person in on 1 March: due at once, over after the window of 60 days.
    let call = shop.at("2026-03-01T12:00:00+01:00").sign(2, called_in(3));
    assert_eq!(shop.word(3, "2026-03-01T11:59:59+01:00"), "signed-off");
    let Standing::Due(_, causes) = shop.standing(3, "2026-03-01T12:00:00+01:00") else {
        panic!("due at once");
    };
    assert_eq!(causes, [DueCause::CalledIn(Cause::Complaint, call)]);
    assert_eq!(shop.word(3, "2026-04-30T12:00:00+01:00"), "due");
    let Standing::Lapsed(_, cause) = shop.standing(3, "2026-04-30T12:00:01+01:00") else {
        panic!("over");
    };
    assert_eq!(cause, LapseCause::NotReassessed(call));
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
    assert_eq!(again, Refusal::OtherImpact(Impact::Reassess));
    assert_eq!(again.rule(), Some(Rule::R11));
    let again = shop.refusal(2, adopted(2, "2026-04-01T00:00:00+01:00", Impact::Reassess));
    assert_eq!(again, Refusal::NotNewer(2));
    assert_eq!(again.rule(), Some(Rule::R11));
    let mut other = read(3, 2);
    other.edition.digest = digest("another text");
    assert_eq!(shop.refusal(3, other), Refusal::OtherText(2));
    assert_eq!(shop.refusal(3, read(3, 3)), Refusal::NotAdopted(3));
}

/// What a further signing of a revision by two with these numbers says.
fn with(assessors: u16, months: u16, from: &str, impact: Impact) -> RevisionAdopted {
    let mut fact = adopted(1, from, impact);
    fact.profile.first.assessors = assessors;
    fact.profile.valid_months = ValidMonths::new(vec![months]).unwrap();
    fact
}

fn impact_of_the_first(shop: &Shop) -> Impact {
    let entries = shop.ledger.entries().iter();
    let mut first = entries.filter_map(|entry| match entry.signed()?.0 {
        Signed::RevisionAdopted(fact) => Some(fact.impact),
        _ => None,
    });
    first.next().expect("a revision is adopted")
}

#[test]
fn r11_a_revision_adopted_again_changes_what_later_sign_offs_ask_for_and_no_earlier_one() {
    let mut shop = Shop::with_one_signed_off();
    let impact = impact_of_the_first(&shop);
    let ends = |shop: &Shop| match shop.standing(3, "2026-03-01T08:00:00+01:00") {
        Standing::SignedOff(validity) => validity.until,
        other => panic!("{other:?}"),
    };
    let assessors = |shop: &Shop, at: &str| {
        let readiness = shop.view(at).readiness(person(3), &scope());
        let mut all = readiness.met.into_iter().chain(readiness.missing);
        all.find_map(|need| match need {
            Need::Assessors(count) => Some(count.of),
            _ => None,
        })
    };
    let before = ends(&shop);
    shop.at("2026-02-10T08:00:00+01:00");
    let mut fact = with(2, 3, "2026-02-20T00:00:00+01:00", impact);
    fact.profile.again.assessors = 2;
    let again = shop.sign(2, fact.clone());
    assert_eq!(
        assessors(&shop, "2026-02-25T08:00:00+01:00"),
        Some(1),
        "signed by one"
    );
    // A further one waits until two have signed that; the same numbers again say nothing.
    shop.second(1, again);
    assert_eq!(assessors(&shop, "2026-02-19T23:59:59+01:00"), Some(1));
    assert_eq!(assessors(&shop, "2026-02-20T00:00:00+01:00"), Some(2));
    assert_eq!(
        ends(&shop),
        before,
        "what was signed off holds as long as it did"
    );
    assert_eq!(shop.refusal(2, fact), Refusal::NotNewer(1));
    // Only the newest revision, and only with its own text.
    let mut other = with(3, 3, "2026-02-20T00:00:00+01:00", impact);
    other.edition.digest = digest("another text");
    assert_eq!(shop.refusal(2, other), Refusal::NotNewer(1));
}

#[test]
fn r11_a_revision_that_waits_for_its_second_signature_is_not_adopted_again() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-03-01T08:00:00+01:00");
    shop.sign(2, adopted(2, "2026-03-10T00:00:00+01:00", Impact::Reassess));
    let mut again = adopted(2, "2026-03-10T00:00:00+01:00", Impact::Reassess);
    again.profile.first.observed = 1;
    assert_eq!(shop.refusal(2, again), Refusal::NotNewer(2));
    assert_eq!(
        shop.refusal(
            2,
            with(
                2,
                3,
                "2026-03-10T00:00:00+01:00",
                impact_of_the_first(&shop)
            )
        ),
        Refusal::NotNewer(2),
        "an older one neither"
    );
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
            assert_eq!(cause, LapseCause::Revision(2, next));
        }
        let noted = shop.at("2026-03-05T08:00:00+01:00").sign(3, aware(3, 2));
        let taught = shop.sign(1, trained(3, 2));
        assert_eq!(
            shop.word(3, after),
            words[2],
            "{impact:?}, with what it asks"
        );
        // What carried it over is named.
        let carried = match impact {
            Impact::None => Some(CarriedBy::NothingAsked),
            Impact::Awareness => Some(CarriedBy::Entry(noted)),
            Impact::Retrain => Some(CarriedBy::Entry(taught)),
            Impact::Reassess => None,
        };
        let at = stamp(after).instant();
        let view = View::new(&shop.ledger, at, Reading::AsNowKnown);
        let carried: Vec<_> = carried.into_iter().map(|by| (2, by)).collect();
        assert_eq!(view.carried(person(3), &scope()), carried, "{impact:?}");
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
