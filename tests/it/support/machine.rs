//! A machine for tests: a clock that a test moves, a fixed date and seed, files in memory, and faults that can be switched on.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock};

use drybench::app::demonstration::demonstration;
use drybench::app::fault::{self, Fault, Happened, Remedy};
use drybench::app::laboratory::{Laboratory, MemoryPlace};
use drybench::app::{Journal, Kept, Secret, System};
use drybench::record::log::Trouble;
use drybench::record::verify::{Hands, OneHand};
use drybench::rng::{Seed, Stream};
use drybench::text::Words;
use drybench::units::{Millis, Stamp};

/// The seed that nobody chose.
pub(crate) const FRESH: Seed = Seed(4_711);

/// The folder for data.
const DATA: &str = "data";

/// A place that a folder holds, made anew each time it is opened.
type Laid = Arc<dyn Fn() -> MemoryPlace + Send + Sync>;

/// A machine; its clones are the same machine.
#[derive(Clone, Default)]
pub(crate) struct TestMachine(Arc<Mutex<State>>);

#[derive(Default)]
struct State {
    elapsed: i64,
    files: BTreeMap<PathBuf, Vec<u8>>,
    /// The journals that are open.
    held: BTreeSet<PathBuf>,
    /// Lines and files are refused for want of room.
    is_full: bool,
    /// Folders are refused.
    is_refused: bool,
    /// The records that folders hold.
    laid: BTreeMap<PathBuf, Laid>,
}

impl TestMachine {
    fn state(&self) -> MutexGuard<'_, State> {
        self.0.lock().unwrap()
    }

    /// Lets time pass.
    pub(crate) fn pass(&self, time: Millis) {
        self.state().elapsed += time.0;
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

    /// Has a folder hold a record. Each time it is opened there is a fresh one: what was written to the one before is not in it.
    pub(crate) fn lay(
        &self,
        folder: &Path,
        made: impl Fn() -> MemoryPlace + Send + Sync + 'static,
    ) {
        self.state().laid.insert(folder.to_owned(), Arc::new(made));
    }

    /// Has the folder for data hold the demonstration.
    pub(crate) fn lay_demonstration(&self) {
        self.lay(&Path::new(DATA).join("laboratory"), demonstration_place);
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
    type Place = MemoryPlace;

    fn place(&self, folder: &Path) -> Result<MemoryPlace, Trouble> {
        let laid = self.state().laid.get(folder).cloned();
        laid.map(|made| made()).ok_or(Trouble::Unreachable)
    }

    fn secret(&self, _from: Secret) -> Result<Option<String>, Fault> {
        Ok(None)
    }

    fn hands(&self) -> &dyn Hands {
        &OneHand
    }

    fn elapsed(&self) -> Millis {
        Millis(self.state().elapsed)
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
        let mut files = state.files.keys();
        state.laid.keys().any(|folder| folder.starts_with(path))
            || files.any(|file| file != path && file.starts_with(path))
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

/// The demonstration in a place of its own, with the time of its story. It is made once and copied each time.
pub(crate) fn demonstration_place() -> MemoryPlace {
    static MADE: OnceLock<Mutex<Laboratory<MemoryPlace>>> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        let made = demonstration(&Words::shipped("en-US"));
        Mutex::new(made.unwrap().laboratory)
    });
    let made = made.lock().unwrap();
    let mut place = empty_place(made.now());
    made.write_to(&mut place).unwrap();
    place
}

/// A place without a record at a time. What it draws is the same every time.
pub(crate) fn empty_place(now: Stamp) -> MemoryPlace {
    let stream = RefCell::new(Stream::new(FRESH, "dice of a test"));
    let dice = move |bytes: &mut [u8]| {
        for byte in bytes {
            *byte = u8::try_from(stream.borrow_mut().between(0, 255)).unwrap();
        }
    };
    MemoryPlace::new(now, Box::new(dice))
}
