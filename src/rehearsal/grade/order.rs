//! What was left out, out of order, or done again.

use super::Grader;
use crate::rehearsal::align::{self, Alignment, EventCost, TaskCost};
use crate::rehearsal::finding::{Found, Words};
use crate::syllabus::module::Severity;
use crate::syllabus::plan::TaskIndex;
use crate::units::Ppm;

impl Grader<'_> {
    /// Skipped, misplaced and repeated tasks. Returns the alignment of the task events and the order's share.
    pub(super) fn order(&mut self, finished: bool) -> (Alignment, Ppm) {
        let plan = self.plan;
        let events: Vec<usize> = (0..self.trace.len())
            .filter(|&index| self.trace[index].task().is_some())
            .collect();
        let tasks: Vec<TaskCost> = (0..plan.tasks.len())
            .map(|task| TaskCost {
                skip: plan.skip_cost(task),
                critical_bonus: plan.bonus(
                    task,
                    self.step(task)
                        .errors
                        .skipped
                        .as_ref()
                        .map(|miss| miss.severity),
                ),
            })
            .collect();
        let costs: Vec<EventCost> = events
            .iter()
            .map(|&index| {
                let task = self.trace[index].task();
                let free = task
                    .is_some_and(|task| plan.tasks[task].again && self.firsts[task] != Some(index));
                EventCost {
                    task,
                    insert: u32::from(!free),
                }
            })
            .collect();
        let alignment = align::align(&tasks, &plan.order, &costs);
        let inserts: u64 = costs.iter().map(|cost| u64::from(cost.insert)).sum();
        let skips: u64 = tasks.iter().map(|cost| u64::from(cost.skip)).sum();
        let order = share(
            inserts + skips - alignment.cost.min(inserts + skips),
            inserts + skips,
        );
        let matched = |task: TaskIndex| alignment.matched.contains(&Some(task));
        for &at in &alignment.struck {
            let event = events[at];
            let Some(task) = self.trace[event].task() else {
                continue;
            };
            let miss = self.step(task).errors.misplaced.clone();
            let words = Words::Misplaced(plan.tasks[task].step);
            if !matched(task) && self.firsts[task] == Some(event) {
                let Some((against, early)) = self.crossed(task, event, &alignment, &events) else {
                    continue;
                };
                let found = Found::Misplaced { against, early };
                self.add(
                    found,
                    miss.as_ref(),
                    Severity::Minor,
                    words,
                    Some(event),
                    vec![task],
                );
            } else if !plan.tasks[task].again {
                self.add(
                    Found::Again,
                    None,
                    Severity::Minor,
                    Words::None,
                    Some(event),
                    vec![task],
                );
            }
        }
        if finished {
            for &task in &alignment.missing {
                if self.firsts[task].is_none() {
                    let miss = self.step(task).errors.skipped.clone();
                    let otherwise = if plan.tasks[task].critical {
                        Severity::Critical
                    } else {
                        Severity::Major
                    };
                    let words = Words::Skipped(plan.tasks[task].step);
                    // It was passed by when something was done that had to wait for it.
                    let passed = plan.order.successors(task);
                    let passed = passed.filter_map(|then| self.firsts[then]).min();
                    self.add(
                        Found::Skipped,
                        miss.as_ref(),
                        otherwise,
                        words,
                        passed,
                        vec![task],
                    );
                }
            }
        }
        (alignment, order)
    }

    /// The nearest kept event whose order with this task was crossed, and whether the task came too early.
    pub(super) fn crossed(
        &self,
        task: TaskIndex,
        event: usize,
        alignment: &Alignment,
        events: &[usize],
    ) -> Option<(TaskIndex, bool)> {
        let order = &self.plan.order;
        alignment
            .matched
            .iter()
            .zip(events)
            .filter_map(|(kept, &at)| {
                let kept = (*kept)?;
                let early = at > event && order.precedes(kept, task);
                let late = at < event && order.precedes(task, kept);
                (early || late).then_some((at.abs_diff(event), kept, early))
            })
            .min()
            .map(|(_, kept, early)| (kept, early))
    }
}

/// A share in parts per million; a whole of nothing is a whole.
fn share(part: u64, whole: u64) -> Ppm {
    if whole == 0 {
        return Ppm(1_000_000);
    }
    Ppm(i64::try_from(u128::from(part) * 1_000_000 / u128::from(whole)).unwrap_or(0))
}
