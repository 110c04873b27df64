//! The table of kinds: one line for each, with the word that it is stored as.

use super::*;
use crate::record::canonical::{Given, Map};
use crate::record::member::{MemberFault, read_all, words_of, written};

/// The table of kinds: the word each is stored as, and its facts. One line for each kind.
macro_rules! kinds {
    ($(#[$doc:meta])* $name:ident, $of:ident { $($word:literal $kind:ident,)* }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq)]
        #[expect(missing_docs, reason = "each kind is described at its facts")]
        pub enum $name {
            $($kind($kind),)*
        }

        impl $name {
            /// The words of all kinds.
            pub const WORDS: &[&str] = &[$($word),*];

            /// The word that the kind is stored as.
            #[must_use]
            pub fn word(&self) -> &'static str {
                match self {
                    $($name::$kind(_) => $word,)*
                }
            }

            /// What the record has to know about the kind.
            #[must_use]
            pub fn kind(&self) -> &dyn $of {
                match self {
                    $($name::$kind(fact) => fact,)*
                }
            }

            pub(super) fn members(&self) -> Map<'static> {
                match self {
                    $($name::$kind(fact) => written(fact),)*
                }
            }

            pub(super) fn words_of(&self, member: &str) -> &'static [&'static str] {
                match self {
                    $($name::$kind(fact) => words_of(fact, member),)*
                }
            }

            pub(super) fn read(word: &str, members: Given<'_>) -> Option<Result<$name, MemberFault>> {
                match word {
                    $($word => Some(read_all(members).map($name::$kind)),)*
                    _ => None,
                }
            }
        }

        $(impl From<$kind> for $name {
            fn from(fact: $kind) -> $name {
                $name::$kind(fact)
            }
        })*
    };
}

kinds! {
    /// A fact that the machine writes down by itself.
    Noted, Kind {
        "drilled" Drilled,
        "rehearsed" Rehearsed,
        "passphrase-refused" PassphraseRefused,
        "backup-made" BackupMade,
        "restore-tested" RestoreTested,
        "pack-exported" PackExported,
    }
}

kinds! {
    /// A fact that a person answers for. It cannot stand in an entry without a signature.
    Signed, SignedKind {
        "founded" Founded,
        "joined" Joined,
        "left" Left,
        "granted" Granted,
        "revoked" Revoked,
        "key-issued" KeyIssued,
        "key-lost" KeyLost,
        "assigned" Assigned,
        "read" Read,
        "awareness-acknowledged" AwarenessAcknowledged,
        "trained" Trained,
        "protection-shown" ProtectionShown,
        "supervised-by" SupervisedBy,
        "case-checked" CaseChecked,
        "observed" Observed,
        "evaluated" Evaluated,
        "signed-off" SignedOff,
        "suspended" Suspended,
        "reinstated" Reinstated,
        "withdrawn" Withdrawn,
        "called-in" CalledIn,
        "countersigned" Countersigned,
        "corrected" Corrected,
        "voided" Voided,
        "revision-adopted" RevisionAdopted,
        "workflow-retired" WorkflowRetired,
        "policy-set" PolicySet,
        "trail-reviewed" TrailReviewed,
        "restored" Restored,
    }
}
