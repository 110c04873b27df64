//! Curves: a field with two axes, limit lines across it, and the lines of the series.

use super::super::Glyphs;
use super::cell;
use super::dots::{ACROSS, DOWN, Dots};
use crate::report::figure::{Curve, Mark, Series, Stroke};
use crate::text::wrap::{columns, cut, wrap, wrap_behind};

/// What the lines of the series are drawn with where dots cannot tell them apart.
const STROKES: [char; 4] = ['*', 'o', '+', 'x'];

/// The names of limit lines that have no room for their words.
const NAMES: [char; 8] = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];

/// How many names of limit lines fit beside one row.
const NAMES_IN_ROW: usize = 4;

pub(super) fn curve(one: &Curve, width: usize, tall: usize, glyphs: Glyphs) -> Vec<String> {
    let gutter = one.up.ticks.iter().map(|tick| columns(&tick.said)).max();
    let gutter = gutter.unwrap_or(0).min(width / 4);
    let room = width.saturating_sub(gutter + 2);
    let field = match glyphs {
        Glyphs::Ascii => characters(one, room.clamp(10, 64), tall),
        Glyphs::Braille => dotted(one, room, tall),
    };
    let wide = field.wide;
    let mut lines = wrap(&one.up.label, width);
    for (at, row) in field.rows.iter().enumerate() {
        let ticks = &one.up.ticks;
        let tick = ticks
            .iter()
            .find(|tick| field.row(tick.at, one, tall) == at);
        let said = tick.map_or(String::new(), |tick| cut(&tick.said, gutter));
        let pad = " ".repeat(gutter - columns(&said));
        let edge = if tick.is_some() {
            glyphs.pick('┤', '+')
        } else {
            glyphs.pick('│', '|')
        };
        lines.push(format!("{pad}{said} {edge}{}", row.trim_end()));
    }
    let (below, ticked) = ticks_below(one, wide);
    let floor: String = (0..wide)
        .map(|at| {
            if ticked.contains(&at) {
                glyphs.pick('┴', '-')
            } else {
                glyphs.pick('─', '-')
            }
        })
        .collect();
    let indent = " ".repeat(gutter + 1);
    lines.push(format!("{indent}{}{floor}", glyphs.pick('└', '+')));
    lines.push(format!("{indent} {below}"));
    lines.extend(wrap_behind(&format!("{indent} "), &one.across.label, width));
    if one.series.len() > 1 {
        for (number, series) in one.series.iter().enumerate() {
            let lead = format!("{} ", field.stroke(number));
            lines.extend(wrap_behind(&lead, &series.name, width));
        }
    }
    for (lead, said) in field.key {
        lines.extend(wrap_behind(&lead, said, width));
    }
    lines
}

/// The inside of a curve, between its axes.
struct Field<'a> {
    /// How many columns belong to the axis below.
    wide: usize,
    /// How many steps a cell has upwards.
    fine: usize,
    /// The rows from the top, with what stands to the right of them.
    rows: Vec<String>,
    /// The limit lines that are explained below, each with what it looks like.
    key: Vec<(String, &'a str)>,
}

impl Field<'_> {
    /// The row that a value falls into, from the top.
    fn row(&self, value: i64, one: &Curve, tall: usize) -> usize {
        down(value, one, tall * self.fine) / self.fine
    }

    /// What a series is drawn with.
    fn stroke(&self, number: usize) -> char {
        if self.fine > 1 && number == 0 {
            // The first line is the one that is drawn with dots.
            '⠒'
        } else {
            STROKES[number % STROKES.len()]
        }
    }
}

/// How far below the top a value falls, in so many steps.
fn down(value: i64, one: &Curve, steps: usize) -> usize {
    steps - 1 - cell(value, one.up.from(), one.up.to(), steps)
}

/// The limits that fall between the ends of the axis.
fn within(one: &Curve) -> impl Iterator<Item = &Mark> {
    let ends = one.up.from()..=one.up.to();
    one.marks.iter().filter(move |mark| ends.contains(&mark.at))
}

/// A field of characters, one for each point.
fn characters(one: &Curve, wide: usize, tall: usize) -> Field<'_> {
    let mut cells = vec![vec![' '; wide]; tall];
    for mark in within(one) {
        for place in cells[down(mark.at, one, tall)].iter_mut().step_by(2) {
            *place = '-';
        }
    }
    for (number, series) in one.series.iter().enumerate() {
        stroke(one, series, STROKES[number % STROKES.len()], &mut cells);
    }
    let key = one.marks.iter();
    Field {
        wide,
        fine: 1,
        rows: cells.iter().map(|row| row.iter().collect()).collect(),
        key: key
            .map(|mark| ("- - ".to_owned(), mark.said.as_str()))
            .collect(),
    }
}

