//! Use cases: the one place where things happen. One file each; front ends are thin callers.
//!
//! Files, clocks and journals are reached through ports, which the edge implements. Left out: cursive, clap, SQL, printing.

pub mod checked;
mod colours;
pub mod complain;
pub mod demonstration;
pub mod fault;
pub mod keep;
pub mod laboratory;
pub mod laying;
pub mod rehearse;
pub mod save;
pub mod shelf;
pub mod watching;
mod wish;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::record::log::Trouble;
use crate::record::verify::Hands;
use crate::rng::Seed;
use crate::units::{Millis, Stamp};
pub use colours::Colours;
use fault::Fault;
pub use wish::{Begin, NoScreens, Shown, Wish};

/// What the use cases need of the machine under the program.
pub trait System: Send + Sync + 'static {
    /// The journal that the machine keeps.
    type Journal: Journal<Failure = Fault> + Send + Sync;

    /// Time since the program was started. Never goes back.
    fn elapsed(&self) -> Millis;

    /// The wall clock, to the second.
    fn now(&self) -> Stamp;

    /// The wall clock as digits that sort and can stand in a file name.
    fn stamp(&self) -> String;

    /// A seed that nobody chose.
    fn fresh_seed(&self) -> Seed;

    /// Reads a file of at most `limit` bytes.
    ///
    /// # Errors
    /// When it is missing, refused or longer.
    fn read(&self, path: &Path, limit: u64) -> Result<Vec<u8>, Fault>;

    /// Puts a whole file in place, or leaves the one that is there.
    ///
    /// # Errors
    /// When writing is refused or breaks off.
    fn write(&self, path: &Path, content: &[u8]) -> Result<(), Fault>;

    /// All files below a folder, sorted.
    ///
    /// # Errors
    /// When the folder cannot be read.
    fn files_in(&self, folder: &Path) -> Result<Vec<PathBuf>, Fault>;

    /// Whether a path is a folder.
    fn is_folder(&self, path: &Path) -> bool;

    /// The folder for data, made if need be.
    ///
    /// # Errors
    /// When there is none and none can be made.
    fn data_folder(&self, chosen: Option<&Path>) -> Result<PathBuf, Fault>;

    /// A new folder for data that nobody else can read, for what is thrown away in the end.
    ///
    /// # Errors
    /// When none can be made.
    fn throw_away(&self) -> Result<PathBuf, Fault>;

    /// Removes a folder that [`System::throw_away`] made, as far as it can be removed.
    fn clear_away(&self, folder: &Path);

    /// Opens or starts a journal, and reads what it holds.
    ///
    /// # Errors
    /// When it is refused or held by another program.
    fn open_journal(&self, path: &Path) -> Result<(Self::Journal, Kept), Fault>;

    /// The next line that is typed or piped in; `None` at the end.
    ///
    /// # Errors
    /// When it cannot be read or is no text.
    fn read_line(&self) -> Result<Option<String>, Fault>;

    /// Whether a person types.
    fn person_types(&self) -> bool;

    /// Where a laboratory keeps its record.
    type Place: laboratory::Place + Send;

    /// Opens the place of a record in a folder, and makes it where there is none.
    ///
    /// # Errors
    /// When the folder is refused, or holds what a newer program wrote.
    fn place(&self, folder: &Path) -> Result<Self::Place, Trouble>;

    /// Takes a secret without showing it; `None` where nothing comes.
    ///
    /// # Errors
    /// When it cannot be read or is no text.
    fn secret(&self, from: Secret) -> Result<Option<String>, Fault>;

    /// The cores of the machine.
    fn hands(&self) -> Arc<dyn Hands + Send + Sync>;

    /// Has work done beside everything else, and does not wait for it.
    fn aside(&self, work: Box<dyn FnOnce() + Send>);
}

/// Where a secret comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Secret {
    /// The next line that is typed at the terminal, unseen.
    Terminal,
    /// The next line from an open file, by its number.
    From(u32),
}

/// What stood in a journal.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Kept {
    /// The whole lines.
    pub lines: Vec<String>,
    /// Whether a last line had been cut off while it was written.
    pub torn: bool,
}

/// A place where lines are kept one by one; acknowledged means kept.
pub trait Journal {
    /// Why a line could not be kept.
    type Failure;

    /// Keeps one line. When this returns, the line survives a kill and a power cut.
    ///
    /// # Errors
    /// When the line may not have been kept.
    fn append(&mut self, line: &str) -> Result<(), Self::Failure>;
}

/// A journal that keeps nothing, for practice without a folder.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoJournal;

impl Journal for NoJournal {
    type Failure = std::convert::Infallible;

    fn append(&mut self, _line: &str) -> Result<(), Self::Failure> {
        Ok(())
    }
}
