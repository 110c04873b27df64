//! Rehearse: one sitting over one run, from the first line to the debrief.
//!
//! Every action is kept before it is acknowledged, so that a run survives a kill. The same run on the same module gives the
//! same debrief, also after it was resumed in the middle.

use std::sync::Arc;

use super::Journal;
use super::shelf::{PrepareProblem, Shelf, ShelfProblem, Taken};
use crate::rehearsal::action::{Action, Help};
use crate::rehearsal::drive::{Acted, Nonsense, Prepared, Rehearsal, SIGN_AT_MOST, options};
use crate::rehearsal::line::{Move, Time};
use crate::rehearsal::replay::{self, ReplayProblem, Replayed};
use crate::rehearsal::run::{FORMAT, Run};
use crate::report::Debriefed;
use crate::rng::{Seed, Stream};
use crate::syllabus::case::{CaseCard, CaseProblem};
use crate::syllabus::module::Module;
use crate::syllabus::plan::{Plan, TaskKeeping};
use crate::units::Millis;

/// What is asked for when a run is started.
#[derive(Clone, Debug)]
pub struct Request<'r> {
    /// The id of the module.
    pub module: &'r str,
    /// The profile, if not the default one.
    pub profile: Option<&'r str>,
    /// Choices of the case card as typed; what is not named is drawn from the seed.
    pub case: &'r str,
    /// The seed.
    pub seed: Seed,
    /// How much help.
    pub help: Help,
    /// Which disturbances come.
    pub disturbances: Disturbances,
}

/// Which disturbances come in a run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Disturbances {
    /// As the seed draws them.
    Drawn,
    /// None.
    None,
    /// These, by id.
    Named(Vec<String>),
}

/// Why a run cannot be started or taken up again.
#[derive(Clone, Debug)]
pub enum StartProblem {
    /// The module or profile cannot be taken.
    Shelf(ShelfProblem),
    /// The case card does not fit. Holds what can be chosen.
    Case(CaseProblem),
    /// The module gives no plan or bench. Holds the files that places refer to.
    Prepare(PrepareProblem, Vec<String>),
    /// There is no such disturbance; holds those there are.
    NoSuchDisturbance {
        /// What was asked for.
        found: String,
        /// What there is.
        known: Vec<String>,
    },
    /// The saved run is no run.
    NoRun {
        /// The line it shows in, from 1.
        line: usize,
        /// Why, as the reader of its format says.
        why: String,
    },
    /// The saved run has a newer format.
    NewerFormat(u16),
    /// The module has changed since the run was saved.
    OtherModule {
        /// The revision and digest of the saved run.
        saved: (u32, String),
        /// The revision and digest on the shelf.
        shelf: (u32, String),
    },
    /// The profile that the saved run was made under is not on the shelf; holds the names there are.
    ProfileGone {
        /// The profile.
        found: String,
        /// What there is.
        known: Vec<String>,
    },
    /// The numbers of the profile have changed since the run was saved. Holds its name.
    OtherNumbers(String),
    /// The saved run does not replay.
    Replay(ReplayProblem),
}

impl StartProblem {
    /// Why what a kept run was made on cannot be taken from the shelf.
    pub(super) fn of_kept_run(problem: ShelfProblem) -> StartProblem {
        match problem {
            ShelfProblem::NoSuchProfile { found, known } => {
                StartProblem::ProfileGone { found, known }
            }
            problem => StartProblem::Shelf(problem),
        }
    }
}

/// Why a move was not made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unresolved {
    /// It makes no sense.
    Nonsense(Nonsense),
    /// The step is not kept by this sign; holds the signs it is kept by.
    NoSuchSign {
        /// What was written.
        found: String,
        /// What there is.
        known: Vec<String>,
    },
    /// The sign would not show within an hour.
    SignNeverShows,
    /// The end would come before the beginning.
    BeforeItBegins,
}

/// One sitting.
#[derive(Debug)]
pub struct Session {
    on: Arc<Prepared>,
    taken: Taken,
    rehearsal: Rehearsal,
    run: Run,
}

impl Session {
    /// Starts a run.
    ///
    /// # Errors
    /// When module, profile, case card or disturbances do not fit.
    pub fn start(shelf: &Shelf, request: &Request<'_>) -> Result<Session, StartProblem> {
        let taken = shelf
            .take(request.module, request.profile)
            .map_err(StartProblem::Shelf)?;
        Session::on(taken, request)
    }

