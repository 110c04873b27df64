//! Steps: order, needs, time, manners, and what happens when they go wrong.

use super::{Name, Origin, Severity};
use crate::syllabus::operation::Operation;
use crate::units::Millis;

/// One step.
#[derive(Clone, Debug)]
pub struct Step {
    /// Its id.
    pub id: Name,
    /// Its title, as an instruction.
    pub title: String,
    /// The stage it came from, if any.
    pub stage: Option<Stage>,
    /// The station it is done at.
    pub at: Name,
    /// The repeats it is done for (empty: once).
    pub each: Vec<Name>,
    /// What must be done before.
    pub after: Vec<After>,
    /// What must be true when it starts.
    pub needs: Vec<Condition>,
    /// What is true when it is done.
    pub makes: Vec<Condition>,
    /// What a real bench would refuse: the step cannot be done at all while one of these holds at one of its places.
    pub refused_if: Vec<Condition>,
    /// Required, or free to be left out.
    pub optional: bool,
    /// Whether a person stays with it.
    pub attended: bool,
    /// Whether it may be done again without a finding.
    pub again: bool,
    /// How long its handling takes. For a timed step this is added before the timed part.
    pub takes: Millis,
    /// How its time is kept, if it is timed.
    pub keeping: Option<Keeping>,
    /// The manners in which it can be done.
    pub ways: Vec<Way>,
    /// What it does to the bench.
    pub does: Vec<Operation>,
    /// Whether leaving it out fails the run by itself.
    pub critical: bool,
    /// The step it is pointless without: left out together, leaving out that one is the root.
    pub goes_with: Option<Name>,
    /// Why it is done.
    pub why: String,
    /// What good looks like.
    pub good: String,
    /// Tools, by generic name.
    pub tools: Vec<String>,
    /// Ids of hazards of the shared list.
    pub hazards: Vec<Name>,
    /// What happens when it goes wrong.
    pub errors: StepErrors,
    /// Where its numbers come from.
    pub origin: Option<Origin>,
}

/// The stage that a step came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stage {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
}

/// A step that must be done before.
#[derive(Clone, Debug)]
pub struct After {
    /// Which step.
    pub step: Name,
    /// Whether all its places must be done, also those that do not overlap.
    pub all: bool,
}

/// A condition on one aspect.
#[derive(Clone, Debug)]
pub struct Condition {
    /// Which aspect.
    pub aspect: Name,
    /// The values that satisfy it (at least one), or, if `negated`, those that do not.
    pub values: Vec<Name>,
    /// Turns the condition round (`not cured`).
    pub negated: bool,
}

/// How a timed step's time is kept in reality, with its limits.
#[derive(Clone, Debug)]
pub enum Keeping {
    /// A machine's timer is set.
    Timer(TimeWindow),
    /// It is counted in the head.
    Count(TimeWindow),
    /// A sign is watched for.
    Watch {
        /// The sign: an aspect value that the bench decides.
        sign: Condition,
        /// How soon after the sign it must end.
        within: Millis,
        /// What to expect, for the read-through (never a rule).
        expect: Option<(Millis, Millis)>,
    },
    /// It goes on until it looks right.
    Judge {
        /// What it must look like.
        until: Vec<Condition>,
        /// How much one more portion takes.
        portion: Millis,
    },
}

/// Target and limits of a timed step, with what the case card adds.
#[derive(Clone, Debug)]
pub struct TimeWindow {
    /// What to aim at.
    pub target: Millis,
    /// The least that is allowed.
    pub least: Millis,
    /// The most that is allowed.
    pub most: Millis,
    /// What the case card changes.
    pub changes: Vec<TimeChange>,
    /// Where the numbers come from.
    pub origin: Option<Origin>,
}

/// A change of a window for some case cards.
#[derive(Clone, Debug)]
pub struct TimeChange {
    /// The case choice.
    pub choice: Name,
    /// The value for which it applies.
    pub value: Name,
    /// What is added to target, least and most.
    pub add: Option<Millis>,
    /// What replaces target, least and most (target, least, most).
    pub replace: Option<(Millis, Millis, Millis)>,
}

/// One manner in which a step can be done.
#[derive(Clone, Debug)]
pub struct Way {
    /// Its id (`amount`).
    pub id: Name,
    /// The question it answers, as a person would ask it.
    pub title: String,
    /// The options, at least one of them right.
    pub options: Vec<WayOption>,
}

/// One option of a way.
#[derive(Clone, Debug)]
pub struct WayOption {
    /// Its id (`bead`). When an operation takes its value from the way, this is one of that operation's words.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// What choosing it wrongly means; `None` when it is right.
    pub wrong: Option<Miss>,
}

/// What one kind of miss means.
#[derive(Clone, Debug)]
pub struct Miss {
    /// How much it weighs.
    pub severity: Severity,
    /// The consequences it leads to.
    pub leads_to: Vec<Name>,
    /// What is said about it, beyond the consequence.
    pub text: String,
}

/// A miss of time from a given size on.
#[derive(Clone, Debug)]
pub struct Tier {
    /// The limit: below it for `short`, above it for `long` and `late`. `None`: the window itself.
    pub limit: Option<Millis>,
    /// What it means.
    pub miss: Miss,
}

/// What happens when a step goes wrong. Where a list of tiers is empty the finding is minor and leads nowhere.
#[derive(Clone, Debug, Default)]
pub struct StepErrors {
    /// Left out.
    pub skipped: Option<Miss>,
    /// Too short, stopped before the sign, or not yet looking right; mildest tier first.
    pub short: Vec<Tier>,
    /// Too long, or too late after the sign; mildest tier first.
    pub long: Vec<Tier>,
    /// Done while something it needs was not there.
    pub unready: Option<Miss>,
    /// Done out of its order.
    pub misplaced: Option<Miss>,
}

/// The words that begin a line of plain mode which is no move. No step or act may have one of them as its id.
pub const LINE_WORDS: &[&str] = &[
    "abandon", "finish", "help", "look", "moves", "next", "respond", "run", "stop", "take-off",
    "wait", "ways", "wear", "why",
];
