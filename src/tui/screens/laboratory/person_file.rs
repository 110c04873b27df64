//! The file of a person as of a day: where they stand, what is missing, what comes next; then everything about them, the newest first.

use super::asked::Asked;
use super::dated::{Asks, Dated};
use super::deeds::{About, Deeds};
use super::leaf::{Row, turn};
use crate::app::System;
use crate::record::scope::Id;
use crate::report::record::{AsOf, history, technician_today};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame};
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};
use crate::units::PersonCode;

/// The file of a person.
pub struct PersonFile {
    person: PersonCode,
    /// The workflow whose scopes come first.
    first: Option<Id>,
    title: String,
    file: Dated,
}

impl PersonFile {
    /// Opens the file of a person as of now. Nothing where no laboratory is open.
    #[must_use]
    pub fn open<S: System>(person: PersonCode, desk: &mut Desk<S>) -> Turn<S> {
        let today = desk.office().map(|(house, _)| house.today());
        today.map_or(Turn::Stay, |today| {
            PersonFile::open_at(person, None, today, desk)
        })
    }

    /// The same as of a day, the scopes of a workflow first.
    #[must_use]
    pub fn open_at<S: System>(
        person: PersonCode,
        first: Option<Id>,
        as_of: AsOf,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let Some((house, _)) = desk.office() else {
            return Turn::Stay;
        };
        let mut file = PersonFile {
            person,
            first,
            title: String::new(),
            file: Dated::of(Asked::of(
                as_of,
                house.laboratory.now(),
                house.laboratory.calendar(),
            )),
        };
        file.gather(desk);
        Turn::Open(Box::new(file))
    }

    fn gather<S: System>(&mut self, desk: &mut Desk<S>) {
        let Some((house, words)) = desk.office() else {
            return;
        };
        let asked = self.file.asked.as_of();
        let ledger = house.laboratory.ledger();
        let today = technician_today(ledger, self.person, asked);
        let first = self.first.as_ref();
        let (title, blocks) = house.told(words, |telling| {
            let person = [("person", telling.person(self.person).into())];
            let title = telling.words.say("record-file-title", &person);
            (title, today.standings(telling, first))
        });
        let rows = history(ledger, self.person, asked).into_iter();
        let rows = rows.map(|seal| Row { lead: None, seal });
        let heading = words.say("files-person-history", &[]);
        // The bar and the heading say whose file it is, and as of when.
        let blocks = blocks.into_iter().skip(2).collect();
        self.file.leaf.show(blocks, heading, rows.collect());
        self.title = title;
        self.file.tell(desk);
    }
}

impl<S: System> Screen<S> for PersonFile {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if command == Command::Type('s') && !self.file.is_typing() {
            let about = About {
                workflow: self.first.clone(),
                ..About::person(self.person)
            };
            return Turn::Open(Box::new(Deeds::about(about, desk)));
        }
        match self.file.handle(command, desk) {
            Asks::Gather => self.gather(desk),
            Asks::Leaf(did) => match turn(did, desk) {
                Some(turn) => return turn,
                None if command == Command::Back => return Turn::Close,
                None => {}
            },
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        self.file.draw(frame, area, desk);
    }

    fn title(&self, _desk: &Desk<S>) -> String {
        self.title.clone()
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = self.file.hints(desk);
        if !self.file.is_typing() {
            hints.insert(1, desk.hint(Key::Letter('s'), "office-way-sign-about"));
        }
        hints
    }

    fn about(&self) -> &'static str {
        "files-person-about"
    }

    fn is_typing(&self) -> bool {
        self.file.is_typing()
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.file.asked.renew(desk);
        self.gather(desk);
        Turn::Stay
    }
}
