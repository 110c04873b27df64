//! The board of the day: what there is to do for whoever is signed in, the most pressing first, and the ways to everything else.

use crate::app::System;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame};
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};

/// The board of the day.
pub struct Board {}

impl Board {
    /// Looks at what there is to do now.
    #[must_use]
    pub fn new<S: System>(_desk: &mut Desk<S>) -> Board {
        Board {}
    }
}

impl<S: System> Screen<S> for Board {
    fn handle(&mut self, command: Command, _desk: &mut Desk<S>) -> Turn<S> {
        match command {
            Command::Type('q') => Turn::Leave,
            _ => Turn::Stay,
        }
    }

    fn draw(&self, _frame: &mut Frame, _area: Area, _desk: &Desk<S>) {}

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("screens-board-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![desk.hint(Key::Letter('q'), "screens-key-quit")]
    }

    fn about(&self) -> &'static str {
        "screens-board-about"
    }
}
