//! Somebody gets a key: whoever issues it makes sure who it is; the person agrees and chooses a passphrase, unseen; then it is issued, and the person's
//! acceptance is signed with it.

use crate::app::System;
use crate::app::laboratory::NewKey;
use crate::people::Passphrase;
use crate::record::scope::{Meaning, Text};
use crate::report::record::{declaration, id_of, text_problem};
use crate::tui::chosen_passphrase::{ChosenPassphrase, will_do};
use crate::tui::command::Command;
use crate::tui::credentials::{Credentials, Given};
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
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
    chosen: ChosenPassphrase,
    /// The key that is to be issued, once its passphrase has been chosen.
    new: Option<NewKey>,
    /// What is wrong with how it was made sure who it is, until that is changed.
    wrong: Vec<String>,
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
            chosen: ChosenPassphrase::default(),
            new: None,
            wrong: Vec::new(),
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
        self.chosen.forget();
        self.new = None;
        self.wrong.clear();
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
        let Some(new) = self.new.take() else {
            self.step = Step::First;
            return Turn::Stay;
        };
        let sentence = declaration(Meaning::Approved, &desk.words);
        let accountability = desk.say("laboratory-accountability", &[]);
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        let issued = house
            .laboratory
            .issue_key(by, passphrase, &new, identity, &sentence);
        let done = match issued {
            Ok(done) => done,
            Err(problem) => {
                let told = house.problem(&problem, words);
                // What the person has chosen outlasts a slip of whoever issues it.
                self.new = Some(new);
                let told = match &mut self.step {
                    Step::Issue(asks) => asks.refuse(&problem, told),
                    _ => Some(told),
                };
                return told.map_or(Turn::Stay, |told| {
                    self.forget();
                    self.step = Step::Identity;
                    Turn::Tell(told)
                });
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
                self.wrong = vec![desk.say("deeds-key-no-identity", &person)];
            }
            Step::Identity => match self.identity.text.trim().parse::<Text>() {
                Ok(_) => self.step = Step::Agree,
                Err(problem) => {
                    self.wrong = Notice::told(text_problem(problem, &desk.words)).texts;
                }
            },
            Step::Agree => self.step = Step::First,
            Step::First | Step::Again => return self.take_passphrase(desk),
            Step::Person | Step::Issue(_) => {}
        }
        Turn::Stay
    }

    /// The passphrase is looked at, asked for again, or the keyboard goes back to whoever issues the key.
    fn take_passphrase<S: System>(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let Some(person) = self.person() else {
            return Turn::Stay;
        };
        let looks = |chosen: &Passphrase, desk: &mut Desk<S>| will_do(person, chosen, desk);
        let Some(chosen) = self.chosen.leave(desk, looks) else {
            self.step = if self.chosen.is_repeated() {
                Step::Again
            } else {
                Step::First
            };
            return Turn::Stay;
        };
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        match house.laboratory.new_key(person, chosen) {
            Ok(new) => self.new = Some(new),
            Err(problem) => {
                self.step = Step::Identity;
                return Turn::Tell(house.problem(&problem, words));
            }
        }
        let here = desk.person();
        self.step = Step::Issue(Credentials::ask(desk).likely(here));
        let text = desk.say("deeds-key-hand-back", &[]);
        Turn::Tell(Notice::new(vec![text]))
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
                Given::Both => Credentials::opens(),
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
            (Step::Identity, Command::Type(c)) => {
                self.wrong.clear();
                self.identity.typed(c);
            }
            (Step::Identity, Command::Erase) => {
                self.wrong.clear();
                self.identity.erase();
            }
            (Step::First | Step::Again, _) => self.chosen.handle(command),
            _ => {}
        }
        Turn::Stay
    }

    fn works(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let given = match &mut self.step {
            Step::Issue(asks) => asks.take(),
            _ => None,
        };
        match given {
            Some((by, passphrase)) => self.issue(by, &passphrase, desk),
            None => Turn::Stay,
        }
    }

    fn would_drop(&self) -> bool {
        matches!(self.step, Step::Person) && !self.identity.text.is_empty()
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let wide = inside.wide.min(90);
        let person = [("person", self.name().into())];
        let (asks, typed, about) = match &self.step {
            Step::Issue(asks) => return asks.draw(frame, inside, desk),
            Step::Person => ("deeds-key-who", Vec::new(), "deeds-explained.key"),
            Step::Identity => (
                "deeds-key-identity",
                vec![Line::new(Role::Field, self.identity.shown())],
                "deeds-key-identity-about",
            ),
            Step::Agree => ("deeds-key-agree", Vec::new(), "laboratory-accountability"),
            Step::First => (
                "deeds-key-first",
                self.chosen.lines(wide, desk),
                "office-founding-passphrase-about",
            ),
            Step::Again => (
                "office-founding-again",
                self.chosen.lines(wide, desk),
                "office-passphrase-hidden",
            ),
        };
        let mut lines = prose::wrapped(Role::Strong, &desk.say(asks, &person), wide);
        lines.extend(typed);
        lines.extend(prose::cautions(&self.wrong, wide));
        lines.push(Line::new(Role::Plain, ""));
        lines.extend(prose::wrapped(Role::Plain, &desk.say(about, &[]), wide));
        // It stands in the record for good, so it is read once more before anything is signed.
        if matches!(self.step, Step::Agree) {
            let values = [("identity", self.identity.text.trim().into())];
            lines.push(Line::new(Role::Plain, ""));
            let read = desk.say("deeds-key-identity-read", &values);
            lines.extend(prose::wrapped(Role::Plain, &read, wide));
        }
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
