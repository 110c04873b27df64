//! Entries about entries: second signatures, corrections, voids. Nothing is overwritten.

use super::{Amending, Kind, PersonRule, Right, SignedKind, Subject};
use crate::record::canonical::Value;
use crate::record::member::members;
use crate::record::scope::{Authority, Id, Meaning};
use crate::record::seal::Seal;

members! {
    /// A second person signed what another had signed, or took note of it.
    Countersigned {
        /// The entry.
        "target" target: Seal,
    }
}

members! {
    /// One member of an entry was wrong. The entry stays as it is and is read with the new value.
    Corrected {
        /// The entry.
        "target" target: Seal,
        /// The member.
        "member" member: Id,
        /// What stands there; left out where nothing does.
        "old" old: Option<Value>,
        /// What should stand there; left out where nothing should.
        "new" new: Option<Value>,
    }
}

members! {
    /// An entry should not have been made. It stays in the record and counts for nothing.
    Voided {
        /// The entry.
        "target" target: Seal,
    }
}

impl Kind for Countersigned {
    fn subject(&self) -> Subject<'_> {
        Subject::default()
    }

    fn refers(&self) -> Vec<Seal> {
        vec![self.target]
    }
}

impl Kind for Corrected {
    fn subject(&self) -> Subject<'_> {
        Subject::default()
    }

    fn refers(&self) -> Vec<Seal> {
        vec![self.target]
    }

    fn needs_reason(&self) -> bool {
        true
    }

    fn amending(&self) -> Amending {
        Amending::VoidOnly
    }
}

impl Kind for Voided {
    fn subject(&self) -> Subject<'_> {
        Subject::default()
    }

    fn refers(&self) -> Vec<Seal> {
        vec![self.target]
    }

    fn needs_reason(&self) -> bool {
        true
    }
}

impl SignedKind for Countersigned {
    fn right(&self) -> Right<'_> {
        // Who may be the second person depends on the entry, which `standing` knows.
        Right::of(&[])
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved, Meaning::Reviewed, Meaning::Acknowledged]
    }
}

impl SignedKind for Corrected {
    fn right(&self) -> Right<'_> {
        Right {
            person: PersonRule::OrAuthorOf(self.target),
            ..Right::of(&[Authority::Approve])
        }
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Corrected]
    }
}

impl SignedKind for Voided {
    fn right(&self) -> Right<'_> {
        Right {
            person: PersonRule::OrAuthorOf(self.target),
            ..Right::of(&[Authority::Approve])
        }
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Corrected]
    }
}
