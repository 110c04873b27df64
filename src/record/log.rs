//! What a store has to be able to do, and a strict one in memory.

use std::collections::BTreeMap;

use super::entry::Entry;
use super::scope::Id;
use super::seal::Seal;
use super::strand::{Head, Strands};

/// Stored bytes, one entry after the other. A fault of the log on the way is the last that comes.
pub type Stream<'a> = Box<dyn Iterator<Item = Result<Vec<u8>, Trouble>> + 'a>;

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

    /// The stored entries of a strand from a number on, read as they are asked for.
    fn entries(&self, strand: &Id, from: u64) -> Stream<'_>;

    /// Every strand with all its entries, as far as the log went at one instant: an entry whose strand is there finds
    /// whatever it names. Others may go on writing.
    ///
    /// # Errors
    ///
    /// The log cannot be read.
    fn everything(&self) -> Result<Vec<(Id, Stream<'_>)>, Trouble>;
}

/// Strands in memory as streams, in which nothing can go wrong.
#[must_use]
pub fn streams(strands: &Strands) -> Vec<(Id, Stream<'_>)> {
    let strands = strands.iter();
    strands
        .map(|(strand, entries)| (strand.clone(), stream(entries)))
        .collect()
}

fn stream(entries: &[Vec<u8>]) -> Stream<'_> {
    Box::new(entries.iter().cloned().map(Ok))
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

    fn entries(&self, strand: &Id, from: u64) -> Stream<'_> {
        let skipped = usize::try_from(from.saturating_sub(1)).unwrap_or(usize::MAX);
        let entries = self.strands.get(strand);
        stream(entries.map_or(&[], |(_, entries)| entries.get(skipped..).unwrap_or(&[])))
    }

    fn everything(&self) -> Result<Vec<(Id, Stream<'_>)>, Trouble> {
        let strands = self.strands.iter();
        Ok(strands
            .map(|(strand, (_, entries))| (strand.clone(), stream(entries)))
            .collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::entry::BackupMade;
    use crate::record::scribe::{Scribe, digest, id};

    fn backups(strand: &str, count: usize) -> Vec<Entry> {
        let mut scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
        scribe.on_strand(strand);
        for number in 0..count {
            let copy = digest(&format!("{strand} {number}"));
            scribe.note(BackupMade { copy });
        }
        scribe.entries.split_off(1)
    }

    #[test]
    fn an_entry_is_stored_behind_the_head_that_it_was_made_for() {
        let entries = backups("bench", 3);
        let mut log = MemoryLog::new();
        let mut head = None;
        for entry in &entries {
            assert_eq!(log.append(head.as_ref(), entry), Appended::Stored);
            head = log.head(&id("bench")).unwrap();
            assert_eq!(head, Some(entry.head()));
        }
        assert_eq!(log.strands(), Ok(vec![id("bench")]));
        let from_second: Vec<Vec<u8>> = log.entries(&id("bench"), 2).map(Result::unwrap).collect();
        assert_eq!(from_second, [entries[1].bytes(), entries[2].bytes()]);
        assert_eq!(log.copy()[&id("bench")].len(), 3);
    }

    #[test]
    fn of_two_writers_the_second_is_told_that_the_head_moved() {
        let entries = backups("bench", 2);
        let mut log = MemoryLog::new();
        assert_eq!(log.append(None, &entries[0]), Appended::Stored);
        let moved = Appended::NotStored(WhyNot::HeadMoved(Some(entries[0].head())));
        assert_eq!(log.append(None, &entries[0]), moved);
        let ahead = entries[1].head();
        assert_eq!(log.append(Some(&ahead), &entries[1]), moved);
        assert_eq!(
            log.copy()[&id("bench")].len(),
            1,
            "what is refused changes nothing"
        );
    }

    #[test]
    fn an_entry_out_of_line_is_refused_whatever_head_is_named() {
        let entries = backups("bench", 3);
        let mut log = MemoryLog::new();
        assert_eq!(
            log.append(None, &entries[1]),
            Appended::NotStored(WhyNot::OutOfLine)
        );
        assert_eq!(log.append(None, &entries[0]), Appended::Stored);
        let head = entries[0].head();
        assert_eq!(
            log.append(Some(&head), &entries[2]),
            Appended::NotStored(WhyNot::OutOfLine)
        );
    }
}
