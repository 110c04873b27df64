//! Copies of the record while it is in use.

use std::fs;
use std::thread;

use drybench::record::log::Appended;
use drybench::store::{CopyProblem, Heads, HeadsFile, SqliteLog};
use drybench::units::Digest;

use super::{append, checked, row, sample};

#[test]
fn a_copy_made_while_others_write_is_sound_and_a_beginning_of_the_record() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let log = sample(&path);
    let writer = {
        let path = path.clone();
        thread::spawn(move || {
            let mut log = SqliteLog::open(&path).unwrap();
            for entry in row("third", 60, false) {
                assert_eq!(append(&mut log, &entry), Appended::Stored);
            }
        })
    };
    for number in 0..6 {
        let to = folder.path().join(format!("copy-{number}.db"));
        let copied = log.copy_to(&to).unwrap();
        assert_eq!(copied.digest, Digest::of(&[&fs::read(&to).unwrap()]));
        let copy = SqliteLog::open(&to).unwrap();
        assert!(copy.restored_guards().is_empty());
        let strands = copy.copy().unwrap();
        let (_, bad) = checked(&copy, &copied.heads);
        assert_eq!(bad, []);
        let original = log.copy().unwrap();
        for (strand, rows) in &strands {
            assert_eq!(original[strand][..rows.len()], rows[..]);
        }
        assert_eq!(strands[&super::id("front")].len(), 12);
        // The heads of the copy are written as for any other record.
        let heads = HeadsFile::beside(&to);
        heads.renew(&copy).unwrap();
        assert_eq!(heads.read().unwrap(), copied.heads);
    }
    writer.join().unwrap();
    let drafts = fs::read_dir(folder.path()).unwrap();
    let drafts = drafts.filter(|entry| {
        let name = entry.as_ref().unwrap().file_name();
        name.to_string_lossy().contains("draft")
    });
    assert_eq!(drafts.count(), 0);
}

#[test]
fn a_copy_overwrites_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let log = sample(&folder.path().join("record.db"));
    let to = folder.path().join("taken");
    for content in [&b""[..], b"something"] {
        fs::write(&to, content).unwrap();
        assert_eq!(log.copy_to(&to), Err(CopyProblem::Taken));
        assert_eq!(fs::read(&to).unwrap(), content);
    }
    let itself = log.copy_to(&folder.path().join("record.db"));
    assert_eq!(itself, Err(CopyProblem::Taken));
    assert_eq!(checked(&log, &Heads::new()).1, []);
}

#[test]
fn a_damaged_record_gives_no_copy() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let log = sample(&path);
    let third = log.copy().unwrap()[&super::id("front")][2].clone();
    drop(log);
    let mut file = fs::read(&path).unwrap();
    let at = file
        .windows(third.len())
        .position(|window| window == third)
        .unwrap();
    file[at + 20] ^= 1;
    fs::write(&path, file).unwrap();
    let log = SqliteLog::open(&path).unwrap();
    let to = folder.path().join("copy.db");
    assert_eq!(log.copy_to(&to), Err(CopyProblem::Differs));
    assert!(!to.exists());
}
