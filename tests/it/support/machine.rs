//! A machine for tests: a clock that a test moves, a fixed date and seed, files in memory, and faults that can be switched on.

use std::collections::{BTreeMap, BTreeSet};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard};

use drybench::app::fault::{self, Fault, Happened, Remedy};
use drybench::app::{Journal, Kept, Secret, System};
use drybench::record::log::Trouble;
use drybench::record::verify::{Hands, OneHand};
use drybench::rng::Seed;
use drybench::units::{Millis, Stamp};
use tempfile::TempDir;

use super::laboratory::TestPlace;

/// The seed that nobody chose.
pub(crate) const FRESH: Seed = Seed(4_711);

/// The folder for data.
const DATA: &str = "data";

/// A machine; its clones are the same machine.
#[derive(Clone, Default)]
pub(crate) struct TestMachine(Arc<Mutex<State>>);

#[derive(Default)]
struct State {
    elapsed: i64,
    /// By how many seconds the clock on the wall was set forward, or back.
    set_by: i64,
    files: BTreeMap<PathBuf, Vec<u8>>,
    /// The journals that are open.
    held: BTreeSet<PathBuf>,
    /// Lines and files are refused for want of room.
    is_full: bool,
    /// Folders are refused.
    is_refused: bool,
    /// What is to be done aside is not begun.
    is_aside: bool,
    /// The real folder of the laboratory, where there is one.
    laboratory: Option<Arc<TempDir>>,
}

impl TestMachine {
    fn state(&self) -> MutexGuard<'_, State> {
        self.0.lock().unwrap()
    }

    /// How many seconds have passed.
    pub(crate) fn elapsed_seconds(&self) -> i64 {
        self.state().elapsed / 1000
    }

    /// Whether what is to be done aside waits for ever from now on.
    pub(crate) fn put_aside(&self, is_aside: bool) {
        self.state().is_aside = is_aside;
    }

    /// From now on there is a laboratory, in a real folder that goes with the machine.
    pub(crate) fn lay_open(&self, laboratory: TempDir) {
        self.state().laboratory = Some(Arc::new(laboratory));
    }

    /// The real folder of the laboratory.
    pub(crate) fn laboratory(&self) -> PathBuf {
        let state = self.state();
        state.laboratory.as_ref().unwrap().path().to_owned()
    }

    /// Lets time pass.
    pub(crate) fn pass(&self, time: Millis) {
        self.state().elapsed += time.0;
    }

    /// Sets the clock on the wall forward by so many seconds, or back.
    pub(crate) fn set_clock(&self, seconds: i64) {
        self.state().set_by += seconds;
    }

    /// Whether there is no room on the disk from now on.
    pub(crate) fn fill(&self, is_full: bool) {
        self.state().is_full = is_full;
    }

    /// Whether folders are refused from now on.
    pub(crate) fn refuse(&self, is_refused: bool) {
        self.state().is_refused = is_refused;
    }

    /// The files whose names end so, with their texts, in the order of their names.
    pub(crate) fn files(&self, end: &str) -> Vec<(PathBuf, String)> {
        let state = self.state();
        let all = state.files.iter();
        all.filter(|(path, _)| path.extension().is_some_and(|known| known == end))
            .map(|(path, bytes)| (path.clone(), String::from_utf8(bytes.clone()).unwrap()))
            .collect()
    }

    /// Takes a file away.
    pub(crate) fn remove(&self, path: &Path) {
        self.state().files.remove(path);
    }

    /// Puts a file in place, whoever holds it.
    pub(crate) fn put(&self, path: &Path, bytes: &[u8]) {
        self.state().files.insert(path.to_owned(), bytes.to_owned());
    }
}

fn fault(happened: Happened, path: &Path, kept: fault::Kept, remedy: Remedy) -> Fault {
    Fault {
        happened,
        path: path.to_owned(),
        kept,
        remedy,
    }
}

fn no_room(path: &Path, kept: fault::Kept) -> Fault {
    let happened = Happened::NotWritten(ErrorKind::StorageFull);
    fault(happened, path, kept, Remedy::MakeRoom)
}

impl System for TestMachine {
    type Journal = TestJournal;
    type Place = TestPlace;

    fn place(&self, _folder: &Path) -> Result<TestPlace, Trouble> {
        let laboratory = self.state().laboratory.clone();
        let laboratory = laboratory.ok_or(Trouble::Unreachable)?;
        TestPlace::open(laboratory.path(), self)
    }

