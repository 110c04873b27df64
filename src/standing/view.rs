//! The fold: entries as they count at an instant, and the standing that follows.

use std::borrow::Cow;

use super::evidence::Readiness;
use super::ledger::Ledger;
use super::policy::Policy;
use super::{CannotBeShown, Order, Standing};
use crate::record::entry::{
    Amending, Assigned, Content, Impact, Left, Noted, RevisionAdopted, SignOffProfile, Signed,
};
use crate::record::scope::{Edition, Id, Meaning, Scope};
use crate::record::seal::Seal;
use crate::units::{Instant, PersonCode, Stamp};

/// Which entries count (rule R1).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Everything that is known now about what had happened by then.
    AsNowKnown,
    /// Only what had been written down by then.
    AsRecordedThen,
    /// Only what had been written down by this other instant, which is printed in the offset of its day.
    AsRecordedBy(Stamp),
}

/// Entries as they count at an instant.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    pub(super) ledger: &'a Ledger,
    pub(super) at: Instant,
    /// Entries written down later do not count; all count where it is not set.
    known_by: Option<Instant>,
}

/// An entry that counts, as it reads once put right.
#[derive(Clone, Debug)]
pub(super) struct Fact<'a> {
    pub(super) at: usize,
    pub(super) order: Order<'a>,
    content: Cow<'a, Content>,
}

impl Fact<'_> {
    /// The signed fact; none for what the machine noted.
    pub(super) fn signed(&self) -> Option<&Signed> {
        match &*self.content {
            Content::Signed { fact, .. } => Some(fact),
            Content::Noted(_) => None,
        }
    }

    pub(super) fn noted(&self) -> Option<&Noted> {
        match &*self.content {
            Content::Noted(fact) => Some(fact),
            Content::Signed { .. } => None,
        }
    }

    pub(super) fn signer(&self) -> Option<PersonCode> {
        match &*self.content {
            Content::Signed { signing, .. } => Some(signing.by),
            Content::Noted(_) => None,
        }
    }

    pub(super) fn instant(&self) -> Instant {
        self.order.0
    }
}

/// A revision that the laboratory adopted.
#[derive(Clone, Debug)]
pub(super) struct Adopted {
    pub(super) edition: Edition,
    pub(super) impact: Impact,
    /// What a sign-off asks for, as each signing of the edition says; in the order of the record, never empty.
    asks: Vec<Asks>,
    /// From when it holds.
    pub(super) start: Instant,
    pub(super) order: (Instant, Id, u64),
    /// The entry.
    pub(super) entry: Seal,
}

/// What one signing of an edition says that a sign-off asks for.
#[derive(Clone, Debug)]
struct Asks {
    /// The entry.
    by: usize,
    /// From when it holds.
    from: Instant,
    profile: SignOffProfile,
}

impl Adopted {
    /// What a sign-off on the edition asks for at an instant. Before the edition holds, what it will ask for then.
    pub(super) fn profile(&self, at: Instant) -> &SignOffProfile {
        let at = at.max(self.start);
        let said = self.asks.iter().rfind(|one| one.from <= at);
        &said.unwrap_or(&self.asks[0]).profile
    }

    /// What the last signing of the edition says that a sign-off asks for, whether it holds already or not.
    pub(super) fn newest_profile(&self) -> &SignOffProfile {
        &self.asks[self.asks.len() - 1].profile
    }
}

impl<'a> View<'a> {
    /// The entries as they count at an instant.
    #[must_use]
    pub fn new(ledger: &'a Ledger, at: Instant, reading: Reading) -> View<'a> {
        View {
            ledger,
            at,
            known_by: match reading {
                Reading::AsNowKnown => None,
                Reading::AsRecordedThen => Some(at),
                Reading::AsRecordedBy(by) => Some(by.instant()),
            },
        }
    }

    /// The same knowledge of another instant.
    #[must_use]
    pub fn of(self, at: Instant) -> View<'a> {
        View { at, ..self }
    }

    /// The standing of a person in a scope.
    ///
    /// # Errors
    ///
    /// Verification found something wrong with what the standing rests on.
    pub fn standing(&self, person: PersonCode, scope: &Scope) -> Result<Standing, CannotBeShown> {
        self.shown(person, &scope.workflow)?;
        if let Some(stopped) = self.ended(person, scope) {
            return Ok(stopped);
        }
        if let Some(suspended) = self.suspended(person, &scope.workflow) {
            return Ok(suspended);
        }
        if let Some(standing) = self.by_sign_off(person, scope) {
            return Ok(standing);
        }
        if self.need(person, scope).is_none() {
            return Ok(Standing::NotAssigned);
        }
        let readiness = self.readiness(person, scope);
        Ok(if !readiness.may_be_supervised() {
            Standing::InTraining
        } else if readiness.is_complete() {
            Standing::ReadyForSignOff
        } else if let Some(supervision) = self.supervision(person, scope) {
            Standing::UnderSupervision {
                supervisor: supervision.by,
            }
        } else {
            Standing::InTraining
        })
    }

