//! Entries, found by whom and what they are about. Nothing is decided here and nothing is cached.

use std::collections::{BTreeMap, HashMap, VecDeque};

use super::Order;
use crate::record::authority::{AuthorityFault, Staff, next};
use crate::record::entry::{Content, Entry, Signed};
use crate::record::scope::{Authority, Id, Scope};
use crate::record::seal::Seal;
use crate::units::{Instant, PersonCode};

/// An entry that nobody had the right to make. It counts for nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unfounded {
    /// The entry.
    pub seal: Seal,
    /// Why.
    pub fault: AuthorityFault,
}

/// From where on a strand is in doubt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doubt {
    /// The strand.
    pub strand: Id,
    /// The first number that verification named.
    pub number: u64,
    /// Set where entries are missing or cannot be read, which might have been about anybody: since when.
    pub hidden_since: Option<Instant>,
}

/// Entries by whom and what they are about.
#[derive(Clone, Debug, Default)]
pub struct Ledger {
    entries: Vec<Entry>,
    staff: Staff,
    by_seal: HashMap<Seal, usize>,
    by_person: BTreeMap<PersonCode, About>,
    by_workflow: BTreeMap<Id, Vec<usize>>,
    policies: Vec<usize>,
    /// Corrections and voids of each entry.
    amendments: Vec<Vec<usize>>,
    /// Second signatures of each entry.
    seconds: Vec<Vec<usize>>,
    unfounded: Vec<Unfounded>,
    doubts: Vec<Doubt>,
}

/// What is about one person, in order.
#[derive(Clone, Debug, Default)]
struct About {
    all: Vec<usize>,
    /// What may be about any workflow: what names none, and what was corrected, since a correction can name another.
    anywhere: Vec<usize>,
    /// What may be about one workflow.
    within: BTreeMap<Id, Vec<usize>>,
}

impl About {
    fn add(&mut self, entries: &[Entry], at: usize, workflow: Option<&Id>) {
        insert(entries, &mut self.all, at);
        match workflow {
            None => self.widen(entries, at),
            Some(workflow) => match self.within.get_mut(workflow) {
                Some(list) => insert(entries, list, at),
                None => {
                    let mut list = self.anywhere.clone();
                    insert(entries, &mut list, at);
                    self.within.insert(workflow.clone(), list);
                }
            },
        }
    }

    /// Has an entry stand wherever something may stand.
    fn widen(&mut self, entries: &[Entry], at: usize) {
        insert(entries, &mut self.anywhere, at);
        for list in self.within.values_mut() {
            insert(entries, list, at);
        }
    }
}

impl Ledger {
    /// A ledger without entries.
    #[must_use]
    pub fn new() -> Ledger {
        Ledger::default()
    }

    /// Takes in entries of any number of strands, each strand's in their order. Signatures are not verified here.
    #[must_use]
    pub fn collect(entries: impl IntoIterator<Item = Entry>) -> Ledger {
        let mut ledger = Ledger::new();
        in_turn(
            entries,
            |entry, ledger: &mut Ledger| ledger.add(entry),
            &mut ledger,
        );
        ledger
    }

    /// Takes in one more entry. One that nobody had the right to make is set aside.
    pub fn add(&mut self, entry: Entry) {
        let seal = entry.seal();
        if self.by_seal.contains_key(&seal) {
            return;
        }
        if let Err(fault) = self.staff.check(&entry) {
            self.unfounded.push(Unfounded { seal, fault });
            return;
        }
        self.staff.learn(&entry);
        let at = self.entries.len();
        self.by_seal.insert(seal, at);
        self.entries.push(entry);
        self.amendments.push(Vec::new());
        self.seconds.push(Vec::new());
        let entry = &self.entries[at];
        match entry.signed().map(|(fact, _)| fact) {
            Some(Signed::Countersigned(fact)) => {
                if let Some(target) = self.find(&fact.target) {
                    self.seconds[target].push(at);
                }
            }
            Some(Signed::Corrected(fact)) => {
                if let Some(target) = self.find(&fact.target) {
                    self.amendments[target].push(at);
                    let person = self.entries[target].kind().subject().person;
                    let about = person.and_then(|person| self.by_person.get_mut(&person));
                    if let Some(about) = about {
                        about.widen(&self.entries, target);
                    }
                }
            }
            Some(Signed::Voided(fact)) => {
                if let Some(target) = self.find(&fact.target) {
                    self.amendments[target].push(at);
                }
            }
            Some(Signed::PolicySet(_)) => insert(&self.entries, &mut self.policies, at),
            _ => {}
        }
        let subject = self.entries[at].kind().subject();
        if let Some(person) = subject.person {
            let about = self.by_person.entry(person).or_default();
            about.add(&self.entries, at, subject.workflow);
        } else if let Some(workflow) = subject.workflow {
            let list = self.by_workflow.entry(workflow.clone()).or_default();
            insert(&self.entries, list, at);
        }
    }

