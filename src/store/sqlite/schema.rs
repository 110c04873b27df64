//! The shape of the database, and what it refuses by itself.

use rusqlite::{Connection, OptionalExtension as _, TransactionBehavior};

use crate::record::log::Trouble;
use crate::store::database::{Mark, trouble};

/// Marks the file as a record: the letters `DBrc`.
const MARK: Mark = Mark {
    application: 0x4442_7263,
    format: 1,
};

/// Without row ids there is one key only, so that REPLACE has no second way to hit an older row.
const TABLE: &str = "CREATE TABLE entries (
    strand TEXT NOT NULL CHECK (length(strand) > 0),
    number INTEGER NOT NULL CHECK (number > 0),
    seal BLOB NOT NULL CHECK (length(seal) = 32),
    bytes BLOB NOT NULL CHECK (length(bytes) > 0),
    PRIMARY KEY (strand, number)
) STRICT, WITHOUT ROWID";

/// Triggers are part of the file, so that they hold for whoever opens it. Name and text.
///
/// The last one also stops INSERT OR REPLACE: that fires the trigger for DELETE only where the connection has set
/// `recursive_triggers`.
pub(super) const GUARDS: [(&str, &str); 3] = [
    (
        "entries_are_not_changed",
        "CREATE TRIGGER entries_are_not_changed BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END",
    ),
    (
        "entries_are_not_deleted",
        "CREATE TRIGGER entries_are_not_deleted BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'an entry is never deleted'); END",
    ),
    (
        "entries_are_added_behind",
        "CREATE TRIGGER entries_are_added_behind BEFORE INSERT ON entries
WHEN NEW.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM entries WHERE strand = NEW.strand)
BEGIN SELECT RAISE(ABORT, 'an entry is added behind the last one only'); END",
    ),
];

/// Tells whether the file holds a record of this program's format; `false` where it holds nothing yet.
pub(super) fn is_made(connection: &Connection) -> Result<bool, Trouble> {
    MARK.is_made(connection)
}

/// Makes what is missing, in one transaction. Returns the guards that an existing record had lost.
pub(super) fn make(connection: &mut Connection) -> Result<Vec<&'static str>, Trouble> {
    if is_made(connection)? && lost_guards(connection)?.is_empty() {
        return Ok(Vec::new());
    }
    let made = connection
        .transaction_with_behavior(TransactionBehavior::Immediate)
        .map_err(|error| trouble(&error))?;
    // Asked again: another process may have been faster.
    let existed = is_made(&made)?;
    let lost = if existed {
        lost_guards(&made)?
    } else {
        GUARDS.iter().map(|(name, _)| *name).collect()
    };
    let write = || -> rusqlite::Result<()> {
        if !existed {
            made.execute_batch(TABLE)?;
            MARK.set(&made)?;
        }
        for (name, text) in GUARDS.iter().filter(|(name, _)| lost.contains(name)) {
            made.execute_batch(&format!("DROP TRIGGER IF EXISTS {name}; {text};"))?;
        }
        Ok(())
    };
    write().map_err(|error| trouble(&error))?;
    made.commit().map_err(|error| trouble(&error))?;
    Ok(if existed { lost } else { Vec::new() })
}

/// The guards that are not there, or no longer say what they should.
pub(super) fn lost_guards(connection: &Connection) -> Result<Vec<&'static str>, Trouble> {
    let mut lost = Vec::new();
    for (name, text) in GUARDS {
        let found: Option<String> = connection
            .query_row(
                "SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND name = ?1",
                [name],
                |row| row.get(0),
            )
            .optional()
            .map_err(|error| trouble(&error))?;
        if found.as_deref() != Some(text) {
            lost.push(name);
        }
    }
    Ok(lost)
}
