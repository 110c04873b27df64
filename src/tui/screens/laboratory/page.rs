//! A text on a screen of its own.

use super::leaf::{Leaf, Row, turn, within};
use crate::app::System;
use crate::record::seal::Seal;
use crate::report::Block;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame};
use crate::tui::screen::{Desk, Hint, Screen, Turn};

/// A text on a screen of its own.
pub struct Page {
    title: String,
    leaf: Leaf,
}

impl Page {
    /// Shows blocks.
    #[must_use]
    pub fn new(title: String, blocks: Vec<Block>) -> Page {
        Page {
            title,
            leaf: Leaf::new(blocks, String::new(), Vec::new()),
        }
    }

    /// Shows blocks with entries below them.
    #[must_use]
    pub fn with_entries<S: System>(
        title: String,
        blocks: Vec<Block>,
        entries: Vec<Seal>,
        desk: &mut Desk<S>,
    ) -> Page {
        let rows = entries.into_iter().map(|seal| Row { lead: None, seal });
        let heading = desk.say("files-entries-below", &[]);
        let mut leaf = Leaf::new(blocks, heading, rows.collect());
        let area = within(desk.body());
        leaf.tell(area, desk);
        Page { title, leaf }
    }
}

impl<S: System> Screen<S> for Page {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
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
        self.leaf.hints(within(desk.body()), desk)
    }

    fn about(&self) -> &'static str {
        "files-page-about"
    }

    fn is_typing(&self) -> bool {
        self.leaf.is_typing()
    }
}
