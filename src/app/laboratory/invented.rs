//! The keys of the demonstration: everybody knows their passphrases, so no other laboratory takes them.

use super::{Laboratory, Place};
use crate::record::entry::Signed;
use crate::record::signature::{KeyId, SecretKey};
use crate::units::Digest;

/// How many keys the demonstration can have: one for each of its people, and those that replace lost ones.
pub(super) const KEYS_MOST: u8 = 32;

/// The seed of a key of the demonstration.
#[must_use]
pub fn demonstration_seed(number: u8) -> [u8; 32] {
    Digest::of(&[b"drybench demonstration key", &[number]]).0
}

/// The fingerprints of the keys of the demonstration.
#[must_use]
pub fn demonstration_keys() -> Vec<KeyId> {
    (0..KEYS_MOST)
        .map(|number| {
            SecretKey::from_seed(&demonstration_seed(number))
                .public()
                .id()
        })
        .collect()
}

impl<P: Place> Laboratory<P> {
    /// Whether this is the demonstration: its first entry was signed with one of the keys that everybody knows.
    #[must_use]
    pub fn is_demonstration(&self) -> bool {
        let first = self
            .ledger
            .entries()
            .first()
            .and_then(|entry| entry.signed());
        matches!(first, Some((Signed::Founded(founded), _)) if demonstration_keys().contains(&founded.key.id()))
    }
}
