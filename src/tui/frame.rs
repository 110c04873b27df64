//! One picture of a screen as data: pieces of text with a role, and what a click on a place means.
//!
//! Every text that reaches a terminal goes through [`Frame::put`], which makes it safe and cuts it to its area. Left out: which
//! colours a role has, and how pieces reach a terminal.

use super::command::Command;
use crate::text::cell_safe;
use crate::text::wrap::{columns, cut};

/// What a piece of text is for. Each role also shows without colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Role {
    /// Ordinary text.
    #[default]
    Plain,
    /// What matters less.
    Faint,
    /// What matters more.
    Strong,
    /// The bar at the top.
    Bar,
    /// A key that can be pressed.
    Key,
    /// The row that Enter would take.
    Chosen,
    /// What has to be known before anything hazardous; its text begins with a mark.
    Caution,
    /// A line between areas.
    Rule,
    /// Where something is typed.
    Field,
}

/// A part of a screen, in cells from the upper left.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Area {
    /// The first column.
    pub x: usize,
    /// The first row.
    pub y: usize,
    /// How many columns.
    pub wide: usize,
    /// How many rows.
    pub tall: usize,
}

impl Area {
    /// A whole screen of a size.
    #[must_use]
    pub fn whole(wide: usize, tall: usize) -> Area {
        Area {
            x: 0,
            y: 0,
            wide,
            tall,
        }
    }

    /// The upper `rows` rows, and what is below them.
    #[must_use]
    pub fn split_rows(self, rows: usize) -> (Area, Area) {
        let rows = rows.min(self.tall);
        let below = Area {
            y: self.y + rows,
            tall: self.tall - rows,
            ..self
        };
        (Area { tall: rows, ..self }, below)
    }

    /// The left `wide` columns, and what is right of them.
    #[must_use]
    pub fn split_columns(self, wide: usize) -> (Area, Area) {
        let wide = wide.min(self.wide);
        let right = Area {
            x: self.x + wide,
            wide: self.wide - wide,
            ..self
        };
        (Area { wide, ..self }, right)
    }

    /// The area without its outermost columns and rows.
    #[must_use]
    pub fn within(self, columns: usize, rows: usize) -> Area {
        Area {
            x: self.x + columns.min(self.wide),
            y: self.y + rows.min(self.tall),
            wide: self.wide.saturating_sub(2 * columns),
            tall: self.tall.saturating_sub(2 * rows),
        }
    }

    /// An area of this size in the middle.
    #[must_use]
    pub fn middle(self, wide: usize, tall: usize) -> Area {
        let (wide, tall) = (wide.min(self.wide), tall.min(self.tall));
        Area {
            x: self.x + (self.wide - wide) / 2,
            y: self.y + (self.tall - tall) / 2,
            wide,
            tall,
        }
    }

    fn holds(self, x: usize, y: usize) -> bool {
        (self.x..self.x + self.wide).contains(&x) && (self.y..self.y + self.tall).contains(&y)
    }
}

/// A piece of text at a place, safe and cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Its first column.
    pub x: usize,
    /// Its row.
    pub y: usize,
    /// What it is for.
    pub role: Role,
    /// The text, on one line.
    pub text: String,
}

impl Piece {
    fn covers(&self, x: usize, y: usize) -> bool {
        self.y == y && (self.x..self.x + columns(&self.text)).contains(&x)
    }
}

/// A picture of a screen.
#[derive(Clone, Debug, Default)]
pub struct Frame {
    /// The whole screen.
    pub area: Area,
    pieces: Vec<Piece>,
    hot: Vec<(Area, Command)>,
    rounded: bool,
}

impl Frame {
    /// An empty picture. `lines` says whether the terminal is known to show lines and dots beyond ASCII.
    #[must_use]
    pub fn new(area: Area, lines: bool) -> Frame {
        Frame {
            area,
            rounded: lines,
            ..Frame::default()
        }
    }

