//! Before somebody is watched: whom, at what, on which case.

use std::sync::Arc;

use super::{Watching, other_runs, reading};
use crate::app::System;
use crate::app::laboratory::edition_of;
use crate::app::watching::problems::watch_problem;
use crate::app::watching::{BenchCard, FORMAT, Head, Watch};
use crate::record::entry::Method;
use crate::record::scope::Scope;
use crate::syllabus::case::CaseCard;
use crate::syllabus::module::CaseRange;
use crate::text::wrap::columns;
use crate::text::{Caution, Sought, display_safe};
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::tui::screens::{Module, not_started};
use crate::units::PersonCode;

/// Somebody who can be watched at something.
#[derive(Clone)]
pub struct Candidate {
    /// Who.
    pub person: PersonCode,
    /// The name with the code, as it is shown.
    pub shown: String,
    /// At what.
    pub scope: Scope,
    /// The workflow of the scope, under its profile.
    pub module: Module,
    /// The revision that the laboratory works by, where the text on the shelf is another edition.
    pub held: Option<u32>,
    /// Where they stand in the scope, where whoever watches has to look whether the work is allowed: one sentence each.
    pub careful: Vec<String>,
}

/// What is decided before a run.
pub struct Begin {
    observer: PersonCode,
    candidates: Vec<Candidate>,
    /// Which of them.
    candidate: usize,
    /// Workflows to which somebody is assigned and whose modules cannot be taken.
    missing: Vec<String>,
    /// For every choice of the case card the number of its value.
    values: Vec<usize>,
    case: Field,
    lots: Field,
    choice: Choice,
    /// The piece of a name that is looked for.
    sought: String,
    /// Whether somebody has changed anything.
    is_changed: bool,
    /// Whether the case was refused as it is typed, until it is changed.
    no_case: bool,
}

/// One row.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Line {
    Person,
    Workflow,
    Value(usize),
    Case,
    Lots,
}

impl Begin {
    /// Asks the observer; there has to be somebody to watch. Begins with one of the candidates, by number.
    #[must_use]
    pub fn new(
        observer: PersonCode,
        candidates: Vec<Candidate>,
        missing: Vec<String>,
        first: usize,
    ) -> Begin {
        let mut begin = Begin {
            observer,
            candidates,
            missing,
            candidate: first,
            values: Vec::new(),
            case: Field::default(),
            lots: Field::default(),
            choice: Choice::default(),
            sought: String::new(),
            is_changed: false,
            no_case: false,
        };
        begin.values = begin.first_values();
        begin
    }

    fn chosen(&self) -> Option<&Candidate> {
        self.candidates.get(self.candidate)
    }

    /// Says that what is watched by the text on the shelf would not count, where the laboratory works by another.
    fn other_edition<S: System>(&self, desk: &Desk<S>) -> Option<String> {
        let candidate = self.chosen()?;
        let watched = candidate.module.module.identity.revision;
        let values = [
            ("held", candidate.held?.to_string().into()),
            ("watched", watched.to_string().into()),
        ];
        Some(desk.say("watching-begin-other-edition", &values))
    }

    fn first_values(&self) -> Vec<usize> {
        let choices = self.chosen().map(|one| one.module.module.case.len());
        vec![0; choices.unwrap_or(0)]
    }

    fn lines(&self) -> Vec<Line> {
        let mut lines = vec![Line::Person, Line::Workflow];
        lines.extend((0..self.values.len()).map(Line::Value));
        lines.extend([Line::Case, Line::Lots]);
        lines
    }

    fn line(&self) -> Line {
        let lines = self.lines();
        lines.get(self.choice.at).copied().unwrap_or(Line::Person)
    }

    /// Takes the next candidate that differs in who it is, or in what it is about.
    fn turn_candidate(&mut self, forward: bool, person: bool) {
        let count = self.candidates.len();
        let Some(now) = self.chosen().cloned() else {
            return;
        };
        let step = if forward { 1 } else { count - 1 };
        let mut at = self.candidate;
        for _ in 0..count {
            at = (at + step) % count;
            let same = self.candidates[at].person == now.person;
            if same != person {
                break;
            }
        }
        // The first scope of somebody comes first, whichever way one comes from.
        if person {
            let who = self.candidates[at].person;
            let first = self.candidates.iter().position(|one| one.person == who);
            at = first.unwrap_or(at);
        }
        self.choose(at);
    }

