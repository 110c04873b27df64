//! Answers to what lies over the bench.

use super::Sitting;
use super::over::{Answer, Ask, Over};
use crate::app::System;
use crate::rehearsal::action::Action;
use crate::report::{Running, problems};
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::list::Choice;
use crate::tui::rows;
use crate::tui::screen::{Desk, Notice, Turn};
use crate::units::Millis;

impl<S> Sitting<S>
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    pub(super) fn on_ask(&mut self, mut ask: Ask, command: Command, desk: &Desk<S>) -> Turn<S> {
        let rows = ask.answers.len();
        let taken = match command {
            Command::Take => Some(ask.choice.at),
            Command::Pick(3, row) => Some(row),
            Command::Type(letter) => rows::of_letter(letter),
            Command::Back => return Turn::Stay,
            _ => {
                ask.choice.moved(command, rows, rows);
                None
            }
        };
        let Some((answer, _)) = taken.and_then(|row| ask.answers.get(row)).cloned() else {
            self.over = Over::Ask(ask);
            return Turn::Stay;
        };
        match answer {
            Answer::Stay => Turn::Stay,
            Answer::Respond(response) => self.act(vec![Action::Respond { response }], desk),
            Answer::Leave => Turn::Close,
            Answer::HandOver => self.act(vec![Action::Finish], desk),
            Answer::GiveUp => self.act(vec![Action::Abandon], desk),
        }
    }

    pub(super) fn on_wait(
        &mut self,
        mut field: Field,
        mut choice: Choice,
        command: Command,
        desk: &Desk<S>,
    ) -> Turn<S> {
        let mut wrong = None;
        let signs = Running::on_screen(self.session.rehearsal(), &desk.words).waits();
        let until = match command {
            Command::Take if field.text.is_empty() => Some(choice.at),
            Command::Pick(3, row) => Some(row),
            _ => None,
        };
        match command {
            Command::Back => return Turn::Stay,
            Command::Type(c) => field.typed(c),
            Command::Erase => field.erase(),
            Command::Take if until.is_none() => match field.text.parse::<Millis>() {
                Ok(time) => return self.act(vec![Action::Wait { time }], desk),
                Err(why) => {
                    wrong = Some(Notice::new(vec![problems::unit_problem(&why, &desk.words)]));
                }
            },
            _ => {
                choice.moved(command, signs.len(), signs.len());
            }
        }
        if let Some((sign, _)) = until.and_then(|row| signs.get(row)) {
            match self.session.wait_until(sign, Millis::ZERO) {
                Ok(action) => return self.act(vec![action], desk),
                Err(_) => {
                    wrong = Some(Notice::new(vec![
                        desk.say("rehearsal-sign-never", &[]),
                        desk.say("screens-sitting-sign-never", &[]),
                    ]));
                }
            }
        }
        self.over = Over::Wait(field, choice, wrong);
        Turn::Stay
    }

    pub(super) fn on_find(
        &mut self,
        mut field: Field,
        mut choice: Choice,
        command: Command,
    ) -> Turn<S> {
        let found = self.found(&field.text);
        match command {
            Command::Back => return Turn::Stay,
            Command::Type(c) => {
                field.typed(c);
                choice = Choice::default();
            }
            Command::Erase => field.erase(),
            Command::Take | Command::Pick(3, _) => {
                let row = if let Command::Pick(_, row) = command {
                    row
                } else {
                    choice.at
                };
                if let Some((group, row, _)) = found.get(row) {
                    self.group = *group;
                    self.choice.at = *row;
                }
                return Turn::Stay;
            }
            _ => {
                choice.moved(command, found.len(), found.len());
            }
        }
        self.over = Over::Find(field, choice);
        Turn::Stay
    }
}
