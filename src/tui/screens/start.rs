//! The first screen: which workflow to practise, and how.

use std::sync::Arc;

use super::debriefing::Debriefing;
use super::reading::Reading;
use super::setup::{Setup, Under};
use super::{Module, not_kept, not_started};
use crate::app::System;
use crate::app::keep::{self, Survey};
use crate::app::rehearse::{Session, StartProblem};
use crate::app::shelf::{ShelfProblem, Taken};
use crate::syllabus::case::CaseCard;
use crate::text::{Caution, Words};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::tui::screens::waiting::{WaitingRuns, taken_up};
use crate::units::Millis;

/// A workflow on the list.
enum Workflow {
    /// It can be practised.
    Sound {
        module: Module,
        /// The least time that it takes at the bench, for the first value of each choice; none when it gives no plan.
        least: Option<Millis>,
        /// What is kept of its runs.
        kept: Survey,
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
    /// Whether it was opened over another screen, to which one goes back.
    is_over: bool,
}

impl Start {
    /// All workflows on the shelf, those that others require first.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> Start {
        desk.lay_own_modules();
        let taken = desk.shelf.modules().into_iter().map(|id| {
            let taken = desk.shelf.take(&id, None);
            (id, taken)
        });
        let workflows = in_order(taken.collect()).into_iter();
        let workflows = workflows.map(|(id, taken)| match taken {
            Ok(taken) => Workflow::Sound {
                least: least(&taken),
                module: Arc::new(taken),
                kept: Survey::default(),
            },
            Err(problem) => Workflow::Unsound(id, StartProblem::Shelf(problem)),
        });
        let mut start = Start {
            workflows: workflows.collect(),
            choice: Choice::default(),
            scroll: Scroll::default(),
            is_over: false,
        };
        start.look_at_kept(desk);
        start
    }

