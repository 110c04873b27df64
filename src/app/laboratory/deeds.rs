//! What is meant by a name: the scope of a person, the edition that counts.

use super::problem::Problem;
use super::{Laboratory, Place};
use crate::record::scope::{Edition, Id, Scope};
use crate::standing::Reading;
use crate::units::PersonCode;

/// What stands in a scope for a unit that the workflow does not have, or that nobody has named.
pub const NO_UNIT: &str = "none";

/// A scope as somebody names it: what is left out is what the person has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// The workflow.
    pub workflow: Id,
    /// The process profile.
    pub profile: Option<Id>,
    /// The wash unit.
    pub wash: Option<Id>,
    /// The curing unit.
    pub cure: Option<Id>,
}

impl Wanted {
    /// A workflow, and nothing else named.
    #[must_use]
    pub fn workflow(workflow: Id) -> Wanted {
        Wanted {
            workflow,
            profile: None,
            wash: None,
            cure: None,
        }
    }

    fn fits(&self, scope: &Scope) -> bool {
        let same = |wanted: &Option<Id>, has: &Id| wanted.as_ref().is_none_or(|one| one == has);
        scope.workflow == self.workflow
            && same(&self.profile, &scope.profile)
            && same(&self.wash, &scope.wash)
            && same(&self.cure, &scope.cure)
    }

    /// The scope with what is left out set to the shipped profile and to no unit.
    #[must_use]
    pub fn new_scope(&self) -> Option<Scope> {
        let or = |named: &Option<Id>, other: &str| named.clone().or_else(|| other.parse().ok());
        Some(Scope {
            workflow: self.workflow.clone(),
            profile: or(&self.profile, crate::app::shelf::DEFAULT_PROFILE)?,
            wash: or(&self.wash, NO_UNIT)?,
            cure: or(&self.cure, NO_UNIT)?,
        })
    }
}

impl<P: Place> Laboratory<P> {
    /// The scope of a person that is meant.
    ///
    /// # Errors
    ///
    /// The person has none that fits, or several.
    pub fn scope(&self, person: PersonCode, wanted: &Wanted) -> Result<Scope, Problem> {
        let view = self.view(self.now().instant(), Reading::AsNowKnown);
        let mut fits = view.scopes(person, Some(&wanted.workflow));
        fits.retain(|scope| wanted.fits(scope));
        match fits.len() {
            1 => Ok(fits.remove(0)),
            many => Err(Problem::WhichScope(wanted.workflow.clone(), many)),
        }
    }

    /// The edition that is meant: the one with this revision, or the one in force.
    ///
    /// # Errors
    ///
    /// It is not adopted.
    pub fn edition(&self, workflow: &Id, revision: Option<u32>) -> Result<Edition, Problem> {
        let view = self.view(self.now().instant(), Reading::AsNowKnown);
        let Some(revision) = revision else {
            let newest = || view.editions(workflow).pop().map(|(edition, _)| edition);
            let found = view.edition(workflow).or_else(newest);
            return found.ok_or_else(|| Problem::NothingAdopted(workflow.clone()));
        };
        let all = view.editions(workflow);
        let found = all.iter().find(|(edition, _)| edition.revision == revision);
        found.map(|(edition, _)| edition.clone()).ok_or_else(|| {
            let known = all.iter().map(|(edition, _)| edition.revision).collect();
            Problem::NoSuchRevision(workflow.clone(), revision, known)
        })
    }

    /// The newest edition that both have signed, whether it holds yet or not: what is read and trained ahead of its day.
    ///
    /// # Errors
    ///
    /// None is adopted.
    pub fn newest_edition(&self, workflow: &Id) -> Result<Edition, Problem> {
        let view = self.view(self.now().instant(), Reading::AsNowKnown);
        let newest = view.editions(workflow).pop();
        let newest = newest.map(|(edition, _)| edition);
        newest.ok_or_else(|| Problem::NothingAdopted(workflow.clone()))
    }
}
