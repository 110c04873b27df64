//! Watching real cases: those that are not signed yet, and another one.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

use crate::app::System;
use crate::app::laboratory::edition_of;
use crate::app::rehearse::StartProblem;
use crate::app::shelf::ShelfProblem;
use crate::app::watching::open_runs;
use crate::app::watching::problems::watch_problem;
use crate::record::scope::{Edition, Id, Scope};
use crate::report::record::{Telling, standing_told, time};
use crate::standing::{Reading, Standing, View};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::rows::{self, Look};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::tui::screens::watching::Watching;
use crate::tui::screens::watching::begin::{Begin, Candidate};
use crate::tui::screens::{Module, not_started};
use crate::units::PersonCode;

/// The cases that somebody watches.
pub struct BenchRuns {
    observer: PersonCode,
    /// Who comes first where another case is watched, and at what.
    first: Option<(PersonCode, Option<Id>)>,
    open: Vec<(PathBuf, String)>,
    refused: Vec<String>,
    choice: Choice,
}

impl BenchRuns {
    /// Goes to the list where something waits, else to another case at once: of this person at this workflow, where one is meant.
    pub fn open<S: System>(first: Option<(PersonCode, Option<Id>)>, desk: &mut Desk<S>) -> Turn<S> {
        let Some(observer) = desk.person() else {
            let text = desk.say("office-signing-nobody", &[]);
            return Turn::Tell(Notice::new(vec![text]));
        };
        let mut runs = BenchRuns {
            observer,
            first,
            open: Vec::new(),
            refused: Vec::new(),
            choice: Choice::default(),
        };
        desk.lay_own_modules();
        runs.look(desk);
        if runs.open.is_empty() && runs.refused.is_empty() {
            return another(observer, runs.first.as_ref(), desk);
        }
        Turn::Open(Box::new(runs))
    }

    fn look<S: System>(&mut self, desk: &mut Desk<S>) {
        let found = open_runs(&desk.system, desk.data.as_deref());
        let Some((house, words)) = desk.office() else {
            return;
        };
        match found {
            Ok(found) => {
                let own = found.runs.into_iter();
                let own = own.filter(|one| one.run.head().observer == self.observer);
                self.open = own
                    .map(|one| {
                        let head = one.run.head();
                        let values = [
                            (
                                "person",
                                house
                                    .told(words, |telling| telling.person(head.person))
                                    .into(),
                            ),
                            ("workflow", head.scope.workflow.to_string().into()),
                            ("case", head.case.to_string().into()),
                            ("at", time(head.started).into()),
                            ("taps", one.run.marks().len().into()),
                        ];
                        (one.path, words.say("office-runs-one", &values))
                    })
                    .collect();
                let refused = found.refused.iter();
                self.refused = refused.flat_map(|one| watch_problem(one, words)).collect();
            }
            Err(problem) => self.refused = watch_problem(&problem, words),
        }
    }
}

/// How many cases somebody watches that are not signed yet.
pub(super) fn how_many<S: System>(observer: PersonCode, desk: &Desk<S>) -> usize {
    let found = open_runs(&desk.system, desk.data.as_deref());
    let runs = found.map_or_else(|_| Vec::new(), |found| found.runs);
    runs.iter()
        .filter(|one| one.run.head().observer == observer)
        .count()
}

/// Somebody assigned to something, before it is known whether its text is on the shelf.
struct Wanted {
    person: PersonCode,
    shown: String,
    scope: Scope,
    held: Option<Edition>,
    careful: Vec<String>,
}

