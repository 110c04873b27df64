//! Somebody joins: the name as it is printed, then the signature of whoever enters it. The code is drawn, and never issued again.

use crate::app::System;
use crate::people::{Name, Passphrase};
use crate::record::scope::Meaning;
use crate::report::record::{declaration, id_of, name_problem};
use crate::tui::command::Command;
use crate::tui::credentials::{Credentials, Given};
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::units::PersonCode;

/// Enters a person.
#[derive(Default)]
pub struct Enrolling {
    name: Field,
    /// What is wrong with the name, until it is changed.
    wrong: Vec<String>,
    asks: Option<Credentials>,
}

impl Enrolling {
    /// Asks for the name.
    #[must_use]
    pub fn new() -> Enrolling {
        Enrolling::default()
    }

    fn join<S: System>(
        &mut self,
        by: PersonCode,
        passphrase: &Passphrase,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let name = match self.name.text.parse::<Name>() {
            Ok(name) => name,
            Err(problem) => return Turn::Tell(Notice::told(name_problem(problem, &desk.words))),
        };
        let sentence = declaration(Meaning::Authored, &desk.words);
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        let joined = house.laboratory.join(by, passphrase, name, None, &sentence);
        let (person, done) = match joined {
            Ok(joined) => joined,
            Err(problem) => {
                let told = house.problem(&problem, words);
                return Credentials::refused(self.asks.as_mut(), &problem, told);
            }
        };
        if let Err(problem) = house.learn_names(words) {
            return Turn::CloseWith(house.problem(&problem, words));
        }
        let values = [
            (
                "person",
                house.told(words, |telling| telling.person(person)).into(),
            ),
            ("code", person.to_string().into()),
            ("entry", id_of(&done.entry).into()),
        ];
        house.note_signed(done.entry.seal());
        Turn::CloseWith(Notice::new(vec![
            words.say("deeds-joined", &values),
            words.say("deeds-joined-next", &values),
        ]))
    }
}

impl<S: System> Screen<S> for Enrolling {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if let Some(asks) = &mut self.asks {
            return match asks.handle(command, desk.body().tall) {
                Given::Nothing => Turn::Stay,
                Given::Left => {
                    self.asks = None;
                    Turn::Stay
                }
                Given::Both => Credentials::opens(),
            };
        }
        match command {
            Command::Type(c) => {
                self.wrong.clear();
                self.name.typed(c);
            }
            Command::Erase => {
                self.wrong.clear();
                self.name.erase();
            }
            Command::Back => return Turn::Close,
            Command::Take => match self.name.text.parse::<Name>() {
                Ok(_) => {
                    let here = desk.person();
                    self.asks = Some(Credentials::ask(desk).likely(here));
                }
                Err(problem) => {
                    self.wrong = Notice::told(name_problem(problem, &desk.words)).texts;
                }
            },
            _ => {}
        }
        Turn::Stay
    }

    fn works(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        match self.asks.as_mut().and_then(Credentials::take) {
            Some((by, passphrase)) => self.join(by, &passphrase, desk),
            None => Turn::Stay,
        }
    }

    fn would_drop(&self) -> bool {
        self.asks.is_none() && !self.name.text.is_empty()
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        if let Some(asks) = &self.asks {
            asks.draw(frame, inside, desk);
            return;
        }
        let wide = inside.wide.min(90);
        let mut lines = prose::wrapped(Role::Strong, &desk.say("deeds-join-name", &[]), wide);
        lines.push(Line::new(Role::Field, self.name.shown()));
        lines.extend(prose::cautions(&self.wrong, wide));
        lines.push(Line::new(Role::Plain, ""));
        lines.extend(prose::wrapped(
            Role::Plain,
            &desk.say("deeds-explained.join", &[]),
            wide,
        ));
        lines.push(Line::new(Role::Plain, ""));
        let sentence = declaration(Meaning::Authored, &desk.words);
        lines.extend(prose::wrapped(Role::Faint, &sentence, wide));
        prose::draw(frame, inside, &lines, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("deeds-title.join", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        match &self.asks {
            Some(asks) => asks.hints(desk, "office-signing-sign"),
            None => vec![
                desk.hint(Key::Enter, "office-founding-next"),
                desk.hint(Key::Esc, "screens-key-back"),
            ],
        }
    }

    fn about(&self) -> &'static str {
        "deeds-join-about"
    }

    fn is_typing(&self) -> bool {
        true
    }
}
