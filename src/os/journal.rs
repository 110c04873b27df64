//! A file that only grows, line by line, each line on the disk before the next thing happens.
//!
//! One line is one action. A power cut can tear the last line at most; opening the file again finds that, hands the torn
//! part over and goes on behind the last whole line. One program at a time holds a journal.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use super::files::sync_folder_of;
use crate::app::fault::{Fault, Happened, Kept, Remedy};

/// A journal that lines can be appended to.
#[derive(Debug)]
pub struct Journal {
    file: File,
    path: PathBuf,
    /// Where the last whole line ends.
    end: u64,
}

/// What stood in a journal when it was opened.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// The whole lines, without their line ends.
    pub lines: Vec<String>,
    /// What followed the last line end: a line that was cut off while being written. It is no longer in the file.
    pub torn: Option<Vec<u8>>,
}

impl Journal {
    /// Opens a journal, or starts one, and reads what is there (at most `limit` bytes).
    ///
    /// # Errors
    ///
    /// The file is refused, held by another program, longer than `limit`, or has a whole line that is no UTF-8.
    pub fn open(path: &Path, limit: u64) -> Result<(Journal, Found), Fault> {
        let reading = |error: &std::io::Error| Fault::reading(error, path);
        let mut file = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .open(path)
            .map_err(|error| Fault::writing(&error, path, Kept::Everything))?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                return Err(Fault::harmless(Happened::InUse, path, Remedy::CloseOther));
            }
            Err(TryLockError::Error(error)) => return Err(reading(&error)),
        }
        let mut bytes = Vec::new();
        std::io::Read::by_ref(&mut file)
            .take(limit.saturating_add(1))
            .read_to_end(&mut bytes)
            .map_err(|error| reading(&error))?;
        if length(&bytes) > limit {
            return Err(Fault::harmless(
                Happened::TooLong(limit),
                path,
                Remedy::OtherFile,
            ));
        }
        let whole = bytes
            .iter()
            .rposition(|&b| b == b'\n')
            .map_or(0, |at| at + 1);
        let torn = bytes.split_off(whole);
        let end = length(&bytes);
        let text = String::from_utf8(bytes)
            .map_err(|_| Fault::harmless(Happened::NotText, path, Remedy::OtherFile))?;
        let found = Found {
            lines: text.lines().map(str::to_owned).collect(),
            torn: (!torn.is_empty()).then_some(torn),
        };
        let journal = Journal {
            file,
            path: path.to_owned(),
            end,
        };
        if found.torn.is_some() {
            journal.cut_back()?;
        }
        sync_folder_of(path).map_err(|error| Fault::writing(&error, path, Kept::EarlierLines))?;
        Ok((journal, found))
    }

    /// Appends one line and returns when it is on the disk.
    ///
    /// # Errors
    ///
    /// The line holds a line end, or writing failed; `Fault::kept` says what of it may be there.
    pub fn append(&mut self, line: &str) -> Result<(), Fault> {
        if line.contains(['\n', '\r']) {
            return Err(Fault::harmless(
                Happened::SeveralLines,
                &self.path,
                Remedy::TryAgain,
            ));
        }
        let mut bytes = line.as_bytes().to_vec();
        bytes.push(b'\n');
        let written = self
            .file
            .seek(SeekFrom::Start(self.end))
            .and_then(|_| self.file.write_all(&bytes))
            .and_then(|()| self.file.sync_data());
        if let Err(error) = written {
            // Half a line must not become the beginning of the next one.
            let kept = match self.cut_back() {
                Ok(()) => Kept::EarlierLines,
                Err(_) => Kept::LookAgain,
            };
            return Err(Fault::writing(&error, &self.path, kept));
        }
        self.end += length(&bytes);
        Ok(())
    }

    /// Removes what stands behind the last whole line.
    fn cut_back(&self) -> Result<(), Fault> {
        self.file
            .set_len(self.end)
            .and_then(|()| self.file.sync_data())
            .map_err(|error| Fault::writing(&error, &self.path, Kept::EarlierLines))
    }
}

impl crate::app::Journal for Journal {
    type Failure = Fault;

    fn append(&mut self, line: &str) -> Result<(), Fault> {
        Journal::append(self, line)
    }
}

fn length(bytes: &[u8]) -> u64 {
    u64::try_from(bytes.len()).unwrap_or(u64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    const LIMIT: u64 = 1_000_000;

    #[test]
    fn lines_come_back_in_order() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("run.journal");
        let (mut journal, found) = Journal::open(&path, LIMIT).unwrap();
        assert_eq!(found, Found::default());
        journal.append("do tack@5-6/facial").unwrap();
        journal.append("wait 2 min").unwrap();
        drop(journal);
        let (_, found) = Journal::open(&path, LIMIT).unwrap();
        assert_eq!(found.lines, ["do tack@5-6/facial", "wait 2 min"]);
        assert_eq!(found.torn, None);
    }

    #[test]
    fn a_cut_at_any_byte_loses_the_last_line_at_most() {
        let folder = tempfile::tempdir().unwrap();
        let whole = "first µ\nsecond\nthird\n".as_bytes();
        for cut in 0..=whole.len() {
            let path = folder.path().join(format!("{cut}.journal"));
            fs::write(&path, &whole[..cut]).unwrap();
            let (mut journal, found) = Journal::open(&path, LIMIT).unwrap();
            let complete = whole[..cut].iter().filter(|&&b| b == b'\n').count();
            assert_eq!(found.lines.len(), complete, "cut at {cut}");
            assert_eq!(
                found.torn.is_some(),
                cut > 0 && whole[cut - 1] != b'\n',
                "cut at {cut}"
            );
            journal.append("next").unwrap();
            drop(journal);
            let (_, after) = Journal::open(&path, LIMIT).unwrap();
            assert_eq!(after.torn, None);
            assert_eq!(after.lines.len(), complete + 1);
            assert_eq!(after.lines.last().map(String::as_str), Some("next"));
        }
    }

    #[test]
    fn one_program_at_a_time() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("run.journal");
        let (first, _) = Journal::open(&path, LIMIT).unwrap();
        assert_eq!(
            Journal::open(&path, LIMIT).unwrap_err().happened,
            Happened::InUse
        );
        drop(first);
        assert!(Journal::open(&path, LIMIT).is_ok());
    }

    #[test]
    fn what_is_no_single_line_or_no_text_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("run.journal");
        let (mut journal, _) = Journal::open(&path, LIMIT).unwrap();
        let fault = journal.append("two\nlines").unwrap_err();
        assert_eq!(fault.happened, Happened::SeveralLines);
        assert_eq!(fault.kept, Kept::Everything);
        drop(journal);
        fs::write(&path, [0xff, b'\n']).unwrap();
        assert_eq!(
            Journal::open(&path, LIMIT).unwrap_err().happened,
            Happened::NotText
        );
        assert_eq!(
            Journal::open(&path, 1).unwrap_err().happened,
            Happened::TooLong(1)
        );
    }
}
