//! What a report has to look at besides standings: entries by seal, what was said about them later, and which entry a standing rests on.

use std::borrow::Cow;

use super::ledger::Ledger;
use super::view::View;
use super::{CannotBeShown, Standing};
use crate::record::entry::{Basis, Content, Entry, Signed, SupervisedBy};
use crate::record::scope::{Id, Scope};
use crate::record::seal::Seal;
use crate::units::{PersonCode, Stamp};

/// A correction or a void, as a view sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Amendment<'a> {
    /// The entry that amends.
    pub entry: &'a Entry,
    /// Whether it counts.
    pub force: Force,
}

/// Whether a correction or a void counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Force {
    /// It does.
    Counts,
    /// Not before a second person has signed.
    Waits,
    /// It does not: it was voided itself, or names an old value that did not stand there.
    Fails,
}

/// Who supervises a person, and for how long.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Supervision {
    /// The entry that names the supervisor.
    pub entry: Seal,
    /// The supervisor.
    pub by: PersonCode,
    /// From when…
    pub from: Stamp,
    /// …until when, this instant included.
    pub until: Stamp,
}

impl Ledger {
    /// The entry with this seal; none where it is not here, or nobody had the right to make it.
    #[must_use]
    pub fn get(&self, seal: &Seal) -> Option<&Entry> {
        self.find(seal).map(|at| self.entry(at))
    }

    /// Every entry about a person, by the time when it happened. Corrections, voids and second signatures are about entries and not here.
    pub fn about(&self, person: PersonCode) -> impl Iterator<Item = &Entry> {
        let about = self.about_person(person).iter();
        about.map(|&at| self.entry(at))
    }

    /// Second signatures under an entry, in the order in which they were taken in.
    #[must_use]
    pub fn second_signatures(&self, seal: &Seal) -> Vec<&Entry> {
        let seconds = self.find(seal).map_or(&[][..], |at| self.seconds(at));
        seconds.iter().map(|&at| self.entry(at)).collect()
    }
}

impl<'a> View<'a> {
    /// Whether an entry is here and had been written down.
    #[must_use]
    pub fn sees(&self, seal: &Seal) -> bool {
        self.ledger.find(seal).is_some_and(|at| self.knows(at))
    }

    /// Whether an entry had happened, is known, and is not void.
    #[must_use]
    pub fn has_happened(&self, entry: &Entry) -> bool {
        self.ledger
            .find(&entry.seal())
            .is_some_and(|at| self.counts(at))
    }

    /// The assessments of a person in a scope since the last sign-off in it, voided ones left out: what a sign-off can rest on. Where it is an entry already,
    /// those that were there before it.
    #[must_use]
    pub fn assessed_since(
        &self,
        person: PersonCode,
        scope: &Scope,
        sign_off: Option<&Seal>,
    ) -> Vec<Seal> {
        let end = sign_off.and_then(|seal| self.ledger.find(seal));
        let about = self.ledger.about_person(person).iter().copied();
        let mut found = Vec::new();
        for at in about.filter(|&at| end.is_none_or(|end| at < end)) {
            let entry = self.ledger.entry(at);
            let Some((fact, _)) = entry.signed() else {
                continue;
            };
            if entry.kind().subject().scope != Some(scope) || self.is_void(at) {
                continue;
            }
            match fact {
                Signed::SignedOff(_) | Signed::Withdrawn(_) => found.clear(),
                Signed::Observed(_) | Signed::Evaluated(_) | Signed::CaseChecked(_) => {
                    found.push(entry.seal());
                }
                _ => {}
            }
        }
        found
    }

    /// What a sign-off could have rested on and does not name. Nothing for other entries, and for sign-offs that rest on something else.
    #[must_use]
    pub fn left_out(&self, entry: &Entry) -> Vec<Seal> {
        let Some((Signed::SignedOff(signed), _)) = entry.signed() else {
            return Vec::new();
        };
        let Basis::Evidence(named) = &signed.basis else {
            return Vec::new();
        };
        let mut there = self.assessed_since(signed.person, &signed.scope, Some(&entry.seal()));
        there.retain(|seal| !named.contains(seal));
        there
    }