    /// Starts a run on a module that has been taken already; the request's module and profile are not looked at.
    ///
    /// # Errors
    /// When case card or disturbances do not fit.
    pub fn on(taken: Taken, request: &Request<'_>) -> Result<Session, StartProblem> {
        let card = card(&taken.module, request.case, request.seed).map_err(StartProblem::Case)?;
        let disturbances = match &request.disturbances {
            Disturbances::None => Vec::new(),
            Disturbances::Drawn => replay::drawn(&taken.module, request.seed),
            Disturbances::Named(ids) => {
                let all = replay::disturbances(&taken.module, ids).map_err(|found| {
                    let known = taken.module.disturbances.iter();
                    StartProblem::NoSuchDisturbance {
                        found,
                        known: known.map(|one| one.id.value.clone()).collect(),
                    }
                })?;
                all.into_iter()
                    .map(|one| taken.module.disturbances[one].id.value.clone())
                    .collect()
            }
        };
        let run = Run {
            format: FORMAT,
            module: taken.module.identity.id.value.clone(),
            revision: taken.module.identity.revision,
            digest: taken.digest.clone(),
            profile: taken.profile.clone(),
            numbers: taken.numbers.clone(),
            card,
            seed: request.seed,
            help: request.help,
            disturbances,
            actions: Vec::new(),
        };
        Session::over(taken, run)
    }

    /// Takes up a saved run where it stood.
    ///
    /// # Errors
    /// When the module or the numbers of the profile have changed, or the run does not fit them.
    pub fn resume(shelf: &Shelf, run: Run) -> Result<Session, StartProblem> {
        let run = of_this_format(run)?;
        let taken = shelf.take(&run.module, Some(&run.profile));
        let taken = taken.map_err(StartProblem::of_kept_run)?;
        let on_shelf = (taken.module.identity.revision, taken.digest.clone());
        if (run.revision, run.digest.clone()) != on_shelf {
            return Err(StartProblem::OtherModule {
                saved: (run.revision, run.digest),
                shelf: on_shelf,
            });
        }
        // A run that was saved without them was made by an earlier program.
        if run.numbers.is_some() && run.numbers != taken.numbers {
            return Err(StartProblem::OtherNumbers(run.profile));
        }
        run.card.fits(&taken.module).map_err(StartProblem::Case)?;
        Session::over(taken, run)
    }

    fn over(taken: Taken, run: Run) -> Result<Session, StartProblem> {
        let on = taken
            .prepare(&run.card)
            .map_err(|problem| StartProblem::Prepare(problem, taken.files.clone()))?;
        let rehearsal = replay::resume(&on, &run).map_err(StartProblem::Replay)?;
        Ok(Session {
            on,
            taken,
            rehearsal,
            run,
        })
    }

    /// What is being run.
    #[must_use]
    pub fn prepared(&self) -> &Arc<Prepared> {
        &self.on
    }

    /// The module with everything that belongs to it.
    #[must_use]
    pub fn taken(&self) -> &Taken {
        &self.taken
    }

    /// The run as it would be saved now.
    #[must_use]
    pub fn run(&self) -> &Run {
        &self.run
    }

    /// The run in progress.
    #[must_use]
    pub fn rehearsal(&self) -> &Rehearsal {
        &self.rehearsal
    }

    /// Turns a move as typed into an action: a sign that is waited for becomes a time.
    ///
    /// # Errors
    /// When the move makes no sense or the sign does not show.
    pub fn resolve(&self, typed: &Move) -> Result<Action, Unresolved> {
        let timed = match &typed.time {
            Time::Unsaid => None,
            Time::For(time) => Some(*time),
            Time::Until { sign, plus } => Some(self.until(typed, sign, *plus)?),
        };
        Ok(Action::Do {
            what: typed.what.clone(),
            at: typed.at.clone(),
            ways: typed.ways.clone(),
            timed,
        })
    }

