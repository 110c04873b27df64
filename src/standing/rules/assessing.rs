//! Who may train, supervise and assess: people who are signed off themselves (rule R5).

use super::{Case, Refusal};
use crate::record::entry::{CaseChecked, Signed, SupervisedBy};
use crate::record::scope::{Edition, Id, Scope};

/// The longest supervision that one entry can name, in days. Our default: a quarter of a year.
const SUPERVISION_DAYS_MOST: u16 = 92;

pub(super) fn trained(case: &Case<'_>, workflow: &Id, edition: &Edition) -> Result<(), Refusal> {
    case.check_adopted(workflow, edition)?;
    if case.then().is_in_force_in(case.signing.by, workflow) {
        Ok(())
    } else {
        Err(Refusal::TrainerNotInForce(case.signing.by))
    }
}

pub(super) fn assessed(case: &Case<'_>, scope: &Scope, edition: &Edition) -> Result<(), Refusal> {
    case.check_adopted(&scope.workflow, edition)?;
    if case.then().is_in_force(case.signing.by, scope) {
        Ok(())
    } else {
        Err(Refusal::AssessorNotInForce(case.signing.by))
    }
}

pub(super) fn supervised(case: &Case<'_>, fact: &SupervisedBy) -> Result<(), Refusal> {
    let (from, until) = (fact.from.instant(), fact.until.instant());
    if until < from || until > from.plus_days(i64::from(SUPERVISION_DAYS_MOST)) {
        return Err(Refusal::SupervisionTooLong(SUPERVISION_DAYS_MOST));
    }
    in_force(case, &fact.scope)
}

pub(super) fn checked(case: &Case<'_>, fact: &CaseChecked) -> Result<(), Refusal> {
    case.check_adopted(&fact.scope.workflow, &fact.edition)?;
    in_force(case, &fact.scope)?;
    let (by, then) = (case.signing.by, case.happened());
    // Who supervises is written down before the work, so what is known now has to be looked at as of then.
    let named = case.then().facts(fact.person).any(|named| {
        named.signer() == Some(by)
            && matches!(named.signed(), Some(Signed::SupervisedBy(named))
                if named.scope == fact.scope
                    && named.from.instant() <= then
                    && then <= named.until.instant())
    });
    if named {
        Ok(())
    } else {
        Err(Refusal::NotTheSupervisor(by))
    }
}

fn in_force(case: &Case<'_>, scope: &Scope) -> Result<(), Refusal> {
    if case.then().is_in_force(case.signing.by, scope) {
        Ok(())
    } else {
        Err(Refusal::SupervisorNotInForce(case.signing.by))
    }
}
