//! The list of entries, the newest first. However many there are, only those in sight are put into words.

mod filter;

use std::collections::BTreeMap;

use filter::{By, Filter};

use super::asked::last_row;
use super::leaf::edges;
use super::one_entry::OneEntry;
use crate::app::System;
use crate::record::seal::Seal;
use crate::report::record::entry_row;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};
use crate::units::{Millis, PersonCode};

/// So long entries are looked through before the next look at the keyboard. Our default.
const AT_A_TIME: Millis = Millis(10);

/// So many rows are told beyond those in sight, for a terminal that grows. Our default.
const BEYOND: usize = 40;

/// So many lines below the list tell the chosen entry whole, under a rule. Our default: most entries have room in them on the smallest screen.
const WHOLE: usize = 4;

/// The list of entries.
pub struct Entries {
    /// Every entry, the newest first.
    all: Vec<Seal>,
    /// The places in it of those that are listed.
    listed: Vec<usize>,
    /// How many have been looked at.
    looked: usize,
    told: BTreeMap<usize, String>,
    choice: Choice,
    filter: Filter,
    asking: Option<(By, Field)>,
}

impl Entries {
    /// Lists every entry.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> Entries {
        let mut list = Entries {
            all: Vec::new(),
            listed: Vec::new(),
            looked: 0,
            told: BTreeMap::new(),
            choice: Choice::default(),
            filter: Filter::default(),
            asking: None,
        };
        list.begin(desk);
        list
    }

    /// The same, only those about a person or made by that person.
    #[must_use]
    pub fn about<S: System>(person: PersonCode, desk: &mut Desk<S>) -> Entries {
        let mut list = Entries::new(desk);
        list.choose_by(By::Person, &person.to_string(), desk);
        list
    }

    fn begin<S: System>(&mut self, desk: &mut Desk<S>) {
        if let Some((house, _)) = desk.office() {
            let entries = house.laboratory.ledger().entries().iter();
            self.all = entries
                .rev()
                .map(crate::record::entry::Entry::seal)
                .collect();
        }
        self.look_again(desk);
    }

    fn look_again<S: System>(&mut self, desk: &mut Desk<S>) {
        self.listed.clear();
        self.told.clear();
        self.looked = 0;
        self.go_on(desk);
    }

    fn choose_by<S: System>(&mut self, by: By, text: &str, desk: &mut Desk<S>) {
        if let Some((house, words)) = desk.office() {
            self.filter.set(by, text, house, words);
        }
        self.choice = Choice::default();
        self.look_again(desk);
    }

    /// Looks through more entries, for a little while.
    fn go_on<S: System>(&mut self, desk: &mut Desk<S>) {
        if self.filter.is_empty() {
            self.listed = (0..self.all.len()).collect();
            self.looked = self.all.len();
        }
        let begun = desk.system.elapsed();
        while self.looked < self.all.len() {
            let Some((house, words)) = desk.office() else {
                return;
            };
            let ledger = house.laboratory.ledger();
            // The clock is not looked at for every entry.
            for _ in 0..64 {
                let Some(seal) = self.all.get(self.looked) else {
                    break;
                };
                let entry = ledger.get(seal);
                if entry.is_some_and(|entry| self.filter.fits(entry, house, words)) {
                    self.listed.push(self.looked);
                }
                self.looked += 1;
            }
            if desk.system.elapsed().0 - begun.0 >= AT_A_TIME.0 {
                break;
            }
        }
        self.tell(desk);
    }

    /// Puts the rows in sight into words.
    fn tell<S: System>(&mut self, desk: &mut Desk<S>) {
        let (_, rows, _) = self.parts(desk.body(), desk);
        let top = self.choice.top(self.listed.len(), rows.tall);
        let Some((house, words)) = desk.office() else {
            return;
        };
        let ledger = house.laboratory.ledger();
        for row in top..self.listed.len().min(top + rows.tall + BEYOND) {
            let seal = &self.all[self.listed[row]];
            if self.told.contains_key(&row) {
                continue;
            }
            if let Some(entry) = ledger.get(seal) {
                let text = house.told(words, |telling| entry_row(entry, telling));
                self.told.insert(row, text);
            }
        }
    }

    fn heading<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let values = [
            ("listed", self.listed.len().into()),
            ("all", self.all.len().into()),
        ];
        let mut texts = vec![desk.say("files-entries-count", &values)];
        for (by, text) in self.filter.typed() {
            let name = desk.say(by.words(), &[]);
            let values = [("by", name.into()), ("text", text.into())];
            texts.push(desk.say("files-entries-by", &values));
        }
        if self.is_looking() {
            texts.push(desk.say("files-entries-still", &[("count", self.looked.into())]));
        }
        prose::wrapped(Role::Strong, &texts.join("  "), wide)
    }

    fn is_looking(&self) -> bool {
        self.looked < self.all.len()
    }

    /// Where the heading stands, the rows, and a rule with the chosen row whole under it.
    fn parts<S: System>(&self, body: Area, desk: &Desk<S>) -> (Area, Area, Area) {
        let inside = body.within(1, 0);
        let heading = self.heading(inside.wide, desk).len();
        let (head, below) = inside.split_rows(heading + 1);
        let (rows, foot) = below.split_rows(below.tall.saturating_sub(WHOLE + 1));
        (head, rows, foot)
    }

    /// The chosen row, with all that its line has no room for.
    fn whole(&self, wide: usize) -> Vec<Line> {
        let told = self.told.get(&self.choice.at).map_or("", String::as_str);
        let mut lines = prose::wrapped(Role::Plain, told, wide.saturating_sub(1));
        if lines.len() > WHOLE {
            lines.truncate(WHOLE);
            if let Some(last) = lines.last_mut() {
                last.text.push('…');
            }
        }
        lines
    }

    fn ask<S: System>(&mut self, command: Command, desk: &mut Desk<S>) {
        let Some((by, field)) = &mut self.asking else {
            return;
        };
        match command {
            Command::Type(c) => field.typed(c),
            Command::Erase => field.erase(),
            Command::Back => self.asking = None,
            Command::Take => {
                let (by, text) = (*by, field.text.clone());
                self.asking = None;
                self.choose_by(by, &text, desk);
            }
            _ => {}
        }
    }

    fn open_chosen<S: System>(&self, desk: &mut Desk<S>) -> Turn<S> {
        let place = self.listed.get(self.choice.at);
        match place.and_then(|place| self.all.get(*place)) {
            Some(seal) => OneEntry::open(*seal, desk),
            None => Turn::Stay,
        }
    }
}

