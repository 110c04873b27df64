//! Rebuilds trace, outcome and grade from a saved run.

use std::sync::Arc;

use super::action::Action;
use super::drive::{Nonsense, Prepared, Rehearsal, draw_disturbances};
use super::grade::{Graded, grade};
use super::run::Run;
use super::trace::Event;
use crate::bench::Outcome;
use crate::rng::Seed;
use crate::syllabus::module::Module;

/// Everything that a run rebuilds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Replayed {
    /// What happened.
    pub trace: Vec<Event>,
    /// What the bench ended with.
    pub outcome: Outcome,
    /// The grade.
    pub graded: Graded,
}

/// Why a saved run cannot be replayed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReplayProblem {
    /// The module has no disturbance with this id.
    NoSuchDisturbance(String),
    /// An action makes no sense on this plan; holds its number, from 1.
    Action(usize, Nonsense),
}

/// The disturbances with these ids, by index in the module, in the module's order.
///
/// # Errors
/// The first id that stands for nothing.
pub fn disturbances(module: &Module, ids: &[String]) -> Result<Vec<usize>, String> {
    for id in ids {
        if !module.disturbances.iter().any(|one| one.id.value == *id) {
            return Err(id.clone());
        }
    }
    Ok((0..module.disturbances.len())
        .filter(|&index| ids.contains(&module.disturbances[index].id.value))
        .collect())
}

/// The ids of the disturbances that a seed draws.
#[must_use]
pub fn drawn(module: &Module, seed: Seed) -> Vec<String> {
    draw_disturbances(module, seed)
        .into_iter()
        .map(|index| module.disturbances[index].id.value.clone())
        .collect()
}

/// A run up to its last action, as it stood then.
///
/// # Errors
/// When the run does not fit the module.
pub fn resume(on: &Arc<Prepared>, run: &Run) -> Result<Rehearsal, ReplayProblem> {
    let coming =
        disturbances(&on.module, &run.disturbances).map_err(ReplayProblem::NoSuchDisturbance)?;
    let mut rehearsal = Rehearsal::new(on, run.seed, coming);
    for (index, action) in run.actions.iter().enumerate() {
        rehearsal
            .act(action)
            .map_err(|why| ReplayProblem::Action(index + 1, why))?;
    }
    Ok(rehearsal)
}

/// Rebuilds a whole run. One that was not handed over counts as abandoned.
///
/// # Errors
/// When the run does not fit the module.
pub fn replay(on: &Arc<Prepared>, run: &Run) -> Result<Replayed, ReplayProblem> {
    let mut rehearsal = resume(on, run)?;
    if !rehearsal.is_over() {
        // A run that is not over takes every action that makes sense, and giving up always does.
        rehearsal
            .act(&Action::Abandon)
            .map_err(|why| ReplayProblem::Action(run.actions.len() + 1, why))?;
    }
    Ok(debriefed(on, rehearsal))
}

/// The trace, outcome and grade of a run that is over.
#[must_use]
pub fn debriefed(on: &Arc<Prepared>, rehearsal: Rehearsal) -> Replayed {
    let (trace, outcome) = rehearsal.into_parts();
    let graded = grade(&on.module, &on.plan, &trace, &outcome.harms);
    Replayed {
        trace,
        outcome,
        graded,
    }
}
