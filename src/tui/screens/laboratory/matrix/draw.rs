//! The table as a picture. Only what is in sight is laid out.

use super::Matrix;
use crate::app::System;
use crate::report::record::{standing, standing_short};
use crate::text::wrap::{columns, wrap_behind};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::screen::Desk;
use crate::tui::screens::laboratory::asked::last_row;
use crate::tui::screens::laboratory::leaf::edges;

/// How wide a cell is, with the column of room behind it: seven letters, a mark.
const CELL: usize = 10;

/// How wide the names are at most and at least.
const NAMES: (usize, usize) = (28, 14);

/// So many rows of people come before an explanation of all letters; without it the letters of the chosen cell are explained.
const ROWS_FIRST: usize = 6;

/// Where everything stands.
pub(super) struct Parts {
    heading: Area,
    /// The letters of the workflows.
    head: Area,
    pub(super) rows: Area,
    cover: Area,
    /// What the letters mean, where there is room for it.
    legend: Area,
    letters: Vec<Line>,
    detail: Area,
    names: usize,
    beside: usize,
}

impl Matrix {
    pub(super) fn parts<S: System>(&self, body: Area, desk: &Desk<S>) -> Parts {
        let inside = body.within(1, 0);
        let heading = self.heading(inside.wide, desk).len();
        let (heading, below) = inside.split_rows(heading);
        let (head, below) = below.split_rows(1);
        let room = below.tall;
        let detail = (room / 2).saturating_sub(2).clamp(5, 10);
        let (upper, detail) = below.split_rows(room.saturating_sub(detail));
        // The totals stand right under the last row, the letters under them.
        let least = self.rows.len().min(ROWS_FIRST) + 1;
        // Where not every word can be explained, what is no word comes first.
        let legends = [Explained::EveryWord, Explained::Letters].into_iter();
        let mut legends = legends.map(|which| self.legend(which, inside.wide, desk));
        let letters = legends
            .find(|legend| upper.tall >= least + legend.len())
            .unwrap_or_default();
        let fits = upper.tall.saturating_sub(1 + letters.len());
        let (rows, under) = upper.split_rows(self.rows.len().min(fits));
        let (cover, under) = under.split_rows(1);
        let (legend, _) = under.split_rows(letters.len());
        let names = (inside.wide / 3).clamp(NAMES.1, NAMES.0);
        Parts {
            heading,
            head,
            rows,
            cover,
            legend,
            letters,
            detail,
            names,
            beside: (inside.wide.saturating_sub(names + 1) / CELL).max(1),
        }
    }

