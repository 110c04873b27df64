//! Where a bench run is kept: one journal each, one line a tap, in a folder of their own beside the rehearsals.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::clock::Reading;
use super::head::Head;
use super::mark::Mark;
use super::rows::BenchCard;
use super::run::{BenchRun, RunProblem, TapProblem};
use crate::app::fault::{Fault, Happened};
use crate::app::rehearse::StartProblem;
use crate::app::shelf::Shelf;
use crate::app::{Journal as _, Kept, System};

/// The folder of bench runs inside the folder for data. In two parts, since a whole one reads like the name of a message.
const RUNS: &str = concat!("bench", "-runs");

/// How the files are called in the end.
const ENDING: &str = concat!("bench", "-run");

/// How many runs of one second get names of their own.
const NAMES_MOST: u32 = 100;

/// A kept run may be this long, in bytes.
const LONGEST: u64 = 16 * 1024 * 1024;

/// A bench run under way: what was tapped, what it is tapped on, and the journal that keeps it.
pub struct Watch<S: System> {
    card: Arc<BenchCard>,
    run: BenchRun,
    journal: S::Journal,
    path: PathBuf,
    torn: bool,
}

/// Why a run cannot be begun or taken up.
#[derive(Clone, Debug)]
pub enum WatchProblem {
    /// The machine refused a folder or a file.
    Machine(Fault),
    /// The head of the run cannot be written down.
    Unwritable(String),
    /// So many runs began in the same second that no name is left.
    NoNameLeft,
    /// The file holds no whole line: it broke off before anything was kept.
    Nothing(PathBuf),
    /// The kept run is damaged or of a newer format.
    Damaged(PathBuf, RunProblem),
    /// The workflow of the kept run cannot be laid out.
    Workflow(PathBuf, StartProblem),
    /// The workflow on the shelf is of another text than the one that the run was begun with. Holds the revisions of both.
    OtherEdition(PathBuf, u32, u32),
}

/// Why a tap was not kept.
#[derive(Clone, Debug)]
pub enum TapFailure {
    /// It makes no sense.
    Tap(TapProblem),
    /// It could not be written. What was kept before is there.
    Journal(Fault),
    /// It could not be spelled.
    Unwritable(String),
}

/// A run that has not been signed.
#[derive(Clone, Debug)]
pub struct OpenRun {
    /// Where it is kept.
    pub path: PathBuf,
    /// The run as far as it went.
    pub run: BenchRun,
    /// Whether its last line was cut off while it was written. It had not been acknowledged.
    pub torn: bool,
}

/// The runs that have not been signed.
#[derive(Clone, Debug, Default)]
pub struct OpenRuns {
    /// Those that can be read, the latest first.
    pub runs: Vec<OpenRun>,
    /// Why others cannot.
    pub refused: Vec<WatchProblem>,
}

impl From<Fault> for WatchProblem {
    fn from(fault: Fault) -> WatchProblem {
        WatchProblem::Machine(fault)
    }
}

