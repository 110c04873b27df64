//! What a sign-off asks for, and how much of it is there (rules R4, R8, R9, R10).

use std::collections::BTreeSet;

use super::Order;
use super::view::{Adopted, Fact, View};
use super::worth::Runs;
use crate::record::entry::{
    Effect, Ending, Help, Impact, Judgement, Method, Needs, Noted, Observed, Seen, Signed, Stage,
    StepSeen,
};
use crate::record::scope::{Edition, Id, Scope};
use crate::units::{Day, PersonCode};

/// How an observed run counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Every step was done unaided.
    Clean,
    /// Passed, but something was done after a prompt, or not done and not critical.
    NotClean,
    /// A critical step was not done, whatever the judgement (rule R8), or the whole was not acceptable.
    Failed,
    /// A critical step was not watched: the run does not count.
    NotCounted,
}

/// How an observed run counts.
#[must_use]
pub fn run_of(observed: &Observed) -> Run {
    weighed(&observed.steps, observed.judgement).0
}

/// How a run with these steps and this judgement counts, and the steps that make it so: critical ones that were not done or not seen, and what was
/// done after a prompt or not done. None where it is clean, and none where the judgement alone decides.
#[must_use]
pub fn weighed(steps: &[StepSeen], judgement: Judgement) -> (Run, Vec<&StepSeen>) {
    let critical = |seen| -> Vec<&StepSeen> {
        let steps = steps.iter();
        steps
            .filter(|step| step.critical && step.seen == seen)
            .collect()
    };
    let (not_done, not_seen) = (critical(Seen::NotDone), critical(Seen::NotSeen));
    if !not_done.is_empty() || judgement == Judgement::NotAcceptable {
        (Run::Failed, not_done)
    } else if !not_seen.is_empty() {
        (Run::NotCounted, not_seen)
    } else {
        let helped = |step: &&StepSeen| matches!(step.seen, Seen::Prompted | Seen::NotDone);
        let helped: Vec<&StepSeen> = steps.iter().filter(helped).collect();
        let run = if helped.is_empty() {
            Run::Clean
        } else {
            Run::NotClean
        };
        (run, helped)
    }
}

/// One thing that a sign-off asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Need {
    /// A revision of the workflow is in force.
    Edition,
    /// The need is recorded.
    Assigned,
    /// No suspension is open.
    NoSuspension,
    /// The person is signed off for another workflow first.
    Workflow(Id),
    /// The person has read the edition.
    Read,
    /// The person has taken note of this revision.
    Awareness(u32),
    /// The person has shown how to protect themself.
    Protection,
    /// The person was trained again after a failed observation.
    TrainedAfterFailure,
    /// Clean unaided rehearsals.
    CleanRuns(Count),
    /// On different days.
    CleanDays(Count),
    /// Cases that a named supervisor found acceptable.
    SupervisedCases(Count),
    /// Observed runs that were passed.
    Observed(Count),
    /// By different assessors.
    Assessors(Count),
    /// Clean ones, one after the other, up to now.
    CleanInARow(Count),
    /// Passed assessments in another way.
    Method(Method, Count),
    /// The training was evaluated at the assessment, and worked.
    Evaluated,
}

/// How many there are of how many.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count {
    /// So many there are…
    pub have: u16,
    /// …and so many it takes.
    pub of: u16,
}

/// What is met and what is missing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Readiness {
    /// What is met.
    pub met: Vec<Need>,
    /// What is missing.
    pub missing: Vec<Need>,
}

impl Need {
    /// Whether it comes before supervised work.
    #[must_use]
    pub fn is_before_supervision(&self) -> bool {
        match self {
            Need::Edition
            | Need::Assigned
            | Need::NoSuspension
            | Need::Workflow(_)
            | Need::Read
            | Need::Awareness(_)
            | Need::Protection
            | Need::TrainedAfterFailure
            | Need::CleanRuns(_)
            | Need::CleanDays(_) => true,
            Need::SupervisedCases(_)
            | Need::Observed(_)
            | Need::Assessors(_)
            | Need::CleanInARow(_)
            | Need::Method(..)
            | Need::Evaluated => false,
        }
    }

