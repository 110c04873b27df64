//! What the files of people and of workflows share: a day and a reading in the heading, a text, entries below it.

use super::asked::{Asked, Taken};
use super::leaf::{Did, Leaf};
use crate::app::System;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame};
use crate::tui::list::Scroll;
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint};

/// What a command asks of a file.
pub(super) enum Asks {
    /// What the text does with it.
    Leaf(Did),
    /// To be gathered anew.
    Gather,
}

/// A file as of a day.
pub(super) struct Dated {
    pub(super) asked: Asked,
    pub(super) leaf: Leaf,
}

impl Dated {
    pub(super) fn of(asked: Asked) -> Dated {
        Dated {
            asked,
            leaf: Leaf::default(),
        }
    }

    /// Where the heading and where the text stand.
    fn parts<S: System>(&self, body: Area, desk: &Desk<S>) -> (Area, Area) {
        let inside = body.within(2, 0);
        let heading = self.asked.heading(inside.wide, desk).len();
        let (head, below) = inside.split_rows(heading + 1);
        (head, below)
    }

    pub(super) fn tell<S: System>(&mut self, desk: &mut Desk<S>) {
        let (_, area) = self.parts(desk.body(), desk);
        self.leaf.tell(area, desk);
    }

    pub(super) fn handle<S: System>(&mut self, command: Command, desk: &mut Desk<S>) -> Asks {
        if !self.leaf.is_typing() {
            match self.asked.handle(command) {
                Taken::Changed => return Asks::Gather,
                Taken::Yes => return Asks::Leaf(Did::Taken),
                Taken::No => {}
            }
        }
        let (_, area) = self.parts(desk.body(), desk);
        Asks::Leaf(self.leaf.handle(command, area, desk))
    }

    pub(super) fn draw<S: System>(&self, frame: &mut Frame, body: Area, desk: &Desk<S>) {
        let (head, area) = self.parts(body, desk);
        let heading = self.asked.heading(head.wide, desk);
        prose::draw(frame, head, &heading, Scroll::default());
        self.leaf.draw(frame, area, desk);
        self.asked.draw(frame, body, desk);
    }

    pub(super) fn hints<S: System>(&self, desk: &Desk<S>) -> Vec<Hint> {
        if self.asked.is_typing() {
            return self.asked.hints(desk);
        }
        let (_, area) = self.parts(desk.body(), desk);
        let mut hints = self.leaf.hints(area, desk);
        if !self.leaf.is_typing() {
            hints.extend(self.asked.hints(desk));
        }
        hints
    }

    pub(super) fn is_typing(&self) -> bool {
        self.asked.is_typing() || self.leaf.is_typing()
    }
}
