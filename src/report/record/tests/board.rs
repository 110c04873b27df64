//! The board of the day: whom it names, and that it says what the file of the person says.

use super::super::scopes::in_scope;
use super::super::*;
use super::{at, mentions, name, telling};
use crate::record::entry::{Effect, Evaluated, Impact, Stage};
use crate::record::scribe::{person, scope};
use crate::standing::Need;
use crate::standing::tests::shop::{Shop, adopted, evaluated};

/// What the board of somebody says, on one line.
fn told(shop: &Shop, viewer: u8, now: &str) -> String {
    let board = board(&shop.ledger, at(now), person(viewer));
    telling(&shop.ledger, |telling| super::texts(&board.blocks(telling)))
}

#[test]
fn whoever_lacks_only_the_evaluation_stands_on_the_board_of_an_assessor() {
    let mut shop = Shop::with_one_ready();
    let now = "2026-02-01T09:00:00+01:00";
    mentions(&told(&shop, 1, now), "ready for sign-off");
    // It did not work, says the last evaluation; everything else is there.
    shop.sign(
        1,
        Evaluated {
            effect: Effect::NotEffective,
            ..evaluated(3, 1, Stage::AtAssessment)
        },
    );
    let said = told(&shop, 1, now);
    mentions(&said, &name(person(3)));
    mentions(
        &said,
        "have an assessor evaluate whether the training worked",
    );
    // Somebody who lacks more than that does not.
    let january = told(&shop, 1, "2026-01-20T12:00:00+01:00");
    assert!(!january.contains(&name(person(3))), "{january}");
}

#[test]
fn the_board_and_the_file_say_the_next_step_in_the_same_words() {
    let shop = Shop::with_one_ready();
    let now = "2026-01-12T09:00:00+01:00";
    let view = shop.view(now);
    let of = in_scope(view, person(3), scope());
    let step = telling(&shop.ledger, |telling| next_step(&of, telling));
    mentions(&step, "Next: ");
    mentions(&told(&shop, 3, now), &step);
}

#[test]
fn whoever_can_be_the_first_assessor_is_asked_for_nothing_that_takes_another() {
    let shop = Shop::open();
    let before = in_scope(shop.view("2026-01-07T12:00:00+01:00"), person(1), scope());
    assert!(before.could_be_first);
    let first = before
        .readiness
        .as_ref()
        .and_then(|list| list.missing.first());
    assert_eq!(first, Some(&Need::Protection));
    assert!(matches!(before.first_missing(), Some(Need::CleanRuns(_))));
    let said = told(&shop, 1, "2026-01-07T12:00:00+01:00");
    mentions(&said, "clean unaided rehearsal");
    // Once somebody is signed off, nobody is the first, and who may not assess never was.
    let later = "2026-01-12T09:00:00+01:00";
    let shop = Shop::with_one_ready();
    let other = in_scope(shop.view(later), person(3), scope());
    assert!(!other.could_be_first);
    let signed = in_scope(shop.view(later), person(1), scope());
    assert!(!signed.could_be_first);
}

#[test]
fn a_first_assessor_who_lacks_nothing_else_waits_for_the_signature_alone() {
    let mut shop = Shop::open();
    // Another scope, in which nobody is signed off.
    let mut wanted = crate::standing::tests::shop::assigned(1);
    wanted.scope.wash = "orbital".parse().unwrap();
    let now = "2026-01-09T08:00:00+01:00";
    let elsewhere = wanted.scope.clone();
    shop.at(now).sign(2, wanted);
    let of = in_scope(shop.view(now), person(1), elsewhere);
    assert!(of.could_be_first);
    assert_eq!(of.first_missing(), None);
    let step = telling(&shop.ledger, |telling| next_step(&of, telling));
    mentions(&step, "signed off as a first assessor");
    mentions(&told(&shop, 2, now), &step);
}

#[test]
fn what_waits_for_somebody_else_says_for_whom() {
    let mut shop = Shop::with_one_signed_off();
    let next = adopted(2, "2026-03-01T00:00:00+01:00", Impact::None);
    shop.at("2026-02-10T08:00:00+01:00").sign(2, next);
    let said = told(&shop, 2, "2026-02-10T12:00:00+01:00");
    let who = said.split_once("Could sign it now: ").map(|(_, rest)| rest);
    let (who, _) = who.and_then(|rest| rest.split_once('.')).unwrap();
    for (number, could) in [(0, true), (1, true), (2, false), (3, false)] {
        assert_eq!(
            who.contains(&name(person(number))),
            could,
            "{number}: {said}"
        );
    }
}
