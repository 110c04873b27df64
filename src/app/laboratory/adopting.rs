//! From a module to what the record adopts: edition, effect, and what a sign-off asks for.

use super::numbers::OwnNumbers;
use super::problem::Problem;
use super::signing::Deed;
use super::{Keeping, Laboratory, Place};
use crate::app::shelf::Taken;
use crate::record::entry::{
    EffectCheck, Impact, Needs, RevisionAdopted, SignOffProfile, Signed, ValidMonths,
};
use crate::record::scope::{Edition, Id, Text};
use crate::syllabus::module::Module;
use crate::units::Stamp;

/// What is decided about a revision.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Adoption {
    /// From when it holds.
    pub effective: Stamp,
    /// What it asks of those who were signed off before.
    pub impact: Impact,
    /// Why it was decided so.
    pub reason: Text,
    /// What a sign-off asks for otherwise than the module says.
    pub numbers: OwnNumbers,
}

impl<P: Place> Laboratory<P> {
    /// Keeps the text of a module beside the record and says what adopting it would be.
    ///
    /// # Errors
    ///
    /// The module asks for nothing that a sign-off could rest on, the numbers contradict themselves, or its text cannot be kept.
    pub fn adoption(&mut self, taken: &Taken, decided: Adoption) -> Result<Deed, Problem> {
        let adopted = RevisionAdopted {
            workflow: id(&taken.module.identity.id.value)?,
            edition: edition_of(taken)?,
            effective: decided.effective,
            impact: decided.impact,
            profile: profile_with(&taken.module, &decided.numbers)?,
        };
        // It is kept under the edition's own digest: an inspector can be shown what was trained.
        let text = taken.digested();
        self.place_mut().attach(text.as_bytes(), Keeping::Kept)?;
        Ok(Deed::now(adopted).because(Some(decided.reason)))
    }

    /// What an edition asked of those who were signed off before when it was adopted; none where it was not.
    #[must_use]
    pub fn impact_of(&self, workflow: &Id, edition: &Edition) -> Option<Impact> {
        let mut entries = self.ledger.entries().iter();
        entries.find_map(|entry| match entry.signed()?.0 {
            Signed::RevisionAdopted(fact)
                if fact.workflow == *workflow && fact.edition == *edition =>
            {
                Some(fact.impact)
            }
            _ => None,
        })
    }
}

/// The edition that a module on the shelf is.
///
/// # Errors
///
/// Its digest is none.
pub fn edition_of(taken: &Taken) -> Result<Edition, Problem> {
    let digest = taken.digest.parse();
    Ok(Edition {
        revision: taken.module.identity.revision,
        digest: digest.map_err(|_| Problem::BadModule(taken.digest.clone()))?,
    })
}

/// What a module asks for before somebody is signed off on it.
///
/// A module says nothing of renewals; then [`AGAIN`](crate::syllabus::module::AGAIN) is asked for.
///
/// # Errors
///
/// The module has no `sign-off`, or names something that cannot stand in an entry.
pub fn profile_of(module: &Module) -> Result<SignOffProfile, Problem> {
    profile_with(module, &OwnNumbers::default())
}

/// The same with numbers of the laboratory in the place of the module's.
fn profile_with(module: &Module, numbers: &OwnNumbers) -> Result<SignOffProfile, Problem> {
    let named = &module.identity.id.value;
    let asked = module.sign_off.as_ref();
    let asked = asked.ok_or_else(|| Problem::NoProfile(named.clone()))?;
    let asked = numbers.over(asked);
    asked.sound().map_err(Problem::Asks)?;
    let requires = module.requires.iter().map(|name| id(&name.value));
    let (clean_runs, clean_days) = asked.clean_unaided;
    let (observed, assessors, clean_in_a_row) = asked.observed;
    let (observed_again, assessors_again, clean_again) = asked.again;
    let months = ValidMonths::new(asked.valid_months.clone());
    Ok(SignOffProfile {
        requires: requires.collect::<Result<_, _>>()?,
        first: Needs {
            clean_runs,
            clean_days,
            supervised_cases: asked.supervised_cases,
            observed,
            assessors,
            clean_in_a_row,
            others: Vec::new(),
        },
        again: Needs {
            clean_runs: 0,
            clean_days: 0,
            supervised_cases: 0,
            observed: observed_again,
            assessors: assessors_again,
            clean_in_a_row: clean_again,
            others: Vec::new(),
        },
        valid_months: months.ok_or_else(|| Problem::NoProfile(named.clone()))?,
        effect_check: asked
            .effect_check_days
            .map(|(from_days, to_days)| EffectCheck { from_days, to_days }),
    })
}

fn id(text: &str) -> Result<Id, Problem> {
    text.parse()
        .map_err(|_| Problem::BadModule(text.to_owned()))
}