    /// What a sign-off on the edition in force has and lacks.
    #[must_use]
    pub fn readiness(&self, person: PersonCode, scope: &Scope) -> Readiness {
        let current = self.current(&scope.workflow);
        self.readiness_for(person, scope, current.map(|adopted| adopted.edition))
    }

    /// Whether the person may work alone in the scope.
    #[must_use]
    pub fn is_in_force(&self, person: PersonCode, scope: &Scope) -> bool {
        self.ended(person, scope).is_none()
            && self.suspended(person, &scope.workflow).is_none()
            && self.holds(person, scope)
    }

    /// Every scope of a workflow that the person was ever assigned or signed off for.
    #[must_use]
    pub fn scopes(&self, person: PersonCode, workflow: Option<&Id>) -> Vec<Scope> {
        let about = match workflow {
            Some(workflow) => self.ledger.about_person_in(person, workflow),
            None => self.ledger.about_person(person),
        };
        let mut scopes: Vec<Scope> = self
            .counting(about)
            .filter_map(|fact| match fact.signed()? {
                Signed::Assigned(Assigned { scope, .. }) => Some(scope.clone()),
                Signed::SignedOff(signed) => Some(signed.scope.clone()),
                _ => None,
            })
            .filter(|scope| workflow.is_none_or(|workflow| scope.workflow == *workflow))
            .collect();
        scopes.sort();
        scopes.dedup();
        scopes
    }

    /// Whether the person may work alone in some scope of a workflow.
    #[must_use]
    pub fn is_in_force_in(&self, person: PersonCode, workflow: &Id) -> bool {
        let scopes = self.scopes(person, Some(workflow));
        scopes.iter().any(|scope| self.is_in_force(person, scope))
    }

    /// The edition in force.
    #[must_use]
    pub fn edition(&self, workflow: &Id) -> Option<Edition> {
        self.current(workflow).map(|adopted| adopted.edition)
    }

    /// Every edition that both have signed, by revision, with the instant from which it holds.
    #[must_use]
    pub fn editions(&self, workflow: &Id) -> Vec<(Edition, Instant)> {
        let adopted = self.adopted(workflow).into_iter();
        adopted.map(|one| (one.edition, one.start)).collect()
    }

    /// From when an entry that adopts an edition holds; none where two have not signed it, or another text has its number.
    #[must_use]
    pub fn start_of(&self, workflow: &Id, seal: &Seal) -> Option<Instant> {
        let at = self.ledger.find(seal)?;
        let adopted = self.adopted(workflow).into_iter();
        let mut asks = adopted.flat_map(|one| one.asks);
        asks.find(|one| one.by == at).map(|one| one.from)
    }

    /// The laboratory's numbers in force.
    #[must_use]
    pub fn policy(&self) -> Policy {
        let newest = self
            .ledger
            .policies()
            .iter()
            .rev()
            .find(|&&at| self.counts(at));
        let set = newest.map(|&at| self.ledger.entry(at).content());
        match set {
            Some(Content::Signed {
                fact: Signed::PolicySet(set),
                ..
            }) => Policy::from(set),
            _ => Policy::default(),
        }
    }

    /// Whether an entry had happened, is known, and is not void.
    pub(super) fn counts(&self, at: usize) -> bool {
        let frame = self.ledger.entry(at).frame();
        frame.happened.instant() <= self.at && self.knows(at) && !self.is_void(at)
    }

    /// Whether an entry had been written down.
    pub(super) fn knows(&self, at: usize) -> bool {
        let recorded = self.ledger.entry(at).frame().recorded.instant();
        self.known_by.is_none_or(|by| recorded <= by)
    }

    pub(super) fn is_void(&self, at: usize) -> bool {
        let voids = |other: &&usize| {
            let signed = self.ledger.entry(**other).signed();
            matches!(signed, Some((Signed::Voided(_), _))) && self.amends(**other, at)
        };
        self.ledger.amendments(at).iter().any(|other| voids(&other))
    }

