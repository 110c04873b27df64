//! Findings: one difference between trace and plan, or one physical consequence, as data without words.

use crate::syllabus::module::{Harm, Severity};
use crate::syllabus::plan::{TaskIndex, Window};
use crate::units::Millis;

/// One finding. A root stands for itself; what follows from it is nested and does not count again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// What was found.
    pub what: Found,
    /// The weight of the rule that fired.
    pub severity: Severity,
    /// When it first showed.
    pub at: Millis,
    /// The tasks it is about, in order. Empty for acts, waits and the like.
    pub tasks: Vec<TaskIndex>,
    /// Consequences it can lead to, by index in the module.
    pub leads_to: Vec<usize>,
    /// Index in the module that names the words: see [`Words`].
    pub words: Words,
    /// What followed from it.
    pub follow_ons: Vec<Finding>,
}

impl Finding {
    /// The weight of the finding with everything that followed from it physically: a harm that showed raises it.
    #[must_use]
    pub fn worst(&self) -> Severity {
        let harms = self.follow_ons.iter().map(|one| match one.what {
            Found::Harm { .. } => one.worst(),
            _ => Severity::Minor,
        });
        harms.fold(self.severity, Severity::max)
    }

    /// All consequences that showed on the bench, here or in what followed, by index in the module.
    pub fn shown(&self) -> Vec<usize> {
        let mut all: Vec<usize> = self.follow_ons.iter().flat_map(Finding::shown).collect();
        if let Found::Harm {
            consequence: Some(one),
            ..
        } = self.what
        {
            all.push(one);
        }
        all.sort_unstable();
        all.dedup();
        all
    }
}

/// Where the module's own words for a finding stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Words {
    /// Nowhere.
    None,
    /// In the step's `skipped`.
    Skipped(usize),
    /// In the step's `misplaced`.
    Misplaced(usize),
    /// In the step's `unready`.
    Unready(usize),
    /// In a tier of the step's `short`.
    Short(usize, usize),
    /// In a tier of the step's `long`.
    Long(usize, usize),
    /// In the option of a way of a step.
    Option(usize, usize, usize),
    /// In a time rule.
    TimeRule(usize),
    /// In a rule of `never`.
    Never(usize),
    /// In a guard.
    Guard(usize),
    /// In a response to a disturbance.
    Response(usize, usize),
    /// In a disturbance's `carry-on`.
    CarryOn(usize),
    /// In a consequence.
    Consequence(usize),
}

/// What was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// Required tasks were left out.
    Skipped,
    /// Tasks were done out of their order, with respect to these.
    Misplaced {
        /// The nearest task whose place in the order was crossed.
        against: TaskIndex,
        /// Whether it was done too early (else too late).
        early: bool,
    },
    /// A hazard rule on order was broken: done before these.
    TooEarly {
        /// What it had to wait for.
        until: Vec<TaskIndex>,
    },
    /// A task was done again.
    Again,
    /// A timed part was too short.
    Short {
        /// The shortest that happened.
        was: Millis,
        /// The window.
        window: Window,
        /// The case choice and value for which the time would have been right, by index.
        right_for: Option<(usize, usize)>,
    },
    /// A timed part was too long.
    Long {
        /// The longest that happened.
        was: Millis,
        /// The window.
        window: Window,
    },
    /// It was ended before the sign.
    BeforeSign {
        /// By how much; `None` when the sign would not have come.
        by: Option<Millis>,
    },
    /// It was ended too long after the sign.
    AfterSign {
        /// By how much after the sign.
        by: Millis,
        /// How much is allowed.
        within: Millis,
    },
    /// It was stopped before it looked right.
    NotYetRight,
    /// A wrong option was taken.
    WrongWay {
        /// The way of the step.
        way: usize,
        /// The option.
        option: usize,
    },
    /// A task was done while something it needs was not there.
    Unready {
        /// The aspect that was not right, by index.
        aspect: usize,
    },
    /// A gap was too long or too short.
    Gap {
        /// The gap's index in the plan.
        gap: usize,
        /// How long it was.
        was: Millis,
    },
    /// A cap was exceeded.
    Cap {
        /// The cap's index in the plan.
        cap: usize,
        /// The sum.
        was: Millis,
        /// The cap in force.
        most: Millis,
    },
    /// Too many places in a state at once.
    Crowded {
        /// The rule's index in the plan.
        rule: usize,
        /// The cells of the aspect when there were most.
        cells: Vec<usize>,
        /// Whether there were so many only because a task that would have freed a place was left out.
        stuck: bool,
    },
    /// A forbidden act.
    Forbidden {
        /// Its index among the module's `never`.
        rule: usize,
    },
    /// Protection was missing.
    Unprotected {
        /// The guard's index.
        guard: usize,
        /// For how long in all.
        time: Millis,
    },
    /// Protection was worn past its change interval.
    Stale {
        /// The item's index.
        item: usize,
        /// The most that the interval was passed by.
        by: Millis,
    },
    /// A disturbance was answered wrongly.
    WrongResponse {
        /// The disturbance.
        disturbance: usize,
        /// The response.
        response: usize,
    },
    /// A disturbance was ignored.
    CarriedOn {
        /// The disturbance.
        disturbance: usize,
    },
    /// The bench ended with something that should not be.
    Harm {
        /// What.
        harm: Harm,
        /// The module's consequence that shows it, by index.
        consequence: Option<usize>,
        /// The teeth it shows at; empty for the whole part.
        teeth: Vec<u16>,
    },
}