    fn choose(&mut self, candidate: usize) {
        if candidate != self.candidate {
            self.candidate = candidate;
            self.values = self.first_values();
            self.is_changed = true;
        }
    }

    /// Looks for somebody by what was typed so far and one letter more; where nobody fits, the letter begins anew.
    fn seek(&mut self, letter: char) {
        let longer = format!("{}{letter}", self.sought);
        if !self.find(longer) && !self.find(letter.to_string()) {
            self.sought.clear();
        }
    }

    /// Goes to whom a piece of a name fits: nobody else where it fits whoever is chosen. Returns whether it fits anybody.
    fn find(&mut self, sought: String) -> bool {
        let fits = Sought::new(&sought);
        let chosen = self.chosen().filter(|one| fits.is_in(&one.shown));
        let found = match chosen {
            Some(_) => Some(self.candidate),
            None => {
                let mut all = self.candidates.iter();
                all.position(|one| fits.is_in(&one.shown))
            }
        };
        if let Some(at) = found {
            self.choose(at);
            self.sought = sought;
        }
        found.is_some()
    }

    fn turn(&mut self, forward: bool) {
        self.is_changed |= !matches!(self.line(), Line::Case | Line::Lots);
        match self.line() {
            Line::Person => self.turn_candidate(forward, true),
            Line::Workflow => self.turn_candidate(forward, false),
            Line::Value(number) => {
                let Some(candidate) = self.chosen() else {
                    return;
                };
                let count = match &candidate.module.module.case[number].range {
                    CaseRange::OneOf(values) => values.len(),
                    CaseRange::Whole { from, to } => usize::from(to.saturating_sub(*from)) + 1,
                };
                let step = if forward { 1 } else { count.max(1) - 1 };
                self.values[number] = (self.values[number] + step) % count.max(1);
            }
            Line::Case | Line::Lots => {}
        }
    }

    /// The field that is typed into, if one is.
    fn field(&mut self) -> Option<&mut Field> {
        self.no_case = false;
        match self.line() {
            Line::Case => Some(&mut self.case),
            Line::Lots => Some(&mut self.lots),
            _ => None,
        }
    }

    fn card(&self, candidate: &Candidate) -> CaseCard {
        let mut number = 0;
        CaseCard::picked(&candidate.module.module, |_| {
            let value = self.values.get(number).copied().unwrap_or(0);
            number += 1;
            value
        })
    }

    fn shown<S: System>(&self, line: Line, desk: &Desk<S>) -> (String, String) {
        let say = |id: &str| desk.say(id, &[]);
        let Some(candidate) = self.chosen() else {
            return (String::new(), String::new());
        };
        let field = |field: &Field| {
            if self.line() == line {
                field.shown()
            } else {
                field.text.clone()
            }
        };
        match line {
            Line::Person => (say("watching-begin-person"), candidate.shown.clone()),
            Line::Workflow => {
                let Scope {
                    workflow,
                    profile,
                    wash,
                    cure,
                } = &candidate.scope;
                let values = [
                    ("workflow", workflow.to_string().into()),
                    ("profile", profile.to_string().into()),
                    ("wash", wash.to_string().into()),
                    ("cure", cure.to_string().into()),
                ];
                let shown = desk.say("watching-begin-scope", &values);
                (say("watching-begin-workflow"), shown)
            }
            Line::Value(number) => {
                let choice = &candidate.module.module.case[number];
                let card = self.card(candidate);
                let value = card.get(&choice.id.value).map(ToString::to_string);
                (
                    display_safe(&choice.title),
                    display_safe(&value.unwrap_or_default()),
                )
            }
            Line::Case => (say("watching-begin-case"), field(&self.case)),
            Line::Lots => (say("watching-begin-lots"), field(&self.lots)),
        }
    }

