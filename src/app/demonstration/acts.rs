//! What can happen in the demonstration's story.

use super::cast::{Who, Work};
use crate::record::entry::{Ending, Help, Impact, Stage};
use crate::units::{Day, Stamp};

/// How an observed run is to go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Went {
    Clean,
    Prompted,
    Failed,
}

/// One thing that somebody does.
#[derive(Clone, Copy, Debug)]
pub(super) enum Act {
    /// Joins, is given a key and signs that it binds.
    Join(Who),
    Policy,
    /// Adopted by the quality person, approved by the owner.
    Adopt(Work, Impact, Day),
    Assign(Who, Work, Who),
    Read(Who, Work),
    Train(Who, Work, Who),
    Protect(Who, Work, Who),
    Drill(Who, Work, &'static str),
    Rehearse(Who, Work, Help, Ending),
    /// Signed off as one of the first who can assess, from a day on.
    Begin(Who, Work, Day),
    /// Until a day.
    Supervise(Who, Work, Who, Day),
    Case(Who, Work, Who, bool),
    Observe(Who, Work, Who, Went),
    /// Written down from paper; it happened at this time.
    ObserveLate(Who, Work, Who, Went, Stamp),
    Evaluate(Who, Work, Who, Stage),
    SignOff(Who, Work, Who),
    Suspend(Who, Work),
    Reinstate(Who, Work, Who),
    Withdraw(Who, Work),
    CallIn(Who, Work),
    Leave(Who),
    /// The key is lost, another is issued and approved by a second person.
    ReplaceKey(Who),
    /// Twice the wrong passphrase, then the right one.
    Mistype(Who),
    /// The newest checked case of the person had another number; the supervisor puts it right.
    CorrectCase(Who, Who),
    /// The newest observation of the person names the wrong case; corrected by its assessor, approved by the quality person.
    CorrectObserved(Who),
    /// The newest checked case of the person was another person's; the supervisor voids it.
    VoidCase(Who, Who),
    Review,
    Backup,
    TryBackup,
}

/// An act with the minute at which it begins.
pub(super) type Planned = (Stamp, Act);
