//! The register of names in one SQLite file.
//!
//! Every write is one transaction with full synchronisation. The register only goes forward: codes and names are added, people are erased; a write that
//! would take back what the file holds is refused.
//!
//! What is erased is overwritten with zeros in the file (`secure_delete`), and the file is then built anew without free pages (`VACUUM`). A rollback
//! journal is used and no write-ahead log, which would keep old pages for an uncertain time. What this can not reach: the journal, which held the old
//! pages, is deleted and not overwritten; a disk may keep old blocks that no file shows any more; copies, backups and snapshots that were
//! made before hold what they held.

use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use rusqlite::{Connection, TransactionBehavior, params};

use super::database::{Mark, connect, trouble, trouble_at, unopened};
use super::whole::{self, Reader};
use crate::people::{Name, NameVersion, Register, Salt};
use crate::record::log::Trouble;
use crate::units::{Instant, PersonCode};

/// Marks the file as a register: the letters `DBrg`.
const MARK: Mark = Mark {
    application: 0x4442_7267,
    format: 1,
};

/// `swept` is 0 from the erasure until the file has been built anew after it, so that a sweep that was cut off is made up for.
const TABLES: &str = "CREATE TABLE people (
    code TEXT NOT NULL PRIMARY KEY CHECK (length(code) = 8),
    swept INTEGER NOT NULL DEFAULT 1 CHECK (swept IN (0, 1))
) STRICT, WITHOUT ROWID;
CREATE TABLE names (
    code TEXT NOT NULL REFERENCES people (code),
    number INTEGER NOT NULL CHECK (number > 0),
    name TEXT NOT NULL CHECK (length(name) > 0),
    salt BLOB NOT NULL CHECK (length(salt) = 32),
    since INTEGER NOT NULL,
    PRIMARY KEY (code, number)
) STRICT, WITHOUT ROWID;";

/// Codes with their names, the oldest first; none for erased people.
type Rows = BTreeMap<PersonCode, Vec<NameVersion>>;

/// A register in a file.
#[derive(Debug)]
pub struct RegisterFile {
    connection: Connection,
    path: PathBuf,
    read_only: bool,
}

/// Why a register was not written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RegisterProblem {
    /// The file holds what this register does not: somebody else has written since it was read. Read it again and change that one.
    Behind,
    /// Reading or writing failed.
    Trouble(Trouble),
}

impl RegisterFile {
    /// Opens the register in this file; makes it where there is none. What may only be read is opened for reading. On Unix nobody but the owner
    /// of a new file can read it.
    ///
    /// # Errors
    ///
    /// The folder is missing or refuses, the file is something else, or a newer program wrote it.
    pub fn open(path: &Path) -> Result<RegisterFile, Trouble> {
        match whole::new_file(path, Reader::Owner) {
            Ok(_empty) => whole::sync_folder_of(path).map_err(|error| whole::trouble(&error))?,
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(whole::trouble(&error)),
        }
        let mut connection = connect(path)?;
        let lost = |error: rusqlite::Error| trouble_at(&error, path);
        let read_only = connection.is_readonly("main").map_err(lost)?;
        // Asked before anything is written: a newer register stays untouched.
        let made = MARK
            .is_made(&connection)
            .map_err(|found| unopened(found, path))?;
        if read_only && !made {
            return Err(Trouble::ReadOnly);
        }
        if !read_only {
            discreet(&connection).map_err(lost)?;
        }
        if !made {
            make(&mut connection)?;
        }
        let register = RegisterFile {
            connection,
            path: path.to_owned(),
            read_only,
        };
        if !read_only {
            // Where there is no room for it now, the next one to open or write tries again.
            let _ignored = register.sweep();
        }
        Ok(register)
    }

    /// Reads the whole register, as it stands at one instant.
    ///
    /// # Errors
    ///
    /// It cannot be read, or holds what no register can hold.
    pub fn read(&self) -> Result<Register, Trouble> {
        if !self.connection.is_autocommit() {
            // Nothing could end what an error left open: what is seen inside it is not stored.
            return Err(Trouble::Unreachable);
        }
        let mut register = Register::new();
        for (code, names) in rows(&self.connection)? {
            let restored = register.restore(code, names);
            restored.map_err(|_| Trouble::Damaged)?;
        }
        Ok(register)
    }

    /// Writes what differs from what the file holds, all of it or nothing.
    ///
    /// After an erasure neither name nor salt is anywhere in the file; the top of this module says what lies beyond it.
    ///
    /// # Errors
    ///
    /// [`RegisterProblem::Behind`], or writing failed. After a failure the file holds the old register or the new one: [`RegisterFile::read`] tells.
    /// Where only clearing up after an erasure failed, it holds the new one, and the next write or opening clears up.
    pub fn write(&mut self, register: &Register) -> Result<(), RegisterProblem> {
        if self.read_only {
            return Err(RegisterProblem::Trouble(Trouble::ReadOnly));
        }
        let written = self.try_write(register);
        if written.is_err() {
            self.settle();
        }
        written
    }