/// Asks for another case, of anybody else who is assigned to a workflow on the shelf.
fn another<S: System>(
    observer: PersonCode,
    first: Option<&(PersonCode, Option<Id>)>,
    desk: &mut Desk<S>,
) -> Turn<S> {
    let Some((house, words)) = desk.office() else {
        return Turn::Stay;
    };
    let now = house.laboratory.now().instant();
    let view = house.laboratory.view(now, Reading::AsNowKnown);
    let mut wanted: Vec<Wanted> = Vec::new();
    for person in house.laboratory.people().filter(|one| *one != observer) {
        let shown = house.told(words, |telling| telling.person(person));
        let scopes = view.scopes(person, None).into_iter();
        wanted.extend(scopes.map(|scope| Wanted {
            person,
            shown: shown.clone(),
            held: view.edition(&scope.workflow),
            careful: house.told(words, |telling| careful(view, person, &scope, telling)),
            scope,
        }));
    }
    wanted.sort_by(|one, other| (&one.shown, &one.scope).cmp(&(&other.shown, &other.scope)));
    let mut taken: BTreeMap<(String, String), Option<Module>> = BTreeMap::new();
    let mut refused: BTreeMap<String, ShelfProblem> = BTreeMap::new();
    let candidates = wanted.into_iter().filter_map(|wanted| {
        let workflow = wanted.scope.workflow.to_string();
        let key = (workflow, wanted.scope.profile.to_string());
        let module = taken.entry(key.clone()).or_insert_with(|| {
            let module = desk.shelf.take(&key.0, Some(&key.1));
            let module = module.map_err(|problem| {
                let values = [
                    ("workflow", key.0.as_str().into()),
                    ("profile", key.1.as_str().into()),
                ];
                refused.insert(desk.words.say("office-runs-refused", &values), problem)
            });
            module.ok().map(Arc::new)
        });
        let module = module.clone()?;
        let differs = |held: &Edition| edition_of(&module).is_ok_and(|own| own != *held);
        let held = wanted.held.filter(differs);
        Some(Candidate {
            person: wanted.person,
            shown: wanted.shown,
            careful: wanted.careful,
            scope: wanted.scope,
            module,
            held: held.map(|held| held.revision),
        })
    });
    let candidates: Vec<Candidate> = candidates.collect();
    if candidates.is_empty() {
        let why = if refused.is_empty() {
            "office-runs-nobody"
        } else {
            "office-runs-no-text"
        };
        let mut texts = vec![desk.say(why, &[])];
        let refused = refused.into_values().map(StartProblem::Shelf);
        texts.extend(refused.flat_map(|problem| not_started(&problem, &desk.words).texts));
        return Turn::Tell(Notice::new(texts));
    }
    let missing = refused.into_keys().collect();
    let meant = |one: &Candidate| first.is_some_and(|(person, _)| *person == one.person);
    let at_that = |one: &Candidate| {
        meant(one)
            && first.is_some_and(|(_, at)| at.as_ref().is_some_and(|at| *at == one.scope.workflow))
    };
    let first = candidates.iter().position(at_that);
    let first = first.or_else(|| candidates.iter().position(meant));
    let first = first.unwrap_or(0);
    Turn::Open(Box::new(Begin::new(observer, candidates, missing, first)))
}

/// Where somebody stands, where that says that it has to be looked whether the work is allowed at all.
fn careful(
    view: View<'_>,
    person: PersonCode,
    scope: &Scope,
    telling: &Telling<'_>,
) -> Vec<String> {
    let standing = view.standing(person, scope);
    let ways = match &standing {
        Ok(
            Standing::UnderSupervision { .. }
            | Standing::ReadyForSignOff
            | Standing::SignedOff(_)
            | Standing::Due(..),
        ) => return Vec::new(),
        Ok(Standing::Suspended { .. }) => {
            &["watching-begin-allowed", "watching-begin-reinstating"][..]
        }
        _ => &["watching-begin-allowed"][..],
    };
    let shown = standing.as_ref().ok();
    let ground = shown.and_then(|standing| view.ground(person, scope, standing));
    let mut told = vec![standing_told(&standing, ground.as_ref(), None, telling)];
    told.extend(ways.iter().map(|id| telling.words.say(id, &[])));
    told
}

impl<S: System> Screen<S> for BenchRuns {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let rows = self.open.len() + 1;
        if self.choice.moved(command, rows, desk.body().tall / 2) {
            return Turn::Stay;
        }
        match command {
            Command::Back => Turn::Close,
            Command::Pick(0, row) if row != self.choice.at => {
                self.choice.at = row.min(rows - 1);
                Turn::Stay
            }
            Command::Take | Command::Pick(0, _) => match self.open.get(self.choice.at) {
                Some((path, _)) => {
                    let path = path.clone();
                    Watching::take_up(&path, desk)
                }
                None => another(self.observer, self.first.as_ref(), desk),
            },
            _ => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let mut head = prose::wrapped(
            Role::Faint,
            &desk.say("office-runs-question", &[]),
            inside.wide,
        );
        for text in &self.refused {
            head.extend(prose::wrapped(Role::Strong, text, inside.wide));
        }
        let (top, list) = inside.split_rows(head.len() + 1);
        prose::draw(frame, top, &head, Scroll::default());
        let open = self.open.iter().map(|(_, shown)| shown.clone());
        let rows: Vec<String> = open.chain([desk.say("office-runs-another", &[])]).collect();
        rows::draw(frame, list, &rows, self.choice.at, Look::of(0, false));
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("office-runs-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Enter, "office-runs-take"),
            desk.hint(Key::UpDown, "screens-key-choose"),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "office-runs-about"
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.look(desk);
        if self.open.is_empty() && self.refused.is_empty() {
            return Turn::Close;
        }
        self.choice.at = self.choice.at.min(self.open.len());
        Turn::Stay
    }
}
