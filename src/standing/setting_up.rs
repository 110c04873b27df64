//! What a laboratory that has just opened its record still lacks before anybody can be signed off, in the order in which it is best done.

use super::view::View;
use crate::record::entry::Signed;
use crate::record::scope::{Authority, Id};
use crate::units::PersonCode;

/// One step on the way from an open record to a laboratory that can sign people off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SetUpStep {
    /// Somebody besides the owner is here; or the policy says that nobody else will be.
    People,
    /// Everybody who is here has a key.
    Keys,
    /// Somebody trains, assesses, approves and adopts revisions.
    Rights,
    /// A revision of a workflow is adopted.
    Workflow,
    /// Somebody is assigned to a workflow.
    Assigned,
    /// Somebody is signed off, so that others can be trained and assessed.
    FirstAssessor,
    /// Somebody is signed off on what was seen from outside, where the policy says that nobody here can assess independently.
    FromOutside,
}

impl SetUpStep {
    /// All, in order.
    pub const ALL: [SetUpStep; 7] = [
        SetUpStep::People,
        SetUpStep::Keys,
        SetUpStep::Rights,
        SetUpStep::Workflow,
        SetUpStep::Assigned,
        SetUpStep::FirstAssessor,
        SetUpStep::FromOutside,
    ];

    /// The step's own word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            SetUpStep::People => "people",
            SetUpStep::Keys => "keys",
            SetUpStep::Rights => "rights",
            SetUpStep::Workflow => "workflow",
            SetUpStep::Assigned => "assigned",
            SetUpStep::FirstAssessor => "first-assessor",
            SetUpStep::FromOutside => "from-outside",
        }
    }
}

/// A step that is still to be taken, with what there is to say about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToSetUp {
    /// The step.
    pub step: SetUpStep,
    /// The rights that nobody here holds and that the work begins with.
    pub rights: Vec<Authority>,
    /// The most assessors that an adopted workflow asks for; 0 where none is adopted.
    pub assessors: u16,
}

/// Rights without which nobody is ever signed off.
const WANTED: [Authority; 4] = [
    Authority::Publish,
    Authority::Train,
    Authority::Assess,
    Authority::Approve,
];

impl View<'_> {
    /// The steps that are still to be taken.
    #[must_use]
    pub fn set_up_lacks(&self) -> Vec<ToSetUp> {
        let staff = self.ledger.staff();
        let people: Vec<PersonCode> = staff.people().collect();
        let alone = self.policy().is_alone();
        let held = |wanted: Authority| {
            let mut people = people.iter();
            people.any(|&one| {
                let mut grants = staff.grants_of(one);
                grants.any(|(_, authority, _)| authority == wanted)
            })
        };
        let entries = self.ledger.entries().iter();
        let signed: Vec<&Signed> = entries
            .filter_map(|entry| entry.signed().map(|(fact, _)| fact))
            .collect();
        let workflows: Vec<&Id> = signed
            .iter()
            .filter_map(|fact| match fact {
                Signed::RevisionAdopted(adopted) => Some(&adopted.workflow),
                _ => None,
            })
            .collect();
        // Once somebody was: a laboratory that has lost its last assessor sees that among its people.
        let anybody_signed_off = signed
            .iter()
            .any(|fact| matches!(fact, Signed::SignedOff(_)));
        let is_done = |step: &SetUpStep| match step {
            SetUpStep::People => people.len() > 1 || alone,
            SetUpStep::Keys => people.iter().all(|&one| staff.key_of(one).is_some()),
            SetUpStep::Rights => WANTED.into_iter().all(held),
            SetUpStep::Workflow => !workflows.is_empty(),
            SetUpStep::Assigned => signed
                .iter()
                .any(|fact| matches!(fact, Signed::Assigned(_))),
            SetUpStep::FirstAssessor => alone || anybody_signed_off,
            SetUpStep::FromOutside => !alone || anybody_signed_off,
        };
        let steps = SetUpStep::ALL.into_iter().filter(|step| !is_done(step));
        let current = workflows
            .iter()
            .filter_map(|workflow| self.current(workflow));
        let assessors = current.map(|one| one.profile(self.at).first.assessors);
        let assessors = assessors.max().unwrap_or(0);
        let lacks = steps.map(|step| ToSetUp {
            step,
            rights: WANTED.into_iter().filter(|one| !held(*one)).collect(),
            assessors,
        });
        lacks.collect()
    }
}
