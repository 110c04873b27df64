//! Somebody gets a key: whoever issues it makes sure who it is; the person agrees and chooses a passphrase, unseen; then it is issued, and the person's
//! acceptance is signed with it.

use crate::app::System;
use crate::app::laboratory::Problem;
use crate::people::Passphrase;
use crate::record::scope::{Meaning, Text};
use crate::report::record::{declaration, id_of, text_problem};
use crate::tui::command::Command;
use crate::tui::credentials::{Credentials, Given};
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::hidden::Hidden;
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::rows::{self, Look};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::units::PersonCode;

/// What is asked.
enum Step {
    /// Who gets a key.
    Person,
    /// How it was made sure who that is.
    Identity,
    /// The person takes the keyboard, and agrees that signatures bind.
    Agree,
    /// The person chooses a passphrase…
    First,
    /// …and types it again.
    Again,
    /// Whoever issues it signs.
    Issue(Credentials),
}

/// Gives somebody a key.
pub struct GivingKey {
    people: Vec<(PersonCode, String)>,
    choice: Choice,
    identity: Field,
    first: Hidden,
    again: Hidden,
    step: Step,
}

impl GivingKey {
    /// Asks who gets one, those without first; `person` is chosen already.
    #[must_use]
    pub fn new<S: System>(person: Option<PersonCode>, desk: &mut Desk<S>) -> GivingKey {
        let people = desk.office().map_or_else(Vec::new, |(house, words)| {
            let mut people: Vec<(bool, PersonCode, String)> = house
                .laboratory
                .people()
                .map(|code| {
                    let has = house.laboratory.key_of(code).is_ok();
                    let shown = house.told(words, |telling| telling.person(code));
                    let values = [
                        ("person", shown.into()),
                        ("has", if has { "yes" } else { "no" }.into()),
                    ];
                    (has, code, words.say("deeds-key-person", &values))
                })
                .collect();
            people.sort_by(|one, other| (one.0, &one.2).cmp(&(other.0, &other.2)));
            people
                .into_iter()
                .map(|(_, code, shown)| (code, shown))
                .collect()
        });
        let chosen = people.iter().position(|(code, _)| Some(*code) == person);
        GivingKey {
            people,
            choice: chosen.map_or(Choice::NONE, |at| Choice { at }),
            identity: Field::default(),
            first: Hidden::new(),
            again: Hidden::new(),
            step: if chosen.is_some() {
                Step::Identity
            } else {
                Step::Person
            },
        }
    }

    fn person(&self) -> Option<PersonCode> {
        self.people.get(self.choice.at).map(|(code, _)| *code)
    }

    fn name(&self) -> String {
        let person = self.people.get(self.choice.at);
        person.map_or_else(String::new, |(_, shown)| shown.clone())
    }

    fn forget(&mut self) {
        (self.first, self.again) = (Hidden::new(), Hidden::new());
    }

    fn issue<S: System>(
        &mut self,
        by: PersonCode,
        passphrase: &Passphrase,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let (Some(person), Ok(identity)) =
            (self.person(), self.identity.text.trim().parse::<Text>())
        else {
            self.step = Step::Identity;
            return Turn::Stay;
        };
        let chosen = self.first.take();
        self.forget();
        let sentence = declaration(Meaning::Approved, &desk.words);
        let accountability = desk.say("laboratory-accountability", &[]);
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        let laboratory = &mut house.laboratory;
        let issued = laboratory.new_key(person, chosen).and_then(|new| {
            let done = laboratory.issue_key(by, passphrase, &new, identity, &sentence)?;
            Ok((done, new))
        });
        let (done, new) = match issued {
            Ok(issued) => issued,
            Err(problem) => {
                // The passphrase is gone; the person types it again.
                self.step = match problem {
                    Problem::WeakPassphrase(_)
                    | Problem::Passphrase { .. }
                    | Problem::Wait { .. } => Step::First,
                    _ => Step::Identity,
                };
                return Turn::Tell(house.problem(&problem, words));
            }
        };
        let entry = id_of(&done.entry);
        let who = house.told(words, |telling| telling.person(person));
        let code = person.to_string();
        let values = [
            ("person", who.as_str().into()),
            ("entry", entry.into()),
            ("code", code.into()),
        ];
        let mut texts = vec![words.say("deeds-key-issued", &values)];
        // A key in the place of another waits for a second person before it signs anything.
        let staff = house.laboratory.ledger().staff();
        if staff.waiting_key_of(person).is_some() {
            texts.push(words.say("deeds-key-not-accepted", &values));
        } else {
            let accepted = house
                .laboratory
                .accept_key(person, new.passphrase(), &accountability);
            match accepted {
                Ok(accepted) => {
                    let entry = id_of(&accepted.entry);
                    let values = [("person", who.into()), ("entry", entry.into())];
                    texts.push(words.say("deeds-key-accepted", &values));
                }
                Err(problem) => {
                    texts.extend(house.problem(&problem, words).texts);
                    texts.push(words.say("deeds-key-not-accepted", &values));
                }
            }
        }
        house.note_signed(done.entry.seal());
        Turn::CloseWith(Notice::new(texts))
    }

