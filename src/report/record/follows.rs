//! What follows from a signature, told before it: whose standing changes, which cases and which evidence rest on what ends.

use super::refusals::people;
use super::said::ground;
use super::scopes::in_scope;
use super::standings::{due_cause, standing, standing_told};
use super::telling::{AsOf, Telling, stamped, time};
use crate::record::seal::Seal;
use crate::report::{Block, Item};
use crate::standing::{Change, Consequences, Reading, Standing, View};
use crate::units::Offset;

/// The most lines of one list. Our default; the rest is counted.
const LINES_MOST: usize = 40;

/// Says what would follow; `offset` is the one that times are printed in. Nothing is said where nothing follows.
#[must_use]
pub fn follows(of: &Consequences, offset: Offset, telling: &Telling<'_>) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !of.changes.is_empty() {
        let at = telling.at(of.at, offset);
        blocks.push(Block::Paragraph(
            telling.say("deeds-follows-from", &[("at", at.into())]),
        ));
        let changes = of
            .changes
            .iter()
            .map(|one| changed(one, of, offset, telling));
        blocks.push(list(changes.collect(), telling));
    }
    if let Some(seconds) = &of.seconds {
        blocks.push(Block::Paragraph(if seconds.is_empty() {
            telling.say("deeds-follows-no-second", &[])
        } else {
            let names = crate::text::Either(people(seconds, telling));
            let id = if of.changes.is_empty() {
                "deeds-follows-second.alone"
            } else {
                "deeds-follows-second"
            };
            telling.say(id, &[("people", names.into())])
        }));
    }
    if !of.cases.is_empty() {
        blocks.push(Block::Paragraph(telling.say("deeds-follows-cases", &[])));
        blocks.push(list(entries(&of.cases, telling), telling));
    }
    if !of.judged.is_empty() {
        blocks.push(Block::Paragraph(telling.say("deeds-follows-judged", &[])));
        let judged = of.judged.iter().map(|(person, workflow, count)| {
            let values = [
                ("person", telling.person(*person).into()),
                ("workflow", workflow.to_string().into()),
                ("count", (*count).into()),
            ];
            Item::new(telling.say("deeds-follows-judged-person", &values))
        });
        blocks.push(list(judged.collect(), telling));
    }
    if !of.resting.is_empty() {
        blocks.push(Block::Paragraph(telling.say("deeds-follows-resting", &[])));
        blocks.push(list(entries(&of.resting, telling), telling));
    }
    if !of.left_out.is_empty() {
        blocks.push(Block::Caution(telling.say("deeds-follows-left-out", &[])));
        // With how each was judged: that is what has to be seen of what is left out.
        let view = View::new(&of.with, of.at, Reading::AsNowKnown);
        let left_out = of.left_out.iter().filter_map(|seal| {
            let entry = telling.ledger.get(seal)?;
            Some(Item::new(ground(entry, &*view.reads(seal)?, telling)))
        });
        blocks.push(list(left_out.collect(), telling));
    }
    if !of.other_scopes.is_empty() {
        blocks.push(Block::Paragraph(
            telling.say("deeds-follows-new-scope", &[]),
        ));
        let scopes = of.other_scopes.iter();
        let scopes = scopes.map(|scope| Item::new(telling.scope(scope)));
        blocks.push(list(scopes.collect(), telling));
    }
    if !blocks.is_empty() {
        blocks.insert(0, telling.heading(1, "deeds-follows-title"));
    }
    blocks
}

/// A standing before and after, with what it will rest on.
fn changed(change: &Change, of: &Consequences, offset: Offset, telling: &Telling<'_>) -> Item {
    let word = super::scopes::word_of(&change.before);
    let values = [
        ("person", telling.person(change.person).into()),
        ("scope", telling.scope(&change.scope).into()),
        ("before", standing(word, telling.words).into()),
        (
            "after",
            standing(super::scopes::word_of(&change.after), telling.words).into(),
        ),
    ];
    // What it will rest on is found among the entries with the new one.
    let there = Telling {
        ledger: &of.with,
        ..*telling
    };
    let told = stamped(of.at, offset).map(|at| {
        let asked = AsOf {
            at,
            reading: Reading::AsNowKnown,
        };
        let then = in_scope(asked.view(&of.with), change.person, change.scope.clone());
        let ground = then.ground.as_ref();
        standing_told(&then.standing, ground, then.supervision.as_ref(), &there)
    });
    let mut under: Vec<Item> = told.into_iter().map(Item::new).collect();
    // A standing that is called as before has changed in its reasons.
    if let Ok(Standing::Due(_, causes)) = &change.after {
        under.extend(causes.iter().map(|one| Item::new(due_cause(one, telling))));
    }
    let same = word == super::scopes::word_of(&change.after);
    let id = if same {
        "deeds-follows-still"
    } else {
        "deeds-follows-change"
    };
    Item::new(telling.say(id, &values)).with(under)
}

/// Entries, each with its time and whom it is about.
fn entries(seals: &[Seal], telling: &Telling<'_>) -> Vec<Item> {
    let known = seals.iter().filter_map(|seal| telling.ledger.get(seal));
    let told = known.map(|entry| {
        let person = entry.kind().subject().person;
        let case = entry.content().member("case");
        let case = match case {
            Some(crate::record::canonical::Value::Text(text)) => text.to_string(),
            _ => String::new(),
        };
        let values = [
            ("at", time(entry.frame().happened).into()),
            ("entry", telling.entry(&entry.seal()).into()),
            (
                "kind",
                super::terms::kind(entry.word(), telling.words).into(),
            ),
            ("has", if case.is_empty() { "none" } else { "case" }.into()),
            ("case", case.into()),
            (
                "person",
                person
                    .map_or_else(String::new, |one| telling.person(one))
                    .into(),
            ),
        ];
        Item::new(telling.say("deeds-follows-entry", &values))
    });
    told.collect()
}

/// A list of which the end is counted where it is long.
fn list(mut items: Vec<Item>, telling: &Telling<'_>) -> Block {
    let more = items.len().saturating_sub(LINES_MOST);
    items.truncate(LINES_MOST);
    if more > 0 {
        let count = [("count", more.into())];
        items.push(Item::new(telling.say("deeds-follows-more", &count)));
    }
    Block::Items(items)
}
