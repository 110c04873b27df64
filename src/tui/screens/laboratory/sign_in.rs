//! Who is here: somebody shows who they are, takes over from somebody else, or comes back after a while.

use super::board::Board;
use crate::app::System;
use crate::app::laboratory::Attendance;
use crate::people::Passphrase;
use crate::tui::command::Command;
use crate::tui::credentials::{Credentials, Given};
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Screen, Turn};
use crate::units::PersonCode;

/// Asks who is here.
pub struct SignIn {
    asks: Credentials,
    /// Who was here before it was locked.
    before: Option<PersonCode>,
    is_invented: bool,
}

impl SignIn {
    /// Asks somebody who comes to the workstation.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> SignIn {
        SignIn {
            asks: Credentials::ask(desk),
            before: None,
            is_invented: is_invented(desk),
        }
    }

    /// Asks again, because nobody pressed a key for long.
    #[must_use]
    pub fn again<S: System>(desk: &mut Desk<S>) -> SignIn {
        let before = desk.person();
        SignIn {
            asks: Credentials::ask(desk).of(before),
            before,
            is_invented: false,
        }
    }

    fn signed_in<S: System>(
        &self,
        person: PersonCode,
        passphrase: &Passphrase,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let now = desk.system.elapsed();
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        if let Err(problem) = house.laboratory.sign_in(person, passphrase) {
            return Turn::Tell(house.problem(&problem, words));
        }
        desk.here = Some(Attendance::of(person, now));
        if self.before == Some(person) {
            return Turn::Close;
        }
        Turn::Restart(Box::new(Board::new(desk)), None)
    }
}

fn is_invented<S: System>(desk: &mut Desk<S>) -> bool {
    desk.office()
        .is_some_and(|(house, _)| house.is_demonstration())
}

impl<S: System> Screen<S> for SignIn {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        match self.asks.handle(command, desk.body().tall) {
            Given::Nothing => Turn::Stay,
            Given::Both(person, passphrase) => self.signed_in(person, &passphrase, desk),
            // What is behind a locked screen stays there until somebody has shown who they are.
            Given::Left if self.before.is_some() => Turn::Stay,
            Given::Left => Turn::Close,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let about = if self.before.is_some() {
            "office-sign-in-again"
        } else if self.is_invented {
            "office-sign-in-demonstration"
        } else {
            "office-sign-in-first"
        };
        let told = prose::wrapped(Role::Faint, &desk.say(about, &[]), inside.wide.min(90));
        let (head, below) = inside.split_rows(told.len() + 1);
        prose::draw(frame, head, &told, Scroll::default());
        self.asks.draw(frame, below, desk);
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("office-sign-in-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        self.asks.hints(desk, "office-sign-in-take")
    }

    fn about(&self) -> &'static str {
        "office-sign-in-about"
    }

    fn is_typing(&self) -> bool {
        true
    }
}
