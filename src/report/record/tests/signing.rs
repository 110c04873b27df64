//! What a signer is shown, and the notice that every report of a laboratory of one person prints.

use super::super::*;
use super::reports::{file, sealed};
use super::{at, holds, mentions, named, telling, texts};
use crate::record::entry::{Independence, PolicySet, Seen};
use crate::record::scope::Meaning;
use crate::record::scribe::{id, person, stamp};
use crate::standing::tests::shop::{Shop, observed, policy, signed_off};

static NO_TITLES: crate::report::record::Titles = crate::report::record::Titles::new();

const MARCH: &str = "2026-03-01T12:00:00+01:00";

#[test]
fn a_signer_reads_name_meaning_sentence_what_is_signed_and_what_it_changes() {
    let shop = Shop::with_one_ready();
    let now = stamp("2026-02-01T09:00:00+01:00");
    let fact = signed_off(3, 1, now, shop.evidence(3));
    let draft = shop.scribe.draft(2, now, fact);
    let (fact, signing) = draft.signed().unwrap();
    let shown = preview(
        &shop.ledger,
        ToBeSigned {
            frame: draft.frame(),
            fact,
            signing,
            titles: &NO_TITLES,
        },
    );
    let told = telling(&shop.ledger, |telling| texts(&shown.blocks(telling)));
    holds(
        &told,
        &format!("Signer: {}. Meaning of the signature: approved.", named(2)),
    );
    holds(&told, &declaration(Meaning::Approved, &super::words()));
    mentions(
        &told,
        &format!("{} signed off {} for stock-teeth", named(2), named(3)),
    );
    mentions(
        &told,
        "The person may work alone within this scope from the day that is named",
    );
    mentions(
        &told,
        "Ready for sign-off: everything is there but the signature.",
    );
    mentions(&told, "As of 2026-02-01 09:00 +01:00, as now known");
    holds(&told, "Reason: as agreed");
}

#[test]
fn every_kind_can_be_looked_at_before_it_is_signed() {
    let shop = Shop::with_one_signed_off();
    for entry in super::examples::examples() {
        let Some((fact, signing)) = entry.signed() else {
            continue;
        };
        let shown = preview(
            &shop.ledger,
            ToBeSigned {
                frame: entry.frame(),
                fact,
                signing,
                titles: &NO_TITLES,
            },
        );
        let told = telling(&shop.ledger, |telling| texts(&shown.blocks(telling)));
        mentions(
            &told,
            &super::words().say(&format!("record-changes.{}", entry.word()), &[]),
        );
    }
}

#[test]
fn without_an_independent_assessor_every_report_says_so() {
    let mut shop = Shop::with_one_signed_off();
    let notice = "No independent assessor: this laboratory has declared that nobody in it can assess independently.";
    let draft = shop
        .scribe
        .draft(1, shop.scribe.now(), observed(3, 1, Seen::Done));
    let (fact, signing) = draft.signed().unwrap();
    let all = |shop: &Shop| {
        let ledger = &shop.ledger;
        telling(ledger, |telling| {
            let to_sign = ToBeSigned {
                frame: draft.frame(),
                fact,
                signing,
                titles: &NO_TITLES,
            };
            let checked = super::machines::verified_well(shop);
            [
                technician(ledger, person(3), at(MARCH)).blocks(telling),
                matrix(ledger, at(MARCH), &[person(3)], &[id("stock-teeth")], false)
                    .blocks(telling),
                entry(ledger, &sealed(shop, "observed", 3))
                    .unwrap()
                    .blocks(Beside::default(), telling),
                entries(ledger, ledger.entries()).blocks(telling),
                checked.blocks(telling),
                preview(ledger, to_sign).blocks(telling),
            ]
            .map(|blocks| texts(&blocks))
        })
    };
    for told in all(&shop) {
        assert!(!told.contains(notice), "{told}");
    }
    let alone = PolicySet {
        independence: Independence::NoIndependentAssessor,
        ..policy()
    };
    shop.sign(0, alone);
    for told in all(&shop) {
        holds(&told, notice);
    }
    // As of a time before it, the policy was another.
    assert!(!file(&shop, 3, at("2026-01-31T12:00:00+01:00")).contains(notice));
}
