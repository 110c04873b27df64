//! Standing: what entries say about a person's competence as of an instant.
//!
//! A pure function of entries and an instant, in two readings (rule R1): *as now known* counts every entry about what had happened by
//! then; *as recorded then* only those that had been written down by then. A correction or a void is about its target and
//! counts as soon as it is known, whenever it was made. Left out: "now", which is an argument; names; words for people.
//!
//! The rules R1 to R16 stand where they act; each has a test named after it in `tests/rules`.

mod consequences;
mod evidence;
mod ledger;
mod looking;
mod policy;
pub mod rules;
mod setting_up;
mod shown;
mod validity;
mod view;
mod waiting;
pub mod worth;

use crate::record::entry::Allowed;
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::units::{Instant, PersonCode};

pub use consequences::{
    Change, Consequences, consequences, lacking, lacking_assessors, needs_second,
};
pub use evidence::{Count, Need, Readiness, Run, run_of, weighed};
pub use ledger::{Doubt, Ledger, Unfounded};
pub use looking::{Amendment, Force, Supervision};
pub use policy::Policy;
pub use rules::others::{
    Holders, TooFew, could_second, could_sign_instead, grant_for, holders, too_few,
};
pub use rules::{Refusal, Rule, admit, audit, is_correctable};
pub use setting_up::{SetUpStep, ToSetUp};
pub use validity::{CarriedBy, DueCause, LapseCause, Remark, Validity};
pub use view::{Reading, View};
pub use waiting::{LookedAfter, SetBack};
pub use worth::{Runs, Weight, Worth};

/// A person's state in a scope at an instant. Ordered as listed, the strictest last (rule R16), but for its details.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// No need is recorded.
    NotAssigned,
    /// There is a need; what comes before supervised work is not complete, or nobody is named to supervise it.
    InTraining,
    /// May work beside this person, who is signed off.
    UnderSupervision {
        /// The supervisor.
        supervisor: PersonCode,
    },
    /// Everything is there but the signature. May work as under supervision.
    ReadyForSignOff,
    /// May work alone within the scope.
    SignedOff(Validity),
    /// May still work alone; has to be assessed again.
    Due(Validity, Vec<DueCause>),
    /// The sign-off has ended. May work as under supervision.
    Lapsed(Validity, LapseCause),
    /// Stopped for cause.
    Suspended {
        /// The entry that did it.
        by: Seal,
        /// What the person may still do.
        allowed: Allowed,
    },
    /// The sign-off was ended. Only a new need leads back.
    Withdrawn {
        /// The entry that did it.
        by: Seal,
    },
    /// The person left, or the workflow is no longer done.
    Left {
        /// The entry that says so.
        by: Seal,
    },
}

impl Standing {
    /// The ten standings without their details, the strictest last.
    pub const WORDS: [&str; 10] = [
        "not-assigned",
        "in-training",
        "under-supervision",
        "ready-for-sign-off",
        "signed-off",
        "due",
        "lapsed",
        "suspended",
        "withdrawn",
        "left",
    ];

    /// The standing's own word, for machines and for looking up what people are told.
    #[must_use]
    pub fn word(&self) -> &'static str {
        Standing::WORDS[match self {
            Standing::NotAssigned => 0,
            Standing::InTraining => 1,
            Standing::UnderSupervision { .. } => 2,
            Standing::ReadyForSignOff => 3,
            Standing::SignedOff(_) => 4,
            Standing::Due(..) => 5,
            Standing::Lapsed(..) => 6,
            Standing::Suspended { .. } => 7,
            Standing::Withdrawn { .. } => 8,
            Standing::Left { .. } => 9,
        }]
    }

    /// Whether the person may work alone within the scope.
    #[must_use]
    pub fn is_in_force(&self) -> bool {
        matches!(self, Standing::SignedOff(_) | Standing::Due(..))
    }
}

/// The standing cannot be shown: verification found something wrong with what it rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CannotBeShown {
    /// The strand.
    pub strand: Id,
    /// The number in it from which on entries are in doubt.
    pub number: u64,
}

/// When an entry counts among others: by its instant, then by strand and number.
type Order<'a> = (Instant, &'a Id, u64);

#[cfg(test)]
pub(crate) mod tests;
