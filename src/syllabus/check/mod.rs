//! What the author of a module is told: everything in it that means nothing, contradicts itself or cannot be done.
//!
//! All problems are found in one go: names that stand for nothing are taken out before the rest is looked at. Every
//! combination of case choices that shape the plan is compiled. Left out: words for people, and what a bench knows about the
//! numbers of its stations.

mod caps;
mod chains;
mod fault;
mod names;
mod operations;
mod plans;
mod reach;
mod references;
mod sense;
mod sound;
mod texts;

pub use fault::{CheckFault, ClashLink, ClashReason, NameKind, Weight};

use super::faults::Fault;
use super::hazards::Hazard;
use super::read::Place;
use super::read::module::Assembled;
use crate::units::Millis;

/// What stands around a module and can be named by it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Surroundings<'s> {
    /// The shared hazards.
    pub hazards: &'s [Hazard],
    /// The shared faults.
    pub faults: &'s [Fault],
    /// The ids of all modules; `None`: not known, so prerequisites are not looked at.
    pub modules: Option<&'s [String]>,
    /// The kinds of stations that a bench has; `None`: not known, so kinds are not looked at.
    pub station_kinds: Option<&'s [&'s str]>,
}

/// One thing that is wrong with the meaning of a module.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckProblem {
    /// Where; the file is an index into the files of the module.
    pub at: Place,
    /// What.
    pub what: CheckFault,
}

/// What a module comes to for one case card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseSummary {
    /// The case card, as it is written.
    pub card: String,
    /// How many tasks there are.
    pub tasks: usize,
    /// How many of them are required.
    pub required: usize,
    /// The least time of a person's hands.
    pub hands_on: Millis,
    /// The longest chain of tasks that wait for each other.
    pub longest_chain: Millis,
    /// The least total time.
    pub least: Millis,
    /// The greatest total time.
    pub greatest: Millis,
    /// The labels of the tasks of one longest chain.
    pub critical_path: Vec<String>,
}

/// What the check found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CheckReport {
    /// The problems in the order of the files, at most [`MOST_PROBLEMS`](super::read::MOST_PROBLEMS) of them.
    pub problems: Vec<CheckProblem>,
    /// How many more there are.
    pub more: usize,
    /// One summary for each case card that gives a plan.
    pub cases: Vec<CaseSummary>,
}

impl CheckReport {
    /// Whether nothing keeps the module from being used.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.more == 0
            && self
                .problems
                .iter()
                .all(|it| it.what.weight() == Weight::Warning)
    }
}

/// Checks a module.
#[must_use]
pub fn check(read: &Assembled, around: &Surroundings<'_>) -> CheckReport {
    let mut found = Vec::new();
    let names = names::Names::of(&read.module, around);
    references::check(read, &names, &mut found);
    operations::check(&read.module, &names, &mut found);
    sense::check(&read.module, around, &mut found);
    texts::check(&read.module, &mut found);
    let sound = sound::without_unknown(&read.module, &names);
    chains::check(&sound, &mut found);
    let cases = plans::check(&sound, &mut found);
    found.sort_by_key(|problem| problem.at);
    let mut problems: Vec<CheckProblem> = Vec::new();
    let mut more = 0;
    for problem in found {
        let mut same_place = problems.iter().rev().take_while(|it| it.at == problem.at);
        if same_place.any(|it| *it == problem) {
            continue;
        }
        if problems.len() < super::read::MOST_PROBLEMS {
            problems.push(problem);
        } else {
            more += 1;
        }
    }
    CheckReport {
        problems,
        more,
        cases,
    }
}

/// Collects problems.
type Found = Vec<CheckProblem>;

/// Notes one problem.
fn note(found: &mut Found, at: Place, what: CheckFault) {
    found.push(CheckProblem { at, what });
}
