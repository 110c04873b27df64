//! The table of people by workflows: who stands where as of an instant, in a few letters that are explained below it.

use std::collections::{BTreeMap, BTreeSet};

use super::scopes::{CANNOT_BE_SHOWN, InScope, in_scope};
use super::standings::{legend, standing, standing_short};
use super::telling::{AsOf, Telling};
use crate::record::scope::Id;
use crate::report::{Block, Item};
use crate::standing::{CannotBeShown, Ledger, Standing, View};
use crate::units::PersonCode;

/// How many workflows stand beside each other, so that the table fits 80 columns: 5 × (7 letters + 2 spaces), a code, a name.
const BESIDE: usize = 5;

/// How many letters the abbreviation of a workflow may have: as many as that of a standing.
const LETTERS: usize = 7;

/// Where a person stands in a workflow.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell {
    pub(super) workflow: Id,
    /// One for each scope that the person was ever assigned to or signed off for.
    pub(super) scopes: Vec<InScope>,
    /// Set where nothing can be shown, whatever the scope.
    pub(super) doubt: Option<CannotBeShown>,
}

/// A person's row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Row {
    pub(super) person: PersonCode,
    pub(super) here: bool,
    pub(super) cells: Vec<Cell>,
}

/// What the table tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Matrix {
    pub(super) asked: AsOf,
    pub(super) alone: bool,
    pub(super) workflows: Vec<Id>,
    pub(super) rows: Vec<Row>,
}

/// Gathers who stands where. Those who were not here are left out unless they are asked for.
#[must_use]
pub fn matrix(
    ledger: &Ledger,
    asked: AsOf,
    people: &[PersonCode],
    workflows: &[Id],
    with_those_who_left: bool,
) -> Matrix {
    let view = asked.view(ledger);
    let rows = people.iter().map(|&person| Row {
        person,
        here: view.is_here(person),
        cells: workflows
            .iter()
            .map(|workflow| cell_of(view, person, workflow))
            .collect(),
    });
    Matrix {
        asked,
        alone: view.policy().is_alone(),
        workflows: workflows.to_vec(),
        rows: rows.filter(|row| row.here || with_those_who_left).collect(),
    }
}

/// Where a person stands in a workflow, scope by scope.
pub(super) fn cell_of(view: View<'_>, person: PersonCode, workflow: &Id) -> Cell {
    let scopes = view.scopes(person, Some(workflow)).into_iter();
    Cell {
        workflow: workflow.clone(),
        scopes: scopes.map(|scope| in_scope(view, person, scope)).collect(),
        doubt: view.doubt(person, workflow),
    }
}

impl Cell {
    /// The words of the standings that differ, the strictest last.
    pub(super) fn words(&self) -> Vec<&'static str> {
        if self.doubt.is_some() {
            return vec![CANNOT_BE_SHOWN];
        }
        let words: BTreeSet<&str> = self.scopes.iter().map(InScope::word).collect();
        if words.is_empty() {
            return vec![Standing::NotAssigned.word()];
        }
        let order = |word: &&str| Standing::WORDS.iter().position(|known| known == word);
        let mut words: Vec<&'static str> = words.into_iter().collect();
        words.sort_by_key(order);
        words
    }

    /// Whether the person may work alone in some scope.
    pub(super) fn in_force(&self) -> bool {
        let mut scopes = self.scopes.iter();
        scopes.any(|one| one.standing.as_ref().is_ok_and(Standing::is_in_force))
    }
}

impl Matrix {
    /// How many people stand where in a workflow, by the standing's word, and how many may work alone in some scope.
    pub(super) fn counts(&self, column: usize) -> (BTreeMap<&'static str, usize>, usize) {
        let mut counts = BTreeMap::new();
        let cells = self.rows.iter().map(|row| &row.cells[column]);
        for word in cells.clone().flat_map(Cell::words) {
            *counts.entry(word).or_default() += 1;
        }
        (counts, cells.filter(|cell| cell.in_force()).count())
    }

