//! A record is read as it is asked for: a fault midway is said, nobody else is held up, and what others add meanwhile does not disturb.

use std::fs;
use std::path::Path;

use drybench::record::log::{Appended, Log, Trouble};
use drybench::record::seal::Seal;
use drybench::record::verify::{Interrupted, Known};
use drybench::store::{HeadsFile, SqliteLog};
use rusqlite::Connection;

use super::{append, checked, id, noted, row, verified};

/// More entries than are read at once, twice over.
const MANY: usize = 700;

fn long(path: &Path) -> SqliteLog {
    let mut log = SqliteLog::open(path).unwrap();
    for entry in row("front", MANY, true) {
        assert_eq!(append(&mut log, &entry), Appended::Stored);
    }
    log
}

#[test]
fn a_page_that_is_damaged_is_a_fault_midway_and_no_early_end() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let log = long(&path);
    let whole = log.copy().unwrap()[&id("front")].clone();
    drop(log);
    // The page that holds an entry in the middle loses its head, where SQLite says what kind of page it is.
    let mut file = fs::read(&path).unwrap();
    let at = file
        .windows(whole[600].len())
        .position(|window| window == whole[600])
        .unwrap();
    // The size of a page stands in the head of the file.
    let bytes = usize::from(u16::from_be_bytes([file[16], file[17]]));
    let page = at - at % bytes;
    file[page] = 0xff;
    fs::write(&path, file).unwrap();
    let log = SqliteLog::open(&path).unwrap();
    let mut stream = log.entries(&id("front"), 1);
    let mut read = 0;
    let fault = loop {
        match stream.next() {
            Some(Ok(bytes)) => {
                assert_eq!(bytes, whole[read]);
                read += 1;
            }
            end => break end,
        }
    };
    assert_eq!(fault, Some(Err(Trouble::Damaged)), "after {read}");
    assert!((1..600).contains(&read), "after {read}");
    assert_eq!(stream.next(), None, "nothing comes after a fault");
    let damaged = Interrupted::Trouble(Trouble::Damaged);
    assert_eq!(verified(&log, Known::default()), Err(damaged));
}

#[test]
fn a_stream_that_is_half_read_holds_nobody_up() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let mut writer = long(&path);
    let reader = SqliteLog::open(&path).unwrap();
    let mut stream = reader.entries(&id("front"), 1);
    assert!(stream.next().unwrap().is_ok());
    let head = writer.head(&id("front")).unwrap();
    let more = noted("front", head.as_ref(), "while it is read");
    assert_eq!(append(&mut writer, &more), Appended::Stored);
    // The write-ahead log can be emptied only where nobody reads an older state.
    let owner = Connection::open(&path).unwrap();
    let busy: i64 = owner
        .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0))
        .unwrap();
    assert_eq!(busy, 0);
    let rest: Vec<Vec<u8>> = stream.map(Result::unwrap).collect();
    assert_eq!(rest.len(), MANY, "with the one that came meanwhile");
    assert_eq!(rest.last(), Some(&more.bytes()));
}

#[test]
fn what_is_added_while_everything_is_read_belongs_to_the_next_time() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let mut writer = long(&path);
    let heads = HeadsFile::beside(&path);
    heads.follow(&writer).unwrap();
    let reader = SqliteLog::open(&path).unwrap();
    let everything = reader.everything().unwrap();
    for (strand, what) in [("bench", "a new strand"), ("front", "one more")] {
        let head = writer.head(&id(strand)).unwrap();
        let more = noted(strand, head.as_ref(), what);
        assert_eq!(append(&mut writer, &more), Appended::Stored);
    }
    let mut seals = Vec::new();
    for (strand, stream) in everything {
        assert_eq!(strand, id("front"));
        seals.extend(stream.map(|bytes| Seal::of(&bytes.unwrap())));
    }
    assert_eq!(seals.len(), MANY);
    assert_eq!(seals.last(), Some(&heads.read().unwrap()[0].2));
    assert_eq!(checked(&reader, &heads.read().unwrap()).0.strands.len(), 2);
}
