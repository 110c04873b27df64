//! Grades what happened against the plan: alignment, times, manners, needs, guards, disturbances and what the bench ended with.
//!
//! Every rule that fires gives one raw finding; `blame` then decides which are roots and what followed from them. The same
//! function grades simulated runs and real ones. Left out: words, and whether anyone is competent.

mod order;
mod rules;
mod times;

use super::blame::{self, Raw};
use super::finding::{Finding, Found, Words};
use super::trace::{Event, What};
use crate::bench::HarmAt;
use crate::syllabus::module::{Miss, Module, Name, Severity, Step};
use crate::syllabus::plan::{Plan, TaskIndex};
use crate::units::{Millis, Ppm};

/// A graded run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Graded {
    /// Whether the run was handed over.
    pub finished: bool,
    /// Whether it was handed over without a critical or major root.
    pub clean: bool,
    /// The roots, the gravest first, then in order of time.
    pub roots: Vec<Finding>,
    /// The parts of the score. They decide nothing.
    pub score: Score,
}

/// The parts of the score, each with what it was counted from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Score {
    /// Order: 1 − cost of the cheapest alignment / cost of doing nothing and striking everything.
    pub order: Ppm,
    /// Timed parts inside their window, of timed parts done.
    pub in_time: (usize, usize),
    /// Time with all protection that was called for, of all time.
    pub protected: (Millis, Millis),
    /// Harms that the bench ended with.
    pub harms: usize,
}

/// Grades a trace. `harms` is what the bench ended with; empty for a real run.
#[must_use]
pub fn grade(module: &Module, plan: &Plan, trace: &[Event], harms: &[HarmAt]) -> Graded {
    let finished = trace.iter().any(|event| event.what == What::Finished);
    let mut grader = Grader {
        module,
        plan,
        trace,
        raw: Vec::new(),
        firsts: first_events(plan, trace),
    };
    let (alignment, order) = grader.order(finished);
    grader.times();
    grader.ways();
    grader.needs();
    grader.rules();
    grader.protection();
    grader.disturbances();
    let in_time = grader.in_time();
    let protected = grader.protected();
    let raw = grader.raw;
    let roots = blame::roots(module, plan, trace, &alignment, raw, harms);
    let clean = finished && roots.iter().all(|root| root.worst() < Severity::Major);
    Graded {
        finished,
        clean,
        roots,
        score: Score {
            order,
            in_time,
            protected,
            harms: harms.len(),
        },
    }
}

/// The first event of every task.
fn first_events(plan: &Plan, trace: &[Event]) -> Vec<Option<usize>> {
    let mut firsts = vec![None; plan.tasks.len()];
    for (index, event) in trace.iter().enumerate() {
        if let Some(task) = event.task() {
            firsts[task].get_or_insert(index);
        }
    }
    firsts
}

struct Grader<'g> {
    module: &'g Module,
    plan: &'g Plan,
    trace: &'g [Event],
    raw: Vec<Raw>,
    firsts: Vec<Option<usize>>,
}

/// The consequences of a miss, by index; names that stand for nothing were refused by the check.
pub(super) fn leads(module: &Module, names: &[Name]) -> Vec<usize> {
    names
        .iter()
        .filter_map(|name| {
            module
                .consequences
                .iter()
                .position(|one| one.id.value == name.value)
        })
        .collect()
}

impl Grader<'_> {
    fn step(&self, task: TaskIndex) -> &Step {
        &self.module.steps[self.plan.tasks[task].step]
    }

    /// Adds a finding about tasks, or joins it to one of the same kind about the same step.
    fn add(
        &mut self,
        what: Found,
        miss: Option<&Miss>,
        otherwise: Severity,
        words: Words,
        event: Option<usize>,
        tasks: Vec<TaskIndex>,
    ) {
        let leads_to = miss.map_or_else(Vec::new, |miss| leads(self.module, &miss.leads_to));
        let finding = Finding {
            what,
            severity: miss.map_or(otherwise, |miss| miss.severity),
            at: event.map_or(
                self.trace.last().map_or(Millis::ZERO, |event| event.end),
                |event| self.trace[event].start,
            ),
            tasks,
            leads_to,
            words,
            follow_ons: Vec::new(),
        };
        self.raw.push(Raw::new(finding, event));
    }
}
