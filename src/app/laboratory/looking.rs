//! What the record is asked: evidence for a sign-off, a member of an entry, whether everything is unaltered.

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use super::Laboratory;
use super::founding::random;
use super::place::{Keeping, Place};
use super::problem::Problem;
use crate::people::{Known as Printed, Name, Salt};
use crate::record::canonical::Value;
use crate::record::entry::Signed;
use crate::record::log::Trouble;
use crate::record::scope::{Id, Scope};
use crate::record::seal::Seal;
use crate::record::verify::{self, Bad, Checked, Hands, Interrupted, Known};
use crate::report::record::erased;
use crate::standing::Reading;
use crate::text::Words;
use crate::units::{Digest, PersonCode};

/// What verification found.
#[derive(Clone, Debug)]
pub struct Checking {
    /// What was checked.
    pub checked: Checked,
    /// What is wrong, in the order in which it was found.
    pub bad: Vec<Bad>,
    /// Rows of the store whose columns do not fit their bytes: strand and number.
    pub misfiled: Vec<(String, i64)>,
}

/// Goes through everything that is stored, without trusting whoever kept it. `passed` is told how many entries are done, and can stop it.
///
/// # Errors
///
/// The record cannot be read to its end.
pub fn verify<P: Place>(
    place: &P,
    hands: &dyn Hands,
    passed: &mut dyn FnMut(u64) -> ControlFlow<()>,
) -> Result<Checking, Problem> {
    let heads = place.heads()?;
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let mut bad = Vec::new();
    let strands = place.log().everything()?;
    let checked = verify::verify(strands, known, hands, &mut |one| bad.push(one), passed);
    let checked = checked.map_err(|why| match why {
        Interrupted::Trouble(trouble) => Problem::Trouble(trouble),
        Interrupted::Stopped => Problem::Trouble(Trouble::Unreachable),
    })?;
    Ok(Checking {
        checked,
        bad,
        misfiled: place.misfiled()?,
    })
}

impl<P: Place> Laboratory<P> {
    /// What is printed for everybody who is in the register: the name, or that it was erased.
    ///
    /// # Errors
    ///
    /// The register cannot be read.
    pub fn printed_names(&self, words: &Words) -> Result<BTreeMap<PersonCode, String>, Problem> {
        let register = self.register()?;
        let now = self.now().instant();
        let names = register.rows().map(|(code, _)| {
            let name = match register.name(code, now) {
                Printed::Name(name) => name.as_str().to_owned(),
                Printed::Erased => erased(code, words),
                Printed::Nobody => String::new(),
            };
            (code, name)
        });
        Ok(names.collect())
    }

    /// Every workflow that the record knows, sorted.
    #[must_use]
    pub fn workflows(&self) -> Vec<Id> {
        let entries = self.ledger.entries().iter();
        let mut all: Vec<Id> = entries
            .filter_map(|entry| entry.kind().subject().workflow.cloned())
            .collect();
        all.sort();
        all.dedup();
        all
    }

    /// The assessments of a person in a scope since the last sign-off in it, voided ones left out: what a sign-off can rest on.
    #[must_use]
    pub fn evidence(&self, person: PersonCode, scope: &Scope) -> Vec<Seal> {
        let view = self.view(self.now().instant(), Reading::AsNowKnown);
        view.assessed_since(person, scope, None)
    }

    /// What a reinstatement after a suspension can rest on: its workflow, and the assessments of the person there since. None where it is no suspension
    /// of that person.
    #[must_use]
    pub fn reinstating(&self, person: PersonCode, suspension: &Seal) -> Option<(Id, Vec<Seal>)> {
        let entry = self.ledger.get(suspension)?;
        let (Signed::Suspended(suspended), _) = entry.signed()? else {
            return None;
        };
        if suspended.person != person {
            return None;
        }
        let view = self.view(self.now().instant(), Reading::AsNowKnown);
        let since = entry.frame().happened.instant();
        let about = self.ledger.about(person).filter(|one| {
            let assesses = matches!(
                one.signed(),
                Some((
                    Signed::Observed(_) | Signed::Evaluated(_) | Signed::CaseChecked(_),
                    _
                ))
            );
            assesses
                && one.kind().subject().workflow == Some(&suspended.workflow)
                && one.frame().happened.instant() > since
                && !view.voids(&one.seal())
        });
        let seen = about.map(crate::record::entry::Entry::seal).collect();
        Some((suspended.workflow.clone(), seen))
    }

    /// What a member of an entry says, as it was put right so far.
    #[must_use]
    pub fn member(&self, seal: &Seal, member: &Id) -> Option<Value> {
        let view = self.view(self.now().instant(), Reading::AsNowKnown);
        view.reads(seal)?.member(&member.to_string())
    }

    /// Hides a name that is not in the register in its commitment. What opens the commitment is attached, and can be erased.
    ///
    /// # Errors
    ///
    /// It cannot be attached.
    pub fn commit(&mut self, name: &Name) -> Result<Digest, Problem> {
        let salt = Salt(random(&self.place)?);
        let commitment = name.commitment(&salt);
        let opened = name.opening(&salt);
        let attached = self.place.attach(&opened, Keeping::Erasable)?;
        debug_assert_eq!(attached, commitment);
        Ok(commitment)
    }

    /// What is missing at the end of a strand: its name, and number and seal of the last entry that is remembered.
    #[must_use]
    pub fn cut_off(&self) -> Option<(Id, u64, Seal)> {
        let (strand, _) = self.cut_off.as_ref()?;
        let heads = self.place.heads().ok()?;
        heads.into_iter().find(|(other, ..)| other == strand)
    }
}