/// Draws a series with one character.
fn stroke(one: &Curve, series: &Series, dot: char, cells: &mut [Vec<char>]) {
    let (tall, wide) = (cells.len(), cells.first().map_or(0, Vec::len));
    let column = |across: i64| cell(across, one.across.from(), one.across.to(), wide);
    for point in &series.points {
        cells[down(point.up, one, tall)][column(point.across)] = dot;
    }
    if series.stroke == Stroke::Apart {
        return;
    }
    for pair in series.points.windows(2) {
        let columns = column(pair[0].across)..=column(pair[1].across);
        let from = *columns.start();
        let span = columns.end().saturating_sub(from).max(1);
        for at in columns {
            let up = between(pair[0].up, pair[1].up, at - from, span);
            cells[down(up, one, tall)][at] = dot;
        }
    }
}

/// The value so many steps of `span` along the way from one value to another, rounded towards the first.
fn between(first: i64, last: i64, along: usize, span: usize) -> i64 {
    let steps = |count: usize| i128::try_from(count).unwrap_or(1);
    let way = i128::from(last) - i128::from(first);
    let at = i128::from(first) + way * steps(along) / steps(span).max(1);
    i64::try_from(at).unwrap_or(last)
}

/// A field of braille dots; its limit lines carry their words, or a letter where there is no room for words.
fn dotted(one: &Curve, room: usize, tall: usize) -> Field<'_> {
    const MOST: usize = 96;
    const LEAST_BESIDE_WORDS: usize = 36;
    let mut tags: Vec<Vec<usize>> = vec![Vec::new(); tall];
    for (number, mark) in one.marks.iter().enumerate() {
        if (one.up.from()..=one.up.to()).contains(&mark.at) {
            tags[down(mark.at, one, tall * DOWN) / DOWN].push(number);
        }
    }
    let words = one.marks.iter().map(|mark| columns(&mark.said)).max();
    let words = words.map_or(0, |wide| wide + 1);
    let shown: usize = tags.iter().map(Vec::len).sum();
    let said = shown == one.marks.len()
        && tags.iter().all(|row| row.len() <= 1)
        && room >= LEAST_BESIDE_WORDS + words;
    let letters = tags.iter().map(Vec::len).max().unwrap_or(0);
    let margin = match (said, letters) {
        (true, _) => words,
        (false, 0) => 0,
        (false, count) => 1 + count.min(NAMES_IN_ROW),
    };
    let wide = room.saturating_sub(margin).clamp(8, MOST);

    let mut dots = Dots::new(wide, tall);
    for mark in within(one) {
        let below = down(mark.at, one, tall * DOWN);
        for at in (0..wide).step_by(2) {
            dots.line((at * ACROSS, below), (at * ACROSS + ACROSS - 1, below));
        }
    }
    let place = |across: i64, up: i64| {
        let right = cell(across, one.across.from(), one.across.to(), wide * ACROSS);
        (right, down(up, one, tall * DOWN))
    };
    let mut over = vec![vec![' '; wide]; tall];
    for (number, series) in one.series.iter().enumerate() {
        if number > 0 {
            stroke(one, series, STROKES[number % STROKES.len()], &mut over);
        } else if series.stroke == Stroke::Apart || series.points.len() == 1 {
            for point in &series.points {
                let (right, below) = place(point.across, point.up);
                dots.blot(right, below);
            }
        } else {
            for pair in series.points.windows(2) {
                dots.line(
                    place(pair[0].across, pair[0].up),
                    place(pair[1].across, pair[1].up),
                );
            }
        }
    }
    let rows = (0..tall).map(|row| {
        let cells = (0..wide).map(|column| match over[row][column] {
            ' ' => dots.character(column, row),
            drawn => drawn,
        });
        let mut line: String = cells.collect();
        if !tags[row].is_empty() {
            line.push(' ');
        }
        for &number in tags[row].iter().take(NAMES_IN_ROW) {
            if said {
                line.push_str(&one.marks[number].said);
            } else {
                line.push(NAMES[number % NAMES.len()]);
            }
        }
        line
    });
    let key = one.marks.iter().enumerate().filter(|_| !said);
    Field {
        wide,
        fine: DOWN,
        rows: rows.collect(),
        key: key
            .map(|(number, mark)| {
                let name = NAMES[number % NAMES.len()];
                (format!("{name} ⠒ ⠒ "), mark.said.as_str())
            })
            .collect(),
    }
}

/// The words of the ticks below a curve and the columns that they stand at; one that would touch its neighbour is left out.
fn ticks_below(one: &Curve, wide: usize) -> (String, Vec<usize>) {
    let mut line = String::new();
    let mut ticked = Vec::new();
    for tick in &one.across.ticks {
        let at = cell(tick.at, one.across.from(), one.across.to(), wide);
        let length = columns(&tick.said);
        let start = at
            .saturating_sub(length / 2)
            .min(wide.saturating_sub(length));
        let used = columns(&line);
        if (used == 0 || start > used) && start + length <= wide {
            line.push_str(&" ".repeat(start - used));
            line.push_str(&tick.said);
            ticked.push(at);
        }
    }
    (line, ticked)
}
