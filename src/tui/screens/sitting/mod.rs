//! A rehearsal under way: the bench with everything that can be done at it, what is asked on the way, and what comes of it.

mod draw;
mod draw_over;
mod draw_sheet;
mod keys;
mod moves;
mod on_over;
mod on_sheet;
mod over;
mod sheet;
mod timing;

use std::collections::BTreeMap;
use std::sync::Arc;

use super::debriefing::Debriefing;
use super::not_started;
use super::reading::Reading;
use crate::app::System;
use crate::app::complain;
use crate::app::keep::Keeper;
use crate::app::rehearse::{ActProblem, Session};
use crate::rehearsal::action::{Action, Help};
use crate::report::problems::{self, Told};
use crate::report::{Guidance, Running};
use crate::syllabus::module::{Never, ProtectionKind};
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame};
use crate::tui::list::{Choice, Scroll};
use crate::tui::rows;
use crate::tui::screen::{Desk, Hint, Leaving, Notice, Screen, Turn};
use crate::units::Millis;
use moves::{Doable, Group, groups};
use over::{Answer, Over};
use sheet::{Question, Sheet};
use timing::Timing;

/// A rehearsal under way.
pub struct Sitting<S: System> {
    session: Session,
    keeper: Keeper<S>,
    groups: Vec<Group>,
    /// The group whose moves are shown.
    group: usize,
    /// The move that Enter would make.
    choice: Choice,
    /// What came of the last move.
    just: Vec<String>,
    /// What a guide says now, if one speaks.
    guidance: Option<Guidance>,
    /// How far the right-hand text has been scrolled.
    scroll: Scroll,
    sheet: Option<Sheet>,
    /// How each step was answered the last time, so that the tenth tooth need not be asked about like the first.
    answered: BTreeMap<usize, Vec<usize>>,
    over: Over,
}

