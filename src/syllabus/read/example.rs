//! How decoders are put together: the example that the tests read, in the size a real one would have.

use super::*;
use crate::units::Millis;

#[derive(Clone, Copy, Debug, PartialEq)]
enum Severity {
    Minor,
    Major,
    Critical,
}

const SEVERITIES: &Words<Severity> = &[
    ("minor", Severity::Minor),
    ("major", Severity::Major),
    ("critical", Severity::Critical),
];

#[derive(Clone, Debug, PartialEq)]
enum KeptBy {
    Timer,
    Count,
    Watch { sign: String, lift_within: Millis },
}

#[derive(Debug, PartialEq)]
struct Step {
    id: Spot<String>,
    after: Vec<Spot<String>>,
    kept_by: Option<KeptBy>,
    time: Option<Millis>,
    errors: Vec<(Spot<String>, Severity)>,
    teeth: u8,
}

#[derive(Debug, PartialEq)]
enum Item {
    Step(Step),
    Stage(Spot<String>),
}

const FLOW: &[Variant<Item>] = &[
    ("step", |node, problems| {
        step(node, problems).map(Item::Step)
    }),
    ("stage", |node, problems| {
        stage(node, problems).map(Item::Stage)
    }),
];

const KEPT_BY: &Words<KeptBy> = &[("timer", KeptBy::Timer), ("count", KeptBy::Count)];

fn step(node: &Node, problems: &mut Problems) -> Option<Step> {
    let mut map = MapReader::open(node, problems)?;
    let id = map.required("id", name);
    let after = map.list("after", name);
    let kept_by = map.optional("kept-by", word_or_variant(KEPT_BY, &[("watch", watch)]));
    let time = map.optional("time", within(Millis::seconds(1)..=Millis::minutes(60)));
    let errors = map.entries("errors", severity);
    let teeth = map.or("teeth", 14, whole(1..=14));
    map.finish();
    Some(Step {
        id: id?,
        after,
        kept_by,
        time,
        errors,
        teeth,
    })
}

fn watch(node: &Node, problems: &mut Problems) -> Option<KeptBy> {
    let mut map = MapReader::open(node, problems)?;
    let sign = map.required("sign", text);
    let lift_within = map.required("lift-within", quantity);
    map.finish();
    Some(KeptBy::Watch {
        sign: sign?,
        lift_within: lift_within?,
    })
}

fn severity(node: &Node, problems: &mut Problems) -> Option<Severity> {
    let mut map = MapReader::open(node, problems)?;
    let severity = map.required("severity", word(SEVERITIES));
    map.finish();
    severity
}

fn stage(node: &Node, problems: &mut Problems) -> Option<Spot<String>> {
    let mut map = MapReader::open(node, problems)?;
    let stage = map.required("use", name);
    map.finish();
    stage
}

fn flow(text: &str) -> Result<Vec<Item>, Report> {
    read(text.as_bytes(), |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let flow = map.some("flow", variant(FLOW));
        map.finish();
        flow
    })
}

/// The complaints about a text as line, column and fault.
fn complaints(text: &str) -> Vec<(u32, u32, Fault)> {
    let report = flow(text).expect_err("something is wrong");
    assert_eq!(report.more, 0);
    let told = report.problems.into_iter();
    told.map(|Problem { at, what }| (at.line, at.column, what))
        .collect()
}

#[test]
fn a_sound_text_becomes_values() {
    let text = "\
flow:
  - stage: { use: two-baths }
  - step:
      id: tack
      after: [wipe, dry-fit]
      kept-by: { watch: { sign: strip-turns, lift-within: 20 s } }
      time: 1 min 30 s
      errors: { short: { severity: major } }
      teeth: 7
  - step: { id: fill, kept-by: count }
";
    let items = flow(text).unwrap();
    let [Item::Stage(stage), Item::Step(tack), Item::Step(fill)] = &items[..] else {
        panic!("{items:?}");
    };
    assert_eq!((stage.value.as_str(), stage.at.line), ("two-baths", 2));
    assert_eq!(tack.after[1].value, "dry-fit");
    assert_eq!((tack.after[1].at.line, tack.after[1].at.column), (5, 21));
    let lift_within = Millis::seconds(20);
    let sign = "strip-turns".to_owned();
    assert_eq!(tack.kept_by, Some(KeptBy::Watch { sign, lift_within }));
    assert_eq!((tack.time, tack.teeth), (Some(Millis::seconds(90)), 7));
    assert_eq!(tack.errors[0].0.value, "short");
    assert_eq!(tack.errors[0].1, Severity::Major);
    assert_eq!((&fill.kept_by, fill.time), (&Some(KeptBy::Count), None));
}

