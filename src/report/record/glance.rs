//! Where a person stands in a workflow: at a glance for a cell of a table, and in full for the cell that is looked at.

use super::matrix::{Cell, cell_of};
use super::scopes::{CANNOT_BE_SHOWN, InScope, word_of};
use super::standings::{circumstances, standing_short, standing_told};
use super::telling::{AsOf, Telling};
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::report::{Block, Item};
use crate::standing::{DueCause, Ledger, Standing};
use crate::text::Words;
use crate::units::PersonCode;

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Glance {
    words: Vec<&'static str>,
    may_work_alone: bool,
}

/// Looks at a cell. Cheaper than [`cell`]: what a sign-off asks for is not gathered.
#[must_use]
pub fn glance(ledger: &Ledger, asked: AsOf, person: PersonCode, workflow: &Id) -> Glance {
    let view = asked.view(ledger);
    if view.doubt(person, workflow).is_some() {
        return Glance {
            words: vec![CANNOT_BE_SHOWN],
            may_work_alone: false,
        };
    }
    let scopes = view.scopes(person, Some(workflow)).into_iter();
    let standings: Vec<_> = scopes.map(|scope| view.standing(person, &scope)).collect();
    let alone = |one: &Result<Standing, _>| one.as_ref().is_ok_and(Standing::is_in_force);
    let mut words: Vec<&'static str> = standings.iter().map(word_of).collect();
    if words.is_empty() {
        words.push(Standing::NotAssigned.word());
    }
    words.sort_by_key(|word| order(word));
    words.dedup();
    Glance {
        words,
        may_work_alone: standings.iter().any(alone),
    }
}

/// Standings from the least strict on; what cannot be shown comes last.
fn order(word: &str) -> usize {
    let mut known = Standing::WORDS.iter();
    known
        .position(|known| *known == word)
        .unwrap_or(Standing::WORDS.len())
}

impl Glance {
    /// The words of the standings that differ among the person's scopes, the strictest last.
    #[must_use]
    pub fn words(&self) -> &[&'static str] {
        &self.words
    }

    /// Whether the person may work alone in some scope.
    #[must_use]
    pub fn may_work_alone(&self) -> bool {
        self.may_work_alone
    }

    /// The strictest in a few letters, with a mark where others differ.
    #[must_use]
    pub fn short(&self, words: &Words) -> String {
        let strictest = self.words.last().map(|word| standing_short(word, words));
        let several = if self.words.len() > 1 { "+" } else { "" };
        format!("{}{several}", strictest.unwrap_or_default())
    }
}

/// Gathers a cell in full.
#[must_use]
pub fn cell(ledger: &Ledger, asked: AsOf, person: PersonCode, workflow: &Id) -> Cell {
    cell_of(asked.view(ledger), person, workflow)
}

impl Cell {
    /// The entry that proves the strictest of its standings: what ended a sign-off or made it due, else what the standing rests on.
    #[must_use]
    pub fn proof(&self) -> Option<Seal> {
        let shown = self.scopes.iter().filter(|one| one.ground.is_some());
        let strictest = shown.max_by_key(|one| order(one.word()))?;
        let ended_by = match &strictest.standing {
            Ok(Standing::Lapsed(_, cause)) => cause.entry(),
            Ok(Standing::Due(_, causes)) => causes.iter().rev().find_map(DueCause::entry),
            _ => None,
        };
        ended_by.or(strictest.ground)
    }

    /// Every standing with its circumstances.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        if let (Some(doubt), true) = (&self.doubt, self.scopes.is_empty()) {
            let told = standing_told(&Err(doubt.clone()), None, None, telling);
            return vec![Block::Paragraph(told)];
        }
        if self.scopes.is_empty() {
            let told = standing_told(&Ok(Standing::NotAssigned), None, None, telling);
            return vec![Block::Paragraph(told)];
        }
        let items = self.scopes.iter().map(|one| {
            let values = [
                ("told", told(one, telling).into()),
                ("profile", one.scope.profile.to_string().into()),
                ("wash", one.scope.wash.to_string().into()),
                ("cure", one.scope.cure.to_string().into()),
            ];
            Item::new(telling.say("files-cell-scope", &values)).with(circumstances(one, telling))
        });
        vec![Block::Items(items.collect())]
    }
}

/// A standing in one sentence.
pub(super) fn told(one: &InScope, telling: &Telling<'_>) -> String {
    standing_told(
        &one.standing,
        one.ground.as_ref(),
        one.supervision.as_ref(),
        telling,
    )
}
