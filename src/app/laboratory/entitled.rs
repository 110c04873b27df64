//! Who has a right that a kind of entry asks for. What else has to be true is asked when an entry is drafted.

use super::{Laboratory, Place};
use crate::record::scope::Authority;
use crate::standing::Holders;
use crate::units::PersonCode;

/// Any of these rights will do for entries of a kind, by its word; none are asked for where the list is empty.
#[must_use]
pub fn rights(kind: &str) -> &'static [Authority] {
    use Authority::{Administer, Approve, Assess, Own, Publish, Quality, Train};
    match kind {
        "granted" | "revoked" | "policy-set" => &[Own],
        "joined" | "left" | "key-issued" | "key-lost" | "restored" => &[Administer, Own],
        "assigned" => &[Train, Approve],
        "trained" | "protection-shown" => &[Train],
        "observed" | "evaluated" => &[Assess],
        "signed-off" | "reinstated" | "corrected" | "voided" => &[Approve],
        "suspended" | "withdrawn" => &[Approve, Quality],
        "called-in" => &[Assess, Approve, Quality],
        "revision-adopted" | "workflow-retired" => &[Publish],
        "trail-reviewed" => &[Quality, Own],
        _ => &[],
    }
}

impl<P: Place> Laboratory<P> {
    /// Everybody here who has a right that a kind of entry asks for, whatever the workflow.
    #[must_use]
    pub fn entitled(&self, kind: &str) -> Vec<PersonCode> {
        let (staff, any_of) = (self.ledger().staff(), rights(kind));
        let may = |person: &PersonCode| {
            let mut grants = staff.grants_of(*person);
            any_of.is_empty() || grants.any(|(_, held, _)| any_of.contains(&held))
        };
        staff.people().filter(may).collect()
    }

    /// Who has a right that a kind of entry asks for, whatever the workflow, and who could give it.
    #[must_use]
    pub fn holders(&self, kind: &str) -> Holders {
        Holders {
            have: self.entitled(kind),
            give: self.entitled("granted"),
        }
    }
}
