//! Manners, needs, hazard rules, protection and disturbances.

use super::Grader;
use crate::rehearsal::finding::{Found, Words};
use crate::rehearsal::trace::{Event, What};
use crate::syllabus::module::{Never, Severity};
use crate::syllabus::plan::{MoreThan, TaskIndex};
use crate::units::Millis;

impl Grader<'_> {
    pub(super) fn ways(&mut self) {
        for (index, event) in self.trace.iter().enumerate() {
            let What::Task { task, options, .. } = &event.what else {
                continue;
            };
            let number = self.plan.tasks[*task].step;
            for (way, &option) in options.iter().enumerate() {
                let Some(mut miss) = self.step(*task).ways[way].options[option].wrong.clone()
                else {
                    continue;
                };
                if self.put_right(*task, way, index) {
                    // Seen and done again the right way: worth a remark, and what it could have led to is told all the same.
                    miss.severity = Severity::Minor;
                }
                self.add(
                    Found::WrongWay { way, option },
                    Some(&miss),
                    miss.severity,
                    Words::Option(number, way, option),
                    Some(index),
                    vec![*task],
                );
            }
        }
    }

    /// Whether a task that may be done again was done again later, with a right option for this way.
    fn put_right(&self, task: TaskIndex, way: usize, event: usize) -> bool {
        let ways = &self.step(task).ways[way].options;
        self.plan.tasks[task].again
            && self.trace[event + 1..]
                .iter()
                .any(|later| match &later.what {
                    What::Task {
                        task: one, options, ..
                    } => *one == task && ways[options[way]].wrong.is_none(),
                    _ => false,
                })
    }

    pub(super) fn needs(&mut self) {
        for (index, event) in self.trace.iter().enumerate() {
            let Some(task) = event.task() else { continue };
            let miss = self.step(task).errors.unready.clone();
            for &need in &event.unmet {
                let aspect = self.plan.tasks[task].needs[need].aspect;
                let words = Words::Unready(self.plan.tasks[task].step);
                let found = Found::Unready { aspect };
                self.add(
                    found,
                    miss.as_ref(),
                    Severity::Major,
                    words,
                    Some(index),
                    vec![task],
                );
            }
        }
    }

    /// Hazard rules on order, counting rules, forbidden acts, gaps and caps.
    pub(super) fn rules(&mut self) {
        for before in &self.plan.before {
            let Never::Before { miss, .. } = &self.module.never[before.rule] else {
                continue;
            };
            let Some(act) = self.firsts[before.act] else {
                continue;
            };
            let until: Vec<TaskIndex> = before
                .until
                .iter()
                .copied()
                .filter(|&one| self.firsts[one].is_none_or(|at| at > act))
                .collect();
            if !until.is_empty() {
                let found = Found::TooEarly { until };
                let words = Words::Never(before.rule);
                self.add(
                    found,
                    Some(miss),
                    miss.severity,
                    words,
                    Some(act),
                    vec![before.act],
                );
            }
        }
        for (index, event) in self.trace.iter().enumerate() {
            for (rule, cells) in &event.crowded {
                let rule = *rule;
                let number = self.plan.more_than[rule].rule;
                if let Never::MoreThan { miss, .. } = &self.module.never[number] {
                    let stuck = self.stuck(&self.plan.more_than[rule], cells, index);
                    let cells = cells.clone();
                    let found = Found::Crowded { rule, cells, stuck };
                    let tasks = event.task().into_iter().collect();
                    self.add(
                        found,
                        Some(miss),
                        miss.severity,
                        Words::Never(number),
                        Some(index),
                        tasks,
                    );
                }
            }
            if let What::Act(rule) = event.what
                && let Never::Act(act) = &self.module.never[rule]
            {
                let found = Found::Forbidden { rule };
                self.add(
                    found,
                    Some(&act.miss),
                    act.miss.severity,
                    Words::Never(rule),
                    Some(index),
                    Vec::new(),
                );
            }
        }
        self.gaps();
        self.caps();
    }

    /// Whether so many places are in a state only because tasks that would have freed them were left out.
    pub(super) fn stuck(&self, rule: &MoreThan, cells: &[usize], event: usize) -> bool {
        let freed_by = |cell: usize| {
            (0..self.plan.tasks.len()).filter(move |&task| rule.is_left_by(self.plan, task, cell))
        };
        let left_out = |task: &TaskIndex| self.firsts[*task].is_none();
        let held = |cell: &&usize| {
            freed_by(**cell).any(|task| left_out(&task))
                && freed_by(**cell)
                    .filter(|task| !left_out(task))
                    .all(|task| self.firsts[task].is_some_and(|at| at <= event))
        };
        cells.len() - cells.iter().filter(held).count() <= rule.count
    }

    pub(super) fn protection(&mut self) {
        for guard in 0..self.plan.guards.len() {
            let bare = |event: &Event| {
                let all = event.bare.iter().filter(|(one, _)| *one == guard);
                all.map(|&(_, time)| time).sum::<Millis>()
            };
            let time: Millis = self.trace.iter().map(bare).sum();
            let written = &self.module.guards[guard];
            if time <= written.grace {
                continue;
            }
            let first = self
                .trace
                .iter()
                .position(|event| bare(event) > Millis::ZERO);
            let tasks = self
                .trace
                .iter()
                .filter(|event| bare(event) > Millis::ZERO)
                .filter_map(Event::task)
                .collect();
            let found = Found::Unprotected { guard, time };
            let miss = &written.miss;
            self.add(
                found,
                Some(miss),
                miss.severity,
                Words::Guard(guard),
                first,
                tasks,
            );
        }
        for item in 0..self.module.protection_items.len() {
            let over = |event: &Event| {
                let all = event.stale.iter().filter(|(one, _)| *one == item);
                all.map(|&(_, by)| by).max().unwrap_or(Millis::ZERO)
            };
            let by = self.trace.iter().map(over).max().unwrap_or(Millis::ZERO);
            if by > Millis::ZERO {
                let first = self
                    .trace
                    .iter()
                    .position(|event| over(event) > Millis::ZERO);
                self.add(
                    Found::Stale { item, by },
                    None,
                    Severity::Minor,
                    Words::None,
                    first,
                    Vec::new(),
                );
            }
        }
    }

    pub(super) fn disturbances(&mut self) {
        for (index, event) in self.trace.iter().enumerate() {
            let (found, wrong, words) = match event.what {
                What::Answered(disturbance, response) => (
                    Found::WrongResponse {
                        disturbance,
                        response,
                    },
                    &self.module.disturbances[disturbance].responses[response].wrong,
                    Words::Response(disturbance, response),
                ),
                What::CarriedOn(disturbance) => (
                    Found::CarriedOn { disturbance },
                    &self.module.disturbances[disturbance].carry_on,
                    Words::CarryOn(disturbance),
                ),
                _ => continue,
            };
            if let Some(miss) = wrong {
                self.add(
                    found,
                    Some(miss),
                    miss.severity,
                    words,
                    Some(index),
                    Vec::new(),
                );
            }
        }
    }

    pub(super) fn protected(&self) -> (Millis, Millis) {
        let all: Millis = self.trace.iter().map(|event| event.end - event.start).sum();
        let bare: Millis = self
            .trace
            .iter()
            .map(|event| {
                event
                    .bare
                    .iter()
                    .map(|&(_, time)| time)
                    .max()
                    .unwrap_or(Millis::ZERO)
            })
            .sum();
        (all - bare, all)
    }
}
