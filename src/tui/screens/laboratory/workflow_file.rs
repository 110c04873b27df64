//! The file of a workflow as of a day: who covers it, who is to be assessed again, where everybody stands, its editions; then every entry about it.

use super::asked::Asked;
use super::dated::{Asks, Dated};
use super::leaf::{Row, turn};
use crate::app::System;
use crate::app::laboratory::told_departures;
use crate::record::scope::Id;
use crate::report::record::{AsOf, workflow};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame};
use crate::tui::screen::{Desk, Hint, Screen, Turn};

/// The file of a workflow.
pub struct WorkflowFile {
    workflow: Id,
    title: String,
    file: Dated,
}

impl WorkflowFile {
    /// Opens the file of a workflow as of now. Nothing where no laboratory is open.
    #[must_use]
    pub fn open<S: System>(workflow: Id, desk: &mut Desk<S>) -> Turn<S> {
        let today = desk.office().map(|(house, _)| house.today());
        today.map_or(Turn::Stay, |today| {
            WorkflowFile::open_at(workflow, today, desk)
        })
    }

    /// The same as of a day.
    #[must_use]
    pub fn open_at<S: System>(workflow: Id, as_of: AsOf, desk: &mut Desk<S>) -> Turn<S> {
        let Some((house, _)) = desk.office() else {
            return Turn::Stay;
        };
        let mut file = WorkflowFile {
            workflow,
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
        let told = workflow(ledger, &self.workflow, asked);
        let name = [("workflow", self.workflow.to_string().into())];
        let title = words.say("files-workflow-title", &name);
        let mut blocks = house.told(words, |telling| told.blocks(telling));
        let asking = told.asking();
        let departures = asking.map(|entry| house.laboratory.departures(entry));
        blocks.extend(told_departures(&departures.unwrap_or_default(), words));
        let rows = told.entries().iter();
        let rows = rows.map(|&seal| Row { lead: None, seal }).collect();
        let heading = words.say("files-workflow-entries", &[]);
        // The bar and the heading say whose file it is, and as of when.
        let blocks = blocks.into_iter().skip(2).collect();
        self.file.leaf.show(blocks, heading, rows);
        self.title = title;
        self.file.tell(desk);
    }
}

impl<S: System> Screen<S> for WorkflowFile {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
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
        self.file.hints(desk)
    }

    fn about(&self) -> &'static str {
        "files-workflow-about"
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
