//! Blocks as lines of text for a number of columns.
//!
//! Nothing here means something by colour. With [`Glyphs::Ascii`] every mark that is added here is ASCII; the words are what
//! they are.

mod drawing;

use super::block::{Block, Item};
use super::figure::Figure;
use crate::text::wrap::{columns, wrap, wrap_behind};

/// How many columns a line has where nothing else is known.
pub const COLUMNS: usize = 80;

/// Which characters figures and rules are drawn with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glyphs {
    /// Only ASCII.
    Ascii,
    /// Lines, blocks and braille dots, where the terminal is known to show them.
    Braille,
}

impl Glyphs {
    /// A mark, or what stands for it in ASCII.
    fn pick<T>(self, fine: T, plain: T) -> T {
        match self {
            Glyphs::Braille => fine,
            Glyphs::Ascii => plain,
        }
    }
}

/// Sets blocks as lines, none wider than `width` columns (and `width` at least 20).
#[must_use]
pub fn plain(blocks: &[Block], width: usize, glyphs: Glyphs) -> Vec<String> {
    let width = width.max(20);
    let mut lines: Vec<String> = Vec::new();
    for block in blocks {
        if !lines.is_empty() {
            lines.push(String::new());
        }
        match block {
            Block::Heading { level, text } => heading(*level, text, width, glyphs, &mut lines),
            Block::Paragraph(text) => lines.extend(wrap(text, width)),
            Block::Items(items) => list(items, 0, width, &mut lines),
            Block::Table { head, rows } => table(head, rows, width, glyphs, &mut lines),
            Block::Figure(figure) => lines.extend(drawing::figure(figure, width, glyphs)),
            Block::Caution(text) => lines.extend(wrap_behind("! ", text, width)),
        }
    }
    for line in &mut lines {
        line.truncate(line.trim_end().len());
    }
    lines
}

/// Draws one figure in about `tall` lines, none wider than `width` columns (and `width` at least 20).
///
/// A curve and an arch give way, and a curve uses what room there is; the others take the lines that they need.
#[must_use]
pub fn figure(figure: &Figure, width: usize, tall: usize, glyphs: Glyphs) -> Vec<String> {
    drawing::fitted(figure, width.max(20), tall, glyphs)
}

fn heading(level: u8, text: &str, width: usize, glyphs: Glyphs, lines: &mut Vec<String>) {
    let first = lines.len();
    lines.extend(wrap(text, width));
    let under = match level {
        1 => glyphs.pick('═', '='),
        2 => glyphs.pick('─', '-'),
        _ => return,
    };
    let wide = lines[first..].iter().map(|line| columns(line)).max();
    lines.push(String::from(under).repeat(wide.unwrap_or(0)));
}

fn list(items: &[Item], depth: usize, width: usize, lines: &mut Vec<String>) {
    // Deep lists stop moving right, so that there is always room for words.
    let lead = format!("{}- ", "  ".repeat(depth.min(4)));
    for item in items {
        lines.extend(wrap_behind(&lead, &item.text, width));
        list(&item.children, depth + 1, width, lines);
    }
}

/// Columns as wide as their cells where that fits; else the widest are narrowed, and cells wrap.
fn table(
    head: &[String],
    rows: &[Vec<String>],
    width: usize,
    glyphs: Glyphs,
    lines: &mut Vec<String>,
) {
    const BETWEEN: usize = 2;
    let empty = String::new();
    let all = || std::iter::once(head).chain(rows.iter().map(Vec::as_slice));
    let mut widths: Vec<usize> = (0..head.len())
        .map(|column| {
            let cells = all().map(|row| columns(row.get(column).unwrap_or(&empty)));
            cells.max().unwrap_or(0).max(1)
        })
        .collect();
    let room = width.saturating_sub(BETWEEN * head.len().saturating_sub(1));
    while widths.iter().sum::<usize>() > room {
        let Some(widest) = widths.iter_mut().max() else {
            break;
        };
        if *widest <= 1 {
            break;
        }
        *widest -= 1;
    }
    let mut row_of = |row: &[String]| {
        let cells: Vec<Vec<String>> = widths
            .iter()
            .enumerate()
            .map(|(column, &wide)| wrap(row.get(column).unwrap_or(&empty), wide))
            .collect();
        let tall = cells.iter().map(Vec::len).max().unwrap_or(0);
        for at in 0..tall {
            let mut line = String::new();
            for (cell, &wide) in cells.iter().zip(&widths) {
                let text = cell.get(at).map_or("", String::as_str);
                line.push_str(text);
                line.push_str(&" ".repeat(wide.saturating_sub(columns(text)) + BETWEEN));
            }
            lines.push(line.trim_end().to_owned());
        }
    };
    row_of(head);
    let rules: Vec<String> = widths
        .iter()
        .map(|&wide| String::from(glyphs.pick('─', '-')).repeat(wide))
        .collect();
    row_of(&rules);
    for row in rows {
        row_of(row);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_lists_and_tables_are_told_apart_without_colour() {
        let blocks = [
            Block::heading(1, "Debrief"),
            Block::Paragraph("One short line of words that is too long.".into()),
            Block::Items(vec![Item::new("first").with(vec![Item::new("under it")])]),
            Block::Table {
                head: vec!["Part".into(), "Found".into()],
                rows: vec![vec!["Order".into(), "98 %".into()]],
            },
            Block::Caution("Gloves on.".into()),
        ];
        assert_eq!(
            plain(&blocks, 24, Glyphs::Ascii).join("\n"),
            "Debrief\n=======\n\nOne short line of words\nthat is too long.\n\n- first\n  - under it\n\n\
             Part   Found\n-----  -----\nOrder  98 %\n\n! Gloves on."
        );
    }

    #[test]
    fn wide_tables_wrap_in_their_cells() {
        let rows = vec![vec!["a ".repeat(40), "b ".repeat(40), "c".repeat(30)]];
        let head = vec!["1".into(), "2".into(), "3".into()];
        for line in plain(&[Block::Table { head, rows }], 40, Glyphs::Braille) {
            assert!(columns(&line) <= 40, "{line}");
        }
    }
}
