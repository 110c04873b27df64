//! Exact bounds: `intervals.json` against `standing::worth`. Intervals that are not exact, and those with a prior, are not owed.

use super::solved::{self, Solver, number};
use super::{Loaded, Origin, Report, cases, own_cases, settle};
use drybench::standing::worth::{bounds, lower_bound, upper_bound};
use serde_json::{Value, json};

const SOLVERS: &[(&str, Solver)] = &[("interval", interval)];
const NOT_OWED: &[&str] = &["beta_posterior"];
/// Parts of the answers that the program does not compute, and those that repeat others in print.
const PARTS: &[&str] = &["wilson", "jeffreys", "agresti_coull"];

pub(super) fn check(loaded: &Loaded) -> Report {
    let mut report = solved::check(
        &without_parts(loaded, PARTS),
        SOLVERS,
        NOT_OWED,
        Origin::Library,
    );
    let apart = loaded.cases.iter().filter(|case| has_any(case, PARTS));
    apart.for_each(|_| report.tally.not_owed("answers that are not exact"));
    report
}

/// Whether an answer has one of these parts.
pub(super) fn has_any(case: &Value, parts: &[&str]) -> bool {
    parts.iter().any(|part| !case["expected"][part].is_null())
}

/// The same cases without these parts of their answers.
pub(super) fn without_parts(loaded: &Loaded, parts: &[&str]) -> Loaded {
    let mut owed = loaded.clone();
    for expected in owed
        .cases
        .iter_mut()
        .filter_map(|case| case["expected"].as_object_mut())
    {
        expected.retain(|name, _| !parts.contains(&name.as_str()));
    }
    owed
}

/// A whole number of a case.
pub(super) fn whole(case: &Value, key: &str) -> Option<u32> {
    case[key].as_u64()?.try_into().ok()
}

fn interval(case: &Value) -> Option<Value> {
    let (clean, of) = (whole(case, "successes")?, whole(case, "n")?);
    let confidence = number(case, "confidence")?;
    let (low, high) = bounds(clean, of, confidence);
    Some(json!({
        "clopper_pearson": [low, high],
        "one_sided_exact_lower": lower_bound(clean, of, confidence),
        "one_sided_exact_upper": upper_bound(clean, of, confidence),
    }))
}

#[test]
fn intervals_agree() {
    let loaded = cases("intervals");
    settle(&loaded, &check(&loaded));
}

#[test]
fn intervals_notice_slips() {
    let owed = without_parts(&own_cases("intervals"), PARTS);
    solved::assert_notices_slips(&owed, check, NOT_OWED);
}
