//! Findings that are the same rule about the same step at several places are one finding.

use super::Raw;
use crate::rehearsal::finding::{Finding, Found};
use crate::syllabus::plan::Plan;

/// Joins findings that are the same rule about the same step at several places.
pub(super) fn gather(plan: &Plan, raw: Vec<Raw>) -> Vec<Raw> {
    let mut all: Vec<Raw> = Vec::new();
    for one in raw {
        let same = all
            .iter_mut()
            .find(|other| same_kind(plan, &other.finding, &one.finding));
        let Some(other) = same else {
            all.push(one);
            continue;
        };
        let kept = &mut other.finding;
        for task in one.finding.tasks {
            if !kept.tasks.contains(&task) {
                kept.tasks.push(task);
            }
        }
        kept.tasks.sort_unstable();
        if one.finding.severity > kept.severity {
            kept.severity = one.finding.severity;
            kept.words = one.finding.words;
        }
        for lead in one.finding.leads_to {
            if !kept.leads_to.contains(&lead) {
                kept.leads_to.push(lead);
            }
        }
        if one.finding.at < kept.at {
            kept.at = one.finding.at;
            other.event = one.event;
        }
        worsen(&mut kept.what, one.finding.what);
    }
    all
}

/// Whether two findings are the same rule about the same step.
fn same_kind(plan: &Plan, one: &Finding, other: &Finding) -> bool {
    let step = |finding: &Finding| finding.tasks.first().map(|&task| plan.tasks[task].step);
    let same_step = step(one) == step(other);
    match (&one.what, &other.what) {
        (Found::Skipped, Found::Skipped)
        | (Found::Again, Found::Again)
        | (Found::Long { .. }, Found::Long { .. })
        | (Found::BeforeSign { .. }, Found::BeforeSign { .. })
        | (Found::AfterSign { .. }, Found::AfterSign { .. })
        | (Found::NotYetRight, Found::NotYetRight) => same_step,
        (
            Found::Misplaced {
                early: one_early, ..
            },
            Found::Misplaced {
                early: other_early, ..
            },
        ) => same_step && one_early == other_early,
        (
            Found::Short {
                right_for: one_for, ..
            },
            Found::Short {
                right_for: other_for,
                ..
            },
        ) => same_step && one_for == other_for,
        (
            Found::Unready { aspect: one_aspect },
            Found::Unready {
                aspect: other_aspect,
            },
        ) => same_step && one_aspect == other_aspect,
        (
            Found::WrongWay {
                way: one_way,
                option: one_option,
            },
            Found::WrongWay {
                way: other_way,
                option: other_option,
            },
        ) => same_step && one_way == other_way && one_option == other_option,
        (Found::TooEarly { .. }, Found::TooEarly { .. })
        | (Found::Gap { .. }, Found::Gap { .. }) => one.words == other.words,
        (
            Found::Crowded { rule: one_rule, .. },
            Found::Crowded {
                rule: other_rule, ..
            },
        ) => one_rule == other_rule,
        (Found::Forbidden { rule: one_rule }, Found::Forbidden { rule: other_rule }) => {
            one_rule == other_rule
        }
        _ => false,
    }
}

/// Keeps the worse measure of two findings of the same kind.
fn worsen(kept: &mut Found, other: Found) {
    match (kept, other) {
        (Found::Short { was, .. }, Found::Short { was: other, .. }) => *was = (*was).min(other),
        (Found::Long { was, .. }, Found::Long { was: other, .. }) => *was = (*was).max(other),
        (Found::BeforeSign { by }, Found::BeforeSign { by: other }) => {
            *by = match (*by, other) {
                (Some(one), Some(other)) => Some(one.max(other)),
                _ => None,
            };
        }
        (Found::AfterSign { by, .. }, Found::AfterSign { by: other, .. }) => *by = (*by).max(other),
        (Found::TooEarly { until }, Found::TooEarly { until: other }) => {
            until.extend(other);
            until.sort_unstable();
            until.dedup();
        }
        (Found::Crowded { cells, .. }, Found::Crowded { cells: other, .. })
            if other.len() > cells.len() =>
        {
            *cells = other;
        }
        (
            Found::Gap { was, gap },
            Found::Gap {
                was: other,
                gap: other_gap,
            },
        ) if other > *was => {
            *was = other;
            *gap = other_gap;
        }
        _ => {}
    }
}
