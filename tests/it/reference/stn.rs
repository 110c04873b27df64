//! Simple temporal networks.

use super::decimal::{bound, ticks, units};
use super::{
    Loaded, Origin, Report, cases, check_each, notices_altered_answers, own_cases, settle,
};
use drybench::syllabus::timing::{Clash, Minimal, Network, Reason, TimeRule, Window};
use serde_json::{Value, json};

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn number(value: &Value) -> usize {
    usize::try_from(value.as_u64().expect("a number of an event")).expect("small")
}

fn rules(case: &Value) -> Vec<TimeRule> {
    list(&case["constraints"])
        .iter()
        .map(|constraint| TimeRule {
            from: number(&constraint["from"]),
            to: number(&constraint["to"]),
            least: bound(&constraint["min"]),
            most: bound(&constraint["max"]),
        })
        .collect()
}

fn network(case: &Value, rules: &[TimeRule]) -> Network {
    let mut network = Network::new(number(&case["n"]));
    for (at, &rule) in rules.iter().enumerate() {
        network.add(at, rule).expect("the rule fits the network");
    }
    network
}

/// The bounds that follow from the others: each dropped by itself leaves the minimal network as it was.
fn implied(case: &Value, rules: &[TimeRule], minimal: &Minimal) -> Value {
    let mut found = Vec::new();
    for at in 0..rules.len() {
        let unchanged = |less: TimeRule| {
            let mut fewer = rules.to_vec();
            fewer[at] = less;
            network(case, &fewer).minimal().as_ref() == Ok(minimal)
        };
        let rule = rules[at];
        if rule.least.is_some()
            && unchanged(TimeRule {
                least: None,
                ..rule
            })
        {
            found.push(json!([at, "min"]));
        }
        if rule.most.is_some() && unchanged(TimeRule { most: None, ..rule }) {
            found.push(json!([at, "max"]));
        }
    }
    Value::from(found)
}

/// What is wrong with a clash, if anything.
fn fault(clash: &Clash, rules: &[TimeRule]) -> Option<&'static str> {
    let mut sum = 0;
    for (at, link) in clash.links.iter().enumerate() {
        if clash.links[(at + 1) % clash.links.len()].from != link.to {
            return Some("the links are no circle");
        }
        let stated = match link.reason {
            Reason::Most(rule) => {
                let rule = rules[rule];
                (rule.from, rule.to, rule.most)
            }
            Reason::Least(rule) => {
                let rule = rules[rule];
                (rule.to, rule.from, rule.least.map(|least| -least))
            }
            Reason::Happened(_) => return Some("no event was fixed"),
        };
        if stated != (link.from, link.to, Some(link.most)) {
            return Some("a link is no stated rule");
        }
        sum += link.most;
    }
    (sum >= 0 || clash.short_by != -sum).then_some("the circle is not too short")
}

/// The length of the circle that the file gives as an example, by the stated rules, or `None` if it is no circle of them.
fn stated_circle(events: &Value, rules: &[TimeRule]) -> Option<i64> {
    let events: Vec<usize> = events
        .as_array()?
        .iter()
        .map(|event| usize::try_from(event.as_u64()?).ok())
        .collect::<Option<_>>()?;
    let mut sum = 0;
    for (at, &from) in events.iter().enumerate() {
        let to = events[(at + 1) % events.len()];
        let forwards = rules
            .iter()
            .filter(|rule| (rule.from, rule.to) == (from, to))
            .filter_map(|rule| rule.most);
        let backwards = rules
            .iter()
            .filter(|rule| (rule.to, rule.from) == (from, to))
            .filter_map(|rule| rule.least.map(|least| -least));
        sum += forwards.chain(backwards).min()?;
    }
    Some(sum)
}

/// Compares windows with the lists `earliest` and `latest`.
fn check_windows(
    loaded: &Loaded,
    case: &Value,
    windows: &[Window],
    expected: &Value,
    report: &mut Report,
) {
    for (what, pick) in [
        (
            "earliest",
            (|window| window.earliest) as fn(&Window) -> Option<i64>,
        ),
        ("latest", |window| window.latest),
    ] {
        let got: Vec<Option<f64>> = windows
            .iter()
            .map(|window| pick(window).map(units))
            .collect();
        let want = list(&expected[what]);
        let same = got.len() == want.len()
            && got
                .iter()
                .zip(want)
                .all(|(got, want)| loaded.agrees_with(*got, want));
        if !same {
            report.differs(case, what, got, want);
        }
    }
}

