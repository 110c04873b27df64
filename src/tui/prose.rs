//! Blocks of a report as lines with roles, to be scrolled through.

use super::frame::{Area, Frame, Role};
use super::list::Scroll;
use crate::report::Block;
use crate::report::plain::{Glyphs, figure, plain};
use crate::text::wrap::wrap;

/// One line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// What it is for.
    pub(super) role: Role,
    /// What it says.
    pub(super) text: String,
}

impl Line {
    /// A line.
    #[must_use]
    pub(super) fn new(role: Role, text: impl Into<String>) -> Line {
        Line {
            role,
            text: text.into(),
        }
    }
}

/// Sets blocks as lines of at most `wide` columns; figures take about `tall` lines.
#[must_use]
pub(super) fn lines(blocks: &[Block], wide: usize, tall: usize, glyphs: Glyphs) -> Vec<Line> {
    let mut all: Vec<Line> = Vec::new();
    for block in blocks {
        if !all.is_empty() {
            all.push(Line::new(Role::Plain, ""));
        }
        let (role, texts) = match block {
            // A heading shows by its role; rules under it would take room away.
            Block::Heading { text, .. } => (Role::Strong, wrap(text, wide.max(1))),
            Block::Caution(_) => (
                Role::Caution,
                plain(std::slice::from_ref(block), wide, glyphs),
            ),
            Block::Figure(one) => (Role::Plain, figure(one, wide, tall, glyphs)),
            Block::Paragraph(_) | Block::Items(_) | Block::Table { .. } => (
                Role::Plain,
                plain(std::slice::from_ref(block), wide, glyphs),
            ),
        };
        all.extend(texts.into_iter().map(|text| Line::new(role, text)));
    }
    all
}

/// Wraps texts under one role.
#[must_use]
pub(super) fn wrapped(role: Role, text: &str, wide: usize) -> Vec<Line> {
    let texts = wrap(text, wide.max(1)).into_iter();
    texts.map(|text| Line::new(role, text)).collect()
}

/// What is wrong with a field, below it.
#[must_use]
pub(super) fn cautions(texts: &[String], wide: usize) -> Vec<Line> {
    let texts = texts.iter();
    texts
        .flat_map(|text| wrapped(Role::Caution, text, wide))
        .collect()
}

/// Draws as many lines as fit, from where the text has been scrolled to, with marks where there is more.
pub(super) fn draw(frame: &mut Frame, area: Area, all: &[Line], scroll: Scroll) {
    let top = scroll.shown(all.len(), area.tall);
    for (row, line) in all.iter().skip(top).take(area.tall).enumerate() {
        frame.put(area, row, 0, line.role, &line.text);
    }
    if area.wide < 3 {
        return;
    }
    frame.mark_more(area, top > 0, top + area.tall < all.len());
}
