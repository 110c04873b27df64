//! The first screen: which workflow to practise, and how.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::debriefing::Debriefing;
use super::reading::Reading;
use super::setup::Setup;
use super::{Module, not_kept, not_started};
use crate::app::System;
use crate::app::keep::{self, Keeper};
use crate::app::rehearse::{Session, StartProblem};
use crate::app::shelf::Shelf;
use crate::rehearsal::run::Run;
use crate::syllabus::case::CaseCard;
use crate::text::{Caution, Words};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::tui::screens::sitting::Sitting;

/// A workflow on the list.
enum Workflow {
    /// It can be practised.
    Sound {
        module: Module,
        /// The run that broke off last, if any.
        broken_off: Option<Run>,
        /// Whether there is a run that was ended, so that its debrief can be read again.
        ended: bool,
    },
    /// Its file cannot be read; holds its id and why.
    Unsound(String, StartProblem),
}

/// The first screen.
pub struct Start {
    workflows: Vec<Workflow>,
    choice: Choice,
    /// How far what is told about the chosen workflow has been scrolled.
    scroll: Scroll,
    /// The runs whose last line had been cut off. Looking at a run mends its file, so it is told from here when it is gone on with.
    torn: Vec<PathBuf>,
}

impl Start {
    /// All workflows on the shelf, those that others require first.
    #[must_use]
    pub fn new<S: System>(desk: &Desk<S>) -> Start {
        let mut workflows: Vec<Workflow> = Vec::new();
        for id in in_order(&desk.shelf) {
            workflows.push(match desk.shelf.take(&id, None) {
                Ok(taken) => Workflow::Sound {
                    module: Arc::new(taken),
                    broken_off: None,
                    ended: false,
                },
                Err(problem) => Workflow::Unsound(id, StartProblem::Shelf(problem)),
            });
        }
        let mut start = Start {
            workflows,
            choice: Choice::default(),
            scroll: Scroll::default(),
            torn: Vec::new(),
        };
        start.look_for_broken_off(desk);
        start
    }

    fn look_for_broken_off<S: System>(&mut self, desk: &Desk<S>) {
        for workflow in &mut self.workflows {
            if let Workflow::Sound {
                module,
                broken_off,
                ended,
            } = workflow
            {
                let id = &module.module.identity.id.value;
                // What cannot be looked at is told when somebody asks to go on.
                let found = Keeper::latest(&desk.system, desk.data.as_deref(), id);
                let found = found.ok().flatten();
                let torn = found.iter().filter(|found| found.torn);
                self.torn
                    .extend(torn.filter_map(|found| found.keeper.path().map(Path::to_owned)));
                *broken_off = found.map(|found| found.run);
                let last = keep::latest_ended(&desk.system, desk.data.as_deref(), id);
                *ended = last.is_ok_and(|last| last.is_some());
            }
        }
    }

    fn chosen(&self) -> Option<&Workflow> {
        self.workflows.get(self.choice.at)
    }

    fn title_of(&self, id: &str) -> String {
        let mut all = self.workflows.iter();
        let found = all.find_map(|one| match one {
            Workflow::Sound { module, .. } if module.module.identity.id.value == id => {
                Some(module.module.identity.title.clone())
            }
            _ => None,
        });
        found.unwrap_or_else(|| id.to_owned())
    }

    /// Takes up the run that broke off last.
    fn go_on<S>(module: &Module, torn: &mut Vec<PathBuf>, desk: &Desk<S>) -> Turn<S>
    where
        S: System + Send + Sync + 'static,
        S::Journal: Send + Sync,
    {
        let id = &module.module.identity.id.value;
        let found = match Keeper::latest(&desk.system, desk.data.as_deref(), id) {
            Ok(Some(found)) => found,
            Ok(None) => {
                return Turn::Tell(Notice::new(vec![
                    desk.say("screens-nothing-broken-off", &[]),
                ]));
            }
            Err(problem) => return Turn::Tell(not_kept(&problem, &desk.words)),
        };
        match Session::resume(&desk.shelf, found.run) {
            Ok(session) => {
                let untold = found.keeper.path().and_then(|path| {
                    let at = torn.iter().position(|one| one == path)?;
                    Some(torn.swap_remove(at))
                });
                let is_torn = found.torn || untold.is_some();
                let mut sitting = Sitting::new(session, found.keeper, is_torn, desk);
                if let Some(problem) = &found.passed_over {
                    sitting.add(not_kept(problem, &desk.words).texts);
                    sitting.add(vec![desk.say("rehearsal-passed-over", &[])]);
                }
                Turn::Open(Box::new(sitting))
            }
            Err(problem) => Turn::Tell(not_started(&problem, &desk.words)),
        }
    }

