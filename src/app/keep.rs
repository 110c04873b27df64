//! Where a run is kept while it is under way: one journal per run, one line per action.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use super::fault::{Fault, Happened};
use super::rehearse::{StartProblem, journal_head, read_run};
use super::{Journal, Kept, System};
use crate::rehearsal::action::Action;
use crate::rehearsal::run::Run;
use crate::units::PersonCode;

/// The folder of runs inside the folder for data.
const RUNS: &str = "rehearsals";

/// How many runs of one second get names of their own.
const NAMES_MOST: u32 = 100;

/// The form of the stamp that names begin with.
const STAMP: &str = "20261125-150459";

/// Whose runs are kept where. Runs that were begun by somebody who is signed in are gone on with by nobody else.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Drawer<'a> {
    /// The folder for data, if not the system's.
    pub data: Option<&'a Path>,
    /// Who practises; nobody where it is without a record.
    pub person: Option<PersonCode>,
}

impl Drawer<'_> {
    fn folder<S: System>(self, system: &S) -> Result<PathBuf, Fault> {
        let runs = system.data_folder(self.data)?.join(RUNS);
        let own = match self.person {
            Some(person) => runs.join(person.to_string()),
            None => runs,
        };
        system.data_folder(Some(&own))
    }
}

/// A journal, or none when the run is not kept.
pub struct Keeper<S: System> {
    journal: Option<S::Journal>,
    path: Option<PathBuf>,
}

/// Why a run is not kept or cannot be taken up.
#[derive(Clone, Debug)]
pub enum KeepProblem {
    /// The machine refused a folder or a file.
    Machine(Fault),
    /// The head of the run cannot be written down.
    Unwritable(String),
    /// So many runs began in the same second that no name is left.
    NoNameLeft,
    /// A kept run is damaged or of a newer format.
    Damaged(PathBuf, StartProblem),
}

impl From<Fault> for KeepProblem {
    fn from(fault: Fault) -> KeepProblem {
        KeepProblem::Machine(fault)
    }
}

/// A run that broke off and can be taken up.
pub struct BrokenOff<S: System> {
    /// Keeps what comes next.
    pub keeper: Keeper<S>,
    /// The run as far as it went.
    pub run: Run,
    /// Whether its last line had been cut off while it was written.
    pub torn: bool,
    /// Why a later run was passed over, if one was.
    pub passed_over: Option<KeepProblem>,
}

impl<S: System> Keeper<S> {
    /// Keeps nothing.
    #[must_use]
    pub fn nothing() -> Keeper<S> {
        Keeper {
            journal: None,
            path: None,
        }
    }

    /// Where the run is kept, if it is.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Starts the journal of a run.
    ///
    /// # Errors
    /// When the folder or the file is refused.
    pub fn start(system: &S, drawer: Drawer<'_>, run: &Run) -> Result<Keeper<S>, KeepProblem> {
        let folder = drawer.folder(system)?;
        let head = journal_head(run).map_err(KeepProblem::Unwritable)?;
        for number in 0..NAMES_MOST {
            let name = format!(
                "{}-{}-{}-{number:02}.run",
                system.stamp(),
                run.module,
                run.seed.0
            );
            let path = folder.join(name);
            let (mut journal, kept) = match system.open_journal(&path) {
                Ok(opened) => opened,
                // Another run of the same second has the name.
                Err(fault) if fault.happened == Happened::InUse => continue,
                Err(fault) => return Err(fault.into()),
            };
            if !kept.lines.is_empty() {
                continue;
            }
            journal.append(&head)?;
            return Ok(Keeper {
                journal: Some(journal),
                path: Some(path),
            });
        }
        Err(KeepProblem::NoNameLeft)
    }

    /// Takes up the latest run of a module that has not been ended; one in which nothing was done only when there is no other.
    /// `None` when there is none.
    ///
    /// # Errors
    /// When the folder or the file is refused.
    pub fn latest(
        system: &S,
        drawer: Drawer<'_>,
        module: &str,
    ) -> Result<Option<BrokenOff<S>>, KeepProblem> {
        // Why a later run was passed over; told when there is no earlier one.
        let mut passed: Option<KeepProblem> = None;
        let mut untouched: Option<PathBuf> = None;
        for path in kept_runs(system, drawer, module)? {
            match Keeper::opened(system, path, module) {
                Ok(Some(found)) if has_ended(&found.run) => {}
                Ok(Some(found)) if found.run.actions.is_empty() => {
                    untouched = untouched.or(found.keeper.path);
                }
                Ok(Some(found)) => {
                    return Ok(Some(BrokenOff {
                        passed_over: passed,
                        ..found
                    }));
                }
                Ok(None) => {}
                Err(problem) => {
                    passed.get_or_insert(problem);
                }
            }
        }
        let untouched = untouched.map_or(Ok(None), |path| Keeper::opened(system, path, module))?;
        match (untouched, passed) {
            (Some(found), passed_over) => Ok(Some(BrokenOff {
                passed_over,
                ..found
            })),
            (None, Some(problem)) => Err(problem),
            (None, None) => Ok(None),
        }
    }

