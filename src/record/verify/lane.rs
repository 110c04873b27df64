//! One strand on its way through verification: sequence, chain, tree, remembered heads.

use std::collections::VecDeque;
use std::iter::Fuse;

use super::look::{Desk, Looked};
use super::{Bad, Fault, Known, Limit, Run, StrandChecked};
use crate::record::entry::Entry;
use crate::record::log::Trouble;
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::record::tree::{Growing, Root};
use crate::units::Instant;

/// The last entry that stood in its place.
struct Last {
    number: u64,
    seal: Seal,
    recorded: Option<Instant>,
    blamed: bool,
}

pub(super) struct Lane<'a, I> {
    pub(super) strand: Id,
    entries: Fuse<I>,
    known: Known<'a>,
    /// The next entries, already looked at.
    ahead: VecDeque<Box<Looked>>,
    /// How many have been looked at, those that are through among them.
    looked: u64,
    /// What has been read beyond those.
    next: Option<Result<Vec<Vec<u8>>, Trouble>>,
    /// Set when all has been read.
    ended: bool,
    last: Option<Last>,
    /// Set where entries are missing, so that the chain cannot be followed.
    gap: bool,
    tree: Growing,
    first_bad: Option<u64>,
}

impl<'a, I: Iterator<Item = Result<Vec<u8>, Trouble>>> Lane<'a, I> {
    pub(super) fn new(strand: Id, entries: I, known: Known<'a>) -> Lane<'a, I> {
        Lane {
            strand,
            entries: entries.fuse(),
            known,
            ahead: VecDeque::new(),
            looked: 0,
            next: None,
            ended: false,
            last: None,
            gap: false,
            tree: Growing::new(),
            first_bad: None,
        }
    }

    /// The next entries to be looked at; none where enough are at hand, or all have been read.
    pub(super) fn bundle(&mut self) -> Result<Vec<Vec<u8>>, Trouble> {
        // One bundle takes its turns while the next one is looked at.
        if self.ended || self.ahead.len() >= 2 * Desk::bundle(self.looked) {
            return Ok(Vec::new());
        }
        self.read_on();
        let bundle = self.next.take().unwrap_or(Ok(Vec::new()))?;
        self.ended = bundle.is_empty();
        Ok(bundle)
    }

    /// Reads what is to be looked at next, where that has not been done.
    pub(super) fn read_on(&mut self) {
        if self.ended || self.next.is_some() {
            return;
        }
        let most = Desk::bundle(self.looked);
        self.next = Some(self.entries.by_ref().take(most).collect());
    }

    /// Puts entries that were looked at behind those that are there.
    pub(super) fn line_up(&mut self, looked: impl Iterator<Item = Box<Looked>>) {
        let before = self.ahead.len();
        self.ahead.extend(looked);
        self.looked += (self.ahead.len() - before) as u64;
    }

    /// Whether every entry is through.
    pub(super) fn is_done(&self) -> bool {
        self.ended && self.ahead.is_empty()
    }

    fn expected(&self) -> u64 {
        self.last.as_ref().map_or(1, |last| last.number + 1)
    }

    fn tell(&mut self, number: u64, fault: Fault, tell: &mut dyn FnMut(Bad)) {
        let first = self.first_bad.map_or(number, |first| first.min(number));
        self.first_bad = Some(first);
        tell(Bad {
            strand: self.strand.clone(),
            number,
            fault,
        });
    }

    fn take(&mut self) -> Option<Box<Looked>> {
        let item = self.ahead.pop_front()?;
        self.tree.push(item.seal);
        Some(item)
    }

    /// The next entry that stands in its place.
    pub(super) fn entry(&self) -> Option<&Entry> {
        self.ahead.front()?.entry()
    }

    /// Takes away what is no entry or does not belong here, until the next one stands in its place. Returns whether it got that far:
    /// two have to be at hand to tell which of neighbours was altered.
    pub(super) fn settle(&mut self, tell: &mut dyn FnMut(Bad)) -> bool {
        while self.ended || self.ahead.len() >= 2 {
            let Some(item) = self.ahead.front() else {
                return true;
            };
            let expected = self.expected();
            match &item.read {
                Err(fault) => {
                    let fault = fault.clone();
                    // Something was put in between where the next entry has the number that is expected here.
                    let put_in = self.ahead.get(1).is_some_and(|next| {
                        let next = next.read.as_ref();
                        next.is_ok_and(|next| next.frame().number == expected)
                    });
                    self.tell(expected, Fault::Unreadable(fault), tell);
                    let taken = self.take();
                    if let (false, Some(taken)) = (put_in, taken) {
                        self.last = Some(Last {
                            number: expected,
                            seal: taken.seal,
                            recorded: self.last.as_ref().and_then(|last| last.recorded),
                            blamed: true,
                        });
                        self.compare(expected, taken.seal, tell);
                    }
                }
                Ok(entry) => {
                    let frame = entry.frame();
                    let (strand, number, previous) =
                        (frame.strand.clone(), frame.number, frame.previous);
                    if strand != self.strand || number < expected {
                        let at = if strand == self.strand {
                            number
                        } else {
                            expected
                        };
                        self.tell(at, Fault::Misplaced(strand, number), tell);
                        drop(self.take());
                        continue;
                    }
                    if number > expected {
                        self.tell(expected, Fault::Missing(number - 1), tell);
                        self.gap = true;
                        self.last = Some(Last {
                            number: number - 1,
                            seal: previous,
                            recorded: self.last.as_ref().and_then(|last| last.recorded),
                            blamed: true,
                        });
                    }
                    return true;
                }
            }
        }
        false
    }

    /// Takes the next entry and says what is wrong with it.
    pub(super) fn advance(&mut self, run: &mut Run, tell: &mut dyn FnMut(Bad)) {
        let Some(looked) = self.take() else {
            return;
        };
        let (seal, Some(entry)) = (looked.seal, looked.entry()) else {
            return;
        };
        let frame = entry.frame();
        let number = frame.number;
        let mut faults = run.judge(&looked, entry);
        let signed_well = entry.signed().is_some() && !faults.contains(&Fault::Signature);
        let (before, recorded_before, before_blamed) = match &self.last {
            Some(last) => (last.seal, last.recorded, last.blamed),
            None => (Seal::NONE, None, true),
        };
        if !self.gap && frame.previous != before {
            let innocent = signed_well || self.follower_agrees(number, seal);
            if innocent && !before_blamed {
                self.tell(number - 1, Fault::Altered, tell);
            }
            faults.insert(0, Fault::PreviousDiffers);
        }
        self.gap = false;
        let recorded = frame.recorded.instant();
        let went_back = recorded_before.is_some_and(|before| recorded < before);
        if went_back && frame.clock_set_back != Some(true) {
            faults.push(Fault::ClockWentBack);
        }
        let blamed = !faults.is_empty();
        for fault in faults {
            self.tell(number, fault, tell);
        }
        self.last = Some(Last {
            number,
            seal,
            recorded: Some(recorded),
            blamed,
        });
        self.compare(number, seal, tell);
    }

    /// Tells whether what comes next, or a remembered head, holds the seal that this entry has.
    fn follower_agrees(&self, number: u64, seal: Seal) -> bool {
        let head = self.heads().find(|(known, _)| *known == number);
        match (self.ahead.front(), head) {
            (Some(next), _) => next
                .read
                .as_ref()
                .is_ok_and(|next| next.frame().previous == seal),
            (None, Some((_, known))) => known == seal,
            // Nothing speaks for either. The one that would have to be changed without a trace is the earlier one.
            (None, None) => true,
        }
    }

    fn heads(&self) -> impl Iterator<Item = (u64, Seal)> + '_ {
        let own = self
            .known
            .heads
            .iter()
            .filter(|(strand, ..)| *strand == self.strand);
        own.map(|(_, number, seal)| (*number, *seal))
    }

