//! The file of a person: where they stand in each scope, why, what is missing, and everything that the record holds about them.

use super::lines::Line;
use super::needs::readiness;
use super::next_step::next_step;
use super::scopes::{InScope, in_scope, with_runs};
use super::standings::{circumstances, standing_told};
use super::telling::{AsOf, Telling, time};
use super::worth::worth;
use crate::record::entry::Entry;
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::report::{Block, Item};
use crate::standing::Ledger;
use crate::units::PersonCode;

/// What the file of a person tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Technician<'a> {
    pub(super) person: PersonCode,
    pub(super) asked: AsOf,
    pub(super) alone: bool,
    pub(super) here: bool,
    pub(super) scopes: Vec<InScope>,
    /// Everything about the person that had happened and is known, in order.
    pub(super) history: Vec<Line<'a>>,
}

/// Gathers the file of a person as of an instant.
#[must_use]
pub fn technician<'a>(ledger: &'a Ledger, person: PersonCode, asked: AsOf) -> Technician<'a> {
    let view = asked.view(ledger);
    let happened = happened(ledger, person, asked);
    Technician {
        history: happened
            .map(|entry| Line::of(entry, ledger, view))
            .collect(),
        ..technician_today(ledger, person, asked)
    }
}

/// Gathers where a person stands, without the history.
#[must_use]
pub fn technician_today<'a>(ledger: &'a Ledger, person: PersonCode, asked: AsOf) -> Technician<'a> {
    let view = asked.view(ledger);
    let scopes = view.scopes(person, None).into_iter();
    let scopes = scopes.map(|scope| with_runs(view, person, in_scope(view, person, scope)));
    Technician {
        person,
        asked,
        alone: view.policy().is_alone(),
        here: view.is_here(person),
        scopes: scopes.collect(),
        history: Vec::new(),
    }
}

/// The entries about a person that had happened and are known, the newest first.
#[must_use]
pub fn history(ledger: &Ledger, person: PersonCode, asked: AsOf) -> Vec<Seal> {
    let mut seals: Vec<Seal> = happened(ledger, person, asked).map(Entry::seal).collect();
    seals.reverse();
    seals
}

fn happened(ledger: &Ledger, person: PersonCode, asked: AsOf) -> impl Iterator<Item = &Entry> {
    let view = asked.view(ledger);
    ledger.about(person).filter(move |entry| {
        let happened = entry.frame().happened.instant();
        happened <= asked.at.instant() && view.sees(&entry.seal())
    })
}

impl Technician<'_> {
    /// The file for people.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        let mut blocks = self.standings(telling, None);
        blocks.push(telling.heading(2, "record-file-history"));
        blocks.push(if self.history.is_empty() {
            Block::Paragraph(telling.say("record-file-no-history", &[]))
        } else {
            let lines = self.history.iter();
            Block::Items(lines.map(|line| told(line, telling)).collect())
        });
        blocks
    }

    /// Where the person stands, without the history. The scopes of `first` come first.
    #[must_use]
    pub fn standings(&self, telling: &Telling<'_>, first: Option<&Id>) -> Vec<Block> {
        let person = [("person", telling.person(self.person).into())];
        let mut blocks = vec![
            Block::heading(1, telling.say("record-file-title", &person)),
            telling.as_of(self.asked),
        ];
        blocks.extend(telling.notice(self.alone));
        if !self.here {
            blocks.push(Block::Paragraph(telling.say("record-file-not-here", &[])));
        }
        blocks.push(telling.heading(2, "record-file-standings"));
        if self.scopes.is_empty() {
            blocks.push(Block::Paragraph(telling.say("record-file-no-scope", &[])));
        }
        let is_first = |one: &&InScope| Some(&one.scope.workflow) == first;
        let (before, after): (Vec<&InScope>, Vec<&InScope>) =
            self.scopes.iter().partition(is_first);
        for in_scope in before.into_iter().chain(after) {
            self.scope(in_scope, telling, &mut blocks);
        }
        blocks
    }

    fn scope(&self, in_scope: &InScope, telling: &Telling<'_>, blocks: &mut Vec<Block>) {
        blocks.push(Block::heading(3, telling.scope(&in_scope.scope)));
        blocks.push(Block::Paragraph(standing_told(
            &in_scope.standing,
            in_scope.ground.as_ref(),
            in_scope.supervision.as_ref(),
            telling,
        )));
        blocks.push(Block::Paragraph(next_step(in_scope, telling)));
        let under = circumstances(in_scope, telling);
        if !under.is_empty() {
            blocks.push(Block::Items(under));
        }
        if let Some(list) = &in_scope.readiness {
            blocks.push(Block::Paragraph(telling.say("standing-asks", &[])));
            blocks.push(Block::Items(readiness(
                list,
                in_scope.too_few,
                telling.words,
            )));
        }
        if let Some(runs) = in_scope.runs {
            blocks.push(Block::Paragraph(worth(runs, telling)));
        }
    }
}

/// An entry in one line with what belongs under it.
fn told(line: &Line<'_>, telling: &Telling<'_>) -> Item {
    let values = [
        ("at", time(line.entry.frame().happened).into()),
        ("entry", telling.entry(&line.entry.seal()).into()),
        ("said", line.said(telling).into()),
    ];
    let text = if line.void {
        telling.say("record-line-void", &values)
    } else {
        telling.say("record-line", &values)
    };
    let mut under = line.origin(telling);
    under.extend(line.later(telling));
    Item::new(text).with(under)
}