impl<S: System> Watch<S> {
    /// Begins a run and keeps its head.
    ///
    /// # Errors
    /// When the folder or the file is refused.
    pub fn begin(
        system: &S,
        data: Option<&Path>,
        card: Arc<BenchCard>,
        head: Head,
        now: Reading,
    ) -> Result<Watch<S>, WatchProblem> {
        let folder = folder(system, data)?;
        let line = serde_json::to_string(&head);
        let line = line.map_err(|why| WatchProblem::Unwritable(why.to_string()))?;
        for number in 0..NAMES_MOST {
            let name = format!(
                "{}-{}-{number:02}.{ENDING}",
                system.stamp(),
                head.scope.workflow
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
            journal.append(&line)?;
            return Ok(Watch {
                run: BenchRun::begin(head, now),
                card,
                journal,
                path,
                torn: false,
            });
        }
        Err(WatchProblem::NoNameLeft)
    }

    /// Takes up a run where it stood.
    ///
    /// # Errors
    /// When the file is refused, held by another program or damaged, or its workflow is not on the shelf any more.
    pub fn take_up(
        system: &S,
        shelf: &Shelf,
        path: &Path,
        now: Reading,
    ) -> Result<Watch<S>, WatchProblem> {
        let (journal, Kept { lines, torn }) = system.open_journal(path)?;
        if lines.is_empty() {
            return Err(WatchProblem::Nothing(path.to_owned()));
        }
        let damaged = |why| WatchProblem::Damaged(path.to_owned(), why);
        let mut run = BenchRun::read(&lines).map_err(damaged)?;
        let card = laid_out(run.head(), shelf, path)?;
        let known = |mark: &Mark| mark.row().is_none_or(|row| card.row(row).is_some());
        if let Some(at) = run.marks().iter().position(|one| !known(&one.mark)) {
            let row = run.marks()[at].mark.row().unwrap_or_default().to_owned();
            let why = RunProblem::Senseless(at + 2, TapProblem::NoSuchRow(row));
            return Err(damaged(why));
        }
        run.go_on(now);
        Ok(Watch {
            card: Arc::new(card),
            run,
            journal,
            path: path.to_owned(),
            torn,
        })
    }

    /// What it is tapped on.
    #[must_use]
    pub fn card(&self) -> &Arc<BenchCard> {
        &self.card
    }

    /// What was tapped.
    #[must_use]
    pub fn run(&self) -> &BenchRun {
        &self.run
    }

    /// Where it is kept.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Whether its last line had been cut off when it was taken up.
    #[must_use]
    pub fn torn(&self) -> bool {
        self.torn
    }

    /// Takes a tap. When this returns, it survives a kill and a power cut.
    ///
    /// # Errors
    /// When it makes no sense, or could not be kept. Then nothing has changed.
    pub fn tap(&mut self, mark: Mark, now: Reading) -> Result<(), TapFailure> {
        self.run
            .check_on(&self.card, &mark)
            .map_err(TapFailure::Tap)?;
        let marked = self.run.timed(mark, now);
        let line = serde_json::to_string(&marked);
        let line = line.map_err(|why| TapFailure::Unwritable(why.to_string()))?;
        self.journal.append(&line).map_err(TapFailure::Journal)?;
        self.run.keep(marked);
        Ok(())
    }
}

/// Looks for the runs that have been neither signed nor dropped. Those that are held by a program are among them.
///
/// # Errors
/// When the folder is refused.
pub fn open_runs<S: System>(system: &S, data: Option<&Path>) -> Result<OpenRuns, WatchProblem> {
    let folder = folder(system, data)?;
    let mut found = system.files_in(&folder)?;
    found.retain(|path| path.extension().is_some_and(|ending| ending == ENDING));
    found.reverse();
    let mut open = OpenRuns::default();
    for path in found {
        match read(system, &path) {
            Ok(Some((run, _))) if run.signed().is_some() || run.is_dropped() => {}
            Ok(Some((run, torn))) => open.runs.push(OpenRun { path, run, torn }),
            Ok(None) => {}
            Err(problem) => open.refused.push(problem),
        }
    }
    Ok(open)
}

/// Reads a run without holding it. None where nothing was kept.
fn read<S: System>(system: &S, path: &Path) -> Result<Option<(BenchRun, bool)>, WatchProblem> {
    let mut bytes = system.read(path, LONGEST)?;
    let whole = bytes.iter().rposition(|&byte| byte == b'\n');
    let torn = !bytes.split_off(whole.map_or(0, |at| at + 1)).is_empty();
    let damaged = |why| WatchProblem::Damaged(path.to_owned(), why);
    let text = String::from_utf8(bytes).map_err(|why| damaged(no_text(&why)))?;
    let lines: Vec<&str> = text.lines().collect();
    if lines.is_empty() {
        return Ok(None);
    }
    let run = BenchRun::read(&lines).map_err(damaged)?;
    Ok(Some((run, torn)))
}

fn no_text(why: &std::string::FromUtf8Error) -> RunProblem {
    let whole = &why.as_bytes()[..why.utf8_error().valid_up_to()];
    let line = whole.iter().filter(|&&byte| byte == b'\n').count() + 1;
    RunProblem::Line(line, why.to_string())
}

/// The rows of a kept run's workflow.
fn laid_out(head: &Head, shelf: &Shelf, path: &Path) -> Result<BenchCard, WatchProblem> {
    let workflow = |why| WatchProblem::Workflow(path.to_owned(), why);
    let (id, profile) = (
        head.scope.workflow.to_string(),
        head.scope.profile.to_string(),
    );
    let taken = shelf.take(&id, Some(&profile));
    let taken = taken.map_err(|why| workflow(StartProblem::of_kept_run(why)))?;
    if taken.digest != head.edition.digest.to_string() {
        let there = taken.module.identity.revision;
        let path = path.to_owned();
        return Err(WatchProblem::OtherEdition(
            path,
            head.edition.revision,
            there,
        ));
    }
    // A run that was kept without them was begun by an earlier program.
    if head.numbers.is_some() && head.numbers != taken.numbers {
        return Err(workflow(StartProblem::OtherNumbers(profile)));
    }
    BenchCard::new(Arc::new(taken), &head.card).map_err(workflow)
}

fn folder<S: System>(system: &S, data: Option<&Path>) -> Result<PathBuf, Fault> {
    system.data_folder(Some(&system.data_folder(data)?.join(RUNS)))
}
