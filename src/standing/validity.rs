//! How long a sign-off holds, what makes it due, and what ends it (rules R2, R3, R11, R12, R14).

use super::Standing;
use super::view::{Adopted, Fact, View};
use crate::record::entry::{
    Basis, Cause, Effect, EffectCheck, Evaluated, Impact, Signed, SignedOff, Stage,
};
use crate::record::scope::{Edition, Scope};
use crate::record::seal::Seal;
use crate::units::{Instant, Offset, PersonCode, Stamp};

use super::evidence::{Run, run_of};

/// A sign-off and how long it holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Validity {
    /// The entry.
    pub sign_off: Seal,
    /// Who signed.
    pub by: PersonCode,
    /// On which edition.
    pub edition: Edition,
    /// From when.
    pub from: Instant,
    /// Until when, this instant included, as things stand.
    pub until: Instant,
    /// The offset that days were counted in.
    pub offset: Offset,
    /// What every report has to print with it.
    pub remarks: Vec<Remark>,
}

/// What lets a sign-off cover a later revision too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CarriedBy {
    /// The revision asked for nothing.
    NothingAsked,
    /// The person did what it asked for: was trained on it, or took note of it.
    Entry(Seal),
}

/// What has to be printed with a sign-off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remark {
    /// Whoever approved had trained the person (rule R6).
    ApproverTrained,
    /// Whoever approved had assessed the person.
    ApproverAssessed,
    /// The person was the first who could assess (rule R7).
    FirstAssessor,
    /// There was no independent assessor.
    NoIndependentAssessor,
}

/// Why a sign-off is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DueCause {
    /// Its end is near, or passed within the grace.
    Interval,
    /// Somebody called the person in, by this entry.
    CalledIn(Cause, Seal),
    /// An observation was failed.
    Failed(Seal),
    /// Training was found not to have worked.
    NotEffective(Seal),
    /// Nobody has asked in time whether training worked.
    EffectNotChecked,
    /// A revision was adopted that it will not cover.
    Revision(u32),
    /// What it rests on counts no longer.
    ToReview(Seal),
}

impl DueCause {
    /// The entry that made it due; none where only time did, or what nobody did.
    #[must_use]
    pub fn entry(&self) -> Option<Seal> {
        match self {
            DueCause::CalledIn(_, entry)
            | DueCause::Failed(entry)
            | DueCause::NotEffective(entry)
            | DueCause::ToReview(entry) => Some(*entry),
            DueCause::Interval | DueCause::EffectNotChecked | DueCause::Revision(_) => None,
        }
    }
}

/// Why a sign-off has ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LapseCause {
    /// Its time was over.
    Interval,
    /// It was due for the cause that this entry tells, and nothing was done in time.
    NotReassessed(Seal),
    /// A revision of this number holds, adopted by this entry, that it does not cover.
    Revision(u32, Seal),
}

impl LapseCause {
    /// The entry that ended it; none where only its time was over.
    #[must_use]
    pub fn entry(self) -> Option<Seal> {
        match self {
            LapseCause::Interval => None,
            LapseCause::NotReassessed(entry) | LapseCause::Revision(_, entry) => Some(entry),
        }
    }
}

/// A sign-off that counts.
#[derive(Clone, Debug)]
pub(super) struct Accepted<'a> {
    pub(super) fact: Fact<'a>,
    pub(super) signed: SignedOff,
    pub(super) from: Instant,
    /// For how many months it holds, and when it is to be asked whether training worked: as its edition said when it was signed.
    profile_months: u16,
    effect_check: Option<EffectCheck>,
}

/// The sign-off that began last.
struct Held<'a> {
    latest: Accepted<'a>,
    /// The offset that days were counted in.
    offset: Offset,
    /// Until when it holds, this instant included…
    until: Instant,
    /// …and what ends it then.
    ends_by: LapseCause,
    /// What makes it due by its time, by what happened since, and by revisions.
    causes: Vec<DueCause>,
    /// Later revisions that it covers too.
    carried: Vec<(u32, CarriedBy)>,
}

