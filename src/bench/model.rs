//! A module's stations and parts, compiled for one case card: constants only.

use crate::syllabus::case::CaseCard;
use crate::syllabus::module::{Module, PartKind};
use crate::syllabus::read::Place;

/// What does not fit between a module and the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// No such kind of station.
    StationKind,
    /// The kind of station has no such number.
    NumberName,
    /// The number is no quantity of its unit; `known` holds the default as an example.
    NumberText,
    /// The number is outside of what the bench can work with; `known` holds the least and the most.
    NumberRange,
    /// No such station of the kind that the operation needs.
    Station,
    /// No such part.
    Part,
    /// No such product.
    Product,
    /// The step has no such way.
    Way,
    /// An option of the way is no word of the manner.
    WayOption,
    /// The values of an aspect are not those of its gauge, in order.
    GaugeValues,
    /// A gauge of something that cannot be read so.
    GaugeOf,
}

/// One thing that does not fit, with the position where it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchProblem {
    /// Where.
    pub at: Place,
    /// What.
    pub wrong: Wrong,
    /// As written.
    pub found: String,
    /// What would do.
    pub known: Vec<String>,
}

/// A module's stations and parts, compiled for one case card.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The parts by id.
    pub(super) parts: Vec<(String, PartKind)>,
}

impl Model {
    /// Compiles the bench of a module for a case card.
    ///
    /// # Errors
    /// Everything of the module that the bench does not understand, in the order of the text.
    pub fn new(module: &Module, card: &CaseCard) -> Result<Model, Vec<BenchProblem>> {
        let _ = card;
        Ok(Model {
            parts: module
                .parts
                .iter()
                .map(|part| (part.id.value.clone(), part.kind))
                .collect(),
        })
    }
}
