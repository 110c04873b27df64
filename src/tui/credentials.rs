//! The two things that a person shows: who they are, and their passphrase. Both are asked for each time.

use super::command::Command;
use super::field::Field;
use super::frame::{Area, Frame, Role};
use super::hidden::Hidden;
use super::house::House;
use super::list::{Choice, Scroll};
use super::prose;
use super::rows::{self, Look};
use super::screen::{Desk, Hint, Key, Notice, Turn};
use crate::app::System;
use crate::app::laboratory::{Place, Problem};
use crate::people::Passphrase;
use crate::text::wrap::columns;
use crate::text::{Sought, Words};
use crate::units::PersonCode;

/// The list of people, for clicks.
const PEOPLE: u8 = 0;

/// Somebody who can be chosen.
struct Somebody {
    code: PersonCode,
    /// The name with the code.
    shown: String,
    /// What the demonstration tells everybody.
    passphrase: Option<&'static str>,
}

/// A person by name and code; in the demonstration with what the person does there.
fn shown<P: Place>(code: PersonCode, house: &House<P>, words: &Words) -> String {
    let person = house.told(words, |telling| telling.person(code));
    match house.open_role(code) {
        Some(role) => {
            let role = words.part("laboratory-role", role.word());
            let values = [("person", person.into()), ("role", role.into())];
            words.say("office-who-role", &values)
        }
        None => person,
    }
}

/// Who it is, and the passphrase.
pub(super) struct Credentials {
    people: Vec<Somebody>,
    sought: Field,
    choice: Choice,
    /// Who was chosen.
    person: Option<PersonCode>,
    passphrase: Hidden,
    /// Both, until the key is opened with them.
    given: Option<(PersonCode, Passphrase)>,
    /// Why what was typed before was refused, until something else is typed.
    refused: Vec<String>,
}

/// What came of a command.
pub(super) enum Given {
    /// Nothing yet.
    Nothing,
    /// Both were given. They are to be taken by [`Credentials::take`] when the picture says that a key is being opened: [`Credentials::opens`].
    Both,
    /// It was left.
    Left,
}

impl Credentials {
    /// Asks who it is among all who have a key here.
    pub(super) fn ask<S: System>(desk: &mut Desk<S>) -> Credentials {
        let people = desk.office().map_or_else(Vec::new, |(house, words)| {
            // Whoever is new is not among the names that were read before.
            let _kept_as_they_are = house.learn_names(words);
            let codes: Vec<PersonCode> = house.laboratory.people().collect();
            let with_key = codes
                .into_iter()
                .filter(|code| house.laboratory.key_of(*code).is_ok());
            let mut people: Vec<Somebody> = with_key
                .map(|code| Somebody {
                    code,
                    shown: shown(code, house, words),
                    passphrase: house.open_passphrase(code),
                })
                .collect();
            people.sort_by(|one, other| one.shown.cmp(&other.shown));
            people
        });
        Credentials {
            people,
            sought: Field::default(),
            choice: Choice::NONE,
            person: None,
            passphrase: Hidden::new(),
            given: None,
            refused: Vec::new(),
        }
    }

    /// Takes somebody as chosen.
    pub(super) fn of(mut self, person: Option<PersonCode>) -> Credentials {
        self.person = person;
        self
    }

    /// Points at whoever it most likely is.
    pub(super) fn likely(mut self, person: Option<PersonCode>) -> Credentials {
        let at = self.people.iter().position(|one| Some(one.code) == person);
        self.choice = at.map_or(Choice::NONE, |at| Choice { at });
        self
    }

    /// What comes next once both are given: it is said that the key is being opened.
    pub(super) fn opens<S: System>() -> Turn<S> {
        Turn::Work("office-key-opens")
    }

    /// Takes what was given, once.
    pub(super) fn take(&mut self) -> Option<(PersonCode, Passphrase)> {
        self.given.take()
    }

    /// Says beside the field why what was typed there was refused; what is about anything else is handed back.
    pub(super) fn refuse(&mut self, problem: &Problem, notice: Notice) -> Option<Notice> {
        if !matches!(problem, Problem::Passphrase { .. } | Problem::Wait { .. }) {
            return Some(notice);
        }
        self.refused = notice.texts;
        None
    }

    /// What comes of a refusal where these two may be asked for: it is said beside the field, or told.
    pub(super) fn refused<S: System>(
        asks: Option<&mut Credentials>,
        problem: &Problem,
        notice: Notice,
    ) -> Turn<S> {
        let told = match asks {
            Some(asks) => asks.refuse(problem, notice),
            None => Some(notice),
        };
        told.map_or(Turn::Stay, Turn::Tell)
    }

    /// Those whose name or code holds what was typed.
    fn found(&self) -> Vec<&Somebody> {
        let sought = Sought::new(&self.sought.text);
        let all = self.people.iter();
        all.filter(|one| sought.is_in(&one.shown)).collect()
    }

    /// Takes a command.
    pub(super) fn handle(&mut self, command: Command, tall: usize) -> Given {
        if self.person.is_some() {
            return self.type_passphrase(command);
        }
        let count = self.found().len();
        match command {
            Command::Type(_) | Command::Erase => {
                let pointed = self.found().get(self.choice.at).map(|one| one.code);
                match command {
                    Command::Type(c) => self.sought.typed(c),
                    _ => self.sought.erase(),
                }
                // Whoever was pointed at stays so while the name still fits.
                let mut found = self.found().into_iter();
                let at = found.position(|one| Some(one.code) == pointed);
                self.choice = at.map_or(Choice::NONE, |at| Choice { at });
            }
            Command::Pick(PEOPLE, row) => {
                self.choice.at = row;
                self.choose();
            }
            Command::Take => self.choose(),
            Command::Back => return Given::Left,
            _ => {
                self.choice.moved(command, count, tall);
            }
        }
        Given::Nothing
    }

