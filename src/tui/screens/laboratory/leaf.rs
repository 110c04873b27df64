//! A text that is scrolled and searched, with entries below it that can be opened.
//!
//! Rows are put into words when they come into sight, so that a file may have any number of them.

use std::collections::BTreeMap;

use super::asked::last_row;
use super::one_entry::OneEntry;
use crate::app::System;
use crate::record::seal::Seal;
use crate::report::Block;
use crate::report::record::entry_row;
use crate::text::Sought;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Turn};

/// Longer lines are hard to read.
const WIDEST: usize = 96;

/// So many rows are told beyond those in sight, for a terminal that grows. Our default.
const BEYOND: usize = 60;

/// The first rows have a digit, which opens them.
const DIGITS: usize = 9;

/// An entry below the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Row {
    /// The message that says what it has to do with the text, if it has to be said.
    pub(super) lead: Option<&'static str>,
    /// The entry.
    pub(super) seal: Seal,
}

/// What became of a command.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Did {
    /// Nothing: it is for others.
    Nothing,
    /// It was taken.
    Taken,
    /// An entry is to be opened.
    Follow(Seal),
    /// What was looked for is not there.
    NotFound(String),
}

/// A text with entries below it.
#[derive(Clone, Debug, Default)]
pub(super) struct Leaf {
    blocks: Vec<Block>,
    /// Stands over the rows.
    heading: String,
    rows: Vec<Row>,
    told: BTreeMap<usize, String>,
    chosen: Option<usize>,
    top: usize,
    search: Option<Field>,
    sought: String,
}

impl Leaf {
    pub(super) fn new(blocks: Vec<Block>, heading: String, rows: Vec<Row>) -> Leaf {
        Leaf {
            blocks,
            heading,
            rows,
            ..Leaf::default()
        }
    }

    /// Another text with other entries. What is looked for stays.
    pub(super) fn show(&mut self, blocks: Vec<Block>, heading: String, rows: Vec<Row>) {
        let sought = std::mem::take(&mut self.sought);
        let top = self.top;
        *self = Leaf {
            top,
            sought,
            ..Leaf::new(blocks, heading, rows)
        };
    }

    pub(super) fn is_typing(&self) -> bool {
        self.search.is_some()
    }

    fn wide(area: Area) -> usize {
        area.wide.saturating_sub(2).min(WIDEST)
    }

    fn lines<S: System>(&self, area: Area, desk: &Desk<S>) -> Vec<Line> {
        prose::lines(&self.blocks, Leaf::wide(area), 10, desk.glyphs)
    }

    /// How many lines stand before the first row, of so many lines of text.
    fn before(text: usize) -> usize {
        if text == 0 { 1 } else { text + 2 }
    }

    fn all(&self, text: usize) -> usize {
        if self.rows.is_empty() {
            text
        } else {
            Leaf::before(text) + self.rows.len()
        }
    }

    /// Puts the rows in sight into words. To be called after every change.
    pub(super) fn tell<S: System>(&mut self, area: Area, desk: &mut Desk<S>) {
        if self.rows.is_empty() {
            return;
        }
        let text = self.lines(area, desk).len();
        let top = self.top.min(self.all(text).saturating_sub(area.tall));
        let first = top.saturating_sub(Leaf::before(text));
        self.tell_rows(first..first + area.tall + BEYOND, desk);
    }

    fn tell_rows<S: System>(&mut self, range: std::ops::Range<usize>, desk: &mut Desk<S>) {
        let Some((house, words)) = desk.office() else {
            return;
        };
        let range = range.start.min(self.rows.len())..range.end.min(self.rows.len());
        for at in range {
            if self.told.contains_key(&at) {
                continue;
            }
            let row = &self.rows[at];
            let said = house.told(words, |telling| {
                let entry = telling.ledger.get(&row.seal);
                entry.map_or_else(
                    || telling.entry(&row.seal),
                    |entry| entry_row(entry, telling),
                )
            });
            let said = match row.lead {
                Some(lead) => {
                    let values = [("lead", words.say(lead, &[]).into()), ("row", said.into())];
                    words.say("files-lead", &values)
                }
                None => said,
            };
            self.told.insert(at, said);
        }
    }

    /// Brings a row into sight.
    fn choose(&mut self, row: usize, text: usize, tall: usize) {
        self.chosen = Some(row);
        let line = Leaf::before(text) + row;
        // The heading stays in sight with the first row.
        let from = if row == 0 {
            line.saturating_sub(1)
        } else {
            line
        };
        self.top = self.top.min(from).max((line + 1).saturating_sub(tall));
    }

