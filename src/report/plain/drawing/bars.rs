//! Bars against a limit.

use super::super::Glyphs;
use super::cell;
use crate::report::figure::{Bar, Bars, Bound};
use crate::text::wrap::{columns, cut, wrap, wrap_behind};

/// Blocks that fill one to eight eighths of a cell from the left.
const EIGHTHS: [char; 8] = ['▏', '▎', '▍', '▌', '▋', '▊', '▉', '█'];

pub(super) fn bars(one: &Bars, width: usize, glyphs: Glyphs) -> Vec<String> {
    let all = || one.groups.iter().flat_map(|group| &group.bars);
    let widest = |wide: &dyn Fn(&Bar) -> usize| all().map(wide).max().unwrap_or(0);
    // Names and words may take a third each, but leave six columns, of which the track gets four.
    let third = (width / 3).min(width.saturating_sub(10) / 2);
    let label = widest(&|bar| columns(&bar.label)).min(third);
    let said = widest(&|bar| columns(&bar.said)).min(third);
    let longest = match glyphs {
        Glyphs::Ascii => 40,
        Glyphs::Braille => 64,
    };
    let track = width
        .saturating_sub(2 + label + 2 + 2 + said)
        .clamp(4, longest);
    let highest = all().map(|bar| bar.value).max().unwrap_or(0);
    let top = match &one.bound {
        // Far beyond the limit nothing more is told by length, and near it everything is.
        Some(bound) if bound.at > 0 => highest.clamp(
            bound.at.saturating_add(bound.at / 4),
            bound.at.saturating_mul(5),
        ),
        _ => highest,
    }
    .max(1);
    let mut lines = wrap(&one.key, width);
    if let Some(bound) = &one.bound {
        lines.extend(wrap_behind(glyphs.pick("┃ ", "| "), &bound.said, width));
    }
    for group in &one.groups {
        lines.extend(wrap(&group.label, width));
        for bar in &group.bars {
            let bound = one.bound.as_ref();
            let drawn: String = match glyphs {
                Glyphs::Ascii => characters(bar, bound, top, track),
                Glyphs::Braille => blocks(bar, bound, top, track),
            }
            .into_iter()
            .collect();
            let allowed = bound.is_none_or(|bound| bound.allows(bar.value));
            let sign = if allowed { ' ' } else { 'X' };
            let name = cut(&bar.label, label);
            let pad = " ".repeat(label - columns(&name));
            let said = cut(&bar.said, said);
            lines.push(format!("  {name}{pad} {sign}{drawn} {said}"));
        }
    }
    lines
}

/// A bar of whole characters.
fn characters(bar: &Bar, bound: Option<&Bound>, top: i64, track: usize) -> Vec<char> {
    let mut cells = vec![' '; track];
    let full = if bar.value <= 0 {
        0
    } else {
        cell(bar.value, 0, top, track) + 1
    };
    cells[..full.min(track)].fill('#');
    if bar.value > top {
        cells[track - 1] = '>';
    }
    if let Some(bound) = bound {
        let mut at = cell(bound.at, 0, top, track);
        // The line stands where the bar's end shows on the right side of it.
        if bar.value < bound.at && at < full {
            at = full.min(track - 1);
        }
        cells[at] = '|';
    }
    cells
}

/// A bar of blocks whose end falls between cells.
fn blocks(bar: &Bar, bound: Option<&Bound>, top: i64, track: usize) -> Vec<char> {
    let eighth = EIGHTHS.len();
    let mut full = match bar.value {
        i64::MIN..=0 => 0,
        value => cell(value, 0, top, track * eighth + 1).max(1),
    };
    let line = bound.map(|bound| cell(bound.at, 0, top, track * eighth + 1) / eighth);
    let line = line.map(|at| at.min(track - 1));
    if let (Some(at), Some(bound)) = (line, bound) {
        // The line hides the cell that it stands in, so a bar that ends there is drawn to the cell before or behind it.
        if bar.value < bound.at {
            full = full.min((at * eighth).saturating_sub(1));
        } else if bar.value > bound.at {
            full = full.max((at + 1) * eighth + 1);
        }
    }
    let full = full.min(track * eighth);
    let mut cells: Vec<char> = (0..track)
        .map(|at| match full.saturating_sub(at * eighth).min(eighth) {
            0 => ' ',
            part => EIGHTHS[part - 1],
        })
        .collect();
    if bar.value > top {
        cells[track - 1] = '>';
    }
    if let Some(at) = line {
        cells[at] = '┃';
    }
    cells
}