    /// Whether an entry is void.
    #[must_use]
    pub fn voids(&self, seal: &Seal) -> bool {
        self.ledger.find(seal).is_some_and(|at| self.is_void(at))
    }

    /// What an entry says once it is put right; none where it is not here.
    #[must_use]
    pub fn reads(&self, seal: &Seal) -> Option<Cow<'a, Content>> {
        self.ledger.find(seal).map(|at| self.content(at))
    }

    /// Corrections and voids of an entry that had been written down, by the time when they happened.
    #[must_use]
    pub fn amendments(&self, seal: &Seal) -> Vec<Amendment<'a>> {
        let Some(target) = self.ledger.find(seal) else {
            return Vec::new();
        };
        let applied = self.applied(target).1;
        let mut all: Vec<usize> = self.ledger.amendments(target).to_vec();
        all.sort_by_key(|&at| self.ledger.order(at));
        let known = all.into_iter().filter(|&at| self.knows(at));
        let amendment = |at: usize| {
            let entry = self.ledger.entry(at);
            let counts = match entry.signed() {
                Some((Signed::Corrected(_), _)) => applied.contains(&at),
                _ => self.amends(at, target),
            };
            let force = match counts {
                true => Force::Counts,
                false if self.waits(at) => Force::Waits,
                false => Force::Fails,
            };
            Amendment { entry, force }
        };
        known.map(amendment).collect()
    }

    /// Whether the person was here.
    #[must_use]
    pub fn is_here(&self, person: PersonCode) -> bool {
        let mut here = false;
        for fact in self.facts(person) {
            match fact.signed() {
                Some(Signed::Founded(_) | Signed::Joined(_)) => here = true,
                Some(Signed::Left(_)) => here = false,
                _ => {}
            }
        }
        here
    }

    /// Who is named to supervise the person, and is signed off.
    #[must_use]
    pub fn supervision(&self, person: PersonCode, scope: &Scope) -> Option<Supervision> {
        self.facts(person).find_map(|fact| match fact.signed()? {
            Signed::SupervisedBy(SupervisedBy {
                scope: of,
                from,
                until,
                ..
            }) if of == scope && from.instant() <= self.at && self.at <= until.instant() => {
                let by = fact.signer()?;
                let supervision = Supervision {
                    entry: self.ledger.entry(fact.at).seal(),
                    by,
                    from: *from,
                    until: *until,
                };
                self.is_in_force(by, scope).then_some(supervision)
            }
            _ => None,
        })
    }

    /// The entry that a standing rests on; none where no need is recorded.
    #[must_use]
    pub fn ground(&self, person: PersonCode, scope: &Scope, standing: &Standing) -> Option<Seal> {
        match standing {
            Standing::NotAssigned => None,
            Standing::InTraining | Standing::ReadyForSignOff => {
                let need = self.need(person, scope)?;
                Some(self.ledger.entry(need.at).seal())
            }
            Standing::UnderSupervision { .. } => {
                let supervision = self.supervision(person, scope)?;
                Some(supervision.entry)
            }
            Standing::SignedOff(validity)
            | Standing::Due(validity, _)
            | Standing::Lapsed(validity, _) => Some(validity.sign_off),
            Standing::Suspended { by, .. } | Standing::Withdrawn { by } | Standing::Left { by } => {
                Some(*by)
            }
        }
    }

    /// Why nothing can be shown about a person in a workflow, whatever the scope; none where there is no doubt.
    #[must_use]
    pub fn doubt(&self, person: PersonCode, workflow: &Id) -> Option<CannotBeShown> {
        self.shown(person, workflow).err()
    }
}
