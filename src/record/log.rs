//! What a store has to be able to do, and a strict one in memory.

use std::collections::BTreeMap;

use super::entry::Entry;
use super::scope::Id;
use super::seal::Seal;
use super::strand::{Head, Strands};

/// A place where entries are kept. It knows strands, numbers and bytes, and no rules.
pub trait Log {
    /// The head of a strand; none while it is empty.
    ///
    /// # Errors
    ///
    /// The log cannot be read.
    fn head(&self, strand: &Id) -> Result<Option<Head>, Trouble>;

    /// Appends an entry to its strand, if the head of the strand is still the one that is expected.
    fn append(&mut self, expected: Option<&Head>, entry: &Entry) -> Appended;

    /// The names of all strands, in order.
    ///
    /// # Errors
    ///
    /// The log cannot be read.
    fn strands(&self) -> Result<Vec<Id>, Trouble>;

    /// The stored bytes of a strand from a number on, one entry after the other.
    ///
    /// # Errors
    ///
    /// The log cannot be read.
    fn entries(
        &self,
        strand: &Id,
        from: u64,
    ) -> Result<Box<dyn Iterator<Item = Vec<u8>> + '_>, Trouble>;
}

/// What became of an entry.
#[derive(Clone, Debug, PartialEq, Eq)]
#[must_use]
pub enum Appended {
    /// It is stored, whatever happens from now on.
    Stored,
    /// It is not stored.
    NotStored(WhyNot),
    /// Nobody can tell: a failed COMMIT may have been carried out. Look at the head: an entry is known by its seal.
    Unknown,
}

/// Why an entry is not stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// Another entry came first. Holds the head as it is now.
    HeadMoved(Option<Head>),
    /// The entry does not follow the head that it was made for.
    OutOfLine,
    /// The log cannot be written.
    Trouble(Trouble),
}

/// What can be wrong with a log.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// There is no room.
    Full,
    /// It may be read only.
    ReadOnly,
    /// It cannot be reached.
    Unreachable,
    /// What was read is damaged.
    Damaged,
    /// A newer program wrote it. Holds its format.
    Newer(u32),
}

/// A log in memory. Refuses everything that any store may refuse.
#[derive(Clone, Debug, Default)]
pub struct MemoryLog {
    strands: BTreeMap<Id, (Head, Vec<Vec<u8>>)>,
}

impl MemoryLog {
    /// An empty log.
    #[must_use]
    pub fn new() -> MemoryLog {
        MemoryLog::default()
    }

    /// Everything that is in it.
    #[must_use]
    pub fn copy(&self) -> Strands {
        let of = |(strand, (_, entries)): (&Id, &(Head, Vec<Vec<u8>>))| {
            (strand.clone(), entries.clone())
        };
        self.strands.iter().map(of).collect()
    }
}

impl Log for MemoryLog {
    fn head(&self, strand: &Id) -> Result<Option<Head>, Trouble> {
        Ok(self.strands.get(strand).map(|(head, _)| *head))
    }

    fn append(&mut self, expected: Option<&Head>, entry: &Entry) -> Appended {
        let frame = entry.frame();
        let now = self.strands.get(&frame.strand).map(|(head, _)| *head);
        if now.as_ref() != expected {
            return Appended::NotStored(WhyNot::HeadMoved(now));
        }
        let (number, previous) = now.map_or((1, Seal::NONE), |head| (head.number + 1, head.seal));
        if frame.number != number || frame.previous != previous {
            return Appended::NotStored(WhyNot::OutOfLine);
        }
        let strand = self.strands.entry(frame.strand.clone());
        let (head, entries) = strand.or_insert_with(|| (entry.head(), Vec::new()));
        *head = entry.head();
        entries.push(entry.bytes());
        Appended::Stored
    }

    fn strands(&self) -> Result<Vec<Id>, Trouble> {
        Ok(self.strands.keys().cloned().collect())
    }

    fn entries(
        &self,
        strand: &Id,
        from: u64,
    ) -> Result<Box<dyn Iterator<Item = Vec<u8>> + '_>, Trouble> {
        let skipped = usize::try_from(from.saturating_sub(1)).unwrap_or(usize::MAX);
        let entries = self.strands.get(strand).into_iter();
        Ok(Box::new(
            entries
                .flat_map(|(_, entries)| entries)
                .skip(skipped)
                .cloned(),
        ))
    }
}
