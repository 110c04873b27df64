//! The rows of a bench run: the steps of the workflow, each once, however many places it has on this case card.

use std::sync::Arc;

use crate::app::rehearse::StartProblem;
use crate::app::shelf::{PrepareProblem, Taken};
use crate::syllabus::case::CaseCard;
use crate::syllabus::module::{Module, Step};
use crate::syllabus::plan::{Plan, TaskIndex, TaskKeeping, Window};

/// A workflow for one case card, as it is watched: a row for every step.
#[derive(Clone, Debug)]
pub struct BenchCard {
    /// The module with what belongs to it.
    pub taken: Arc<Taken>,
    /// The module compiled for the case card.
    pub plan: Plan,
    /// The rows, by index of the step in the module.
    pub rows: Vec<Row>,
}

/// One step, as it is watched.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// The id of the step.
    pub id: String,
    /// Its index in the module.
    pub step: usize,
    /// Whether not doing it fails the run, and not seeing it makes the run not count.
    pub critical: bool,
    /// The tasks that it becomes on this case card: so often it is asked for.
    pub tasks: Vec<TaskIndex>,
}

impl BenchCard {
    /// Lays a workflow out for a case card.
    ///
    /// # Errors
    /// When the module gives no plan for it.
    pub fn new(taken: Arc<Taken>, card: &CaseCard) -> Result<BenchCard, StartProblem> {
        let plan = Plan::compile(&taken.module, card).map_err(|problems| {
            StartProblem::Prepare(PrepareProblem::Plan(problems), taken.files.clone())
        })?;
        let steps = taken.module.steps.iter().enumerate();
        let rows = steps.map(|(step, one)| Row {
            id: one.id.value.clone(),
            step,
            critical: one.critical,
            tasks: plan.tasks_of_step[step].clone(),
        });
        Ok(BenchCard {
            rows: rows.collect(),
            plan,
            taken,
        })
    }

    /// The module.
    #[must_use]
    pub fn module(&self) -> &Module {
        &self.taken.module
    }

    /// The row of a step.
    #[must_use]
    pub fn row(&self, id: &str) -> Option<&Row> {
        self.rows.iter().find(|row| row.id == id)
    }

    /// The step of a row.
    #[must_use]
    pub fn step(&self, row: &Row) -> &Step {
        &self.module().steps[row.step]
    }

    /// The task that the k-th time counts as, from 0. What is done more often than asked for counts as the last.
    #[must_use]
    pub fn task(&self, row: &Row, time: usize) -> Option<TaskIndex> {
        row.tasks.get(time).or(row.tasks.last()).copied()
    }

    /// How the timed part of the k-th time is kept, from 0.
    #[must_use]
    pub fn keeping(&self, row: &Row, time: usize) -> Option<&TaskKeeping> {
        self.plan.tasks[self.task(row, time)?].keeping.as_ref()
    }

    /// The window of the k-th time, from 0, where its time itself is scored.
    #[must_use]
    pub fn window(&self, row: &Row, time: usize) -> Option<Window> {
        self.keeping(row, time)?.window()
    }
}
