//! The arch with an amount on both sides of each tooth, and the numbers under it.

use super::super::Glyphs;
use crate::report::figure::{Arch, ArchTooth, Reach};
use crate::text::wrap::{columns, cut, wrap, wrap_behind};

/// The columns of a mark in the drawing.
const MARK: usize = 3;

/// The columns from one tooth of the front to the next.
const PITCH: usize = 5;

/// The columns of a tooth at the side: mark, number, mark.
const SIDEWAYS: usize = MARK + 4 + MARK;

/// The lines of the front: outer marks, numbers, inner marks. The sides begin below it, so that no two inner marks are
/// taken for those of one tooth.
const FRONT: usize = 3;

/// The columns between the front and the sides.
const GAP: usize = 1;

pub(super) fn arch(one: &Arch, width: usize, spread: bool, glyphs: Glyphs) -> Vec<String> {
    let mut lines = wrap(&one.said, width);
    for missed in &one.missed {
        lines.extend(wrap_behind("- ", missed, width));
    }
    if let Some(drawn) = horseshoe(one, width, if spread { 2 } else { 1 }, glyphs) {
        lines.push(String::new());
        lines.extend(drawn);
        lines.push(String::new());
        lines.extend(wrap(&one.key, width));
    }
    lines.extend(marks(one, width, glyphs));
    lines.extend(numbers(one, width, glyphs));
    lines
}

/// What the marks mean, on one line where there is room.
fn marks(one: &Arch, width: usize, glyphs: Glyphs) -> Vec<String> {
    let all = [
        (Reach::Enough, &one.bound.said),
        (Reach::Less, &one.less),
        (Reach::None, &one.none),
    ];
    let all = all.map(|(reach, said)| (mark(reach, glyphs), said));
    let line = all.map(|(mark, said)| format!("{mark} {said}")).join("   ");
    if columns(&line) <= width {
        return vec![line];
    }
    let each = all.into_iter();
    each.flat_map(|(mark, said)| wrap_behind(&format!("{mark} "), said, width))
        .collect()
}

/// What stands for an amount.
fn mark(reach: Reach, glyphs: Glyphs) -> &'static str {
    match reach {
        Reach::Enough => glyphs.pick(" ■ ", " + "),
        Reach::Less => "[X]",
        Reach::None => "[0]",
    }
}

/// How many teeth stand side by side in the front of an arch; the others stand in two equal rows behind it.
fn front_of(teeth: usize) -> usize {
    let third = (teeth / 3).max(1);
    third + (teeth - third) % 2
}

/// Draws the arch, where there is room for it; a tooth at the side stands `step` lines below the one before.
pub(super) fn horseshoe(
    one: &Arch,
    width: usize,
    step: usize,
    glyphs: Glyphs,
) -> Option<Vec<String>> {
    let teeth = one.teeth.len();
    if teeth == 0 || one.teeth.iter().any(|tooth| tooth.number > 99) {
        return None;
    }
    let front = front_of(teeth);
    let side = (teeth - front) / 2;
    // Each tooth at the side stands further out than the one before, by less each time.
    let mut out = vec![0; side];
    for at in 1..side {
        out[at] = out[at - 1] + (side - 1).saturating_sub(at);
    }
    let left = out.last().map_or(0, |out| out + SIDEWAYS + GAP);
    let wide = left * 2 + front * PITCH - (PITCH - MARK);
    if wide > width {
        return None;
    }
    let tall = FRONT + side.checked_sub(1).map_or(0, |last| last * step + 1);
    let mut field = Field::new(wide, tall);
    for (at, tooth) in one.teeth.iter().enumerate() {
        let marks = tooth.sides.each_ref();
        let [outer, inner] = marks.map(|amount| mark(one.reach(amount), glyphs));
        let number = tooth.number;
        if at < side {
            let behind = side - 1 - at;
            let column = left - GAP - SIDEWAYS - out[behind];
            let text = format!("{outer}{number:^4}{inner}");
            field.put(FRONT + behind * step, column, &text);
        } else if at < side + front {
            let column = left + (at - side) * PITCH;
            field.put(0, column, outer);
            field.put(1, column, &format!("{number:^3}"));
            field.put(2, column, inner);
        } else {
            let behind = at - side - front;
            let column = wide - left + GAP + out[behind];
            let text = format!("{inner}{number:^4}{outer}");
            field.put(FRONT + behind * step, column, &text);
        }
    }
    let [outer, inner] = &one.sides;
    // The inner side's name stands under the front and between the sides, where nothing else does.
    let inside = (wide + GAP * 2).saturating_sub(left * 2);
    if tall > FRONT && columns(inner) + 2 <= inside {
        field.put(FRONT.midpoint(tall), (wide - columns(inner)) / 2, inner);
    }
    let mut lines = field.lines();
    if columns(outer) <= wide {
        let before = " ".repeat((wide - columns(outer)) / 2);
        lines.insert(0, before + outer);
    }
    Some(lines)
}