    /// Takes a command. `area` is where it is drawn.
    pub(super) fn handle<S: System>(
        &mut self,
        command: Command,
        area: Area,
        desk: &mut Desk<S>,
    ) -> Did {
        let did = if self.search.is_some() {
            self.typed(command, area, desk)
        } else {
            self.moved(command, area, desk)
        };
        self.tell(area, desk);
        did
    }

    fn moved<S: System>(&mut self, command: Command, area: Area, desk: &mut Desk<S>) -> Did {
        let text = self.lines(area, desk).len();
        let (tall, last_row) = (area.tall, self.rows.len().checked_sub(1));
        let last = self.all(text).saturating_sub(tall);
        self.top = self.top.min(last);
        let page = tall.max(3) - 2;
        let seen = Leaf::before(text) < self.top + tall;
        let first = self.top.saturating_sub(Leaf::before(text));
        let to = match (command, self.chosen, last_row) {
            (Command::Down, Some(row), Some(last)) => Some((row + 1).min(last)),
            (Command::Down, None, Some(_)) if seen => Some(first),
            (Command::PageDown, Some(row), Some(last)) => Some((row + page).min(last)),
            (Command::PageDown, None, Some(last_row)) if self.top == last => Some(last_row),
            (Command::Last, _, Some(last)) => Some(last),
            (Command::Up, Some(row), Some(_)) if row > 0 => Some(row - 1),
            (Command::PageUp, Some(row), Some(_)) if row > 0 => Some(row.saturating_sub(page)),
            (Command::Next, Some(row), Some(last)) => Some(if row == last { 0 } else { row + 1 }),
            (Command::Previous, Some(row), Some(last)) => Some(row.checked_sub(1).unwrap_or(last)),
            (Command::Next | Command::Take, None, Some(_)) => Some(first),
            (Command::Previous, None, Some(last)) => Some(last),
            (Command::Pick(0, row), chosen, Some(last)) if chosen != Some(row) => {
                Some(row.min(last))
            }
            _ => None,
        };
        if let Some(row) = to {
            self.choose(row, text, tall);
            return Did::Taken;
        }
        match command {
            Command::Take | Command::Pick(0, _) => {
                let row = self.chosen.and_then(|row| self.rows.get(row));
                return row.map_or(Did::Nothing, |row| Did::Follow(row.seal));
            }
            Command::Type(digit @ '1'..='9') => {
                let at = digit.to_digit(10).unwrap_or(1) as usize - 1;
                return self
                    .rows
                    .get(at)
                    .map_or(Did::Nothing, |row| Did::Follow(row.seal));
            }
            Command::Type('/') => self.search = Some(Field::default()),
            Command::Type('n') if !self.sought.is_empty() => return self.find(area, desk),
            Command::Down => self.top = (self.top + 1).min(last),
            Command::PageDown => self.top = (self.top + page).min(last),
            Command::Up => {
                // Above the first row the text is scrolled again.
                if self.chosen.take().is_none() {
                    self.top = self.top.saturating_sub(1);
                }
            }
            Command::PageUp => {
                self.chosen = None;
                self.top = self.top.saturating_sub(page);
            }
            Command::First => (self.chosen, self.top) = (None, 0),
            Command::Last => self.top = last,
            _ => return Did::Nothing,
        }
        Did::Taken
    }

    fn typed<S: System>(&mut self, command: Command, area: Area, desk: &mut Desk<S>) -> Did {
        let Some(field) = &mut self.search else {
            return Did::Nothing;
        };
        match command {
            Command::Type(c) => field.typed(c),
            Command::Erase => field.erase(),
            Command::Back => self.search = None,
            Command::Take => {
                field.text.trim().clone_into(&mut self.sought);
                self.search = None;
                if !self.sought.is_empty() {
                    return self.find(area, desk);
                }
            }
            _ => {}
        }
        Did::Taken
    }

