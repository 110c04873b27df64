//! Critical paths.

use super::decimal::{TICKS, ticks};
use super::{
    Loaded, Origin, Report, cases, check_each, notices_altered_answers, own_cases, settle,
};
use drybench::syllabus::timing::critical_path::CriticalPath;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// Parts of a case that the program does not compute: chances from three-point estimates.
const NOT_OWED: &[&str] = &["path_variance", "deadline_probability"];

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn text(value: &Value) -> &str {
    value.as_str().expect("a name is text")
}

/// Six times the duration in ticks. From three estimates it is a + 4m + b, which keeps a sixth exact.
fn sixfold(activity: &Value) -> i64 {
    let exact = |value: &Value| ticks(value).expect("a tick is fine enough for the number");
    match activity["estimates"].as_array().map(Vec::as_slice) {
        Some([least, likely, most]) => exact(least) + 4 * exact(likely) + exact(most),
        _ => 6 * exact(&activity["duration"]),
    }
}

fn units(sixfold: i64) -> f64 {
    sixfold as f64 / (6 * TICKS) as f64
}

fn check_case(loaded: &Loaded, case: &Value, report: &mut Report) {
    let expected = &case["expected"];
    report.expects_only(
        case,
        &[&["length", "activities", "critical_paths"], NOT_OWED].concat(),
    );
    if NOT_OWED.iter().any(|part| !expected[*part].is_null()) {
        report.tally.not_owed("chances from three-point estimates");
    }
    let names: Vec<&str> = list(&case["activities"])
        .iter()
        .map(|activity| text(&activity["id"]))
        .collect();
    let number: BTreeMap<&str, usize> = names
        .iter()
        .enumerate()
        .map(|(at, name)| (*name, at))
        .collect();
    let durations: Vec<i64> = list(&case["activities"]).iter().map(sixfold).collect();
    let edges: Vec<(usize, usize)> = list(&case["activities"])
        .iter()
        .enumerate()
        .flat_map(|(at, activity)| {
            list(&activity["preds"])
                .iter()
                .map(move |first| (first, at))
        })
        .map(|(first, at)| (number[text(first)], at))
        .collect();
    let project = match CriticalPath::new(&durations, &edges) {
        Ok(project) => project,
        Err(problem) => {
            report.differs(case, "project", problem, "a project");
            return;
        }
    };
    report.tally.checked(case, Origin::Library);
    if !loaded.agrees_with(Some(units(project.length)), &expected["length"]) {
        report.differs(case, "length", units(project.length), &expected["length"]);
    }
    let wanted = expected["activities"]
        .as_object()
        .map_or(0, |all| all.len());
    if wanted != names.len() {
        report.differs(case, "activities", names.len(), wanted);
    }
    for (name, times) in names.iter().zip(&project.activities) {
        let want = &expected["activities"][*name];
        for (what, got) in [
            ("es", times.earliest_start),
            ("ef", times.earliest_end),
            ("ls", times.latest_start),
            ("lf", times.latest_end),
            ("total_float", times.total_float),
            ("free_float", times.free_float),
        ] {
            if !loaded.agrees_with(Some(units(got)), &want[what]) {
                report.differs(case, &format!("{name} {what}"), units(got), &want[what]);
            }
        }
        if json!(times.is_critical()) != want["critical"] {
            report.differs(case, &format!("{name} critical"), times.is_critical(), want);
        }
    }
    let mut paths: Vec<Vec<&str>> = project
        .paths(10_000)
        .into_iter()
        .map(|path| path.into_iter().map(|at| names[at]).collect())
        .collect();
    paths.sort_unstable();
    if json!(paths) != expected["critical_paths"] {
        report.differs(case, "critical_paths", paths, &expected["critical_paths"]);
    }
}

pub(super) fn check(loaded: &Loaded) -> Report {
    check_each(loaded, check_case)
}

#[test]
fn projects_take_as_long_as_elsewhere() {
    let loaded = cases("cpm");
    settle(&loaded, &check(&loaded));
}

#[test]
fn altered_projects_are_noticed() {
    notices_altered_answers(&own_cases("cpm"), check, NOT_OWED);
}
