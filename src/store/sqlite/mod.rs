//! The record in one SQLite file.
//!
//! Every append is one immediate transaction with full synchronisation: what was acknowledged survives a power cut. A COMMIT that fails may have
//! been carried out all the same, so the entry is looked for by its seal before anything is said about it.
//!
//! What the file refuses, whoever opens it: UPDATE, DELETE, REPLACE, and an INSERT anywhere but behind the last entry (`schema`). What it can not
//! refuse: that its owner drops the triggers, or writes bytes past SQLite. Seals, signatures and the heads outside show that.

mod pages;
mod schema;

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use rusqlite::{Connection, ErrorCode, OptionalExtension as _, params};

use super::database::{PATIENCE_MILLISECONDS, connect, trouble, trouble_at, unopened};
use crate::record::entry::Entry;
use crate::record::log::{Appended, Log, Stream, Trouble, WhyNot};
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::record::strand::{Head, Strands};
use crate::units::Digest;
use pages::Pages;

/// How long it pauses where SQLite itself does not wait, in milliseconds. Our default.
const PAUSE_MILLISECONDS: u64 = 10;
/// How often a rollback is tried before the connection is given up. Our default.
const ROLLBACKS: usize = 3;

const HEAD: &str =
    "SELECT number, seal, bytes FROM entries WHERE strand = ?1 ORDER BY number DESC LIMIT 1";
/// Every strand with its last number, from one strand to the next: DISTINCT would read the whole file.
const LAST: &str = "WITH RECURSIVE strands (strand) AS (
        SELECT min(strand) FROM entries
        UNION ALL SELECT (SELECT min(strand) FROM entries WHERE strand > strands.strand) FROM strands
            WHERE strands.strand IS NOT NULL
    )
    SELECT strand, (SELECT max(number) FROM entries WHERE strand = strands.strand) FROM strands
        WHERE strand IS NOT NULL ORDER BY strand";

/// A log in an SQLite file.
#[derive(Debug)]
pub struct SqliteLog {
    pub(super) connection: Connection,
    pub(super) path: PathBuf,
    read_only: bool,
    restored_guards: Vec<&'static str>,
}

/// A row whose columns do not say what its bytes say, or that is not the next of its strand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misfiled {
    /// The strand, as the row has it.
    pub strand: String,
    /// The number, as the row has it.
    pub number: i64,
}

impl SqliteLog {
    /// Opens the record in this file; makes it where there is none. What may only be read is opened for reading.
    ///
    /// # Errors
    ///
    /// The folder is missing or refuses, the file is something else, or a newer program wrote it.
    pub fn open(path: &Path) -> Result<SqliteLog, Trouble> {
        let mut connection = connect(path)?;
        let read_only = connection
            .is_readonly("main")
            .map_err(|error| trouble_at(&error, path))?;
        let mut restored_guards = Vec::new();
        if read_only {
            if !schema::is_made(&connection).map_err(|found| unopened(found, path))? {
                return Err(Trouble::ReadOnly);
            }
        } else {
            // Asked before anything is written: a newer record stays untouched.
            schema::is_made(&connection).map_err(|found| unopened(found, path))?;
            write_ahead(&connection).map_err(|error| trouble_at(&error, path))?;
            restored_guards = schema::make(&mut connection)?;
        }
        Ok(SqliteLog {
            connection,
            path: path.to_owned(),
            read_only,
            restored_guards,
        })
    }

    /// The guards against changes that somebody had taken out of the file. Opening it put them back.
    #[must_use]
    pub fn restored_guards(&self) -> &[&'static str] {
        &self.restored_guards
    }

    /// Everything that is in it, as it stood at one instant.
    ///
    /// # Errors
    ///
    /// It cannot be read, or a strand has a name that no strand can have.
    pub fn copy(&self) -> Result<Strands, Trouble> {
        let read = || -> rusqlite::Result<Vec<(String, Vec<u8>)>> {
            let mut rows = self
                .connection
                .prepare("SELECT strand, bytes FROM entries ORDER BY strand, number")?;
            rows.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
                .collect()
        };
        let mut strands = Strands::new();
        for (strand, bytes) in read().map_err(|error| trouble(&error))? {
            let strand: Id = strand.parse().map_err(|_| Trouble::Damaged)?;
            strands.entry(strand).or_default().push(bytes);
        }
        Ok(strands)
    }

