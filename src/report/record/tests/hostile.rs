//! Names that try to steer a terminal, to widen a line or to stand for somebody else do no harm.

use proptest::prelude::*;

use super::super::*;
use super::{at, lines, words};
use crate::record::scribe::{id, person};
use crate::standing::tests::shop::Shop;
use crate::text::dangerous::DANGEROUS;

static NO_TITLES: crate::report::record::Titles = crate::report::record::Titles::new();

const MARCH: &str = "2026-03-01T12:00:00+01:00";

/// Every report with a name, looked at.
fn told_with(shop: &Shop, name: &str) -> String {
    let words = words();
    let names = |_| name.to_owned();
    let telling = Telling {
        ledger: &shop.ledger,
        words: &words,
        names: &names,
    };
    let ledger = &shop.ledger;
    let sign_off = ledger.about(person(3)).last().unwrap();
    let (fact, signing) = sign_off.signed().unwrap();
    let to_sign = ToBeSigned {
        frame: sign_off.frame(),
        fact,
        signing,
        titles: &NO_TITLES,
    };
    let people: Vec<_> = ledger.people().collect();
    [
        technician(ledger, person(3), at(MARCH)).blocks(&telling),
        matrix(ledger, at(MARCH), &people, &[id("stock-teeth")], true).blocks(&telling),
        entry(ledger, &sign_off.seal())
            .unwrap()
            .blocks(Beside::default(), &telling),
        entries(ledger, ledger.entries()).blocks(&telling),
        preview(ledger, to_sign).blocks(&telling),
    ]
    .map(|blocks| lines(&blocks).join("\n"))
    .join("\n")
}

#[test]
fn a_name_cannot_steer_a_terminal_or_begin_a_line() {
    let shop = Shop::with_one_signed_off();
    let told = told_with(
        &shop,
        "Eve\u{1b}[2J\u{202e}\nSigned off from 2020-01-01\r\u{9b}31m",
    );
    assert!(
        !told
            .lines()
            .any(|line| line.starts_with("Signed off from 2020")),
        "{told}"
    );
    for name in [
        "",
        " ",
        "{ $by }",
        "{record-person}",
        "%s %n",
        &"日".repeat(120),
        &"a".repeat(120),
    ] {
        let told = told_with_any(&shop, name);
        assert!(told.contains("P-31234C"), "{told}");
    }
}

/// A name that looks like the inside of a sentence stays a name.
fn told_with_any(shop: &Shop, name: &str) -> String {
    if name.contains('{') {
        let words = words();
        let names = |_| name.to_owned();
        let telling = Telling {
            ledger: &shop.ledger,
            words: &words,
            names: &names,
        };
        let told = telling.person(person(3));
        assert_eq!(told, format!("{name} (P-31234C)"));
        return told;
    }
    told_with(shop, name)
}

#[test]
fn a_name_cannot_hide_the_code_of_its_person() {
    let shop = Shop::open();
    let words = words();
    for name in ["erased person P-11234A", "Ada (P-11234A)", "P-31234C"] {
        let names = |_| name.to_owned();
        let telling = Telling {
            ledger: &shop.ledger,
            words: &words,
            names: &names,
        };
        assert_eq!(telling.person(person(3)), format!("{name} (P-31234C)"));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn no_name_does_harm(parts in proptest::collection::vec((0..DANGEROUS.len(), "[a-z ]{0,3}"), 0..30)) {
        let name: String = parts.iter().map(|(at, text)| format!("{}{text}", DANGEROUS[*at])).collect();
        let shop = Shop::with_one_signed_off();
        let told = told_with(&shop, &name);
        prop_assert!(told.contains("P-31234C"));
    }
}
