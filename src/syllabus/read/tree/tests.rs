//! What the tree keeps, what it refuses, and where it says so.

use super::super::fault::{Feature, SyntaxFault};
use super::*;

fn tree(text: &str) -> Node {
    let mut problems = Problems::new();
    let tree = parse(text.as_bytes(), &mut problems);
    assert_eq!(problems.report().problems, [], "{text:?}");
    tree.unwrap()
}

/// The only complaint about a text, as line, column and fault.
fn complaint(bytes: impl AsRef<[u8]>) -> (u32, u32, Fault) {
    let mut problems = Problems::new();
    let _tree = parse(bytes.as_ref(), &mut problems);
    let mut report = problems.report();
    assert_eq!(report.problems.len(), 1, "{report:?}");
    let Problem { at, what } = report.problems.remove(0);
    (at.line, at.column, what)
}

fn not_used(feature: Feature) -> Fault {
    Fault::NotUsed(feature)
}

/// The entries of a map of scalars as key, text and whether it was quoted.
fn scalars(text: &str) -> Vec<(String, Option<(String, bool)>)> {
    let Value::Map(entries) = tree(text).value else {
        panic!("no map: {text}");
    };
    let entry = |(key, node): (Key, Node)| match node.value {
        Value::Scalar { text, quoted } => (key.text, Some((text, quoted))),
        Value::Empty => (key.text, None),
        other => panic!("no scalar: {other:?}"),
    };
    entries.into_iter().map(entry).collect()
}

#[test]
fn plain_text_stays_as_it_was_written() {
    for written in [
        "no",
        "on",
        "Off",
        "TRUE",
        "1.10",
        "0o7",
        "007",
        "0x1F",
        "~",
        "null",
        "12",
        "1_000",
        ".inf",
        "-.nan",
        "2026-12-01",
        "12:30:45",
        "1e3",
        "+5",
        "2 min",
        "-40 °C",
        "=",
        "?x",
        "a:b",
        "x#y",
        "ü — ß",
    ] {
        let expected = (written.to_owned(), false);
        for text in [format!("k: {written}\n"), format!("{{k: {written} }}")] {
            assert_eq!(scalars(&text), [("k".to_owned(), Some(expected.clone()))]);
        }
        let tree = tree(&format!("- {written}"));
        let Value::List(items) = tree.value else {
            panic!()
        };
        assert!(matches!(&items[0].value, Value::Scalar { text, .. } if text == written));
    }
}

#[test]
fn nothing_is_told_from_a_tilde_and_from_quotes() {
    let text = "a:\nb: ~\nc: \"\"\nd: '~'\ne: # no more\nf: {g: , h}\n";
    let Value::Map(entries) = tree(text).value else {
        panic!()
    };
    let shapes: Vec<_> = entries.iter().map(|(_, node)| node.shape()).collect();
    use Shape::{Empty, Map, Scalar};
    assert_eq!(shapes, [Empty, Scalar, Scalar, Scalar, Empty, Map]);
    let Value::Map(inner) = &entries[5].1.value else {
        panic!()
    };
    assert!(inner.iter().all(|(_, node)| node.shape() == Empty));
    assert_eq!(tree("").value, Value::Empty);
    assert_eq!(tree("# only a remark\n").value, Value::Empty);
}

#[test]
fn quotes_and_folded_lines_are_undone() {
    let text =
        "a: 'it''s'\nb: \"one\\ttwo\"\nc: |\n  one\n  two\nd: >-\n  one\n  two\ne: one\n  two\n";
    let read: Vec<_> = scalars(text)
        .into_iter()
        .map(|(_, it)| it.unwrap())
        .collect();
    let expected = [
        ("it's", true),
        ("one\ttwo", true),
        ("one\ntwo\n", true),
        ("one two", true),
        ("one two", false),
    ];
    assert_eq!(
        read,
        expected.map(|(text, quoted)| (text.to_owned(), quoted))
    );
}

#[test]
fn every_place_covers_what_was_written() {
    let text = "größe: 12\nflow:\n  - step: { id: 'tack', at: [x, y] }\n  - b: é\nlast: z\n";
    let slice = |at: Place| &text[at.start..at.end];
    let Value::Map(entries) = tree(text).value else {
        panic!()
    };
    let (key, node) = &entries[0];
    assert_eq!((slice(key.at), slice(node.at)), ("größe", "12"));
    assert_eq!((node.at.line, node.at.column), (1, 8));
    let (_, flow) = &entries[1];
    assert_eq!(
        slice(flow.at),
        "- step: { id: 'tack', at: [x, y] }\n  - b: é"
    );
    assert_eq!((flow.at.line, flow.at.column), (3, 3));
    let Value::List(items) = &flow.value else {
        panic!()
    };
    let Value::Map(tagged) = &items[0].value else {
        panic!()
    };
    assert_eq!(slice(tagged[0].1.at), "{ id: 'tack', at: [x, y] }");
    let Value::Map(step) = &tagged[0].1.value else {
        panic!()
    };
    assert_eq!(slice(step[0].1.at), "'tack'");
    assert_eq!(slice(step[1].1.at), "[x, y]");
}

