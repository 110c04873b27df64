//! What a signer is shown before the passphrase: what follows from the signature, then everything that will be signed.

use super::numbers::told_departures;
use super::signing::Draft;
use crate::record::entry::Signed;
use crate::report::record::{
    Telling, ToBeSigned, authority as authority_told, follows, preview, said,
};
use crate::report::{Block, Item};
use crate::standing::consequences;

/// Tells a draft in full, with what follows from it.
#[must_use]
pub fn shown(draft: &Draft, telling: &Telling<'_>) -> Vec<Block> {
    let entry = draft.entry();
    let Some((fact, signing)) = entry.signed() else {
        return Vec::new();
    };
    let frame = entry.frame();
    let then = consequences(telling.ledger, entry);
    let mut blocks = held_besides(fact, telling);
    blocks.extend(follows(&then, frame.recorded.offset(), telling));
    let of = ToBeSigned {
        frame,
        fact,
        signing,
        titles: draft.titles(),
    };
    blocks.extend(told_departures(draft.departures(), telling.words));
    blocks.extend(preview(telling.ledger, of).blocks(telling));
    blocks
}

/// Says that a right is held already by another grant: giving it again adds nothing, and taking one grant back leaves the other.
fn held_besides(fact: &Signed, telling: &Telling<'_>) -> Vec<Block> {
    let staff = telling.ledger.staff();
    let (person, authority, workflow, besides, id) = match fact {
        Signed::Granted(one) => (
            one.person,
            one.authority,
            one.workflow.clone(),
            None,
            "laboratory-held-already",
        ),
        Signed::Revoked(one) => {
            let mut grants = staff.grants_of(one.person);
            let Some((_, authority, workflow)) = grants.find(|(seal, ..)| *seal == one.grant)
            else {
                return Vec::new();
            };
            let besides = Some(one.grant);
            let id = "laboratory-held-still";
            (one.person, authority, workflow.cloned(), besides, id)
        }
        _ => return Vec::new(),
    };
    let others = staff.grants_of(person).filter(|(seal, held, of)| {
        let meets = of.is_none() || workflow.is_none() || *of == workflow.as_ref();
        // A right in all workflows is more than the one that is held in one.
        let covers = besides.is_some() || of.is_none() || workflow.is_some();
        Some(*seal) != besides && *held == authority && meets && covers
    });
    let told = others.map(|(seal, _, of)| {
        let values = [
            ("person", telling.person(person).into()),
            ("authority", authority_told(authority, telling.words).into()),
            ("entry", telling.entry(&seal).into()),
            ("has", if of.is_some() { "workflow" } else { "all" }.into()),
            (
                "workflow",
                of.map_or_else(String::new, ToString::to_string).into(),
            ),
        ];
        Block::Caution(telling.words.say(id, &values))
    });
    told.collect()
}

/// Tells several drafts that are signed together: first which they are, then each in full.
#[must_use]
pub fn shown_all(drafts: &[Draft], telling: &Telling<'_>) -> Vec<Block> {
    let mut blocks = Vec::new();
    if drafts.len() > 1 {
        let count = [("count", drafts.len().into())];
        let title = telling.words.say("laboratory-several-title", &count);
        let each = drafts
            .iter()
            .map(|draft| Item::new(said(draft.entry(), telling)));
        blocks.push(Block::heading(1, title));
        blocks.push(Block::Items(each.collect()));
        let text = telling.words.say("laboratory-several-about", &count);
        blocks.push(Block::Paragraph(text));
    }
    blocks.extend(drafts.iter().flat_map(|draft| shown(draft, telling)));
    blocks
}
