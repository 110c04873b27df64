//! A form: rows to fill in, each explained; then everything is shown before it is signed. What was typed stays until it is signed.

use super::fields::{Answers, Asked, Source, refill};
use super::learning::{of_other_text, of_profile_not_here};
use super::offered::OnShelf;
use super::row::{Answer, Given, Row};
use super::{About, Build, Refused, What};
use crate::app::System;
use crate::record::scope::Scope;
use crate::report::Block;
use crate::report::record::id_of;
use crate::standing::Reading;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame};
use crate::tui::list::Choice;
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::tui::screens::laboratory::signing::Signing;

/// The list of rows and the list of answers, for clicks.
pub(super) const ROWS: u8 = 0;
pub(super) const ANSWERS: u8 = 1;

/// A form that is being filled in.
pub(super) struct Form<S: System> {
    pub(super) what: What,
    pub(super) rows: Vec<Row>,
    build: Build<S>,
    /// What of the shelf is offered.
    pub(super) shelf: OnShelf,
    /// What stood in the rows before anybody changed them.
    begun: Vec<Given>,
    /// The chosen row; behind the last one stands the way on.
    pub(super) choice: Choice,
    /// The answers of a row laid open, with what is sought in them.
    pub(super) picking: Option<(Field, Choice)>,
    /// The row that cannot stand as it is, and why, until something is changed.
    pub(super) wrong: Option<(usize, Vec<String>)>,
}

impl<S: System> Form<S> {
    pub(super) fn new(what: What, about: &About, desk: &mut Desk<S>) -> Form<S> {
        let (asked, build) = what.form::<S>();
        let shelf = OnShelf::read(what, desk);
        let mut form = Form {
            what,
            rows: asked.iter().map(|one: &Asked| Row::of(*one)).collect(),
            build,
            shelf,
            begun: Vec::new(),
            choice: Choice::default(),
            picking: None,
            wrong: None,
        };
        if let Some((house, words)) = desk.office() {
            let entry = about
                .entry
                .and_then(|seal| house.laboratory.ledger().get(&seal));
            if let (Some(entry), Some(row)) = (entry, form.row_mut("entry")) {
                row.line.text = id_of(entry);
            }
            // Later fields depend on earlier ones.
            for _ in 0..2 {
                refill(&mut form.rows, &form.shelf, house, words);
                form.set("person", about.person.map(Answer::Person));
                let scope = about.scope.clone();
                form.set(
                    "scope",
                    scope.or_else(|| form.scope_of(about)).map(Answer::Scope),
                );
                let workflow = about.workflow.clone();
                let workflow = workflow.or_else(|| Some(about.scope.as_ref()?.workflow.clone()));
                form.set("workflow", workflow.map(Answer::Id));
            }
            refill(&mut form.rows, &form.shelf, house, words);
        }
        // What a row begins with by itself is not what is known of the deed.
        let known = |row: &Row| row.began.is_empty() && !row.shown().is_empty();
        let known = form.rows.iter().any(known);
        if let (What::Policy, Some((house, _))) = (what, desk.office()) {
            let now = house.laboratory.now().instant();
            let held = house.laboratory.view(now, Reading::AsNowKnown).policy();
            let word = held.independence.word();
            form.set("independence", Some(Answer::Word(word)));
        }
        form.begun = form.rows.iter().map(Row::given).collect();
        let mut open = form.rows.iter();
        let first = open.position(|row| !row.asked.optional && row.shown().is_empty());
        // Where nothing is known yet, one begins at the top.
        form.choice.at = if known {
            first.unwrap_or(form.rows.len())
        } else {
            0
        };
        form
    }

    fn row_mut(&mut self, id: &str) -> Option<&mut Row> {
        self.rows.iter_mut().find(|row| row.asked.id == id)
    }

