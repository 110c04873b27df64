//! When a suspension may be lifted (rule R13).

use super::{Case, Refusal};
use crate::record::entry::{Reinstated, Signed};

pub(super) fn reinstated(case: &Case<'_>, fact: &Reinstated) -> Result<(), Refusal> {
    let target = case
        .ledger
        .find(&fact.suspension)
        .filter(|at| case.view.counts(*at));
    let target = target.map(|at| case.view.fact(at));
    let fits = target.is_some_and(|target| {
        matches!(target.signed(), Some(Signed::Suspended(suspended))
            if suspended.person == fact.person && suspended.workflow == fact.workflow)
    });
    if !fits {
        return Err(Refusal::NoSuchSuspension(fact.suspension));
    }
    if fact.evidence.is_empty() && fact.proof.is_none() {
        return Err(Refusal::NoReinstatingEvidence);
    }
    if case.signing.by == fact.person && !(case.view.policy().is_alone() && fact.proof.is_some()) {
        return Err(Refusal::SelfReinstatement);
    }
    Ok(())
}