    /// The rows whose columns do not fit their bytes. Verification sees bytes only; this looks at the rest of the file.
    ///
    /// # Errors
    ///
    /// The file cannot be read.
    pub fn misfiled(&self) -> Result<Vec<Misfiled>, Trouble> {
        misfiled(&self.connection).map_err(|error| trouble(&error))
    }

    fn try_append(&mut self, expected: Option<&Head>, entry: &Entry) -> Result<(), Tried> {
        let not = |why| Err(Tried::NotStored(why));
        let failed = |found: Trouble| Tried::NotStored(WhyNot::Trouble(found));
        let execute = |sql: &str| self.connection.execute_batch(sql);
        execute("BEGIN IMMEDIATE").map_err(|error| failed(trouble(&error)))?;
        let frame = entry.frame();
        let now = head(&self.connection, &frame.strand).map_err(failed)?;
        if now.as_ref() != expected {
            return not(WhyNot::HeadMoved(now));
        }
        let (number, previous) = now.map_or((1, Seal::NONE), |head| (head.number + 1, head.seal));
        if frame.number != number || frame.previous != previous {
            return not(WhyNot::OutOfLine);
        }
        let row = i64::try_from(number).map_err(|_| failed(Trouble::Full))?;
        self.connection
            .prepare("INSERT INTO entries (strand, number, seal, bytes) VALUES (?1, ?2, ?3, ?4)")
            .and_then(|mut insert| {
                insert.execute(params![
                    frame.strand.to_string(),
                    row,
                    entry.seal().0.0,
                    entry.bytes()
                ])
            })
            .map_err(|error| failed(trouble(&error)))?;
        execute("COMMIT").map_err(|error| Tried::CommitFailed {
            trouble: trouble(&error),
            // Frames that could not be synced may still be found after a power cut.
            may_return: error.sqlite_error_code() == Some(ErrorCode::SystemIoFailure),
        })
    }

    /// Ends a transaction that an error left open: the rollback itself can be refused. Then only a new connection helps.
    ///
    /// Returns whether no transaction is open any more.
    fn settle(&mut self) -> bool {
        for _ in 0..ROLLBACKS {
            if self.connection.is_autocommit() {
                return true;
            }
            // What counts is looked at above, not what ROLLBACK says of itself.
            let _said = self.connection.execute_batch("ROLLBACK");
        }
        self.connection.is_autocommit() || self.connect_anew()
    }

    fn connect_anew(&mut self) -> bool {
        match connect(&self.path) {
            Ok(fresh) => {
                // The old connection ends here and takes its transaction with it.
                self.connection = fresh;
                true
            }
            Err(_) => false,
        }
    }

    /// Looks whether an entry is stored, whatever came after it.
    fn holds(&self, entry: &Entry) -> Result<bool, Trouble> {
        let frame = entry.frame();
        let number = i64::try_from(frame.number).map_err(|_| Trouble::Damaged)?;
        let found: Option<[u8; 32]> = self
            .connection
            .query_row(
                "SELECT seal FROM entries WHERE strand = ?1 AND number = ?2",
                params![frame.strand.to_string(), number],
                |row| row.get(0),
            )
            .optional()
            .map_err(|error| trouble(&error))?;
        Ok(found == Some(entry.seal().0.0))
    }

    /// Finds out what became of an entry whose COMMIT failed.
    fn look(&mut self, entry: &Entry, why: Trouble, may_return: bool) -> Appended {
        // Inside an open transaction the entry would be seen although it is not stored.
        if !self.settle() {
            return Appended::Unknown;
        }
        let held = match self.holds(entry) {
            Err(_) if self.connect_anew() => self.holds(entry),
            held => held,
        };
        match held {
            Ok(true) => Appended::Stored,
            Ok(false) if !may_return => Appended::NotStored(WhyNot::Trouble(why)),
            Ok(false) | Err(_) => Appended::Unknown,
        }
    }
}

/// Why an append did not go through.
enum Tried {
    NotStored(WhyNot),
    CommitFailed { trouble: Trouble, may_return: bool },
}

impl Log for SqliteLog {
    fn head(&self, strand: &Id) -> Result<Option<Head>, Trouble> {
        head(&self.connection, strand)
    }

    fn append(&mut self, expected: Option<&Head>, entry: &Entry) -> Appended {
        if self.read_only {
            return Appended::NotStored(WhyNot::Trouble(Trouble::ReadOnly));
        }
        match self.try_append(expected, entry) {
            Ok(()) => Appended::Stored,
            Err(Tried::NotStored(why)) => {
                // COMMIT was not asked for, so whatever is still open can only be rolled back.
                self.settle();
                Appended::NotStored(why)
            }
            Err(Tried::CommitFailed {
                trouble,
                may_return,
            }) => self.look(entry, trouble, may_return),
        }
    }