#[test]
fn a_key_that_stands_twice_is_told_with_both_places() {
    let (line, column, what) = complaint("a: 1\nb: 2\nc: {x: 1}\na: 3\n");
    assert_eq!((line, column), (4, 1));
    let Fault::DuplicateKey { key, first } = what else {
        panic!("{what:?}");
    };
    assert_eq!((key.as_str(), first.line, first.column), ("a", 1, 1));
}

#[test]
fn what_modules_do_not_use_is_refused_at_its_place() {
    for (text, line, column, feature) in [
        ("a: &x 1\n", 1, 4, Feature::Anchor),
        ("a: *x\n", 1, 4, Feature::Alias),
        ("a: !x 1\n", 1, 4, Feature::Tag),
        ("a: !!str 1\n", 1, 4, Feature::Tag),
        ("a: ! 1\n", 1, 4, Feature::Tag),
        ("<<: {b: 1}\n", 1, 1, Feature::MergeKey),
        ("%YAML 1.2\n---\na: 1\n", 1, 1, Feature::Directive),
        ("a: 1\n---\nb: 1\n", 2, 1, Feature::SecondDocument),
    ] {
        assert_eq!(complaint(text), (line, column, not_used(feature)), "{text}");
    }
    assert_eq!(tree("---\na: 1\n").shape(), Shape::Map);
    assert_eq!(tree("'<<': 1\n").shape(), Shape::Map);
}

#[test]
fn faults_of_syntax_are_sorted_and_placed() {
    use SyntaxFault as S;
    for (text, line, column, fault) in [
        ("a:\n\t- b\n", 2, 1, S::Tab),
        ("why: Dry: then cure.\n", 1, 9, S::StrayColon),
        ("a: [b, c\n", 1, 4, S::BracketOpen('[')),
        (
            "a: [b}\n",
            1,
            4,
            S::BracketMismatch {
                open: '[',
                close: '}',
            },
        ),
        ("a: \"b\n", 1, 4, S::QuoteOpen),
        ("a: 'b' c\n", 1, 8, S::AfterQuote),
        ("a: \"\\q\"\n", 1, 4, S::Escape),
        ("a: 1\nb\nc: 2\n", 2, 1, S::NoColon),
        ("a: @b\n", 1, 4, S::Reserved('@')),
    ] {
        let expected = (line, column, Fault::Syntax(fault));
        assert_eq!(complaint(text), expected, "{text}");
    }
}

#[test]
fn keys_are_texts() {
    for text in ["[a]: b\n", "? {a: b}\n: c\n", "{: b}\n", "? \n: b\n"] {
        assert_eq!(complaint(text).2, Fault::KeyIsNoText, "{text}");
    }
}

#[test]
fn bytes_that_are_no_text_are_placed() {
    let bytes = b"a: 1\nb: \xc3\xbc\xff\n";
    assert_eq!(complaint(bytes), (2, 5, Fault::NotUtf8 { byte: 0xff }));
    // A character cut off at the end of the file.
    assert_eq!(
        complaint(b"a: \xe2\x82"),
        (1, 4, Fault::NotUtf8 { byte: 0xe2 })
    );
}

#[test]
fn characters_that_could_act_on_a_terminal_are_refused() {
    let escape = Fault::ControlCharacter('\u{1b}');
    assert_eq!(complaint("a: 1\nb: \u{1b}[2J\n"), (2, 4, escape.clone()));
    assert_eq!(complaint("a: 1\nb: \"\\e[2J\"\n"), (2, 4, escape));
}

#[test]
fn depth_size_and_number_have_limits() {
    let deep = |depth: usize| format!("{}{}", "[".repeat(depth), "]".repeat(depth));
    assert_eq!(tree(&deep(MOST_DEPTH)).shape(), Shape::List);
    let too_deep = Fault::TooDeep { most: MOST_DEPTH };
    assert_eq!(complaint(deep(MOST_DEPTH + 1)), (1, 65, too_deep.clone()));
    let mixed = format!("{}{}", "- ".repeat(40), deep(30));
    assert_eq!(complaint(mixed).2, too_deep);

    let many = |count: usize| "- a\n".repeat(count);
    assert_eq!(tree(&many(MOST_NODES - 1)).shape(), Shape::List);
    assert_eq!(
        complaint(many(MOST_NODES)).2,
        Fault::TooMany { most: MOST_NODES }
    );

    let large = vec![b'a'; MOST_BYTES + 1];
    assert_eq!(complaint(large).2, Fault::TooLarge { most: MOST_BYTES });
    assert_eq!(tree(&"a".repeat(MOST_BYTES)).shape(), Shape::Scalar);
}
