//! The file of a person, one entry in full, the list of entries.

use super::super::*;
use super::{at, holds, mentions, named, telling, texts};
use crate::record::entry::{
    Allowed, CalledIn, Cause, Entry, Left, Seen, Signed, Suspended, Withdrawn, WorkflowRetired,
};
use crate::record::scribe::{id, person, scope, stamp};
use crate::record::seal::Seal;
use crate::report::Block;
use crate::standing::Doubt;
use crate::standing::tests::shop::{Shop, observed, signed_off, trained};

const MARCH: &str = "2026-03-01T12:00:00+01:00";

pub(super) fn file(shop: &Shop, number: u8, asked: AsOf) -> String {
    let file = technician(&shop.ledger, person(number), asked);
    telling(&shop.ledger, |telling| texts(&file.blocks(telling)))
}

pub(super) fn one(shop: &Shop, seal: &Seal) -> String {
    let one = entry(&shop.ledger, seal).unwrap();
    telling(&shop.ledger, |telling| {
        texts(&one.blocks(Beside::default(), telling))
    })
}

pub(super) fn shown(shop: &Shop, seal: &Seal) -> String {
    telling(&shop.ledger, |telling| telling.entry(seal))
}

pub(super) fn sealed(shop: &Shop, word: &str, number: u8) -> Seal {
    let mut all = shop.ledger.about(person(number));
    all.find(|entry| entry.word() == word).unwrap().seal()
}

fn suspended() -> Suspended {
    Suspended {
        person: person(3),
        workflow: id("stock-teeth"),
        allowed: Allowed::Supervised,
    }
}

#[test]
fn a_file_says_where_a_person_stands_since_when_until_when_and_by_whom() {
    let shop = Shop::with_one_signed_off();
    let told = file(&shop, 3, at(MARCH));
    holds(&told, &format!("Record of {}", named(3)));
    mentions(&told, "As of 2026-03-01 12:00 +01:00, as now known");
    let sentence = format!(
        "Signed off from 2026-02-01 09:00 +01:00 until 2026-08-01 23:59 +01:00, by {}, on revision 1.",
        named(2)
    );
    holds(&told, &sentence);
    let sign_off = sealed(&shop, "signed-off", 3);
    holds(
        &told,
        &format!("Shown by the entry {}.", shown(&shop, &sign_off)),
    );
    assert_eq!(
        shown(&shop, &sign_off),
        format!("front/36 ({})", &sign_off.to_string()[..12])
    );
    let due = file(&shop, 3, at("2026-06-03T00:00:00+01:00"));
    mentions(
        &due,
        "Due: may still work alone, until 2026-08-01 23:59 +01:00.",
    );
    holds(&due, "Due because its end is near or has passed.");
    let lapsed = file(&shop, 3, at("2026-08-02T00:00:00+01:00"));
    mentions(
        &lapsed,
        "Lapsed: was signed off from 2026-02-01 09:00 +01:00 until 2026-08-01 23:59",
    );
    holds(&lapsed, "Lapsed because its time was over.");
    holds(&file(&shop, 4, at(MARCH)), "No need is recorded.");
    holds(
        &file(&shop, 5, at(MARCH)),
        "Not in the laboratory at that time.",
    );
}

#[test]
fn what_is_there_and_what_is_missing_is_counted() {
    let shop = Shop::with_one_signed_off();
    let training = file(&shop, 3, at("2026-01-12T12:00:00+01:00"));
    mentions(&training, "In training. Assigned 2026-01-12 08:00 +01:00.");
    let (missing, there) = training.split_once("\nThere:\n").unwrap();
    for line in [
        "clean unaided rehearsals (1 of 2)",
        "different days with a clean unaided rehearsal (1 of 2)",
        "observed runs that were passed (0 of 2)",
    ] {
        holds(missing, line);
    }
    holds(there, "the edition read");
    let supervised = file(&shop, 3, at("2026-01-20T12:00:00+01:00"));
    let sentence = format!(
        "Under supervision of {} from 2026-01-14 08:00 +01:00 until 2026-02-28 18:00 +01:00.",
        named(1)
    );
    holds(&supervised, &sentence);
    holds(&supervised, "observed runs that were passed (1 of 2)");
    let supervision = sealed(&shop, "supervised-by", 3);
    holds(
        &supervised,
        &format!("Shown by the entry {}.", shown(&shop, &supervision)),
    );
    let ready = file(&shop, 3, at("2026-01-31T12:00:00+01:00"));
    mentions(
        &ready,
        "Ready for sign-off: everything is there but the signature.",
    );
    holds(&ready, "Nothing is missing.");
}

