//! What both databases have in common: how a file is opened, how it says what it is, and what errors mean.

use std::path::Path;
use std::time::Duration;

use rusqlite::ffi::SQLITE_IOERR_SHMSIZE;
use rusqlite::{Connection, ErrorCode, OpenFlags};

use crate::record::log::Trouble;

/// How long a writer waits for another process, in milliseconds. Our default: far longer than writing takes.
pub(super) const PATIENCE_MILLISECONDS: u64 = 5_000;

/// What a file says of itself in its header.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mark {
    /// What it is: four letters, in `application_id`.
    pub(super) application: i32,
    /// The format that this program writes, in `user_version`.
    pub(super) format: u32,
}

impl Mark {
    /// Tells whether the file is of this kind and format; `false` where it holds nothing yet.
    pub(super) fn is_made(self, connection: &Connection) -> Result<bool, Trouble> {
        // In one statement, that is at one instant: another process may just be making it.
        let (format, application, objects): (i64, i64, i64) = connection
            .query_row(
                "SELECT user_version, application_id, (SELECT count(*) FROM sqlite_schema)
                FROM pragma_user_version, pragma_application_id",
                [],
                |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)),
            )
            .map_err(|error| trouble(&error))?;
        if application == 0 && format == 0 && objects == 0 {
            return Ok(false);
        }
        if application != i64::from(self.application) {
            return Err(Trouble::Damaged);
        }
        match u32::try_from(format) {
            Ok(format) if format == self.format => Ok(true),
            Ok(newer) if newer > self.format => Err(Trouble::Newer(newer)),
            _ => Err(Trouble::Damaged),
        }
    }

    /// Writes it into a new file.
    pub(super) fn set(self, connection: &Connection) -> rusqlite::Result<()> {
        connection.pragma_update(None, "application_id", self.application)?;
        connection.pragma_update(None, "user_version", self.format)
    }
}

/// Opens the file and sets what holds for one connection only.
pub(super) fn connect(path: &Path) -> Result<Connection, Trouble> {
    let set = || -> rusqlite::Result<Connection> {
        // Without the flag for addresses: a path that begins with `file:` is a path.
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
            | OpenFlags::SQLITE_OPEN_CREATE
            | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(path, flags)?;
        connection.busy_timeout(Duration::from_millis(PATIENCE_MILLISECONDS))?;
        connection.pragma_update(None, "synchronous", "FULL")?;
        // On a Mac a plain sync stops at the drive's own memory.
        connection.pragma_update(None, "fullfsync", true)?;
        connection.pragma_update(None, "checkpoint_fullfsync", true)?;
        connection.pragma_update(None, "recursive_triggers", true)?;
        connection.pragma_update(None, "trusted_schema", false)?;
        connection.pragma_update(None, "cell_size_check", true)?;
        Ok(connection)
    };
    set().map_err(|error| trouble_at(&error, path))
}

/// What an error of SQLite means for what is kept.
pub(super) fn trouble(error: &rusqlite::Error) -> Trouble {
    let extended = error.sqlite_error().map(|error| error.extended_code);
    match error.sqlite_error_code() {
        Some(ErrorCode::DiskFull) => Trouble::Full,
        // The index of the write-ahead log is the first file that grows when one is opened; for want of room SQLite calls that a fault of the machine.
        Some(ErrorCode::SystemIoFailure) if extended == Some(SQLITE_IOERR_SHMSIZE) => Trouble::Full,
        Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => Trouble::ReadOnly,
        Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => Trouble::Damaged,
        Some(_) => Trouble::Unreachable,
        // A value of another type than the table has, or a table that is not there.
        None => Trouble::Damaged,
    }
}

/// The same while opening: SQLite has one code for a folder that is not there and one that refuses.
pub(super) fn trouble_at(error: &rusqlite::Error, path: &Path) -> Trouble {
    if error.sqlite_error_code() == Some(ErrorCode::CannotOpen) {
        let folder = path
            .parent()
            .filter(|folder| !folder.as_os_str().is_empty());
        let folder_is_there = folder.is_none_or(Path::is_dir);
        if folder_is_there && !path.is_dir() {
            return Trouble::ReadOnly;
        }
    }
    trouble(error)
}

/// A file in a folder that refuses can not even be asked what it holds.
pub(super) fn unopened(found: Trouble, path: &Path) -> Trouble {
    let refuses = found == Trouble::Unreachable && path.is_file();
    if refuses { Trouble::ReadOnly } else { found }
}