    fn checkpoints(&self) -> impl Iterator<Item = Root> + '_ {
        let own = self.known.checkpoints.iter();
        own.filter(|(strand, _)| *strand == self.strand)
            .map(|(_, root)| *root)
    }

    /// Compares what is remembered elsewhere about this place.
    fn compare(&mut self, number: u64, seal: Seal, tell: &mut dyn FnMut(Bad)) {
        if self
            .heads()
            .any(|(known, other)| known == number && other != seal)
        {
            self.tell(number, Fault::HeadDiffers, tell);
        }
        let mut here = self.checkpoints().filter(|known| known.size == number);
        let differs = here.any(|known| known != self.tree.root());
        drop(here);
        if differs {
            self.tell(number, Fault::CheckpointDiffers, tell);
        }
    }

    pub(super) fn end(
        mut self,
        restored: &[(Id, u64, Seal)],
        limits: &mut Vec<Limit>,
        tell: &mut dyn FnMut(Bad),
    ) -> StrandChecked {
        let length = self.expected() - 1;
        let beyond = self
            .heads()
            .filter(|(number, _)| *number > length)
            .max_by_key(|head| head.0);
        if let Some((number, seal)) = beyond {
            let lost = (self.strand.clone(), number, seal);
            if !restored.contains(&lost) {
                self.tell(length + 1, Fault::CutOff(number), tell);
            }
        }
        let further = self
            .checkpoints()
            .map(|root| root.size)
            .filter(|size| *size > length)
            .max();
        if let (Some(size), None) = (further, beyond) {
            self.tell(length + 1, Fault::CutOff(size), tell);
        }
        if self.heads().next().is_none() {
            limits.push(Limit::NoHead(self.strand.clone()));
        }
        if self.checkpoints().next().is_none() {
            limits.push(Limit::NoCheckpoint(self.strand.clone()));
        }
        let root = self.tree.root();
        StrandChecked {
            entries: root.size,
            root,
            last: self.last.map(|last| (last.number, last.seal)),
            first_bad: self.first_bad,
            strand: self.strand,
        }
    }
}