    fn begin<S: System>(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let tell = |text: String| Turn::Tell(Notice::new(vec![text]));
        let Some(candidate) = self.chosen().cloned() else {
            return tell(desk.say("watching-begin-nobody", &[]));
        };
        let Ok(case) = self.case.text.trim().to_lowercase().parse() else {
            self.choice.at = self.lines().len() - 2;
            self.no_case = true;
            return Turn::Stay;
        };
        let chosen = self.card(&candidate);
        let card = match BenchCard::new(Arc::clone(&candidate.module), &chosen) {
            Ok(card) => card,
            Err(problem) => return Turn::Tell(not_started(&problem, &desk.words)),
        };
        let edition = match edition_of(&candidate.module) {
            Ok(edition) => edition,
            Err(problem) => {
                let notice = desk
                    .office()
                    .map(|(house, words)| house.problem(&problem, words));
                return Turn::Tell(notice.unwrap_or_else(|| Notice::new(Vec::new())));
            }
        };
        let now = reading(desk);
        let lots = self.lots.text.trim();
        let head = Head {
            format: FORMAT,
            person: candidate.person,
            observer: self.observer,
            scope: candidate.scope,
            numbers: candidate.module.numbers.clone(),
            edition,
            card: chosen,
            case,
            method: Method::Direct,
            started: now.at,
            lots: (!lots.is_empty())
                .then(|| lots.to_owned())
                .into_iter()
                .collect(),
        };
        let others = other_runs(self.observer, None, desk);
        let data = desk.data.clone();
        match Watch::begin(&desk.system, data.as_deref(), Arc::new(card), head, now) {
            Ok(watch) => Turn::Replace(Box::new(Watching::new(watch, others, desk))),
            Err(problem) => Turn::Tell(Notice::new(watch_problem(&problem, &desk.words))),
        }
    }
}

