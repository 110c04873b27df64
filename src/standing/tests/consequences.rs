//! What would follow from an entry, against the fold itself once the entry is there; and who could do what somebody may not.

use super::rules::suspended;
use super::shop::*;
use crate::record::entry::{Assigned, Basis, Impact, Reinstated, Seen, Suspended, Voided};
use crate::record::scope::{Authority, Scope};
use crate::record::scribe::{id, person, scope, stamp};
use crate::standing::{
    Holders, Need, Reading, Refusal, View, consequences, could_sign_instead, holders, lacking,
};

#[test]
fn a_suspension_shows_whose_standing_changes_and_the_cases_to_look_at() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00");
    let draft = shop.scribe.draft(1, shop.scribe.now(), suspended(3));
    let before = shop.word(3, "2026-02-10T08:00:00+01:00");
    let then = consequences(&shop.ledger, &draft);
    let [change] = then.changes.as_slice() else {
        panic!("{:?}", then.changes);
    };
    assert_eq!(change.person, person(3));
    assert_eq!(change.before.as_ref().unwrap().word(), before);
    assert_eq!(change.after.as_ref().unwrap().word(), "suspended");
    assert!(change.ends() && then.seconds.is_none());
    // One case that was checked, two that were watched, one blind sample, all of January.
    assert_eq!(then.cases.len(), 4, "{:?}", then.cases);
    let seal = shop.admit(draft);
    assert_eq!(then.with.get(&seal).map(|entry| entry.seal()), Some(seal));
    assert_eq!(shop.word(3, "2026-02-10T08:00:00+01:00"), "suspended");
}

#[test]
fn what_takes_two_is_shown_as_it_counts_with_a_second_signature() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-03-01T08:00:00+01:00");
    let suspension = shop.sign(1, suspended(3));
    let seen = shop.sign(1, observed(3, 1, Seen::Done));
    let lifting = Reinstated {
        person: person(3),
        workflow: id("stock-teeth"),
        suspension,
        evidence: vec![seen],
        proof: None,
    };
    shop.at("2026-03-02T08:00:00+01:00");
    let draft = shop.scribe.draft(2, shop.scribe.now(), lifting);
    let then = consequences(&shop.ledger, &draft);
    let seconds = then.seconds.unwrap();
    // The first signer and the person that it is about are none.
    assert!(seconds.contains(&person(1)) && !seconds.contains(&person(2)));
    assert!(!seconds.contains(&person(3)));
    let after = then.changes[0].after.as_ref().unwrap();
    assert_eq!(after.word(), "signed-off");
}

#[test]
fn a_revision_shows_everybody_whom_it_reaches_from_its_day() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00");
    let holds = "2026-03-01T00:00:00+01:00";
    let draft = shop
        .scribe
        .draft(2, shop.scribe.now(), adopted(2, holds, Impact::Reassess));
    let then = consequences(&shop.ledger, &draft);
    let people: Vec<_> = then.changes.iter().map(|one| one.person).collect();
    assert_eq!(people, [person(1), person(3)]);
    for change in &then.changes {
        assert_eq!(change.before.as_ref().unwrap().word(), "signed-off");
        assert_eq!(change.after.as_ref().unwrap().word(), "lapsed");
    }
    let none = adopted(2, holds, Impact::None);
    let draft = shop.scribe.draft(2, shop.scribe.now(), none);
    assert_eq!(consequences(&shop.ledger, &draft).changes, []);
}

#[test]
fn a_stopped_assessor_shows_whose_evidence_to_look_at_in_that_workflow() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00");
    let now = shop.scribe.now();
    let then = consequences(&shop.ledger, &shop.scribe.draft(2, now, suspended(1)));
    let [(judged, workflow, count)] = then.judged.as_slice() else {
        panic!("{:?}", then.judged);
    };
    assert_eq!((*judged, workflow), (person(3), &id("stock-teeth")));
    assert!(*count >= 2, "{count}");
    let elsewhere = Suspended {
        workflow: id("wet-resin"),
        ..suspended(1)
    };
    let then = consequences(&shop.ledger, &shop.scribe.draft(2, now, elsewhere));
    assert_eq!(then.judged, []);
}

#[test]
fn a_scope_that_nobody_was_assigned_to_is_told_with_those_that_there_are() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00");
    let now = shop.scribe.now();
    let other_scopes = |scope: &Scope| {
        let assigned = Assigned {
            person: person(2),
            scope: scope.clone(),
        };
        consequences(&shop.ledger, &shop.scribe.draft(1, now, assigned)).other_scopes
    };
    let known = scope();
    assert_eq!(other_scopes(&known), []);
    let slip = Scope {
        wash: id("ultrasoinc"),
        ..known.clone()
    };
    assert_eq!(other_scopes(&slip), std::slice::from_ref(&known));
    let first = Scope {
        workflow: id("repair"),
        ..known
    };
    assert_eq!(
        other_scopes(&first),
        [],
        "the first of a workflow is no slip"
    );
}

