//! The machine as the use cases know it.

use std::io::{self, BufRead as _, Read as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::clock::Clock;
use super::files::{read_bytes, write_atomically};
use super::folder::{clear_away, data_folder, folder_to_throw_away};
use super::hands::{self, Cores};
use super::journal::Journal;
use super::laboratory::Folder;
use super::secret;
use super::terminal::input_is_terminal;
use crate::app::fault::{Fault, Happened, Remedy};
use crate::app::{Kept, Secret, System};
use crate::record::log::Trouble;
use crate::record::verify::Hands;
use crate::rng::Seed;
use crate::units::{Millis, Stamp};

/// A line that is typed or piped in may be this long, in bytes.
const LINE_MOST: u64 = 64 * 1024;

/// A journal may be this long, in bytes.
const JOURNAL_MOST: u64 = 16 * 1024 * 1024;

/// The real machine.
#[derive(Clone, Copy, Debug)]
pub struct Machine {
    clock: Clock,
    cores: Cores,
}

impl Machine {
    /// The machine, its clock counted from now.
    #[must_use]
    pub fn start() -> Machine {
        Machine {
            clock: Clock::start(),
            cores: Cores::all(),
        }
    }
}

impl System for Machine {
    type Journal = Journal;
    type Place = Folder;

    fn elapsed(&self) -> Millis {
        self.clock.elapsed()
    }

    fn now(&self) -> Stamp {
        self.clock.stamp()
    }

    fn stamp(&self) -> String {
        self.clock.now().format("%Y%m%d-%H%M%S").to_string()
    }

    fn fresh_seed(&self) -> Seed {
        let nanos = self.clock.now().timestamp_nanos_opt().unwrap_or_default();
        let mixed = nanos ^ (i64::from(std::process::id()) << 32) ^ (nanos >> 21);
        // Five digits are easy to type again, and there are enough of them.
        Seed(u32::try_from(mixed.rem_euclid(100_000)).unwrap_or(0))
    }

    fn read(&self, path: &Path, limit: u64) -> Result<Vec<u8>, Fault> {
        read_bytes(path, limit)
    }

    fn write(&self, path: &Path, content: &[u8]) -> Result<(), Fault> {
        write_atomically(path, content)
    }

    fn files_in(&self, folder: &Path) -> Result<Vec<PathBuf>, Fault> {
        let mut found = Vec::new();
        let mut folders = vec![folder.to_owned()];
        while let Some(folder) = folders.pop() {
            let entries =
                std::fs::read_dir(&folder).map_err(|error| Fault::reading(&error, &folder))?;
            for entry in entries {
                let entry = entry.map_err(|error| Fault::reading(&error, &folder))?;
                let kind = entry
                    .file_type()
                    .map_err(|error| Fault::reading(&error, &folder))?;
                // Links are not followed, so that a circle of them is no circle here.
                if kind.is_dir() {
                    folders.push(entry.path());
                } else if kind.is_file() {
                    found.push(entry.path());
                }
            }
        }
        found.sort();
        Ok(found)
    }

    fn is_folder(&self, path: &Path) -> bool {
        path.is_dir()
    }

    fn data_folder(&self, chosen: Option<&Path>) -> Result<PathBuf, Fault> {
        data_folder(chosen)
    }

    fn throw_away(&self) -> Result<PathBuf, Fault> {
        folder_to_throw_away()
    }

    fn clear_away(&self, folder: &Path) {
        clear_away(folder);
    }

    fn open_journal(&self, path: &Path) -> Result<(Journal, Kept), Fault> {
        let (journal, found) = Journal::open(path, JOURNAL_MOST)?;
        let kept = Kept {
            lines: found.lines,
            torn: found.torn.is_some(),
        };
        Ok((journal, kept))
    }

    fn read_line(&self) -> Result<Option<String>, Fault> {
        let input = Path::new("-");
        let mut bytes = Vec::new();
        let read = io::stdin()
            .lock()
            .take(LINE_MOST)
            .read_until(b'\n', &mut bytes)
            .map_err(|error| Fault::reading(&error, input))?;
        if read == 0 {
            return Ok(None);
        }
        if u64::try_from(read).is_ok_and(|read| read >= LINE_MOST) {
            return Err(Fault::harmless(
                Happened::TooLong(LINE_MOST),
                input,
                Remedy::OtherFile,
            ));
        }
        String::from_utf8(bytes)
            .map(|line| Some(line.trim_end_matches(['\n', '\r']).to_owned()))
            .map_err(|_| Fault::harmless(Happened::NotText, input, Remedy::OtherFile))
    }

    fn person_types(&self) -> bool {
        input_is_terminal()
    }

    fn place(&self, folder: &Path) -> Result<Folder, Trouble> {
        Folder::open(folder)
    }

    fn secret(&self, from: Secret) -> Result<Option<String>, Fault> {
        secret::read(from)
    }

    fn hands(&self) -> Arc<dyn Hands + Send + Sync> {
        Arc::new(self.cores)
    }

    fn aside(&self, work: Box<dyn FnOnce() + Send>) {
        hands::aside(work);
    }
}
