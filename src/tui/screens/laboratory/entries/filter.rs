//! Which entries are listed: by person, workflow, kind and word.

use std::collections::{BTreeMap, BTreeSet};

use crate::app::laboratory::Place;
use crate::record::entry::Entry;
use crate::report::record::{entry_row, kind};
use crate::text::{Sought, Words};
use crate::tui::house::House;
use crate::units::PersonCode;

/// By what entries are chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum By {
    Person,
    Workflow,
    Kind,
    Word,
}

impl By {
    pub(super) const ALL: [By; 4] = [By::Person, By::Workflow, By::Kind, By::Word];

    pub(super) fn key(self) -> char {
        match self {
            By::Person => 'p',
            By::Workflow => 'w',
            By::Kind => 'k',
            By::Word => '/',
        }
    }

    /// The message that names it at its key, with a question as its attribute.
    pub(super) fn words(self) -> &'static str {
        match self {
            By::Person => "files-by-person",
            By::Workflow => "files-by-workflow",
            By::Kind => "files-by-kind",
            By::Word => "files-by-word",
        }
    }

    pub(super) fn question(self) -> &'static str {
        match self {
            By::Person => "files-by-person.ask",
            By::Workflow => "files-by-workflow.ask",
            By::Kind => "files-by-kind.ask",
            By::Word => "files-by-word.ask",
        }
    }
}

/// What was typed, and what follows from it.
#[derive(Clone, Debug, Default)]
pub(super) struct Filter {
    typed: BTreeMap<By, String>,
    people: BTreeSet<PersonCode>,
    kinds: BTreeMap<&'static str, bool>,
}

impl Filter {
    pub(super) fn is_empty(&self) -> bool {
        self.typed.is_empty()
    }

    /// What was typed, in the order of the keys.
    pub(super) fn typed(&self) -> impl Iterator<Item = (By, &str)> {
        self.typed.iter().map(|(by, text)| (*by, text.as_str()))
    }

    /// Chooses by a text; by nothing where it is empty.
    pub(super) fn set<P: Place>(&mut self, by: By, text: &str, house: &House<P>, words: &Words) {
        let text = text.trim();
        if text.is_empty() {
            self.typed.remove(&by);
        } else {
            self.typed.insert(by, text.to_owned());
        }
        match by {
            By::Person => {
                let sought = Sought::new(text);
                let people = house.laboratory.ledger().people();
                let holds = |code: &PersonCode| {
                    let name = house.told(words, |telling| telling.name(*code));
                    sought.is_in(&format!("{name} {code}"))
                };
                self.people = people.filter(holds).collect();
            }
            By::Kind => self.kinds.clear(),
            By::Workflow | By::Word => {}
        }
    }

    /// Whether an entry is listed.
    pub(super) fn fits<P: Place>(
        &mut self,
        entry: &Entry,
        house: &House<P>,
        words: &Words,
    ) -> bool {
        let subject = entry.kind().subject();
        if self.typed.contains_key(&By::Person) {
            let about = [subject.person, entry.actor()];
            if !about
                .into_iter()
                .flatten()
                .any(|code| self.people.contains(&code))
            {
                return false;
            }
        }
        if let Some(text) = self.typed.get(&By::Workflow) {
            let text = text.to_lowercase();
            if !subject
                .workflow
                .is_some_and(|id| id.to_string().contains(&text))
            {
                return false;
            }
        }
        if let Some(text) = self.typed.get(&By::Kind) {
            let word = entry.word();
            let fits = self.kinds.entry(word).or_insert_with(|| {
                let sought = Sought::new(text);
                sought.is_in(word) || sought.is_in(&kind(word, words))
            });
            if !*fits {
                return false;
            }
        }
        self.typed.get(&By::Word).is_none_or(|text| {
            let row = house.told(words, |telling| entry_row(entry, telling));
            Sought::new(text).is_in(&row)
        })
    }
}
