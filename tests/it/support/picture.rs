//! Cells of a screen as a picture in SVG: letters as text, lines between areas as strokes, so that no font leaves gaps in them.

use std::fmt::Write as _;

use cursive::theme::{BaseColor, Color, Effect};

use super::memory_screen::Look;

/// How wide a cell is, in pixels. Letters of 15 pixels in usual fonts of one width are about as wide.
const WIDE: usize = 9;

/// How tall a cell is, in pixels.
const TALL: usize = 18;

/// What stands around the cells, in pixels.
const RIM: usize = 12;

/// How far the foot of a letter is from the top of its cell, in pixels.
const FOOT: usize = 14;

/// Draws cells. The title names the picture to those who hear it, the description tells what is seen.
pub(crate) fn svg(cells: &[Vec<(String, Look)>], title: &str, description: &str) -> String {
    let columns = cells.iter().map(Vec::len).max().unwrap_or(0);
    let (wide, tall) = (columns * WIDE + 2 * RIM, cells.len() * TALL + 2 * RIM);
    let ground = cells
        .first()
        .and_then(|row| row.last())
        .map_or(Color::TerminalDefault, |(_, look)| look.colours.back);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {wide} {tall}\" width=\"{wide}\" height=\"{tall}\" \
         role=\"img\" aria-labelledby=\"title description\">\n\
         <title id=\"title\">{}</title>\n<desc id=\"description\">{}</desc>\n\
         <rect width=\"{wide}\" height=\"{tall}\" rx=\"8\" fill=\"{}\"/>\n\
         <g aria-hidden=\"true\" font-family=\"'DejaVu Sans Mono', Menlo, Consolas, monospace\" font-size=\"15\">\n",
        escaped(title),
        escaped(description),
        tint(ground),
    );
    for (row, line) in cells.iter().enumerate() {
        draw_row(&mut out, row, line, ground);
    }
    out.push_str("</g>\n</svg>\n");
    out
}

fn draw_row(out: &mut String, row: usize, line: &[(String, Look)], ground: Color) {
    let top = RIM + row * TALL;
    let mut at = 0;
    while at < line.len() {
        let look = &line[at].1;
        let length = line[at..].iter().take_while(|one| one.1 == *look).count();
        let (front, back) = colours(look);
        if back != ground {
            let (x, wide) = (RIM + at * WIDE, length * WIDE);
            writeln!(
                out,
                "<rect x=\"{x}\" y=\"{top}\" width=\"{wide}\" height=\"{TALL}\" fill=\"{}\" shape-rendering=\"crispEdges\"/>",
                tint(back)
            )
            .unwrap();
        }
        draw_run(out, top, at, &line[at..at + length], front);
        at += length;
    }
}

/// Draws cells that look the same: word groups as text, each held to its cells; lines as strokes.
fn draw_run(out: &mut String, top: usize, start: usize, run: &[(String, Look)], front: Color) {
    let mut at = 0;
    while at < run.len() {
        let text = run[at].0.as_str();
        if text == " " || text.is_empty() {
            at += 1;
        } else if let Some(arms) = arms(text) {
            let same = run[at..].iter().take_while(|one| one.0 == text).count();
            // Only a line that lies goes on through its neighbours.
            let count = if text == "─" { same } else { 1 };
            draw_strokes(out, top, start + at, count, arms, front);
            at += count;
        } else {
            let count = group(&run[at..]);
            let words: String = run[at..at + count]
                .iter()
                .map(|one| one.0.as_str())
                .collect();
            draw_text(out, top, start + at, &words, count, &run[at].1, front);
            at += count;
        }
    }
}

/// How many cells belong to words with single blanks between them.
fn group(run: &[(String, Look)]) -> usize {
    let is_blank = |at: usize| run.get(at).is_none_or(|one| one.0 == " ");
    let ends = |at: usize| {
        arms(&run[at].0).is_some()
            || is_blank(at) && (is_blank(at + 1) || arms(&run[at + 1].0).is_some())
    };
    (0..run.len()).find(|at| ends(*at)).unwrap_or(run.len())
}

