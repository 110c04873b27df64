//! A person changes the passphrase of their key: the old one, then the new one twice.

use crate::app::System;
use crate::people::Passphrase;
use crate::tui::command::Command;
use crate::tui::credentials::{Credentials, Given};
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::hidden::Hidden;
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::units::PersonCode;

/// Changes a passphrase.
pub struct NewPassphrase {
    asks: Credentials,
    /// Who it is, with the old passphrase.
    old: Option<(PersonCode, Passphrase)>,
    first: Hidden,
    again: Hidden,
    /// Whether the new one is being typed for the second time.
    repeats: bool,
}

impl NewPassphrase {
    /// Asks who it is.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> NewPassphrase {
        let person = desk.person();
        NewPassphrase {
            asks: Credentials::ask(desk).of(person),
            old: None,
            first: Hidden::new(),
            again: Hidden::new(),
            repeats: false,
        }
    }

    fn typed(&mut self) -> &mut Hidden {
        if self.repeats {
            &mut self.again
        } else {
            &mut self.first
        }
    }

    fn begin_anew(&mut self) {
        (self.first, self.again, self.repeats) = (Hidden::new(), Hidden::new(), false);
    }

    fn take<S: System>(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        if !self.repeats {
            self.repeats = !self.first.is_empty();
            return Turn::Stay;
        }
        let is_same = self.first.is_same(&self.again);
        let new = self.first.take();
        self.begin_anew();
        if !is_same {
            let text = desk.say("office-founding-differ", &[]);
            return Turn::Tell(Notice::new(vec![text]));
        }
        let Some((person, old)) = self.old.as_ref() else {
            return Turn::Stay;
        };
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        match house.laboratory.change_passphrase(*person, old, &new) {
            Ok(()) => {
                let text = words.say("laboratory-passphrase-changed", &[]);
                Turn::CloseWith(Notice::new(vec![text]))
            }
            Err(problem) => Turn::Tell(house.problem(&problem, words)),
        }
    }
}

impl<S: System> Screen<S> for NewPassphrase {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if self.old.is_none() {
            return match self.asks.handle(command, desk.body().tall) {
                Given::Nothing => Turn::Stay,
                Given::Left => Turn::Close,
                Given::Both(person, old) => {
                    let Some((house, words)) = desk.office() else {
                        return Turn::Close;
                    };
                    // A wrong one is told before a new one is thought up.
                    if let Err(problem) = house.laboratory.sign_in(person, &old) {
                        return Turn::Tell(house.problem(&problem, words));
                    }
                    self.old = Some((person, old));
                    Turn::Stay
                }
            };
        }
        match command {
            Command::Type(c) => self.typed().typed(c),
            Command::Erase => self.typed().erase(),
            Command::Back => {
                self.begin_anew();
                self.old = None;
            }
            Command::Take => return self.take(desk),
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        if self.old.is_none() {
            self.asks.draw(frame, inside, desk);
            return;
        }
        let wide = inside.wide.min(90);
        let (asks, typed) = if self.repeats {
            ("office-founding-again", self.again.shown(desk.glyphs))
        } else {
            ("deeds-passphrase-new", self.first.shown(desk.glyphs))
        };
        let mut lines = prose::wrapped(Role::Strong, &desk.say(asks, &[]), wide);
        lines.push(Line::new(Role::Field, typed));
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
