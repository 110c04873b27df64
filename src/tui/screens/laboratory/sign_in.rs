//! Who is here: somebody shows who they are, takes over from somebody else, or comes back after a while.

use super::board::Board;
use crate::app::System;
use crate::app::laboratory::Attendance;
use crate::people::Passphrase;
use crate::record::entry::Entry;
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
        // Whoever is here need not be asked; whoever signed last is likely to be here again.
        let last = match desk.person() {
            Some(_) => None,
            None => last_signer(desk),
        };
        SignIn {
            asks: Credentials::ask(desk).likely(last),
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
        &mut self,
        person: PersonCode,
        passphrase: &Passphrase,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let now = desk.system.elapsed();
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        if let Err(problem) = house.laboratory.sign_in(person, passphrase) {
            let told = house.problem(&problem, words);
            let told = self.asks.refuse(&problem, told);
            return told.map_or(Turn::Stay, Turn::Tell);
        }
        desk.here = Some(Attendance::of(person, now));
        if self.before == Some(person) {
            return Turn::Close;
        }
        Turn::Restart(Box::new(Board::new(desk)), None)
    }
}

/// Who signed the newest entry that somebody signed at all.
fn last_signer<S: System>(desk: &mut Desk<S>) -> Option<PersonCode> {
    let (house, _) = desk.office()?;
    let entries = house.laboratory.ledger().entries();
    let mut signed = entries.iter().rev().filter_map(Entry::signed);
    signed.next().map(|(_, signing)| signing.by)
}

fn is_invented<S: System>(desk: &mut Desk<S>) -> bool {
    desk.office()
        .is_some_and(|(house, _)| house.is_demonstration())
}

impl<S: System> Screen<S> for SignIn {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        match self.asks.handle(command, desk.body().tall) {
            Given::Nothing => Turn::Stay,
            Given::Both => Credentials::opens(),
            // What is behind a locked screen stays there until somebody has shown who they are.
            Given::Left if self.before.is_some() => Turn::Stay,
            Given::Left => Turn::Close,
        }
    }

    fn works(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        match self.asks.take() {
            Some((person, passphrase)) => self.signed_in(person, &passphrase, desk),
            None => Turn::Stay,
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