    /// Whether it takes somebody who is signed off already. A first assessor and a laboratory of one person go without.
    #[must_use]
    pub fn takes_another(&self) -> bool {
        !self.is_before_supervision()
            || matches!(self, Need::Protection | Need::TrainedAfterFailure)
    }
}

impl Readiness {
    /// How many clean observed runs it takes, one after the other, and how many there are up to now; none where none is asked for.
    #[must_use]
    pub fn clean_in_a_row(&self) -> Option<Count> {
        let mut needs = self.met.iter().chain(&self.missing);
        needs.find_map(|need| match need {
            Need::CleanInARow(count) => Some(*count),
            _ => None,
        })
    }

    /// Whether nothing is missing.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.missing.is_empty()
    }

    /// Whether nothing is missing that comes before supervised work.
    #[must_use]
    pub fn may_be_supervised(&self) -> bool {
        !self.missing.iter().any(Need::is_before_supervision)
    }

    fn note(&mut self, need: Need, met: bool) {
        if met {
            self.met.push(need);
        } else {
            self.missing.push(need);
        }
    }

    fn count(&mut self, need: impl Fn(Count) -> Need, have: usize, of: u16) {
        if of > 0 {
            let have = u16::try_from(have).unwrap_or(u16::MAX);
            self.note(need(Count { have, of }), have >= of);
        }
    }
}

/// What counts for one person, scope and edition.
struct Evidence<'a> {
    view: View<'a>,
    person: PersonCode,
    scope: &'a Scope,
    /// Revisions whose evidence counts for the edition (rule R4).
    equal: Vec<Edition>,
    facts: Vec<Fact<'a>>,
    since: Option<Order<'a>>,
}

impl<'a> Evidence<'a> {
    fn is_equal(&self, edition: &Edition) -> bool {
        self.equal.contains(edition)
    }

