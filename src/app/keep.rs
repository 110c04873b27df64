//! Where a run is kept while it is under way: one journal per run, one line per action.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use super::fault::{Fault, Happened};
use super::rehearse::{StartProblem, journal_head, read_run};
use super::{Journal, Kept, System};
use crate::rehearsal::action::Action;
use crate::rehearsal::run::Run;

/// The folder of runs inside the folder for data.
const RUNS: &str = "rehearsals";

/// How many runs of one second get names of their own.
const NAMES_MOST: u32 = 100;

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
    pub fn start(system: &S, data: Option<&Path>, run: &Run) -> Result<Keeper<S>, KeepProblem> {
        let folder = system.data_folder(Some(&system.data_folder(data)?.join(RUNS)))?;
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

    /// Takes up the latest run of a module that has not been ended. `None` when there is none.
    ///
    /// # Errors
    /// When the folder or the file is refused.
    pub fn latest(
        system: &S,
        data: Option<&Path>,
        module: &str,
    ) -> Result<Option<BrokenOff<S>>, KeepProblem> {
        let found = kept_runs(system, data, module)?;
        // Why a later run was passed over; told when there is no earlier one.
        let mut passed: Option<KeepProblem> = None;
        for path in found {
            let (journal, Kept { lines, torn }) = match system.open_journal(&path) {
                Ok(opened) => opened,
                Err(fault) => {
                    passed.get_or_insert(fault.into());
                    continue;
                }
            };
            // What was cut off before its first line was kept holds no action of anybody.
            if lines.is_empty() {
                continue;
            }
            let run = match read_run(&lines.join("\n")) {
                Ok(run) => run,
                Err(problem) => {
                    passed.get_or_insert(KeepProblem::Damaged(path, problem));
                    continue;
                }
            };
            if run.module == module && !has_ended(&run) {
                let keeper = Keeper {
                    journal: Some(journal),
                    path: Some(path),
                };
                return Ok(Some(BrokenOff {
                    keeper,
                    run,
                    torn,
                    passed_over: passed,
                }));
            }
        }
        passed.map_or(Ok(None), Err)
    }
}

/// The files of the runs of a module, the latest first.
fn kept_runs<S: System>(
    system: &S,
    data: Option<&Path>,
    module: &str,
) -> Result<Vec<PathBuf>, KeepProblem> {
    let folder = system.data_folder(Some(&system.data_folder(data)?.join(RUNS)))?;
    let mut found = system.files_in(&folder)?;
    let name = format!("-{module}-");
    found.retain(|file| {
        let of_module = |stem: &OsStr| stem.to_string_lossy().contains(&name);
        file.extension().is_some_and(|end| end == "run") && file.file_stem().is_some_and(of_module)
    });
    found.reverse();
    Ok(found)
}

/// The run of a module that was ended last, if there is one that can be read.
///
/// # Errors
/// When the folder is refused.
pub fn latest_ended<S: System>(
    system: &S,
    data: Option<&Path>,
    module: &str,
) -> Result<Option<Run>, KeepProblem> {
    for path in kept_runs(system, data, module)? {
        // One that is held or damaged has no debrief to read; the one before it may have.
        let Ok((_, Kept { lines, .. })) = system.open_journal(&path) else {
            continue;
        };
        let run = read_run(&lines.join("\n")).ok();
        if let Some(run) = run.filter(|run| run.module == module && has_ended(run)) {
            return Ok(Some(run));
        }
    }
    Ok(None)
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