#[test]
fn everything_that_does_not_fit_is_told_in_one_go() {
    let text = "\
flow:
  - step:
      idd: tack
      after: wipe
      kept-by: watch
      time: 2 minuets
      errors: { short: { severity: majr } }
      teeth: 15
  - stop: { id: fill }
  - step: { id: Fill It, kept-by: { timer: 3 s } }
  - step: { id: a }
    stage: { use: b }
  - stage: { use: }
floor: x
";
    let told = complaints(text);
    let places: Vec<_> = told.iter().map(|it| (it.0, it.1)).collect();
    let expected = [
        (3, 7),
        (3, 7),
        (4, 14),
        (5, 16),
        (6, 13),
        (7, 36),
        (8, 14),
        (9, 5),
        (10, 17),
        (10, 37),
        (11, 5),
        (13, 17),
        (14, 1),
    ];
    assert_eq!(places, expected, "{told:#?}");
    let suggestion = |at: usize| match &told[at].2 {
        Fault::UnknownKey { suggestion, .. } | Fault::UnknownWord { suggestion, .. } => {
            suggestion.as_deref()
        }
        _ => None,
    };
    assert_eq!(
        [0, 5, 7, 12].map(suggestion),
        [Some("id"), Some("major"), Some("step"), None]
    );
    assert_eq!(told[1].2, Fault::MissingKey { key: "id" });
    assert_eq!(told[3].2, Fault::WordNeedsMore { word: "watch" });
    assert_eq!(told[9].2, Fault::WordStandsAlone { word: "timer" });
    assert!(
        matches!(&told[4].2, Fault::NoQuantity { found, kind: Kind::Duration, .. } if found == "2 minuets")
    );
    assert!(
        matches!(&told[6].2, Fault::OutOfRange { least, most, .. } if least == "1" && most == "14")
    );
    assert!(matches!(told[10].2, Fault::OneKeyOf { found: 2, .. }));
    assert!(matches!(
        told[11].2,
        Fault::WrongShape {
            found: Shape::Empty,
            ..
        }
    ));
}

#[test]
fn a_fault_of_syntax_is_told_alone() {
    let told = complaints("flow:\n  - stop: 1\nflow: [a\n");
    assert_eq!(told.len(), 1);
    assert!(matches!(told[0].2, Fault::Syntax(_)));
}

#[test]
fn a_key_that_stands_twice_is_told_with_the_rest() {
    let told = complaints("flow:\n  - step: { id: a, id: b, tim: 3 s }\n");
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(matches!(told[0].2, Fault::DuplicateKey { .. }));
    assert!(matches!(told[1].2, Fault::UnknownKey { .. }));
}

#[test]
fn an_empty_file_and_a_bare_text_miss_their_map() {
    for (text, shape) in [
        ("", Shape::Empty),
        ("flow", Shape::Scalar),
        ("- a", Shape::List),
    ] {
        let told = complaints(text);
        assert!(matches!(told[..], [(1, 1, Fault::WrongShape { found, .. })] if found == shape));
    }
    assert_eq!(complaints("flow: []"), [(1, 7, Fault::Nothing)]);
}

#[test]
fn words_are_never_truth_values_by_themselves() {
    let answer = |text: &str| read(text.as_bytes(), yes_no);
    assert_eq!(answer("yes"), Ok(true));
    assert_eq!(answer("'no'"), Ok(false));
    for text in ["true", "on", "Yes", "1", "~"] {
        assert!(answer(text).is_err(), "{text}");
    }
    let words = read(b"[no, on, 1.10, ~]", list_of(text));
    assert_eq!(words.unwrap(), ["no", "on", "1.10", "~"]);
}

#[test]
fn whole_numbers_have_limits_and_no_decoration() {
    let number = |text: &str| read(text.as_bytes(), whole(-3_i8..=100));
    assert_eq!(
        (number("100"), number("-3"), number("007")),
        (Ok(100), Ok(-3), Ok(7))
    );
    for text in ["101", "-4", "300", "99999999999999999999999", "-"] {
        assert!(number(text).is_err(), "{text}");
    }
    for text in ["1.0", "+1", "1_0", "0x1", "1e1", "one", "−1", "''"] {
        let Fault::WrongForm { expected, .. } = number(text).unwrap_err().problems[0].what else {
            panic!("{text}");
        };
        assert_eq!(expected, Form::WholeNumber);
    }
}

#[test]
fn one_item_needs_no_brackets() {
    let names = |text: &str| read(text.as_bytes(), one_or_more(name));
    assert_eq!(names("wipe").unwrap()[0].value, "wipe");
    assert_eq!(names("[wipe, fill]").unwrap()[1].value, "fill");
    for text in ["[]", "", "{a: b}", "[Wi pe]", "a--b", "-"] {
        assert!(names(text).is_err(), "{text}");
    }
}

#[test]
fn a_shorthand_and_its_long_form_read_alike() {
    let long = |node: &Node, problems: &mut Problems| {
        let mut map = MapReader::open(node, problems)?;
        let key = map.one_of(&["quoted", "named"])?;
        let source = map.required(key, text);
        map.finish();
        source
    };
    let source = |text: &str| read(text.as_bytes(), scalar_or(super::text, long));
    assert_eq!(source("our default"), source("named: our default"));
    let report = source("{quoted: a, named: b}").unwrap_err();
    assert!(matches!(
        report.problems[0].what,
        Fault::OneKeyOf { found: 2, .. }
    ));
}

#[test]
fn a_refusal_without_a_reason_is_still_told() {
    let report = read(b"a", |_, _| None::<()>).unwrap_err();
    assert_eq!(report.problems[0].what, Fault::Refused);
}
