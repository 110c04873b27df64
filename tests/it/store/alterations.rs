//! Rows that somebody changes past the guards are found, and the first of them is named.

use std::fs;
use std::path::Path;

use drybench::record::log::{Log as _, Trouble};
use drybench::record::seal::Seal;
use drybench::store::{HeadsFile, Misfiled, SqliteLog};
use rusqlite::{Connection, params};

use super::{Dice, checked, id, sample};

pub(super) type Row = (i64, [u8; 32], Vec<u8>);

/// Writes a strand anew, as whoever owns the file can.
pub(super) fn rewrite(path: &Path, strand: &str, rows: &[Row]) {
    let owner = Connection::open(path).unwrap();
    owner
        .execute_batch(
            "BEGIN; DROP TRIGGER entries_are_not_deleted; DROP TRIGGER entries_are_added_behind;",
        )
        .unwrap();
    owner
        .execute("DELETE FROM entries WHERE strand = ?1", [strand])
        .unwrap();
    for (number, seal, bytes) in rows {
        owner
            .execute(
                "INSERT INTO entries VALUES (?1, ?2, ?3, ?4)",
                params![strand, number, seal, bytes],
            )
            .unwrap();
    }
    owner.execute_batch("COMMIT").unwrap();
}

/// Rows with numbers and seals that fit, as a careful forger would write them.
fn fitting(bytes: Vec<Vec<u8>>) -> Vec<Row> {
    let row = |(number, bytes): (i64, Vec<u8>)| (number, Seal::of(&bytes).0.0, bytes);
    (1..).zip(bytes).map(row).collect()
}

/// Changes the entries of a strand. Returns what was done, and the number that has to be named first.
fn alter(rows: &mut Vec<Vec<u8>>, other: &[Vec<u8>], dice: &mut Dice) -> (&'static str, u64) {
    let at = dice.below(rows.len());
    let number = |at: usize| at as u64 + 1;
    match dice.below(6) {
        0 => {
            let bit = dice.below(rows[at].len() * 8);
            rows[at][bit / 8] ^= 1 << (bit % 8);
            ("a bit", number(at))
        }
        1 => {
            rows.remove(at);
            ("one dropped", number(at))
        }
        2 => {
            let at = at.min(rows.len() - 2);
            rows.swap(at, at + 1);
            ("two swapped", number(at))
        }
        3 => {
            let row = rows[at].clone();
            rows.insert(at + 1, row);
            ("one twice", number(at))
        }
        4 => {
            let row = other[dice.below(other.len())].clone();
            rows.insert(at, row);
            ("one of another strand", number(at))
        }
        _ => {
            let at = at.min(rows.len() - 2);
            let row = rows.remove(at);
            rows.push(row);
            ("one renumbered to the end", number(at))
        }
    }
}

#[test]
fn whatever_is_written_past_the_guards_is_found_and_the_first_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let original = folder.path().join("record.db");
    let log = sample(&original);
    let file = HeadsFile::beside(&original);
    file.follow(&log).unwrap();
    let heads = file.read().unwrap();
    let strands = log.copy().unwrap();
    drop(log);
    let path = folder.path().join("altered.db");
    let mut dice = Dice(1);
    let mut kinds = std::collections::BTreeMap::new();
    for round in 0..120 {
        fs::copy(&original, &path).unwrap();
        let (name, beside) = if round % 2 == 0 {
            ("front", "bench")
        } else {
            ("bench", "front")
        };
        let mut rows = strands[&id(name)].clone();
        let (kind, first) = alter(&mut rows, &strands[&id(beside)], &mut dice);
        rewrite(&path, name, &fitting(rows));
        let log = SqliteLog::open(&path).unwrap();
        assert_eq!(log.restored_guards().len(), 2);
        let (found, bad) = checked(&log, &heads);
        let strand = found.strands.iter().find(|found| found.strand == id(name));
        assert_eq!(
            strand.unwrap().first_bad,
            Some(first),
            "round {round}: {kind}: {bad:#?}"
        );
        *kinds.entry(kind).or_insert(0) += 1;
    }
    assert!(
        kinds.len() == 6 && kinds.values().all(|&times| times > 8),
        "{kinds:?}"
    );
}

#[test]
fn columns_that_do_not_fit_their_bytes_are_found() {
    let folder = tempfile::tempdir().unwrap();
    let original = folder.path().join("record.db");
    let strands = sample(&original).copy().unwrap();
    let path = folder.path().join("altered.db");
    let rows = fitting(strands[&id("front")].clone());
    for at in 0..rows.len() {
        for renumbered in [false, true] {
            fs::copy(&original, &path).unwrap();
            let mut altered = rows.clone();
            let last = at + 1 == rows.len();
            if renumbered {
                altered[at].0 += 100;
            } else {
                altered[at].1[7] ^= 1;
            }
            rewrite(&path, "front", &altered);
            let log = SqliteLog::open(&path).unwrap();
            let row = |number| Misfiled {
                strand: "front".to_owned(),
                number,
            };
            // A row that went away is missed at the next one.
            let first = match (renumbered, last) {
                (false, _) => rows[at].0,
                (true, false) => rows[at + 1].0,
                (true, true) => altered[at].0,
            };
            assert_eq!(log.misfiled().unwrap().first(), Some(&row(first)));
            if last || renumbered {
                assert_eq!(log.head(&id("front")), Err(Trouble::Damaged));
            }
        }
    }
}

#[test]
fn a_byte_that_flips_in_the_file_is_found_in_its_entry() {
    let folder = tempfile::tempdir().unwrap();
    let original = folder.path().join("record.db");
    let log = sample(&original);
    let strands = log.copy().unwrap();
    let heads = log.copy_to(&folder.path().join("copy.db")).unwrap().heads;
    drop(log);
    let file = fs::read(&original).unwrap();
    let path = folder.path().join("altered.db");
    let mut dice = Dice(7);
    for (number, bytes) in (1_u64..).zip(&strands[&id("bench")]) {
        // Closed, the file holds everything; a short entry stands in one piece.
        let start = file
            .windows(bytes.len())
            .position(|window| window == bytes)
            .unwrap();
        for _ in 0..8 {
            let mut flipped = file.clone();
            flipped[start + dice.below(bytes.len())] ^= 1 << dice.below(8);
            fs::write(&path, flipped).unwrap();
            let log = SqliteLog::open(&path).unwrap();
            let (found, _) = checked(&log, &heads);
            assert_eq!(found.strands[0].first_bad, Some(number));
            assert_eq!(found.strands[1].first_bad, None);
            assert_eq!(log.misfiled().unwrap().len(), 1);
        }
    }
}