    fn heading<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let mut lines = self.asked.heading(wide, desk);
        if self.alone {
            let text = desk.say("record-no-independent-assessor", &[]);
            let texts = wrap_behind("! ", &text, wide).into_iter();
            lines.extend(texts.map(|text| Line::new(Role::Caution, text)));
        }
        let mut about = vec![self.who(desk)];
        if !self.gathered.is_complete() {
            let values = [
                ("known", self.gathered.known().into()),
                ("all", self.gathered.all().into()),
            ];
            about.push(desk.say("files-matrix-still", &values));
        }
        lines.extend(prose::wrapped(Role::Faint, &about.join("  "), wide));
        lines
    }

    /// Who is shown.
    fn who<S: System>(&self, desk: &Desk<S>) -> String {
        let id = match (self.with_those_who_left, self.names.is_empty()) {
            (false, true) => "files-matrix-who.here",
            (true, true) => "files-matrix-who.all",
            (false, false) => "files-matrix-who.here-called",
            (true, false) => "files-matrix-who.all-called",
        };
        let values = [
            ("count", self.rows.len().into()),
            ("names", self.names.as_str().into()),
        ];
        desk.say(id, &values)
    }

    fn top(&self, parts: &Parts) -> usize {
        Choice { at: self.row }.top(self.rows.len(), parts.rows.tall)
    }

    fn first_column(&self, parts: &Parts) -> usize {
        Choice { at: self.column }.top(self.gathered.workflows.len(), parts.beside)
    }

    /// The cells that are in sight, by person and workflow, the chosen one first.
    pub(super) fn in_sight<S: System>(&self, desk: &Desk<S>) -> Vec<(usize, usize)> {
        let parts = self.parts(desk.body(), desk);
        let first = self.first_column(&parts);
        let end = self.gathered.workflows.len().min(first + parts.beside);
        let rows = self.rows.iter().skip(self.top(&parts));
        let cells = rows
            .take(parts.rows.tall)
            .flat_map(|&person| (first..end).map(move |column| (person, column)));
        let chosen = self.rows.get(self.row).map(|&person| (person, self.column));
        chosen.into_iter().chain(cells).collect()
    }

    pub(super) fn draw_all<S: System>(&self, frame: &mut Frame, body: Area, desk: &Desk<S>) {
        let parts = self.parts(body, desk);
        let heading = self.heading(parts.heading.wide, desk);
        prose::draw(frame, parts.heading, &heading, Scroll::default());
        if self.rows.is_empty() || self.gathered.workflows.is_empty() {
            let text = desk.say("files-matrix-empty", &[]);
            let lines = prose::wrapped(Role::Plain, &text, parts.head.wide);
            let below = Area {
                tall: body.tall.saturating_sub(heading.len()),
                ..parts.head
            };
            prose::draw(frame, below, &lines, Scroll::default());
        } else {
            self.draw_table(frame, &parts, desk);
            prose::draw(frame, parts.legend, &parts.letters, Scroll::default());
            self.draw_detail(frame, &parts, desk);
        }
        if let Some(field) = &self.asking {
            let question = desk.say("files-ask-names", &[]);
            last_row(frame, body, &format!(" {question} {}", field.shown()));
        }
        self.asked.draw(frame, body, desk);
    }

    fn draw_table<S: System>(&self, frame: &mut Frame, parts: &Parts, desk: &Desk<S>) {
        let (first, top) = (self.first_column(parts), self.top(parts));
        let all = self.gathered.workflows.len();
        let end = all.min(first + parts.beside);
        let at = |column: usize| parts.names + 1 + (column - first) * CELL;
        let person = desk.say("record-matrix-person", &[]);
        frame.put(parts.head, 0, 0, Role::Strong, &person);
        for column in first..end {
            let role = if column == self.column {
                Role::Chosen
            } else {
                Role::Strong
            };
            frame.put(parts.head, 0, at(column), role, &self.short[column]);
        }
        // Columns that do not fit are to the left or right.
        if first > 0 {
            let mark = frame.pick('◂', '<').to_string();
            frame.put(parts.head, 0, parts.names - 1, Role::Key, &mark);
        }
        if end < all {
            let mark = frame.pick('▸', '>').to_string();
            frame.put_right(parts.head, 0, Role::Key, &mark);
        }
        let names = Area {
            wide: parts.names,
            ..parts.rows
        };
        for (y, (row, &who)) in self
            .rows
            .iter()
            .enumerate()
            .skip(top)
            .take(parts.rows.tall)
            .enumerate()
        {
            let person = &self.gathered.people[who];
            let name = if person.name.is_empty() {
                person.code.to_string()
            } else {
                person.name.clone()
            };
            let role = if row == self.row {
                Role::Strong
            } else {
                Role::Plain
            };
            frame.put(names, y, 0, role, &name);
            for column in first..end {
                let known = self.gathered.cell(who, column);
                let text = known.map_or_else(|| "…".to_owned(), |seen| seen.short(&desk.words));
                let cell = Area {
                    x: parts.rows.x + at(column),
                    y: parts.rows.y + y,
                    wide: CELL - 1,
                    tall: 1,
                };
                if (row, column) == (self.row, self.column) {
                    frame.put_row(cell, 0, Role::Chosen, &text);
                } else {
                    frame.put(cell, 0, 0, Role::Plain, &text);
                }
                frame.hot(cell, Command::Pick(0, row * all + column));
            }
        }
        edges(frame, parts.rows, top, self.rows.len());
        let cover = desk.say("files-matrix-cover", &[]);
        let head = Area {
            wide: parts.names,
            ..parts.cover
        };
        frame.put(head, 0, 0, Role::Strong, &cover);
        for column in first..end {
            let text = match self.gathered.cover(&self.rows, column) {
                Some(alone) => {
                    let values = [("alone", alone.into()), ("all", self.rows.len().into())];
                    desk.say("files-matrix-covered", &values)
                }
                None => "…".to_owned(),
            };
            frame.put(parts.cover, 0, at(column), Role::Strong, &text);
        }
    }

    fn draw_detail<S: System>(&self, frame: &mut Frame, parts: &Parts, desk: &Desk<S>) {
        let area = parts.detail;
        frame.rule(area, 0);
        let (_, area) = area.split_rows(1);
        let wide = area.wide.saturating_sub(1);
        let mut lines = Vec::new();
        if let Some(&who) = self.rows.get(self.row) {
            let person = &self.gathered.people[who];
            let known = self.gathered.cell(who, self.column);
            let words = known.map(|seen| seen.words().to_vec()).unwrap_or_default();
            let values = [
                ("name", person.name.as_str().into()),
                ("code", person.code.to_string().into()),
                ("short", self.short[self.column].as_str().into()),
                (
                    "workflow",
                    self.gathered.workflows[self.column].to_string().into(),
                ),
            ];
            let text = desk.say("files-matrix-cell", &values);
            lines.extend(prose::wrapped(Role::Strong, &text, wide));
            lines.extend(prose::lines(&self.detail, wide, 4, desk.glyphs));
            if parts.legend.tall == 0 {
                lines.extend(explained(&words, Explained::Letters, false, wide, desk));
            }
        }
        prose::draw(frame, area, &lines, Scroll::default());
    }

    /// What stands in some cell of those who are shown, and what it means.
    fn legend<S: System>(&self, which: Explained, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let several = self.gathered.has_several(&self.rows);
        explained(&self.gathered.words(&self.rows), which, several, wide, desk)
    }
}

/// What is explained of what stands in cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Explained {
    /// What is no word by itself.
    Letters,
    /// The whole words too.
    EveryWord,
}

/// What letters and words mean.
fn explained<S: System>(
    words: &[&str],
    which: Explained,
    several: bool,
    wide: usize,
    desk: &Desk<S>,
) -> Vec<Line> {
    let mut texts = Vec::new();
    for word in words {
        let short = standing_short(word, &desk.words);
        let whole = standing(word, &desk.words);
        let means = match (short == whole, which) {
            (false, _) => whole,
            // A whole word is explained by more than itself.
            (true, Explained::EveryWord) => desk.words.part("files-matrix-means", word),
            (true, Explained::Letters) => continue,
        };
        let values = [("short", short.into()), ("standing", means.into())];
        texts.push(desk.say("files-matrix-letters", &values));
    }
    if several {
        texts.push(desk.say("files-matrix-several", &[]));
    }
    // Letters are not parted from what they mean.
    let mut lines: Vec<String> = Vec::new();
    for text in texts {
        match lines.last_mut() {
            Some(last) if columns(last) + 3 + columns(&text) <= wide => {
                *last = format!("{last}   {text}");
            }
            _ => lines.push(text),
        }
    }
    let lines = lines.into_iter();
    lines.map(|text| Line::new(Role::Faint, text)).collect()
}
