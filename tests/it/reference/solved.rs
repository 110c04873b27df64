//! Checks of files whose answers are plain values: solve the case, compare every expected value by its name.

use super::{Check, Loaded, Origin, Report};
use serde_json::Value;

/// Solves a case: an object with at least the names of the expected values. `None` if an input is missing or is no number.
pub(super) type Solver = fn(&Value) -> Option<Value>;

/// Looks at every case. `solvers` go by kind; the kinds of `not_owed` are counted and left alone.
pub(super) fn check(
    loaded: &Loaded,
    solvers: &[(&str, Solver)],
    not_owed: &[&str],
    origin: Origin,
) -> Report {
    let mut report = Report::default();
    for case in &loaded.cases {
        let kind = case["kind"].as_str().unwrap_or_default();
        if not_owed.contains(&kind) {
            report.tally.not_owed(kind);
            continue;
        }
        let Some((_, solve)) = solvers.iter().find(|(name, _)| *name == kind) else {
            report.unknown(case, kind);
            continue;
        };
        report.tally.checked(case, origin);
        match (solve(case), case["expected"].as_object()) {
            (Some(got), Some(expected)) if !expected.is_empty() => {
                for (name, want) in expected {
                    compare(loaded, &mut report, case, name, &got[name.as_str()], want);
                }
            }
            (None, _) => report.differs(case, "inputs", "unreadable", "readable"),
            (Some(_), _) => report.differs(case, "expected", "nothing", "at least one value"),
        }
    }
    report
}

/// Compares one expected value: numbers within the tolerance, lists and objects part by part, all else exactly.
fn compare(
    loaded: &Loaded,
    report: &mut Report,
    case: &Value,
    name: &str,
    got: &Value,
    want: &Value,
) {
    match (got, want) {
        (Value::Array(some), Value::Array(all)) if some.len() == all.len() => {
            for (at, (got, want)) in some.iter().zip(all).enumerate() {
                compare(loaded, report, case, &format!("{name}[{at}]"), got, want);
            }
        }
        (Value::Object(some), Value::Object(all)) => {
            for (key, want) in all {
                let got = some.get(key).unwrap_or(&Value::Null);
                compare(loaded, report, case, &format!("{name}.{key}"), got, want);
            }
        }
        (Value::Number(one), Value::Number(other)) => {
            let near = one
                .as_f64()
                .zip(other.as_f64())
                .is_some_and(|(one, other)| loaded.agrees(one, other));
            if !near {
                report.differs(case, name, one, other);
            }
        }
        _ if got == want => {}
        _ => report.differs(case, name, got, want),
    }
}

/// A number of a case.
pub(super) fn number(part: &Value, key: &str) -> Option<f64> {
    part[key].as_f64()
}

/// A number that is zero where the case leaves it out.
pub(super) fn number_or_zero(part: &Value, key: &str) -> Option<f64> {
    if part[key].is_null() {
        Some(0.0)
    } else {
        number(part, key)
    }
}

/// A list of numbers of a case.
pub(super) fn numbers(part: &Value, key: &str) -> Option<Vec<f64>> {
    part[key].as_array()?.iter().map(Value::as_f64).collect()
}

/// Adds 1 to every number of an answer, one at a time, and says how many of these slips `check` let pass, and of how many.
fn slips_let_pass(loaded: &Loaded, check: Check) -> (Vec<String>, usize) {
    let mut passed = Vec::new();
    let mut made = 0;
    for case in &loaded.cases {
        let leaves = count_numbers(&case["expected"]);
        for leaf in 0..leaves {
            let mut altered = case.clone();
            alter(&mut altered["expected"], &mut leaf.clone());
            let one = Loaded {
                cases: vec![altered],
                ..loaded.clone()
            };
            made += 1;
            if check(&one).mismatches.len() != 1 {
                passed.push(format!("{} number {leaf}", case["id"]));
            }
        }
    }
    (passed, made)
}

/// How many numbers an answer holds.
fn count_numbers(answer: &Value) -> usize {
    match answer {
        Value::Number(_) => 1,
        Value::Array(all) => all.iter().map(count_numbers).sum(),
        Value::Object(all) => all.values().map(count_numbers).sum(),
        _ => 0,
    }
}

/// Raises the number at `place` by 1 or by a hundredth of itself, whichever is more.
fn alter(answer: &mut Value, place: &mut usize) -> bool {
    match answer {
        Value::Number(number) => {
            if *place > 0 {
                *place -= 1;
                return false;
            }
            let value = number.as_f64().unwrap_or_default();
            *answer = Value::from(value + (value.abs() / 100.0).max(1.0));
            true
        }
        Value::Array(all) => all.iter_mut().any(|one| alter(one, place)),
        Value::Object(all) => all.values_mut().any(|one| alter(one, place)),
        _ => false,
    }
}

/// Fails unless `check` reports every altered answer, a kind nobody knows and a case without inputs.
///
/// Cases of kinds that are not owed are left out of it.
pub(super) fn assert_notices_slips(loaded: &Loaded, check: Check, not_owed: &[&str]) {
    let mut owed = loaded.clone();
    owed.cases
        .retain(|case| !not_owed.contains(&case["kind"].as_str().unwrap_or_default()));
    let (passed, made) = slips_let_pass(&owed, check);
    assert!(made > 0, "{} holds no number to alter", loaded.name);
    assert!(passed.is_empty(), "let pass: {passed:?}");

    let with = |change: fn(&mut Value)| {
        let mut one = owed.clone();
        one.cases.truncate(1);
        one.cases.iter_mut().for_each(change);
        check(&one).mismatches
    };
    let unknown = with(|case| case["kind"] = Value::from("of no kind"));
    assert!(
        unknown.len() == 1 && unknown[0].contains("of no kind"),
        "{unknown:?}"
    );
    let empty = with(|case| {
        let (id, kind, expected) = (&case["id"], &case["kind"], &case["expected"]);
        *case = serde_json::json!({ "id": id, "kind": kind, "expected": expected });
    });
    assert!(
        empty.len() == 1 && empty[0].contains("unreadable"),
        "{empty:?}"
    );
}