    /// What was put, in the order it was put: later pieces lie over earlier ones.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Puts a text into a row of an area, from a column on. What does not fit is cut and ends in `…`.
    pub fn put(&mut self, area: Area, row: usize, column: usize, role: Role, text: &str) {
        if row >= area.tall || column >= area.wide {
            return;
        }
        let text = cut(&cell_safe(text), area.wide - column);
        if text.is_empty() {
            return;
        }
        self.pieces.push(Piece {
            x: area.x + column,
            y: area.y + row,
            role,
            text,
        });
    }

    /// Puts a text over a whole row, the rest of it blank in the same role.
    pub fn put_row(&mut self, area: Area, row: usize, role: Role, text: &str) {
        let text = cut(&cell_safe(text), area.wide);
        let blank = area.wide.saturating_sub(columns(&text));
        self.put(area, row, 0, role, &format!("{text}{}", " ".repeat(blank)));
    }

    /// Puts a text so that it ends at the right edge.
    pub fn put_right(&mut self, area: Area, row: usize, role: Role, text: &str) {
        let text = cell_safe(text);
        let column = area.wide.saturating_sub(columns(&text));
        self.put(area, row, column, role, &text);
    }

    /// Marks at the right edge of an area that there is more above or below. What has been put there stays whole: the mark stands beside it then, or
    /// the text ends one column before it, where something else stands beside the area.
    pub fn mark_more(&mut self, area: Area, above: bool, below: bool) {
        let (up, down) = (self.pick('▲', '^'), self.pick('▼', 'v'));
        if above {
            self.mark_edge(area, 0, up);
        }
        if below {
            self.mark_edge(area, area.tall.saturating_sub(1), down);
        }
    }

    fn mark_edge(&mut self, area: Area, row: usize, mark: char) {
        let (last, y) = (area.x + area.wide.saturating_sub(1), area.y + row);
        let beside = Area {
            x: last + 1,
            wide: 1,
            ..area
        };
        let mark = mark.to_string();
        if self.is_blank(last, y) {
            self.put(area, row, area.wide.saturating_sub(1), Role::Key, &mark);
        } else if last + 1 < self.area.x + self.area.wide && self.is_blank(last + 1, y) {
            self.put(beside, row, 0, Role::Key, &mark);
        } else {
            let over = |piece: &&mut Piece| piece.covers(last, y);
            if let Some(piece) = self.pieces.iter_mut().rev().find(over) {
                piece.text = cut(&piece.text, last.saturating_sub(piece.x));
            }
            self.put(area, row, area.wide.saturating_sub(1), Role::Key, &mark);
        }
    }

    /// Whether a cell shows nothing so far.
    fn is_blank(&self, x: usize, y: usize) -> bool {
        let mut pieces = self.pieces.iter().rev();
        let shown = pieces.find(|piece| piece.covers(x, y));
        shown.is_none_or(|piece| {
            let mut at = piece.x;
            let shows = |c: &char| {
                at += columns(c.encode_utf8(&mut [0; 4]));
                at > x
            };
            matches!(piece.text.chars().find(shows), None | Some(' '))
        })
    }

    /// Blanks an area.
    pub fn clear(&mut self, area: Area) {
        for row in 0..area.tall {
            self.put_row(area, row, Role::Plain, "");
        }
    }

    /// Draws a line over a row.
    pub fn rule(&mut self, area: Area, row: usize) {
        let line = self.pick('─', '-').to_string().repeat(area.wide);
        self.put(area, row, 0, Role::Rule, &line);
    }

    /// Draws a line down a column.
    pub fn rule_down(&mut self, area: Area, column: usize) {
        let line = self.pick('│', '|').to_string();
        for row in 0..area.tall {
            self.put(area, row, column, Role::Rule, &line);
        }
    }

