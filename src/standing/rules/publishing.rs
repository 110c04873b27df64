//! When a revision may be adopted (rule R11).

use super::{Case, Refusal};
use crate::record::entry::{RevisionAdopted, Signed};

pub(super) fn adopted(case: &Case<'_>, fact: &RevisionAdopted) -> Result<(), Refusal> {
    let about = case.ledger.about_workflow(&fact.workflow).iter();
    // Also those that still wait for the second signature: a number stands for one text.
    let newest = about.filter_map(|&at| match case.ledger.entry(at).signed()?.0 {
        Signed::RevisionAdopted(adopted) => Some(adopted.edition.revision),
        _ => None,
    });
    match newest.max() {
        Some(newest) if fact.edition.revision <= newest => Err(Refusal::NotNewer(newest)),
        _ => Ok(()),
    }
}
