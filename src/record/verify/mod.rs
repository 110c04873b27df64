//! Verification: everything that can be known about stored entries without trusting whoever kept them.
//!
//! Entries stream through once, each looked at by itself first; besides who is here, what is kept of each is 16 bytes of its seal. Faults are handed on as they are found. The
//! result says what was checked, and what cannot be shown by any check of this kind.

mod lane;
mod look;

use std::ops::ControlFlow;

use super::authority::{AuthorityFault, Staff, next};
use super::entry::{Entry, EntryFault, Signed};
use super::log::Trouble;
use super::scope::Id;
use super::seal::Seal;
use super::tree::Root;
use lane::Lane;
use look::Desk;

pub use look::{Hands, KeyRing, Looked, OneHand};

/// What verification knows from elsewhere.
#[derive(Clone, Copy, Debug, Default)]
pub struct Known<'a> {
    /// Heads that were remembered outside the log: strand, number, seal.
    pub heads: &'a [(Id, u64, Seal)],
    /// Roots that left the house, on paper or by mail.
    pub checkpoints: &'a [(Id, Root)],
    /// By how many seconds something may have happened later than it was recorded. Not 0 only for what was imported.
    pub ahead_seconds: i64,
}

/// A fault and where it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bad {
    /// The strand.
    pub strand: Id,
    /// The number in the strand.
    pub number: u64,
    /// What is wrong.
    pub fault: Fault,
}

/// What can be wrong with a stored entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The bytes are no entry.
    Unreadable(EntryFault),
    /// Entries are missing, from this number to that one.
    Missing(u64),
    /// An entry stands where it does not belong. Holds the strand and number that it says.
    Misplaced(Id, u64),
    /// It holds another seal of the entry before than that has.
    PreviousDiffers,
    /// It is not what was sealed: the entry after it holds another seal.
    Altered,
    /// The signature is not that of the key that it names.
    Signature,
    /// Whoever made it had no right to, or it names what is not there.
    Authority(AuthorityFault),
    /// It was recorded before the entry ahead of it, and does not say that the clock was set back.
    ClockWentBack,
    /// It happened later than it was recorded.
    DatedAhead,
    /// The strand ends before the remembered head. Holds the number of that head.
    CutOff(u64),
    /// The entry at the remembered head is another.
    HeadDiffers,
    /// The root over the strand up to here is not the one that left the house.
    CheckpointDiffers,
}

/// What no check of this kind can show. Every report prints those that apply.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Limit {
    /// No head of the strand is remembered elsewhere: its newest entries could have been cut off.
    NoHead(Id),
    /// No root of the strand left the house: whoever has all keys could have rewritten it.
    NoCheckpoint(Id),
    /// A restore was declared: entries of the strand up to this number are lost.
    Restored(Id, u64),
    /// What was entered properly can still be untrue; it can only be attributed.
    UntrueButEntered,
    /// The order within a strand is proved, the clock of a workstation is not.
    ClockOfMachine,
}

/// What was checked of a strand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StrandChecked {
    /// The strand.
    pub strand: Id,
    /// How many entries there are.
    pub entries: u64,
    /// The root over them.
    pub root: Root,
    /// Number and seal of the last one that was in its place.
    pub last: Option<(u64, Seal)>,
    /// The first number at which something is wrong.
    pub first_bad: Option<u64>,
}

/// What was checked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// Strand by strand.
    pub strands: Vec<StrandChecked>,
    /// How many signatures were verified.
    pub signatures: u64,
    /// How many faults were found.
    pub faults: u64,
    /// What cannot be shown.
    pub limits: Vec<Limit>,
}

/// Why there is no result. Nothing can be said of the record then, whatever was found up to there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Interrupted {
    /// The store could not be read to its end.
    Trouble(Trouble),
    /// Whoever waited for it wants no more of it.
    Stopped,
}

impl From<Trouble> for Interrupted {
    fn from(trouble: Trouble) -> Interrupted {
        Interrupted::Trouble(trouble)
    }
}

/// Goes through every strand and hands on each fault. Each strand's entries come in their stored order, as from
/// [`Log::everything`](super::log::Log::everything).
///
/// The hands look at entries by themselves; who does that makes no difference to what is found. `passed` is told, now and then, how many entries
/// have been looked at, and can stop it all.
///
/// # Errors
///
/// The store could not be read to its end, or it was stopped.
pub fn verify<I>(
    strands: impl IntoIterator<Item = (Id, I)>,
    known: Known<'_>,
    hands: &dyn Hands,
    found: &mut dyn FnMut(Bad),
    passed: &mut dyn FnMut(u64) -> ControlFlow<()>,
) -> Result<Checked, Interrupted>
where
    I: Iterator<Item = Result<Vec<u8>, Trouble>>,
{
    go_through(strands, known, Desk::new(hands, passed), found)
}

