//! Rows of which one is chosen, drawn: they wrap, the chosen one stays in sight, letters stand before them where letters choose.

use super::command::Command;
use super::frame::{Area, Frame, Role};
use crate::text::wrap::wrap;

/// How rows look.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look {
    /// The number of the list, for clicks.
    pub(super) list: u8,
    /// Whether a letter stands before each.
    pub(super) letters: bool,
    /// How many blank lines stand between two of them.
    pub(super) gap: usize,
    /// The most lines that one row takes; what is longer is cut.
    pub(super) tall: usize,
}

impl Look {
    /// Rows of a list, by letters or not.
    pub(super) fn of(list: u8, letters: bool) -> Look {
        Look {
            list,
            letters,
            gap: 0,
            tall: usize::MAX,
        }
    }

    /// How many columns stand before and behind the text.
    fn rim(self) -> usize {
        if self.letters { 4 } else { 2 }
    }

    fn wrapped(self, text: &str, wide: usize) -> Vec<String> {
        let mut lines = wrap(text, wide.saturating_sub(self.rim()).max(1));
        if lines.len() > self.tall {
            lines.truncate(self.tall);
            if let Some(last) = lines.last_mut() {
                last.push('…');
            }
        }
        lines
    }
}

/// How many lines rows take at a width.
pub(super) fn height(rows: &[String], wide: usize, look: Look) -> usize {
    let lines = rows
        .iter()
        .map(|row| look.wrapped(row, wide).len() + look.gap);
    lines.sum()
}

/// The letter of a row: `a` to `z`, then none.
pub(super) fn letter(row: usize) -> Option<char> {
    let row = u8::try_from(row).ok().filter(|row| *row < 26)?;
    Some(char::from(b'a' + row))
}

/// The row of a letter.
pub(super) fn of_letter(letter: char) -> Option<usize> {
    let letter = u8::try_from(letter).ok().filter(u8::is_ascii_lowercase)?;
    Some(usize::from(letter - b'a'))
}

/// Draws rows; none is chosen when `chosen` is beyond them.
pub(super) fn draw(frame: &mut Frame, area: Area, rows: &[String], chosen: usize, look: Look) {
    let texts: Vec<Vec<String>> = rows
        .iter()
        .map(|row| look.wrapped(row, area.wide))
        .collect();
    let height = |range: std::ops::Range<usize>| {
        let lines = texts[range].iter().map(|one| one.len() + look.gap);
        lines.sum::<usize>()
    };
    // Before anything has been chosen the rows begin at the top.
    let sought = if chosen < rows.len() { chosen } else { 0 };
    let mut top = 0;
    while top < sought && height(top..sought + 1) > area.tall {
        top += 1;
    }
    let mut y = 0;
    for (row, lines) in texts.iter().enumerate().skip(top) {
        let cell = Area {
            y: area.y + y,
            tall: lines.len().min(area.tall.saturating_sub(y)),
            wide: area.wide.saturating_sub(1),
            ..area
        };
        for (at, line) in lines.iter().take(cell.tall).enumerate() {
            let key = if at == 0 { letter(row) } else { None };
            let key = key.filter(|_| look.letters).unwrap_or(' ');
            let text = if look.letters {
                format!(" {key} {line}")
            } else {
                format!(" {line}")
            };
            if row == chosen {
                frame.put_row(cell, at, Role::Chosen, &text);
            } else {
                frame.put(cell, at, 0, Role::Plain, &text);
                if look.letters {
                    frame.put(cell, at, 1, Role::Key, &key.to_string());
                }
            }
        }
        frame.hot(cell, Command::Pick(look.list, row));
        y += lines.len() + look.gap;
        if y >= area.tall {
            break;
        }
    }
    let edge = area.wide.saturating_sub(1);
    if top > 0 {
        let mark = frame.pick('▲', '^').to_string();
        frame.put(area, 0, edge, Role::Key, &mark);
    }
    if height(top..rows.len()) > area.tall + look.gap {
        let mark = frame.pick('▼', 'v').to_string();
        frame.put(area, area.tall.saturating_sub(1), edge, Role::Key, &mark);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_chosen_row_is_in_sight_and_can_be_clicked() {
        let rows: Vec<String> = (0..30)
            .map(|row| format!("row {row} of many words"))
            .collect();
        for chosen in 0..30 {
            let mut frame = Frame::new(Area::whole(14, 6), false);
            let area = frame.area;
            draw(&mut frame, area, &rows, chosen, Look::of(2, true));
            let mut clicks = (0..6).filter_map(|y| frame.clicked(3, y));
            assert!(
                clicks.any(|click| click == Command::Pick(2, chosen)),
                "{chosen}"
            );
        }
    }

    #[test]
    fn letters_and_rows_belong_together() {
        for row in 0..26 {
            assert_eq!(letter(row).and_then(of_letter), Some(row));
        }
        assert_eq!(
            (letter(26), of_letter('A'), of_letter('é')),
            (None, None, None)
        );
    }
}
