//! A module compiled for one case card: tasks with labels, their order, their windows, and the rules over them.
//!
//! Tasks are steps unrolled over their places. Everything a run or a grade needs by index stands here, so that neither
//! looks at names. Left out: what happened (a trace) and what the bench does.

mod compile;
mod windows;

pub use compile::{PlanFault, PlanProblem, window_for};
pub use windows::{Because, Span, Spans, Stretch, Totals};

use super::case::CaseCard;
use super::module::{Gauge, Severity};
use super::order::Order;
use super::place::{Dimension, Place};
use crate::units::Millis;

/// Index of a task in its plan.
pub type TaskIndex = usize;

/// A module compiled for one case card.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The case card.
    pub card: CaseCard,
    /// The repeats, resolved.
    pub dimensions: Vec<Dimension>,
    /// The aspects, resolved to cells.
    pub aspects: Vec<PlanAspect>,
    /// The tasks, in an allowed order.
    pub tasks: Vec<Task>,
    /// Which tasks each step became, by index of the step in the module.
    pub tasks_of_step: Vec<Vec<TaskIndex>>,
    /// The closed order of the tasks.
    pub order: Order,
    /// The direct predecessors of each task, as written.
    pub direct: Vec<Vec<TaskIndex>>,
    /// Gaps between tasks.
    pub gaps: Vec<Gap>,
    /// Caps over sums of tasks.
    pub caps: Vec<Cap>,
    /// What must be worn or running; same indices as the module's guards.
    pub guards: Vec<PlanGuard>,
    /// Counting rules; each names its index among the module's `never`.
    pub more_than: Vec<MoreThan>,
    /// Hazard rules on pairs of tasks.
    pub before: Vec<Before>,
    /// What the forbidden acts make true, by index among the module's `never`.
    pub acts: Vec<PlanAct>,
}

/// One aspect with a value per cell.
#[derive(Clone, Debug)]
pub struct PlanAspect {
    /// Its id.
    pub id: String,
    /// Its values' ids, the initial one first.
    pub values: Vec<String>,
    /// The places it has a value for; one empty place when it is about the whole part.
    pub cells: Vec<Place>,
    /// The index of its first cell among the cells of all aspects.
    pub first_cell: usize,
    /// Set when the bench alone decides it.
    pub gauge: Option<Gauge>,
}

/// One step at one place.
#[derive(Clone, Debug)]
pub struct Task {
    /// Its label, unique in the plan: `tack@5-6/facial`.
    pub label: String,
    /// The index of its step in the module.
    pub step: usize,
    /// Where it is done.
    pub place: Place,
    /// Whether it must be done.
    pub required: bool,
    /// Whether leaving it out fails the run by itself.
    pub critical: bool,
    /// Whether it may be done again without a finding.
    pub again: bool,
    /// Whether a person stays with it.
    pub attended: bool,
    /// Handling before the timed part.
    pub takes: Millis,
    /// How the timed part is kept, if there is one.
    pub keeping: Option<TaskKeeping>,
    /// What must be true at its start.
    pub needs: Vec<CellCondition>,
    /// What a real bench refuses it for.
    pub refused_if: Vec<CellCondition>,
    /// What it makes true at its end.
    pub makes: Vec<Make>,
}

/// How a task's timed part is kept, with the numbers of this case card.
#[derive(Clone, Debug)]
pub enum TaskKeeping {
    /// A machine's timer is set.
    Timer(Window),
    /// It is counted in the head.
    Count(Window),
    /// A sign is watched for; it ends within this time of it.
    Watch {
        /// The sign.
        sign: CellCondition,
        /// How soon after the sign.
        within: Millis,
        /// What to expect, for plans and read-through.
        expect: Option<(Millis, Millis)>,
    },
    /// It goes on until it looks right.
    Judge {
        /// What it must look like.
        until: Vec<CellCondition>,
        /// One portion.
        portion: Millis,
    },
}

impl TaskKeeping {
    /// The window, if the time itself is scored.
    #[must_use]
    pub fn window(&self) -> Option<Window> {
        match self {
            TaskKeeping::Timer(window) | TaskKeeping::Count(window) => Some(*window),
            TaskKeeping::Watch { .. } | TaskKeeping::Judge { .. } => None,
        }
    }
}

/// Target and limits of a duration.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Window {
    /// What to aim at.
    pub target: Millis,
    /// The least allowed.
    pub least: Millis,
    /// The most allowed.
    pub most: Millis,
}

/// A condition on cells of one aspect: every one of them must have an allowed value.
#[derive(Clone, Debug)]
pub struct CellCondition {
    /// The aspect.
    pub aspect: usize,
    /// The cells, as indices within the aspect.
    pub cells: Vec<usize>,
    /// The allowed values, one bit each, the initial value lowest.
    pub allowed: u32,
}