    fn take<S: System>(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        match &self.step {
            Step::Person if !self.choice.is_made() => self.choice.at = 0,
            Step::Person if self.person().is_some() => self.step = Step::Identity,
            Step::Identity if self.identity.text.trim().is_empty() => {
                let person = [("person", self.name().into())];
                let text = desk.say("deeds-key-no-identity", &person);
                return Turn::Tell(Notice::new(vec![text]));
            }
            Step::Identity => match self.identity.text.trim().parse::<Text>() {
                Ok(_) => self.step = Step::Agree,
                Err(problem) => {
                    return Turn::Tell(Notice::told(text_problem(problem, &desk.words)));
                }
            },
            Step::Agree => self.step = Step::First,
            Step::First if !self.first.is_empty() => self.step = Step::Again,
            Step::Again => {
                if !self.first.is_same(&self.again) {
                    self.forget();
                    self.step = Step::First;
                    let text = desk.say("office-founding-differ", &[]);
                    return Turn::Tell(Notice::new(vec![text]));
                }
                self.step = Step::Issue(Credentials::ask(desk));
                let text = desk.say("deeds-key-hand-back", &[]);
                return Turn::Tell(Notice::new(vec![text]));
            }
            Step::Person | Step::First | Step::Issue(_) => {}
        }
        Turn::Stay
    }

    fn back<S: System>(&mut self) -> Turn<S> {
        self.forget();
        self.step = match self.step {
            Step::Person => return Turn::Close,
            Step::Identity => Step::Person,
            Step::Agree => Step::Identity,
            Step::First | Step::Again | Step::Issue(_) => Step::Agree,
        };
        Turn::Stay
    }
}

impl<S: System> Screen<S> for GivingKey {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if let Step::Issue(asks) = &mut self.step {
            return match asks.handle(command, desk.body().tall) {
                Given::Nothing => Turn::Stay,
                Given::Left => self.back(),
                Given::Both(by, passphrase) => self.issue(by, &passphrase, desk),
            };
        }
        match command {
            Command::Back => return self.back(),
            Command::Take => return self.take(desk),
            Command::Pick(0, row) => {
                self.choice.at = row;
                return self.take(desk);
            }
            _ => {}
        }
        match (&self.step, command) {
            (Step::Person, _) => {
                self.choice
                    .moved(command, self.people.len(), desk.body().tall);
            }
            (Step::Identity, Command::Type(c)) => self.identity.typed(c),
            (Step::Identity, Command::Erase) => self.identity.erase(),
            (Step::First, Command::Type(c)) => self.first.typed(c),
            (Step::First, Command::Erase) => self.first.erase(),
            (Step::Again, Command::Type(c)) => self.again.typed(c),
            (Step::Again, Command::Erase) => self.again.erase(),
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let wide = inside.wide.min(90);
        let person = [("person", self.name().into())];
        let (asks, typed, about) = match &self.step {
            Step::Issue(asks) => return asks.draw(frame, inside, desk),
            Step::Person => ("deeds-key-who", None, "deeds-explained.key"),
            Step::Identity => (
                "deeds-key-identity",
                Some(self.identity.shown()),
                "deeds-key-identity-about",
            ),
            Step::Agree => ("deeds-key-agree", None, "laboratory-accountability"),
            Step::First => (
                "deeds-key-first",
                Some(self.first.shown(desk.glyphs)),
                "office-founding-passphrase-about",
            ),
            Step::Again => (
                "office-founding-again",
                Some(self.again.shown(desk.glyphs)),
                "office-passphrase-hidden",
            ),
        };
        let mut lines = prose::wrapped(Role::Strong, &desk.say(asks, &person), wide);
        lines.extend(typed.map(|typed| Line::new(Role::Field, typed)));
        lines.push(Line::new(Role::Plain, ""));
        lines.extend(prose::wrapped(Role::Plain, &desk.say(about, &[]), wide));
        let (head, list) = inside.split_rows(lines.len() + 1);
        prose::draw(frame, head, &lines, Scroll::default());
        if matches!(self.step, Step::Person) {
            let rows: Vec<String> = self.people.iter().map(|(_, shown)| shown.clone()).collect();
            rows::draw(frame, list, &rows, self.choice.at, Look::of(0, false));
        }
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("deeds-title.key", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let take = match &self.step {
            Step::Issue(asks) => return asks.hints(desk, "office-signing-sign"),
            Step::Person => "office-who-take",
            Step::Agree => "office-founding-agree",
            Step::Identity | Step::First | Step::Again => "office-founding-next",
        };
        let mut hints = vec![desk.hint(Key::Enter, take)];
        if matches!(self.step, Step::Person) {
            hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
        }
        hints.push(desk.hint(Key::Esc, "screens-key-back"));
        hints
    }

    fn about(&self) -> &'static str {
        "deeds-key-about"
    }

    fn is_typing(&self) -> bool {
        !matches!(self.step, Step::Person | Step::Agree)
    }
}