impl<S> Sitting<S>
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    /// Begins, or goes on with a run that was taken up; `torn` when its last line had been cut off.
    #[must_use]
    pub fn new(session: Session, keeper: Keeper<S>, torn: bool, desk: &Desk<S>) -> Sitting<S> {
        let mut just = Vec::new();
        let actions = session.run().actions.len();
        if actions > 0 {
            just.push(desk.say("rehearsal-resumed", &[("count", actions.into())]));
        } else {
            just.push(desk.say("screens-sitting-begin", &[]));
        }
        if torn {
            just.push(desk.say("screens-sitting-torn", &[]));
        }
        let mut sitting = Sitting {
            groups: groups(session.rehearsal(), &desk.words),
            session,
            keeper,
            group: 0,
            choice: Choice::NONE,
            just,
            guidance: None,
            scroll: Scroll::default(),
            sheet: None,
            answered: BTreeMap::new(),
            over: Over::Nothing,
        };
        sitting.look_ahead(desk);
        if let Some(ask) = sitting.ask_disturbance(desk) {
            sitting.over = Over::Ask(ask);
        }
        sitting
    }

    /// Adds something that has to be read before the first move.
    pub fn add(&mut self, texts: Vec<String>) {
        self.just.extend(texts);
    }

    fn help(&self) -> Help {
        self.session.run().help
    }

    /// After something has changed: what can be done now, and what a guide says to it.
    fn look_ahead(&mut self, desk: &Desk<S>) {
        self.groups = groups(self.session.rehearsal(), &desk.words);
        self.scroll = Scroll::default();
        self.guidance = None;
        if self.help() == Help::Guided {
            self.say_guide(desk);
        }
        let rows = self.groups.get(self.group).map_or(0, |one| one.moves.len());
        if self.choice.is_made() {
            self.choice.at = self.choice.at.min(rows.saturating_sub(1));
        }
    }

    fn say_guide(&mut self, desk: &Desk<S>) {
        let running = Running::on_screen(self.session.rehearsal(), &desk.words);
        let guidance = running.guidance();
        let suggested = guidance.suggested.as_ref();
        // What the guide names is what Enter takes; what it says to put on first is chosen before.
        let missing = suggested.and_then(|one| running.missing_item(one.step, *one.tasks.first()?));
        let waits = guidance.wait.is_some();
        let wanted = match (missing, suggested) {
            (Some(item), _) => Doable::On(item),
            (None, Some(_)) if waits => Doable::Wait,
            (None, Some(one)) => Doable::Step(one.step),
            (None, None) => Doable::Finish,
        };
        self.guidance = Some(guidance);
        let groups = self.groups.iter().enumerate();
        let mut all = groups.flat_map(|(group, one)| {
            let moves = one.moves.iter().enumerate();
            moves.map(move |(row, (what, _))| (group, row, *what))
        });
        if let Some((group, row, _)) = all.find(|(_, _, what)| *what == wanted) {
            self.group = group;
            self.choice.at = row;
        }
    }

    /// Does actions one after another and tells what came of them. Stops at one that was refused or held back.
    fn act(&mut self, actions: Vec<Action>, desk: &Desk<S>) -> Turn<S> {
        let before = self.session.rehearsal().readings();
        let first = self.session.rehearsal().trace().len();
        let mut turn = Turn::Stay;
        let mut held_back = false;
        for action in actions {
            match self.session.act(action, &mut self.keeper) {
                Ok(acted) if acted.held_back => {
                    held_back = true;
                    break;
                }
                Ok(_) => {}
                Err(ActProblem::Nonsense(nonsense)) => {
                    turn = Turn::Tell(told(problems::nonsense(&nonsense, &desk.words)));
                    break;
                }
                Err(ActProblem::Journal(fault)) => {
                    let mut texts = complain::machine(&fault, &desk.words);
                    texts.push(desk.say("screens-sitting-no-longer-kept", &[]));
                    self.keeper = Keeper::nothing();
                    turn = Turn::Tell(Notice::new(texts));
                    break;
                }
                Err(ActProblem::Unwritable(why)) => {
                    let why = [("why", why.into())];
                    turn = Turn::Tell(Notice::new(vec![desk.say("screens-not-kept", &why)]));
                    break;
                }
            }
        }
        let rehearsal = self.session.rehearsal();
        let running = Running::on_screen(rehearsal, &desk.words);
        let last = rehearsal.trace().len();
        self.just = running.events(first..last, self.help() != Help::Unaided);
        self.just.extend(running.seen(Some(&before)));
        if held_back {
            self.just.push(running.held_back());
        }
        self.sheet = None;
        self.over = Over::Nothing;
        if rehearsal.is_over() {
            return self.debrief(desk);
        }
        self.look_ahead(desk);
        if last > first
            && let Some(ask) = self.ask_disturbance(desk)
        {
            self.over = Over::Ask(ask);
        }
        turn
    }

    fn debrief(&mut self, desk: &Desk<S>) -> Turn<S> {
        match Debriefing::new(&self.session, self.keeper.path().is_some(), desk) {
            Ok(debriefing) => Turn::Replace(Box::new(debriefing)),
            Err(problem) => Turn::Tell(told(problems::replay_problem(&problem, &desk.words))),
        }
    }

    /// Begins what the chosen row stands for.
    fn take(&mut self, desk: &Desk<S>) -> Turn<S> {
        let group = self.groups.get(self.group);
        let Some(&(what, _)) = group.and_then(|one| one.moves.get(self.choice.at)) else {
            return Turn::Stay;
        };
        let module = self.session.rehearsal().module();
        let item = |item: usize| module.protection_items[item].id.value.clone();
        let worn = |item: usize| module.protection_items[item].kind == ProtectionKind::Worn;
        match what {
            Doable::Step(step) => self.open(step, desk),
            Doable::Act(rule) => {
                let Some(Never::Act(act)) = module.never.get(rule) else {
                    return Turn::Stay;
                };
                let what = act.id.value.clone();
                self.act(vec![untimed(what)], desk)
            }
            Doable::On(one) if worn(one) => {
                let item = item(one);
                self.act(vec![Action::Wear { item }], desk)
            }
            Doable::On(one) => {
                let item = item(one);
                self.act(vec![Action::Start { item }], desk)
            }
            Doable::Off(one) if worn(one) => {
                let item = item(one);
                self.act(vec![Action::TakeOff { item }], desk)
            }
            Doable::Off(one) => {
                let item = item(one);
                self.act(vec![Action::Stop { item }], desk)
            }
            Doable::Look => {
                self.over = Over::Look(Scroll::default());
                Turn::Stay
            }
            Doable::Wait => {
                // What the guide waits for is chosen already; else nobody waits for anything by pressing Enter.
                let sought = self.guidance.as_ref().and_then(|one| one.wait.as_ref());
                let running = Running::on_screen(self.session.rehearsal(), &desk.words);
                let signs = running.waits();
                let mut signs = signs.iter();
                let row = sought.and_then(|sought| signs.position(|(sign, _)| sign == sought));
                let choice = row.map_or(Choice::NONE, |at| Choice { at });
                self.over = Over::Wait(Field::default(), choice, None);
                Turn::Stay
            }
            Doable::Finish => {
                self.over = Over::Ask(self.ask_end(Answer::HandOver, desk));
                Turn::Stay
            }
            Doable::Abandon => {
                self.over = Over::Ask(self.ask_end(Answer::GiveUp, desk));
                Turn::Stay
            }
        }
    }

    /// Begins a step: what comes up before it comes up now; then it is asked for where, how and how long.
    fn open(&mut self, step: usize, desk: &Desk<S>) -> Turn<S> {
        let rehearsal = self.session.rehearsal();
        let suggested = self
            .guidance
            .as_ref()
            .and_then(|one| one.suggested.as_ref());
        let suggested = suggested.filter(|one| one.step == step);
        let suggested = suggested.map_or(&[][..], |one| &one.tasks);
        let id = &rehearsal.module().steps[step].id.value;
        match Sheet::open(rehearsal, step, suggested) {
            Some(_) if rehearsal.is_held_back(id) => {
                // Any move of the step is held back, so how it would have been done does not matter.
                let at = if rehearsal.plan().tasks_of_step[step].len() > 1 {
                    "all"
                } else {
                    ""
                };
                let timed = rehearsal.module().steps[step].keeping.is_some();
                let action = Action::Do {
                    what: id.clone(),
                    at: at.to_owned(),
                    ways: Vec::new(),
                    timed: timed.then_some(Millis::ZERO),
                };
                self.act(vec![action], desk)
            }
            Some(sheet) => {
                self.sheet = Some(sheet);
                Turn::Stay
            }
            None => {
                let what = id.clone();
                self.act(vec![untimed(what)], desk)
            }
        }
    }

    fn on_bench(&mut self, command: Command, desk: &Desk<S>) -> Turn<S> {
        let rows = self.groups.get(self.group).map_or(0, |one| one.moves.len());
        match command {
            Command::Up | Command::Down | Command::First | Command::Last => {
                self.choice.moved(command, rows, rows);
            }
            Command::PageUp | Command::PageDown => {
                let area = self.text_area(desk);
                let lines = self.text(area, desk).len();
                self.scroll.moved(command, lines, area.tall);
            }
            Command::Left | Command::Right => {
                let count = self.groups.len();
                let step = if command == Command::Right {
                    1
                } else {
                    count - 1
                };
                self.group = (self.group + step) % count;
                self.choice = Choice::NONE;
            }
            Command::Take => return self.take(desk),
            Command::Pick(1, group) if group < self.groups.len() => {
                self.group = group;
                self.choice = Choice::NONE;
            }
            Command::Pick(2, row) if row < rows => {
                if self.choice.at == row {
                    return self.take(desk);
                }
                self.choice.at = row;
            }
            Command::Type('/') => self.over = Over::Find(Field::default(), Choice::default()),
            Command::Type('!') => {
                if let Some(ask) = self.ask_disturbance(desk) {
                    self.over = Over::Ask(ask);
                }
            }
            Command::Type(' ') => match self.help() {
                Help::Guided => {}
                Help::Prompted if self.guidance.is_none() => self.say_guide(desk),
                Help::Prompted => self.guidance = None,
                Help::Unaided => {
                    return Turn::Tell(Notice::new(vec![desk.say("rehearsal-no-help", &[])]));
                }
            },
            Command::Type(letter) => {
                if letter.is_ascii_uppercase()
                    && let Some(group) = rows::of_letter(letter.to_ascii_lowercase())
                    && group < self.groups.len()
                {
                    self.group = group;
                    self.choice = Choice::NONE;
                } else if let Some(row) = rows::of_letter(letter)
                    && row < rows
                {
                    self.choice.at = row;
                    return self.take(desk);
                }
            }
            Command::Next => return self.read(desk),
            Command::Back => self.over = Over::Ask(self.ask_leave(desk)),
            _ => {}
        }
        Turn::Stay
    }

    /// Opens the page of the step that is chosen.
    fn read(&self, desk: &Desk<S>) -> Turn<S> {
        if self.help() == Help::Unaided {
            return Turn::Tell(Notice::new(vec![desk.say("rehearsal-no-help", &[])]));
        }
        let group = self.groups.get(self.group);
        let Some(&(Doable::Step(step), _)) = group.and_then(|one| one.moves.get(self.choice.at))
        else {
            return Turn::Tell(Notice::new(vec![desk.say("screens-sitting-no-page", &[])]));
        };
        let id = self.session.rehearsal().module().steps[step]
            .id
            .value
            .clone();
        let module = Arc::new(self.session.taken().clone());
        match Reading::new(&module, &self.session.run().card, &desk.words) {
            Ok(reading) => Turn::Open(Box::new(reading.at_step(&id))),
            Err(problem) => Turn::Tell(not_started(&problem, &desk.words)),
        }
    }
}