    /// Notes what verification found: standings that rest on it cannot be shown.
    pub fn doubt(&mut self, doubt: Doubt) {
        self.doubts.push(doubt);
    }

    /// Who is here, entitled to what.
    #[must_use]
    pub fn staff(&self) -> &Staff {
        &self.staff
    }

    /// Entries that nobody had the right to make.
    #[must_use]
    pub fn unfounded(&self) -> &[Unfounded] {
        &self.unfounded
    }

    /// Every scope that somebody was assigned to, once for each time.
    pub fn assigned_scopes(&self) -> impl Iterator<Item = &Scope> {
        self.entries
            .iter()
            .filter_map(|entry| match entry.signed() {
                Some((Signed::Assigned(assigned), _)) => Some(&assigned.scope),
                _ => None,
            })
    }

    /// Everybody whom an entry is about.
    pub fn people(&self) -> impl Iterator<Item = PersonCode> + '_ {
        self.by_person.keys().copied()
    }

    /// Every entry that somebody had the right to make, in the order in which they were taken in.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    pub(super) fn doubts(&self) -> &[Doubt] {
        &self.doubts
    }

    pub(super) fn entry(&self, at: usize) -> &Entry {
        &self.entries[at]
    }

    pub(super) fn order(&self, at: usize) -> Order<'_> {
        order(&self.entries[at])
    }

    pub(super) fn find(&self, seal: &Seal) -> Option<usize> {
        self.by_seal.get(seal).copied()
    }

    pub(super) fn about_person(&self, person: PersonCode) -> &[usize] {
        self.by_person.get(&person).map_or(&[], |about| &about.all)
    }

    /// What is about a person and may be about a workflow: nothing that is about it is missing.
    pub(super) fn about_person_in(&self, person: PersonCode, workflow: &Id) -> &[usize] {
        let about = self.by_person.get(&person);
        about.map_or(&[], |about| {
            about.within.get(workflow).unwrap_or(&about.anywhere)
        })
    }

    pub(super) fn about_workflow(&self, workflow: &Id) -> &[usize] {
        self.by_workflow.get(workflow).map_or(&[], Vec::as_slice)
    }

    pub(super) fn policies(&self) -> &[usize] {
        &self.policies
    }

    pub(super) fn amendments(&self, at: usize) -> &[usize] {
        &self.amendments[at]
    }

    pub(super) fn seconds(&self, at: usize) -> &[usize] {
        &self.seconds[at]
    }

    /// Whether an entry is signed under a grant of one of these authorities, for this workflow or for every one.
    pub(super) fn is_under(&self, at: usize, any_of: &[Authority], workflow: Option<&Id>) -> bool {
        let signed = self.entries[at].signed();
        let grant = signed.and_then(|(_, signing)| signing.under);
        let grant = grant.and_then(|grant| self.find(&grant));
        match grant.map(|grant| self.entries[grant].content()) {
            Some(Content::Signed { fact, .. }) => match fact {
                Signed::Founded(_) => any_of.contains(&Authority::Own),
                Signed::Granted(granted) => {
                    let reaches =
                        granted.workflow.is_none() || granted.workflow.as_ref() == workflow;
                    reaches && any_of.contains(&granted.authority)
                }
                _ => false,
            },
            _ => false,
        }
    }
}

fn order(entry: &Entry) -> Order<'_> {
    let frame = entry.frame();
    (frame.happened.instant(), &frame.strand, frame.number)
}

/// Puts an entry into a list that is in order, once.
fn insert(entries: &[Entry], list: &mut Vec<usize>, at: usize) {
    let own = order(&entries[at]);
    let place = list.partition_point(|&other| order(&entries[other]) < own);
    let same = list[place..].iter();
    let mut same = same.take_while(|&&other| order(&entries[other]) == own);
    if !same.any(|&other| other == at) {
        list.insert(place, at);
    }
}

/// Hands entries on in the order in which their rights are judged.
pub(super) fn in_turn(
    entries: impl IntoIterator<Item = Entry>,
    mut take: impl FnMut(Entry, &mut Ledger),
    ledger: &mut Ledger,
) {
    let mut strands: BTreeMap<Id, VecDeque<Entry>> = BTreeMap::new();
    for entry in entries {
        strands
            .entry(entry.frame().strand.clone())
            .or_default()
            .push_back(entry);
    }
    let mut strands: Vec<VecDeque<Entry>> = strands.into_values().collect();
    loop {
        let waiting = strands.iter().enumerate();
        let waiting = waiting.filter_map(|(at, entries)| Some((at, entries.front()?)));
        let Some(at) = next(ledger.staff(), waiting) else {
            return;
        };
        if let Some(entry) = strands[at].pop_front() {
            take(entry, ledger);
        }
    }
}
