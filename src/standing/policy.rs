//! The laboratory's own numbers.

use crate::record::entry::{Independence, PolicySet};

/// What holds where the laboratory has set nothing else.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Policy {
    /// So many days before its end a sign-off is due.
    pub due_days: u16,
    /// So many days after its end it lapses (rule R14).
    pub grace_days: u16,
    /// An entry made more than so many hours later is late and needs a reason.
    pub late_hours: u16,
    /// Whether there is somebody who can assess independently.
    pub independence: Independence,
}

impl Default for Policy {
    /// Our defaults; no grace (rule R14).
    fn default() -> Policy {
        Policy {
            due_days: 60,
            grace_days: 0,
            late_hours: 24,
            independence: Independence::Independent,
        }
    }
}

impl From<&PolicySet> for Policy {
    fn from(set: &PolicySet) -> Policy {
        Policy {
            due_days: set.due_days,
            grace_days: set.grace_days,
            late_hours: set.late_hours,
            independence: set.independence,
        }
    }
}

impl Policy {
    /// Whether the laboratory has declared that nobody can assess independently.
    #[must_use]
    pub fn is_alone(&self) -> bool {
        self.independence == Independence::NoIndependentAssessor
    }
}
