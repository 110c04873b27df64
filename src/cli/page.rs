//! Blocks and machine-readable answers on the stream of results.

use super::failure::Failure;
use super::out::Out;
use crate::app::System;
use crate::report::Block;
use crate::report::plain::{Glyphs, plain};
use crate::text::Words;

/// Prints blocks as text.
pub(super) fn print(blocks: &[Block], width: usize, out: &mut Out) -> Result<(), Failure> {
    for line in plain(blocks, width, Glyphs::Ascii) {
        out.line(&line)?;
    }
    Ok(())
}

/// How many lines are printed at once to a person; a screen has at least 24.
const PAGE: usize = 22;

/// Prints blocks as text, and where a person sits waits for Enter before what would push a chapter off the screen, and within one that is longer. Returns whether
/// the person read on to the end.
pub(super) fn print_in_pages<S: System>(
    blocks: &[Block],
    width: usize,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<bool, Failure> {
    if !system.person_types() {
        print(blocks, width, out)?;
        return Ok(true);
    }
    let mut shown = 0;
    let starts =
        |block: &Block| matches!(block, Block::Heading { level: 2, .. } | Block::Figure(_));
    for (number, chapter) in blocks.chunk_by(|_, next| !starts(next)).enumerate() {
        let lines = plain(chapter, width, Glyphs::Ascii);
        if number > 0 {
            // What is longer than a page begins at once: it is broken in any case.
            if lines.len() <= PAGE && shown + lines.len() > PAGE {
                if !reads_on(system, words, out)? {
                    return Ok(false);
                }
                shown = 0;
            }
            out.line("")?;
            shown += 1;
        }
        for line in lines {
            if shown >= PAGE {
                if !reads_on(system, words, out)? {
                    return Ok(false);
                }
                shown = 0;
            }
            out.line(&line)?;
            shown += 1;
        }
    }
    Ok(true)
}

/// Asks whether the next page is wanted.
fn reads_on<S: System>(system: &S, words: &Words, out: &mut Out) -> Result<bool, Failure> {
    out.ask(&words.say("cli-read-on", &[]))?;
    let answer = system.read_line()?;
    Ok(answer.is_some_and(|answer| answer.trim().is_empty()))
}

/// Prints an answer for machines.
pub(super) fn json<T: serde::Serialize>(answer: &T, out: &mut Out) -> Result<(), Failure> {
    let text = serde_json::to_string_pretty(answer)
        .map_err(|why| Failure::NotWritten(std::io::Error::other(why)))?;
    out.line(&text)?;
    Ok(())
}
