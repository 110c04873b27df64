//! The stored form of every kind of entry is frozen: an example of each stands in `tests/record`, byte for byte.
//!
//! `DRYBENCH_BLESS=1 cargo test record` writes the examples anew. Once a record exists anywhere, that is never right: raise the format instead.

#![expect(
    clippy::disallowed_methods,
    reason = "the examples are files, and the environment may ask for new ones"
)]

mod examples;

use std::path::PathBuf;

use drybench::app::laboratory::rights;
use drybench::record::entry::{
    Content, Entry, EntryFault, FORMAT, Noted, Observed, Signed, ToSign,
};
use drybench::record::{MemberFault, MemberFaultKind};
use examples::{examples, key};
use proptest::prelude::*;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/record")
}

#[test]
fn every_kind_is_stored_as_it_always_was() {
    let bless = std::env::var_os("DRYBENCH_BLESS").is_some();
    for entry in examples() {
        let path = folder().join(format!("{}.json", entry.word()));
        let mut bytes = entry.bytes();
        bytes.push(b'\n');
        if bless {
            std::fs::write(&path, &bytes).expect("the example can be written");
        }
        let frozen = std::fs::read(&path).unwrap_or_else(|_| panic!("{} is there", path.display()));
        assert_eq!(
            String::from_utf8_lossy(&frozen),
            String::from_utf8_lossy(&bytes),
            "the stored form of {} changed",
            entry.word()
        );
        let read = Entry::read(&frozen[..frozen.len() - 1]);
        assert_eq!(read.as_ref(), Ok(&entry), "{}", entry.word());
    }
}

#[test]
fn the_rights_that_are_told_are_those_that_each_kind_asks_for() {
    let examples = examples();
    let signed = examples.iter().filter_map(|entry| entry.signed());
    let mut differ = Vec::new();
    for (fact, _) in signed {
        let (told, asked) = (rights(fact.word()), fact.kind().right().any_of);
        if told != asked {
            differ.push(format!("{}: {told:?} and {asked:?}", fact.word()));
        }
    }
    assert!(differ.is_empty(), "{differ:#?}");
}

#[test]
fn no_kind_lacks_an_example_and_no_example_lacks_a_kind() {
    let mut kinds: Vec<String> = Noted::WORDS
        .iter()
        .chain(Signed::WORDS)
        .map(|&word| word.to_owned())
        .collect();
    kinds.sort();
    let mut made: Vec<String> = examples()
        .iter()
        .map(|entry| entry.word().to_owned())
        .collect();
    made.sort();
    assert_eq!(made, kinds);
    let files = std::fs::read_dir(folder()).expect("the folder is read");
    let mut files: Vec<String> = files
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .map(|name| name.trim_end_matches(".json").to_owned())
        .collect();
    files.sort();
    assert_eq!(files, kinds);
}

#[test]
fn the_signature_of_an_example_is_over_its_body_alone() {
    for entry in examples() {
        let Content::Signed { signature, .. } = entry.content() else {
            assert_eq!(entry.signed_bytes(), None);
            continue;
        };
        let text = String::from_utf8(entry.bytes()).unwrap();
        let body = text.strip_prefix("{\"body\":").unwrap();
        let body = body.split(",\"signature\":").next().unwrap();
        assert!(
            key().public().verifies(body.as_bytes(), signature),
            "{}",
            entry.word()
        );
        for part in ["\"meaning\":", "\"name\":", "\"recorded\":", "\"by\":"] {
            assert!(body.contains(part), "{} signs {part}", entry.word());
        }
    }
}

/// What of an example cannot be read, when one text in it is replaced by another.
fn fault(word: &str, from: &str, to: &str) -> EntryFault {
    let entry = examples()
        .into_iter()
        .find(|entry| entry.word() == word)
        .unwrap();
    let text = String::from_utf8(entry.bytes()).unwrap();
    assert!(text.contains(from), "{text}");
    Entry::read(text.replacen(from, to, 1).as_bytes()).expect_err("the entry is refused")
}