    /// Opens the debrief of the run that was ended last.
    fn last_debrief<S>(module: &Module, desk: &Desk<S>) -> Turn<S>
    where
        S: System + Send + Sync + 'static,
        S::Journal: Send + Sync,
    {
        let id = &module.module.identity.id.value;
        let run = match keep::latest_ended(&desk.system, desk.data.as_deref(), id) {
            Ok(Some(run)) => run,
            Ok(None) => {
                let none = desk.say("screens-start-no-debrief", &[]);
                return Turn::Tell(Notice::new(vec![none]));
            }
            Err(problem) => return Turn::Tell(not_kept(&problem, &desk.words)),
        };
        let session = match Session::resume(&desk.shelf, run) {
            Ok(session) => session,
            Err(problem) => return Turn::Tell(not_started(&problem, &desk.words)),
        };
        match Debriefing::new(&session, true, desk) {
            Ok(debriefing) => Turn::Open(Box::new(debriefing)),
            Err(problem) => {
                let problem = StartProblem::Replay(problem);
                Turn::Tell(not_started(&problem, &desk.words))
            }
        }
    }

    fn details<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let words = &desk.words;
        match self.chosen() {
            None => prose::wrapped(Role::Plain, &desk.say("screens-start-none", &[]), wide),
            Some(Workflow::Unsound(_, problem)) => {
                let texts = not_started(problem, words).texts;
                let lines = texts
                    .iter()
                    .flat_map(|text| prose::wrapped(Role::Plain, text, wide));
                lines.collect()
            }
            Some(Workflow::Sound {
                module, broken_off, ..
            }) => self.about(module, broken_off.as_ref(), wide, words),
        }
    }

    fn about(
        &self,
        taken: &Module,
        broken_off: Option<&Run>,
        wide: usize,
        words: &Words,
    ) -> Vec<Line> {
        let module = &taken.module;
        let mut lines = prose::wrapped(Role::Strong, &module.identity.title, wide);
        let mut add = |role: Role, text: &str| {
            lines.push(Line::new(Role::Plain, ""));
            lines.extend(prose::wrapped(role, text, wide));
        };
        if let Some(run) = broken_off {
            let count = ("count", run.actions.len().into());
            add(
                Role::Strong,
                &words.say("screens-start-broken-off", &[count]),
            );
        }
        add(Role::Plain, &module.identity.about);
        if !module.requires.is_empty() {
            let titles = module.requires.iter().map(|one| self.title_of(&one.value));
            let titles: Vec<String> = titles.collect();
            add(
                Role::Strong,
                &words.say("screens-start-requires", &[("modules", titles.into())]),
            );
        }
        let card = CaseCard::picked(module, |_| 0);
        if let Ok(on) = taken.prepare(&card) {
            let least = on.plan.totals().least;
            let values = [("steps", module.steps.len().into()), ("time", least.into())];
            add(Role::Plain, &words.say("screens-start-size", &values));
        }
        lines
    }
}

/// Where the parts of the first screen are drawn.
struct Parts {
    question: Area,
    rows: Area,
    details: Area,
    caution: Area,
}

/// How wide the list of workflows is.
fn list_width(area: Area) -> usize {
    (area.wide * 2 / 5).min(48)
}

/// What comes before anything that is practised here. It stands below, whatever is told above.
fn caution<S: System>(wide: usize, desk: &Desk<S>) -> Vec<Line> {
    let text = format!("! {}", Caution::OthersComeFirst.say(&desk.words));
    prose::wrapped(Role::Caution, &text, wide)
}

impl Start {
    fn question<S: System>(&self, area: Area, desk: &Desk<S>) -> Vec<Line> {
        let wide = list_width(area).saturating_sub(2);
        prose::wrapped(Role::Faint, &desk.say("screens-start-question", &[]), wide)
    }

    fn parts<S: System>(&self, area: Area, desk: &Desk<S>) -> Parts {
        let (list, right) = area.split_columns(list_width(area));
        let (_, list) = list.split_rows(1);
        let (question, rest) = list.split_rows(self.question(area, desk).len());
        let inside = right.within(2, 1);
        let rows = caution(inside.wide, desk).len();
        let (details, below) = inside.split_rows(inside.tall.saturating_sub(rows + 1));
        Parts {
            question: Area {
                x: question.x + 1,
                wide: question.wide.saturating_sub(2),
                ..question
            },
            rows: rest.split_rows(1).1,
            details,
            caution: below.split_rows(1).1,
        }
    }

    /// Whether more is told about the chosen workflow than is seen at once.
    fn goes_on<S: System>(&self, desk: &Desk<S>) -> bool {
        let area = self.parts(desk.body(), desk).details;
        area.tall < self.details(area.wide.saturating_sub(2), desk).len()
    }
}