/// A move that is done once and is not timed.
fn untimed(what: String) -> Action {
    Action::Do {
        what,
        at: String::new(),
        ways: Vec::new(),
        timed: None,
    }
}

fn told(told: Told) -> Notice {
    Notice::new(std::iter::once(told.what).chain(told.fix).collect())
}

impl<S> Screen<S> for Sitting<S>
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        match std::mem::replace(&mut self.over, Over::Nothing) {
            Over::Nothing if self.sheet.is_some() => self.on_sheet(command, desk),
            Over::Nothing => self.on_bench(command, desk),
            Over::Ask(ask) => self.on_ask(ask, command, desk),
            Over::Wait(field, choice, _) => self.on_wait(field, choice, command, desk),
            Over::Find(field, choice) => self.on_find(field, choice, command),
            Over::Look(mut scroll) => {
                let area = self.box_area(desk.body(), desk).within(2, 1);
                if scroll.moved(command, self.look_lines(area.wide, desk).len(), area.tall) {
                    self.over = Over::Look(scroll);
                }
                Turn::Stay
            }
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        self.draw_bench(frame, area, desk);
        self.draw_over(frame, area, desk);
    }

    fn title(&self, desk: &Desk<S>) -> String {
        self.bar(desk)
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        self.keys(desk)
    }

    fn about(&self) -> &'static str {
        "screens-sitting-about"
    }

    fn leaving(&self) -> Leaving {
        if self.session.run().actions.is_empty() {
            return Leaving::Fine;
        }
        match self.keeper.path() {
            Some(path) => Leaving::Kept(path.to_owned()),
            None => Leaving::Lost,
        }
    }

    fn is_typing(&self) -> bool {
        let timer = self
            .sheet
            .as_ref()
            .is_some_and(|sheet| matches!(sheet.question, Question::Time(Timing::Timer { .. })));
        match &self.over {
            Over::Nothing => timer,
            Over::Wait(..) | Over::Find(..) => true,
            Over::Ask(_) | Over::Look(_) => false,
        }
    }

    fn is_live(&self) -> bool {
        let timing = self.sheet.as_ref().map(|sheet| &sheet.question);
        matches!(timing, Some(Question::Time(timing)) if timing.is_live())
    }
}