#[test]
fn what_is_no_entry_says_why() {
    let member = |name: &str, kind| {
        EntryFault::Member(MemberFault {
            name: name.to_owned(),
            kind,
        })
    };
    let newer = format!("\"format\":{}", FORMAT + 1);
    let known = format!("\"format\":{FORMAT}");
    for (word, from, to, expected) in [
        (
            "drilled",
            known.as_str(),
            newer.as_str(),
            EntryFault::Newer(FORMAT + 1),
        ),
        (
            "drilled",
            "\"kind\":\"drilled\"",
            "\"kind\":\"drowned\"",
            EntryFault::UnknownKind("drowned".to_owned()),
        ),
        (
            "drilled",
            ",\"right\":4",
            "",
            member("right", MemberFaultKind::Missing),
        ),
        (
            "drilled",
            "\"right\":4",
            "\"right\":\"4\"",
            member("right", MemberFaultKind::Wrong),
        ),
        (
            "drilled",
            "\"right\":4",
            "\"right\":70000",
            member("right", MemberFaultKind::Wrong),
        ),
        (
            "drilled",
            "\"right\":4",
            "\"right\":4,\"shoe\":1",
            member("shoe", MemberFaultKind::Unknown),
        ),
        (
            "drilled",
            "\"right\":4",
            "\"right\": 4",
            EntryFault::NotCanonical,
        ),
        (
            "drilled",
            "\"number\":",
            "\"reason\":null,\"number\":",
            EntryFault::NotCanonical,
        ),
        (
            "suspended",
            "\"reason\":\"as agreed\",",
            "",
            EntryFault::NoReason,
        ),
        (
            "signed-off",
            "\"meaning\":\"approved\"",
            "\"meaning\":\"acknowledged\"",
            EntryFault::Meaning(drybench::record::scope::Meaning::Acknowledged),
        ),
    ] {
        assert_eq!(fault(word, from, to), expected, "{word}: {from} to {to}");
    }
    let unsigned = examples()
        .into_iter()
        .find(|entry| entry.word() == "signed-off")
        .unwrap();
    let text = String::from_utf8(unsigned.bytes()).unwrap();
    let (body, _) = text.split_once(",\"signature\":").unwrap();
    let bare = format!("{body}}}");
    assert_eq!(Entry::read(bare.as_bytes()), Err(EntryFault::Unsigned));
    let drilled = examples()
        .into_iter()
        .find(|entry| entry.word() == "drilled")
        .unwrap();
    let text = String::from_utf8(drilled.bytes()).unwrap();
    let signed = format!(
        "{},\"signature\":\"{}\"}}",
        &text[..text.len() - 1],
        "0".repeat(128)
    );
    assert_eq!(
        Entry::read(signed.as_bytes()),
        Err(EntryFault::NeedlesslySigned)
    );
    assert_eq!(Entry::read(&vec![b' '; 70_000]), Err(EntryFault::TooLong));
}

#[test]
fn what_came_to_be_noted_later_is_left_out_where_it_is_not_there() {
    let observed = examples()
        .into_iter()
        .find(|entry| entry.word() == "observed")
        .unwrap();
    let text = String::from_utf8(observed.bytes()).unwrap();
    assert!(!text.contains("\"taps\"") && !text.contains("\"transcribed\""));
    let Content::Signed {
        fact,
        signing,
        signature,
    } = observed.content()
    else {
        panic!("somebody signed it");
    };
    let Signed::Observed(fact) = fact else {
        panic!("somebody watched");
    };
    let times = drybench::units::Digest::of(&[b"times"]);
    let more = Observed {
        taps: Some(times),
        transcribed: Some(true),
        ..fact.clone()
    };
    let to_sign = ToSign::new(observed.frame().clone(), more, signing.clone());
    let entry = to_sign.signed(*signature).unwrap();
    let stored = String::from_utf8(entry.bytes()).unwrap();
    assert!(
        stored.contains(&format!("\"taps\":\"{times}\",\"transcribed\":true}}")),
        "{stored}"
    );
    let without = stored.replace(&format!(",\"taps\":\"{times}\",\"transcribed\":true"), "");
    assert_eq!(without, text, "nothing else differs");
    assert_eq!(Entry::read(stored.as_bytes()), Ok(entry));
}

proptest! {
    #[test]
    fn what_differs_by_a_byte_is_not_the_same_entry(at in 0_usize..2000, byte in any::<u8>(), which in 0_usize..35) {
        let all = examples();
        let entry = &all[which % all.len()];
        let mut bytes = entry.bytes();
        let at = at % bytes.len();
        prop_assume!(bytes[at] != byte);
        bytes[at] = byte;
        if let Ok(read) = Entry::read(&bytes) {
            prop_assert_ne!(read.seal(), entry.seal());
            prop_assert_eq!(read.bytes(), bytes);
        }
    }

    #[test]
    fn entries_with_any_text_and_number_are_read_back(
        text in "[ -~äöüß€]{1,60}", number in 1_u64..1_000_000, right in any::<u16>(), seconds in 0_i64..4_000_000_000,
    ) {
        let entry = examples::drilled_with(&text, number, right, seconds);
        prop_assert_eq!(Entry::read(&entry.bytes()), Ok(entry));
    }

    #[test]
    fn no_bytes_make_reading_an_entry_panic(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        drop(Entry::read(&bytes));
    }
}
