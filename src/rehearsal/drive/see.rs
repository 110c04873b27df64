//! What can be seen, by whom it is decided, and when a sign will show.

use super::choose::chosen_ways;
use super::{Rehearsal, SIGN_AT_MOST, Seen};
use crate::bench::{Bench, Doing};
use crate::syllabus::operation::Operation;
use crate::syllabus::plan::{AnyCell, CellCondition, TaskIndex, TaskKeeping};
use crate::units::Millis;

impl Rehearsal {
    /// The value of one cell.
    #[must_use]
    pub fn value(&self, aspect: usize, cell: usize) -> usize {
        let compiled = &self.on.plan.aspects[aspect];
        match &compiled.gauge {
            Some(gauge) => {
                let tooth = self
                    .counted
                    .and_then(|base| compiled.cells[cell].along(base))
                    .map(|(low, _)| low);
                // What the model has nothing to read for stays as it was at first; the check refuses such modules.
                self.bench
                    .read(gauge.kind, &gauge.of.value, tooth)
                    .unwrap_or(0)
            }
            None => self.cells[compiled.first_cell + cell],
        }
    }

    pub(super) fn holds(&self, condition: &CellCondition) -> bool {
        condition
            .cells
            .iter()
            .all(|&cell| condition.allows(self.value(condition.aspect, cell)))
    }

    /// Start and end of every task that has been done, the last time it was done.
    #[must_use]
    pub fn done_times(&self) -> Vec<(TaskIndex, Millis, Millis)> {
        let mut times: Vec<Option<(Millis, Millis)>> = vec![None; self.on.plan.tasks.len()];
        for event in &self.trace {
            if let Some(task) = event.task() {
                times[task] = Some((event.start, event.end));
            }
        }
        let done = times.into_iter().enumerate();
        done.filter_map(|(task, time)| time.map(|(start, end)| (task, start, end)))
            .collect()
    }

    /// Whether one of the cells of a condition has an allowed value.
    pub(super) fn touches(&self, condition: &CellCondition) -> bool {
        condition
            .cells
            .iter()
            .any(|&cell| condition.allows(self.value(condition.aspect, cell)))
    }

    /// The cells that are in a state.
    pub(super) fn cells_in<'s>(&'s self, state: &'s AnyCell) -> impl Iterator<Item = usize> + 's {
        (0..self.on.plan.aspects[state.aspect].cells.len()).filter(|&cell| {
            let value = self.value(state.aspect, cell);
            value < 32 && state.allowed & (1 << value) != 0
        })
    }

    pub(super) fn crowded(&self) -> Vec<(usize, Vec<usize>)> {
        let rules = self.on.plan.more_than.iter().enumerate();
        rules
            .map(|(index, rule)| {
                (
                    index,
                    self.cells_in(&rule.of).collect::<Vec<_>>(),
                    rule.count,
                )
            })
            .filter(|(_, cells, most)| cells.len() > *most)
            .map(|(index, cells, _)| (index, cells))
            .collect()
    }

    /// Everything that can be seen now.
    #[must_use]
    pub fn readings(&self) -> Vec<Seen> {
        let mut all: Vec<Seen> = Vec::new();
        for (aspect, compiled) in self.on.plan.aspects.iter().enumerate() {
            if !self.on.module.aspects[aspect].seen {
                continue;
            }
            for cell in 0..compiled.cells.len() {
                let value = self.value(aspect, cell);
                match all
                    .iter_mut()
                    .find(|one| one.aspect == aspect && one.value == value)
                {
                    Some(seen) => seen.cells.push(cell),
                    None => all.push(Seen {
                        aspect,
                        value,
                        cells: vec![cell],
                    }),
                }
            }
        }
        all
    }

    /// How long to wait until every cell of an aspect that the bench decides has this value, if that comes within an hour.
    #[must_use]
    pub fn wait_time(&self, aspect: usize, value: usize) -> Option<Millis> {
        let condition = CellCondition {
            aspect,
            cells: (0..self.on.plan.aspects[aspect].cells.len()).collect(),
            allowed: 1 << value.min(31),
        };
        if self.holds(&condition) {
            return Some(Millis::ZERO);
        }
        self.time_until(&self.bench, &[], &Doing::default(), &[condition])
    }

    /// How long the timed part of a task must last until the sign it is kept by shows, if it does within an hour.
    #[must_use]
    pub fn sign_time(&self, index: TaskIndex, options: &[usize]) -> Option<Millis> {
        let task = &self.on.plan.tasks[index];
        let step = &self.on.module.steps[task.step];
        let ways = chosen_ways(step, options);
        let doing = self.doing(&task.place, &ways, task.takes, Millis::ZERO);
        match &task.keeping {
            Some(TaskKeeping::Watch { sign, .. }) => {
                self.time_until(&self.bench, &step.does, &doing, std::slice::from_ref(sign))
            }
            Some(TaskKeeping::Judge { until, portion }) => {
                let needed = self.time_until(&self.bench, &step.does, &doing, until)?;
                let portions = (needed.0 + portion.0 - 1)
                    .div_euclid(portion.0.max(1))
                    .max(1);
                Some(Millis(portions * portion.0))
            }
            _ => None,
        }
    }

    pub(super) fn time_until(
        &self,
        bench: &Bench,
        does: &[Operation],
        doing: &Doing,
        sign: &[CellCondition],
    ) -> Option<Millis> {
        // The sign is read on a copy of the bench; only its gauges can be a sign.
        let shows = |bench: &Bench| -> bool {
            sign.iter().all(|condition| {
                let compiled = &self.on.plan.aspects[condition.aspect];
                let Some(gauge) = &compiled.gauge else {
                    return false;
                };
                condition.cells.iter().all(|&cell| {
                    let tooth = self
                        .counted
                        .and_then(|base| compiled.cells[cell].along(base))
                        .map(|(low, _)| low);
                    bench
                        .read(gauge.kind, &gauge.of.value, tooth)
                        .is_some_and(|value| condition.allows(value))
                })
            })
        };
        bench.time_until(does, doing, shows, SIGN_AT_MOST)
    }

    /// A copy of the run in which a task has just been done, to show what one more portion would look like.
    #[must_use]
    pub fn after(&self, index: TaskIndex, options: &[usize], timed: Millis) -> Rehearsal {
        let mut copy = self.clone();
        copy.perform(index, options, Some(timed));
        copy
    }
}
