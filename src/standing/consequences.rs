//! What would follow from an entry that is drafted: whose standing changes, and what rests on what it ends.
//!
//! The entry is put behind a copy of the others and both are looked at, so nothing is said here that the fold would not say. Where an entry counts
//! only once a second person has signed it, it is looked at as if somebody who could had signed too.

use std::collections::{BTreeMap, BTreeSet};

use super::evidence::Need;
use super::ledger::Ledger;
use super::rules::others::{TooFew, too_few};
use super::rules::others::{could_second, seconded};
use super::view::{Reading, View};
use super::{CannotBeShown, Standing};
use crate::record::entry::{Amending, Entry, Signed};
use crate::record::scope::{Id, Scope};
use crate::record::seal::Seal;
use crate::units::{Instant, PersonCode};

/// Cases of so many days before are named. Our default.
const CASE_DAYS: i64 = 30;

/// A standing that changes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// Whose.
    pub person: PersonCode,
    /// In which scope.
    pub scope: Scope,
    /// What it is without the entry.
    pub before: Result<Standing, CannotBeShown>,
    /// What it is with it.
    pub after: Result<Standing, CannotBeShown>,
}

/// What would follow from an entry.
#[derive(Clone, Debug)]
pub struct Consequences {
    /// The instant that both are looked at.
    pub at: Instant,
    /// Everything with the entry, and with a second signature where one is needed and could be had.
    pub with: Ledger,
    /// Who could be the second person; none where the entry counts by itself.
    pub seconds: Option<Vec<PersonCode>>,
    /// Standings that change, the person that the entry is about first.
    pub changes: Vec<Change>,
    /// Observed and checked cases of the last thirty days of whoever may no longer work alone.
    pub cases: Vec<Seal>,
    /// People whose evidence that person signed, in which workflow, with how many entries: where the person is stopped, or everywhere where the person
    /// leaves.
    pub judged: Vec<(PersonCode, Id, usize)>,
    /// Scopes of the workflow that somebody was assigned to before, where somebody is assigned to one that nobody was: a slip in a name makes another scope.
    pub other_scopes: Vec<Scope>,
    /// Entries that rest on the one that is amended.
    pub resting: Vec<Seal>,
    /// Assessments that a sign-off could rest on and does not name.
    pub left_out: Vec<Seal>,
}

/// Whom an entry can be about.
enum About {
    Person(PersonCode, Option<Id>),
    Workflow(Id),
    Everybody,
    Nobody,
}

/// Works out what would follow from a drafted entry.
#[must_use]
pub fn consequences(ledger: &Ledger, draft: &Entry) -> Consequences {
    let mut with = ledger.clone();
    with.add(draft.clone());
    let seconds = needs_second(ledger, draft).then(|| could_second(&with, draft));
    let second = seconds.iter().flatten().next();
    if let Some(second) = second.and_then(|one| seconded(&with, draft, *one)) {
        with.add(second);
    }
    let at = looked_at(draft);
    let (before, after) = (
        View::new(ledger, at, Reading::AsNowKnown),
        View::new(&with, at, Reading::AsNowKnown),
    );
    let (people, workflow): (Vec<PersonCode>, Option<Id>) = match about(ledger, draft, 3) {
        About::Nobody => (Vec::new(), None),
        // Whoever a person judges may stand on it.
        About::Person(person, workflow) => {
            let judged = judged_by(ledger, person).into_keys();
            let others: BTreeSet<PersonCode> = judged.map(|(one, _)| one).collect();
            let others = others.into_iter().filter(|one| *one != person);
            (std::iter::once(person).chain(others).collect(), workflow)
        }
        About::Workflow(_) | About::Everybody => (with.people().collect(), None),
    };
    let reaches = |scope: &Scope| match about(ledger, draft, 3) {
        About::Workflow(id) => scope.workflow == id || needs_workflow(after, scope, &id),
        // A sign-off may be asked for by other workflows.
        About::Person(..) => {
            let own = |id: &Id| scope.workflow == *id || needs_workflow(after, scope, id);
            workflow.as_ref().is_none_or(own)
        }
        About::Everybody | About::Nobody => true,
    };
    let mut changes = Vec::new();
    for person in people {
        let scopes: BTreeSet<Scope> = before
            .scopes(person, None)
            .into_iter()
            .chain(after.scopes(person, None))
            .filter(|scope| reaches(scope))
            .collect();
        for scope in scopes {
            let (then, now) = (
                before.standing(person, &scope),
                after.standing(person, &scope),
            );
            if then != now {
                changes.push(Change {
                    person,
                    scope,
                    before: then,
                    after: now,
                });
            }
        }
    }
    let stopped = stopped(draft, &changes);
    Consequences {
        at,
        seconds,
        cases: stopped.map_or_else(Vec::new, |(person, workflow)| {
            cases(before, person, &workflow, draft.frame().recorded.instant())
        }),
        judged: stopped_judge(ledger, draft, &changes),
        resting: resting(ledger, draft),
        left_out: before.left_out(draft),
        other_scopes: other_scopes(ledger, draft),
        changes,
        with,
    }
}