    /// The first scope that can be chosen in the workflow that is known.
    fn scope_of(&self, about: &About) -> Option<Scope> {
        let row = self.rows.iter().find(|row| row.asked.id == "scope")?;
        let workflow = about.workflow.as_ref()?;
        row.options.iter().find_map(|(answer, _)| match answer {
            Answer::Scope(scope) if scope.workflow == *workflow => Some(scope.clone()),
            _ => None,
        })
    }

    fn set(&mut self, id: &str, answer: Option<Answer>) {
        let (Some(answer), Some(row)) = (answer, self.row_mut(id)) else {
            return;
        };
        let mut options = row.options.iter();
        if let Some(at) = options.position(|(one, _)| *one == answer) {
            row.chosen = Some(at);
        }
    }

    pub(super) fn row(&self) -> Option<&Row> {
        self.rows.get(self.choice.at)
    }

    pub(super) fn refilled(&mut self, desk: &mut Desk<S>) {
        self.wrong = None;
        if let Some((house, words)) = desk.office() {
            refill(&mut self.rows, &self.shelf, house, words);
        }
    }

    fn turn(&mut self, forward: bool, desk: &mut Desk<S>) {
        let Some(row) = self.rows.get_mut(self.choice.at) else {
            return;
        };
        let count = row.options.len();
        if count == 0 || row.takes_several() {
            return;
        }
        // Before the first answer stands none, where the field may be left empty.
        let optional = row.may_stay_empty();
        let places = count + usize::from(optional);
        let now = match row.chosen {
            Some(at) => at + usize::from(optional),
            None if optional => 0,
            None if forward => places - 1,
            None => 0,
        };
        let next = if forward { now + 1 } else { now + places - 1 } % places;
        row.chosen = if optional {
            next.checked_sub(1)
        } else {
            Some(next)
        };
        self.refilled(desk);
    }

    fn take(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        match self.row() {
            None => self.go_on(desk),
            Some(row) if row.is_typed() => {
                self.choice.at += 1;
                Turn::Stay
            }
            Some(row) if row.options.is_empty() && !row.takes_names() => {
                let text = desk.say("deeds-nothing-to-choose", &[]);
                Turn::Tell(Notice::new(vec![text]))
            }
            Some(row) => {
                let at = row.chosen.unwrap_or(0);
                self.picking = Some((Field::default(), Choice { at }));
                Turn::Stay
            }
        }
    }

    /// Makes the deed and shows it before it is signed.
    fn go_on(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let Some((house, _)) = desk.office() else {
            return Turn::Close;
        };
        let answers = Answers {
            rows: &self.rows,
            now: house.laboratory.now(),
            calendar: &house.laboratory.calendar(),
        };
        let built = match answers.first_missing() {
            Some(field) => Err(Refused::Field(field)),
            None => match self.build {
                Build::One(build) => build(&answers, desk).map(|deed| vec![deed]),
                Build::Several(build) => build(&answers),
            },
        };
        let deeds = match built {
            Ok(deeds) => deeds,
            Err(Refused::Told(notice)) => return Turn::Tell(notice),
            Err(Refused::Field(field)) => {
                let wrong = answers.wrong(field, &desk.words);
                let at = self.rows.iter().position(|row| row.asked.id == wrong.field);
                let Some(at) = at else {
                    return Turn::Tell(wrong.notice);
                };
                self.choice.at = at;
                self.wrong = Some((at, wrong.notice.texts));
                return Turn::Stay;
            }
        };
        let next = self.what.next().map(|id| desk.say(id, &[]));
        let first: Vec<Block> = deeds
            .iter()
            .flat_map(|deed| {
                let mut first = of_other_text(deed, desk);
                first.extend(of_profile_not_here(deed, desk));
                first
            })
            .collect();
        match desk.person() {
            Some(person) => Signing::open_for(person, deeds, first, next, desk),
            None => {
                let text = desk.say("office-signing-nobody", &[]);
                Turn::Tell(Notice::new(vec![text]))
            }
        }
    }
}

