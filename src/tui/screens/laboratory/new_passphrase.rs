//! A person changes the passphrase of their key: the old one, then the new one twice.

use crate::app::System;
use crate::people::Passphrase;
use crate::tui::chosen_passphrase::{ChosenPassphrase, will_do};
use crate::tui::command::Command;
use crate::tui::credentials::{Credentials, Given};
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::units::PersonCode;

/// Changes a passphrase.
pub struct NewPassphrase {
    asks: Credentials,
    /// Who it is, with the old passphrase.
    old: Option<(PersonCode, Passphrase)>,
    new: ChosenPassphrase,
    /// The new one, while the key is being encrypted with it.
    ready: Option<Passphrase>,
}

impl NewPassphrase {
    /// Asks who it is.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> NewPassphrase {
        let person = desk.person();
        NewPassphrase {
            asks: Credentials::ask(desk).of(person),
            old: None,
            new: ChosenPassphrase::default(),
            ready: None,
        }
    }

    fn take<S: System>(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let Some(person) = self.old.as_ref().map(|(person, _)| *person) else {
            return Turn::Stay;
        };
        self.ready = self.new.leave(desk, |new, desk| will_do(person, new, desk));
        match self.ready {
            Some(_) => Credentials::opens(),
            None => Turn::Stay,
        }
    }

    fn change<S: System>(&self, new: &Passphrase, desk: &mut Desk<S>) -> Turn<S> {
        let (Some((person, old)), Some((house, words))) = (self.old.as_ref(), desk.office()) else {
            return Turn::Close;
        };
        match house.laboratory.change_passphrase(*person, old, new) {
            Ok(()) => {
                let text = words.say("laboratory-passphrase-changed", &[]);
                Turn::CloseWith(Notice::new(vec![text]))
            }
            Err(problem) => Turn::Tell(house.problem(&problem, words)),
        }
    }

    /// A wrong old one is told before a new one is thought up.
    fn open<S: System>(
        &mut self,
        person: PersonCode,
        old: Passphrase,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        if let Err(problem) = house.laboratory.sign_in(person, &old) {
            let told = house.problem(&problem, words);
            let told = self.asks.refuse(&problem, told);
            return told.map_or(Turn::Stay, Turn::Tell);
        }
        self.old = Some((person, old));
        Turn::Stay
    }
}

impl<S: System> Screen<S> for NewPassphrase {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if self.old.is_none() {
            return match self.asks.handle(command, desk.body().tall) {
                Given::Nothing => Turn::Stay,
                Given::Left => Turn::Close,
                Given::Both => Credentials::opens(),
            };
        }
        match command {
            Command::Back => {
                self.new.forget();
                self.old = None;
            }
            Command::Take => return self.take(desk),
            _ => self.new.handle(command),
        }
        Turn::Stay
    }

    fn works(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        if let Some(new) = self.ready.take() {
            return self.change(&new, desk);
        }
        match self.asks.take() {
            Some((person, old)) => self.open(person, old, desk),
            None => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        if self.old.is_none() {
            self.asks.draw(frame, inside, desk);
            return;
        }
        let wide = inside.wide.min(90);
        let asks = if self.new.is_repeated() {
            "office-founding-again"
        } else {
            "deeds-passphrase-new"
        };
        let mut lines = prose::wrapped(Role::Strong, &desk.say(asks, &[]), wide);
        lines.extend(self.new.lines(wide, desk));
        lines.push(Line::new(Role::Plain, ""));
        let about = desk.say("office-founding-passphrase-about", &[]);
        lines.extend(prose::wrapped(Role::Plain, &about, wide));
        prose::draw(frame, inside, &lines, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("deeds-title.passphrase", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        if self.old.is_none() {
            return self.asks.hints(desk, "office-founding-next");
        }
        vec![
            desk.hint(Key::Enter, "office-founding-next"),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "deeds-passphrase-about"
    }

    fn is_typing(&self) -> bool {
        true
    }
}
