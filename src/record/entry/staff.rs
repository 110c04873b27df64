//! People, what they are entitled to, and their keys.

use super::{Kind, PersonRule, Right, SignedKind, Subject};
use crate::record::member::members;
use crate::record::scope::{Authority, Id, Meaning};
use crate::record::signature::{KeyId, PublicKey};
use crate::units::{Digest, PersonCode};

members! {
    /// The record begins: its first person, who owns it. Signed with the key that it brings.
    Founded {
        /// The first person.
        "person" person: PersonCode,
        /// That person's key.
        "key" key: PublicKey,
        /// The commitment to the name of the laboratory.
        "laboratory" laboratory: Digest,
    }
}

members! {
    /// A person joined. Whoever comes back joins with a new code.
    Joined {
        /// Who.
        "person" person: PersonCode,
        /// The commitment to the name as it is printed.
        "name" name: Digest,
    }
}

members! {
    /// A person left. What that person was entitled to and signed off for ends.
    Left {
        /// Who.
        "person" person: PersonCode,
    }
}

members! {
    /// A person was given an authority.
    Granted {
        /// Who.
        "person" person: PersonCode,
        /// Which authority.
        "authority" authority: Authority,
        /// For which workflow; for every one where it is left out.
        "workflow" workflow: Option<Id>,
    }
}

members! {
    /// A grant was taken back.
    Revoked {
        /// Whose.
        "person" person: PersonCode,
        /// The grant.
        "grant" grant: crate::record::seal::Seal,
    }
}

members! {
    /// A person was given a key, after somebody had made sure who it is. One that takes the place of an earlier key may be used once a second
    /// person has approved of it.
    KeyIssued {
        /// Who.
        "person" person: PersonCode,
        /// The public half of the key.
        "key" key: PublicKey,
    }
}

members! {
    /// A key is lost or no longer alone in its person's hands. Nothing may be signed with it from now on.
    KeyLost {
        /// Whose.
        "person" person: PersonCode,
        /// Which key.
        "key" key: KeyId,
    }
}

macro_rules! of_person {
    ($($kind:ident),*) => {$(
        impl Kind for $kind {
            fn subject(&self) -> Subject<'_> {
                Subject::person(self.person)
            }
        }
    )*};
}

of_person!(Founded, Joined, Left, KeyLost);

impl Kind for KeyIssued {
    fn subject(&self) -> Subject<'_> {
        Subject::person(self.person)
    }

    fn seconds(&self) -> &'static [Authority] {
        use Authority::{Administer, Approve, Own, Quality};
        &[Administer, Own, Approve, Quality]
    }
}

impl Kind for Granted {
    fn subject(&self) -> Subject<'_> {
        Subject {
            workflow: self.workflow.as_ref(),
            ..Subject::person(self.person)
        }
    }
}

impl Kind for Revoked {
    fn subject(&self) -> Subject<'_> {
        Subject::person(self.person)
    }

    fn refers(&self) -> Vec<crate::record::seal::Seal> {
        vec![self.grant]
    }
}

const STAFF: &[Authority] = &[Authority::Administer, Authority::Own];

impl SignedKind for Founded {
    fn right(&self) -> Right<'_> {
        Right::of(&[]).only(self.person)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Authored]
    }
}

impl SignedKind for Joined {
    fn right(&self) -> Right<'_> {
        Right::of(STAFF)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Authored]
    }
}

impl SignedKind for Left {
    fn right(&self) -> Right<'_> {
        Right::of(STAFF)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Authored]
    }
}

impl SignedKind for Granted {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Own])
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved]
    }
}

impl SignedKind for Revoked {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Own])
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved]
    }
}

impl SignedKind for KeyIssued {
    fn right(&self) -> Right<'_> {
        Right::of(STAFF)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved]
    }
}

impl SignedKind for KeyLost {
    fn right(&self) -> Right<'_> {
        // The owner of a key may say so without any authority.
        Right {
            person: PersonRule::OrSelf(self.person),
            ..Right::of(STAFF)
        }
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Authored]
    }
}