    /// The words that stand in some cell, in the order of standings.
    fn shown(&self) -> Vec<&'static str> {
        let cells = self.rows.iter().flat_map(|row| &row.cells);
        let shown: BTreeSet<&str> = cells.flat_map(Cell::words).collect();
        let all = Standing::WORDS.iter().copied();
        all.chain([CANNOT_BE_SHOWN])
            .filter(|word| shown.contains(word))
            .collect()
    }

    /// The table for people.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        let mut blocks = vec![
            telling.heading(1, "record-matrix-title"),
            telling.as_of(self.asked),
        ];
        blocks.extend(telling.notice(self.alone));
        if self.rows.is_empty() || self.workflows.is_empty() {
            blocks.push(Block::Paragraph(telling.say("record-matrix-empty", &[])));
            return blocks;
        }
        let short = abbreviations(&self.workflows);
        for first in (0..self.workflows.len()).step_by(BESIDE) {
            let end = self.workflows.len().min(first + BESIDE);
            blocks.push(self.table(first..end, &short, telling));
        }
        blocks.push(telling.heading(2, "record-matrix-workflows"));
        blocks.push(Block::Items(self.keys(&short, telling)));
        blocks.push(telling.heading(2, "record-matrix-legend"));
        let shown = self.shown().into_iter();
        blocks.push(Block::Table {
            head: vec![
                telling.say("record-matrix-letters", &[]),
                telling.say("record-matrix-meaning", &[]),
            ],
            rows: shown.map(|word| legend(word, telling.words)).collect(),
        });
        let mut cells = self.rows.iter().flat_map(|row| &row.cells);
        if cells.any(|cell| cell.words().len() > 1) {
            let several = telling.say("record-matrix-several", &[]);
            blocks.push(Block::Paragraph(several));
        }
        blocks
    }

    fn table(
        &self,
        columns: std::ops::Range<usize>,
        short: &[String],
        telling: &Telling<'_>,
    ) -> Block {
        let mut head = vec![
            telling.say("record-matrix-person", &[]),
            telling.say("record-matrix-code", &[]),
        ];
        head.extend_from_slice(&short[columns.clone()]);
        let row = |row: &Row| {
            let mut cells = vec![telling.name(row.person), row.person.to_string()];
            cells.extend(row.cells[columns.clone()].iter().map(|cell| {
                let words = cell.words().into_iter();
                let words: Vec<String> = words
                    .map(|word| standing_short(word, telling.words))
                    .collect();
                words.join(" ")
            }));
            cells
        };
        Block::Table {
            head,
            rows: self.rows.iter().map(row).collect(),
        }
    }

    /// Each abbreviated workflow with how many stand where.
    fn keys(&self, short: &[String], telling: &Telling<'_>) -> Vec<Item> {
        let each = self.workflows.iter().zip(short).enumerate();
        each.map(|(column, (workflow, short))| {
            let (counts, alone) = self.counts(column);
            let shown = self.shown().into_iter();
            let counted = shown.filter_map(|word| {
                let count = ("count", (*counts.get(word)?).into());
                let word = ("standing", standing(word, telling.words).into());
                Some(telling.say("record-matrix-count", &[count, word]))
            });
            let counted: Vec<String> = counted.collect();
            let values = [
                ("short", short.as_str().into()),
                ("workflow", workflow.to_string().into()),
                ("counts", counted.into()),
                ("alone", alone.into()),
                ("all", self.rows.len().into()),
            ];
            Item::new(telling.say("record-matrix-key", &values))
        })
        .collect()
    }
}

/// A short name of letters for each workflow: as much from the beginning of each part of its id as keeps them apart.
#[must_use]
pub fn abbreviations(workflows: &[Id]) -> Vec<String> {
    let mut taken: BTreeSet<String> = BTreeSet::new();
    let of = |workflow: &Id, letters: usize| -> String {
        let id = workflow.to_string();
        let parts = id.split('-').filter(|part| !part.is_empty());
        let text: String = parts.flat_map(|part| part.chars().take(letters)).collect();
        text.to_uppercase().chars().take(LETTERS).collect()
    };
    workflows
        .iter()
        .map(|workflow| {
            // One letter of each part says too little where there is only one part.
            let single = !workflow.to_string().contains('-');
            let first = if single { 3 } else { 1 };
            let mut tries = (first..=LETTERS).map(|letters| of(workflow, letters));
            let fresh = tries.find(|text| !text.is_empty() && !taken.contains(text));
            // Ids that agree so far are told apart by a letter at the end.
            let fresh = fresh.unwrap_or_else(|| {
                let stem: String = of(workflow, LETTERS).chars().take(LETTERS - 2).collect();
                let mut more = ('A'..='Z').flat_map(|one| ('A'..='Z').map(move |two| (one, two)));
                let found = more.find_map(|(one, two)| {
                    let text = format!("{stem}{one}{two}");
                    (!taken.contains(&text)).then_some(text)
                });
                found.unwrap_or_else(|| workflow.to_string())
            });
            taken.insert(fresh.clone());
            fresh
        })
        .collect()
}
