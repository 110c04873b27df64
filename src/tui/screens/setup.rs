//! Before a rehearsal: how much help, by whose numbers, which case, whether things come in between, and whether the run is kept.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::reading::Reading;
use super::sitting::Sitting;
use super::{Module, not_kept, not_started};
use crate::app::System;
use crate::app::keep::Keeper;
use crate::app::rehearse::{Disturbances, Request, Session, StartProblem};
use crate::app::shelf::{DEFAULT_PROFILE, ShelfProblem};
use crate::rehearsal::action::Help;
use crate::rng::Seed;
use crate::standing::Reading as AsOf;
use crate::syllabus::case::{CaseCard, values_of};
use crate::text::display_safe;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};

/// One row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Row {
    /// How much help.
    Help,
    /// The process profile, where there are several.
    Profile,
    /// A choice of the case card, by index.
    Case(usize),
    /// Whether things come in between.
    Disturbances,
    /// Whether the run is kept on the disk.
    Kept,
    /// The number that the case is drawn from.
    Seed,
}

/// The screen before a rehearsal.
pub struct Setup {
    /// The module under each profile that covers it, the one to begin with first; empty where there is nothing to choose.
    under: Vec<Under>,
    /// Which of them is chosen.
    profile: usize,
    /// The module as it can be taken. Its choices are the same under every profile.
    module: Module,
    rows: Vec<Row>,
    choice: Choice,
    help: Help,
    /// For each choice of the case card: drawn, or a value by its number.
    case: Vec<Option<usize>>,
    disturbed: bool,
    kept: bool,
    seed: Field,
}

/// A module under a profile.
pub(super) struct Under {
    /// The name of the profile.
    profile: String,
    /// The module with its numbers, or why it cannot be taken so.
    pub(super) taken: Result<Module, ShelfProblem>,
}

impl Under {
    /// A module under each profile that covers it: the one that whoever is signed in is assigned under comes first, else the shipped one. Empty where there is only one.
    pub(super) fn each<S: System>(module: &Module, desk: &mut Desk<S>) -> Vec<Under> {
        desk.lay_own_modules();
        let id = &module.module.identity.id.value;
        let mut names = own_profiles(id, desk);
        names.extend(desk.shelf.covering(id));
        let mut seen = BTreeSet::new();
        names.retain(|name| seen.insert(name.clone()));
        if names.len() < 2 {
            return Vec::new();
        }
        let under = names.into_iter().map(|profile| Under {
            taken: desk.shelf.take(id, Some(&profile)).map(Arc::new),
            profile,
        });
        under.collect()
    }

    fn shown<S: System>(&self, desk: &Desk<S>) -> String {
        let values = [("profile", self.profile.as_str().into())];
        match &self.taken {
            Ok(_) => self.profile.clone(),
            Err(ShelfProblem::NoSuchProfile { .. }) => {
                desk.say("screens-setup-profile-missing", &values)
            }
            Err(_) => desk.say("screens-setup-profile-faulty", &values),
        }
    }
}

/// The profiles other than the shipped one under which whoever is signed in is assigned to a workflow.
fn own_profiles<S: System>(workflow: &str, desk: &mut Desk<S>) -> Vec<String> {
    let (Some(person), Ok(workflow)) = (desk.person(), workflow.parse()) else {
        return Vec::new();
    };
    let Some((house, _)) = desk.office() else {
        return Vec::new();
    };
    let now = house.laboratory.now().instant();
    let view = house.laboratory.view(now, AsOf::AsNowKnown);
    let scopes = view.scopes(person, Some(&workflow)).into_iter();
    let names = scopes.map(|scope| scope.profile.to_string());
    names.filter(|name| name != DEFAULT_PROFILE).collect()
}

/// The levels of help, the one to begin with first.
const LEVELS: [Help; 3] = [Help::Guided, Help::Prompted, Help::Unaided];

impl Setup {
    /// With help for beginners, and everything else drawn.
    #[must_use]
    pub fn new<S: System>(module: Module, desk: &mut Desk<S>) -> Setup {
        let under = Under::each(&module, desk);
        let choices = module.module.case.len();
        let mut rows = vec![Row::Help];
        if !under.is_empty() {
            rows.push(Row::Profile);
        }
        rows.extend((0..choices).map(Row::Case));
        rows.extend([Row::Disturbances, Row::Kept, Row::Seed]);
        Setup {
            under,
            profile: 0,
            rows,
            choice: Choice::default(),
            help: Help::Guided,
            case: vec![None; choices],
            disturbed: true,
            kept: true,
            seed: Field::default(),
            module,
        }
    }

    /// Whether nothing has been changed since it was opened.
    fn is_untouched(&self) -> bool {
        let case = self.case.iter().all(Option::is_none);
        let rest = self.profile == 0 && self.disturbed && self.kept && self.seed.text.is_empty();
        self.help == Help::Guided && case && rest
    }

    fn row(&self) -> Row {
        self.rows.get(self.choice.at).copied().unwrap_or(Row::Help)
    }

