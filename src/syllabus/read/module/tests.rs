//! Tests of assembly: stages, overrides, and faults told in the file they are in.

use super::*;

const HEAD: &str = "\
module: { id: small, title: Small, about: A test., revision: 1, effective: 2026-12-01, language: en-US, risk: low, origin: our default }
";
const STAGE: &str = "\
stage: { id: wash, title: Washing, expects: [sink, peel] }
steps:
  - { id: first, title: First, at: sink, after: [peel], errors: { skipped: { severity: minor } }, kept-by: { count: { target: 3 s, least: 2 s, most: 4 s } } }
  - { id: brush, title: Brush, at: sink, after: [first] }
  - { id: second, title: Second, at: sink, after: [{ all: brush }] }
";

fn assembled(flow: &str) -> Result<Assembled, Refused> {
    let text = format!("{HEAD}flow:\n  - step: {{ id: peel, title: Peel, at: sink }}\n{flow}");
    let library = Library::new().with("wash", "stages/wash.yaml", STAGE.as_bytes());
    module("small.yaml", text.as_bytes(), &library)
}

fn ids(read: &Assembled) -> Vec<&str> {
    let steps = read.module.steps.iter();
    steps.map(|it| it.id.value.as_str()).collect()
}

#[test]
fn a_stage_brings_its_steps_and_says_where_they_came_from() {
    let read = assembled("  - stage: { use: wash }\n").unwrap();
    assert_eq!(ids(&read), ["peel", "first", "brush", "second"]);
    assert_eq!(read.module.steps[0].stage, None);
    assert_eq!(
        read.module.steps[1]
            .stage
            .as_ref()
            .map(|stage| stage.id.as_str()),
        Some("wash")
    );
    assert_eq!(read.module.steps[1].id.at.file, 1);
    assert_eq!(read.files, ["small.yaml", "stages/wash.yaml"]);
    assert_eq!(read.stages[0].expects[1].value, "peel");
}

#[test]
fn a_dropped_step_leaves_the_order_behind() {
    let read = assembled("  - stage: { use: wash, drop: [brush, first] }\n").unwrap();
    let second = &read.module.steps[1];
    assert_eq!(second.id.value, "second");
    let [link] = &second.after[..] else {
        panic!("{:?}", second.after);
    };
    assert_eq!((link.step.value.as_str(), link.all), ("peel", true));
}

#[test]
fn steps_can_be_adjusted_replaced_and_added() {
    let read = assembled(
        "  - stage:
      use: wash
      adjust: { first: { title: Once, errors: { short: { severity: major } }, kept-by: { timer: { target: 2 min, least: 1 min, most: 3 min } } } }
      replace: { brush: { title: Shake, at: sink } }
      add: [ { id: rest, title: Rest, at: sink, after: [second] } ]
",
    )
    .unwrap();
    assert_eq!(ids(&read), ["peel", "first", "brush", "second", "rest"]);
    let first = &read.module.steps[1];
    assert_eq!((first.title.as_str(), first.after.len()), ("Once", 1));
    assert!(first.errors.skipped.is_some() && first.errors.short.len() == 1);
    assert!(matches!(
        first.keeping,
        Some(crate::syllabus::module::Keeping::Timer(_))
    ));
    let brush = &read.module.steps[2];
    assert_eq!((brush.title.as_str(), brush.after.len()), ("Shake", 0));
    assert_eq!((first.id.at.file, brush.id.at.file), (1, 0));
}

#[test]
fn faults_in_a_stage_are_told_in_its_file_and_with_the_others() {
    let refused = assembled(
        "  - stage:
      use: wash
      drop: [bursh]
      adjust: { second: { takes: long } }
  - stage: { use: wahs }
  - stage: { use: wash }
  - step: { id: end, title: End, at: sink, titel: x }
",
    )
    .unwrap_err();
    let told: Vec<_> = refused
        .report
        .problems
        .iter()
        .map(|it| (it.at.line, it.what.word()))
        .collect();
    assert_eq!(
        told,
        [
            (6, "unknown-stage-step"),
            (7, "no-quantity"),
            (8, "unknown-stage"),
            (9, "stage-twice"),
            (10, "unknown-key")
        ]
    );
    let broken = STAGE.replace("id: second,", "idd: second,");
    let text = format!("{HEAD}flow: [ {{ stage: {{ use: wash }} }} ]\n");
    let library = Library::new().with("wash", "stages/wash.yaml", broken.as_bytes());
    let refused = module("small.yaml", text.as_bytes(), &library).unwrap_err();
    let problem = &refused.report.problems[0];
    assert_eq!((problem.at.file, problem.at.line), (1, 5));
    assert_eq!(refused.files[1], "stages/wash.yaml");
}

#[test]
fn an_origin_is_one_of_five_marks() {
    for (text, good) in [
        ("'common practice, no source'", true),
        ("from memory", true),
        ("our default", true),
        ("calculated from the volume", true),
        ("handbook-2", true),
        ("everybody knows", false),
        ("calculated from", false),
    ] {
        let bytes = text.as_bytes();
        assert_eq!(
            crate::syllabus::read::read(bytes, origin).is_ok(),
            good,
            "{text}"
        );
    }
}
