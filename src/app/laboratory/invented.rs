//! The keys of the demonstration: everybody knows their passphrases, so no other laboratory takes them.

use super::{Laboratory, Place};
use crate::record::entry::Signed;
use crate::record::signature::{KeyId, SecretKey};
use crate::units::{Digest, Stamp};

/// How many keys the demonstration can have: one for each of its people, and those that replace lost ones.
pub(super) const KEYS_MOST: u8 = 32;

/// What is now in the demonstration: the end of the last working day of its story.
pub(super) const NOW: &str = "2026-06-30T17:00:00+02:00";

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

    /// Has the demonstration stay in the days of its story, whatever the year: its standings would all have ended by now. Any other laboratory keeps the
    /// time of the machine.
    pub fn keep_its_time(&mut self) {
        if !self.is_demonstration() {
            return;
        }
        let last = self.ledger.entries().iter().map(|one| one.frame().recorded);
        let last = last.max_by_key(|stamp| stamp.instant());
        let story: Option<Stamp> = NOW.parse().ok();
        let now = last.into_iter().chain(story);
        if let Some(now) = now.max_by_key(|stamp| stamp.instant()) {
            self.place.go_on_from(now);
        }
    }
}
