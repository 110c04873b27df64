//! A learning module as data: what a trainer wrote, positions kept, nothing compiled yet.
//!
//! Every name that refers to something keeps its position, so that a check can point at it. Texts are in the module's own
//! language. Left out: files (a module is given as text), plans (`syllabus::plan`) and what happens on a bench (`bench`).

#[cfg(test)]
pub(crate) mod fixture;
mod rules;
mod setting;
mod sign_off;
mod steps;

use std::collections::BTreeMap;

use super::read::Spot;

pub use rules::{
    CapChange, Comes, Consequence, Disturbance, ForbiddenAct, Guard, Harm, Moment, Never, Response,
    TimeRule,
};
pub use setting::{
    Aspect, AspectValue, Gauge, GaugeKind, Part, PartKind, Product, ProtectionItem, ProtectionKind,
    Repeat, RepeatOver, Station, StationNumber,
};
pub use sign_off::{AGAIN, MOST_COUNTED, MOST_MONTHS, SignOff, SignOffFault, Which};
pub use steps::{
    After, Condition, Keeping, LINE_WORDS, Miss, Stage, Step, StepErrors, Tier, TimeChange,
    TimeWindow, Way, WayOption,
};

/// A name with the position where it was written.
pub type Name = Spot<String>;

/// How much a finding weighs. Ordered from least to most.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Worth a remark; the run stays clean.
    Minor,
    /// The run is not clean.
    Major,
    /// The run is not clean, and a person or the case would have come to harm.
    Critical,
}

/// How much depends on a workflow (intervals of re-assessment follow from it).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Risk {
    /// Low risk.
    Low,
    /// Medium risk.
    Medium,
    /// High risk.
    High,
}

/// Where a number or statement comes from. Nothing else is accepted as an origin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A source of the module's list, by its id.
    Source(Name),
    /// `common practice, no source`.
    CommonPractice,
    /// `from memory`.
    FromMemory,
    /// `calculated from …`; holds what it was calculated from.
    Calculated(String),
    /// `our default`.
    OurDefault,
}

/// A whole module.
#[derive(Clone, Debug)]
pub struct Module {
    /// Who the module is: id, revision, dates, language.
    pub identity: Identity,
    /// Modules a person must know before this one.
    pub requires: Vec<Name>,
    /// What varies from case to case.
    pub case: Vec<CaseChoice>,
    /// What steps are repeated over.
    pub repeats: Vec<Repeat>,
    /// What the work is done on.
    pub parts: Vec<Part>,
    /// What can be true of the parts, aspect by aspect.
    pub aspects: Vec<Aspect>,
    /// The stations of the bench, with their numbers.
    pub stations: Vec<Station>,
    /// The products on the shelf.
    pub products: Vec<Product>,
    /// What can be worn or kept running.
    pub protection_items: Vec<ProtectionItem>,
    /// The steps in the order written, stages already merged.
    pub steps: Vec<Step>,
    /// Gaps and caps.
    pub time_rules: Vec<TimeRule>,
    /// What must be worn or running, and when.
    pub guards: Vec<Guard>,
    /// What is never done in this workflow.
    pub never: Vec<Never>,
    /// What can go wrong around the technician.
    pub disturbances: Vec<Disturbance>,
    /// Consequences by id.
    pub consequences: Vec<Consequence>,
    /// What a sign-off asks for.
    pub sign_off: Option<SignOff>,
}

/// Who a module is.
#[derive(Clone, Debug)]
pub struct Identity {
    /// Its id, as in `requires` and on the command line.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// What the workflow is for, in a sentence or two.
    pub about: String,
    /// The revision, counted from 1.
    pub revision: u32,
    /// The day from which the revision is meant to be used.
    pub effective: chrono::NaiveDate,
    /// The language of its texts, as a tag (`en-US`).
    pub language: String,
    /// How much depends on the workflow.
    pub risk: Risk,
    /// The origin of every number that names no other.
    pub origin: Origin,
    /// Named sources: id to citation.
    pub sources: BTreeMap<String, String>,
    /// Ids of hazards of the shared hazard list that this workflow touches.
    pub hazards: Vec<Name>,
    /// The cautions printed with the module, in its own language.
    pub cautions: Vec<String>,
}

/// One thing that varies from case to case.
#[derive(Clone, Debug)]
pub struct CaseChoice {
    /// Its id (`teeth`, `wash`).
    pub id: Name,
    /// Its title.
    pub title: String,
    /// What it may be.
    pub range: CaseRange,
    /// Whether the plan depends on it. Only such choices are enumerated by the check.
    pub shapes_plan: bool,
}

/// The values of a case choice.
#[derive(Clone, Debug)]
pub enum CaseRange {
    /// One of these words.
    OneOf(Vec<Name>),
    /// A whole number, both ends allowed.
    Whole {
        /// The least.
        from: u16,
        /// The greatest.
        to: u16,
    },
}