impl<S: System> Screen<S> for Begin {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let count = self.lines().len();
        if self.choice.moved(command, count, count) {
            self.sought.clear();
            return Turn::Stay;
        }
        match command {
            Command::Type(c)
                if self.line() == Line::Person && (c != ' ' || !self.sought.is_empty()) =>
            {
                self.seek(c);
                return Turn::Stay;
            }
            Command::Erase if self.line() == Line::Person => {
                let mut sought = self.sought.clone();
                sought.pop();
                if sought.is_empty() || !self.find(sought) {
                    self.sought.clear();
                }
                return Turn::Stay;
            }
            _ => {}
        }
        if !matches!(command, Command::Tick) {
            self.sought.clear();
        }
        match command {
            Command::Left => self.turn(false),
            Command::Right => self.turn(true),
            Command::Type(c) => match self.field() {
                Some(field) => field.typed(c),
                None if c == ' ' => self.turn(true),
                None => {}
            },
            Command::Erase => {
                if let Some(field) = self.field() {
                    field.erase();
                }
            }
            Command::Pick(0, row) if row == self.choice.at => self.turn(true),
            Command::Pick(0, row) => self.choice.at = row.min(count - 1),
            Command::Take => return self.begin(desk),
            Command::Back => return Turn::Close,
            _ => {}
        }
        Turn::Stay
    }

    fn would_drop(&self) -> bool {
        self.is_changed || !(self.case.text.is_empty() && self.lots.text.is_empty())
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 0);
        let caution = format!("! {}", Caution::OthersComeFirst.say(&desk.words));
        let caution = prose::wrapped(Role::Caution, &caution, inside.wide);
        let (inside, foot) = inside.split_rows(inside.tall.saturating_sub(caution.len()));
        prose::draw(frame, foot, &caution, Scroll::default());
        let question = desk.say("watching-begin-question", &[]);
        let question = prose::wrapped(Role::Faint, &question, inside.wide);
        let (head, below) = inside.split_rows(question.len() + 1);
        prose::draw(frame, head, &question, Scroll::default());
        let column = below.wide.min(78) / 3;
        let lines = self.lines();
        let top = self.choice.top(lines.len(), below.tall);
        for (y, (number, line)) in lines.iter().enumerate().skip(top).enumerate() {
            if y >= below.tall {
                break;
            }
            let (name, value) = self.shown(*line, desk);
            let chosen = number == self.choice.at;
            let row = Area {
                y: below.y + y,
                tall: 1,
                ..below
            };
            let (left, right) = row.split_columns(column);
            let role = if chosen { Role::Chosen } else { Role::Plain };
            let mark = if chosen { frame.pick('▸', '>') } else { ' ' };
            frame.put_row(left, 0, role, &format!("{mark} {name}"));
            let typed = matches!(line, Line::Case | Line::Lots);
            let role = match (chosen, typed) {
                (true, true) => Role::Field,
                (true, false) => Role::Strong,
                (false, _) => Role::Plain,
            };
            let text = if chosen && !typed {
                format!("{} {value} {}", frame.pick('◂', '<'), frame.pick('▸', '>'))
            } else {
                value
            };
            frame.put(right, 0, 1, role, &text);
            frame.hot(row, Command::Pick(0, number));
        }
        let (_, free) = below.split_rows(lines.len() + 1);
        let other = self.other_edition(desk);
        let other =
            other.map(|text| prose::wrapped(Role::Caution, &format!("! {text}"), free.wide));
        let other = other.unwrap_or_default();
        prose::draw(frame, free, &other, Scroll::default());
        let (_, free) = free.split_rows(other.len());
        let careful = self.chosen().map_or(&[][..], |one| &one.careful);
        let careful = careful.join(" ");
        let careful = if careful.is_empty() {
            Vec::new()
        } else {
            prose::wrapped(Role::Caution, &format!("! {careful}"), free.wide)
        };
        prose::draw(frame, free, &careful, Scroll::default());
        let (_, free) = free.split_rows(careful.len());
        // What the row has no room for is told whole.
        let whole = Some(self.shown(self.line(), desk).1);
        let whole = whole.filter(|text| columns(text) + 4 > below.wide.saturating_sub(column));
        let whole = whole.filter(|_| !matches!(self.line(), Line::Case | Line::Lots));
        let whole = whole.map_or_else(Vec::new, |text| {
            prose::wrapped(Role::Plain, &text, free.wide)
        });
        prose::draw(frame, free, &whole, Scroll::default());
        let (_, free) = free.split_rows(whole.len());
        let refused = self.no_case && self.line() == Line::Case;
        let refused = refused.then(|| desk.say("watching-begin-no-case", &[]));
        let refused = refused.map_or_else(Vec::new, |text| {
            prose::wrapped(Role::Caution, &text, free.wide)
        });
        prose::draw(frame, free, &refused, Scroll::default());
        let (_, free) = free.split_rows(refused.len());
        let mut about = Vec::new();
        match self.line() {
            Line::Person if self.sought.is_empty() => {
                about.push(desk.say("watching-begin-about-person", &[]));
            }
            Line::Person => {
                let sought = [("text", self.sought.as_str().into())];
                about.push(desk.say("watching-begin-sought", &sought));
            }
            Line::Case => about.push(desk.say("watching-begin-about-case", &[])),
            Line::Lots => about.push(desk.say("watching-begin-about-lots", &[])),
            Line::Workflow | Line::Value(_) => {}
        }
        if matches!(self.line(), Line::Person | Line::Workflow) && !self.missing.is_empty() {
            let missing = [("workflows", self.missing.clone().into())];
            about.push(desk.say("watching-begin-missing", &missing));
        }
        let about = about.iter();
        let about = about.flat_map(|text| prose::wrapped(Role::Plain, text, free.wide));
        let about: Vec<prose::Line> = about.collect();
        prose::draw(frame, free, &about, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("watching-begin-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = vec![
            desk.hint(Key::Enter, "watching-begin-take"),
            desk.hint(Key::UpDown, "screens-key-choose"),
        ];
        if !matches!(self.line(), Line::Case | Line::Lots) {
            hints.push(desk.hint(Key::LeftRight, "screens-setup-change"));
        }
        hints.push(desk.hint(Key::Esc, "screens-key-back"));
        hints
    }

    fn about(&self) -> &'static str {
        "watching-begin-about"
    }

    fn is_typing(&self) -> bool {
        matches!(self.line(), Line::Person | Line::Case | Line::Lots)
    }
}