    fn throw_away(&self) -> Result<PathBuf, Fault> {
        self.data_folder(Some(Path::new("thrown-away")))
    }

    fn clear_away(&self, folder: &Path) {
        let mut state = self.state();
        state.files.retain(|path, _| !path.starts_with(folder));
    }

    fn secret(&self, _from: Secret) -> Result<Option<String>, Fault> {
        Ok(None)
    }

    fn hands(&self) -> Arc<dyn Hands + Send + Sync> {
        Arc::new(OneHand)
    }

    fn aside(&self, work: Box<dyn FnOnce() + Send>) {
        if self.state().is_aside {
            // A thread that is never given a turn.
            std::mem::forget(work);
        } else {
            work();
        }
    }

    fn elapsed(&self) -> Millis {
        Millis(self.state().elapsed)
    }

    fn now(&self) -> Stamp {
        let state = self.state();
        let begun: Stamp = "2026-12-01T10:15:00+01:00".parse().unwrap();
        let seconds = state.elapsed / 1000 + state.set_by;
        Stamp::new(begun.instant().plus_seconds(seconds), begun.offset()).unwrap()
    }

    fn stamp(&self) -> String {
        "20261201-101500".to_owned()
    }

    fn fresh_seed(&self) -> Seed {
        FRESH
    }

    fn read(&self, path: &Path, _limit: u64) -> Result<Vec<u8>, Fault> {
        let found = self.state().files.get(path).cloned();
        let kept = fault::Kept::Everything;
        found.ok_or_else(|| fault(Happened::Missing, path, kept, Remedy::CheckPath))
    }

    fn write(&self, path: &Path, content: &[u8]) -> Result<(), Fault> {
        let mut state = self.state();
        if state.is_full {
            return Err(no_room(path, fault::Kept::Everything));
        }
        state.files.insert(path.to_owned(), content.to_owned());
        Ok(())
    }

    fn files_in(&self, folder: &Path) -> Result<Vec<PathBuf>, Fault> {
        let state = self.state();
        let inside = state.files.keys().filter(|path| path.starts_with(folder));
        Ok(inside.cloned().collect())
    }

    fn is_folder(&self, path: &Path) -> bool {
        let state = self.state();
        if path.ends_with("laboratory") && state.laboratory.is_some() {
            return true;
        }
        let mut files = state.files.keys();
        files.any(|file| file != path && file.starts_with(path))
    }

    fn data_folder(&self, chosen: Option<&Path>) -> Result<PathBuf, Fault> {
        let folder = chosen.unwrap_or(Path::new(DATA));
        if self.state().is_refused {
            let happened = Happened::NotWritten(ErrorKind::PermissionDenied);
            let kept = fault::Kept::Everything;
            return Err(fault(happened, folder, kept, Remedy::AllowOrMove));
        }
        Ok(folder.to_owned())
    }

    fn open_journal(&self, path: &Path) -> Result<(TestJournal, Kept), Fault> {
        let mut state = self.state();
        if !state.held.insert(path.to_owned()) {
            let kept = fault::Kept::Everything;
            return Err(fault(Happened::InUse, path, kept, Remedy::CloseOther));
        }
        let bytes = state.files.entry(path.to_owned()).or_default();
        let whole = bytes.iter().rposition(|&byte| byte == b'\n');
        let torn = bytes.split_off(whole.map_or(0, |at| at + 1));
        let text = String::from_utf8(bytes.clone()).unwrap();
        let kept = Kept {
            lines: text.lines().map(str::to_owned).collect(),
            torn: !torn.is_empty(),
        };
        let journal = TestJournal {
            machine: self.clone(),
            path: path.to_owned(),
        };
        Ok((journal, kept))
    }

    fn read_line(&self) -> Result<Option<String>, Fault> {
        Ok(None)
    }

    fn person_types(&self) -> bool {
        true
    }
}

/// A journal of a machine for tests. One at a time holds a file.
pub(crate) struct TestJournal {
    machine: TestMachine,
    path: PathBuf,
}

impl Journal for TestJournal {
    type Failure = Fault;

    fn append(&mut self, line: &str) -> Result<(), Fault> {
        let mut state = self.machine.state();
        if state.is_full {
            return Err(no_room(&self.path, fault::Kept::EarlierLines));
        }
        let bytes = state.files.entry(self.path.clone()).or_default();
        bytes.extend(line.as_bytes());
        bytes.push(b'\n');
        Ok(())
    }
}

impl Drop for TestJournal {
    fn drop(&mut self) {
        self.machine.state().held.remove(&self.path);
    }
}
