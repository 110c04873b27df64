//! When somebody may be signed off (rules R2, R4, R6, R7, R12).

use super::{Case, Need, Refusal};
use crate::record::entry::{Basis, Signed, SignedOff};
use crate::record::seal::Seal;

pub(super) fn signed_off(case: &Case<'_>, fact: &SignedOff) -> Result<(), Refusal> {
    let (person, scope) = (fact.person, &fact.scope);
    if case.happened() != case.recorded() {
        return Err(Refusal::SignedAtAnotherTime);
    }
    if fact.valid_from.instant() < case.recorded() {
        return Err(Refusal::BeforeSignature);
    }
    case.check_adopted(&scope.workflow, &fact.edition)?;
    let current = case.view.current(&scope.workflow);
    if let Some(newer) = current.filter(|one| one.edition.revision > fact.edition.revision) {
        return Err(Refusal::Superseded(newer.edition.revision));
    }
    match &fact.basis {
        Basis::Evidence(seals) => {
            for seal in seals {
                check_evidence(case, fact, seal)?;
            }
        }
        Basis::FirstAssessor(_) => {
            let mut others = case.ledger.people().filter(|other| *other != person);
            if let Some(other) = others.find(|other| case.view.is_in_force(*other, scope)) {
                return Err(Refusal::NotTheFirst(other));
            }
        }
        Basis::Outside(_) => {
            if !case.view.policy().is_alone() {
                return Err(Refusal::NotAlone);
            }
        }
    }
    let readiness = case
        .view
        .readiness_for(person, scope, Some(fact.edition.clone()));
    let alone = !matches!(fact.basis, Basis::Evidence(_));
    let missing: Vec<Need> = readiness
        .missing
        .into_iter()
        .filter(|need| !(alone && need.takes_another()))
        .collect();
    if !missing.is_empty() {
        return Err(Refusal::Missing(missing));
    }
    // Our own rule: whoever signs on a part of what was seen says why.
    if case.entry.frame().reason.is_some() {
        return Ok(());
    }
    match case.view.left_out(case.entry).len() {
        0 => Ok(()),
        left_out => Err(Refusal::LeftOutWithoutReason(left_out)),
    }
}

/// What a sign-off names as evidence has to be an assessment of this person in this scope that still counts. Practice is none (R10).
fn check_evidence(case: &Case<'_>, fact: &SignedOff, seal: &Seal) -> Result<(), Refusal> {
    let refused = Err(Refusal::NoEvidence(*seal));
    let Some(at) = case.ledger.find(seal).filter(|at| case.view.counts(*at)) else {
        return refused;
    };
    let (person, scope) = match case.view.fact(at).signed() {
        Some(Signed::Observed(seen)) => (seen.person, seen.scope.clone()),
        Some(Signed::Evaluated(evaluated)) => (evaluated.person, evaluated.scope.clone()),
        Some(Signed::CaseChecked(case)) => (case.person, case.scope.clone()),
        _ => return refused,
    };
    if person == fact.person && scope == fact.scope {
        Ok(())
    } else {
        refused
    }
}