    /// Takes up one run. `None` when the file holds none of this module.
    ///
    /// # Errors
    /// When the file is refused or damaged.
    pub fn take_up(
        system: &S,
        path: &Path,
        module: &str,
    ) -> Result<Option<BrokenOff<S>>, KeepProblem> {
        Keeper::opened(system, path.to_owned(), module)
    }

    fn opened(
        system: &S,
        path: PathBuf,
        module: &str,
    ) -> Result<Option<BrokenOff<S>>, KeepProblem> {
        let (journal, Kept { lines, torn }) = system.open_journal(&path)?;
        // What was cut off before its first line was kept holds no action of anybody.
        if lines.is_empty() {
            return Ok(None);
        }
        let run = match read_run(&lines.join("\n")) {
            Ok(run) => run,
            Err(problem) => return Err(KeepProblem::Damaged(path, problem)),
        };
        Ok((run.module == module).then_some(BrokenOff {
            keeper: Keeper {
                journal: Some(journal),
                path: Some(path),
            },
            run,
            torn,
            passed_over: None,
        }))
    }
}

/// A run that waits to be gone on with.
#[derive(Clone, Debug)]
pub struct Waiting {
    /// Where it is kept.
    pub path: PathBuf,
    /// When it was begun, by the wall clock: `2026-11-25 15:04`; empty when its name does not tell.
    pub begun: String,
    /// The run as far as it went; at least one action.
    pub run: Run,
    /// Whether its last line had been cut off while it was written. Looking at it has mended that.
    pub torn: bool,
}

/// What is kept of the runs of a module.
#[derive(Clone, Debug, Default)]
pub struct Survey {
    /// Those that wait to be gone on with, the latest first.
    pub waiting: Vec<Waiting>,
    /// The one that was ended last.
    pub ended: Option<Run>,
    /// Why others cannot be read.
    pub refused: Vec<KeepProblem>,
}

/// Looks at everything that is kept of a module's runs.
///
/// # Errors
/// When the folder is refused.
pub fn survey<S: System>(
    system: &S,
    drawer: Drawer<'_>,
    module: &str,
) -> Result<Survey, KeepProblem> {
    let mut survey = Survey::default();
    for path in kept_runs(system, drawer, module)? {
        match Keeper::take_up(system, &path, module) {
            Ok(Some(found)) if has_ended(&found.run) => {
                survey.ended.get_or_insert(found.run);
            }
            Ok(Some(found)) if !found.run.actions.is_empty() => survey.waiting.push(Waiting {
                begun: begun(&path),
                path,
                run: found.run,
                torn: found.torn,
            }),
            Ok(_) => {}
            Err(problem) => survey.refused.push(problem),
        }
    }
    Ok(survey)
}

/// The stamp that the name of a run begins with, as a date and a time.
fn begun(path: &Path) -> String {
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    let stamp = name.get(..STAMP.len()).unwrap_or_default();
    chrono::NaiveDateTime::parse_from_str(stamp, "%Y%m%d-%H%M%S")
        .map(|at| at.format("%Y-%m-%d %H:%M").to_string())
        .unwrap_or_default()
}

/// The files of the runs of a module, the latest first.
fn kept_runs<S: System>(
    system: &S,
    drawer: Drawer<'_>,
    module: &str,
) -> Result<Vec<PathBuf>, KeepProblem> {
    let folder = drawer.folder(system)?;
    let mut found = system.files_in(&folder)?;
    let name = format!("-{module}-");
    // Below it are the runs of people who were signed in.
    found.retain(|file| file.parent() == Some(&folder));
    found.retain(|file| {
        let of_module = |stem: &OsStr| stem.to_string_lossy().contains(&name);
        file.extension().is_some_and(|end| end == "run") && file.file_stem().is_some_and(of_module)
    });
    found.reverse();
    Ok(found)
}

fn has_ended(run: &Run) -> bool {
    let mut actions = run.actions.iter();
    actions.any(|action| matches!(action, Action::Finish | Action::Abandon))
}

impl<S: System> Journal for Keeper<S> {
    type Failure = Fault;

    fn append(&mut self, line: &str) -> Result<(), Fault> {
        match &mut self.journal {
            Some(journal) => journal.append(line),
            None => Ok(()),
        }
    }
}