    /// Whether a correction or a void counts: known, not void, and signed by a second person where its target asks for one.
    pub(super) fn amends(&self, amendment: usize, target: usize) -> bool {
        if !self.knows(amendment) || self.is_void(amendment) {
            return false;
        }
        match self.ledger.entry(target).kind().amending() {
            Amending::Never => false,
            Amending::Free => true,
            Amending::Critical | Amending::VoidOnly => self.second(amendment).is_some(),
        }
    }

    /// When a second person signed an entry: neither its signer nor the person that it is about, and entitled to.
    pub(super) fn second(&self, at: usize) -> Option<Instant> {
        let entry = self.ledger.entry(at);
        let subject = entry.kind().subject();
        let target = entry
            .kind()
            .refers()
            .first()
            .and_then(|target| self.ledger.find(target));
        let target = target.map(|target| self.ledger.entry(target).kind().subject());
        let about = subject
            .person
            .or_else(|| target.and_then(|target| target.person));
        let workflow = subject
            .workflow
            .or_else(|| target.and_then(|target| target.workflow));
        let seconds = self.ledger.seconds(at).iter().copied();
        let seconds = seconds.filter(|&second| {
            let Some((_, signing)) = self.ledger.entry(second).signed() else {
                return false;
            };
            self.knows(second)
                && signing.meaning == Meaning::Approved
                && Some(signing.by) != entry.actor()
                && Some(signing.by) != about
                && self
                    .ledger
                    .is_under(second, entry.kind().seconds(), workflow)
        });
        seconds.map(|second| self.ledger.order(second).0).min()
    }

    /// What counts about a person, in order.
    pub(super) fn facts(&self, person: PersonCode) -> impl Iterator<Item = Fact<'a>> + use<'a> {
        self.counting(self.ledger.about_person(person))
    }

    /// What counts about a person and may be about a workflow, in order.
    pub(super) fn facts_in(
        &self,
        person: PersonCode,
        workflow: &Id,
    ) -> impl Iterator<Item = Fact<'a>> + use<'a> {
        self.counting(self.ledger.about_person_in(person, workflow))
    }

    fn counting(&self, entries: &'a [usize]) -> impl Iterator<Item = Fact<'a>> + use<'a> {
        let view = *self;
        let counting = entries.iter().copied().filter(move |&at| view.counts(at));
        counting.map(move |at| view.fact(at))
    }

