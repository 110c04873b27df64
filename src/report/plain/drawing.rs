//! Figures drawn with characters.

mod arch;
mod bars;
mod curve;
mod dots;
#[cfg(test)]
mod tests;
mod timeline;

use super::Glyphs;
use crate::report::figure::Figure;
use crate::text::wrap::{wrap, wrap_behind};

/// How tall the figures are drawn that can be drawn in more than one way.
#[derive(Clone, Copy)]
struct Height {
    /// The lines of a curve between its axes.
    field: usize,
    /// Whether an arch is drawn with lines between its teeth.
    spread: bool,
}

/// The height where nothing else is asked for.
const USUAL: Height = Height {
    field: 12,
    spread: true,
};

/// The fewest and the most lines of a curve between its axes.
const FIELDS: (usize, usize) = (5, 24);

/// Draws a figure: title, drawing, note.
pub(super) fn figure(figure: &Figure, width: usize, glyphs: Glyphs) -> Vec<String> {
    draw(figure, width, USUAL, glyphs)
}

/// Draws a figure in `tall` lines as far as it can give way or use more.
pub(super) fn fitted(figure: &Figure, width: usize, tall: usize, glyphs: Glyphs) -> Vec<String> {
    let lines = draw(figure, width, USUAL, glyphs);
    let besides = lines.len().saturating_sub(USUAL.field);
    let height = Height {
        field: tall.saturating_sub(besides).clamp(FIELDS.0, FIELDS.1),
        spread: lines.len() <= tall,
    };
    match figure {
        Figure::Curve(_) | Figure::Arch(_) => draw(figure, width, height, glyphs),
        Figure::Timeline(_) | Figure::Bars(_) => lines,
    }
}

fn draw(figure: &Figure, width: usize, height: Height, glyphs: Glyphs) -> Vec<String> {
    let (title, note) = match figure {
        Figure::Timeline(one) => (&one.title, &one.note),
        Figure::Curve(one) => (&one.title, &one.note),
        Figure::Bars(one) => (&one.title, &one.note),
        Figure::Arch(one) => (&one.title, &one.note),
    };
    let mut lines = wrap(title, width);
    lines.extend(match figure {
        Figure::Timeline(one) => timeline::timeline(one, width, glyphs),
        Figure::Curve(one) => curve::curve(one, width, height.field, glyphs),
        Figure::Bars(one) => bars::bars(one, width, glyphs),
        Figure::Arch(one) => arch::arch(one, width, height.spread, glyphs),
    });
    lines.extend(wrap_behind("! ", note, width));
    for line in &mut lines {
        line.truncate(line.trim_end().len());
    }
    lines
}

/// Where a value falls on a line of so many cells.
fn cell(value: i64, from: i64, to: i64, cells: usize) -> usize {
    let span = i128::from(to) - i128::from(from);
    let last = cells.saturating_sub(1);
    if span <= 0 || value <= from {
        return 0;
    }
    let steps = i128::try_from(last).unwrap_or(0);
    let at = ((i128::from(value) - i128::from(from)) * steps * 2 + span) / (span * 2);
    usize::try_from(at).unwrap_or(0).min(last)
}