fn draw_text(
    out: &mut String,
    top: usize,
    column: usize,
    words: &str,
    count: usize,
    look: &Look,
    front: Color,
) {
    let (x, y, long) = (RIM + column * WIDE, top + FOOT, count * WIDE);
    let weight = if look.effects.contains(&Effect::Bold) {
        " font-weight=\"bold\""
    } else {
        ""
    };
    let line = if look.effects.contains(&Effect::Underline) {
        " text-decoration=\"underline\""
    } else {
        ""
    };
    writeln!(
        out,
        "<text x=\"{x}\" y=\"{y}\" textLength=\"{long}\" lengthAdjust=\"spacingAndGlyphs\" fill=\"{}\"{weight}{line}>{}</text>",
        tint(front),
        escaped(words)
    )
    .unwrap();
}

/// Which ways a line goes from the middle of its cell: left, right, up, down.
fn arms(text: &str) -> Option<[bool; 4]> {
    Some(match text {
        "─" => [true, true, false, false],
        "│" => [false, false, true, true],
        "┌" => [false, true, false, true],
        "┐" => [true, false, false, true],
        "└" => [false, true, true, false],
        "┘" => [true, false, true, false],
        "├" => [false, true, true, true],
        "┤" => [true, false, true, true],
        "┬" => [true, true, false, true],
        "┴" => [true, true, true, false],
        "┼" => [true; 4],
        _ => return None,
    })
}

fn draw_strokes(
    out: &mut String,
    top: usize,
    column: usize,
    count: usize,
    [left, right, up, down]: [bool; 4],
    front: Color,
) {
    // Twice the pixels, so that the middle of a cell is a whole number.
    let (x, y) = (2 * (RIM + column * WIDE), 2 * top);
    let (middle_x, middle_y) = (x + WIDE, y + TALL);
    let end = if right {
        x + 2 * WIDE * count
    } else {
        middle_x
    };
    let begin = if left { x } else { middle_x };
    let first = if up { y } else { middle_y };
    let last = if down { y + 2 * TALL } else { middle_y };
    let half = |number: usize| format!("{}{}", number / 2, if number % 2 == 1 { ".5" } else { "" });
    let mut path = String::new();
    if left || right {
        write!(path, "M{} {}H{}", half(begin), half(middle_y), half(end)).unwrap();
    }
    if up || down {
        write!(path, "M{} {}V{}", half(middle_x), half(first), half(last)).unwrap();
    }
    writeln!(out, "<path d=\"{path}\" stroke=\"{}\"/>", tint(front)).unwrap();
}

/// The colours of letter and ground as they are seen.
fn colours(look: &Look) -> (Color, Color) {
    let pair = look.colours;
    if look.effects.contains(&Effect::Reverse) {
        (pair.back, pair.front)
    } else {
        (pair.front, pair.back)
    }
}

/// A colour of a terminal as terminals usually show it, softened a little.
fn tint(colour: Color) -> String {
    match colour {
        Color::TerminalDefault | Color::Dark(BaseColor::Black) => "#14171c",
        Color::Dark(BaseColor::White) => "#d5d9e0",
        Color::Light(BaseColor::White) => "#ffffff",
        Color::Light(BaseColor::Black) => "#6b7280",
        Color::Dark(BaseColor::Cyan) => "#56b6c2",
        Color::Light(BaseColor::Cyan) => "#7fd7e0",
        Color::Dark(BaseColor::Yellow) => "#c99a2e",
        Color::Light(BaseColor::Yellow) => "#f2cc60",
        Color::Dark(BaseColor::Red) => "#c4322b",
        Color::Light(BaseColor::Red) => "#ff8078",
        Color::Dark(BaseColor::Green) => "#3f9142",
        Color::Light(BaseColor::Green) => "#8ddb8c",
        Color::Dark(BaseColor::Blue) => "#2f5fb3",
        Color::Light(BaseColor::Blue) => "#79b8ff",
        Color::Dark(BaseColor::Magenta) => "#9b3fa8",
        Color::Light(BaseColor::Magenta) => "#d8a0e0",
        Color::Rgb(red, green, blue) => return format!("#{red:02x}{green:02x}{blue:02x}"),
        Color::RgbLowRes(..) => {
            panic!("a colour of the palette of 216, which no theme uses: {colour:?}")
        }
    }
    .to_owned()
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}
