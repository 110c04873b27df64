//! A new passphrase that somebody chooses: typed, looked at before it is asked for again, then typed again. What is wrong stands beside it.

use super::command::Command;
use super::frame::Role;
use super::hidden::Hidden;
use super::prose::{self, Line};
use super::screen::{Desk, Notice};
use crate::app::System;
use crate::people::Passphrase;
use crate::units::PersonCode;

/// A passphrase that is being chosen.
#[derive(Default)]
pub(super) struct ChosenPassphrase {
    typed: Hidden,
    /// The one that will do, while it is typed again.
    first: Option<Passphrase>,
    /// What was wrong with what was typed last, until something else is typed.
    wrong: Vec<String>,
}

impl ChosenPassphrase {
    /// Whether it is asked for the second time.
    pub(super) fn is_repeated(&self) -> bool {
        self.first.is_some()
    }

    /// Forgets what was typed.
    pub(super) fn forget(&mut self) {
        *self = ChosenPassphrase::default();
    }

    /// Takes a letter, or takes one back.
    pub(super) fn handle(&mut self, command: Command) {
        match command {
            Command::Type(c) => self.typed.typed(c),
            Command::Erase => self.typed.erase(),
            _ => return,
        }
        self.wrong.clear();
    }

    /// The field is left by Enter. The first time what was typed is looked at by `looks`, and asked for again where it will do; the second time it is given
    /// out where it is the same.
    pub(super) fn leave<S: System>(
        &mut self,
        desk: &mut Desk<S>,
        looks: impl FnOnce(&Passphrase, &mut Desk<S>) -> Result<(), Notice>,
    ) -> Option<Passphrase> {
        if self.typed.is_empty() {
            self.wrong = vec![desk.say("office-founding-empty", &[])];
            return None;
        }
        let typed = self.typed.take();
        match self.first.take() {
            None => match looks(&typed, desk) {
                Ok(()) => self.first = Some(typed),
                Err(notice) => self.wrong = notice.texts,
            },
            Some(first) if first.bytes() == typed.bytes() => return Some(first),
            Some(_) => self.wrong = vec![desk.say("office-founding-differ", &[])],
        }
        None
    }

    /// The field, and what is wrong below it.
    pub(super) fn lines<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let mut lines = vec![Line::new(Role::Field, self.typed.shown(desk.glyphs))];
        lines.extend(prose::cautions(&self.wrong, wide));
        lines
    }
}

/// Looks whether a new passphrase of somebody of the laboratory that is open will do.
///
/// # Errors
/// Why not, in words.
pub(super) fn will_do<S: System>(
    person: PersonCode,
    passphrase: &Passphrase,
    desk: &mut Desk<S>,
) -> Result<(), Notice> {
    let Some((house, words)) = desk.office() else {
        return Ok(());
    };
    let looked = house.laboratory.check_new(person, passphrase);
    looked.map_err(|problem| house.problem(&problem, words))
}
