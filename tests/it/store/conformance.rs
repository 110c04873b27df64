//! What every log has to do. The strict one in memory and the one in a file go through the same suite.

use drybench::record::entry::Entry;
use drybench::record::log::{Appended, Log, MemoryLog, WhyNot};
use drybench::record::scope::Id;
use drybench::store::SqliteLog;

use super::{append, id, noted, row};

fn bytes(log: &dyn Log, strand: &str, from: u64) -> Vec<Vec<u8>> {
    log.entries(&id(strand), from).map(Result::unwrap).collect()
}

fn conforms(open: &dyn Fn() -> Box<dyn Log>) {
    an_empty_log_has_nothing(open().as_mut());
    entries_come_back_as_they_were(open().as_mut());
    of_two_writers_the_second_is_told(open().as_mut());
    an_entry_out_of_line_is_refused(open().as_mut());
    strands_are_apart(open().as_mut());
    everything_is_every_strand(open().as_mut());
}

fn an_empty_log_has_nothing(log: &mut dyn Log) {
    assert_eq!(log.strands(), Ok(Vec::new()));
    assert_eq!(log.head(&id("front")), Ok(None));
    assert!(bytes(log, "front", 1).is_empty());
}

fn entries_come_back_as_they_were(log: &mut dyn Log) {
    let entries = row("front", 7, true);
    for entry in &entries {
        assert_eq!(append(log, entry), Appended::Stored);
        assert_eq!(log.head(&id("front")), Ok(Some(entry.head())));
    }
    let all: Vec<Vec<u8>> = entries.iter().map(Entry::bytes).collect();
    for from in 0..=9 {
        let skipped = usize::try_from(from).unwrap().saturating_sub(1).min(7);
        assert_eq!(bytes(log, "front", from), all[skipped..], "from {from}");
    }
    assert!(bytes(log, "front", u64::MAX).is_empty());
}

fn of_two_writers_the_second_is_told(log: &mut dyn Log) {
    let first = noted("front", None, "first");
    let second = noted("front", None, "second");
    assert_eq!(log.append(None, &first), Appended::Stored);
    let moved = Appended::NotStored(WhyNot::HeadMoved(Some(first.head())));
    assert_eq!(log.append(None, &second), moved);
    assert_eq!(log.append(None, &first), moved);
    assert_eq!(log.append(Some(&second.head()), &second), moved);
    assert_eq!(bytes(log, "front", 1), [first.bytes()]);
    let again = noted("front", Some(&first.head()), "second");
    assert_eq!(log.append(Some(&first.head()), &again), Appended::Stored);
}

fn an_entry_out_of_line_is_refused(log: &mut dyn Log) {
    let entries = row("front", 3, true);
    let out = Appended::NotStored(WhyNot::OutOfLine);
    assert_eq!(log.append(None, &entries[1]), out);
    assert_eq!(log.append(None, &entries[0]), Appended::Stored);
    let head = entries[0].head();
    assert_eq!(log.append(Some(&head), &entries[0]), out);
    assert_eq!(log.append(Some(&head), &entries[2]), out);
    // The right number behind another entry.
    let other = noted("front", None, "other").head();
    let astray = noted("front", Some(&other), "astray");
    assert_eq!(log.append(Some(&head), &astray), out);
    assert_eq!(bytes(log, "front", 1), [entries[0].bytes()]);
    assert_eq!(log.append(Some(&head), &entries[1]), Appended::Stored);
}

fn strands_are_apart(log: &mut dyn Log) {
    let (front, bench) = (row("front", 3, true), row("bench", 3, false));
    for (one, other) in front.iter().zip(&bench) {
        assert_eq!(append(log, one), Appended::Stored);
        assert_eq!(append(log, other), Appended::Stored);
    }
    assert_eq!(log.strands(), Ok(vec![id("bench"), id("front")]));
    for (name, entries) in [("front", front), ("bench", bench)] {
        let all: Vec<Vec<u8>> = entries.iter().map(Entry::bytes).collect();
        assert_eq!(bytes(log, name, 1), all);
        assert_eq!(log.head(&id(name)), Ok(Some(entries[2].head())));
    }
    assert_eq!(log.head(&id("back")), Ok(None));
}

fn everything_is_every_strand(log: &mut dyn Log) {
    assert!(log.everything().unwrap().is_empty());
    // More than a store reads at once.
    for strand in ["front", "bench"] {
        for entry in row(strand, 300, strand == "front") {
            assert_eq!(append(log, &entry), Appended::Stored);
        }
    }
    let read = log
        .everything()
        .unwrap()
        .into_iter()
        .map(|(strand, stream)| {
            let entries: Vec<Vec<u8>> = stream.map(Result::unwrap).collect();
            (strand, entries)
        });
    let read: Vec<(Id, Vec<Vec<u8>>)> = read.collect();
    let expected = ["bench", "front"].map(|name| (id(name), bytes(log, name, 1)));
    assert_eq!(read, expected);
    assert_eq!(read[0].1.len(), 300);
}

#[test]
fn the_log_in_memory_conforms() {
    conforms(&|| Box::new(MemoryLog::new()));
}

#[test]
fn the_log_in_a_file_conforms() {
    let folder = tempfile::tempdir().unwrap();
    let count = std::cell::Cell::new(0);
    conforms(&|| {
        count.set(count.get() + 1);
        let path = folder.path().join(format!("{}.db", count.get()));
        Box::new(SqliteLog::open(&path).unwrap())
    });
}

#[test]
fn what_was_stored_is_there_when_the_file_is_opened_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let entries = row("front", 5, true);
    for entry in &entries {
        let mut log = SqliteLog::open(&path).unwrap();
        assert_eq!(append(&mut log, entry), Appended::Stored);
    }
    let log = SqliteLog::open(&path).unwrap();
    let all: Vec<Vec<u8>> = entries.iter().map(Entry::bytes).collect();
    assert_eq!(bytes(&log, "front", 1), all);
    assert!(log.restored_guards().is_empty());
}