    /// Facts of this path that are newer than the last sign-off.
    fn fresh(&self) -> impl Iterator<Item = &Fact<'a>> {
        self.facts
            .iter()
            .filter(|fact| Some(fact.order) > self.since)
    }

    /// Observed runs that count, in order, with who observed.
    fn observed(&self) -> Vec<(&Observed, PersonCode)> {
        self.fresh()
            .filter_map(|fact| match (fact.signed()?, fact.signer()?) {
                (Signed::Observed(seen), by)
                    if seen.scope == *self.scope && self.is_equal(&seen.edition) =>
                {
                    let in_force = || {
                        self.view
                            .assessor_was_in_force(by, self.scope, fact.instant())
                    };
                    // A failure counts against the person whoever saw it (rule R9).
                    let counts = by != self.person && (run_of(seen) == Run::Failed || in_force());
                    counts.then_some((seen, by))
                }
                _ => None,
            })
            .collect()
    }

    fn clean_days(&self) -> Vec<Day> {
        self.fresh()
            .filter_map(|fact| match fact.noted()? {
                Noted::Rehearsed(run)
                    if run.workflow == self.scope.workflow
                        && self.is_equal(&run.edition)
                        && run.help == Help::Unaided
                        && run.ending == Ending::Clean =>
                {
                    Some(self.view.ledger.entry(fact.at).frame().happened.day())
                }
                _ => None,
            })
            .collect()
    }

    /// Different cases that the supervisor of that time found acceptable.
    fn cases(&self) -> usize {
        let cases = self
            .fresh()
            .filter_map(|fact| match (fact.signed()?, fact.signer()?) {
                (Signed::CaseChecked(case), by)
                    if case.scope == *self.scope
                        && self.is_equal(&case.edition)
                        && case.judgement == Judgement::Acceptable =>
                {
                    let then = fact.instant();
                    let named = self.facts.iter().any(|named| {
                        named.signer() == Some(by)
                            && matches!(named.signed(), Some(Signed::SupervisedBy(named))
                            if named.scope == *self.scope
                                && named.from.instant() <= then
                                && then <= named.until.instant())
                    });
                    let counts = named && self.view.of(then).is_in_force(by, self.scope);
                    counts.then_some(&case.case)
                }
                _ => None,
            });
        cases.collect::<BTreeSet<_>>().len()
    }

    fn newest_read(&self) -> Option<u32> {
        let read = self.facts.iter().filter_map(|fact| match fact.signed()? {
            Signed::Read(read)
                if read.workflow == self.scope.workflow && self.is_equal(&read.edition) =>
            {
                Some(read.edition.revision)
            }
            _ => None,
        });
        read.max()
    }

    fn has_shown_protection(&self) -> bool {
        self.facts.iter().any(|fact| {
            let workflow = &self.scope.workflow;
            let shown = matches!(fact.signed(), Some(Signed::ProtectionShown(shown))
                if shown.workflow == *workflow);
            shown
                && fact.signer().is_some_and(|trainer| {
                    self.view
                        .of(fact.instant())
                        .is_in_force_in(trainer, workflow)
                })
        })
    }

    /// Whether a training came after the last failure; none without a failure.
    fn trained_after_failure(&self) -> Option<bool> {
        let failed = self.fresh().filter(|fact| {
            matches!(fact.signed(), Some(Signed::Observed(seen))
                if seen.scope == *self.scope && run_of(seen) == Run::Failed)
        });
        let failed = failed.map(|fact| fact.order).max()?;
        Some(self.facts.iter().any(|fact| {
            fact.order > failed
                && matches!(fact.signed(), Some(Signed::Trained(trained))
                    if trained.workflow == self.scope.workflow)
        }))
    }

    /// Whether the last evaluation at an assessment found that training worked.
    fn worked(&self) -> bool {
        let last = self
            .fresh()
            .filter_map(|fact| match (fact.signed()?, fact.signer()?) {
                (Signed::Evaluated(evaluated), by)
                    if evaluated.scope == *self.scope
                        && self.is_equal(&evaluated.edition)
                        && evaluated.stage == Stage::AtAssessment
                        && self
                            .view
                            .assessor_was_in_force(by, self.scope, fact.instant()) =>
                {
                    Some(evaluated.effect)
                }
                _ => None,
            });
        last.last() == Some(Effect::Effective)
    }

    fn before_supervision(&self, needs: &Needs, adopted: &[Adopted], list: &mut Readiness) {
        let read = self.newest_read();
        list.note(Need::Read, read.is_some());
        for newer in adopted.iter().filter(|one| self.is_equal(&one.edition)) {
            let revision = newer.edition.revision;
            if newer.impact == Impact::Awareness && read.is_some_and(|read| revision > read) {
                let met = self
                    .view
                    .carries_over(self.person, self.scope, newer)
                    .is_some();
                list.note(Need::Awareness(revision), met);
            }
        }
        list.note(Need::Protection, self.has_shown_protection());
        if let Some(met) = self.trained_after_failure() {
            list.note(Need::TrainedAfterFailure, met);
        }
        let days = self.clean_days();
        list.count(Need::CleanRuns, days.len(), needs.clean_runs);
        let different: BTreeSet<Day> = days.into_iter().collect();
        list.count(Need::CleanDays, different.len(), needs.clean_days);
    }

    fn assessments(&self, needs: &Needs, list: &mut Readiness) {
        list.count(Need::SupervisedCases, self.cases(), needs.supervised_cases);
        let observed = self.observed();
        let passed = |seen: &Observed| matches!(run_of(seen), Run::Clean | Run::NotClean);
        let direct: Vec<_> = observed
            .iter()
            .filter(|(seen, _)| seen.method == Method::Direct)
            .collect();
        let good: Vec<_> = direct.iter().filter(|(seen, _)| passed(seen)).collect();
        list.count(Need::Observed, good.len(), needs.observed);
        let assessors: BTreeSet<PersonCode> = good.iter().map(|(_, by)| *by).collect();
        list.count(Need::Assessors, assessors.len(), needs.assessors);
        // A run that was not clean breaks the row; one that does not count leaves it alone (rule R9).
        let in_a_row = direct.iter().fold(0, |row, (seen, _)| match run_of(seen) {
            Run::Clean => row + 1,
            Run::NotClean | Run::Failed => 0,
            Run::NotCounted => row,
        });
        list.count(Need::CleanInARow, in_a_row, needs.clean_in_a_row);
        for other in &needs.others {
            let others = observed
                .iter()
                .filter(|(seen, _)| seen.method == other.method);
            let have = others.filter(|(seen, _)| passed(seen)).count();
            list.count(|count| Need::Method(other.method, count), have, other.count);
        }
        list.note(Need::Evaluated, self.worked());
    }
}