    /// Takes the next value of the chosen row, or the one before.
    fn turn(&mut self, forward: bool) {
        let step = |at: usize, count: usize| {
            let move_by = if forward { 1 } else { count - 1 };
            (at + move_by) % count
        };
        match self.row() {
            Row::Help => {
                let at = LEVELS.iter().position(|one| *one == self.help).unwrap_or(0);
                self.help = LEVELS[step(at, LEVELS.len())];
            }
            Row::Profile => self.profile = step(self.profile, self.under.len()),
            Row::Case(choice) => {
                let values = values_of(&self.module.module.case[choice].range);
                let at = self.case[choice].map_or(0, |at| at + 1);
                self.case[choice] = step(at, values + 1).checked_sub(1);
            }
            Row::Disturbances => self.disturbed = !self.disturbed,
            Row::Kept => self.kept = !self.kept,
            Row::Seed => {}
        }
    }

    /// The value that a choice of the case card has been set to.
    fn value(&self, choice: usize) -> Option<String> {
        let at = self.case[choice]?;
        let mut number = 0;
        let card = CaseCard::picked(&self.module.module, |_| {
            let picked = if number == choice { at } else { 0 };
            number += 1;
            picked
        });
        let id = &self.module.module.case[choice].id.value;
        card.get(id).map(ToString::to_string)
    }

    /// What has been set, as it is typed.
    fn typed(&self) -> String {
        let choices = (0..self.case.len()).filter_map(|choice| {
            let id = &self.module.module.case[choice].id.value;
            Some(format!("{id}={}", self.value(choice)?))
        });
        choices.collect::<Vec<String>>().join(",")
    }

    fn shown<S: System>(&self, row: Row, desk: &Desk<S>) -> (String, String) {
        let say = |id: &str| desk.say(id, &[]);
        match row {
            Row::Help => (
                say("screens-setup-help"),
                match self.help {
                    Help::Guided => say("screens-setup-guided"),
                    Help::Prompted => say("screens-setup-prompted"),
                    Help::Unaided => say("screens-setup-unaided"),
                },
            ),
            Row::Profile => (
                say("screens-setup-profile"),
                self.under
                    .get(self.profile)
                    .map_or_else(String::new, |under| under.shown(desk)),
            ),
            Row::Case(choice) => (
                display_safe(&self.module.module.case[choice].title),
                self.value(choice)
                    .unwrap_or_else(|| say("screens-setup-drawn")),
            ),
            Row::Disturbances => (
                say("screens-setup-disturbances"),
                say(if self.disturbed {
                    "screens-setup-disturbed"
                } else {
                    "screens-setup-undisturbed"
                }),
            ),
            Row::Kept => (
                say("screens-setup-kept"),
                say(if self.kept {
                    "screens-yes"
                } else {
                    "screens-no"
                }),
            ),
            Row::Seed => (
                say("screens-setup-seed"),
                if self.row() == Row::Seed {
                    self.seed.shown()
                } else if self.seed.text.is_empty() {
                    say("screens-setup-drawn")
                } else {
                    self.seed.text.clone()
                },
            ),
        }
    }

    fn explained(&self) -> &'static str {
        match (self.row(), self.help) {
            (Row::Help, Help::Guided) => "screens-setup-about-guided",
            (Row::Help, Help::Prompted) => "screens-setup-about-prompted",
            (Row::Help, Help::Unaided) => "screens-setup-about-unaided",
            (Row::Profile, _) => "screens-setup-about-profile",
            (Row::Case(_), _) => "screens-setup-about-case",
            (Row::Disturbances, _) if self.disturbed => "screens-setup-about-disturbances",
            (Row::Disturbances, _) => "screens-setup-about-undisturbed",
            (Row::Kept, _) if self.kept => "screens-setup-about-kept",
            (Row::Kept, _) => "screens-setup-about-unkept",
            (Row::Seed, _) => "screens-setup-about-seed",
        }
    }

    /// The module under the chosen profile.
    fn chosen(&self) -> Result<Module, StartProblem> {
        match self.under.get(self.profile) {
            Some(under) => under.taken.clone().map_err(StartProblem::Shelf),
            None => Ok(Arc::clone(&self.module)),
        }
    }

    /// Why the rehearsal cannot count for whoever is signed in, if it cannot: the record counts what was done unaided, and knows only what was kept.
    fn not_counted<S: System>(&self, desk: &Desk<S>) -> Option<&'static str> {
        desk.person()?;
        if !self.kept {
            Some("screens-setup-unkept-counts-not")
        } else if self.help != Help::Unaided {
            Some("screens-setup-helped-counts-not")
        } else {
            None
        }
    }

    fn begin<S>(&self, desk: &Desk<S>) -> Turn<S>
    where
        S: System + Send + Sync + 'static,
        S::Journal: Send + Sync,
    {
        let module = match self.chosen() {
            Ok(module) => module,
            Err(problem) => return Turn::Tell(not_started(&problem, &desk.words)),
        };
        let seed = self.seed.text.parse::<u32>().map(Seed);
        let id = &module.module.identity.id.value;
        let case = self.typed();
        let request = Request {
            module: id,
            profile: Some(&module.profile),
            case: &case,
            seed: seed.unwrap_or_else(|_| desk.system.fresh_seed()),
            help: self.help,
            disturbances: if self.disturbed {
                Disturbances::Drawn
            } else {
                Disturbances::None
            },
        };
        let session = match Session::on((*module).clone(), &request) {
            Ok(session) => session,
            Err(problem) => return Turn::Tell(not_started(&problem, &desk.words)),
        };
        let keeper = if self.kept {
            match Keeper::start(&desk.system, desk.drawer(), session.run()) {
                Ok(keeper) => keeper,
                Err(problem) => {
                    let mut notice = not_kept(&problem, &desk.words);
                    notice.texts.push(desk.say("screens-setup-without", &[]));
                    return Turn::Tell(notice);
                }
            }
        } else {
            Keeper::nothing()
        };
        Turn::Replace(Box::new(Sitting::new(session, keeper, false, desk)))
    }
}

