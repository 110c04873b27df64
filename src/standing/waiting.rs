//! What waits for somebody: entries that count only once a second person has signed, runs that the technician has not taken note of, and people who
//! are in training again.

use super::evidence::{Need, Readiness};
use super::looking::Force;
use super::view::View;
use crate::record::authority::Staff;
use crate::record::entry::{Amending, Entry, Signed};
use crate::record::scope::{Meaning, Scope};
use crate::record::seal::Seal;
use crate::units::{PersonCode, Stamp};

/// What was done last to show that the record is whole and can be had again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LookedAfter {
    /// When somebody last signed that they had gone through the entries.
    pub reviewed: Option<Stamp>,
    /// When the last copy was made.
    pub copied: Option<Stamp>,
}

/// Why somebody is in training again who had got further.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetBack {
    /// An observed run was failed, and no training came after it.
    Failed,
    /// Something else that comes before supervised work is missing again, such as a new revision that has to be read.
    Missing,
    /// Nobody supervises the person any more.
    Unsupervised,
}

impl<'a> View<'a> {
    /// Why a person in training had got further before; none where they never had. `readiness` is what they have and lack.
    #[must_use]
    pub fn set_back(
        &self,
        person: PersonCode,
        scope: &Scope,
        readiness: &Readiness,
    ) -> Option<SetBack> {
        if readiness.missing.contains(&Need::TrainedAfterFailure) {
            return Some(SetBack::Failed);
        }
        let floor = self.floor(person, scope).map(|fact| fact.order);
        let was_supervised = self.facts_in(person, &scope.workflow).any(|fact| {
            Some(fact.order) > floor
                && matches!(fact.signed(), Some(Signed::SupervisedBy(named))
                    if named.scope == *scope && named.from.instant() <= self.at)
        });
        was_supervised.then(|| {
            if readiness.may_be_supervised() {
                SetBack::Unsupervised
            } else {
                SetBack::Missing
            }
        })
    }

    /// Entries that do not count yet for want of a second signature, in the order in which they were taken in.
    #[must_use]
    pub fn waiting(&self) -> Vec<&'a Entry> {
        let entries = self.ledger.entries().iter().enumerate();
        let waiting = entries.filter(|&(at, _)| self.waits(at));
        waiting.map(|(_, entry)| entry).collect()
    }

    /// Whether an entry does not count yet for want of a second signature.
    pub(super) fn waits(&self, at: usize) -> bool {
        let wants = || self.wants_second(at, self.ledger.entry(at));
        self.counts(at) && wants() && self.second(at).is_none()
    }

    /// Whether a correction or a void of an entry does not count yet for want of a second signature.
    #[must_use]
    pub fn has_waiting_amendment(&self, seal: &Seal) -> bool {
        let amendments = self.amendments(seal);
        amendments.iter().any(|one| one.force == Force::Waits)
    }

    fn wants_second(&self, at: usize, entry: &Entry) -> bool {
        let of_target = |target| {
            let target = self.ledger.find(&target);
            let amending = target.map(|target| self.ledger.entry(target).kind().amending());
            matches!(amending, Some(Amending::Critical | Amending::VoidOnly))
        };
        match entry.signed().map(|(fact, _)| fact) {
            Some(Signed::Corrected(fact)) => of_target(fact.target),
            Some(Signed::Voided(fact)) => of_target(fact.target),
            Some(Signed::RevisionAdopted(_)) => !self.was_alone(at),
            Some(Signed::KeyIssued(fact)) => self.had_a_key(fact.person, at),
            Some(Signed::Reinstated(fact)) => fact.proof.is_none() || !self.was_alone(at),
            _ => false,
        }
    }

    /// Whether the person was given a key before this place: a key in the place of another takes two.
    fn had_a_key(&self, person: PersonCode, at: usize) -> bool {
        let mut about = self.ledger.about_person(person).iter();
        about.any(|&other| {
            let fact = self.ledger.entry(other).signed().map(|(fact, _)| fact);
            other < at && matches!(fact, Some(Signed::KeyIssued(_) | Signed::Founded(_)))
        })
    }

    /// Observed runs of a person that the person has not taken note of, in the order in which they happened.
    #[must_use]
    pub fn unacknowledged(&self, person: PersonCode) -> Vec<&'a Entry> {
        let about = self.ledger.about_person(person).iter();
        let runs = about.filter(|&&at| {
            let entry = self.ledger.entry(at);
            let observed = matches!(entry.signed(), Some((Signed::Observed(_), _)));
            observed && self.counts(at) && !self.is_acknowledged(at, person)
        });
        runs.map(|&at| self.ledger.entry(at)).collect()
    }

    fn is_acknowledged(&self, at: usize, by: PersonCode) -> bool {
        let mut seconds = self.ledger.seconds(at).iter();
        seconds.any(|&second| {
            let signed = self.ledger.entry(second).signed();
            self.knows(second)
                && signed.is_some_and(|(_, signing)| {
                    signing.by == by && signing.meaning == Meaning::Acknowledged
                })
        })
    }

    /// When the record was last gone through, and last copied.
    #[must_use]
    pub fn looked_after(&self) -> LookedAfter {
        let mut last = LookedAfter::default();
        for (at, entry) in self.ledger.entries().iter().enumerate() {
            let known = match entry.signed().map(|(fact, _)| fact) {
                Some(Signed::TrailReviewed(_)) => &mut last.reviewed,
                _ if entry.word() == "backup-made" => &mut last.copied,
                _ => continue,
            };
            if self.counts(at) {
                let this = entry.frame().happened;
                let later = known.is_none_or(|one| one.instant() < this.instant());
                *known = if later { Some(this) } else { *known };
            }
        }
        last
    }

    /// Whether a person may be the second to sign an entry: neither its signer nor the one it is about, and entitled to.
    #[must_use]
    pub fn may_second(&self, person: PersonCode, entry: &Entry) -> bool {
        let staff: &Staff = self.ledger.staff();
        let subject = entry.kind().subject();
        let target = entry.kind().refers().into_iter().next();
        let target = target.and_then(|target| self.ledger.get(&target));
        let target = target.map(|target| target.kind().subject());
        let about = subject
            .person
            .or_else(|| target.and_then(|target| target.person));
        let workflow = subject
            .workflow
            .or_else(|| target.and_then(|target| target.workflow));
        let other = entry.actor() != Some(person) && about != Some(person);
        other
            && staff
                .grant(person, entry.kind().seconds(), workflow)
                .is_some()
    }
}