    fn try_write(&mut self, register: &Register) -> Result<(), RegisterProblem> {
        let lost = |error: rusqlite::Error| RegisterProblem::Trouble(trouble(&error));
        let writing = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(lost)?;
        let stored = rows(&writing).map_err(RegisterProblem::Trouble)?;
        let new: BTreeMap<PersonCode, &[NameVersion]> = register.rows().collect();
        if stored.keys().any(|code| !new.contains_key(code)) {
            return Err(RegisterProblem::Behind);
        }
        for (code, names) in new {
            let known = stored.get(&code).map(Vec::as_slice);
            match known {
                None => add_person(&writing, code).map_err(lost)?,
                Some(known) if !known.is_empty() && names.is_empty() => {
                    erase(&writing, code).map_err(lost)?;
                    continue;
                }
                // What is erased stays so, and names that were written stay what they were.
                Some([]) if !names.is_empty() => return Err(RegisterProblem::Behind),
                Some(known) if !names.starts_with(known) => return Err(RegisterProblem::Behind),
                Some(_) => {}
            }
            let numbered = (1_i64..).zip(names);
            for (number, name) in numbered.skip(known.map_or(0, <[_]>::len)) {
                add_name(&writing, code, number, name).map_err(lost)?;
            }
        }
        writing.commit().map_err(lost)?;
        self.sweep().map_err(lost)
    }

    /// Ends a transaction that an error left open, since reading inside it would show what is not stored: the rollback itself can be refused, and then
    /// only a new connection helps.
    fn settle(&mut self) {
        if !self.connection.is_autocommit() {
            // What counts is looked at below, not what ROLLBACK says of itself.
            let _said = self.connection.execute_batch("ROLLBACK");
        }
        if self.connection.is_autocommit() {
            return;
        }
        if let Ok(fresh) = connect(&self.path)
            && discreet(&fresh).is_ok()
        {
            // The old connection ends here and takes its transaction with it.
            self.connection = fresh;
        }
    }

    /// Builds the file anew after an erasure, without what was left between and behind its rows.
    fn sweep(&self) -> rusqlite::Result<()> {
        let due: bool = self.connection.query_row(
            "SELECT EXISTS (SELECT 1 FROM people WHERE swept = 0)",
            [],
            |row| row.get(0),
        )?;
        if due {
            self.connection.execute_batch("VACUUM")?;
            self.connection
                .execute_batch("UPDATE people SET swept = 1 WHERE swept = 0")?;
        }
        Ok(())
    }
}

/// Leaves nothing lying about: neither in free pages, nor in a write-ahead log, nor in temporary files outside the folder.
fn discreet(connection: &Connection) -> rusqlite::Result<()> {
    connection.pragma_update(None, "secure_delete", true)?;
    connection.pragma_update(None, "journal_mode", "DELETE")?;
    connection.pragma_update(None, "temp_store", "MEMORY")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    // Syncs the folder too: else a power cut could bring the journal back, and with it what was erased.
    connection.pragma_update(None, "synchronous", "EXTRA")
}

fn make(connection: &mut Connection) -> Result<(), Trouble> {
    let making = connection
        .transaction_with_behavior(TransactionBehavior::Immediate)
        .map_err(|error| trouble(&error))?;
    // Asked again: another process may have been faster.
    if !MARK.is_made(&making)? {
        let write = || {
            making.execute_batch(TABLES)?;
            MARK.set(&making)
        };
        write().map_err(|error| trouble(&error))?;
    }
    making.commit().map_err(|error| trouble(&error))
}

/// In one statement, that is as of one instant.
fn rows(connection: &Connection) -> Result<Rows, Trouble> {
    let lost = |error: rusqlite::Error| trouble(&error);
    let mut read = connection
        .prepare(
            "SELECT people.code, number, name, salt, since FROM people
            LEFT JOIN names ON names.code = people.code ORDER BY people.code, number",
        )
        .map_err(lost)?;
    let mut found = read.query([]).map_err(lost)?;
    let mut rows = Rows::new();
    while let Some(row) = found.next().map_err(lost)? {
        let code: String = row.get(0).map_err(lost)?;
        let code: PersonCode = code.parse().map_err(|_| Trouble::Damaged)?;
        let names = rows.entry(code).or_default();
        let number: Option<i64> = row.get(1).map_err(lost)?;
        let Some(number) = number else { continue };
        if usize::try_from(number) != Ok(names.len() + 1) {
            return Err(Trouble::Damaged);
        }
        let name: String = row.get(2).map_err(lost)?;
        names.push(NameVersion {
            name: name.parse::<Name>().map_err(|_| Trouble::Damaged)?,
            salt: Salt(row.get(3).map_err(lost)?),
            since: Instant::from_epoch(row.get(4).map_err(lost)?),
        });
    }
    Ok(rows)
}

fn add_person(connection: &Connection, code: PersonCode) -> rusqlite::Result<()> {
    connection
        .execute("INSERT INTO people (code) VALUES (?1)", [code.to_string()])
        .map(|_| ())
}

fn add_name(
    connection: &Connection,
    code: PersonCode,
    number: i64,
    version: &NameVersion,
) -> rusqlite::Result<()> {
    let row = params![
        code.to_string(),
        number,
        version.name.as_str(),
        version.salt.0,
        version.since.since_epoch()
    ];
    connection
        .execute(
            "INSERT INTO names (code, number, name, salt, since) VALUES (?1, ?2, ?3, ?4, ?5)",
            row,
        )
        .map(|_| ())
}

fn erase(connection: &Connection, code: PersonCode) -> rusqlite::Result<()> {
    let code = code.to_string();
    connection.execute("DELETE FROM names WHERE code = ?1", [&code])?;
    connection
        .execute("UPDATE people SET swept = 0 WHERE code = ?1", [&code])
        .map(|_| ())
}

#[cfg(test)]
mod tests;
