//! What the heads file remembers, what it refuses to forget, and what it is not.

use std::fs;

use super::*;
use crate::record::entry::{BackupMade, Entry};
use crate::record::log::{Appended, MemoryLog};
use crate::record::scribe::{Scribe, digest, id};

fn entries(tag: &str, count: usize) -> Vec<Entry> {
    let mut scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
    for number in 0..count {
        let copy = digest(&format!("{tag} {number}"));
        scribe.note(BackupMade { copy });
    }
    scribe.entries
}

fn log_of(entries: &[Entry]) -> MemoryLog {
    let mut log = MemoryLog::new();
    for entry in entries {
        let head = log.head(&entry.frame().strand).unwrap();
        assert_eq!(log.append(head.as_ref(), entry), Appended::Stored);
    }
    log
}

fn standings(file: &HeadsFile, log: &MemoryLog) -> Vec<Standing> {
    let compared = file.compare(log).unwrap();
    compared.into_iter().map(|found| found.standing).collect()
}

#[test]
fn it_follows_the_log_and_no_draft_stays() {
    let folder = tempfile::tempdir().unwrap();
    let file = HeadsFile::beside(&folder.path().join("record.db"));
    let entries = entries("one", 5);
    assert_eq!(file.read(), Ok(Heads::new()));
    for length in 1..=entries.len() {
        let log = log_of(&entries[..length]);
        file.follow(&log).unwrap();
        let head = entries[length - 1].head();
        assert_eq!(file.read(), Ok(vec![(id("front"), head.number, head.seal)]));
        assert_eq!(standings(&file, &log), [Standing::Same]);
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    assert_eq!(file.path(), folder.path().join("record.db.heads"));
    fs::remove_file(file.path()).unwrap();
    assert_eq!(file.read(), Ok(Heads::new()));
}

#[test]
fn a_log_that_grows_on_from_a_cut_does_not_wipe_out_what_is_remembered() {
    let folder = tempfile::tempdir().unwrap();
    let file = HeadsFile::beside(&folder.path().join("record.db"));
    let written = entries("one", 5);
    file.follow(&log_of(&written)).unwrap();
    let remembered = file.read().unwrap();
    let cut = log_of(&written[..4]);
    assert_eq!(standings(&file, &cut), [Standing::Leads(2)]);
    assert_eq!(standings(&file, &MemoryLog::new()), [Standing::Leads(6)]);
    let other = entries("other", 9);
    // Beside it another strand goes on, so that the file is written every time.
    let mut bench = Scribe::founded("2026-01-05T08:00:00+01:00");
    bench.on_strand("bench");
    for length in 1..other.len() {
        let copy = digest(&length.to_string());
        bench.note(BackupMade { copy });
        let log = log_of(&[&other[..length], &bench.entries[1..]].concat());
        file.follow(&log).unwrap();
        let now = file.read().unwrap();
        assert_eq!((now[0].0.clone(), now[0].1), (id("bench"), length as u64));
        assert_eq!(now[1..], remembered);
        let expected = if length < 6 {
            Standing::Leads(6 - length as u64)
        } else {
            Standing::Differs
        };
        assert_eq!(
            standings(&file, &log),
            [Standing::Same, expected],
            "{length}"
        );
    }
    file.renew(&log_of(&other)).unwrap();
    assert_eq!(standings(&file, &log_of(&other)), [Standing::Same]);
}

#[test]
fn a_file_that_lags_is_told_by_how_much() {
    let folder = tempfile::tempdir().unwrap();
    let file = HeadsFile::beside(&folder.path().join("record.db"));
    let written = entries("one", 5);
    file.follow(&log_of(&written[..2])).unwrap();
    assert_eq!(standings(&file, &log_of(&written)), [Standing::Lags(4)]);
    let before = file.follow(&log_of(&written)).unwrap();
    assert_eq!(before[0].standing, Standing::Lags(4));
    assert_eq!(standings(&file, &log_of(&written)), [Standing::Same]);
}

#[test]
fn what_is_no_heads_file_is_said_to_be_damaged_or_newer() {
    let folder = tempfile::tempdir().unwrap();
    let file = HeadsFile::beside(&folder.path().join("record.db"));
    let seal = Seal::of(b"entry");
    let line = format!("front 3 {seal}\n");
    let good = format!("drybench heads 1\n{line}");
    fs::write(file.path(), &good).unwrap();
    assert_eq!(file.read(), Ok(vec![(id("front"), 3, seal)]));
    fs::write(file.path(), good.replace("heads 1", "heads 2")).unwrap();
    assert_eq!(file.read(), Err(Trouble::Newer(2)));
    for wrong in [
        String::new(),
        "drybench heads 1".to_owned(),
        good.replace("heads 1", "heads 0"),
        good.replace("front", "Front"),
        good.replace(" 3 ", " 0 "),
        good.replace(" 3 ", " -3 "),
        good.trim_end().to_owned(),
        format!("{good}{line}"),
        good.replace('\n', " x\n"),
        good[..good.len() - 2].to_owned() + "\n",
    ] {
        fs::write(file.path(), &wrong).unwrap();
        assert_eq!(file.read(), Err(Trouble::Damaged), "{wrong:?}");
    }
    fs::write(file.path(), [0xff, 0xfe]).unwrap();
    assert_eq!(file.read(), Err(Trouble::Damaged));
}

#[test]
fn a_file_that_cannot_be_replaced_stays_whole() {
    let folder = tempfile::tempdir().unwrap();
    let file = HeadsFile::beside(&folder.path().join("record.db"));
    fs::create_dir_all(file.path().join("in-the-way")).unwrap();
    assert!(file.renew(&log_of(&entries("one", 1))).is_err());
    assert!(file.path().join("in-the-way").is_dir());
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}