impl<'a> View<'a> {
    /// The sign-offs of a person in a scope since the last end, in order.
    pub(super) fn sign_offs(&self, person: PersonCode, scope: &Scope) -> Vec<Accepted<'a>> {
        let floor = self.floor(person, scope).map(|fact| fact.order);
        let adopted = self.adopted(&scope.workflow);
        let mut all: Vec<Accepted<'a>> = Vec::new();
        for fact in self.facts_in(person, &scope.workflow) {
            let Some(Signed::SignedOff(signed)) = fact.signed() else {
                continue;
            };
            let on = adopted
                .iter()
                .find(|adopted| adopted.edition == signed.edition);
            let (true, true, Some(on)) = (signed.scope == *scope, Some(fact.order) > floor, on)
            else {
                continue;
            };
            if fact.signer() == Some(person) && !self.was_alone(fact.at) {
                continue;
            }
            let frame = self.ledger.entry(fact.at).frame();
            // Never before the signature (rule R2), and never before what was signed for holds.
            let signed_at = frame.recorded.instant().max(frame.happened.instant());
            let from = signed.valid_from.instant().max(signed_at).max(on.start);
            let signed = signed.clone();
            let profile = on.profile(signed_at);
            all.push(Accepted {
                fact,
                signed,
                from,
                profile_months: profile.valid_months.after(all.len()),
                effect_check: profile.effect_check.clone(),
            });
        }
        all
    }

    /// Later revisions that the sign-off which began last covers too, by number, each with what carried it over.
    #[must_use]
    pub fn carried(&self, person: PersonCode, scope: &Scope) -> Vec<(u32, CarriedBy)> {
        self.held(person, scope)
            .map_or_else(Vec::new, |held| held.carried)
    }

    /// Signed off, due or lapsed; none where no sign-off holds yet.
    pub(super) fn by_sign_off(&self, person: PersonCode, scope: &Scope) -> Option<Standing> {
        let Held {
            latest,
            offset,
            until,
            ends_by,
            mut causes,
            ..
        } = self.held(person, scope)?;
        causes.extend(self.effect_not_checked(person, scope, &latest));
        causes.extend(self.unsound(&latest));
        let validity = Validity {
            sign_off: self.ledger.entry(latest.fact.at).seal(),
            by: latest.fact.signer()?,
            edition: latest.signed.edition.clone(),
            from: latest.from,
            until,
            offset,
            remarks: self.remarks(person, scope, &latest),
        };
        Some(if self.at > until {
            Standing::Lapsed(validity, ends_by)
        } else if causes.is_empty() {
            Standing::SignedOff(validity)
        } else {
            Standing::Due(validity, causes)
        })
    }

    /// Whether a sign-off has begun and not ended, due or not. That rests on no other person's standing, so that asking it of an assessor, and
    /// of theirs, goes no deeper.
    pub(super) fn holds(&self, person: PersonCode, scope: &Scope) -> bool {
        self.held(person, scope)
            .is_some_and(|held| self.at <= held.until)
    }

    /// The sign-off that began last, and when it ends.
    fn held(&self, person: PersonCode, scope: &Scope) -> Option<Held<'a>> {
        let all = self.sign_offs(person, scope);
        let begun = all.into_iter().filter(|accepted| accepted.from <= self.at);
        let latest = begun.max_by_key(|accepted| (accepted.from, accepted.fact.order))?;
        let policy = self.policy();
        let window = i64::from(policy.due_days);
        let offset = self.ledger.entry(latest.fact.at).frame().recorded.offset();
        let natural = Stamp::new(latest.from, offset).map_or(latest.from, |from| {
            from.day()
                .plus_months(latest.profile_months)
                .last_instant(offset)
        });
        let mut causes = Vec::new();
        if self.at > natural.plus_days(-window) {
            causes.push(DueCause::Interval);
        }
        // The earliest trigger cuts the time short (rule R3).
        let (mut until, mut ends_by) = (natural, LapseCause::Interval);
        for (at, entry, cause) in self.triggers(person, scope, &latest) {
            causes.push(cause);
            let end = at.plus_days(window);
            if end < until {
                (until, ends_by) = (end, LapseCause::NotReassessed(entry));
            }
        }
        until = until.plus_days(i64::from(policy.grace_days));
        let adopted = self.adopted(&scope.workflow);
        let newer = adopted
            .iter()
            .filter(|one| one.edition.revision > latest.signed.edition.revision);
        let mut carried = Vec::new();
        for revision in newer {
            let number = revision.edition.revision;
            if let Some(by) = self.carries_over(person, scope, revision) {
                carried.push((number, by));
                continue;
            }
            causes.push(DueCause::Revision(number));
            let end = revision.start.plus_seconds(-1);
            if end < until {
                (until, ends_by) = (end, LapseCause::Revision(number, revision.entry));
            }
        }
        Some(Held {
            latest,
            offset,
            until,
            ends_by,
            causes,
            carried,
        })
    }

    /// What happened since that makes a sign-off due, with when and by which entry.
    fn triggers(
        &self,
        person: PersonCode,
        scope: &Scope,
        latest: &Accepted<'_>,
    ) -> Vec<(Instant, Seal, DueCause)> {
        let since = self
            .facts_in(person, &scope.workflow)
            .filter(|fact| fact.order > latest.fact.order);
        since
            .filter_map(|fact| {
                let seal = self.ledger.entry(fact.at).seal();
                let cause = match fact.signed()? {
                    Signed::CalledIn(call) if call.scope == *scope => {
                        DueCause::CalledIn(call.cause, seal)
                    }
                    // Whoever saw it: a failure makes due whether or not it would have counted as evidence.
                    Signed::Observed(seen)
                        if seen.scope == *scope && run_of(seen) == Run::Failed =>
                    {
                        DueCause::Failed(seal)
                    }
                    Signed::Evaluated(Evaluated {
                        scope: of,
                        stage: Stage::Later,
                        effect: Effect::NotEffective,
                        ..
                    }) if of == scope => DueCause::NotEffective(seal),
                    _ => return None,
                };
                Some((fact.instant(), seal, cause))
            })
            .collect()
    }

    /// What lets a sign-off on the revision before cover this one too (rules R11, R12): none where it does not.
    pub(super) fn carries_over(
        &self,
        person: PersonCode,
        scope: &Scope,
        newer: &Adopted,
    ) -> Option<CarriedBy> {
        let done = |fits: &dyn Fn(&Signed) -> bool| {
            let mut facts = self.facts_in(person, &scope.workflow);
            let done = facts.find(|fact| fact.signed().is_some_and(fits))?;
            Some(CarriedBy::Entry(self.ledger.entry(done.at).seal()))
        };
        match newer.impact {
            Impact::None => Some(CarriedBy::NothingAsked),
            Impact::Awareness => done(&|fact| {
                matches!(fact, Signed::AwarenessAcknowledged(fact)
                    if fact.workflow == scope.workflow && fact.edition == newer.edition)
            }),
            Impact::Retrain => done(&|fact| {
                matches!(fact, Signed::Trained(fact)
                    if fact.workflow == scope.workflow && fact.edition == newer.edition)
            }),
            Impact::Reassess => None,
        }
    }

    fn effect_not_checked(
        &self,
        person: PersonCode,
        scope: &Scope,
        latest: &Accepted<'_>,
    ) -> Option<DueCause> {
        let check = latest.effect_check.as_ref()?;
        if matches!(latest.signed.basis, Basis::Outside(_)) {
            // Nobody could.
            return None;
        }
        let earliest = latest.from.plus_days(i64::from(check.from_days));
        let checked = self.facts_in(person, &scope.workflow).any(|fact| {
            let later = matches!(fact.signed(), Some(Signed::Evaluated(evaluated))
                if evaluated.scope == *scope && evaluated.stage == Stage::Later);
            later && fact.instant() >= earliest && fact.order > latest.fact.order
        });
        let over = self.at > latest.from.plus_days(i64::from(check.to_days));
        (over && !checked).then_some(DueCause::EffectNotChecked)
    }

    /// What a sign-off rests on and counts no longer.
    fn unsound(&self, latest: &Accepted<'_>) -> Option<DueCause> {
        let Basis::Evidence(seals) = &latest.signed.basis else {
            return None;
        };
        let unsound = seals.iter().find(|seal| {
            let Some(at) = self.ledger.find(seal) else {
                return true;
            };
            if !self.counts(at) {
                return true;
            }
            let fact = self.fact(at);
            let (Some(signed), Some(signer)) = (fact.signed(), fact.signer()) else {
                return false;
            };
            let scope = match signed {
                Signed::Observed(seen) => &seen.scope,
                Signed::Evaluated(evaluated) => &evaluated.scope,
                _ => return false,
            };
            !self.assessor_was_in_force(signer, scope, fact.instant())
        });
        unsound.map(|seal| DueCause::ToReview(*seal))
    }

    /// Whether somebody was signed off when they assessed (rule R5).
    pub(super) fn assessor_was_in_force(
        &self,
        assessor: PersonCode,
        scope: &Scope,
        at: Instant,
    ) -> bool {
        self.of(at).is_in_force(assessor, scope)
    }

    fn remarks(&self, person: PersonCode, scope: &Scope, latest: &Accepted<'_>) -> Vec<Remark> {
        let approver = latest.fact.signer();
        let before = || {
            self.facts_in(person, &scope.workflow)
                .filter(|fact| fact.order < latest.fact.order)
        };
        let mut remarks = Vec::new();
        let trained = before().any(|fact| {
            fact.signer() == approver
                && matches!(fact.signed(), Some(Signed::Trained(trained)) if trained.workflow == scope.workflow)
        });
        if trained {
            remarks.push(Remark::ApproverTrained);
        }
        let assessed = before().any(|fact| {
            fact.signer() == approver
                && matches!(fact.signed(), Some(Signed::Observed(seen)) if seen.scope == *scope)
        });
        if assessed {
            remarks.push(Remark::ApproverAssessed);
        }
        match latest.signed.basis {
            Basis::Evidence(_) => {}
            Basis::FirstAssessor(_) => remarks.push(Remark::FirstAssessor),
            Basis::Outside(_) => remarks.push(Remark::NoIndependentAssessor),
        }
        remarks
    }
}
