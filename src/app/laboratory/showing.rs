//! What a signer is shown before the passphrase: what follows from the signature, then everything that will be signed.

use super::numbers::told_departures;
use super::signing::Draft;
use crate::report::record::{Telling, ToBeSigned, follows, preview, said};
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
    let mut blocks = follows(&then, frame.recorded.offset(), telling);
    let of = ToBeSigned {
        frame,
        fact,
        signing,
    };
    blocks.extend(told_departures(draft.departures(), telling.words));
    blocks.extend(preview(telling.ledger, of).blocks(telling));
    blocks
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
