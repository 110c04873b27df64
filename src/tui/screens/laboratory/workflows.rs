//! The workflows that the record knows, to open the file of one.

use super::workflow_file::WorkflowFile;
use crate::app::System;
use crate::record::scope::Id;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::rows::{self, Look};
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};

/// The list of workflows.
pub struct Workflows {
    all: Vec<Id>,
    choice: Choice,
}

impl Workflows {
    /// Looks up which workflows there are.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> Workflows {
        let all = desk
            .office()
            .map(|(house, _)| house.laboratory.workflows())
            .unwrap_or_default();
        Workflows {
            all,
            choice: Choice::default(),
        }
    }
}

impl<S: System> Screen<S> for Workflows {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if self.choice.moved(command, self.all.len(), desk.body().tall) {
            return Turn::Stay;
        }
        match command {
            Command::Back => return Turn::Close,
            Command::Pick(0, row) if row != self.choice.at => self.choice.at = row,
            Command::Take | Command::Pick(0, _) => {
                if let Some(workflow) = self.all.get(self.choice.at) {
                    return WorkflowFile::open(workflow.clone(), desk);
                }
            }
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        if self.all.is_empty() {
            let text = desk.say("files-workflows-none", &[]);
            let lines = prose::wrapped(Role::Plain, &text, inside.wide);
            prose::draw(frame, inside, &lines, Scroll::default());
            return;
        }
        let texts: Vec<String> = self.all.iter().map(ToString::to_string).collect();
        rows::draw(frame, inside, &texts, self.choice.at, Look::of(0, false));
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("files-workflows-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = Vec::new();
        if !self.all.is_empty() {
            hints.push(desk.hint(Key::Enter, "files-key-open"));
        }
        if self.all.len() > 1 {
            hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
        }
        hints.push(desk.hint(Key::Esc, "screens-key-back"));
        hints
    }

    fn about(&self) -> &'static str {
        "files-workflows-about"
    }
}
