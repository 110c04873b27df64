//! Words and reports of the record, on a small laboratory and on an example of every kind of entry.

mod amended;
mod board;
mod examples;
mod faults;
mod hostile;
mod machines;
mod matrix;
mod reports;
mod signing;
mod terms;
mod workflow;

use super::{AsOf, Telling};
use crate::report::plain::{COLUMNS, Glyphs, plain};
use crate::report::{Block, Item};
use crate::standing::{Ledger, Reading};
use crate::text::Words;
use crate::text::wrap::columns;
use crate::units::PersonCode;

fn words() -> Words {
    Words::shipped("en-US")
}

/// Names of the people of the shop, in the order of their numbers.
fn name(person: PersonCode) -> String {
    let people = (0..=5).map(crate::record::scribe::person);
    let names = ["Olga", "Ada", "Pia", "Tom", "Tim", "Uma"];
    let named = people.zip(names).find(|(code, _)| *code == person);
    named.map_or_else(|| super::erased(person, &words()), |(_, name)| name.into())
}

/// The same with the code, as reports print it.
fn named(number: u8) -> String {
    let code = crate::record::scribe::person(number);
    format!("{} ({code})", name(code))
}

fn at(text: &str) -> AsOf {
    AsOf {
        at: text.parse().unwrap(),
        reading: Reading::AsNowKnown,
    }
}

fn then(text: &str) -> AsOf {
    AsOf {
        reading: Reading::AsRecordedThen,
        ..at(text)
    }
}

/// Looks at sentences: none may hold an id or a place of a sentence that was not filled, or anything that is not shown.
fn check_text(text: &str) {
    for unwanted in ["[record-", "[standing-", "[units-", "{$", "{ $", "DEC("] {
        assert!(!text.contains(unwanted), "{unwanted} in {text:?}");
    }
    let hidden = |c: char| {
        c.is_control()
            || matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}')
    };
    assert!(!text.contains(hidden), "{text:?}");
}

fn check_items(items: &[Item]) {
    for item in items {
        check_text(&item.text);
        check_items(&item.children);
    }
}

/// A report as plain lines, looked at: 80 columns, no ids, nothing that does not show.
fn lines(blocks: &[Block]) -> Vec<String> {
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) | Block::Caution(text) => {
                check_text(text);
            }
            Block::Items(items) => check_items(items),
            Block::Table { head, rows } => {
                for cell in head.iter().chain(rows.iter().flatten()) {
                    check_text(cell);
                }
                assert!(rows.iter().all(|row| row.len() == head.len()));
            }
            Block::Figure(_) => panic!("no report of the record has figures"),
        }
    }
    let lines = plain(blocks, COLUMNS, Glyphs::Ascii);
    for line in &lines {
        assert!(columns(line) <= COLUMNS, "{line}");
    }
    lines
}

/// Every text of a report, unbroken.
fn texts(blocks: &[Block]) -> String {
    fn under(items: &[Item], all: &mut Vec<String>) {
        for item in items {
            all.push(item.text.clone());
            under(&item.children, all);
        }
    }
    drop(lines(blocks));
    let mut all = Vec::new();
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) | Block::Caution(text) => {
                all.push(text.clone());
            }
            Block::Items(items) => under(items, &mut all),
            Block::Table { head, rows } => {
                all.extend([head].into_iter().chain(rows).map(|row| row.join(" | ")));
            }
            Block::Figure(_) => {}
        }
    }
    all.join("\n")
}

#[track_caller]
fn holds(text: &str, expected: &str) {
    assert!(
        text.lines().any(|line| line == expected),
        "{expected}\n\n{text}"
    );
}

#[track_caller]
fn mentions(text: &str, expected: &str) {
    assert!(text.contains(expected), "{expected}\n\n{text}");
}

/// Calls a function with what a report needs to be told.
fn telling<T>(ledger: &Ledger, tell: impl FnOnce(&Telling<'_>) -> T) -> T {
    let words = words();
    tell(&Telling {
        ledger,
        words: &words,
        names: &name,
    })
}