/// The ids of all workflows: what others require stands before them, else by name.
fn in_order(shelf: &Shelf) -> Vec<String> {
    let ids = shelf.modules();
    let requires: Vec<Vec<String>> = ids
        .iter()
        .map(|id| {
            let taken = shelf.take(id, None);
            let requires = taken.map(|taken| taken.module.requires).unwrap_or_default();
            requires.into_iter().map(|one| one.value).collect()
        })
        .collect();
    let mut ordered: Vec<usize> = Vec::new();
    while ordered.len() < ids.len() {
        let left = || (0..ids.len()).filter(|one| !ordered.contains(one));
        let is_free = |one: &usize| {
            let mut missing = left().filter(|other| requires[*one].contains(&ids[*other]));
            missing.next().is_none()
        };
        // Modules that require each other in a circle stay in the order of their names.
        let next = left().find(is_free).or_else(|| left().next());
        ordered.extend(next);
    }
    ordered.into_iter().map(|one| ids[one].clone()).collect()
}

impl<S> Screen<S> for Start
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if matches!(command, Command::PageUp | Command::PageDown) {
            let area = self.parts(desk.body(), desk).details;
            let lines = self.details(area.wide.saturating_sub(2), desk).len();
            self.scroll.moved(command, lines, area.tall);
            return Turn::Stay;
        }
        if self
            .choice
            .moved(command, self.workflows.len(), desk.body().tall)
        {
            self.scroll = Scroll::default();
            return Turn::Stay;
        }
        if let Command::Pick(0, row) = command {
            if self.choice.at != row {
                self.scroll = Scroll::default();
                self.choice.at = row.min(self.workflows.len().saturating_sub(1));
                return Turn::Stay;
            }
        } else if matches!(command, Command::Back | Command::Type('q')) {
            return Turn::Leave;
        }
        let Some(Workflow::Sound { module, .. }) = self.workflows.get(self.choice.at) else {
            return Turn::Stay;
        };
        match command {
            Command::Take | Command::Pick(..) => {
                Turn::Open(Box::new(Setup::new(Arc::clone(module))))
            }
            Command::Type('r') => {
                let card = CaseCard::picked(&module.module, |_| 0);
                match Reading::new(module, &card, &desk.words) {
                    Ok(reading) => Turn::Open(Box::new(reading)),
                    Err(problem) => Turn::Tell(not_started(&problem, &desk.words)),
                }
            }
            Command::Type('c') => Start::go_on(module, &mut self.torn, desk),
            Command::Type('d') => Start::last_debrief(module, desk),
            _ => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let parts = self.parts(area, desk);
        let rows = parts.rows;
        prose::draw(
            frame,
            parts.question,
            &self.question(area, desk),
            Scroll::default(),
        );
        let top = self.choice.top(self.workflows.len(), rows.tall);
        for (row, workflow) in self.workflows.iter().enumerate().skip(top).take(rows.tall) {
            let title = match workflow {
                Workflow::Sound { module, .. } => module.module.identity.title.as_str(),
                Workflow::Unsound(id, _) => id.as_str(),
            };
            let chosen = row == self.choice.at;
            let mark = if chosen { frame.pick('▸', '>') } else { ' ' };
            let role = if chosen { Role::Chosen } else { Role::Plain };
            let (line, _) = rows.split_rows(row - top + 1);
            let line = Area {
                y: rows.y + row - top,
                tall: 1,
                wide: rows.wide - 1,
                ..line
            };
            frame.put_row(line, 0, role, &format!("{mark} {title}"));
            frame.hot(line, Command::Pick(0, row));
        }
        let (_, right) = area.split_columns(list_width(area));
        frame.rule_down(right, 0);
        let details = self.details(parts.details.wide.saturating_sub(2), desk);
        prose::draw(frame, parts.details, &details, self.scroll);
        prose::draw(
            frame,
            parts.caution,
            &caution(parts.caution.wide, desk),
            Scroll::default(),
        );
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("screens-start-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = vec![
            desk.hint(Key::Enter, "screens-start-take"),
            desk.hint(Key::Letter('r'), "screens-start-read"),
        ];
        if let Some(Workflow::Sound {
            broken_off, ended, ..
        }) = self.chosen()
        {
            let letter = |letter: char, id: &str| desk.hint(Key::Letter(letter), id);
            if broken_off.is_some() {
                hints.insert(1, letter('c', "screens-start-go-on"));
            }
            if *ended {
                hints.push(letter('d', "screens-start-debrief"));
            }
        }
        hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
        if self.goes_on(desk) {
            hints.push(desk.hint(Key::Page, "screens-key-scroll"));
        }
        hints.push(desk.hint(Key::Letter('q'), "screens-key-quit"));
        hints
    }

    fn about(&self) -> &'static str {
        "screens-start-about"
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) {
        self.look_for_broken_off(desk);
    }
}
