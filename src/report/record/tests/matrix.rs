//! The table of people by workflows.

use super::super::matrix;
use super::{at, holds, lines, mentions, telling, texts, then};
use crate::record::entry::{Allowed, Impact};
use crate::record::entry::{Left, RevisionAdopted, SignOffProfile, Suspended};
use crate::record::scope::{Id, Scope};
use crate::record::scribe::{id, person, scope};
use crate::standing::Doubt;
use crate::standing::tests::shop::{Shop, adopted, profile};
use crate::units::PersonCode;

const MARCH: &str = "2026-03-01T12:00:00+01:00";

fn everybody() -> Vec<PersonCode> {
    (0..5).map(person).collect()
}

fn workflows(ids: &[&str]) -> Vec<Id> {
    ids.iter().map(|one| id(one)).collect()
}

/// The table as plain lines.
fn table(shop: &Shop, when: &str, ids: &[&str], with_left: bool) -> Vec<String> {
    let matrix = matrix(
        &shop.ledger,
        at(when),
        &everybody(),
        &workflows(ids),
        with_left,
    );
    telling(&shop.ledger, |telling| lines(&matrix.blocks(telling)))
}

#[test]
fn a_cell_has_letters_that_are_explained_below() {
    let shop = Shop::with_one_signed_off();
    let table = table(&shop, MARCH, &["stock-teeth", "wet-resin"], false);
    let expected = "\
Who stands where
================

As of 2026-03-01 12:00 +01:00, as now known: counting everything that is known
now about what had happened by then.

Person  Code      ST      WR
------  --------  ------  --
Olga    P-012349  -       -
Ada     P-11234A  signed  -
Pia     P-21234B  -       -
Tom     P-31234C  signed  -
Tim     P-41234D  -       -

Workflows
---------

- ST = stock-teeth: 3 not assigned and 2 signed off. May work alone: 2 of 5.
- WR = wet-resin: 5 not assigned. May work alone: 0 of 5.

What the letters mean
---------------------

Letters  Meaning
-------  -------------------------------------------------------
-        Not assigned by anybody: may not work in this workflow.
signed   Signed off: may work alone within the scope.";
    assert_eq!(table.join("\n"), expected);
}

#[test]
fn those_who_left_stand_there_only_when_they_are_asked_for() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-10T08:00:00+01:00")
        .sign(0, Left { person: person(3) });
    let told = |with_left| table(&shop, MARCH, &["stock-teeth"], with_left).join("\n");
    assert!(!told(false).contains("Tom"), "{}", told(false));
    assert!(!told(false).contains("left "), "{}", told(false));
    holds(&told(true), "Tom     P-31234C  left");
    // Who left later was there.
    let before = table(&shop, "2026-02-09T12:00:00+01:00", &["stock-teeth"], false).join("\n");
    holds(&before, "Tom     P-31234C  signed");
}

#[test]
fn the_reading_is_printed_and_changes_the_cells() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-03-10T08:00:00+01:00");
    let suspended = Suspended {
        person: person(3),
        workflow: id("stock-teeth"),
        allowed: Allowed::Nothing,
    };
    let happened = MARCH.parse().unwrap();
    let late = shop.scribe.draft(2, happened, suspended);
    shop.admit(late);
    let told = |asked| {
        let matrix = matrix(
            &shop.ledger,
            asked,
            &[person(3)],
            &workflows(&["stock-teeth"]),
            false,
        );
        telling(&shop.ledger, |telling| texts(&matrix.blocks(telling)))
    };
    let now = told(at(MARCH));
    mentions(&now, "As of 2026-03-01 12:00 +01:00, as now known");
    holds(&now, "Tom | P-31234C | stopped");
    let as_then = told(then(MARCH));
    mentions(&as_then, "As of 2026-03-01 12:00 +01:00, as recorded then");
    holds(&as_then, "Tom | P-31234C | signed");
}

#[test]
fn scopes_that_differ_are_listed_and_those_that_agree_are_not() {
    let mut shop = Shop::with_one_signed_off();
    let other = Scope {
        wash: id("orbital"),
        ..scope()
    };
    let assigned = crate::record::entry::Assigned {
        person: person(3),
        scope: other,
    };
    shop.sign(2, assigned);
    let told = table(&shop, MARCH, &["stock-teeth"], false).join("\n");
    holds(&told, "Tom     P-31234C  train signed");
    mentions(&told, "Several words in a cell:");
    mentions(&told, "3 not assigned, 1 in training and 2 signed off");
    // Once the person has left, both scopes say the same.
    shop.at("2026-02-10T08:00:00+01:00")
        .sign(0, Left { person: person(3) });
    let told = table(&shop, MARCH, &["stock-teeth"], true).join("\n");
    holds(&told, "Tom     P-31234C  left");
    assert!(!told.contains("Several words"), "{told}");
}

#[test]
fn what_is_in_doubt_is_not_shown_whether_or_not_there_is_a_scope() {
    let mut shop = Shop::with_one_signed_off();
    shop.ledger.doubt(Doubt {
        strand: id("front"),
        number: 30,
        hidden_since: Some(
            "2026-01-14T07:00:00+01:00"
                .parse::<crate::units::Stamp>()
                .unwrap()
                .instant(),
        ),
    });
    let told = table(&shop, MARCH, &["stock-teeth"], false).join("\n");
    holds(&told, "Tom     P-31234C  unshown");
    holds(&told, "Tim     P-41234D  unshown");
    mentions(&told, "unshown  Cannot be shown:");
    mentions(&told, "May work alone: 0 of 5.");
}

#[test]
fn many_workflows_take_several_tables_of_80_columns_and_no_two_share_letters() {
    let mut shop = Shop::open();
    let ids = [
        "stock-teeth",
        "stock-trays",
        "splints",
        "splines",
        "wet-resin",
        "milled-arches",
        "milled-arcs",
        "a",
        "a-very-long-name-of-a-workflow-that-goes-on-and-on",
        "wash",
        "wet-relines",
        "washing",
    ];
    for workflow in &ids[1..] {
        let adopted = RevisionAdopted {
            workflow: id(workflow),
            profile: SignOffProfile {
                requires: vec![],
                ..profile()
            },
            ..adopted(1, "2026-02-01T00:00:00+01:00", Impact::Reassess)
        };
        shop.sign(1, adopted);
    }
    let told = table(&shop, MARCH, &ids, false);
    let heads: Vec<&String> = told
        .iter()
        .filter(|line| line.starts_with("Person"))
        .collect();
    assert_eq!(heads.len(), 3, "{told:#?}");
    let short = heads
        .iter()
        .flat_map(|line| line.split_whitespace().skip(2));
    let mut short: Vec<&str> = short.collect();
    assert!(
        short
            .iter()
            .all(|text| text.len() <= 7 && text.bytes().all(|byte| byte.is_ascii_uppercase())),
        "{short:?}"
    );
    short.sort_unstable();
    short.dedup();
    assert_eq!(short.len(), ids.len(), "{short:?}");
    for workflow in ids {
        let keyed = told
            .iter()
            .any(|line| line.contains(&format!(" = {workflow}:")));
        assert!(keyed, "{workflow}");
    }
}

#[test]
fn a_table_of_nobody_says_so() {
    let shop = Shop::open();
    let matrix = matrix(
        &shop.ledger,
        at(MARCH),
        &[],
        &workflows(&["stock-teeth"]),
        false,
    );
    let told = telling(&shop.ledger, |telling| texts(&matrix.blocks(telling)));
    holds(&told, "There is nobody to show, or no workflow.");
}