    fn look_at_kept<S: System>(&mut self, desk: &Desk<S>) {
        for workflow in &mut self.workflows {
            if let Workflow::Sound { module, kept, .. } = workflow {
                let id = &module.module.identity.id.value;
                let mut found =
                    keep::survey(&desk.system, desk.drawer(), id).unwrap_or_else(|problem| {
                        Survey {
                            refused: vec![problem],
                            ..Survey::default()
                        }
                    });
                // Looking at a run mends its file, so that it was torn is remembered until it is gone on with.
                for one in &mut found.waiting {
                    let mut before = kept.waiting.iter();
                    one.torn |= before.any(|other| other.path == one.path && other.torn);
                }
                *kept = found;
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

    /// Goes on with the one run that waits, or asks which of several.
    fn go_on<S>(module: &Module, kept: &Survey, desk: &Desk<S>) -> Turn<S>
    where
        S: System + Send + Sync + 'static,
        S::Journal: Send + Sync,
    {
        match (kept.waiting.as_slice(), kept.refused.as_slice()) {
            ([], []) => {
                let none = desk.say("screens-nothing-broken-off", &[]);
                Turn::Tell(Notice::new(vec![none]))
            }
            ([], [problem, ..]) => Turn::Tell(not_kept(problem, &desk.words)),
            ([only], []) => match taken_up(only, desk) {
                Ok(sitting) => Turn::Open(Box::new(sitting)),
                Err(notice) => Turn::Tell(notice),
            },
            _ => Turn::Open(Box::new(WaitingRuns::new(module, kept))),
        }
    }

    /// Opens the debrief of the run that was ended last.
    fn last_debrief<S>(kept: &Survey, desk: &Desk<S>) -> Turn<S>
    where
        S: System + Send + Sync + 'static,
        S::Journal: Send + Sync,
    {
        let Some(run) = kept.ended.clone() else {
            let none = desk.say("screens-start-no-debrief", &[]);
            return Turn::Tell(Notice::new(vec![none]));
        };
        let debriefing = Session::resume(&desk.shelf, run).and_then(|session| {
            Debriefing::new(&session, true, desk).map_err(StartProblem::Replay)
        });
        match debriefing {
            Ok(debriefing) => Turn::Open(Box::new(debriefing)),
            Err(problem) => Turn::Tell(not_started(&problem, &desk.words)),
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
                module,
                least,
                kept,
            }) => self.about(module, *least, kept, wide, words),
        }
    }

    fn about(
        &self,
        taken: &Module,
        least: Option<Millis>,
        kept: &Survey,
        wide: usize,
        words: &Words,
    ) -> Vec<Line> {
        let module = &taken.module;
        let mut lines = prose::wrapped(Role::Strong, &module.identity.title, wide);
        let mut add = |role: Role, text: &str| {
            lines.push(Line::new(Role::Plain, ""));
            lines.extend(prose::wrapped(role, text, wide));
        };
        if let Some(latest) = kept.waiting.first() {
            let values = [
                ("count", kept.waiting.len().into()),
                ("actions", latest.run.actions.len().into()),
            ];
            add(Role::Strong, &words.say("screens-start-waiting", &values));
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
        if let Some(least) = least {
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

/// The least time that a workflow takes at the bench.
fn least(taken: &Taken) -> Option<Millis> {
    let card = CaseCard::picked(&taken.module, |_| 0);
    Some(taken.prepare(&card).ok()?.plan.totals().least)
}

/// A module by its id, or why it cannot be taken.
type OnShelf = (String, Result<Taken, ShelfProblem>);

/// The workflows in the order in which they are learned: what others require stands before them, else by name.
fn in_order(mut left: Vec<OnShelf>) -> Vec<OnShelf> {
    let mut ordered = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let is_free = |(_, taken): &OnShelf| {
            let requires = taken
                .as_ref()
                .map_or(&[][..], |taken| &taken.module.requires);
            let mut missing = left
                .iter()
                .filter(|(id, _)| requires.iter().any(|one| one.value == *id));
            missing.next().is_none()
        };
        // Modules that require each other in a circle stay in the order of their names.
        let next = left.iter().position(is_free).unwrap_or(0);
        ordered.push(left.remove(next));
    }
    ordered
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
            // Where nothing is under it, that is the end.
            return Turn::Close;
        }
        let Some(Workflow::Sound { module, kept, .. }) = self.workflows.get(self.choice.at) else {
            return Turn::Stay;
        };
        match command {
            Command::Take | Command::Pick(..) => {
                Turn::Open(Box::new(Setup::new(Arc::clone(module), desk)))
            }
            Command::Type('r') => {
                let card = CaseCard::picked(&module.module, |_| 0);
                // It is read as whoever is signed in works by it.
                let under = Under::each(module, desk).into_iter().next();
                let taken = under.map_or_else(|| Ok(Arc::clone(module)), |under| under.taken);
                let reading = taken
                    .map_err(StartProblem::Shelf)
                    .and_then(|module| Reading::new(&module, &card, &desk.words));
                match reading {
                    Ok(reading) => Turn::Open(Box::new(reading)),
                    Err(problem) => Turn::Tell(not_started(&problem, &desk.words)),
                }
            }
            Command::Type('c') => Start::go_on(module, kept, desk),
            Command::Type('d') => Start::last_debrief(kept, desk),
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
        // What somebody who is signed in practises is written down.
        let id = match desk.person() {
            Some(_) => "screens-start-title-signed-in",
            None => "screens-start-title",
        };
        desk.say(id, &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = vec![
            desk.hint(Key::Enter, "screens-start-take"),
            desk.hint(Key::Letter('r'), "screens-start-read"),
        ];
        if let Some(Workflow::Sound { kept, .. }) = self.chosen() {
            let letter = |letter: char, id: &str| desk.hint(Key::Letter(letter), id);
            if !kept.waiting.is_empty() || !kept.refused.is_empty() {
                hints.insert(1, letter('c', "screens-start-go-on"));
            }
            if kept.ended.is_some() {
                hints.push(letter('d', "screens-start-debrief"));
            }
        }
        if self.goes_on(desk) {
            hints.push(desk.hint(Key::Page, "screens-key-scroll"));
        }
        hints.push(if self.is_over {
            desk.hint(Key::Esc, "screens-key-back")
        } else {
            desk.hint(Key::Letter('q'), "screens-key-quit")
        });
        hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
        hints
    }

    fn about(&self) -> &'static str {
        "screens-start-about"
    }

    fn comes_up(&mut self, _desk: &mut Desk<S>) {
        self.is_over = true;
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.look_at_kept(desk);
        Turn::Stay
    }
}