fn check_minimal(loaded: &Loaded, case: &Value, minimal: &Minimal, report: &mut Report) {
    let want = list(&case["expected"]["minimal_max"]);
    let count = number(&case["n"]);
    if want.len() != count {
        report.differs(case, "minimal_max rows", count, want.len());
    }
    for (from, row) in want.iter().enumerate().take(count) {
        let got: Vec<Option<f64>> = (0..count)
            .map(|to| minimal.most(from, to).map(units))
            .collect();
        let row = list(row);
        let same = got.len() == row.len()
            && got
                .iter()
                .zip(row)
                .all(|(got, want)| loaded.agrees_with(*got, want));
        if !same {
            report.differs(case, &format!("minimal_max from {from}"), got, row);
        }
    }
}

fn check_violations(loaded: &Loaded, case: &Value, network: &Network, report: &mut Report) {
    let observed: Vec<Option<i64>> = list(&case["observed"]).iter().map(ticks).collect();
    let got = network.violations(&observed);
    let want = list(&case["expected"]["violations"]);
    let same = got.len() == want.len()
        && got.iter().zip(want).all(|(got, want)| {
            let kind = if got.excess > 0 {
                "too_late"
            } else {
                "too_early"
            };
            json!(got.rule) == want["constraint"]
                && json!(kind) == want["kind"]
                && loaded.agrees_with(Some(units(got.excess.abs())), &want["excess"])
        });
    if !same {
        report.differs(case, "violations", got, want);
    }
}

fn check_fixed(loaded: &Loaded, case: &Value, network: &Network, report: &mut Report) {
    let mut network = network.clone();
    for fixed in list(&case["fix"]) {
        let time = ticks(&fixed["time"]).expect("a tick is fine enough for the time");
        network
            .fix(number(&fixed["event"]), time)
            .expect("the time fits the network");
    }
    let expected = &case["expected"]["after_fix"];
    let windows = network.windows();
    if json!(windows.is_ok()) != expected["consistent"] {
        report.differs(case, "after_fix", windows.is_ok(), &expected["consistent"]);
    } else if let Ok(windows) = windows {
        check_windows(loaded, case, &windows, expected, report);
    }
}

fn check_case(loaded: &Loaded, case: &Value, report: &mut Report) {
    let expected = &case["expected"];
    report.expects_only(
        case,
        &[
            "consistent",
            "minimal_max",
            "earliest",
            "latest",
            "implied_bounds",
            "after_fix",
            "a_negative_cycle",
            "violations",
        ],
    );
    match case["family"].as_str() {
        Some("published" | "edge" | "random" | "workflow") => {}
        other => {
            report.unknown(case, other.unwrap_or_default());
            return;
        }
    }
    report.tally.checked(case, Origin::Library);
    let rules = rules(case);
    let network = network(case, &rules);
    if !expected["violations"].is_null() {
        check_violations(loaded, case, &network, report);
    }
    let clash = network.clash();
    if json!(clash.is_none()) != expected["consistent"] {
        report.differs(case, "consistent", clash.is_none(), &expected["consistent"]);
        return;
    }
    if let Some(clash) = clash {
        if let Some(fault) = fault(&clash, &rules) {
            report.differs(case, "clash", fault, "a clash");
        }
        // The circle of the file is one example: it must be one by our reading of the rules too.
        let example = &expected["a_negative_cycle"];
        let sum = stated_circle(&example["events"], &rules).map(units);
        if sum.is_none_or(|sum| sum >= 0.0) || !loaded.agrees_with(sum, &example["weight"]) {
            report.differs(case, "a_negative_cycle", sum, example);
        }
        return;
    }
    let (Ok(windows), Ok(minimal)) = (network.windows(), network.minimal()) else {
        report.differs(case, "windows", "none", "windows of a consistent network");
        return;
    };
    check_windows(loaded, case, &windows, expected, report);
    check_minimal(loaded, case, &minimal, report);
    let got = implied(case, &rules, &minimal);
    if got != expected["implied_bounds"] {
        report.differs(case, "implied_bounds", got, &expected["implied_bounds"]);
    }
    if !case["fix"].is_null() {
        check_fixed(loaded, case, &network, report);
    }
}

pub(super) fn check(loaded: &Loaded) -> Report {
    check_each(loaded, check_case)
}

#[test]
fn networks_have_the_windows_they_have_elsewhere() {
    let loaded = cases("stn");
    settle(&loaded, &check(&loaded));
}

#[test]
fn altered_networks_are_noticed() {
    notices_altered_answers(&own_cases("stn"), check, &[]);
}