#[test]
fn what_stops_a_person_is_told_with_when_and_by_whom() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00");
    let called = CalledIn {
        person: person(3),
        scope: scope(),
        cause: Cause::Complaint,
    };
    shop.sign(2, called);
    holds(
        &file(&shop, 3, at("2026-02-10T12:00:00+01:00")),
        "Due because the person was called in: a complaint, an error or a remake.",
    );
    shop.at("2026-02-12T08:00:00+01:00").sign(2, suspended());
    let told = file(&shop, 3, at("2026-02-12T12:00:00+01:00"));
    let sentence = format!(
        "Suspended since 2026-02-12 08:00 +01:00, by {}. Still allowed: work under supervision. Reason: \"as agreed\"",
        named(2)
    );
    holds(&told, &sentence);
    holds(&told, "no open suspension");
    let withdrawn = Withdrawn {
        person: person(3),
        scope: scope(),
    };
    shop.at("2026-02-13T08:00:00+01:00").sign(2, withdrawn);
    let told = file(&shop, 3, at("2026-02-13T12:00:00+01:00"));
    holds(
        &told,
        &format!("Withdrawn since 2026-02-13 08:00 +01:00, by {}.", named(2)),
    );
    let retired = WorkflowRetired {
        workflow: id("stock-teeth"),
    };
    shop.at("2026-02-14T08:00:00+01:00").sign(2, retired);
    let told = file(&shop, 3, at("2026-02-14T12:00:00+01:00"));
    mentions(
        &told,
        "Left: the workflow is no longer done since 2026-02-14 08:00 +01:00",
    );
    shop.at("2026-02-15T08:00:00+01:00")
        .sign(0, Left { person: person(3) });
    let told = file(&shop, 3, at("2026-02-15T12:00:00+01:00"));
    holds(
        &told,
        &format!("Left: 2026-02-15 08:00 +01:00, recorded by {}.", named(0)),
    );
}

#[test]
fn what_cannot_be_shown_says_from_where_on() {
    let mut shop = Shop::with_one_signed_off();
    shop.ledger.doubt(Doubt {
        strand: id("front"),
        number: 30,
        hidden_since: None,
    });
    let told = file(&shop, 3, at(MARCH));
    holds(
        &told,
        "Cannot be shown: something is wrong in the strand front from entry 30 on, and this rests on it.",
    );
    assert!(!told.contains("Signed off from"), "{told}");
}

#[test]
fn remarks_are_printed_with_the_sign_off() {
    let mut shop = Shop::open();
    holds(
        &file(&shop, 1, at(MARCH)),
        "Remark: signed off as the first assessor. Nobody else could assess yet.",
    );
    shop = Shop::with_one_ready();
    shop.scribe
        .grant(1, crate::record::scope::Authority::Approve, None);
    let grant = shop.scribe.entries.last().unwrap().clone();
    shop.ledger.add(grant);
    let evidence = shop.evidence(3);
    shop.sign(
        1,
        signed_off(3, 1, stamp("2026-02-01T09:00:00+01:00"), evidence),
    );
    let told = file(&shop, 3, at(MARCH));
    holds(
        &told,
        "Remark: whoever approved had also trained the person.",
    );
    holds(
        &told,
        "Remark: whoever approved had also assessed the person.",
    );
}

#[test]
fn an_entry_is_told_in_full_and_with_what_rests_on_it() {
    let shop = Shop::with_one_signed_off();
    for entry in shop.ledger.entries() {
        let told = one(&shop, &entry.seal());
        holds(&told, &format!("Entry {}", id_of(entry)));
        holds(&told, &format!("Seal: {}", entry.seal()));
        holds(&told, &format!("Happened: {}", told_time(entry)));
        match entry.signed() {
            Some((_, signing)) => {
                let by = telling(&shop.ledger, |telling| telling.person(signing.by));
                holds(&told, &format!("Signed by: {by}"));
                holds(&told, &format!("Key: {}", signing.key.0));
            }
            None => holds(&told, "Nobody signed it: the program noted it."),
        }
    }
    let observed = sealed(&shop, "observed", 3);
    let told = one(&shop, &observed);
    holds(&told, "first-wash (critical): done unaided");
    let (_, later) = told.split_once("What was said about it later").unwrap();
    mentions(later, "signed off");
    let sign_off = one(&shop, &sealed(&shop, "signed-off", 3));
    let (_, names) = sign_off.split_once("Entries that it names").unwrap();
    mentions(names, &shown(&shop, &observed));
    let adopted = shop
        .ledger
        .entries()
        .iter()
        .find(|entry| entry.word() == "revision-adopted");
    let told = one(&shop, &adopted.unwrap().seal());
    mentions(&told, &format!("Also signed by {}", named(1)));
    holds(&told, "Clean unaided rehearsals: 2");
    assert!(entry(&shop.ledger, &Seal::of(b"nothing")).is_none());
}

