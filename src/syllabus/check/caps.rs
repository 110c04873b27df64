//! Whether caps leave room for what the windows allow.

use super::{CheckFault, Found, note};
use crate::syllabus::module::{Module, TimeRule};
use crate::syllabus::plan::{Cap, Plan, TaskKeeping};
use crate::units::Millis;

pub(super) fn check(module: &Module, plan: &Plan, found: &mut Found) {
    for cap in &plan.caps {
        let TimeRule::Cap { over, .. } = &module.time_rules[cap.rule] else {
            continue;
        };
        let Some(name) = over.first() else { continue };
        for (limit, sum, raised_by) in sums(cap, plan) {
            if limit < sum {
                let labels = raised_by.iter().map(|&it| plan.tasks[it].label.clone());
                let what = CheckFault::CapTooSmall {
                    card: plan.card.to_string(),
                    cap: limit,
                    sum,
                    when_done: labels.collect(),
                };
                note(found, name.at, what);
            }
        }
    }
}

/// The caps with the most that may be needed under each of them: without what raises it, with each, with all.
fn sums(cap: &Cap, plan: &Plan) -> Vec<(Millis, Millis, Vec<usize>)> {
    let raises = |task: usize| cap.when_done.iter().any(|it| it.0 == task);
    let summed = |task: usize| {
        if cap.over.contains(&task) {
            most(plan, task)
        } else {
            Millis::ZERO
        }
    };
    let (raising, plain): (Vec<usize>, Vec<usize>) =
        cap.over.iter().partition(|&&task| raises(task));
    let plain: Millis = plain.into_iter().map(|task| most(plan, task)).sum();
    let mut all = Vec::new();
    // A required task that raises the cap is always done, so the plain cap is then never in force.
    if !cap.when_done.iter().any(|it| plan.tasks[it.0].required) {
        all.push((cap.most, plain, Vec::new()));
    }
    let required: Millis = raising
        .iter()
        .filter(|&&task| plan.tasks[task].required)
        .map(|&task| most(plan, task))
        .sum();
    for &(task, raised) in &cap.when_done {
        let always = plan.tasks[task].required;
        let alone = if always { Millis::ZERO } else { summed(task) };
        let highest = cap
            .when_done
            .iter()
            .filter(|it| it.0 == task || plan.tasks[it.0].required)
            .map(|it| it.1)
            .fold(raised, Ord::max);
        all.push((highest, plain + required + alone, vec![task]));
    }
    if cap.when_done.len() > 1 {
        let highest = cap.when_done.iter().map(|it| it.1).fold(cap.most, Ord::max);
        let together: Millis = raising.iter().map(|&task| most(plan, task)).sum();
        let by = cap.when_done.iter().map(|it| it.0).collect();
        all.push((highest, plain + together, by));
    }
    all
}

/// The most that the timed part of a task may take. What has no limit cannot be held against a cap.
fn most(plan: &Plan, task: usize) -> Millis {
    match &plan.tasks[task].keeping {
        Some(TaskKeeping::Timer(window) | TaskKeeping::Count(window)) => window.most,
        Some(TaskKeeping::Watch {
            within,
            expect: Some((_, latest)),
            ..
        }) => *latest + *within,
        _ => Millis::ZERO,
    }
}
