//! How the record itself is kept: reviews, backups, packs, refused passphrases.

use super::{Kind, Right, SignedKind, Subject};
use crate::record::member::{members, words};
use crate::record::scope::{Authority, Id, Meaning};
use crate::record::seal::Seal;
use crate::units::{Digest, PersonCode, Stamp};

words! {
    /// How something was found to be.
    Found {
        /// As it should.
        "good" Good,
        /// Not as it should.
        "bad" Bad,
    }
}

members! {
    /// Somebody looked through the entries of a while.
    TrailReviewed {
        /// From when…
        "from" from: Stamp,
        /// …until when.
        "until" until: Stamp,
        /// How the entries were found.
        "result" result: Found,
    }
}

members! {
    /// A copy of the record was put back, and a strand lost its newest entries.
    Restored {
        /// The strand.
        "lost-strand" lost_strand: Id,
        /// The number of the last entry that was lost.
        "lost-number" lost_number: u64,
        /// The seal of that entry.
        "lost-seal" lost_seal: Seal,
    }
}

members! {
    /// A copy of the record was made.
    BackupMade {
        /// The digest of the copy.
        "copy" copy: Digest,
    }
}

members! {
    /// A copy of the record was put back for a trial.
    RestoreTested {
        /// The digest of the copy.
        "copy" copy: Digest,
        /// Whether it verified.
        "result" result: Found,
    }
}

members! {
    /// A pack was made to be handed out.
    PackExported {
        /// The digest of the pack.
        "pack" pack: Digest,
    }
}

members! {
    /// A wrong passphrase was given for a person's key. Nobody can sign that.
    PassphraseRefused {
        /// Whose key.
        "person" person: PersonCode,
        /// How many times in a row.
        "times" times: u16,
    }
}

macro_rules! of_nobody {
    ($($kind:ident),*) => {$(
        impl Kind for $kind {
            fn subject(&self) -> Subject<'_> {
                Subject::default()
            }
        }
    )*};
}

of_nobody!(TrailReviewed, BackupMade, RestoreTested, PackExported);

impl Kind for Restored {
    fn subject(&self) -> Subject<'_> {
        Subject::default()
    }

    fn needs_reason(&self) -> bool {
        true
    }
}

impl Kind for PassphraseRefused {
    fn subject(&self) -> Subject<'_> {
        Subject::person(self.person)
    }
}

impl SignedKind for TrailReviewed {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Quality, Authority::Own])
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Reviewed]
    }
}

impl SignedKind for Restored {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Administer, Authority::Own])
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Authored]
    }
}