impl<S: System> Screen<S> for Form<S> {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if self.picking.is_some() {
            self.on_picking(command, desk);
            return Turn::Stay;
        }
        if self
            .choice
            .moved(command, self.rows.len() + 1, self.rows.len() + 1)
        {
            return Turn::Stay;
        }
        let typed = self.row().is_some_and(Row::is_typed);
        match command {
            Command::Back => return Turn::Close,
            Command::Take => return self.take(desk),
            Command::Next => self.choice.at = (self.choice.at + 1).min(self.rows.len()),
            Command::Previous => self.choice.at = self.choice.at.saturating_sub(1),
            Command::Pick(ROWS, row) if row == self.choice.at => return self.take(desk),
            Command::Pick(ROWS, row) => self.choice.at = row.min(self.rows.len()),
            Command::Left if !typed => self.turn(false, desk),
            Command::Right if !typed => self.turn(true, desk),
            Command::Type(c) if typed => {
                if let Some(row) = self.rows.get_mut(self.choice.at) {
                    row.typed(c);
                }
                self.refilled(desk);
            }
            Command::Erase if typed => {
                if let Some(row) = self.rows.get_mut(self.choice.at) {
                    row.erase();
                }
                self.refilled(desk);
            }
            Command::Erase => {
                if let Some(row) = self.rows.get_mut(self.choice.at) {
                    row.chosen = None;
                }
                self.refilled(desk);
            }
            // Typing on a row of answers seeks among them.
            Command::Type(c) if self.row().is_some_and(Row::can_be_sought) => {
                let mut field = Field::default();
                if c != ' ' && !self.row().is_some_and(Row::takes_several) {
                    field.typed(c);
                }
                self.picking = Some((field, Choice::default()));
            }
            _ => {}
        }
        Turn::Stay
    }

    fn would_drop(&self) -> bool {
        let rows = self.rows.iter().map(Row::given);
        !rows.eq(self.begun.iter().cloned())
    }

    fn closes_first(&self) -> bool {
        self.picking.is_some()
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        self.draw_rows(frame, area, desk);
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.words.part("deeds-title", self.what.word())
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let several = self.row().is_some_and(Row::takes_several);
        if self.picking.is_some() && several {
            let take = match self.row().map(|row| row.asked.source) {
                Some(Source::SomeOf(_)) => "deeds-key-take-some",
                _ => "deeds-key-leave-out",
            };
            let mut hints = vec![desk.hint(Key::Enter, take)];
            if self.row().is_some_and(|row| row.options.len() > 1) {
                hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
            }
            hints.push(desk.hint(Key::Esc, "deeds-key-done"));
            return hints;
        }
        if let Some((sought, _)) = &self.picking {
            let found = self.found(&sought.text, &desk.words).len();
            let mut hints = Vec::new();
            if found > 0 {
                hints.push(desk.hint(Key::Enter, "deeds-key-take"));
            }
            if found > 1 {
                hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
            }
            hints.push(desk.hint(Key::Esc, "screens-key-back"));
            return hints;
        }
        let take = match self.row() {
            None => "deeds-key-show",
            Some(row) if row.is_typed() => "deeds-key-next",
            Some(row) if matches!(row.asked.source, Source::Evidence) => "deeds-key-pieces",
            Some(_) => "deeds-key-list",
        };
        let mut hints = vec![desk.hint(Key::Enter, take)];
        if !several && self.row().is_some_and(|row| row.options.len() > 1) {
            hints.push(desk.hint(Key::LeftRight, "deeds-key-other"));
        }
        hints.push(desk.hint(Key::UpDown, "deeds-key-field"));
        hints.push(desk.hint(Key::Esc, "deeds-key-leave"));
        hints
    }

    fn about(&self) -> &'static str {
        "deeds-form-about"
    }

    fn is_typing(&self) -> bool {
        self.picking.is_some()
            || self
                .row()
                .is_some_and(|row| row.is_typed() || row.can_be_sought())
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let signed = desk.office().and_then(|(house, _)| house.take_signed());
        if signed.is_some() {
            return Turn::Close;
        }
        Turn::Stay
    }
}