impl<S: System> Screen<S> for Entries {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if command == Command::Tick {
            self.go_on(desk);
            return Turn::Stay;
        }
        if self.asking.is_some() {
            self.ask(command, desk);
            return Turn::Stay;
        }
        let (_, rows, _) = self.parts(desk.body(), desk);
        if self.choice.moved(command, self.listed.len(), rows.tall) {
            self.tell(desk);
            return Turn::Stay;
        }
        match command {
            Command::Back => return Turn::Close,
            Command::Take => return self.open_chosen(desk),
            Command::Pick(0, row) if row == self.choice.at => return self.open_chosen(desk),
            Command::Pick(0, row) => {
                self.choice.at = row;
                self.tell(desk);
            }
            Command::Type('a') if !self.filter.is_empty() => {
                self.filter = Filter::default();
                self.look_again(desk);
            }
            Command::Type(key) => {
                let mut all = By::ALL.into_iter();
                let by = all.find(|by| by.key() == key);
                self.asking = by.map(|by| (by, Field::default()));
            }
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let (head, rows, foot) = self.parts(area, desk);
        let heading = self.heading(head.wide, desk);
        prose::draw(frame, head, &heading, Scroll::default());
        if self.listed.is_empty() && !self.is_looking() {
            let text = desk.say("files-entries-none", &[]);
            let lines = prose::wrapped(Role::Plain, &text, rows.wide);
            prose::draw(frame, rows, &lines, Scroll::default());
        }
        let top = self.choice.top(self.listed.len(), rows.tall);
        for (y, row) in (top..self.listed.len()).take(rows.tall).enumerate() {
            let line = Area {
                y: rows.y + y,
                tall: 1,
                wide: rows.wide.saturating_sub(1),
                ..rows
            };
            let told = self.told.get(&row).map_or("…", String::as_str);
            if row == self.choice.at {
                frame.put_row(line, 0, Role::Chosen, told);
            } else {
                frame.put(line, 0, 0, Role::Plain, told);
            }
            frame.hot(line, Command::Pick(0, row));
        }
        edges(frame, rows, top, self.listed.len());
        frame.rule(foot, 0);
        let (_, foot) = foot.split_rows(1);
        prose::draw(frame, foot, &self.whole(foot.wide), Scroll::default());
        if let Some((by, field)) = &self.asking {
            let question = desk.say(by.question(), &[]);
            last_row(frame, area, &format!(" {question} {}", field.shown()));
        }
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("record-list-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let back = desk.hint(Key::Esc, "screens-key-back");
        if self.asking.is_some() {
            return vec![desk.hint(Key::Enter, "files-key-only-these"), back];
        }
        let mut hints = Vec::new();
        if !self.listed.is_empty() {
            hints.push(desk.hint(Key::Enter, "files-key-open"));
        }
        if self.listed.len() > 1 {
            hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
        }
        let all = By::ALL.into_iter();
        hints.extend(all.map(|by| desk.hint(Key::Letter(by.key()), by.words())));
        if !self.filter.is_empty() {
            hints.push(desk.hint(Key::Letter('a'), "files-key-all"));
        }
        hints.push(back);
        hints
    }

    fn about(&self) -> &'static str {
        "files-entries-about"
    }

    fn is_typing(&self) -> bool {
        self.asking.is_some()
    }

    fn is_live(&self) -> bool {
        self.is_looking()
    }
}
