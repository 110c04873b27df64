//! The answers of a row, laid open over the form: sought among, chosen, several ticked, another one named.

use super::fields::Source;
use super::form::{ANSWERS, Form};
use super::row::Row;
use crate::app::System;
use crate::record::scope::Id;
use crate::text::{Sought, Words};
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::rows::{self, Look};
use crate::tui::screen::Desk;

impl<S: System> Form<S> {
    /// The answers of the row that hold what is sought: their words, and their places; none for what can be named besides.
    pub(super) fn found(&self, sought: &str, words: &Words) -> Vec<(Option<usize>, String)> {
        let holds = Sought::new(sought);
        let options = self.row().map_or(&[][..], |row| row.options.as_slice());
        let found = options.iter().enumerate();
        let mut found: Vec<_> = found
            .filter(|(_, (_, shown))| holds.is_in(shown))
            .map(|(at, (_, shown))| (Some(at), shown.clone()))
            .collect();
        let other = self.other(sought).map(|id| {
            let name = [("name", id.to_string().into())];
            (None, words.say("deeds-another", &name))
        });
        found.extend(other);
        found
    }

    /// What is sought as another name than those that can be chosen, where the row takes one.
    fn other(&self, sought: &str) -> Option<Id> {
        let row = self.row().filter(|row| row.takes_names())?;
        let id: Id = sought.trim().to_lowercase().parse().ok()?;
        let mut options = row.options.iter();
        (!options.any(|(_, shown)| *shown == id.to_string())).then_some(id)
    }

    pub(super) fn on_picking(&mut self, command: Command, desk: &mut Desk<S>) {
        let Some((mut field, mut choice)) = self.picking.take() else {
            return;
        };
        if self.row().is_some_and(Row::takes_several) {
            self.on_several(command, choice, desk);
            return;
        }
        let found = self.found(&field.text, &desk.words);
        let taken = match command {
            Command::Back => return,
            Command::Take => Some(choice.at),
            Command::Pick(ANSWERS, row) => Some(row),
            Command::Type(c) => {
                field.typed(c);
                choice = Choice::default();
                None
            }
            Command::Erase => {
                field.erase();
                choice = Choice::default();
                None
            }
            _ => {
                choice.moved(command, found.len(), desk.body().tall / 2);
                None
            }
        };
        match taken.and_then(|row| found.get(row)) {
            Some((at, _)) => {
                let other = self.other(&field.text);
                if let Some(row) = self.rows.get_mut(self.choice.at) {
                    match (at, other) {
                        (Some(at), _) => row.chosen = Some(*at),
                        (None, Some(other)) => row.name(other),
                        (None, None) => {}
                    }
                }
                self.choice.at += 1;
                self.refilled(desk);
            }
            None => self.picking = Some((field, choice)),
        }
    }

    /// Leaves single ones of several out, or takes them in again, until somebody goes back.
    fn on_several(&mut self, command: Command, mut choice: Choice, desk: &mut Desk<S>) {
        let Some(row) = self.rows.get_mut(self.choice.at) else {
            return;
        };
        match command {
            Command::Back => return,
            Command::Take | Command::Type(' ') => row.leave_or_take(choice.at),
            Command::Pick(ANSWERS, at) => {
                choice.at = at;
                row.leave_or_take(at);
            }
            _ => {
                choice.moved(command, row.options.len(), desk.body().tall / 2);
            }
        }
        self.refilled(desk);
        self.picking = Some((Field::default(), choice));
    }

    pub(super) fn draw_picking(
        &self,
        frame: &mut Frame,
        area: Area,
        (field, choice): (&Field, Choice),
        title: &str,
        desk: &Desk<S>,
    ) {
        let several = self.row().filter(|row| row.takes_several());
        let found = self.found(&field.text, &desk.words);
        let rows: Vec<String> = found
            .into_iter()
            .map(|(at, shown)| match several {
                Some(row) if at.is_some_and(|at| row.takes(at)) => format!("[x] {shown}"),
                Some(_) => format!("[ ] {shown}"),
                None => shown,
            })
            .collect();
        let tall = (rows::height(&rows, area.wide.saturating_sub(4), Look::of(ANSWERS, false)) + 4)
            .clamp(6, area.tall);
        let outside = area.middle(area.wide, tall);
        let inside = frame.boxed(outside, title);
        let (line, list) = inside.split_rows(1);
        if several.is_some() {
            let marks = match several.map(|row| row.asked.source) {
                Some(Source::SomeOf(_)) => "deeds-some-marks",
                _ => "deeds-evidence-marks",
            };
            let told = desk.say(marks, &[]);
            frame.put(line, 0, 0, Role::Faint, &told);
        } else {
            frame.put_row(line, 0, Role::Field, &field.shown());
        }
        let (_, list) = list.split_rows(1);
        if rows.is_empty() {
            let id = match self.row() {
                Some(row) if row.takes_names() => "deeds-name-another",
                _ => "deeds-nothing-found",
            };
            let lines = prose::wrapped(Role::Faint, &desk.say(id, &[]), list.wide);
            prose::draw(frame, list, &lines, Scroll::default());
        }
        rows::draw(frame, list, &rows, choice.at, Look::of(ANSWERS, false));
    }
}
