//! The first line of a bench run: what is known when it begins.

use serde::{Deserialize, Serialize};

use super::run::RunProblem;
use super::spelled::{self, SpelledEdition, SpelledScope};
use crate::record::entry::Method;
use crate::record::scope::{Edition, Id, Scope};
use crate::syllabus::case::CaseCard;
use crate::units::{PersonCode, Stamp};

/// The format of kept runs that this program writes.
pub const FORMAT: u16 = 1;

/// What is known when a run begins: the first line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Head {
    /// The format, [`FORMAT`].
    pub format: u16,
    /// Who is watched.
    #[serde(with = "spelled::text")]
    pub person: PersonCode,
    /// Who watches.
    #[serde(with = "spelled::text")]
    pub observer: PersonCode,
    /// At what: the workflow, which is the id of the module, and with which profile and units.
    #[serde(with = "SpelledScope")]
    pub scope: Scope,
    /// The digest of the profile's numbers, in hexadecimal, where they are the laboratory's own and not those that the edition covers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub numbers: Option<String>,
    /// By which edition.
    #[serde(with = "SpelledEdition")]
    pub edition: Edition,
    /// What was decided for the case.
    pub card: CaseCard,
    /// Which case.
    #[serde(with = "spelled::text")]
    pub case: Id,
    /// In which way it is watched.
    #[serde(with = "spelled::method")]
    pub method: Method,
    /// When it began, by the clock on the wall.
    #[serde(with = "spelled::text")]
    pub started: Stamp,
    /// Lot numbers and equipment that were known before.
    pub lots: Vec<String>,
}

/// What every format says of itself.
#[derive(Deserialize)]
struct OfFormat {
    format: u64,
}

/// Reads the first line.
pub(super) fn read_head(line: &str) -> Result<Head, RunProblem> {
    let newer = || {
        let of: OfFormat = serde_json::from_str(line).ok()?;
        (of.format > u64::from(FORMAT)).then_some(of.format)
    };
    match serde_json::from_str::<Head>(line) {
        Ok(head) if head.format == FORMAT => Ok(head),
        read => match newer() {
            Some(format) => Err(RunProblem::Newer(format)),
            None => {
                let why = read.map_or_else(|why| why.to_string(), |head| head.format.to_string());
                Err(RunProblem::Line(1, why))
            }
        },
    }
}
