//! What the file refuses by itself, whoever opens it.

use std::fs;

use drybench::record::log::Trouble;
use drybench::store::SqliteLog;
use rusqlite::Connection;

use super::sample;

const NEVER: [&str; 14] = [
    "UPDATE entries SET bytes = x'00'",
    "UPDATE entries SET seal = zeroblob(32) WHERE strand = 'front' AND number = 3",
    "UPDATE OR REPLACE entries SET number = 2 WHERE strand = 'front' AND number = 3",
    "UPDATE OR IGNORE entries SET number = 20 WHERE strand = 'front' AND number = 12",
    "DELETE FROM entries",
    "DELETE FROM entries WHERE strand = 'front' AND number = 12",
    "REPLACE INTO entries VALUES ('front', 3, zeroblob(32), x'00')",
    "INSERT OR REPLACE INTO entries VALUES ('front', 12, zeroblob(32), x'00')",
    "INSERT INTO entries VALUES ('front', 12, zeroblob(32), x'00') ON CONFLICT DO UPDATE SET bytes = excluded.bytes",
    "INSERT INTO entries VALUES ('front', 14, zeroblob(32), x'00')",
    "INSERT INTO entries VALUES ('other', 0, zeroblob(32), x'00')",
    "INSERT INTO entries VALUES ('front', 13, zeroblob(31), x'00')",
    "INSERT INTO entries VALUES ('front', 13, zeroblob(32), 'text')",
    "INSERT INTO entries VALUES ('front', NULL, zeroblob(32), x'00')",
];

#[test]
fn a_foreign_connection_can_not_change_delete_or_replace() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let log = sample(&path);
    let before = log.copy().unwrap();
    // As any tool opens it, with nothing set.
    let foreign = Connection::open(&path).unwrap();
    for recursive in [false, true] {
        foreign
            .pragma_update(None, "recursive_triggers", recursive)
            .unwrap();
        for statement in NEVER {
            let said = foreign.execute_batch(statement);
            assert!(said.is_err(), "{statement}");
            assert_eq!(log.copy().unwrap(), before, "{statement}");
        }
    }
}

#[test]
fn guards_that_were_taken_out_are_put_back_and_named() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    drop(sample(&path));
    let foreign = Connection::open(&path).unwrap();
    foreign
        .execute_batch(
            "DROP TRIGGER entries_are_not_deleted;
            DROP TRIGGER entries_are_not_changed;
            CREATE TRIGGER entries_are_not_changed BEFORE UPDATE ON entries BEGIN SELECT 1; END;",
        )
        .unwrap();
    let log = SqliteLog::open(&path).unwrap();
    assert_eq!(
        log.restored_guards(),
        ["entries_are_not_changed", "entries_are_not_deleted"]
    );
    for statement in NEVER {
        assert!(foreign.execute_batch(statement).is_err(), "{statement}");
    }
    let again = SqliteLog::open(&path).unwrap();
    assert!(again.restored_guards().is_empty());
}

#[test]
fn a_newer_record_is_refused_and_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    drop(sample(&path));
    let newer = Connection::open(&path).unwrap();
    newer.pragma_update(None, "user_version", 2).unwrap();
    drop(newer);
    let before = fs::read(&path).unwrap();
    assert_eq!(SqliteLog::open(&path).unwrap_err(), Trouble::Newer(2));
    assert_eq!(fs::read(&path).unwrap(), before);
}

#[test]
fn what_is_no_record_is_refused_and_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let text = folder.path().join("text");
    fs::write(
        &text,
        "a text that is no database, and longer than a header".repeat(4),
    )
    .unwrap();
    let other = folder.path().join("other.db");
    let connection = Connection::open(&other).unwrap();
    connection
        .execute_batch("CREATE TABLE notes (text TEXT)")
        .unwrap();
    drop(connection);
    for path in [text, other] {
        let before = fs::read(&path).unwrap();
        assert_eq!(SqliteLog::open(&path).unwrap_err(), Trouble::Damaged);
        assert_eq!(fs::read(&path).unwrap(), before);
    }
    let nowhere = folder.path().join("no/such/folder/record.db");
    assert_eq!(SqliteLog::open(&nowhere).unwrap_err(), Trouble::Unreachable);
    let folder = SqliteLog::open(folder.path());
    assert_eq!(folder.unwrap_err(), Trouble::Unreachable);
}
