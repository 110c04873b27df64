//! A machine with a clock and nothing else.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use drybench::app::fault::{Fault, Happened, Kept as KeptFault, Remedy};
use drybench::app::laboratory::MemoryPlace;
use drybench::app::{Journal, Kept, Secret, System};
use drybench::os::Clock;
use drybench::record::log::Trouble;
use drybench::record::verify::{Hands, OneHand};
use drybench::rng::Seed;
use drybench::units::{Instant, Millis, Offset, Stamp};

/// A machine that has no files.
pub(crate) struct Still(Clock);

impl Still {
    /// Its clock runs from now on.
    pub(crate) fn start() -> Still {
        Still(Clock::start())
    }
}

/// A journal that there is none of.
pub(crate) struct NoLines;

impl Journal for NoLines {
    type Failure = Fault;

    fn append(&mut self, _line: &str) -> Result<(), Fault> {
        Err(nothing(Path::new("")))
    }
}

fn nothing(path: &Path) -> Fault {
    Fault {
        happened: Happened::Missing,
        path: path.to_owned(),
        kept: KeptFault::Everything,
        remedy: Remedy::CheckPath,
    }
}

impl System for Still {
    type Journal = NoLines;
    type Place = MemoryPlace;

    fn elapsed(&self) -> Millis {
        self.0.elapsed()
    }

    fn now(&self) -> Stamp {
        Stamp::new(Instant::from_epoch(0), Offset::UTC).expect("the day exists")
    }

    fn stamp(&self) -> String {
        String::new()
    }

    fn fresh_seed(&self) -> Seed {
        Seed(1)
    }

    fn read(&self, path: &Path, _limit: u64) -> Result<Vec<u8>, Fault> {
        Err(nothing(path))
    }

    fn write(&self, path: &Path, _content: &[u8]) -> Result<(), Fault> {
        Err(nothing(path))
    }

    fn files_in(&self, _folder: &Path) -> Result<Vec<PathBuf>, Fault> {
        Ok(Vec::new())
    }

    fn is_folder(&self, _path: &Path) -> bool {
        false
    }

    fn data_folder(&self, chosen: Option<&Path>) -> Result<PathBuf, Fault> {
        Ok(chosen.unwrap_or(Path::new("data")).to_owned())
    }

    fn throw_away(&self) -> Result<PathBuf, Fault> {
        Err(nothing(Path::new("")))
    }

    fn clear_away(&self, _folder: &Path) {}

    fn open_journal(&self, path: &Path) -> Result<(NoLines, Kept), Fault> {
        Err(nothing(path))
    }

    fn read_line(&self) -> Result<Option<String>, Fault> {
        Ok(None)
    }

    fn person_types(&self) -> bool {
        false
    }

    fn place(&self, _folder: &Path) -> Result<MemoryPlace, Trouble> {
        Err(Trouble::Unreachable)
    }

    fn secret(&self, _from: Secret) -> Result<Option<String>, Fault> {
        Ok(None)
    }

    fn hands(&self) -> Arc<dyn Hands + Send + Sync> {
        Arc::new(OneHand)
    }

    fn aside(&self, work: Box<dyn FnOnce() + Send>) {
        work();
    }
}