impl<S> Screen<S> for Setup
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if self.choice.moved(command, self.rows.len(), self.rows.len()) {
            return Turn::Stay;
        }
        match command {
            Command::Left => self.turn(false),
            Command::Right | Command::Type(' ') => self.turn(true),
            Command::Type(digit) if digit.is_ascii_digit() && self.row() == Row::Seed => {
                self.seed.typed(digit);
                // A number that is too great is no seed.
                if self.seed.text.parse::<u32>().is_err() {
                    self.seed.erase();
                }
            }
            Command::Erase if self.row() == Row::Seed => self.seed.erase(),
            Command::Pick(0, row) => {
                if self.choice.at == row {
                    self.turn(true);
                } else {
                    self.choice.at = row.min(self.rows.len() - 1);
                }
            }
            Command::Take => return self.begin(desk),
            Command::Type('r') => {
                let first = CaseCard::picked(&self.module.module, |_| 0);
                let card = CaseCard::parse_over(&self.typed(), &self.module.module, first);
                let reading = card
                    .map_err(StartProblem::Case)
                    .and_then(|card| Reading::new(&self.chosen()?, &card, &desk.words));
                return match reading {
                    Ok(reading) => Turn::Open(Box::new(reading)),
                    Err(problem) => Turn::Tell(not_started(&problem, &desk.words)),
                };
            }
            Command::Back => return Turn::Close,
            _ => {}
        }
        Turn::Stay
    }

    fn would_drop(&self) -> bool {
        !self.is_untouched()
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let question = desk.say("screens-setup-question", &[]);
        let question = prose::wrapped(Role::Faint, &question, inside.wide);
        let (head, rows) = inside.split_rows(question.len() + 1);
        prose::draw(frame, head, &question, Scroll::default());
        let column = rows.wide.min(78) / 2 - 6;
        for (number, row) in self.rows.iter().enumerate() {
            let (name, value) = self.shown(*row, desk);
            let chosen = number == self.choice.at;
            let line = Area {
                y: rows.y + number,
                tall: rows.tall.saturating_sub(number).min(1),
                ..rows
            };
            let (left, right) = line.split_columns(column);
            let role = if chosen { Role::Chosen } else { Role::Plain };
            let mark = if chosen { frame.pick('▸', '>') } else { ' ' };
            frame.put_row(left, 0, role, &format!("{mark} {name}"));
            let text = if chosen && *row != Row::Seed {
                format!("{} {value} {}", frame.pick('◂', '<'), frame.pick('▸', '>'))
            } else {
                format!("  {value}")
            };
            frame.put(
                right,
                0,
                1,
                if chosen { Role::Strong } else { Role::Plain },
                &text,
            );
            frame.hot(line, Command::Pick(0, number));
        }
        let (_, below) = rows.split_rows(self.rows.len() + 1);
        let mut lines = prose::wrapped(Role::Plain, &desk.say(self.explained(), &[]), below.wide);
        if let (Row::Profile, Err(problem)) = (self.row(), self.chosen()) {
            let texts = not_started(&problem, &desk.words).texts;
            lines = texts
                .iter()
                .flat_map(|text| prose::wrapped(Role::Caution, text, below.wide))
                .collect();
        }
        if let Some(message) = self.not_counted(desk) {
            lines.push(prose::Line::new(Role::Plain, ""));
            let text = desk.say(message, &[]);
            lines.extend(prose::wrapped(Role::Strong, &text, below.wide));
        }
        prose::draw(frame, below, &lines, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        let title = self.module.module.identity.title.as_str();
        desk.say("screens-setup-title", &[("module", title.into())])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Enter, "screens-setup-begin"),
            desk.hint(Key::LeftRight, "screens-setup-change"),
            desk.hint(Key::UpDown, "screens-key-choose"),
            desk.hint(Key::Letter('r'), "screens-start-read"),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "screens-setup-about"
    }
}
