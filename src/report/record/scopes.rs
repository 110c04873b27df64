//! Where a person stands in one scope, gathered once for people and for machines.

use crate::record::scope::Scope;
use crate::record::seal::Seal;
use crate::standing::{
    CannotBeShown, CarriedBy, Need, Readiness, Runs, SetBack, Standing, Supervision, TooFew, View,
    too_few,
};
use crate::units::PersonCode;

/// What stands in the place of a standing that cannot be shown, for machines and for looking up words.
pub(super) const CANNOT_BE_SHOWN: &str = "cannot-be-shown";

/// A standing in one scope with what it rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InScope {
    /// The scope.
    pub scope: Scope,
    /// Where the person stands.
    pub standing: Result<Standing, CannotBeShown>,
    /// The entry that it rests on.
    pub ground: Option<Seal>,
    /// Later revisions that a sign-off covers too, by number, each with what carried it over.
    pub carried: Vec<(u32, CarriedBy)>,
    /// Who supervises.
    pub supervision: Option<Supervision>,
    /// Why the person is in training again, where they had got further.
    pub set_back: Option<SetBack>,
    /// What is met and missing; none where only a new need leads on.
    pub readiness: Option<Readiness>,
    /// That what is missing takes more assessors than there are.
    pub too_few: Option<TooFew>,
    /// Whether the person can be signed off as the first assessor, and is spared what takes another who is signed off (rule R7).
    pub could_be_first: bool,
    /// Observed runs so far; none where only a new need leads on, or where nobody asked for them.
    pub runs: Option<Runs>,
}

impl InScope {
    /// What is missing first. Whoever can be the first assessor is spared what takes another; then it is the signature alone, and nothing is missing.
    pub(super) fn first_missing(&self) -> Option<&Need> {
        let mut missing = self.readiness.as_ref()?.missing.iter();
        missing.find(|need| !(self.could_be_first && need.takes_another()))
    }

    /// Whether nothing but an evaluation is missing.
    pub(super) fn lacks_only_evaluation(&self) -> bool {
        let missing = self.readiness.as_ref().map(|list| list.missing.as_slice());
        missing == Some(&[Need::Evaluated])
    }

    pub(super) fn word(&self) -> &'static str {
        word_of(&self.standing)
    }
}

pub(super) fn word_of(standing: &Result<Standing, CannotBeShown>) -> &'static str {
    standing.as_ref().map_or(CANNOT_BE_SHOWN, Standing::word)
}

/// Gathers a person's standing in a scope with what it rests on.
pub(super) fn in_scope(view: View<'_>, person: PersonCode, scope: Scope) -> InScope {
    let standing = view.standing(person, &scope);
    let shown = standing.as_ref().ok();
    let ground = shown.and_then(|standing| view.ground(person, &scope, standing));
    let carried = match shown {
        Some(Standing::SignedOff(_) | Standing::Due(..) | Standing::Lapsed(..)) => {
            view.carried(person, &scope)
        }
        _ => Vec::new(),
    };
    let supervision = match shown {
        Some(Standing::UnderSupervision { .. }) => view.supervision(person, &scope),
        _ => None,
    };
    let leads_on = !matches!(
        shown,
        None | Some(Standing::NotAssigned | Standing::Withdrawn { .. } | Standing::Left { .. })
    );
    let readiness = leads_on.then(|| view.readiness(person, &scope));
    let in_training = matches!(shown, Some(Standing::InTraining));
    let lacks = readiness.as_ref().filter(|_| in_training);
    let set_back = lacks.and_then(|lacks| view.set_back(person, &scope, lacks));
    let missing = readiness.as_ref().map(|list| list.missing.as_slice());
    let too_few = missing.and_then(|missing| too_few(view, person, &scope.workflow, missing));
    let begins = matches!(
        shown,
        Some(Standing::InTraining | Standing::UnderSupervision { .. })
    );
    InScope {
        could_be_first: begins && view.could_be_first(person, &scope),
        too_few,
        runs: None,
        set_back,
        scope,
        standing,
        ground,
        carried,
        supervision,
        readiness,
    }
}

/// The same with the observed runs so far.
pub(super) fn with_runs(view: View<'_>, person: PersonCode, of: InScope) -> InScope {
    let leads_on = of.readiness.is_some();
    let runs = leads_on.then(|| view.observed_runs(person, &of.scope));
    InScope { runs, ..of }
}