/// The instant from which an entry shows: its own time, or the later one that it names.
fn looked_at(draft: &Entry) -> Instant {
    let recorded = draft.frame().recorded.instant();
    let named = match draft.signed().map(|(fact, _)| fact) {
        Some(Signed::RevisionAdopted(adopted)) => adopted.effective.instant(),
        Some(Signed::SignedOff(signed)) => signed.valid_from.instant(),
        Some(Signed::SupervisedBy(named)) => named.from.instant(),
        _ => recorded,
    };
    recorded.max(named)
}

/// Whether an entry counts only once a second person has signed it.
#[must_use]
pub fn needs_second(ledger: &Ledger, draft: &Entry) -> bool {
    let recorded = draft.frame().recorded.instant();
    let alone = || {
        View::new(ledger, recorded, Reading::AsNowKnown)
            .policy()
            .is_alone()
    };
    let critical = |target: &Seal| {
        let target = ledger.get(target);
        target.is_some_and(|target| {
            matches!(
                target.kind().amending(),
                Amending::Critical | Amending::VoidOnly
            )
        })
    };
    match draft.signed().map(|(fact, _)| fact) {
        Some(Signed::Reinstated(lifted)) => !(alone() && lifted.proof.is_some()),
        Some(Signed::RevisionAdopted(_)) => !alone(),
        Some(Signed::Corrected(fact)) => critical(&fact.target),
        Some(Signed::Voided(fact)) => critical(&fact.target),
        _ => false,
    }
}

/// Whom an entry can be about; an entry about another is about what that one is about.
fn about(ledger: &Ledger, entry: &Entry, deep: u8) -> About {
    match entry.signed().map(|(fact, _)| fact) {
        Some(Signed::PolicySet(_)) => return About::Everybody,
        Some(Signed::Countersigned(_) | Signed::Corrected(_) | Signed::Voided(_)) if deep > 0 => {
            let refers = entry.kind().refers();
            let target = refers.first().and_then(|seal| ledger.get(seal));
            return target.map_or(About::Nobody, |target| about(ledger, target, deep - 1));
        }
        _ => {}
    }
    let subject = entry.kind().subject();
    match (subject.person, subject.workflow) {
        (Some(person), workflow) => About::Person(person, workflow.cloned()),
        (None, Some(workflow)) => About::Workflow(workflow.clone()),
        (None, None) => About::Nobody,
    }
}

/// Whether a sign-off in a scope asks for one in another workflow first.
fn needs_workflow(view: View<'_>, scope: &Scope, workflow: &Id) -> bool {
    let current = view.current(&scope.workflow);
    current.is_some_and(|adopted| adopted.profile(view.at).requires.contains(workflow))
}

/// Whose work a person has judged or supervises, in which workflow, with how many entries.
fn judged_by(ledger: &Ledger, judge: PersonCode) -> BTreeMap<(PersonCode, Id), usize> {
    let mut judged = BTreeMap::new();
    for entry in ledger.entries() {
        let Some((
            Signed::Observed(_)
            | Signed::Evaluated(_)
            | Signed::CaseChecked(_)
            | Signed::SupervisedBy(_)
            | Signed::ProtectionShown(_),
            signing,
        )) = entry.signed()
        else {
            continue;
        };
        let subject = entry.kind().subject();
        if signing.by == judge
            && let (Some(person), Some(workflow)) = (subject.person, subject.workflow)
        {
            *judged.entry((person, workflow.clone())).or_default() += 1;
        }
    }
    judged
}

/// The person whom an entry takes the right to work alone, and in which workflow.
fn stopped(draft: &Entry, changes: &[Change]) -> Option<(PersonCode, Id)> {
    let own = match draft.signed().map(|(fact, _)| fact) {
        Some(Signed::Suspended(fact)) => Some((fact.person, fact.workflow.clone())),
        Some(Signed::Withdrawn(fact)) => Some((fact.person, fact.scope.workflow.clone())),
        Some(Signed::Voided(_) | Signed::Countersigned(_) | Signed::Corrected(_)) => {
            let ended = changes.iter().find(|change| change.ends());
            ended.map(|change| (change.person, change.scope.workflow.clone()))
        }
        _ => None,
    };
    own.or_else(|| match draft.signed().map(|(fact, _)| fact) {
        Some(Signed::Left(fact)) => {
            let own = changes.iter().filter(|one| one.person == fact.person);
            own.filter(|one| one.ends())
                .map(|one| (one.person, one.scope.workflow.clone()))
                .next()
        }
        _ => None,
    })
}