    /// Goes to the next line or row with what is looked for, and round to the first.
    fn find<S: System>(&mut self, area: Area, desk: &mut Desk<S>) -> Did {
        let sought = Sought::new(&self.sought);
        let lines = self.lines(area, desk);
        let text = lines.len();
        self.tell_rows(0..self.rows.len(), desk);
        let holds = |text: &str| sought.is_in(text);
        let here = self.chosen.map_or(self.top, |row| Leaf::before(text) + row);
        let in_text = lines.iter().enumerate();
        let in_text = in_text
            .filter(|(_, line)| holds(&line.text))
            .map(|(at, _)| at);
        let rows = self.told.iter().filter(|(_, told)| holds(told));
        let rows = rows.map(|(row, _)| Leaf::before(text) + row);
        let found: Vec<usize> = in_text.chain(rows).collect();
        let next = found
            .iter()
            .find(|at| **at > here)
            .or_else(|| found.first());
        let Some(&line) = next else {
            return Did::NotFound(self.sought.clone());
        };
        match line.checked_sub(Leaf::before(text)) {
            Some(row) if !self.rows.is_empty() => self.choose(row, text, area.tall),
            _ => {
                self.chosen = None;
                self.top = line.min(self.all(text).saturating_sub(area.tall));
            }
        }
        Did::Taken
    }

    pub(super) fn draw<S: System>(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let lines = self.lines(area, desk);
        let text = lines.len();
        let all = self.all(text);
        let top = self.top.min(all.saturating_sub(area.tall));
        for (y, at) in (top..all.min(top + area.tall)).enumerate() {
            if let Some(line) = lines.get(at) {
                frame.put(area, y, 0, line.role, &line.text);
            } else if let Some(row) = at.checked_sub(Leaf::before(text)) {
                self.draw_row(frame, area, y, row);
            } else if at + 1 == Leaf::before(text) {
                frame.put(area, y, 0, Role::Strong, &self.heading);
            }
        }
        edges(frame, area, top, all);
        if let Some(field) = &self.search {
            let question = desk.say("files-search", &[]);
            last_row(frame, area, &format!(" {question} {}", field.shown()));
        }
    }

    fn draw_row(&self, frame: &mut Frame, area: Area, y: usize, row: usize) {
        let line = Area {
            y: area.y + y,
            tall: 1,
            wide: area.wide.saturating_sub(1),
            ..area
        };
        let told = self.told.get(&row).map_or("…", String::as_str);
        let digit = if row < DIGITS {
            (row + 1).to_string()
        } else {
            " ".to_owned()
        };
        let text = format!(" {digit} {told}");
        if self.chosen == Some(row) {
            frame.put_row(line, 0, Role::Chosen, &text);
        } else {
            frame.put(line, 0, 0, Role::Plain, &text);
        }
        frame.hot(line, Command::Pick(0, row));
    }

    pub(super) fn hints<S: System>(&self, area: Area, desk: &Desk<S>) -> Vec<Hint> {
        let back = desk.hint(Key::Esc, "screens-key-back");
        if self.search.is_some() {
            return vec![desk.hint(Key::Enter, "screens-reading-find"), back];
        }
        let mut hints = Vec::new();
        if self.chosen.is_some() {
            hints.push(desk.hint(Key::Enter, "files-key-open"));
        }
        if self.rows.len() > 1 || !self.rows.is_empty() && self.chosen.is_none() {
            hints.push(desk.hint(Key::Tab, "files-key-next-entry"));
        }
        if self.all(self.lines(area, desk).len()) > area.tall {
            hints.push(desk.hint(Key::UpDown, "screens-key-scroll"));
        }
        hints.push(desk.hint(Key::Letter('/'), "screens-reading-look-for"));
        if !self.sought.is_empty() {
            hints.push(desk.hint(Key::Letter('n'), "screens-reading-again"));
        }
        hints.push(back);
        hints
    }
}

/// Marks at the right edge where there is more above or below.
pub(super) fn edges(frame: &mut Frame, area: Area, top: usize, all: usize) {
    frame.mark_more(area, top > 0, top + area.tall < all);
}

/// Where a leaf is drawn in the body of a screen.
pub(super) fn within(body: Area) -> Area {
    body.within(2, 1)
}

/// What comes of a command that a leaf took.
pub(super) fn turn<S: System>(did: Did, desk: &mut Desk<S>) -> Option<Turn<S>> {
    match did {
        Did::Nothing => None,
        Did::Taken => Some(Turn::Stay),
        Did::Follow(seal) => Some(OneEntry::open(seal, desk)),
        Did::NotFound(sought) => {
            let text = desk.say("files-not-found", &[("sought", sought.into())]);
            Some(Turn::Tell(Notice::new(vec![text])))
        }
    }
}