fn go_through<I>(
    strands: impl IntoIterator<Item = (Id, I)>,
    known: Known<'_>,
    mut desk: Desk<'_>,
    found: &mut dyn FnMut(Bad),
) -> Result<Checked, Interrupted>
where
    I: Iterator<Item = Result<Vec<u8>, Trouble>>,
{
    let lanes = strands.into_iter();
    let mut lanes: Vec<Lane<'_, I>> = lanes
        .map(|(strand, entries)| Lane::new(strand, entries, known))
        .collect();
    let mut run = Run {
        staff: Staff::new(),
        ahead_seconds: known.ahead_seconds,
        signatures: 0,
        restored: Vec::new(),
    };
    let mut faults = 0;
    let mut tell = |bad: Bad| {
        faults += 1;
        found(bad);
    };
    loop {
        let mut bundle = Vec::new();
        let mut shares = Vec::with_capacity(lanes.len());
        for lane in &mut lanes {
            let share = lane.bundle()?;
            shares.push(share.len());
            bundle.extend(share);
        }
        if bundle.is_empty() {
            take_turns(&mut lanes, &mut run, &mut tell);
            if lanes.iter().all(Lane::is_done) {
                break;
            }
            continue;
        }
        // While these are looked at, the next ones are read, and those that were looked at before take their turns.
        let mut beside = || {
            lanes.iter_mut().for_each(Lane::read_on);
            take_turns(&mut lanes, &mut run, &mut tell);
        };
        let mut looked = desk.look(&bundle, &mut beside)?;
        for (lane, share) in lanes.iter_mut().zip(shares) {
            lane.line_up(looked.drain(..share));
        }
    }
    let mut limits = vec![Limit::UntrueButEntered, Limit::ClockOfMachine];
    for (strand, number, _) in known.heads {
        if !lanes.iter().any(|lane| lane.strand == *strand) {
            let fault = Fault::CutOff(*number);
            let strand = strand.clone();
            tell(Bad {
                strand,
                number: 1,
                fault,
            });
        }
    }
    let ended: Vec<StrandChecked> = lanes
        .into_iter()
        .map(|lane| lane.end(&run.restored, &mut limits, &mut tell))
        .collect();
    // Said as long as the record stands: what is remembered elsewhere goes on from the restore, and no longer shows what was lost.
    let declared = run.restored.into_iter();
    limits.extend(declared.map(|(strand, number, _)| Limit::Restored(strand, number)));
    Ok(Checked {
        strands: ended,
        signatures: run.signatures,
        faults,
        limits,
    })
}

/// Lets entries take their turns, as long as every strand has its next one at hand.
fn take_turns<I>(lanes: &mut [Lane<'_, I>], run: &mut Run, tell: &mut dyn FnMut(Bad))
where
    I: Iterator<Item = Result<Vec<u8>, Trouble>>,
{
    while lanes.iter_mut().all(|lane| lane.settle(tell)) {
        let candidates = lanes.iter().enumerate();
        let candidates = candidates.filter_map(|(at, lane)| Some((at, lane.entry()?)));
        let Some(at) = next(&run.staff, candidates) else {
            return;
        };
        lanes[at].advance(run, tell);
    }
}

/// What is known while entries go by.
struct Run {
    staff: Staff,
    ahead_seconds: i64,
    signatures: u64,
    /// Restores that were declared: strand, number and seal of what is lost.
    restored: Vec<(Id, u64, Seal)>,
}

impl Run {
    /// What is wrong with an entry by itself; learns it where nothing is.
    fn judge(&mut self, looked: &Looked, entry: &Entry) -> Vec<Fault> {
        let mut faults = Vec::new();
        let frame = entry.frame();
        let latest = frame.recorded.instant().plus_seconds(self.ahead_seconds);
        if frame.happened.instant() > latest {
            faults.push(Fault::DatedAhead);
        }
        // A key that is not known is the trouble, not the signature that nobody can verify.
        let authority = self.staff.check(entry);
        if let Some((fact, signing)) = entry.signed() {
            self.signatures += 1;
            let unknown = matches!(
                authority,
                Err(AuthorityFault::UnknownKey(_)
                    | AuthorityFault::FoundedAgain
                    | AuthorityFault::NotFounded)
            );
            let key = self.staff.key_for(fact, signing);
            let holds = || key.is_some_and(|key| looked.is_signed_with(&key));
            if !unknown && !holds() {
                faults.push(Fault::Signature);
                return faults;
            }
        }
        match authority {
            Ok(()) => {
                self.staff.learn(entry);
                if let Some((Signed::Restored(lost), _)) = entry.signed() {
                    let lost = (lost.lost_strand.clone(), lost.lost_number, lost.lost_seal);
                    self.restored.push(lost);
                }
            }
            Err(fault) => faults.push(Fault::Authority(fault)),
        }
        faults
    }
}

#[cfg(test)]
mod tests;
