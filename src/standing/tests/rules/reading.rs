//! What counts when: the two readings, corrections, doubts (R1, R15).

use super::super::shop::*;
use super::{suspended, withdrawn};
use crate::record::canonical::Value;
use crate::record::entry::{Basis, Corrected, Left, Voided};
use crate::record::scribe::{id, person, scope, stamp};
use crate::standing::{Doubt, Refusal, Rule, admit, audit};

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
fn corrections_keep_the_original_and_need_a_second_person_where_it_matters() {
    let mut shop = Shop::with_one_ready();
    let seen = shop
        .scribe
        .entries
        .iter()
        .find(|entry| entry.word() == "observed")
        .unwrap()
        .seal();
    let text = |text: &str| Some(Value::Text(text.to_owned().into()));
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
fn what_rests_on_somebody_else_cannot_be_shown_either() {
    let at = "2026-02-02T08:00:00+01:00";
    let doubt = |strand| Doubt {
        strand: id(strand),
        number: 1,
        hidden_since: None,
    };
    let shown = |shop: &Shop, number| shop.view(at).standing(person(number), &scope()).is_ok();
    let mut shop = Shop::with_one_signed_off();
    shop.sign(2, assigned(4));
    // About the assessor of person 3 alone, on another strand.
    shop.scribe.on_strand("bench");
    shop.note(rehearsed(1, 1));
    shop.ledger.doubt(doubt("bench"));
    assert_eq!(
        [1, 3, 4].map(|number| shown(&shop, number)),
        [false, false, true]
    );

    // A void of an entry about person 4.
    let mut shop = Shop::with_one_signed_off();
    shop.sign(2, assigned(4));
    shop.note(rehearsed(4, 1));
    let target = shop.scribe.entries.last().unwrap().seal();
    shop.scribe.on_strand("office");
    shop.sign(2, Voided { target });
    shop.ledger.doubt(doubt("office"));
    assert_eq!(
        [1, 3, 4].map(|number| shown(&shop, number)),
        [true, true, false]
    );
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