    pub(super) fn fact(&self, at: usize) -> Fact<'a> {
        Fact {
            at,
            order: self.ledger.order(at),
            content: self.content(at),
        }
    }

    /// What an entry says once it is put right.
    pub(super) fn content(&self, at: usize) -> Cow<'a, Content> {
        self.applied(at).0
    }

    /// What an entry says once it is put right, and by which corrections.
    pub(super) fn applied(&self, at: usize) -> (Cow<'a, Content>, Vec<usize>) {
        let mut content = Cow::Borrowed(self.ledger.entry(at).content());
        let mut applied = Vec::new();
        let mut amendments = self.ledger.amendments(at).to_vec();
        amendments.sort_by_key(|&amendment| self.ledger.order(amendment));
        for amendment in amendments {
            let Some((Signed::Corrected(fact), _)) = self.ledger.entry(amendment).signed() else {
                continue;
            };
            let member = fact.member.to_string();
            if !self.amends(amendment, at) || content.member(&member) != fact.old {
                continue;
            }
            if let Ok(next) = content.with(&member, fact.new.clone()) {
                content = Cow::Owned(next);
                applied.push(amendment);
            }
        }
        (content, applied)
    }

    /// The last entry that ended everything in a scope, whatever came after it.
    pub(super) fn floor(&self, person: PersonCode, scope: &Scope) -> Option<Fact<'a>> {
        let own = self
            .facts_in(person, &scope.workflow)
            .filter(|fact| match fact.signed() {
                Some(Signed::Left(Left { .. })) => true,
                Some(Signed::Withdrawn(withdrawn)) => withdrawn.scope == *scope,
                _ => false,
            });
        let retired = self.workflow_facts(&scope.workflow);
        let retired =
            retired.filter(|fact| matches!(fact.signed(), Some(Signed::WorkflowRetired(_))));
        own.chain(retired).max_by_key(|fact| fact.order)
    }

    /// The first need after the last end.
    pub(super) fn need(&self, person: PersonCode, scope: &Scope) -> Option<Fact<'a>> {
        let floor = self.floor(person, scope).map(|fact| fact.order);
        self.facts_in(person, &scope.workflow).find(|fact| {
            let assigned =
                matches!(fact.signed(), Some(Signed::Assigned(need)) if need.scope == *scope);
            assigned && Some(fact.order) > floor
        })
    }

    fn workflow_facts(&self, workflow: &Id) -> impl Iterator<Item = Fact<'a>> + use<'a> {
        self.counting(self.ledger.about_workflow(workflow))
    }

    /// Withdrawn or left, unless a need came after.
    fn ended(&self, person: PersonCode, scope: &Scope) -> Option<Standing> {
        let floor = self.floor(person, scope)?;
        if self.need(person, scope).is_some() {
            return None;
        }
        // Several ends may have come after the last need: leaving is the strictest.
        let last_need = self
            .facts_in(person, &scope.workflow)
            .filter(|fact| matches!(fact.signed(), Some(Signed::Assigned(need)) if need.scope == *scope))
            .last()
            .map(|fact| fact.order);
        let left = self
            .facts_in(person, &scope.workflow)
            .filter(|fact| matches!(fact.signed(), Some(Signed::Left(_))))
            .chain(
                self.workflow_facts(&scope.workflow)
                    .filter(|fact| matches!(fact.signed(), Some(Signed::WorkflowRetired(_)))),
            )
            .filter(|fact| Some(fact.order) > last_need)
            .max_by_key(|fact| fact.order);
        let seal = |fact: &Fact<'_>| self.ledger.entry(fact.at).seal();
        Some(match left {
            Some(left) => Standing::Left { by: seal(&left) },
            None => Standing::Withdrawn { by: seal(&floor) },
        })
    }

    /// The first suspension in a workflow that nothing has lifted (rule R13).
    pub(super) fn suspended(&self, person: PersonCode, workflow: &Id) -> Option<Standing> {
        let lifts = |by: Seal| {
            // Whatever workflow a reinstatement is about: it names the suspension.
            self.facts(person).any(|fact| {
                matches!(fact.signed(), Some(Signed::Reinstated(lifted))
                    if lifted.suspension == by && self.reinstates(&fact, lifted.proof.is_some()))
            })
        };
        let mut about = self.facts_in(person, workflow);
        about.find_map(|fact| match fact.signed()? {
            Signed::Suspended(suspended) if suspended.workflow == *workflow => {
                let by = self.ledger.entry(fact.at).seal();
                let allowed = suspended.allowed;
                (!lifts(by)).then_some(Standing::Suspended { by, allowed })
            }
            _ => None,
        })
    }

    /// Whether a reinstatement counts: signed by a second person, or alone where the policy says that there is none.
    fn reinstates(&self, fact: &Fact<'_>, proof: bool) -> bool {
        let second = self.second(fact.at);
        second.is_some_and(|second| second <= self.at) || proof && self.was_alone(fact.at)
    }

    /// Whether the policy said, when an entry was written down, that nobody can assess independently.
    pub(super) fn was_alone(&self, at: usize) -> bool {
        let recorded = self.ledger.entry(at).frame().recorded.instant();
        self.of(recorded).policy().is_alone()
    }

    /// The revisions of a workflow that both have signed, by number. Of two with one number, the first counts; one with the same text
    /// changes what later sign-offs ask for, and nothing else.
    pub(super) fn adopted(&self, workflow: &Id) -> Vec<Adopted> {
        let mut all: Vec<Adopted> = self
            .workflow_facts(workflow)
            .filter_map(|fact| {
                let Some(Signed::RevisionAdopted(RevisionAdopted {
                    edition,
                    effective,
                    impact,
                    profile,
                    ..
                })) = fact.signed()
                else {
                    return None;
                };
                let second = self.second(fact.at);
                let alone = || self.was_alone(fact.at).then_some(fact.instant());
                let decided = second.or_else(alone)?.max(fact.instant());
                let start = decided.max(effective.instant());
                (decided <= self.at).then(|| Adopted {
                    edition: edition.clone(),
                    impact: *impact,
                    asks: vec![Asks {
                        by: fact.at,
                        from: start,
                        profile: profile.clone(),
                    }],
                    start,
                    order: (fact.order.0, fact.order.1.clone(), fact.order.2),
                    entry: self.ledger.entry(fact.at).seal(),
                })
            })
            .collect();
        all.sort_by(|one, other| {
            let by = |adopted: &Adopted| (adopted.edition.revision, adopted.order.clone());
            by(one).cmp(&by(other))
        });
        all.dedup_by(|again, first| {
            if again.edition == first.edition {
                first.asks.append(&mut again.asks);
            }
            again.edition.revision == first.edition.revision
        });
        all
    }

    /// The revision in force.
    pub(super) fn current(&self, workflow: &Id) -> Option<Adopted> {
        let adopted = self.adopted(workflow);
        adopted
            .into_iter()
            .rfind(|adopted| adopted.start <= self.at)
    }
}