impl Change {
    /// Whether the person may no longer work alone.
    #[must_use]
    pub fn ends(&self) -> bool {
        let in_force =
            |one: &Result<Standing, CannotBeShown>| one.as_ref().is_ok_and(Standing::is_in_force);
        in_force(&self.before) && !in_force(&self.after)
    }
}

/// Cases that a person worked on in the last days, as far as somebody watched or checked them.
fn cases(view: View<'_>, person: PersonCode, workflow: &Id, now: Instant) -> Vec<Seal> {
    let since = now.plus_days(-CASE_DAYS);
    let facts = view.facts_in(person, workflow);
    let recent = facts.filter(|fact| {
        let of = match fact.signed() {
            Some(Signed::Observed(seen)) => &seen.scope.workflow,
            Some(Signed::CaseChecked(case)) => &case.scope.workflow,
            _ => return false,
        };
        of == workflow && fact.instant() >= since
    });
    recent
        .map(|fact| view.ledger.entry(fact.at).seal())
        .collect()
}

/// People whose evidence a person signed who may no longer work alone.
fn stopped_judge(
    ledger: &Ledger,
    draft: &Entry,
    changes: &[Change],
) -> Vec<(PersonCode, Id, usize)> {
    let Some((judge, stopped)) = stopped(draft, changes) else {
        return Vec::new();
    };
    let leaves = matches!(draft.signed(), Some((Signed::Left(_), _)));
    let staff = ledger.staff();
    let judged = judged_by(ledger, judge).into_iter();
    judged
        .map(|((person, workflow), count)| (person, workflow, count))
        .filter(|(person, workflow, _)| {
            *person != judge && staff.is_here(*person) && (leaves || *workflow == stopped)
        })
        .collect()
}

/// The scopes of a workflow that somebody was assigned to, where the draft assigns somebody to one that nobody was.
fn other_scopes(ledger: &Ledger, draft: &Entry) -> Vec<Scope> {
    let Some((Signed::Assigned(assigned), _)) = draft.signed() else {
        return Vec::new();
    };
    let known = ledger.assigned_scopes();
    let known: BTreeSet<&Scope> = known
        .filter(|scope| scope.workflow == assigned.scope.workflow)
        .collect();
    if known.contains(&assigned.scope) {
        return Vec::new();
    }
    known.into_iter().cloned().collect()
}

/// Sign-offs and reinstatements that name the entry that is amended.
fn resting(ledger: &Ledger, draft: &Entry) -> Vec<Seal> {
    let target = match draft.signed().map(|(fact, _)| fact) {
        Some(Signed::Voided(fact)) => fact.target,
        Some(Signed::Corrected(fact)) => fact.target,
        _ => return Vec::new(),
    };
    let rests = |entry: &&Entry| {
        let decides = matches!(
            entry.signed(),
            Some((Signed::SignedOff(_) | Signed::Reinstated(_), _))
        );
        decides && entry.kind().refers().contains(&target)
    };
    let all = ledger.entries().iter().filter(rests);
    all.map(Entry::seal).collect()
}

/// What a sign-off lacks, each with who could do it.
#[must_use]
pub fn lacking(ledger: &Ledger, draft: &Entry, missing: &[Need]) -> Vec<(Need, Vec<PersonCode>)> {
    let Some((Signed::SignedOff(signed), _)) = draft.signed() else {
        return Vec::new();
    };
    let recorded = draft.frame().recorded.instant();
    let view = View::new(ledger, recorded, Reading::AsNowKnown);
    let each = missing.iter().map(|need| {
        let able = super::rules::others::could_meet(view, signed.person, &signed.scope, need);
        (need.clone(), able)
    });
    each.collect()
}

/// Whether a sign-off that is refused takes more assessors than there are.
#[must_use]
pub fn lacking_assessors(ledger: &Ledger, draft: &Entry, missing: &[Need]) -> Option<TooFew> {
    let Some((Signed::SignedOff(signed), _)) = draft.signed() else {
        return None;
    };
    let recorded = draft.frame().recorded.instant();
    let view = View::new(ledger, recorded, Reading::AsNowKnown);
    too_few(view, signed.person, &signed.scope.workflow, missing)
}
