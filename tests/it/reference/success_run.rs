//! Success-run demonstration: `success_run.json` against `standing::worth`. Numbers of runs under a prior are not owed.

use super::intervals::{has_any, whole, without_parts};
use super::solved::{self, Solver, number};
use super::{Loaded, Origin, Report, cases, own_cases, settle};
use drybench::standing::worth::{at_most, lower_bound, runs_needed, shown_confidence};
use serde_json::{Map, Value, json};

const SOLVERS: &[(&str, Solver)] = &[
    ("sample_size", sample_size),
    ("published_row", published_row),
    ("bound", bound),
    ("pass_probability", pass_probability),
];
const NOT_OWED: &[&str] = &[];
/// A part of the answers that the program does not compute.
const PARTS: &[&str] = &["n_uniform_prior"];

pub(super) fn check(loaded: &Loaded) -> Report {
    let mut report = solved::check(
        &without_parts(loaded, PARTS),
        SOLVERS,
        NOT_OWED,
        Origin::Library,
    );
    let apart = loaded.cases.iter().filter(|case| has_any(case, PARTS));
    apart.for_each(|_| report.tally.not_owed("answers under a prior"));
    report
}

fn sample_size(case: &Value) -> Option<Value> {
    let (reliability, confidence) = (number(case, "reliability")?, number(case, "confidence")?);
    let failures = whole(case, "allowed_failures")?;
    let runs = runs_needed(reliability, confidence, failures);
    Some(json!({
        "n": runs,
        "achieved_lower_bound": lower_bound(runs - failures, runs, confidence),
        "achieved_confidence": shown_confidence(reliability, runs, failures),
    }))
}

fn published_row(case: &Value) -> Option<Value> {
    let (reliability, confidence) = (number(case, "reliability")?, number(case, "confidence")?);
    let row = [0, 1, 2].map(|failures| runs_needed(reliability, confidence, failures));
    Some(json!({ "n_for_0_1_2_failures": row }))
}

fn bound(case: &Value) -> Option<Value> {
    let (runs, failures) = (whole(case, "n")?, whole(case, "failures")?);
    let confidence = number(case, "confidence")?;
    Some(json!({
        "reliability_lower_bound": lower_bound(runs - failures, runs, confidence),
        "zero_failure_formula": (failures == 0).then(|| lower_bound(runs, runs, confidence)),
    }))
}

fn pass_probability(case: &Value) -> Option<Value> {
    let (runs, failures) = (whole(case, "n")?, whole(case, "allowed_failures")?);
    let asked = case["expected"]["p_pass"].as_object()?;
    let mut chances = Map::new();
    for share in asked.keys() {
        let success: f64 = share.parse().ok()?;
        chances.insert(share.clone(), json!(at_most(failures, runs, 1.0 - success)));
    }
    Some(json!({ "p_pass": chances }))
}

#[test]
fn success_runs_agree() {
    let loaded = cases("success_run");
    settle(&loaded, &check(&loaded));
}

#[test]
fn success_runs_notice_slips() {
    let owed = without_parts(&own_cases("success_run"), PARTS);
    solved::assert_notices_slips(&owed, check, NOT_OWED);
}
