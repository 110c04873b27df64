//! What stops a person, calls them in, or lets them go on.

use super::{Amending, Kind, PersonRule, Right, SignedKind, Subject};
use crate::record::member::{members, words};
use crate::record::scope::{Authority, Id, Meaning, Scope};
use crate::record::seal::Seal;
use crate::units::{Digest, PersonCode};

words! {
    /// What a suspended person may still do.
    Allowed {
        /// Nothing in this workflow.
        "nothing" Nothing,
        /// Work under supervision.
        "supervised" Supervised,
    }
}

members! {
    /// A person was stopped in a workflow, for cause, in every scope of it. Holds at once.
    Suspended {
        /// Who.
        "person" person: PersonCode,
        /// In which workflow.
        "workflow" workflow: Id,
        /// What the person may still do.
        "allowed" allowed: Allowed,
    }
}

members! {
    /// A suspension was lifted, with evidence. Holds from the second person's signature.
    Reinstated {
        /// Who.
        "person" person: PersonCode,
        /// In which workflow.
        "workflow" workflow: Id,
        /// The suspension that ends.
        "suspension" suspension: Seal,
        /// The entries that show the person can go on.
        "evidence" evidence: Vec<Seal>,
        /// The digest of a document that shows it.
        "proof" proof: Option<Digest>,
    }
}

members! {
    /// What a person was signed off for has ended. Only a new need and the whole path lead back.
    Withdrawn {
        /// Who.
        "person" person: PersonCode,
        /// For what.
        "scope" scope: Scope,
    }
}

words! {
    /// Why a person has to be assessed again.
    Cause {
        /// A complaint, an error or a remake.
        "complaint" Complaint,
        /// New equipment or material.
        "equipment" Equipment,
        /// A run of results that points the wrong way.
        "trend" Trend,
        /// A long absence.
        "absence" Absence,
    }
}

members! {
    /// A person has to be assessed again.
    CalledIn {
        /// Who.
        "person" person: PersonCode,
        /// For what.
        "scope" scope: Scope,
        /// Why.
        "cause" cause: Cause,
    }
}

impl Kind for Suspended {
    fn subject(&self) -> Subject<'_> {
        Subject::workflow(self.person, &self.workflow)
    }

    fn needs_reason(&self) -> bool {
        true
    }

    fn amending(&self) -> Amending {
        Amending::VoidOnly
    }
}

impl Kind for Reinstated {
    fn subject(&self) -> Subject<'_> {
        Subject::workflow(self.person, &self.workflow)
    }

    fn refers(&self) -> Vec<Seal> {
        let mut seals = vec![self.suspension];
        seals.extend(&self.evidence);
        seals
    }

    fn documents(&self) -> Vec<(&'static str, Digest)> {
        self.proof
            .map(|proof| ("proof", proof))
            .into_iter()
            .collect()
    }

    fn amending(&self) -> Amending {
        Amending::VoidOnly
    }
}

impl Kind for Withdrawn {
    fn subject(&self) -> Subject<'_> {
        Subject::scope(self.person, &self.scope)
    }

    fn needs_reason(&self) -> bool {
        true
    }

    fn amending(&self) -> Amending {
        Amending::VoidOnly
    }
}

impl Kind for CalledIn {
    fn subject(&self) -> Subject<'_> {
        Subject::scope(self.person, &self.scope)
    }

    fn needs_reason(&self) -> bool {
        true
    }

    fn amending(&self) -> Amending {
        Amending::VoidOnly
    }
}

impl SignedKind for Suspended {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Approve, Authority::Quality]).within(&self.workflow)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Suspended]
    }
}

impl SignedKind for Reinstated {
    fn right(&self) -> Right<'_> {
        // Whether a person may reinstate themself depends on the policy, which `standing` knows.
        Right::of(&[Authority::Approve]).within(&self.workflow)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Reinstated]
    }
}

impl SignedKind for Withdrawn {
    fn right(&self) -> Right<'_> {
        // A person may give up what they were signed off for.
        Right {
            person: PersonRule::OrSelf(self.person),
            ..Right::of(&[Authority::Approve, Authority::Quality]).within(&self.scope.workflow)
        }
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Withdrawn]
    }
}

impl SignedKind for CalledIn {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Assess, Authority::Approve, Authority::Quality])
            .within(&self.scope.workflow)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Assessed]
    }
}