fn told_time(entry: &Entry) -> String {
    let text = entry.frame().happened.to_string();
    format!("{} {} {}", &text[..10], &text[11..19], &text[19..])
}

#[test]
fn a_list_has_a_line_for_each_entry_that_is_given() {
    let shop = Shop::with_one_signed_off();
    let list = entries(&shop.ledger, shop.ledger.about(person(3)));
    let told = telling(&shop.ledger, |telling| texts(&list.blocks(telling)));
    holds(&told, "There are 15 entries.");
    holds(
        &told,
        "front/32 | 2026-01-20 08:00 +01:00 | observed | P-31234C | P-11234A",
    );
    let none = entries(&shop.ledger, []);
    let told = telling(&shop.ledger, |telling| texts(&none.blocks(telling)));
    holds(&told, "There are no entries.");
}

#[test]
fn an_erased_person_is_named_by_the_code_once() {
    let shop = Shop::with_one_signed_off();
    let words = super::words();
    let nobody = |code| erased(code, &words);
    let telling = Telling {
        ledger: &shop.ledger,
        words: &words,
        names: &nobody,
    };
    let told = texts(&technician(&shop.ledger, person(3), at(MARCH)).blocks(&telling));
    holds(&told, "Record of erased person P-31234C");
    assert!(
        !told.contains("Tom") && !told.contains("(P-31234C)"),
        "{told}"
    );
}

#[test]
fn whoever_is_sent_back_to_training_stands_on_the_board_of_those_who_look_after_them() {
    let told = |shop: &Shop, viewer: u8, when: &str| {
        let board = board(&shop.ledger, at(when), person(viewer));
        telling(&shop.ledger, |telling| texts(&board.blocks(telling)))
    };
    let trainee = crate::report::record::tests::name(person(3));
    let line = |why: &str| format!("{trainee}, stock-teeth: back in training{why}");
    let mut shop = Shop::with_one_ready();
    let before = told(&shop, 1, "2026-02-01T09:30:00+01:00");
    assert!(!before.contains("back in training"), "{before}");
    shop.at("2026-02-02T09:00:00+01:00")
        .sign(1, observed(3, 1, Seen::NotDone));
    let failed = ": a run was failed, and no training came after it yet.";
    for viewer in [0, 1, 2] {
        let told = told(&shop, viewer, "2026-02-02T10:00:00+01:00");
        holds(&told, &line(failed));
    }
    // The person themself is told the same; another technician sees nobody but themself.
    let own = told(&shop, 3, "2026-02-02T10:00:00+01:00");
    holds(&own, &format!("stock-teeth: back in training{failed}"));
    let other = told(&shop, 4, "2026-02-02T10:00:00+01:00");
    assert!(!other.contains("back in training"), "{other}");
    shop.at("2026-02-03T09:00:00+01:00").sign(1, trained(3, 1));
    let again = told(&shop, 1, "2026-02-03T10:00:00+01:00");
    assert!(!again.contains("back in training"), "{again}");
    // Supervision ends on 28 February.
    let over = told(&shop, 1, MARCH);
    let unsupervised = ": nobody supervises any more. Somebody has to take it over.";
    holds(&over, &line(unsupervised));
}

#[test]
fn steps_are_told_by_their_titles_and_what_is_kept_beside_comes_before_seals() {
    let shop = Shop::with_one_signed_off();
    let seal = sealed(&shop, "observed", 3);
    let one = entry(&shop.ledger, &seal).unwrap();
    let stored = shop.ledger.get(&seal).unwrap();
    let Some((Signed::Observed(seen), _)) = stored.signed() else {
        panic!("observed");
    };
    let step = seen.steps[0].step.to_string();
    let beside = Beside {
        titles: [(step.clone(), "Put the gloves on".to_owned())].into(),
        told: vec![Block::Paragraph("Lot 17.".to_owned())],
    };
    let told = telling(&shop.ledger, |telling| texts(&one.blocks(beside, telling)));
    mentions(&told, &format!("Put the gloves on [{step}]"));
    let at = |what: &str| told.find(what).unwrap_or_else(|| panic!("{what}: {told}"));
    assert!(at("Put the gloves on") < at("Lot 17."));
    assert!(at("Lot 17.") < at("Seal:") && at("Lot 17.") < at("Signed by"));
}
