//! How a run would count if it were signed with a judgement, by the rules of standing, and what a sign-off asks of such runs.

use super::rows::{BenchCard, Row};
use super::run::BenchRun;
use crate::app::laboratory::every_step;
use crate::record::entry::Judgement;
use crate::standing::{Count, Run, weighed};

/// How a run counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Counts<'c> {
    /// How.
    pub run: Run,
    /// The rows that make it so; none where it is clean, and none where the judgement alone decides.
    pub rows: Vec<&'c Row>,
}

/// How many clean runs the revision in force asks for, one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RowAsked {
    /// The number of the revision.
    pub revision: u32,
    /// So many there are up to now, of so many.
    pub count: Count,
}

/// How what stands of a run counts with a judgement; rows that nobody marked are not seen. None where a step cannot be named in an entry.
#[must_use]
pub fn counts<'c>(run: &BenchRun, card: &'c BenchCard, judgement: Judgement) -> Option<Counts<'c>> {
    let (steps, _) = every_step(&card.taken, |id| run.seen(id)).ok()?;
    let (run, decide) = weighed(&steps, judgement);
    let rows = decide.into_iter();
    let rows = rows.filter_map(|step| card.row(&step.step.to_string()));
    Some(Counts {
        run,
        rows: rows.collect(),
    })
}
