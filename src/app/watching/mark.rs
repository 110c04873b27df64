//! One line of a bench run: what was tapped, and when.

use serde::{Deserialize, Serialize};

use super::clock::ClockNote;
use super::spelled;
use crate::record::entry::{Judgement, Seen};
use crate::units::{Millis, Stamp};

/// The most characters of a text that is tapped in. Our default: a few lines.
pub const TEXT_MOST: usize = 500;

/// What was tapped.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Mark {
    /// A row was started: once more, where it has been started before.
    Start {
        /// The id of the step.
        row: String,
    },
    /// What runs of a row was stopped.
    Stop {
        /// The id of the step.
        row: String,
    },
    /// How a row went, as the observer saw it.
    Seen {
        /// The id of the step.
        row: String,
        /// How it went.
        #[serde(with = "spelled::seen")]
        seen: Seen,
    },
    /// A value was read.
    Value {
        /// The id of the step.
        row: String,
        /// What was read, as it was read.
        text: String,
    },
    /// A remark on a row, or on the whole.
    Remark {
        /// The id of the step; none for the whole.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        row: Option<String>,
        /// The remark.
        text: String,
    },
    /// A lot number, or which equipment was used.
    Lot {
        /// The note.
        text: String,
    },
    /// The run was stopped for a danger. It ends with this, as not acceptable.
    Danger {
        /// What was dangerous.
        text: String,
    },
    /// The run is over, with the judgement of the whole.
    End {
        /// The judgement.
        #[serde(with = "spelled::judgement")]
        judgement: Judgement,
    },
    /// The last tap that still stands was taken back. It stays where it was written.
    Undo,
    /// The run was begun by mistake: nothing stands of it, and it is not gone on with.
    Dropped,
    /// The observation was signed; holds the seal of its entry.
    Signed {
        /// The seal.
        entry: String,
    },
}

/// A tap with its time.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Marked {
    /// The wall clock.
    #[serde(with = "spelled::text")]
    pub at: Stamp,
    /// Time since the run began. Never goes back, whatever the wall clock does.
    #[serde(rename = "run-ms")]
    pub run: Millis,
    /// What the wall clock had done since the line before, where it did not go like a clock.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clock: Option<ClockNote>,
    /// What was tapped.
    pub mark: Mark,
}

impl Mark {
    /// The row it is about.
    #[must_use]
    pub fn row(&self) -> Option<&str> {
        match self {
            Mark::Start { row }
            | Mark::Stop { row }
            | Mark::Seen { row, .. }
            | Mark::Value { row, .. } => Some(row),
            Mark::Remark { row, .. } => row.as_deref(),
            Mark::Lot { .. }
            | Mark::Danger { .. }
            | Mark::End { .. }
            | Mark::Undo
            | Mark::Dropped
            | Mark::Signed { .. } => None,
        }
    }

    /// The text that was typed.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match self {
            Mark::Value { text, .. }
            | Mark::Remark { text, .. }
            | Mark::Lot { text }
            | Mark::Danger { text } => Some(text),
            _ => None,
        }
    }

    /// Whether it ends the run.
    #[must_use]
    pub fn ends(&self) -> bool {
        matches!(self, Mark::Danger { .. } | Mark::End { .. })
    }
}
