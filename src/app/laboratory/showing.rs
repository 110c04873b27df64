//! What a signer is shown before the passphrase: what follows from the signature, then everything that will be signed.

use super::signing::Draft;
use crate::report::Block;
use crate::report::record::{Telling, ToBeSigned, follows, preview};
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
    blocks.extend(preview(telling.ledger, of).blocks(telling));
    blocks
}
