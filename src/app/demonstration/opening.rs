//! The demonstration in a folder: one that somebody named, or one that is thrown away.

use std::path::{Path, PathBuf};

use super::{Demonstration, NoDemonstration, demonstration};
use crate::app::System;
use crate::app::complain;
use crate::app::fault::Fault;
use crate::app::laboratory::{self, Laboratory, Problem, worded};
use crate::app::rehearse::StartProblem;
use crate::report::record::Telling;
use crate::standing::Ledger;
use crate::text::Words;

impl From<Fault> for NoDemonstration {
    fn from(fault: Fault) -> NoDemonstration {
        NoDemonstration::Fault(fault)
    }
}

/// Writes the demonstration into a folder for data that has no record yet.
///
/// # Errors
///
/// The folder is refused, or has a record.
pub fn write_into<S: System>(
    system: &S,
    data: &Path,
    words: &Words,
) -> Result<(Demonstration, S::Place), NoDemonstration> {
    let place = system.place(&laboratory::folder(system, Some(data))?);
    let mut place = place.map_err(Problem::from)?;
    let made = demonstration(words)?;
    made.laboratory.write_to(&mut place)?;
    Ok((made, place))
}

/// A fresh copy of the demonstration in a folder of its own, which whoever opens it has cleared away in the end. Returns the folder for data.
///
/// # Errors
///
/// The machine has no room for it.
pub fn throw_away<S: System>(
    system: &S,
    words: &Words,
) -> Result<(PathBuf, Laboratory<S::Place>), NoDemonstration> {
    let data = system.throw_away()?;
    let opened = write_into(system, &data, words)
        .and_then(|(_, place)| Laboratory::open(place).map_err(NoDemonstration::from));
    match opened {
        Ok(laboratory) => Ok((data, laboratory)),
        Err(problem) => {
            system.clear_away(&data);
            Err(problem)
        }
    }
}

/// Why there is no demonstration, in words.
#[must_use]
pub fn no_demonstration(problem: &NoDemonstration, words: &Words) -> Vec<String> {
    match problem {
        NoDemonstration::Shelf(problem) => {
            let all = complain::start(&StartProblem::Shelf(problem.clone()), words);
            all.iter().flat_map(|one| one.lines(words)).collect()
        }
        NoDemonstration::Fault(fault) => complain::machine(fault, words),
        NoDemonstration::Problem(problem) => {
            let ledger = Ledger::new();
            let names = |_| String::new();
            let telling = Telling {
                ledger: &ledger,
                words,
                names: &names,
            };
            let told = worded::problem(problem, &telling);
            std::iter::once(told.what).chain(told.fix).collect()
        }
    }
}
