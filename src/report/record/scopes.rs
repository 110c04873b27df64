//! Where a person stands in one scope, gathered once for people and for machines.

use crate::record::scope::Scope;
use crate::record::seal::Seal;
use crate::standing::{CannotBeShown, Readiness, Runs, SetBack, Standing, Supervision, View};
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
    /// Who supervises.
    pub supervision: Option<Supervision>,
    /// Why the person is in training again, where they had got further.
    pub set_back: Option<SetBack>,
    /// What is met and missing; none where only a new need leads on.
    pub readiness: Option<Readiness>,
    /// Observed runs so far; none where only a new need leads on, or where nobody asked for them.
    pub runs: Option<Runs>,
}

impl InScope {
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
    InScope {
        runs: None,
        set_back,
        scope,
        standing,
        ground,
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
