//! What happened in a run: numbered events with start and end, and what a grader needs to know about each.
//!
//! A trace holds facts only. It serves simulated runs and, with the facts that an observer can give, real ones.

use crate::syllabus::plan::TaskIndex;
use crate::units::Millis;

/// One event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    /// When it started, from the start of the run.
    pub start: Millis,
    /// When it ended.
    pub end: Millis,
    /// What it was.
    pub what: What,
    /// Needs of the task that did not hold at its start, by index in the task.
    pub unmet: Vec<usize>,
    /// What the sign did that the task's time is kept by.
    pub sign: Sign,
    /// Guards that applied and were not met, by index in the plan, and for how long.
    pub bare: Vec<(usize, Millis)>,
    /// Worn items past their change interval, by index in the module, and by how much at the end.
    pub stale: Vec<(usize, Millis)>,
    /// Counting rules broken at the end, by index in the plan, with the cells that were counted.
    pub crowded: Vec<(usize, Vec<usize>)>,
}

/// What an event was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// A task was done.
    Task {
        /// Which.
        task: TaskIndex,
        /// The option taken for each way of the step, in the step's order.
        options: Vec<usize>,
        /// How long its timed part lasted, if it has one.
        timed: Option<Millis>,
    },
    /// A forbidden act was done; the index is among the module's `never`.
    Act(usize),
    /// A task was refused by the bench; the condition's index is among the task's `refused_if`.
    Refused(TaskIndex, usize),
    /// A protection item was put on or switched on, by index in the module.
    PutOn(usize),
    /// A protection item was taken off or switched off.
    TookOff(usize),
    /// A disturbance showed, by index in the module.
    Disturbed(usize),
    /// A disturbance was answered, by index of disturbance and response.
    Answered(usize, usize),
    /// A disturbance was left as it was.
    CarriedOn(usize),
    /// Time passed.
    Waited,
    /// The run was handed over.
    Finished,
    /// The run was given up.
    Abandoned,
}

/// What the sign did that a task's time is kept by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// The time is not kept by a sign.
    None,
    /// It came, or would have come, this long after the timed part began.
    After(Millis),
    /// It would not have come within an hour.
    Never,
    /// It showed at the end.
    Shown,
    /// It did not show at the end.
    NotShown,
}

impl Event {
    /// The task that was done, if the event was one.
    #[must_use]
    pub fn task(&self) -> Option<TaskIndex> {
        match self.what {
            What::Task { task, .. } => Some(task),
            _ => None,
        }
    }
}
