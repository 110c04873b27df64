//! Blocks and machine-readable answers on the stream of results.

use super::failure::Failure;
use super::out::Out;
use crate::app::shelf::Taken;
use crate::report::plain::{Glyphs, plain};
use crate::report::{Block, HazardWords};

/// Prints blocks as text.
pub(super) fn print(blocks: &[Block], width: usize, out: &mut Out) -> Result<(), Failure> {
    for line in plain(blocks, width, Glyphs::Ascii) {
        out.line(&line)?;
    }
    Ok(())
}

/// Prints an answer for machines.
pub(super) fn json<T: serde::Serialize>(answer: &T, out: &mut Out) -> Result<(), Failure> {
    let text = serde_json::to_string_pretty(answer)
        .map_err(|why| Failure::NotWritten(std::io::Error::other(why)))?;
    out.line(&text)?;
    Ok(())
}

/// The words of the shared hazards.
pub(super) fn hazards(taken: &Taken) -> impl Fn(&str) -> Option<HazardWords> + '_ {
    |id| {
        let found = taken.hazards.iter().find(|one| one.id.value == id)?;
        Some(HazardWords {
            title: found.title.clone(),
            precautions: found.precautions.clone(),
        })
    }
}
