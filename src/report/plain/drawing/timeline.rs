//! Times against the times that are allowed, a row per step.

use super::super::Glyphs;
use super::cell;
use crate::report::figure::{Timeline, TimelineRow};
use crate::text::wrap::{columns, cut, wrap, wrap_behind};

/// A row per step: `.....[--*--:-----]....` with the allowed stretch between brackets, then words below.
pub(super) fn timeline(one: &Timeline, width: usize, glyphs: Glyphs) -> Vec<String> {
    let widest = one.rows.iter().map(|row| columns(&row.label)).max();
    let label = widest.unwrap_or(0).min(width * 2 / 5);
    let longest = match glyphs {
        Glyphs::Ascii => 44,
        Glyphs::Braille => 64,
    };
    let track = width.saturating_sub(label + 1).clamp(8, longest);
    let mut lines = wrap(&one.key, width);
    for row in &one.rows {
        let name = cut(&row.label, label);
        let pad = " ".repeat(label - columns(&name));
        let drawn = track_of(row, track, glyphs);
        let tail = width.saturating_sub(label + 1 + track + 2);
        let first = format!("{name}{pad} {drawn}");
        // Words go beside the track where they fit, else below it.
        if columns(&row.said) <= tail {
            lines.push(format!("{first}  {}", row.said));
        } else {
            lines.push(first);
            let indent = " ".repeat(label + 1);
            lines.extend(wrap_behind(&indent, &row.said, width));
        }
    }
    lines
}

fn track_of(row: &TimelineRow, cells: usize, glyphs: Glyphs) -> String {
    let longest = row.was.iter().map(|was| was.0).max().unwrap_or(0);
    // A quarter beyond the most that is allowed keeps the right bracket off the edge.
    let to = longest
        .max(row.most.0.saturating_add(row.most.0 / 4))
        .max(1);
    let at = |value: i64| cell(value, 0, to, cells);
    let (least, most) = (at(row.least.0), at(row.most.0));
    let mut track: Vec<char> = (0..cells)
        .map(|one| {
            if one > least && one < most {
                glyphs.pick('━', '-')
            } else {
                glyphs.pick('┄', '.')
            }
        })
        .collect();
    track[at(row.target.0)] = glyphs.pick('┿', ':');
    track[least] = '[';
    track[most] = ']';
    for was in &row.was {
        let mut place = at(was.0);
        let allowed = row.allows(*was);
        // A time that rounds onto a bracket must still stand on its own side of it.
        if allowed && most > least + 1 {
            place = place.clamp(least + 1, most - 1);
        } else if was < &row.least && place >= least {
            place = least.saturating_sub(1);
        } else if was > &row.most && place <= most {
            place = (most + 1).min(cells - 1);
        }
        track[place] = if allowed { '*' } else { 'X' };
    }
    track.into_iter().collect()
}
