//! Faults that only the log's own connection can be given: no room, a refused commit, an interruption at every step.

use std::ops::ControlFlow;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use super::SqliteLog;
use crate::record::entry::{BackupMade, Entry};
use crate::record::log::{Appended, Log as _, Trouble, WhyNot};
use crate::record::scribe::{Scribe, digest, id};
use crate::record::strand::Head;
use crate::record::verify::{Known, OneHand, verify};

/// A founded record with so many entries behind it, all on one strand.
fn entries(count: usize) -> Vec<Entry> {
    let mut scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
    for number in 0..count {
        let copy = digest(&number.to_string());
        scribe.note(BackupMade { copy });
    }
    scribe.entries
}

fn last(log: &SqliteLog) -> Option<Head> {
    log.head(&id("front")).unwrap()
}

fn append(log: &mut SqliteLog, entry: &Entry) -> Appended {
    let head = last(log);
    log.append(head.as_ref(), entry)
}

/// Checks that exactly these entries are in the file, for whoever opens it next.
fn holds_exactly(log: &SqliteLog, expected: &[Entry]) {
    let fresh = SqliteLog::open(&log.path).unwrap();
    let expected: Vec<Vec<u8>> = expected.iter().map(Entry::bytes).collect();
    for log in [log, &fresh] {
        let strands = log.copy().unwrap();
        let stored = strands.get(&id("front")).cloned().unwrap_or_default();
        assert_eq!(stored.len(), expected.len());
        assert_eq!(stored, expected);
        assert_eq!(log.misfiled().unwrap(), []);
        let mut bad = Vec::new();
        let everything = log.everything().unwrap();
        let mut on = |_| ControlFlow::Continue(());
        let tell = &mut |found| bad.push(found);
        verify(everything, Known::default(), &OneHand, tell, &mut on).unwrap();
        assert_eq!(bad, []);
    }
}

#[test]
fn a_full_database_stores_nothing_more_and_goes_on_when_there_is_room() {
    let folder = tempfile::tempdir().unwrap();
    let mut log = SqliteLog::open(&folder.path().join("record.db")).unwrap();
    log.connection
        .pragma_update(None, "max_page_count", 4)
        .unwrap();
    let entries = entries(200);
    let mut stored = 0;
    let refused = loop {
        match append(&mut log, &entries[stored]) {
            Appended::Stored => stored += 1,
            refused => break refused,
        }
    };
    let full = Appended::NotStored(WhyNot::Trouble(Trouble::Full));
    assert_eq!(refused, full);
    assert!(stored > 2, "{stored}");
    assert_eq!(append(&mut log, &entries[stored]), full);
    holds_exactly(&log, &entries[..stored]);
    log.connection
        .pragma_update(None, "max_page_count", 10_000)
        .unwrap();
    for entry in &entries[stored..] {
        assert_eq!(append(&mut log, entry), Appended::Stored);
    }
    holds_exactly(&log, &entries);
}

#[test]
fn a_refused_commit_stores_nothing_and_the_next_entry_links() {
    let folder = tempfile::tempdir().unwrap();
    let mut log = SqliteLog::open(&folder.path().join("record.db")).unwrap();
    let entries = entries(3);
    assert_eq!(append(&mut log, &entries[0]), Appended::Stored);
    log.connection.commit_hook(Some(|| true)).unwrap();
    for _ in 0..2 {
        let refused = append(&mut log, &entries[1]);
        assert_eq!(
            refused,
            Appended::NotStored(WhyNot::Trouble(Trouble::Unreachable))
        );
        assert!(log.connection.is_autocommit());
        holds_exactly(&log, &entries[..1]);
    }
    log.connection.commit_hook(None::<fn() -> bool>).unwrap();
    for entry in &entries[1..] {
        assert_eq!(append(&mut log, entry), Appended::Stored);
    }
    holds_exactly(&log, &entries);
}

/// Appends with an interruption at this step of SQLite's machine, once or from there on. Returns what was said and how many steps there were.
fn interrupted(
    log: &mut SqliteLog,
    head: Option<&Head>,
    entry: &Entry,
    at: u64,
    lasting: bool,
) -> (Appended, u64) {
    let steps = Arc::new(AtomicU64::new(0));
    let counted = Arc::clone(&steps);
    let stop = move || {
        let step = counted.fetch_add(1, Ordering::Relaxed) + 1;
        step == at || lasting && step > at
    };
    log.connection.progress_handler(1, Some(stop)).unwrap();
    let said = log.append(head, entry);
    // Where the log had to connect anew there is no handler any more, and this changes nothing.
    log.connection
        .progress_handler(0, None::<fn() -> bool>)
        .unwrap();
    (said, steps.load(Ordering::Relaxed))
}

#[test]
#[expect(clippy::print_stdout, reason = "how much was tried")]
fn an_append_that_is_interrupted_anywhere_says_truly_what_became_of_it() {
    for lasting in [false, true] {
        let folder = tempfile::tempdir().unwrap();
        let mut log = SqliteLog::open(&folder.path().join("record.db")).unwrap();
        let entries = entries(400);
        assert_eq!(append(&mut log, &entries[0]), Appended::Stored);
        let (mut stored, mut refused, mut unknown, mut late) = (1, 0, 0, 0);
        let mut points = 0;
        for at in 1.. {
            let entry = &entries[stored];
            let head = last(&log);
            let (said, steps) = interrupted(&mut log, head.as_ref(), entry, at, lasting);
            assert!(log.connection.is_autocommit(), "step {at}");
            let there = SqliteLog::open(&log.path).unwrap();
            let there = last(&there) == Some(entry.head());
            match said {
                Appended::Stored => {
                    assert!(there, "step {at}");
                    stored += 1;
                    late += u64::from(steps >= at);
                }
                Appended::NotStored(why) => {
                    assert_eq!(why, WhyNot::Trouble(Trouble::Unreachable), "step {at}");
                    assert!(!there, "step {at}");
                    refused += 1;
                }
                Appended::Unknown => {
                    stored += usize::from(there);
                    unknown += 1;
                }
            }
            if steps < at {
                break;
            }
            points += 1;
        }
        println!(
            "interrupted at {points} points, lasting {lasting}: {refused} refused, {late} stored, {unknown} unknown"
        );
        assert!(points > 30 && refused > 20, "{points} points, {refused}");
        assert_eq!(unknown, 0, "a file that can be read leaves nothing unknown");
        for entry in &entries[stored..stored + 3] {
            assert_eq!(append(&mut log, entry), Appended::Stored);
        }
        holds_exactly(&log, &entries[..stored + 3]);
    }
}

#[test]
fn an_entry_is_found_by_its_seal_whatever_came_after_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut log = SqliteLog::open(&folder.path().join("record.db")).unwrap();
    let entries = entries(2);
    for entry in &entries {
        assert_eq!(append(&mut log, entry), Appended::Stored);
    }
    let look = |log: &mut SqliteLog, entry, may_return| log.look(entry, Trouble::Full, may_return);
    assert_eq!(look(&mut log, &entries[0], false), Appended::Stored);
    let next = super::tests::entries(2 + 1).pop().unwrap();
    assert_eq!(
        look(&mut log, &next, false),
        Appended::NotStored(WhyNot::Trouble(Trouble::Full))
    );
    assert_eq!(look(&mut log, &next, true), Appended::Unknown);
}
