//! One entry in full, with the entries that it has to do with, which can be followed.

use super::deeds::{About, Deeds};
use super::leaf::{Leaf, Row, turn, within};
use crate::app::System;
use crate::record::seal::Seal;
use crate::report::Block;
use crate::report::record::{entry, id_of};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};

/// One entry.
pub struct OneEntry {
    seal: Seal,
    title: String,
    leaf: Leaf,
}

impl OneEntry {
    /// Opens an entry; says so where it is not here.
    pub fn open<S: System>(seal: Seal, desk: &mut Desk<S>) -> Turn<S> {
        let mut opened = OneEntry {
            seal,
            title: String::new(),
            leaf: Leaf::default(),
        };
        if opened.gather(desk) {
            Turn::Open(Box::new(opened))
        } else {
            let text = desk.say("files-entry-not-here", &[]);
            Turn::Tell(Notice::new(vec![text]))
        }
    }

    /// Looks the entry up. Returns whether it is here.
    fn gather<S: System>(&mut self, desk: &mut Desk<S>) -> bool {
        let Some((house, words)) = desk.office() else {
            return false;
        };
        let ledger = house.laboratory.ledger();
        let (Some(told), Some(stored)) = (entry(ledger, &self.seal), ledger.get(&self.seal)) else {
            return false;
        };
        self.title = words.say("record-one-title", &[("entry", id_of(stored).into())]);
        let links = told.links(ledger).into_iter();
        let rows = links.map(|(link, seal)| Row {
            lead: Some(link.words()),
            seal,
        });
        let rows: Vec<Row> = rows.collect();
        let beside = house.laboratory.told_beside(stored, words);
        let blocks = house.told(words, |telling| told.blocks(beside, telling));
        let heading = words.say("files-entries-connected", &[]);
        // The bar says which entry it is.
        let blocks: Vec<Block> = blocks.into_iter().skip(1).collect();
        self.leaf.show(blocks, heading, rows);
        let area = within(desk.body());
        self.leaf.tell(area, desk);
        true
    }
}

impl<S: System> Screen<S> for OneEntry {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if command == Command::Type('s') && !self.leaf.is_typing() {
            return Turn::Open(Box::new(Deeds::about(About::entry(self.seal), desk)));
        }
        let did = self.leaf.handle(command, within(desk.body()), desk);
        match turn(did, desk) {
            Some(turn) => turn,
            None if command == Command::Back => Turn::Close,
            None => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        self.leaf.draw(frame, within(area), desk);
    }

    fn title(&self, _desk: &Desk<S>) -> String {
        self.title.clone()
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = self.leaf.hints(within(desk.body()), desk);
        if !self.leaf.is_typing() {
            hints.insert(0, desk.hint(Key::Letter('s'), "office-way-sign-about"));
        }
        hints
    }

    fn about(&self) -> &'static str {
        "files-one-entry-about"
    }

    fn is_typing(&self) -> bool {
        self.leaf.is_typing()
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.gather(desk);
        Turn::Stay
    }
}