    /// Turns a wait for something that can be seen into a wait of known length.
    ///
    /// # Errors
    /// When nothing is called so, or it does not come within an hour.
    pub fn wait_until(&self, sign: &str, plus: Millis) -> Result<Action, Unresolved> {
        let Prepared { module, plan, .. } = &*self.on;
        let mut known = Vec::new();
        for (aspect, compiled) in plan.aspects.iter().enumerate() {
            // Only what the bench decides comes by itself.
            if compiled.gauge.is_none() || !module.aspects[aspect].seen {
                continue;
            }
            for (value, name) in compiled.values.iter().enumerate() {
                let called = format!("{}-{name}", compiled.id);
                if called == sign {
                    let shows = self.rehearsal.wait_time(aspect, value);
                    let time = shows.ok_or(Unresolved::SignNeverShows)? + plus;
                    return Ok(Action::Wait {
                        time: time.at_least_zero(),
                    });
                }
                known.push(called);
            }
        }
        Err(Unresolved::NoSuchSign {
            found: sign.to_owned(),
            known,
        })
    }

    fn until(&self, typed: &Move, sign: &str, plus: Millis) -> Result<Millis, Unresolved> {
        let Prepared { module, plan, .. } = &*self.on;
        let step = module
            .steps
            .iter()
            .position(|step| step.id.value == typed.what);
        let step =
            step.ok_or_else(|| Unresolved::Nonsense(Nonsense::NoSuchMove(typed.what.clone())))?;
        let tasks = self
            .rehearsal
            .select(step, &typed.at)
            .map_err(Unresolved::Nonsense)?;
        let chosen = options(&module.steps[step], &typed.ways).map_err(Unresolved::Nonsense)?;
        let Some(&task) = tasks.first() else {
            return Err(Unresolved::Nonsense(Nonsense::NoSuchMove(
                typed.what.clone(),
            )));
        };
        let known = signs(plan, plan.tasks[task].keeping.as_ref());
        if known.is_empty() {
            return Err(Unresolved::Nonsense(Nonsense::NotTimed));
        }
        if sign != "sign" && !known.iter().any(|one| one == sign) {
            return Err(Unresolved::NoSuchSign {
                found: sign.to_owned(),
                known,
            });
        }
        let shows = self
            .rehearsal
            .sign_time(task, &chosen)
            .ok_or(Unresolved::SignNeverShows)?;
        let time = shows + plus;
        if time < Millis::ZERO {
            return Err(Unresolved::BeforeItBegins);
        }
        Ok(time.min(SIGN_AT_MOST + plus))
    }

    /// Does an action and keeps it. When this returns, the action survives a kill.
    ///
    /// # Errors
    /// When the action makes no sense (nothing has changed), or when it could not be kept.
    pub fn act<J: Journal>(
        &mut self,
        action: Action,
        journal: &mut J,
    ) -> Result<Acted, ActProblem<J::Failure>> {
        let acted = self.rehearsal.act(&action).map_err(ActProblem::Nonsense)?;
        if action == Action::Look {
            // Looking changes nothing, so there is nothing to keep.
            return Ok(acted);
        }
        let line = serde_json::to_string(&action)
            .map_err(|why| ActProblem::Unwritable(why.to_string()))?;
        self.run.actions.push(action);
        journal.append(&line).map_err(ActProblem::Journal)?;
        Ok(acted)
    }

    /// Ends the sitting: trace, outcome and grade. A run that was not handed over counts as abandoned.
    ///
    /// # Errors
    /// When the run does not replay, which would be a fault of the program: it has just been run.
    pub fn debrief(&self) -> Result<Replayed, ReplayProblem> {
        replay::replay(&self.on, &self.run)
    }

    /// Everything that a debrief of this run tells about.
    #[must_use]
    pub fn debriefed<'s>(&'s self, done: &'s Replayed) -> Debriefed<'s> {
        Debriefed {
            module: &self.on.module,
            plan: &self.on.plan,
            run: &self.run,
            trace: &done.trace,
            outcome: &done.outcome,
            graded: &done.graded,
            limits: self.on.model.limits(),
        }
    }
}

/// Why an action was not done or not kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ActProblem<F> {
    /// It makes no sense; nothing has changed.
    Nonsense(Nonsense),
    /// It could not be written down.
    Unwritable(String),
    /// It was done but could not be kept.
    Journal(F),
}

