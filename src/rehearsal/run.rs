//! A run as it is saved: everything that rebuilds its trace, and nothing else.

use super::action::{Action, Help};
use crate::rng::Seed;
use crate::syllabus::case::CaseCard;

/// The format of saved runs that this program writes.
pub const FORMAT: u16 = 1;

/// A saved run. Trace, outcome and debrief are replayed from it.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Run {
    /// The format, [`FORMAT`].
    pub format: u16,
    /// The id of the module.
    pub module: String,
    /// Its revision.
    pub revision: u32,
    /// The digest of its content, in hexadecimal.
    pub digest: String,
    /// The name of the process profile.
    pub profile: String,
    /// The digest of the profile's numbers, in hexadecimal, where they are the laboratory's own and not those that the module's digest covers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub numbers: Option<String>,
    /// The case card.
    pub card: CaseCard,
    /// The seed.
    pub seed: Seed,
    /// How much help was given.
    pub help: Help,
    /// The disturbances that were drawn or chosen, by id, in the order of the module.
    pub disturbances: Vec<String>,
    /// The actions, in order.
    pub actions: Vec<Action>,
}
