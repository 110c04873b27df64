//! From the need to the first supervised case.

use super::{Amending, Kind, Right, SignedKind, Subject};
use crate::record::member::members;
use crate::record::scope::{Authority, Edition, Id, Meaning, Scope};
use crate::units::PersonCode;

members! {
    /// A need was recorded: the person is to be able to do this.
    Assigned {
        /// Who.
        "person" person: PersonCode,
        /// For what.
        "scope" scope: Scope,
    }
}

members! {
    /// The person has read an edition.
    Read {
        /// Who.
        "person" person: PersonCode,
        /// Of which workflow.
        "workflow" workflow: Id,
        /// Which edition.
        "edition" edition: Edition,
    }
}

members! {
    /// The person has taken note of what changed in an edition.
    AwarenessAcknowledged {
        /// Who.
        "person" person: PersonCode,
        /// Of which workflow.
        "workflow" workflow: Id,
        /// Which edition.
        "edition" edition: Edition,
    }
}

members! {
    /// The person was trained.
    Trained {
        /// Who.
        "person" person: PersonCode,
        /// For which workflow.
        "workflow" workflow: Id,
        /// On which edition.
        "edition" edition: Edition,
        /// In which language.
        "language" language: Id,
    }
}

members! {
    /// The person showed how to protect themself, before any supervised work.
    ProtectionShown {
        /// Who.
        "person" person: PersonCode,
        /// For which workflow.
        "workflow" workflow: Id,
        /// On which edition.
        "edition" edition: Edition,
    }
}

macro_rules! of_workflow {
    ($($kind:ident),*) => {$(
        impl Kind for $kind {
            fn subject(&self) -> Subject<'_> {
                Subject::workflow(self.person, &self.workflow)
            }

            fn amending(&self) -> Amending {
                Amending::Free
            }
        }
    )*};
}

of_workflow!(Read, AwarenessAcknowledged, Trained, ProtectionShown);

impl Kind for Assigned {
    fn subject(&self) -> Subject<'_> {
        Subject::scope(self.person, &self.scope)
    }

    fn amending(&self) -> Amending {
        Amending::Free
    }
}

impl SignedKind for Assigned {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Train, Authority::Approve]).within(&self.scope.workflow)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Authored]
    }
}

macro_rules! by_the_person {
    ($($kind:ident),*) => {$(
        impl SignedKind for $kind {
            fn right(&self) -> Right<'_> {
                Right::of(&[]).only(self.person)
            }

            fn meanings(&self) -> &'static [Meaning] {
                &[Meaning::Acknowledged]
            }
        }
    )*};
}

by_the_person!(Read, AwarenessAcknowledged);

impl SignedKind for Trained {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Train])
            .within(&self.workflow)
            .not(self.person)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Trained]
    }
}

impl SignedKind for ProtectionShown {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Train])
            .within(&self.workflow)
            .not(self.person)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Observed]
    }
}
