//! Every kind of entry in words: the frozen examples of `tests/record`.

use super::super::facts::Facts;
use super::super::{kind, member_name, said};
use super::{check_items, check_text, telling, words};
use crate::record::canonical::{Map, Value};
use crate::record::entry::{Entry, Noted, Signed};
use crate::standing::Ledger;

const EXAMPLES: &[&[u8]] = &[
    include_bytes!("../../../../tests/record/drilled.json"),
    include_bytes!("../../../../tests/record/rehearsed.json"),
    include_bytes!("../../../../tests/record/passphrase-refused.json"),
    include_bytes!("../../../../tests/record/backup-made.json"),
    include_bytes!("../../../../tests/record/restore-tested.json"),
    include_bytes!("../../../../tests/record/pack-exported.json"),
    include_bytes!("../../../../tests/record/founded.json"),
    include_bytes!("../../../../tests/record/joined.json"),
    include_bytes!("../../../../tests/record/left.json"),
    include_bytes!("../../../../tests/record/granted.json"),
    include_bytes!("../../../../tests/record/revoked.json"),
    include_bytes!("../../../../tests/record/key-issued.json"),
    include_bytes!("../../../../tests/record/key-lost.json"),
    include_bytes!("../../../../tests/record/assigned.json"),
    include_bytes!("../../../../tests/record/read.json"),
    include_bytes!("../../../../tests/record/awareness-acknowledged.json"),
    include_bytes!("../../../../tests/record/trained.json"),
    include_bytes!("../../../../tests/record/protection-shown.json"),
    include_bytes!("../../../../tests/record/supervised-by.json"),
    include_bytes!("../../../../tests/record/case-checked.json"),
    include_bytes!("../../../../tests/record/observed.json"),
    include_bytes!("../../../../tests/record/evaluated.json"),
    include_bytes!("../../../../tests/record/signed-off.json"),
    include_bytes!("../../../../tests/record/suspended.json"),
    include_bytes!("../../../../tests/record/reinstated.json"),
    include_bytes!("../../../../tests/record/withdrawn.json"),
    include_bytes!("../../../../tests/record/called-in.json"),
    include_bytes!("../../../../tests/record/countersigned.json"),
    include_bytes!("../../../../tests/record/corrected.json"),
    include_bytes!("../../../../tests/record/voided.json"),
    include_bytes!("../../../../tests/record/revision-adopted.json"),
    include_bytes!("../../../../tests/record/workflow-retired.json"),
    include_bytes!("../../../../tests/record/policy-set.json"),
    include_bytes!("../../../../tests/record/trail-reviewed.json"),
    include_bytes!("../../../../tests/record/restored.json"),
];

pub(super) fn examples() -> Vec<Entry> {
    let read = |bytes: &&[u8]| Entry::read(bytes.trim_ascii_end()).unwrap();
    EXAMPLES.iter().map(read).collect()
}

#[test]
fn there_is_an_example_of_every_kind() {
    let made: Vec<&str> = examples().iter().map(Entry::word).collect();
    let kinds: Vec<&str> = Noted::WORDS.iter().chain(Signed::WORDS).copied().collect();
    assert_eq!(made, kinds);
}

#[test]
fn every_kind_has_a_word_a_sentence_and_what_it_changes() {
    let words = words();
    let mut sentences = Vec::new();
    for entry in examples() {
        let word = entry.word();
        assert!(words.knows(&format!("record-kind.{word}")), "{word}");
        assert!(words.knows(&format!("record-said.{word}")), "{word}");
        let signed = entry.signed().is_some();
        assert_eq!(
            words.knows(&format!("record-changes.{word}")),
            signed,
            "{word}"
        );
        check_text(&kind(word, &words));
        let sentence = telling(&Ledger::new(), |telling| said(&entry, telling));
        check_text(&sentence);
        assert!(sentence.ends_with('.'), "{sentence}");
        if let Some((_, signing)) = entry.signed() {
            let by = signing.by.to_string();
            let by_the_person = entry.kind().subject().person.map(|one| one.to_string());
            let named =
                sentence.contains(&by) || by_the_person.is_some_and(|one| sentence.contains(&one));
            assert!(named, "{sentence}");
        }
        sentences.push(sentence);
    }
    let all = sentences.len();
    sentences.sort();
    sentences.dedup();
    assert_eq!(sentences.len(), all, "each kind is said in its own words");
}

/// Every name of a member in a value, however deep.
fn names(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::Map(map) => map.iter().for_each(|(name, inner)| {
            found.push(name.to_owned());
            names(inner, found);
        }),
        Value::List(items) => items.iter().for_each(|item| names(item, found)),
        _ => {}
    }
}

#[test]
fn every_member_has_a_name_and_a_value_in_words() {
    let words = words();
    for entry in examples() {
        let facts = Facts::of(&entry);
        let count = facts.0.iter().count();
        assert!(count > 0, "{}", entry.word());
        let mut inside = Vec::new();
        names(&Value::Map(facts.0.clone()), &mut inside);
        for name in inside {
            let known = ["record-member", "record-basis"]
                .iter()
                .any(|message| words.knows(&format!("{message}.{name}")));
            assert!(known, "{}: {name}", entry.word());
        }
        let items = telling(&Ledger::new(), |telling| telling.items(&facts.0));
        assert_eq!(items.len(), count, "{}", entry.word());
        check_items(&items);
    }
}

#[test]
fn no_name_of_a_member_is_there_for_nothing() {
    let mut inside = Vec::new();
    for entry in examples() {
        names(&Value::Map(Facts::of(&entry).0), &mut inside);
    }
    // These stand in grounds of sign-offs that the example has not, in a suspension's end, are left out by the example of an observation, or are told
    // apart by what they hold.
    let elsewhere = [
        "assessor",
        "how",
        "proof",
        "way",
        "sign-off-profile",
        "old",
        "taps",
        "transcribed",
    ];
    inside.extend(elsewhere.map(str::to_owned));
    let parts = include_str!("../../../../locales/en-US/record.ftl");
    let parts = parts.split("record-member =").nth(1).unwrap();
    let parts = parts.split("\n\n").next().unwrap().lines();
    let known: Vec<&str> = parts
        .filter_map(|line| line.trim().strip_prefix('.')?.split(" =").next())
        .collect();
    assert!(known.len() > 50, "{known:?}");
    for part in known {
        assert!(inside.iter().any(|name| name == part), "{part}");
        check_text(&member_name(part, &words()));
    }
}

#[test]
fn a_member_that_nobody_foresaw_is_shown_as_it_is_stored() {
    let mut facts = Map::new();
    facts.insert("shoe", Value::Text("a\u{1b}[2J\u{202e}b".into()));
    facts.insert("seen", Value::Text("never".into()));
    let items = telling(&Ledger::new(), |telling| telling.items(&facts));
    check_items(&items);
    let texts: Vec<&str> = items.iter().map(|item| item.text.as_str()).collect();
    assert_eq!(texts, ["How it went: never", "shoe: a\u{FFFD}[2Jb"]);
}
