//! When a revision may be adopted (rule R11).

use super::{Case, Refusal};
use crate::record::entry::{RevisionAdopted, Signed};

/// A number stands for one text. The newest may be adopted again with the same text, once both have signed it, to change what later sign-offs ask
/// for; what it asks of those who were signed off before was decided the first time.
pub(super) fn adopted(case: &Case<'_>, fact: &RevisionAdopted) -> Result<(), Refusal> {
    let about = case.ledger.about_workflow(&fact.workflow).iter();
    // Also those that still wait for the second signature.
    let newest = about.filter_map(|&at| match case.ledger.entry(at).signed()?.0 {
        Signed::RevisionAdopted(adopted) => Some(adopted.edition.revision),
        _ => None,
    });
    let Some(newest) = newest.max() else {
        return Ok(());
    };
    if fact.edition.revision > newest {
        return Ok(());
    }
    let adopted = case.view.adopted(&fact.workflow);
    let mut same = adopted.iter();
    let same = same.find(|one| one.edition == fact.edition && one.edition.revision == newest);
    match same {
        Some(same) if same.impact != fact.impact => Err(Refusal::OtherImpact(same.impact)),
        Some(same) if *same.newest_profile() != fact.profile => Ok(()),
        _ => Err(Refusal::NotNewer(newest)),
    }
}
