//! Modules made to cost time: the check gives up with a complaint, or is done soon.

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use super::{complaints, library};

/// Far above what any module takes.
const PATIENCE: Duration = Duration::from_secs(20);

const HEAD: &str = "\
module: { id: bad, title: Bad, about: Costs time., revision: 1, effective: 2026-12-01, language: en-US, risk: low, origin: our default }
cautions: [Mind the time.]
bench: { sink: { title: Sink, kind: place } }
";

/// The words told about a text, and that it did not take too long.
fn words(what: &str, text: &str) -> Vec<String> {
    let start = Instant::now();
    let (told, _) = complaints(text.as_bytes(), &library(&[]));
    let took = start.elapsed();
    assert!(took < PATIENCE, "{what} took {took:?}");
    let mut words: Vec<String> = told.into_iter().map(|it| it.3).collect();
    words.sort();
    words.dedup();
    words
}

fn step(text: &mut String, number: usize, rest: &str) {
    writeln!(
        text,
        "  - step: {{ id: s{number}, title: Do it, at: sink, takes: 1 s, why: So., good: Good., {rest} }}"
    )
    .unwrap();
}

#[test]
fn many_steps_after_all_others() {
    let mut text = HEAD.to_owned();
    text.push_str("case: { a: { title: A, whole: { from: 1, to: 99 }, shapes-plan: yes } }\n");
    text.push_str("repeats: { r: { up-to: a } }\nflow:\n");
    for number in 0..20 {
        let after: Vec<String> = (0..number).map(|it| format!("{{ all: s{it} }}")).collect();
        let rest = format!("each: [r], after: [{}]", after.join(", "));
        step(&mut text, number, &rest);
    }
    let words = words("steps after all others", &text);
    assert!(words.iter().all(|it| it == "too-many-cards"), "{words:?}");
}

#[test]
fn many_makers_of_one_thing() {
    let mut text = HEAD.to_owned();
    text.push_str("parts: { base: { title: Base, kind: body, aspects: { a: { title: A, values: { no-a: No, a: Yes } } } } }\nflow:\n");
    for number in 0..1_900 {
        step(
            &mut text,
            number,
            "needs: [ { a: a } ], makes: [ { a: a } ]",
        );
    }
    assert_eq!(words("makers of one thing", &text), ["too-large-a-plan"]);
}

#[test]
fn many_names_that_stand_for_nothing() {
    let mut text = HEAD.to_owned();
    text.push_str("flow:\n");
    for number in 0..3_000 {
        step(
            &mut text,
            number,
            "after: [nobody, no-one], tools: [a, b, c]",
        );
    }
    let words = words("names that stand for nothing", &text);
    assert!(words.contains(&"unknown-step".to_owned()), "{words:?}");
}

#[test]
fn circles_everywhere() {
    let mut text = HEAD.to_owned();
    text.push_str("flow:\n");
    for number in 0..900 {
        let rest = format!("after: [s{}, s{}]", (number + 1) % 900, (number + 7) % 900);
        step(&mut text, number, &rest);
    }
    assert_eq!(words("circles", &text), ["circle"]);
}