/// A field of cells, each with the text that begins in it.
struct Field {
    cells: Vec<Vec<String>>,
}

impl Field {
    fn new(wide: usize, tall: usize) -> Field {
        Field {
            cells: vec![vec![" ".to_owned(); wide]; tall],
        }
    }

    /// Puts a text into the cells that it covers.
    fn put(&mut self, row: usize, column: usize, text: &str) {
        let covered = &mut self.cells[row][column..column + columns(text)];
        covered.fill(String::new());
        if let Some(first) = covered.first_mut() {
            text.clone_into(first);
        }
    }

    fn lines(&self) -> Vec<String> {
        self.cells.iter().map(|row| row.concat()).collect()
    }
}

/// The numbers, a tooth in a row; the second half of the arch beside the first where that fits.
fn numbers(one: &Arch, width: usize, glyphs: Glyphs) -> Vec<String> {
    const BETWEEN: usize = 4;
    let amounts = || one.teeth.iter().flat_map(|tooth| &tooth.sides);
    let said = amounts().map(|amount| columns(&amount.said)).max();
    let said = MARK + 1 + said.unwrap_or(0);
    let first = one
        .teeth
        .iter()
        .map(|tooth| columns(&tooth.number.to_string()));
    let first = first.max().unwrap_or(0).max(columns(&one.tooth));
    let row = |cells: [String; 3]| {
        let mut line = String::new();
        for (cell, wide) in cells.iter().zip([first, said, said]) {
            let cell = cut(cell, wide);
            line.push_str(&cell);
            line.push_str(&" ".repeat(wide - columns(&cell) + 2));
        }
        line.truncate(line.len() - 2);
        line
    };
    let entry = first + 2 + said + 2 + said;
    if entry > width {
        return one
            .teeth
            .iter()
            .flat_map(|tooth| apart(one, tooth, width, glyphs))
            .collect();
    }
    let mut rows = vec![];
    let head = row([
        one.tooth.clone(),
        one.sides[0].clone(),
        one.sides[1].clone(),
    ]);
    for tooth in &one.teeth {
        let [outer, inner] = tooth
            .sides
            .each_ref()
            .map(|amount| format!("{} {}", mark(one.reach(amount), glyphs), amount.said));
        rows.push(row([tooth.number.to_string(), outer, inner]));
    }
    let beside = entry * 2 + BETWEEN <= width && rows.len() > 3;
    if !beside {
        rows.insert(0, head);
        return rows;
    }
    let half = rows.len().div_ceil(2);
    let between = " ".repeat(BETWEEN);
    let mut lines = vec![format!("{head}{between}{head}")];
    for at in 0..half {
        let second = rows.get(half + at).map_or("", String::as_str);
        lines.push(format!("{}{between}{second}", rows[at]));
    }
    lines
}

/// The numbers of a tooth where a row has no room for them.
fn apart(one: &Arch, tooth: &ArchTooth, width: usize, glyphs: Glyphs) -> Vec<String> {
    let mut lines = wrap(&format!("{} {}", one.tooth, tooth.number), width);
    for (name, amount) in one.sides.iter().zip(&tooth.sides) {
        let lead = format!("{} ", mark(one.reach(amount), glyphs));
        lines.extend(wrap_behind(
            &lead,
            &format!("{name} {}", amount.said),
            width,
        ));
    }
    lines
}
