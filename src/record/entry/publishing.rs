//! What holds for everybody: adopted revisions with what they ask for, retired workflows, the policy.

use super::{Kind, Right, SignedKind, Subject};
use crate::record::canonical::{Json, Value};
use crate::record::entry::assessment::Method;
use crate::record::member::{Member, inner_members, members, words};
use crate::record::scope::{Authority, Edition, Id, Meaning};
use crate::units::Stamp;

words! {
    /// What a new revision asks of those who were signed off on the one before. Ordered from least to most.
    Impact {
        /// Nothing.
        "none" None,
        /// To take note of it.
        "awareness" Awareness,
        /// To be trained on it.
        "retrain" Retrain,
        /// To be assessed on it.
        "re-assess" Reassess,
    }
}

inner_members! {
    /// So many assessments in one way.
    MethodCount {
        /// The way.
        "method" method: Method,
        /// How many that were passed.
        "count" count: u16,
    }
}

inner_members! {
    /// What a sign-off asks for.
    Needs {
        /// Clean unaided rehearsals…
        "clean-runs" clean_runs: u16,
        /// …on so many days.
        "clean-days" clean_days: u16,
        /// Cases that a supervisor found acceptable.
        "supervised-cases" supervised_cases: u16,
        /// Observed runs that were passed…
        "observed" observed: u16,
        /// …by so many assessors…
        "assessors" assessors: u16,
        /// …of which so many were clean, one after the other, up to now.
        "clean-in-a-row" clean_in_a_row: u16,
        /// Passed assessments in other ways.
        "others" others: Vec<MethodCount>,
    }
}

/// Validity of the first and later sign-offs in calendar months; the last one repeats. Never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ValidMonths(Vec<u16>);

impl ValidMonths {
    /// Returns the months, if there are any and none is 0.
    #[must_use]
    pub fn new(months: Vec<u16>) -> Option<ValidMonths> {
        let any = !months.is_empty() && months.iter().all(|&months| months > 0);
        any.then_some(ValidMonths(months))
    }

    /// All of them, the first first.
    #[must_use]
    pub fn all(&self) -> &[u16] {
        &self.0
    }

    /// The validity of a sign-off after so many earlier ones.
    #[must_use]
    pub fn after(&self, earlier: usize) -> u16 {
        let last = self.0.len() - 1;
        self.0[earlier.min(last)]
    }
}

impl Member for ValidMonths {
    fn to_value(&self) -> Value {
        self.0.to_value()
    }

    fn from_value(value: Json<'_>) -> Option<ValidMonths> {
        ValidMonths::new(Member::from_value(value)?)
    }
}

inner_members! {
    /// When after a sign-off it is to be asked whether training worked.
    EffectCheck {
        /// Not before so many days.
        "from-days" from_days: u16,
        /// Not after so many days.
        "to-days" to_days: u16,
    }
}

inner_members! {
    /// What a revision asks for before somebody is signed off on it.
    SignOffProfile {
        /// Workflows that the person must be signed off for.
        "requires" requires: Vec<Id>,
        /// What the first sign-off asks for.
        "first" first: Needs,
        /// What a renewal asks for, and the sign-off of those who were signed off on an earlier revision.
        "again" again: Needs,
        /// How long sign-offs hold.
        "valid-months" valid_months: ValidMonths,
        /// When it is to be asked whether training worked.
        "effect-check" effect_check: Option<EffectCheck>,
    }
}

members! {
    /// The laboratory adopted a revision. Holds from the second person's signature, and not before the day it names.
    RevisionAdopted {
        /// Of which workflow.
        "workflow" workflow: Id,
        /// Which edition.
        "edition" edition: Edition,
        /// From when it holds.
        "effective" effective: Stamp,
        /// What it asks of those who were signed off before.
        "impact" impact: Impact,
        /// What a sign-off asks for.
        "profile" profile: SignOffProfile,
    }
}

members! {
    /// A workflow is no longer done.
    WorkflowRetired {
        /// Which one.
        "workflow" workflow: Id,
    }
}

words! {
    /// Whether there is somebody who can assess independently.
    Independence {
        /// There is.
        "independent" Independent,
        /// There is not: a laboratory of one person.
        "no-independent-assessor" NoIndependentAssessor,
    }
}

members! {
    /// The laboratory's own numbers, from now on.
    PolicySet {
        /// So many days before its end a sign-off is due.
        "due-days" due_days: u16,
        /// So many days after its end it lapses.
        "grace-days" grace_days: u16,
        /// An entry made more than so many hours later is late and needs a reason.
        "late-hours" late_hours: u16,
        /// Whether there is somebody who can assess independently.
        "independence" independence: Independence,
    }
}

impl Kind for RevisionAdopted {
    fn seconds(&self) -> &'static [Authority] {
        &[Authority::Publish, Authority::Approve, Authority::Own]
    }

    fn subject(&self) -> Subject<'_> {
        Subject {
            workflow: Some(&self.workflow),
            ..Subject::default()
        }
    }

    fn needs_reason(&self) -> bool {
        true
    }
}

impl Kind for WorkflowRetired {
    fn subject(&self) -> Subject<'_> {
        Subject {
            workflow: Some(&self.workflow),
            ..Subject::default()
        }
    }

    fn needs_reason(&self) -> bool {
        true
    }
}

impl Kind for PolicySet {
    fn subject(&self) -> Subject<'_> {
        Subject::default()
    }

    fn needs_reason(&self) -> bool {
        true
    }
}

impl SignedKind for RevisionAdopted {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Publish]).within(&self.workflow)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved]
    }
}

impl SignedKind for WorkflowRetired {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Publish]).within(&self.workflow)
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved]
    }
}

impl SignedKind for PolicySet {
    fn right(&self) -> Right<'_> {
        Right::of(&[Authority::Own])
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved]
    }
}

impl Default for Impact {
    /// Whoever decides nothing decides for the most (rule R11 of `standing`).
    fn default() -> Impact {
        Impact::Reassess
    }
}
