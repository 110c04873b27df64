//! A copy of the record, made while it is in use and looked through before it is called one.

use std::fs::{self, File, OpenOptions};
use std::io::ErrorKind;
use std::path::Path;

use rusqlite::{Connection, OpenFlags};

use super::database::trouble;
use super::heads::Heads;
use super::sqlite::{SqliteLog, misfiled};
use super::whole;
use crate::record::log::{Log as _, Trouble};
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::units::Digest;

/// A copy that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Copied {
    /// How far each strand goes in it.
    pub heads: Heads,
    /// The digest of the whole file, for the entry that tells of it.
    pub digest: Digest,
}

/// Why there is no copy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CopyProblem {
    /// There is something of that name already. Nothing is ever overwritten.
    Taken,
    /// Reading or writing failed.
    Trouble(Trouble),
    /// The copy is not what was copied.
    Differs,
}

impl SqliteLog {
    /// Copies the record, as it stands at one instant, to a new file. Others may go on writing.
    ///
    /// The copy is looked through (its pages, every seal over its bytes, the numbers, and that the record goes on from it) and synced before it
    /// gets its name. A kill on the way leaves at most an empty file of that name.
    ///
    /// # Errors
    ///
    /// The name is taken, something cannot be read or written, or the copy differs. Then there is no new file.
    pub fn copy_to(&self, path: &Path) -> Result<Copied, CopyProblem> {
        let failed = |error: &std::io::Error| match error.kind() {
            ErrorKind::AlreadyExists => CopyProblem::Taken,
            _ => CopyProblem::Trouble(whole::trouble(error)),
        };
        // The name is taken first: of two that copy to it, one is refused.
        let claim = OpenOptions::new().write(true).create_new(true).open(path);
        drop(claim.map_err(|error| failed(&error))?);
        let made = whole::draft_beside(path)
            .map_err(CopyProblem::Trouble)
            .and_then(|draft| {
                let made = self.fill(&draft).and_then(|copied| {
                    fs::rename(&draft, path).map_err(|error| failed(&error))?;
                    whole::sync_folder_of(path).map_err(|error| failed(&error))?;
                    Ok(copied)
                });
                if made.is_err() {
                    // Nothing reads a draft that stays.
                    let _ignored = fs::remove_file(&draft);
                }
                made
            });
        if made.is_err() {
            // An empty file that stays holds no entry that could be taken for one of the record's.
            let _ignored = fs::remove_file(path);
        }
        made
    }

    fn fill(&self, draft: &Path) -> Result<Copied, CopyProblem> {
        let lost = |error: rusqlite::Error| CopyProblem::Trouble(trouble(&error));
        let failed = |error: std::io::Error| CopyProblem::Trouble(whole::trouble(&error));
        let name = draft
            .to_str()
            .ok_or(CopyProblem::Trouble(Trouble::Unreachable))?;
        self.connection
            .execute("VACUUM INTO ?1", [name])
            .map_err(lost)?;
        File::options()
            .write(true)
            .open(draft)
            .and_then(|file| file.sync_all())
            .map_err(failed)?;
        let heads = look_through(draft).map_err(lost)?;
        let heads = heads.ok_or(CopyProblem::Differs)?;
        for (strand, number, seal) in &heads {
            let there = self.entries(strand, *number).next().transpose();
            let there = there.map_err(CopyProblem::Trouble)?;
            if there.map(|bytes| Seal::of(&bytes)) != Some(*seal) {
                return Err(CopyProblem::Differs);
            }
        }
        let digest = Digest::of(&[&fs::read(draft).map_err(failed)?]);
        Ok(Copied { heads, digest })
    }
}

/// The heads of a copy; none where something in it is wrong.
fn look_through(path: &Path) -> rusqlite::Result<Option<Heads>> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let copy = Connection::open_with_flags(path, flags)?;
    let pages: String = copy.query_row("PRAGMA integrity_check", [], |row| row.get(0))?;
    if pages != "ok" || !misfiled(&copy)?.is_empty() {
        return Ok(None);
    }
    let mut last = copy.prepare(
        "SELECT strand, number, seal FROM entries AS one WHERE number =
            (SELECT max(number) FROM entries WHERE strand = one.strand) ORDER BY strand",
    )?;
    let rows: Vec<(String, i64, [u8; 32])> = last
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
        .collect::<rusqlite::Result<_>>()?;
    let head = |(strand, number, seal): (String, i64, [u8; 32])| -> Option<(Id, u64, Seal)> {
        let number = u64::try_from(number).ok()?;
        Some((strand.parse().ok()?, number, Seal(Digest(seal))))
    };
    Ok(rows.into_iter().map(head).collect())
}