impl CellCondition {
    /// Whether a value satisfies it.
    #[must_use]
    pub fn allows(&self, value: usize) -> bool {
        value < 32 && self.allowed & (1 << value) != 0
    }
}

/// A value that a task makes true in one cell, once these tasks are done too.
#[derive(Clone, Debug)]
pub struct Make {
    /// The aspect.
    pub aspect: usize,
    /// The cell within the aspect.
    pub cell: usize,
    /// The value.
    pub value: usize,
    /// Tasks of the same step that must be done as well before it is true (other sides of the same place).
    pub with: Vec<TaskIndex>,
}

/// A gap between the end or start of one task and another.
#[derive(Clone, Debug)]
pub struct Gap {
    /// The index of the module's time rule.
    pub rule: usize,
    /// From this task…
    pub from: TaskIndex,
    /// …from its end, or its start.
    pub from_end: bool,
    /// To this task…
    pub to: TaskIndex,
    /// …to its end, or its start.
    pub to_end: bool,
    /// At least.
    pub least: Option<Millis>,
    /// At most.
    pub most: Option<Millis>,
}

/// A cap over the timed parts of tasks.
#[derive(Clone, Debug)]
pub struct Cap {
    /// The index of the module's time rule.
    pub rule: usize,
    /// The tasks that are summed.
    pub over: Vec<TaskIndex>,
    /// At most.
    pub most: Millis,
    /// Larger caps once one of these tasks was done.
    pub when_done: Vec<(TaskIndex, Millis)>,
}

/// What must be worn or running, and when.
#[derive(Clone, Debug)]
pub struct PlanGuard {
    /// The index of the protection item in the module.
    pub item: usize,
    /// While all of these hold.
    pub holds_while: Vec<AnyCell>,
    /// During work at these stations, by index in the module (empty: everywhere).
    pub during: Vec<usize>,
}

/// A condition that holds as soon as one of the cells in reach has an allowed value.
#[derive(Clone, Debug)]
pub struct AnyCell {
    /// The aspect.
    pub aspect: usize,
    /// The allowed values, one bit each.
    pub allowed: u32,
}

/// No more than so many cells in a state.
#[derive(Clone, Debug)]
pub struct MoreThan {
    /// The index among the module's `never`.
    pub rule: usize,
    /// How many are allowed.
    pub count: usize,
    /// The state.
    pub of: AnyCell,
}

/// A task that must wait for others, as a hazard rule.
#[derive(Clone, Debug)]
pub struct Before {
    /// The index among the module's `never`.
    pub rule: usize,
    /// The task that must wait.
    pub act: TaskIndex,
    /// What it waits for.
    pub until: Vec<TaskIndex>,
}

/// What a forbidden act makes true.
#[derive(Clone, Debug)]
pub struct PlanAct {
    /// The index among the module's `never`.
    pub rule: usize,
    /// Aspect, cell, value.
    pub makes: Vec<(usize, usize, usize)>,
}

impl MoreThan {
    /// Whether doing a task takes a cell out of the state that is counted.
    #[must_use]
    pub fn is_left_by(&self, plan: &Plan, task: TaskIndex, cell: usize) -> bool {
        plan.tasks[task].makes.iter().any(|make| {
            make.aspect == self.of.aspect
                && make.cell == cell
                && self.of.allowed & (1 << make.value) == 0
        })
    }
}

impl Plan {
    /// The task with this label.
    #[must_use]
    pub fn find(&self, label: &str) -> Option<TaskIndex> {
        self.tasks.iter().position(|task| task.label == label)
    }

    /// The number of cells of all aspects.
    #[must_use]
    pub fn cell_count(&self) -> usize {
        self.aspects.iter().map(|aspect| aspect.cells.len()).sum()
    }

    /// The cost of leaving a task out: 1, or 0 if it is optional (our default).
    #[must_use]
    pub fn skip_cost(&self, task: TaskIndex) -> u32 {
        u32::from(self.tasks[task].required)
    }

    /// How much a task weighs when two explanations are equally cheap: 0 to 3, by its severity (our default).
    #[must_use]
    pub fn bonus(&self, task: TaskIndex, severity_of_skip: Option<Severity>) -> u32 {
        match (self.tasks[task].critical, severity_of_skip) {
            (true, _) | (_, Some(Severity::Critical)) => 3,
            (_, Some(Severity::Major)) => 2,
            (_, Some(Severity::Minor)) => 1,
            (false, None) => 0,
        }
    }
}