    fn choose(&mut self) {
        // The first Enter points at somebody, the next one means them.
        if self.found().len() > 1 && !self.choice.is_made() {
            self.choice.at = 0;
            return;
        }
        let found = self.found();
        let chosen = match found.as_slice() {
            [only] => Some(only.code),
            several => several.get(self.choice.at).map(|one| one.code),
        };
        self.person = chosen;
    }

    fn type_passphrase(&mut self, command: Command) -> Given {
        if command != Command::Tick {
            self.refused.clear();
        }
        match command {
            Command::Type(c) => self.passphrase.typed(c),
            Command::Erase => self.passphrase.erase(),
            Command::Next => {
                // Nothing in the demonstration is secret.
                let open = self.people.iter().find(|one| Some(one.code) == self.person);
                if let Some(open) = open.and_then(|one| one.passphrase) {
                    self.passphrase = Hidden::new();
                    open.chars().for_each(|c| self.passphrase.typed(c));
                }
            }
            Command::Back => {
                self.passphrase = Hidden::new();
                self.person = None;
            }
            Command::Take => {
                if let Some(person) = self.person.filter(|_| !self.passphrase.is_empty()) {
                    self.given = Some((person, self.passphrase.take()));
                    return Given::Both;
                }
            }
            _ => {}
        }
        Given::Nothing
    }

    /// Draws the question that is open.
    pub(super) fn draw<S: System>(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        match self.person {
            None => self.draw_people(frame, area, desk),
            Some(person) => self.draw_passphrase(frame, area, person, desk),
        }
    }

    fn draw_people<S: System>(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let pointed = self
            .found()
            .get(self.choice.at)
            .map(|one| one.shown.clone());
        let asked = match pointed {
            Some(person) => desk.say("office-who-likely", &[("person", person.into())]),
            None => desk.say("office-who", &[]),
        };
        let asked = prose::wrapped(Role::Plain, &asked, area.wide);
        let (head, below) = area.split_rows(asked.len());
        prose::draw(frame, head, &asked, Scroll::default());
        let (line, below) = below.split_rows(1);
        let found = self.found();
        let typed = if found.is_empty() {
            // Somebody may have begun with the passphrase.
            let mut hidden = Hidden::new();
            self.sought.text.chars().for_each(|c| hidden.typed(c));
            hidden.shown(desk.glyphs)
        } else {
            self.sought.shown()
        };
        frame.put_row(line, 0, Role::Field, &typed);
        let (_, list) = below.split_rows(1);
        if found.is_empty() {
            let nobody = desk.say("office-who-nobody", &[]);
            let lines = prose::wrapped(Role::Plain, &nobody, list.wide);
            prose::draw(frame, list, &lines, Scroll::default());
        }
        let rows: Vec<String> = found.iter().map(|one| one.shown.clone()).collect();
        let chosen = if let [_] = rows.as_slice() {
            0
        } else {
            self.choice.at
        };
        rows::draw(frame, list, &rows, chosen, Look::of(PEOPLE, false));
    }

    fn draw_passphrase<S: System>(
        &self,
        frame: &mut Frame,
        area: Area,
        person: PersonCode,
        desk: &Desk<S>,
    ) {
        let somebody = self.people.iter().find(|one| one.code == person);
        let shown = somebody.map_or_else(|| person.to_string(), |one| one.shown.clone());
        let asked = desk.say("office-passphrase", &[("person", shown.into())]);
        let asked = prose::wrapped(Role::Plain, &asked, area.wide);
        let (head, below) = area.split_rows(asked.len());
        prose::draw(frame, head, &asked, Scroll::default());
        let (line, below) = below.split_rows(1);
        let typed = self.passphrase.shown(desk.glyphs);
        let hidden = columns(&typed).saturating_sub(line.wide);
        frame.put_row(
            line,
            0,
            Role::Field,
            &typed.chars().skip(hidden).collect::<String>(),
        );
        let (_, below) = below.split_rows(1);
        let refused = prose::cautions(&self.refused, below.wide);
        prose::draw(frame, below, &refused, Scroll::default());
        let (_, below) = match refused.len() {
            0 => below.split_rows(0),
            rows => below.split_rows(rows + 1),
        };
        let told = match somebody.and_then(|one| one.passphrase) {
            Some(open) => desk.say("office-passphrase-open", &[("passphrase", open.into())]),
            None => desk.say("office-passphrase-hidden", &[]),
        };
        let lines = prose::wrapped(Role::Faint, &told, below.wide);
        prose::draw(frame, below, &lines, Scroll::default());
    }

    /// The keys that do something now.
    pub(super) fn hints<S: System>(&self, desk: &Desk<S>, take: &str) -> Vec<Hint> {
        if self.person.is_none() {
            return vec![
                desk.hint(Key::Enter, "office-who-take"),
                desk.hint(Key::UpDown, "screens-key-choose"),
                desk.hint(Key::Esc, "screens-key-back"),
            ];
        }
        let mut hints = vec![desk.hint(Key::Enter, take)];
        let open = self.people.iter().find(|one| Some(one.code) == self.person);
        if open.is_some_and(|one| one.passphrase.is_some()) {
            hints.push(desk.hint(Key::Tab, "office-passphrase-fill"));
        }
        hints.push(desk.hint(Key::Esc, "screens-key-back"));
        hints
    }
}