    fn strands(&self) -> Result<Vec<Id>, Trouble> {
        let strands = last_numbers(&self.connection)?.into_iter();
        Ok(strands.map(|(strand, _)| strand).collect())
    }

    fn entries(&self, strand: &Id, from: u64) -> Stream<'_> {
        let from = i64::try_from(from).unwrap_or(i64::MAX);
        Box::new(Pages::new(&self.connection, strand.clone(), from, i64::MAX))
    }

    fn everything(&self) -> Result<Vec<(Id, Stream<'_>)>, Trouble> {
        // Whatever number a row was given past the guards, it is read.
        let stream = |(strand, last): (Id, i64)| -> (Id, Stream<'_>) {
            let pages = Pages::new(&self.connection, strand.clone(), i64::MIN, last);
            (strand, Box::new(pages))
        };
        let strands = last_numbers(&self.connection)?.into_iter();
        Ok(strands.map(stream).collect())
    }
}

/// How large the pages of a new file are. SQLite keeps at most a quarter of a page of such a row in its place; of most entries, of 1 to 2 kB, the rest would
/// stand on a page of its own with the usual 4,096 bytes.
const PAGE_BYTES: u32 = 16_384;

/// Switches to the write-ahead log. SQLite does not always wait by itself where another process is just doing the same, and where it does, each try
/// waits: so the clock ends it, and not a count of tries.
fn write_ahead(connection: &Connection) -> rusqlite::Result<()> {
    // Holds for a file that is only now made.
    connection.pragma_update(None, "page_size", PAGE_BYTES)?;
    let patience = Duration::from_millis(PATIENCE_MILLISECONDS);
    let begun = Instant::now();
    loop {
        match connection.pragma_update(None, "journal_mode", "WAL") {
            Err(error)
                if error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy)
                    && begun.elapsed() < patience =>
            {
                std::thread::sleep(Duration::from_millis(PAUSE_MILLISECONDS));
            }
            said => return said,
        }
    }
}

/// How far each strand went, at one instant.
fn last_numbers(connection: &Connection) -> Result<Vec<(Id, i64)>, Trouble> {
    let read = || -> rusqlite::Result<Vec<(String, i64)>> {
        let mut rows = connection.prepare(LAST)?;
        rows.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect()
    };
    let named = |(name, last): (String, i64)| {
        let strand = name.parse().map_err(|_| Trouble::Damaged)?;
        Ok((strand, last))
    };
    let rows = read().map_err(|error| trouble(&error))?;
    rows.into_iter().map(named).collect()
}

fn head(connection: &Connection, strand: &Id) -> Result<Option<Head>, Trouble> {
    let row: Option<(i64, [u8; 32], Vec<u8>)> = connection
        .prepare(HEAD)
        .and_then(|mut last| {
            last.query_row([strand.to_string()], |row| {
                Ok((row.get(0)?, row.get(1)?, row.get(2)?))
            })
            .optional()
        })
        .map_err(|error| trouble(&error))?;
    let Some((number, seal, bytes)) = row else {
        return Ok(None);
    };
    let head = Entry::read(&bytes).map_err(|_| Trouble::Damaged)?.head();
    let fits = u64::try_from(number) == Ok(head.number) && Seal(Digest(seal)) == head.seal;
    if fits {
        Ok(Some(head))
    } else {
        Err(Trouble::Damaged)
    }
}

pub(super) fn misfiled(connection: &Connection) -> rusqlite::Result<Vec<Misfiled>> {
    let mut rows = connection
        .prepare("SELECT strand, number, seal, bytes FROM entries ORDER BY strand, number")?;
    let mut rows = rows.query([])?;
    let mut found = Vec::new();
    let mut last: (String, i64) = (String::new(), 0);
    while let Some(row) = rows.next()? {
        let (strand, number): (String, i64) = (row.get(0)?, row.get(1)?);
        let expected = if strand == last.0 { last.1 + 1 } else { 1 };
        let seal: [u8; 32] = row.get(2)?;
        let bytes = row.get_ref(3)?.as_blob()?;
        last = (strand, number);
        if number != expected || Seal::of(bytes).0.0 != seal {
            found.push(Misfiled {
                strand: last.0.clone(),
                number,
            });
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests;
