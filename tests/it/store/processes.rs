//! Several processes at one record. The test binary starts itself: ignored tests are what it then does.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::{Arc, Barrier};
use std::thread;
use std::time::{Duration, Instant};

use drybench::record::log::{Appended, Log, Trouble, WhyNot};
use drybench::store::{HeadsFile, SqliteLog, Standing};
use rusqlite::Connection;

use super::{append, checked, id, noted, row, sample};

/// Where a started test finds the record.
pub(super) const RECORD: &str = "DRYBENCH_TEST_RECORD";
/// As what it writes.
const WRITER: &str = "DRYBENCH_TEST_WRITER";
/// How many entries each writer adds to each strand.
const EACH: usize = 25;

/// This binary, about to run one ignored test on a record.
pub(super) fn started(test: &str, record: &Path) -> Command {
    let mut command = Command::new(env::current_exe().unwrap());
    command
        .args([
            test,
            "--exact",
            "--ignored",
            "--nocapture",
            "--test-threads=1",
        ])
        .env(RECORD, record)
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .stdout(Stdio::piped());
    command
}

pub(super) fn record() -> PathBuf {
    env::var(RECORD).unwrap().into()
}

#[test]
#[ignore = "started by two_processes_write_without_gap_or_loss"]
fn writes_beside_another() {
    let writer = env::var(WRITER).unwrap();
    let path = record();
    let mut log = SqliteLog::open(&path).unwrap();
    let heads = HeadsFile::beside(&path);
    for number in 0..EACH {
        let what = format!("{writer} {number}");
        loop {
            let head = log.head(&id("shared")).unwrap();
            let entry = noted("shared", head.as_ref(), &what);
            match log.append(head.as_ref(), &entry) {
                Appended::Stored => break,
                Appended::NotStored(WhyNot::HeadMoved(_)) => {}
                other => panic!("{other:?}"),
            }
        }
        let head = log.head(&id(&writer)).unwrap();
        let own = noted(&writer, head.as_ref(), &what);
        assert_eq!(log.append(head.as_ref(), &own), Appended::Stored);
        let remembered = heads.follow(&log).unwrap();
        let fits = |standing| matches!(standing, Standing::Same | Standing::Lags(_));
        assert!(remembered.iter().all(|head| fits(head.standing)));
    }
}

#[test]
fn two_processes_write_without_gap_or_loss() {
    for _ in 0..8 {
        let folder = tempfile::tempdir().unwrap();
        // There is no file yet: they also make it at the same time.
        let path = folder.path().join("record.db");
        let children = ["one", "two"].map(|writer| {
            let mut command = started("store::processes::writes_beside_another", &path);
            command.env(WRITER, writer).stderr(Stdio::piped());
            command.spawn().unwrap()
        });
        for child in children {
            let ended = child.wait_with_output().unwrap();
            let said = String::from_utf8_lossy(&ended.stdout);
            let complained = String::from_utf8_lossy(&ended.stderr);
            assert!(
                ended.status.success() && said.contains("1 passed"),
                "{said}{complained}"
            );
        }
        let log = SqliteLog::open(&path).unwrap();
        let strands = log.copy().unwrap();
        let lengths: Vec<usize> = strands.values().map(Vec::len).collect();
        assert_eq!(lengths, [EACH, 2 * EACH, EACH]);
        let heads = HeadsFile::beside(&path);
        heads.follow(&log).unwrap();
        assert_eq!(checked(&log, &heads.read().unwrap()).1, []);
        assert_eq!(log.misfiled().unwrap(), []);
    }
}

#[test]
fn of_two_connections_the_later_is_told_that_the_head_moved() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let mut one = sample(&path);
    let mut other = SqliteLog::open(&path).unwrap();
    let head = one.head(&id("front")).unwrap();
    let first = noted("front", head.as_ref(), "first");
    let second = noted("front", head.as_ref(), "second");
    assert_eq!(one.append(head.as_ref(), &first), Appended::Stored);
    let moved = Appended::NotStored(WhyNot::HeadMoved(Some(first.head())));
    assert_eq!(other.append(head.as_ref(), &second), moved);
    let again = noted("front", Some(&first.head()), "second");
    assert_eq!(other.append(Some(&first.head()), &again), Appended::Stored);
    assert_eq!(one.head(&id("front")), Ok(Some(again.head())));
}

#[test]
fn a_writer_waits_for_another_but_not_for_ever() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    drop(sample(&path));
    let mut log = SqliteLog::open(&path).unwrap();
    let entry = row("third", 1, false).remove(0);
    let holder = Connection::open(&path).unwrap();
    holder.execute_batch("BEGIN IMMEDIATE").unwrap();
    let begun = Instant::now();
    let refused = append(&mut log, &entry);
    assert_eq!(
        refused,
        Appended::NotStored(WhyNot::Trouble(Trouble::Unreachable))
    );
    assert!(begun.elapsed() >= Duration::from_secs(4));
    let letting_go = thread::spawn(move || {
        thread::sleep(Duration::from_millis(200));
        holder.execute_batch("ROLLBACK").unwrap();
    });
    assert_eq!(append(&mut log, &entry), Appended::Stored);
    letting_go.join().unwrap();
}

#[test]
fn a_copy_in_the_place_of_the_record_that_another_holds_is_not_waited_for_for_ever() {
    let folder = tempfile::tempdir().unwrap();
    let (path, copy) = (
        folder.path().join("record.db"),
        folder.path().join("copy.db"),
    );
    sample(&path).copy_to(&copy).unwrap();
    // A copy has no write-ahead log yet, and whoever reads it keeps it from getting one.
    let holder = Connection::open(&copy).unwrap();
    holder
        .execute_batch("BEGIN; SELECT count(*) FROM entries")
        .unwrap();
    let opened = SqliteLog::open(&copy).map(drop);
    assert_eq!(opened, Err(Trouble::Unreachable));
    drop(holder);
    assert!(SqliteLog::open(&copy).is_ok());
}

#[test]
fn many_may_make_the_record_at_once() {
    for round in 0..40 {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("record.db");
        let begin = Arc::new(Barrier::new(4));
        let openers: Vec<_> = (0..4)
            .map(|_| {
                let (path, begin) = (path.clone(), Arc::clone(&begin));
                thread::spawn(move || {
                    begin.wait();
                    SqliteLog::open(&path).map(|log| log.restored_guards().len())
                })
            })
            .collect();
        for opener in openers {
            assert_eq!(opener.join().unwrap(), Ok(0), "round {round}");
        }
    }
}