impl<'a> View<'a> {
    /// Observed runs of a person in a scope since the last end, and how many were clean: those watched on real cases, on the edition in force and
    /// those that signed decisions declare equal to it, sign-offs in between or not.
    #[must_use]
    pub fn observed_runs(&self, person: PersonCode, scope: &Scope) -> Runs {
        let adopted = self.adopted(&scope.workflow);
        let in_force = adopted.iter().rposition(|one| one.start <= self.at);
        let Some(target) = in_force else {
            return Runs::default();
        };
        let since = self.floor(person, scope).map(|fact| fact.order);
        let facts = self.facts_in(person, &scope.workflow);
        let evidence = Evidence {
            view: *self,
            person,
            scope,
            equal: equal(&adopted[..=target]),
            facts: facts.filter(|fact| Some(fact.order) > since).collect(),
            since,
        };
        let mut runs = Runs::default();
        for (seen, _) in evidence.observed() {
            let run = run_of(seen);
            if seen.method == Method::Direct && run != Run::NotCounted {
                runs.of += 1;
                runs.clean += u32::from(run == Run::Clean);
            }
        }
        runs
    }

    /// What a sign-off on an edition has and lacks.
    pub(super) fn readiness_for(
        &self,
        person: PersonCode,
        scope: &Scope,
        edition: Option<Edition>,
    ) -> Readiness {
        let mut list = Readiness::default();
        let adopted = self.adopted(&scope.workflow);
        let target = edition.and_then(|edition| {
            adopted
                .iter()
                .position(|adopted| adopted.edition == edition)
        });
        list.note(Need::Edition, target.is_some());
        list.note(Need::Assigned, self.need(person, scope).is_some());
        list.note(
            Need::NoSuspension,
            self.suspended(person, &scope.workflow).is_none(),
        );
        let Some(target) = target else {
            return list;
        };
        let profile = adopted[target].profile(self.at);
        for workflow in &profile.requires {
            let met = self.is_in_force_in(person, workflow);
            list.note(Need::Workflow(workflow.clone()), met);
        }
        let floor = self.floor(person, scope).map(|fact| fact.order);
        let sign_offs = self.sign_offs(person, scope);
        // A sign-off that begins later has not used up its evidence yet.
        let begun = sign_offs.iter().filter(|accepted| accepted.from <= self.at);
        let last = begun.map(|accepted| accepted.fact.order).max();
        let needs = if last.is_some() {
            &profile.again
        } else {
            &profile.first
        };
        let evidence = Evidence {
            view: *self,
            person,
            scope,
            equal: equal(&adopted[..=target]),
            facts: self
                .facts_in(person, &scope.workflow)
                .filter(|fact| Some(fact.order) > floor)
                .collect(),
            since: last.max(floor),
        };
        evidence.before_supervision(needs, &adopted, &mut list);
        evidence.assessments(needs, &mut list);
        list
    }
}

/// The last edition, and those before it that signed decisions declare equal to it.
fn equal(adopted: &[Adopted]) -> Vec<Edition> {
    let mut equal = Vec::new();
    for one in adopted.iter().rev() {
        equal.push(one.edition.clone());
        if one.impact > Impact::Awareness {
            break;
        }
    }
    equal
}
