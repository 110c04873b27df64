//! What the check finds in a module on the shelf: in its meaning, and in what a bench can do with it.

use super::shelf::Shelf;
use crate::bench::{BenchProblem, Model, station_kinds};
use crate::syllabus::case::CaseCard;
use crate::syllabus::check::{CheckReport, Surroundings, check};
use crate::syllabus::module::Module;
use crate::syllabus::read::module::{Refused, module};

/// A module that was read and checked.
#[derive(Clone, Debug)]
pub struct Checked {
    /// The files it was read from; places refer to them by index.
    pub files: Vec<String>,
    /// The module, its stages merged.
    pub module: Module,
    /// What is wrong with its meaning, and what it comes to.
    pub report: CheckReport,
    /// What a bench cannot do, for the first case card for which there is something.
    pub bench: Vec<BenchProblem>,
}

impl Checked {
    /// Whether nothing but warnings was found.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.report.is_sound() && self.bench.is_empty()
    }
}

impl Shelf {
    /// Checks the module at a path.
    ///
    /// # Errors
    /// When the module, a stage of it or a shared list cannot be read.
    pub fn checked(&self, path: &str) -> Result<Checked, Refused> {
        let (hazards, faults) = (self.hazards()?, self.faults()?);
        let bytes = self.file(path).unwrap_or_default();
        let assembled = module(path, bytes, &self.library(path))?;
        let (modules, kinds) = (self.modules(), station_kinds());
        let around = Surroundings {
            hazards: &hazards,
            faults: &faults,
            modules: Some(&modules),
            station_kinds: Some(&kinds),
        };
        let report = check(&assembled, &around);
        let mut bench = Vec::new();
        if report.is_sound() {
            // The bench has its own say about stations, numbers and ways, for every case card.
            let cards = CaseCard::combinations(&assembled.module);
            let refused = cards
                .into_iter()
                .find_map(|card| Model::new(&assembled.module, &card).err());
            bench = refused.unwrap_or_default();
        }
        Ok(Checked {
            files: assembled.files,
            module: assembled.module,
            report,
            bench,
        })
    }
}
