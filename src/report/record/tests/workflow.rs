//! The file of a workflow, the next step of a person, a cell of the table.

use serde_json::to_value;

use super::super::*;
use super::reports::{file, sealed};
use super::{at, holds, mentions, named, telling, texts, then};
use crate::record::entry::{Allowed, CalledIn, Cause, Suspended};
use crate::record::scribe::{id, person, scope};
use crate::standing::Reading;
use crate::standing::tests::shop::Shop;

const MARCH: &str = "2026-03-01T12:00:00+01:00";

fn told(shop: &Shop, asked: AsOf) -> String {
    let file = workflow(&shop.ledger, &id("stock-teeth"), asked);
    telling(&shop.ledger, |telling| texts(&file.blocks(telling)))
}

#[test]
fn the_file_of_a_workflow_says_who_covers_it_and_on_which_edition() {
    let shop = Shop::with_one_signed_off();
    let march = told(&shop, at(MARCH));
    holds(&march, "Workflow stock-teeth");
    mentions(&march, "As of 2026-03-01 12:00 +01:00, as now known");
    mentions(&march, "May work alone: 2 of");
    mentions(&march, "Of these may assess: 1.");
    mentions(&march, &named(3));
    mentions(&march, "revision 1, from");
    mentions(&march, "In force since");
    holds(&march, "Clean unaided rehearsals: 2");
    holds(&march, "Nobody, as things stand.");
    // Two months before its end the sign-off is due.
    let may = told(&shop, at("2026-05-15T12:00:00+01:00"));
    let (_, soon) = may
        .split_once("To be assessed again within 60 days")
        .unwrap();
    let (soon, _) = soon.split_once("Where everybody stands").unwrap();
    mentions(soon, &named(3));
    // Why: nothing is the matter yet, and its end will be near.
    let why = "Due because its end is near or has passed.";
    mentions(soon, &format!("By then: {why}"));
    let june = told(&shop, at("2026-06-20T12:00:00+01:00"));
    let (_, soon) = june.split_once("60 days").unwrap();
    let (soon, _) = soon.split_once("Where everybody stands").unwrap();
    assert!(soon.contains(why) && !soon.contains("By then"), "{soon}");
    // Before anything was adopted there is nothing to hold.
    let before = told(&shop, at("2025-12-01T12:00:00+01:00"));
    holds(&before, "None was adopted by then.");
    holds(&before, "Nobody has a need recorded for it.");
}

#[test]
fn the_file_of_a_workflow_is_the_same_for_machines() {
    let shop = Shop::with_one_signed_off();
    let ledger = &shop.ledger;
    let file = to_value(workflow(ledger, &id("stock-teeth"), at(MARCH)).json(ledger)).unwrap();
    assert_eq!(file["kind"], "drybench-workflow");
    assert_eq!(file["workflow"], "stock-teeth");
    assert_eq!(file["may-work-alone"].as_array().unwrap().len(), 2);
    assert_eq!(file["editions"][0]["in-force"], true);
    assert_eq!(file["editions"][0]["by"].as_array().unwrap().len(), 2);
    let standings = file["standings"].as_array().unwrap();
    let third = standings
        .iter()
        .find(|one| one["person"] == person(3).to_string())
        .unwrap();
    assert_eq!(third["standing"]["standing"], "signed-off");
    assert_eq!(third["due-soon"], false);
    let newest = sealed(&shop, "signed-off", 3).to_string();
    assert_eq!(file["entries"][0]["seal"], newest);
}

