//! Where a run is kept while it is under way: one journal per run, one line per action.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use crate::app::fault::Fault;
use crate::app::rehearse::{journal_head, read_run};
use crate::app::{Journal, Kept, System};
use crate::cli::failure::Failure;
use crate::cli::files;
use crate::rehearsal::action::Action;
use crate::rehearsal::run::Run;

/// The folder of runs inside the folder for data.
const RUNS: &str = "rehearsals";

/// A journal, or none when the run is not kept.
pub(super) struct Keeper<S: System> {
    journal: Option<S::Journal>,
    /// Where it is.
    pub(super) path: Option<PathBuf>,
}

impl<S: System> Keeper<S> {
    /// Keeps nothing.
    pub(super) fn nothing() -> Keeper<S> {
        Keeper {
            journal: None,
            path: None,
        }
    }

    /// Starts the journal of a run.
    ///
    /// # Errors
    /// When the folder or the file is refused.
    pub(super) fn start(system: &S, data: Option<&Path>, run: &Run) -> Result<Keeper<S>, Failure> {
        let folder = system.data_folder(Some(&system.data_folder(data)?.join(RUNS)))?;
        let head =
            journal_head(run).map_err(|why| Failure::NotWritten(std::io::Error::other(why)))?;
        for number in 0..100_u32 {
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
                Err(fault) if fault.happened == crate::app::fault::Happened::InUse => continue,
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
        Err(Failure::NotWritten(std::io::Error::other(RUNS)))
    }

    /// Takes up the latest run of a module that has not been ended. `None` when there is none.
    ///
    /// # Errors
    /// When the folder or the file is refused.
    pub(super) fn latest(
        system: &S,
        data: Option<&Path>,
        module: &str,
    ) -> Result<Option<(Keeper<S>, Run, bool)>, Failure> {
        let folder = system.data_folder(Some(&system.data_folder(data)?.join(RUNS)))?;
        let mut found = system.files_in(&folder)?;
        let name = format!("-{module}-");
        found.retain(|file| {
            let of_module = |stem: &OsStr| stem.to_string_lossy().contains(&name);
            file.extension().is_some_and(|end| end == "run")
                && file.file_stem().is_some_and(of_module)
        });
        // Why a later run was passed over; told when there is no earlier one.
        let mut passed: Option<Failure> = None;
        for path in found.into_iter().rev() {
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
                    passed.get_or_insert(Failure::Kept(files::shown(&path), problem));
                    continue;
                }
            };
            let ended = run
                .actions
                .iter()
                .any(|action| matches!(action, Action::Finish | Action::Abandon));
            if run.module == module && !ended {
                let keeper = Keeper {
                    journal: Some(journal),
                    path: Some(path),
                };
                return Ok(Some((keeper, run, torn)));
            }
        }
        passed.map_or(Ok(None), Err)
    }
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
