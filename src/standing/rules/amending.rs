//! Second signatures, corrections and voids.

use super::{Case, Refusal};
use crate::record::entry::{Amending, Corrected, Countersigned, Entry, Voided};
use crate::record::scope::Meaning;
use crate::record::seal::Seal;

/// Members that say whom and what an entry is about. Where they are wrong, the entry is another one.
const FIXED: [&str; 3] = ["person", "scope", "workflow"];

/// Whether a member of an entry can be corrected at all.
#[must_use]
pub fn is_correctable(entry: &Entry, member: &str) -> bool {
    matches!(entry.kind().amending(), Amending::Free | Amending::Critical)
        && !FIXED.contains(&member)
}

pub(super) fn countersigned(case: &Case<'_>, fact: &Countersigned) -> Result<(), Refusal> {
    let at = find(case, &fact.target)?;
    let target = case.ledger.entry(at);
    let subject = target.kind().subject();
    let by = case.signing.by;
    match case.signing.meaning {
        Meaning::Acknowledged if subject.person == Some(by) => Ok(()),
        Meaning::Acknowledged => Err(Refusal::NotTheirs),
        Meaning::Approved => {
            let amended = target.kind().refers();
            let amended = amended.first().and_then(|seal| case.ledger.find(seal));
            let amended = amended.map(|at| case.ledger.entry(at).kind().subject());
            let about = subject
                .person
                .or_else(|| amended.and_then(|amended| amended.person));
            if target.actor() == Some(by) || about == Some(by) {
                return Err(Refusal::NotASecondPerson);
            }
            let workflow = subject
                .workflow
                .or_else(|| amended.and_then(|amended| amended.workflow));
            let any_of = target.kind().seconds();
            let under = case.signing.under;
            if case.ledger.staff().serves(under, any_of, workflow) {
                Ok(())
            } else {
                Err(Refusal::SecondNotEntitled)
            }
        }
        _ => Ok(()),
    }
}

pub(super) fn corrected(case: &Case<'_>, fact: &Corrected) -> Result<(), Refusal> {
    let at = find(case, &fact.target)?;
    let member = fact.member.to_string();
    match case.ledger.entry(at).kind().amending() {
        Amending::Never => return Err(Refusal::NotAmendable),
        Amending::VoidOnly => return Err(Refusal::NotCorrectable),
        Amending::Free | Amending::Critical => {}
    }
    if FIXED.contains(&member.as_str()) {
        return Err(Refusal::NotCorrectable);
    }
    if case.view.is_void(at) {
        return Err(Refusal::VoidAlready);
    }
    let content = case.view.content(at);
    if content.member(&member) != fact.old {
        return Err(Refusal::OldDiffers);
    }
    match content.with(&member, fact.new.clone()) {
        Ok(_) => Ok(()),
        Err(_) => Err(Refusal::NewWrong),
    }
}

pub(super) fn voided(case: &Case<'_>, fact: &Voided) -> Result<(), Refusal> {
    let at = find(case, &fact.target)?;
    if case.ledger.entry(at).kind().amending() == Amending::Never {
        return Err(Refusal::NotAmendable);
    }
    if case.view.is_void(at) {
        return Err(Refusal::VoidAlready);
    }
    Ok(())
}

fn find(case: &Case<'_>, seal: &Seal) -> Result<usize, Refusal> {
    let found = case.ledger.find(seal);
    found.ok_or(Refusal::Authority(
        crate::record::authority::AuthorityFault::RefersToNothing(*seal),
    ))
}
