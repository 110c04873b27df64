//! What verification found, and every report for machines.

use std::ops::ControlFlow;

use serde_json::{Value as Json, json, to_value};

use super::super::*;
use super::{at, holds, mentions, telling, texts};
use crate::record::entry::Seen;
use crate::record::log::streams;
use crate::record::scribe::{id, person};
use crate::record::strand::Strands;
use crate::record::verify::{Bad, Known, OneHand, verify};
use crate::standing::tests::shop::{Shop, observed};

const MARCH: &str = "2026-03-01T12:00:00+01:00";

fn verified_strands(strands: &Strands, known: Known<'_>, most: usize) -> Verified {
    let mut bad: Vec<Bad> = Vec::new();
    let checked = verify(
        streams(strands),
        known,
        &OneHand,
        &mut |one| bad.push(one),
        &mut |_| ControlFlow::Continue(()),
    );
    verified(&checked.unwrap(), &bad, most)
}

pub(super) fn verified_well(shop: &Shop) -> Verified {
    verified_strands(&shop.scribe.strands(), Known::default(), 5)
}

#[test]
fn a_good_record_is_told_with_its_counts_and_limits() {
    let shop = Shop::with_one_signed_off();
    let told = telling(&shop.ledger, |telling| {
        texts(&verified_well(&shop).blocks(telling))
    });
    holds(
        &told,
        "Nothing wrong was found. Checked: 36 entries in 1 strand, 32 signatures.",
    );
    holds(
        &told,
        "This shows alteration, within stated limits. The limits stand below.",
    );
    mentions(
        &told,
        "The end of the strand front is remembered nowhere else",
    );
    mentions(&told, "No value over the strand front has left the house");
    mentions(&told, "What was entered properly can still be untrue.");
    assert!(!told.contains("What is wrong"), "{told}");
    let heads = shop.scribe.heads();
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let held = verified_strands(&shop.scribe.strands(), known, 5);
    let told = telling(&shop.ledger, |telling| texts(&held.blocks(telling)));
    assert!(!told.contains("is remembered nowhere else"), "{told}");
}

#[test]
fn an_altered_record_is_told_from_the_first_bad_entry_on() {
    let shop = Shop::with_one_signed_off();
    let mut strands = shop.scribe.strands();
    let entries = strands.get_mut(&id("front")).unwrap();
    let text = String::from_utf8(entries[30].clone()).unwrap();
    entries[30] = text.replace("2026-0101", "2026-0109").into_bytes();
    let altered = verified_strands(&strands, Known::default(), 1);
    let told = telling(&shop.ledger, |telling| texts(&altered.blocks(telling)));
    mentions(&told, "Something is wrong:");
    holds(&told, "First one with something wrong: front/31");
    holds(
        &told,
        "front/31: The signature does not belong to this text and this key.",
    );
    mentions(&told, "more.");
    let json = to_value(altered.json(&shop.ledger)).unwrap();
    assert_eq!(json["kind"], "drybench-verification");
    assert_eq!(json["strands"][0]["first-bad"], 31);
    assert_eq!(json["bad"][0]["fault"], "signature");
    let faults = json["faults"].as_u64().unwrap();
    assert!(faults > 1);
    assert_eq!(json["bad"].as_array().unwrap().len() as u64, faults);
    mentions(&told, &format!("And {} more.", faults - 1));
}

#[test]
fn an_empty_record_can_be_told() {
    let shop = Shop::open();
    let empty = verified_strands(&Strands::new(), Known::default(), 5);
    let told = telling(&shop.ledger, |telling| texts(&empty.blocks(telling)));
    holds(
        &told,
        "Nothing wrong was found. Checked: 0 entries in 0 strands, 0 signatures.",
    );
}

/// Whether any text in it could be a name.
fn names(value: &Json) -> bool {
    match value {
        Json::String(text) => ["Ada", "Tom", "Pia", "Olga"]
            .iter()
            .any(|name| text.contains(name)),
        Json::Array(items) => items.iter().any(names),
        Json::Object(map) => map.values().any(names),
        _ => false,
    }
}

#[test]
fn machines_get_codes_seals_instants_and_stored_words() {
    let shop = Shop::with_one_signed_off();
    let ledger = &shop.ledger;
    let file = to_value(technician(ledger, person(3), at(MARCH)).json(ledger)).unwrap();
    assert_eq!(file["kind"], "drybench-technician");
    assert_eq!(file["format"], 1);
    assert_eq!(
        file["as-of"],
        json!({"at": MARCH, "reading": "as-now-known", "recorded-by": null})
    );
    assert_eq!(file["person"], "P-31234C");
    let standing = &file["standings"][0];
    assert_eq!(standing["standing"], "signed-off");
    assert_eq!(standing["may-work-alone"], true);
    assert_eq!(standing["since"], "2026-02-01T09:00:00+01:00");
    assert_eq!(standing["until"], "2026-08-01T23:59:59+01:00");
    assert_eq!(standing["by"], "P-21234B");
    assert_eq!(standing["entry"]["strand"], "front");
    assert_eq!(standing["entry"]["number"], 36);
    assert_eq!(
        standing["missing"][0],
        json!({"need": "observed", "about": null, "count": {"have": 0, "of": 1}})
    );
    let last = file["history"].as_array().unwrap().last().unwrap();
    assert_eq!(last["kind"], "signed-off");
    assert_eq!(last["fact"]["edition"]["revision"], 1);
    assert_eq!(last["signing"]["meaning"], "approved");
    let table = matrix(ledger, at(MARCH), &[person(3)], &[id("stock-teeth")], false);
    let table = to_value(table.json(ledger)).unwrap();
    assert_eq!(table["rows"][0]["cells"][0]["words"], json!(["signed-off"]));
    assert_eq!(table["counts"][0]["may-work-alone"], 1);
    let seal = ledger.about(person(3)).last().unwrap().seal();
    let one = to_value(entry(ledger, &seal).unwrap().json(ledger)).unwrap();
    assert_eq!(one["names"].as_array().unwrap().len(), 4);
    assert_eq!(one["entry"]["entry"]["seal"], seal.to_string());
    let list = to_value(entries(ledger, ledger.entries()).json()).unwrap();
    assert_eq!(list["entries"].as_array().unwrap().len(), 36);
    let draft = shop
        .scribe
        .draft(1, shop.scribe.now(), observed(3, 1, Seen::Done));
    let (fact, signing) = draft.signed().unwrap();
    let to_sign = ToBeSigned {
        frame: draft.frame(),
        fact,
        signing,
        titles: &crate::report::record::Titles::new(),
    };
    let shown = to_value(preview(ledger, to_sign).json(ledger)).unwrap();
    assert_eq!(shown["entry"], "observed");
    assert_eq!(shown["before"][1]["standing"], "signed-off");
    let well = to_value(verified_well(&shop).json(ledger)).unwrap();
    for report in [&file, &table, &one, &list, &shown, &well] {
        assert!(!names(report), "{report}");
        assert_eq!(report["no-independent-assessor"], false, "{report}");
    }
}
