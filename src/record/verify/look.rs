//! Looking at stored bytes by themselves: what they say, and whether a signature is that of the key it names.
//!
//! Neither depends on any other entry, since a key is known by its own digest. So it may be done for many entries at once, in any order;
//! what depends on the order of entries comes after.

use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::sync::OnceLock;

use super::Interrupted;
use crate::record::entry::{Content, Entry, EntryFault, Signed};
use crate::record::seal::Seal;
use crate::record::signature::{KeyId, PublicKey};

/// So many entries of a strand are looked at together at first: the keys that they bring are known for the next ones only…
const FEW: usize = 32;
/// …and so many later on. Our default: some megabytes.
const MANY: usize = 2_048;

/// Keys by their fingerprints, whoever they belong to and whether or not they may be used.
#[derive(Clone, Debug, Default)]
pub struct KeyRing(BTreeMap<KeyId, PublicKey>);

impl KeyRing {
    /// No keys yet.
    #[must_use]
    pub fn new() -> KeyRing {
        KeyRing::default()
    }

    /// Adds the key that an entry brings, if it brings one.
    pub fn take(&mut self, entry: &Entry) {
        let key = match entry.signed() {
            Some((Signed::Founded(founded), _)) => founded.key,
            Some((Signed::KeyIssued(issued), _)) => issued.key,
            _ => return,
        };
        self.0.insert(key.id(), key);
    }
}

/// Stored bytes that were looked at by themselves.
#[derive(Clone, Debug)]
pub struct Looked {
    pub(super) seal: Seal,
    pub(super) read: Result<Entry, EntryFault>,
    /// The key under which the signature was verified, and whether it held; none where nobody signed, or the key was not at hand.
    verified: Option<(PublicKey, bool)>,
}

impl Looked {
    /// Looks at the bytes of an entry. Its signature is verified where the key that it names is on the ring, or brought by itself.
    #[must_use]
    pub fn at(bytes: &[u8], ring: &KeyRing) -> Looked {
        let read = Entry::read(bytes);
        let seal = match &read {
            Ok(entry) => entry.seal(),
            Err(_) => Seal::of(bytes),
        };
        let verified = read.as_ref().ok().and_then(|entry| {
            let Content::Signed {
                fact,
                signing,
                signature,
            } = entry.content()
            else {
                return None;
            };
            let key = match fact {
                Signed::Founded(founded) if founded.key.id() == signing.key => founded.key,
                _ => *ring.0.get(&signing.key)?,
            };
            let signed = Entry::signed_part(bytes)?;
            Some((key, key.verifies(signed, signature)))
        });
        Looked {
            seal,
            read,
            verified,
        }
    }

    /// The fingerprint of the key under which the signature was verified, and whether it held.
    #[cfg(test)]
    pub(super) fn verified_under(&self) -> Option<(KeyId, bool)> {
        self.verified.as_ref().map(|(key, held)| (key.id(), *held))
    }

    /// The entry, where the bytes are one.
    pub(super) fn entry(&self) -> Option<&Entry> {
        self.read.as_ref().ok()
    }

    /// Whether the signature is one of this key. Verified here where that has not been done.
    pub(super) fn is_signed_with(&self, key: &PublicKey) -> bool {
        match (&self.verified, &self.read) {
            (Some((known, held)), _) if known == key => *held,
            (_, Ok(entry)) => match (entry.content(), entry.signed_bytes()) {
                (Content::Signed { signature, .. }, Some(bytes)) => key.verifies(&bytes, signature),
                _ => false,
            },
            (_, Err(_)) => false,
        }
    }
}

/// Who does a piece of work that has many parts: an edge may have several threads for it.
pub trait Hands {
    /// Calls `one` with every number below `count`, each once, in any order, and returns when all is done. Calls `beside` once, meanwhile.
    fn each(&self, count: usize, one: &(dyn Fn(usize) + Sync), beside: &mut dyn FnMut());
}

/// One after the other.
#[derive(Clone, Copy, Debug, Default)]
pub struct OneHand;

impl Hands for OneHand {
    fn each(&self, count: usize, one: &(dyn Fn(usize) + Sync), beside: &mut dyn FnMut()) {
        beside();
        (0..count).for_each(one);
    }
}

/// Where entries are looked at, in bundles, before they take their turn.
pub(super) struct Desk<'a> {
    hands: &'a dyn Hands,
    ring: KeyRing,
    /// How many entries have been looked at.
    passed: u64,
    tell: &'a mut dyn FnMut(u64) -> ControlFlow<()>,
    /// Not set in tests that do everything in its turn.
    keeps_keys: bool,
}

impl<'a> Desk<'a> {
    pub(super) fn new(
        hands: &'a dyn Hands,
        tell: &'a mut dyn FnMut(u64) -> ControlFlow<()>,
    ) -> Desk<'a> {
        Desk {
            hands,
            ring: KeyRing::new(),
            passed: 0,
            tell,
            keeps_keys: true,
        }
    }

    /// A desk at which no key is ever known, so that every signature is verified in its turn.
    #[cfg(test)]
    pub(super) fn without_keys(self) -> Desk<'a> {
        Desk {
            keeps_keys: false,
            ..self
        }
    }

    /// How many entries are looked at together, where that many have been already.
    pub(super) fn bundle(seen: u64) -> usize {
        usize::try_from(seen).unwrap_or(MANY).clamp(FEW, MANY)
    }

    /// Looks at some entries. `beside` is called meanwhile.
    #[expect(
        clippy::vec_box,
        reason = "each is handed on several times, and eight bytes are moved quicker than a thousand"
    )]
    pub(super) fn look(
        &mut self,
        bundle: &[Vec<u8>],
        beside: &mut dyn FnMut(),
    ) -> Result<Vec<Box<Looked>>, Interrupted> {
        let slots: Vec<OnceLock<Box<Looked>>> = bundle.iter().map(|_| OnceLock::new()).collect();
        let ring = &self.ring;
        let one = |at: usize| {
            if let (Some(bytes), Some(slot)) = (bundle.get(at), slots.get(at)) {
                slot.get_or_init(|| Box::new(Looked::at(bytes, ring)));
            }
        };
        self.hands.each(bundle.len(), &one, beside);
        // What a hand left out is done here: nothing passes that nobody looked at.
        let looked = slots.into_iter().zip(bundle).map(|(slot, bytes)| {
            let done = slot.into_inner();
            done.unwrap_or_else(|| Box::new(Looked::at(bytes, ring)))
        });
        let looked: Vec<Box<Looked>> = looked.collect();
        if self.keeps_keys {
            let entries = looked.iter().filter_map(|looked| looked.entry());
            entries.for_each(|entry| self.ring.take(entry));
        }
        self.passed += looked.len() as u64;
        match (self.tell)(self.passed) {
            ControlFlow::Continue(()) => Ok(looked),
            ControlFlow::Break(()) => Err(Interrupted::Stopped),
        }
    }
}
