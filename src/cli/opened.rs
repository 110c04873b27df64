//! A module opened for looking at: taken from the shelf or a path, compiled for a case card.

use std::path::Path;
use std::sync::Arc;

use super::failure::Failure;
use super::files;
use super::help::{self, Choice};
use crate::app::System;
use crate::app::rehearse::StartProblem;
use crate::app::shelf::{Shelf, Taken};
use crate::rehearsal::drive::Prepared;
use crate::syllabus::case::CaseCard;

/// An opened module.
pub(super) struct Opened {
    /// The module with what belongs to it.
    pub(super) taken: Taken,
    /// Its plan and bench.
    pub(super) on: Arc<Prepared>,
}

impl Opened {
    /// Opens a module. Choices that are not named take the module's first value.
    pub(super) fn open<S: System>(
        wanted: &str,
        case: &[Choice],
        profile: Option<&str>,
        data: Option<&Path>,
        system: &S,
    ) -> Result<Opened, Failure> {
        let mut shelf = Shelf::shipped();
        let id = files::module_of(&mut shelf, wanted, data, system)?;
        let profile = files::profile(&mut shelf, profile, system)?;
        let taken = shelf
            .take(&id, profile.as_deref())
            .map_err(|problem| Failure::Start(StartProblem::Shelf(problem)))?;
        let first = CaseCard::picked(&taken.module, |_| 0);
        let card = CaseCard::parse_over(&help::spelled(case), &taken.module, first)
            .map_err(|problem| Failure::Start(StartProblem::Case(problem)))?;
        let on = taken.prepare(&card).map_err(|problem| {
            Failure::Start(StartProblem::Prepare(problem, taken.files.clone()))
        })?;
        Ok(Opened { taken, on })
    }
}