#[test]
fn everybody_is_told_what_comes_next() {
    let mut shop = Shop::with_one_signed_off();
    for (day, next) in [
        (
            "2026-01-12T12:00:00+01:00",
            "Next: 1 more clean unaided rehearsal, on 1 more day.",
        ),
        (
            "2026-01-20T12:00:00+01:00",
            "Next: 1 more observed run that you pass.",
        ),
        (
            "2026-01-31T12:00:00+01:00",
            "Next: have somebody who may approve sign it off. Everything else is there.",
        ),
        (
            MARCH,
            "Next: nothing is asked for now. Be assessed again before 2026-08-01 23:59 +01:00; practice is worth it at any time.",
        ),
        (
            "2026-06-10T12:00:00+01:00",
            "Next: 1 more observed run that you pass. All of it before 2026-08-01 23:59 +01:00.",
        ),
        (
            "2026-08-02T12:00:00+01:00",
            "Next: 1 more observed run that you pass. Until then, work under supervision only.",
        ),
    ] {
        holds(&file(&shop, 3, at(day)), next);
    }
    shop.at("2026-02-12T08:00:00+01:00");
    shop.sign(
        2,
        Suspended {
            person: person(3),
            workflow: id("stock-teeth"),
            allowed: Allowed::Supervised,
        },
    );
    mentions(
        &file(&shop, 3, at("2026-02-12T12:00:00+01:00")),
        "Next: clear up what led to the suspension.",
    );
}

#[test]
fn rehearsals_are_never_called_due() {
    let shop = Shop::with_one_signed_off();
    for day in 1..=28 {
        let asked = at(&format!("2026-01-{day:02}T12:00:00+01:00"));
        let told = file(&shop, 3, asked);
        for line in told.lines().filter(|line| line.contains("rehears")) {
            assert!(!line.to_lowercase().contains("due"), "{line}");
        }
    }
}

#[test]
fn a_glance_says_what_the_whole_cell_says() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00");
    let call = shop.sign(
        2,
        CalledIn {
            person: person(3),
            scope: scope(),
            cause: Cause::Complaint,
        },
    );
    let workflow = id("stock-teeth");
    for number in 0..=5 {
        for month in 1..=12 {
            for asked in [at, then] {
                let asked = asked(&format!("2026-{month:02}-15T12:00:00+01:00"));
                let seen = glance(&shop.ledger, asked, person(number), &workflow);
                let full = cell(&shop.ledger, asked, person(number), &workflow);
                assert_eq!(seen.words(), full.words(), "{number} {month}");
                assert_eq!(seen.may_work_alone(), full.in_force());
                let told = telling(&shop.ledger, |telling| texts(&full.blocks(telling)));
                assert!(!told.is_empty());
            }
        }
    }
    let march = cell(&shop.ledger, at(MARCH), person(3), &workflow);
    // What made it due leads, and the sign-off that goes on is told with it.
    assert_eq!(march.words(), ["due"]);
    assert_eq!(march.proof(), Some(call));
    let before = cell(
        &shop.ledger,
        at("2026-02-05T12:00:00+01:00"),
        person(3),
        &workflow,
    );
    assert_eq!(before.proof(), Some(sealed(&shop, "signed-off", 3)));
    // Nobody assessed again within the window: what ended the sign-off is the call, and both are told.
    let asked = at("2026-05-01T12:00:00+02:00");
    let may = cell(&shop.ledger, asked, person(3), &workflow);
    assert_eq!(may.words(), ["lapsed"]);
    assert_eq!(may.proof(), Some(call));
    let told = telling(&shop.ledger, |telling| texts(&may.blocks(telling)));
    for (what, seal) in [("Shown", sealed(&shop, "signed-off", 3)), ("Ended", call)] {
        let entry = telling(&shop.ledger, |telling| telling.entry(&seal));
        mentions(&told, &format!("{what} by the entry {entry}."));
    }
}

#[test]
fn a_day_as_recorded_by_another_day_says_both() {
    let shop = Shop::with_one_signed_off();
    let by: crate::units::Stamp = "2026-01-20T23:59:59+01:00".parse().unwrap();
    let asked = AsOf {
        reading: Reading::AsRecordedBy(by),
        ..at(MARCH)
    };
    let told = file(&shop, 3, asked);
    mentions(
        &told,
        "As of 2026-03-01 12:00 +01:00, as recorded by 2026-01-20 23:59 +01:00: counting only what had been written down by then.",
    );
    assert!(!told.contains("Signed off from"), "{told}");
    let ledger = &shop.ledger;
    let json = to_value(technician(ledger, person(3), asked).json(ledger)).unwrap();
    assert_eq!(json["as-of"]["reading"], "as-recorded-by");
    assert_eq!(json["as-of"]["recorded-by"], "2026-01-20T23:59:59+01:00");
}