/// The names of the signs that a timed part is kept by: aspect and value.
fn signs(plan: &Plan, keeping: Option<&TaskKeeping>) -> Vec<String> {
    let conditions = match keeping {
        Some(TaskKeeping::Watch { sign, .. }) => std::slice::from_ref(sign),
        Some(TaskKeeping::Judge { until, .. }) => until.as_slice(),
        _ => &[],
    };
    let named = |condition: &crate::syllabus::plan::CellCondition| {
        let aspect = &plan.aspects[condition.aspect];
        let values = aspect.values.iter().enumerate();
        values
            .filter(|(value, _)| condition.allows(*value))
            .map(|(_, value)| format!("{}-{value}", aspect.id))
            .collect::<Vec<_>>()
    };
    conditions.iter().flat_map(named).collect()
}

/// The case card: what was typed, and the rest drawn from the seed.
///
/// # Errors
/// When a choice or a value does not exist.
pub fn card(module: &Module, typed: &str, seed: Seed) -> Result<CaseCard, CaseProblem> {
    let mut stream = Stream::new(seed, "case card");
    let drawn = CaseCard::picked(module, |values| {
        let last = i64::try_from(values).unwrap_or(i64::MAX) - 1;
        usize::try_from(stream.between(0, last)).unwrap_or(0)
    });
    CaseCard::parse_over(typed, module, drawn)
}

/// Writes a run as a journal: its head on the first line, then one action a line.
///
/// # Errors
/// When it cannot be written, with the reason.
pub fn journal_head(run: &Run) -> Result<String, String> {
    let head = Run {
        actions: Vec::new(),
        ..run.clone()
    };
    serde_json::to_string(&head).map_err(|why| why.to_string())
}

/// Reads a run from the lines of a journal, or from a saved run in one piece.
///
/// # Errors
/// The line that is no part of a run.
pub fn read_run(text: &str) -> Result<Run, StartProblem> {
    let in_one_piece = match serde_json::from_str::<Run>(text) {
        Ok(run) => return of_this_format(run),
        Err(why) => why,
    };
    let mut lines = text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.trim().is_empty());
    let Some((first, head)) = lines.next() else {
        return Err(StartProblem::NoRun {
            line: 1,
            why: String::new(),
        });
    };
    let run = serde_json::from_str::<Run>(head).map_err(|why| {
        // A newer format may look otherwise, but says what it is.
        let format = [head, text]
            .into_iter()
            .find_map(|text| Some(serde_json::from_str::<Marked>(text).ok()?.format));
        match format.filter(|&format| format > u64::from(FORMAT)) {
            Some(format) => StartProblem::NewerFormat(u16::try_from(format).unwrap_or(u16::MAX)),
            // A first line that is only the beginning of something belongs to a run in one piece.
            None if why.is_eof() => no_run(in_one_piece.line(), &in_one_piece),
            None => no_run(first + 1, &why),
        }
    })?;
    let mut run = of_this_format(run)?;
    for (index, line) in lines {
        let action = serde_json::from_str(line).map_err(|why| no_run(index + 1, &why))?;
        run.actions.push(action);
    }
    Ok(run)
}

/// What every format says of itself.
#[derive(serde::Deserialize)]
struct Marked {
    format: u64,
}

fn of_this_format(run: Run) -> Result<Run, StartProblem> {
    match run.format.cmp(&FORMAT) {
        std::cmp::Ordering::Greater => Err(StartProblem::NewerFormat(run.format)),
        std::cmp::Ordering::Equal => Ok(run),
        std::cmp::Ordering::Less => Err(StartProblem::NoRun {
            line: 1,
            why: format!("format {}", run.format),
        }),
    }
}

fn no_run(line: usize, why: &serde_json::Error) -> StartProblem {
    // The reader knows one line only; which of many it was stands in front already.
    let why = why.to_string();
    let end = why.rfind(" at line ").unwrap_or(why.len());
    StartProblem::NoRun {
        line,
        why: why[..end].to_owned(),
    }
}

/// The whole lines of a journal, and whether something follows them that was cut off while being written.
#[must_use]
pub fn whole_lines(text: &str) -> (&str, bool) {
    let (whole, rest) = text.split_at(text.rfind('\n').map_or(0, |end| end + 1));
    let head = whole.lines().find(|line| !line.trim().is_empty());
    let in_lines = head.is_some_and(|head| serde_json::from_str::<Run>(head).is_ok());
    let torn = !rest.trim().is_empty() && serde_json::from_str::<Action>(rest).is_err();
    if in_lines && torn {
        (whole, true)
    } else {
        (text, false)
    }
}