    /// Blanks an area and draws a border with a title around it. Returns what is inside, with a column of room on each side.
    pub fn boxed(&mut self, area: Area, title: &str) -> Area {
        self.clear(area);
        let (across, down) = (self.pick('─', '-'), self.pick('│', '|'));
        let corners = [
            self.pick('┌', '+'),
            self.pick('┐', '+'),
            self.pick('└', '+'),
            self.pick('┘', '+'),
        ];
        let line = across.to_string().repeat(area.wide.saturating_sub(2));
        let last = area.tall.saturating_sub(1);
        self.put(
            area,
            0,
            0,
            Role::Rule,
            &format!("{}{line}{}", corners[0], corners[1]),
        );
        for row in 1..last {
            self.put(area, row, 0, Role::Rule, &down.to_string());
            self.put(
                area,
                row,
                area.wide.saturating_sub(1),
                Role::Rule,
                &down.to_string(),
            );
        }
        self.put(
            area,
            last,
            0,
            Role::Rule,
            &format!("{}{line}{}", corners[2], corners[3]),
        );
        let (head, _) = area.within(2, 0).split_rows(1);
        self.put(head, 0, 0, Role::Strong, &format!(" {title} "));
        area.within(2, 1)
    }

    /// A character, or what stands for it where only ASCII is shown.
    #[must_use]
    pub fn pick(&self, fine: char, plain: char) -> char {
        if self.rounded { fine } else { plain }
    }

    /// Makes a click on an area mean a command.
    pub fn hot(&mut self, area: Area, command: Command) {
        self.hot.push((area, command));
    }

    /// What a click means; what lies on top counts.
    #[must_use]
    pub fn clicked(&self, x: usize, y: usize) -> Option<Command> {
        let mut hot = self.hot.iter().rev();
        hot.find(|(area, _)| area.holds(x, y))
            .map(|(_, command)| *command)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_is_cut_and_what_lies_outside_is_left_out() {
        let mut frame = Frame::new(Area::whole(10, 2), true);
        let area = frame.area;
        frame.put(area, 0, 4, Role::Plain, "supports");
        frame.put(area, 2, 0, Role::Plain, "below");
        frame.put(area, 0, 10, Role::Plain, "right");
        let texts: Vec<&str> = frame.pieces().iter().map(|one| one.text.as_str()).collect();
        assert_eq!(texts, ["suppo…"]);
    }

    #[test]
    fn nothing_raw_gets_into_a_piece() {
        let mut frame = Frame::new(Area::whole(40, 1), true);
        let area = frame.area;
        frame.put(area, 0, 0, Role::Plain, "a\u{1b}[2J\u{202e}b\u{7}");
        assert!(
            !frame.pieces()[0]
                .text
                .contains(['\u{1b}', '\u{202e}', '\u{7}'])
        );
    }

    #[test]
    fn a_mark_that_there_is_more_takes_no_letter_away() {
        let mark = |at: usize, text: &str, beside: &str| {
            let mut frame = Frame::new(Area::whole(12, 2), true);
            let area = Area {
                wide: 8,
                ..frame.area
            };
            frame.put(area, 1, 0, Role::Plain, text);
            let whole = frame.area;
            frame.put(whole, 1, 8, Role::Rule, beside);
            frame.mark_more(area, false, true);
            let mark = frame.pieces().last().unwrap();
            assert_eq!((mark.x, mark.text.as_str()), (at, "▼"));
            frame.pieces()[0].text.clone()
        };
        assert_eq!(mark(7, "short", ""), "short");
        // It stands beside the text where there is room, else the text ends sooner and shows that it does.
        assert_eq!(mark(8, "daylight", ""), "daylight");
        assert_eq!(mark(7, "daylight", "│"), "daylig…");
        assert_eq!(mark(7, "Σμαράγδα", "│"), "Σμαράγ…");
    }

    #[test]
    fn a_click_means_what_lies_on_top() {
        let mut frame = Frame::new(Area::whole(10, 4), true);
        frame.hot(Area::whole(10, 4), Command::Up);
        frame.hot(Area::whole(2, 2), Command::Down);
        assert_eq!(frame.clicked(1, 1), Some(Command::Down));
        assert_eq!(frame.clicked(3, 3), Some(Command::Up));
        assert_eq!(frame.clicked(10, 0), None);
    }
}