#[test]
fn a_sign_off_tells_what_it_leaves_out_before_and_after_it_is_signed() {
    let mut shop = Shop::with_one_ready();
    let Basis::Evidence(all) = shop.evidence(3) else {
        panic!("there is evidence");
    };
    let at = stamp("2026-02-01T09:00:00+01:00");
    let named = all[1..].to_vec();
    let fewer = signed_off(3, 1, at, Basis::Evidence(named));
    let draft = shop.scribe.draft(2, shop.scribe.now(), fewer);
    let left_out = consequences(&shop.ledger, &draft).left_out;
    assert!(left_out.contains(&all[0]));
    assert!(all[1..].iter().all(|seal| !left_out.contains(seal)));
    // What comes later was not there to be named.
    let seal = shop.admit(draft);
    shop.at("2026-02-03T08:00:00+01:00")
        .sign(1, observed(3, 1, Seen::Done));
    let view = View::new(
        &shop.ledger,
        shop.scribe.now().instant(),
        Reading::AsNowKnown,
    );
    let entry = shop.ledger.get(&seal).unwrap();
    assert_eq!(view.left_out(entry), left_out);
}

#[test]
fn a_void_shows_the_sign_offs_that_rest_on_what_is_voided() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00");
    let entries = shop.ledger.entries().iter();
    let mut seen = entries.filter(|entry| entry.word() == "observed");
    let target = seen.next().unwrap().seal();
    let draft = shop.scribe.draft(1, shop.scribe.now(), Voided { target });
    let then = consequences(&shop.ledger, &draft);
    assert_eq!(then.resting.len(), 1);
    let resting = shop.ledger.get(&then.resting[0]).unwrap();
    assert_eq!(resting.word(), "signed-off");
    assert_eq!(then.changes[0].after.as_ref().unwrap().word(), "due");
}

#[test]
fn whoever_may_not_sign_is_told_who_could() {
    let mut shop = Shop::with_one_ready();
    let basis = shop.evidence(3);
    let from = shop.scribe.now();
    let draft = shop.scribe.draft(4, from, signed_off(3, 1, from, basis));
    // Only 2 may approve; the person themself never could.
    assert_eq!(could_sign_instead(&shop.ledger, &draft), [person(2)]);
    shop.at("2026-02-02T09:00:00+01:00");
}

#[test]
fn whoever_has_the_right_is_named_whatever_else_speaks_against_it() {
    let shop = Shop::open();
    let publish = [Authority::Publish];
    // It is adopted already, so that nobody could sign it.
    let again = adopted(1, "2026-01-07T00:00:00+01:00", Impact::Reassess);
    let of = |by: u8| shop.scribe.draft(by, shop.scribe.now(), again.clone());
    assert_eq!(could_sign_instead(&shop.ledger, &of(4)), []);
    let (have, give) = (vec![person(1), person(2)], vec![person(0)]);
    let both = Holders { have, give };
    assert_eq!(holders(&shop.ledger, &of(4), &publish), both);
    // Whoever asks is not meant.
    assert_eq!(holders(&shop.ledger, &of(1), &publish).have, [person(2)]);
    // A right that nobody has can be given by the owner alone.
    let nobody = holders(&shop.ledger, &of(4), &[Authority::Administer]);
    assert_eq!((nobody.have, nobody.give), (vec![], vec![person(0)]));
}

#[test]
fn what_is_missing_is_named_with_who_could_do_it() {
    let mut shop = Shop::open();
    shop.at("2026-01-12T08:00:00+01:00").sign(2, assigned(3));
    let from = shop.scribe.now();
    let basis = shop.evidence(3);
    let draft = shop.scribe.draft(2, from, signed_off(3, 1, from, basis));
    let Refusal::Missing(missing) = shop.refusal(2, signed_off(3, 1, from, shop.evidence(3)))
    else {
        panic!("something is missing");
    };
    let able = lacking(&shop.ledger, &draft, &missing);
    assert_eq!(able.len(), missing.len());
    for (need, able) in able {
        let who = match need {
            Need::Read | Need::CleanRuns(_) | Need::CleanDays(_) => person(3),
            _ => person(1),
        };
        assert_eq!(able, [who], "{need:?}");
    }
}
