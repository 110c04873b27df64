//! Random bytes, random signs and random damage to a sound module: read or refused, and every place inside the file.

use drybench::syllabus::read::{Node, Problem, Problems, Value, list_of, parse, read, text};
use proptest::prelude::*;

use super::SAMPLE;

/// One way in which a file is damaged.
#[derive(Clone, Debug)]
enum Damage {
    Drop(usize, usize),
    Insert(usize, Vec<u8>),
    Copy(usize, usize, usize),
}

fn damage() -> impl Strategy<Value = Damage> {
    let at = 0..SAMPLE.len();
    let pieces = prop::sample::select(vec![
        "\t", "\n", ":", ": ", "- ", "[", "]", "{", "}", ",", "'", "\"", "#", "&a ", "*a", "!t ",
        "|", ">", "%", "---\n", "? ", "<<: ", "\u{1b}", "\u{feff}", "é", "\0", "  ", "\r",
    ]);
    prop_oneof![
        (at.clone(), 1_usize..40).prop_map(|(at, length)| Damage::Drop(at, length)),
        (at.clone(), pieces).prop_map(|(at, it)| Damage::Insert(at, it.as_bytes().to_vec())),
        (at.clone(), any::<u8>()).prop_map(|(at, byte)| Damage::Insert(at, vec![byte])),
        (at.clone(), at, 1_usize..80).prop_map(|(from, to, length)| Damage::Copy(from, to, length)),
    ]
}

fn damaged(all: &[Damage]) -> Vec<u8> {
    let mut bytes = SAMPLE.as_bytes().to_vec();
    for one in all {
        let end = bytes.len();
        match one {
            Damage::Drop(at, length) => {
                let at = end.min(*at);
                bytes.drain(at..end.min(at + length));
            }
            Damage::Insert(at, piece) => {
                let at = end.min(*at);
                bytes.splice(at..at, piece.iter().copied());
            }
            Damage::Copy(from, to, length) => {
                let from = end.min(*from);
                let piece = bytes[from..end.min(from + length)].to_vec();
                let to = end.min(*to);
                bytes.splice(to..to, piece);
            }
        }
    }
    bytes
}

/// Whatever the bytes: a tree whose places lie in the file, or problems whose places do.
fn holds(bytes: &[u8]) {
    let mut problems = Problems::new();
    let tree = parse(bytes, &mut problems);
    let report = problems.report();
    assert!(tree.is_some() || report.problems.len() == 1);
    for Problem { at, .. } in &report.problems {
        assert!(at.start <= at.end && at.end <= bytes.len().max(1), "{at:?}");
        assert!(1 <= at.line && 1 <= at.column);
    }
    if let Some(tree) = tree {
        within(&tree, bytes.len());
    }
}

fn within(node: &Node, most: usize) {
    assert!(node.at.start <= node.at.end && node.at.end <= most);
    match &node.value {
        Value::Scalar { .. } | Value::Empty => {}
        Value::List(items) => items.iter().for_each(|item| within(item, most)),
        Value::Map(entries) => entries.iter().for_each(|(_, item)| within(item, most)),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        holds(&bytes);
    }

    #[test]
    fn any_text_of_yaml_signs_is_read_or_refused(text in "[-a:\\[\\]{},&*!|>'\"%@`#? \n\té\\\\~<0.]{0,120}") {
        holds(text.as_bytes());
    }

    #[test]
    fn any_damage_to_a_module_is_read_or_refused(all in prop::collection::vec(damage(), 1..4)) {
        holds(&damaged(&all));
    }

    #[test]
    fn a_plain_word_is_never_changed(word in "[A-Za-z0-9._+~-]{0,12}[A-Za-z0-9~]") {
        prop_assume!(!word.starts_with("--"));
        let words = read(format!("- {word}\n- [{word}]\n").as_bytes(), list_of(|node, problems| {
            match &node.value {
                Value::List(_) => list_of(text)(node, problems).and_then(|mut it| it.pop()),
                _ => text(node, problems),
            }
        }));
        prop_assert_eq!(words, Ok(vec![word.clone(), word]));
    }
}
