//! The register's file, looked at from outside: what is in its bytes, and what it refuses.

use std::fs;
use std::path::Path;

use drybench::people::{NameVersion, Register, Salt};
use drybench::record::log::Trouble;
use drybench::store::{RegisterFile, RegisterProblem};
use drybench::units::{Instant, PersonCode};
use rusqlite::Connection;

use super::Dice;

fn version(name: &str, salt: u64, since: i64) -> NameVersion {
    let mut dice = Dice(salt);
    NameVersion {
        name: name.parse().ok().unwrap(),
        salt: Salt([0; 32].map(|_: u8| u8::try_from(dice.below(256)).unwrap())),
        since: Instant::from_epoch(since),
    }
}

fn code(number: u16) -> PersonCode {
    let [high, low] = number.to_be_bytes();
    PersonCode::from_random([high, low >> 4, low & 15, 7, 7])
}

/// So many people with two names each.
fn register(count: u16) -> Register {
    let mut register = Register::new();
    for number in 0..count {
        let names = [("First", 0), ("Second", 1)].map(|(word, later)| {
            let name = format!("{word} Invented Number {number:04}");
            version(
                &name,
                u64::from(number) * 2 + later,
                100 + i64::from(number),
            )
        });
        register.restore(code(number), names.to_vec()).unwrap();
    }
    register
}

/// In how many files of a folder these bytes stand.
pub(super) fn standing_in(folder: &Path, needle: &[u8]) -> usize {
    let mut count = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let bytes = fs::read(entry.unwrap().path()).unwrap();
        count += usize::from(bytes.windows(needle.len()).any(|window| window == needle));
    }
    count
}

#[test]
fn a_register_comes_back_as_it_was_written() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("register.sqlite");
    let mut file = RegisterFile::open(&path).unwrap();
    assert!(file.read().unwrap() == Register::new());
    let mut names = register(20);
    names.erase(code(3)).unwrap();
    file.write(&names).unwrap();
    assert!(file.read().unwrap() == names);
    names.rename(code(4), version("Third", 99, 500)).unwrap();
    names
        .issue(&[[1; 5]], &|_| false, version("New", 98, 500))
        .unwrap();
    file.write(&names).unwrap();
    file.write(&names).unwrap();
    drop(file);
    let file = RegisterFile::open(&path).unwrap();
    assert!(file.read().unwrap() == names);
}

#[test]
fn after_an_erasure_neither_names_nor_salts_are_in_any_byte_of_any_file() {
    for count in [1, 3, 40, 400] {
        let folder = tempfile::tempdir().unwrap();
        let mut file = RegisterFile::open(&folder.path().join("register.sqlite")).unwrap();
        let mut names = register(count);
        file.write(&names).unwrap();
        // Two at once, then one by one; the first, the last, some between.
        for gone in [vec![0, count / 2], vec![count - 1], vec![count / 3]] {
            let mut searched = Vec::new();
            for number in gone {
                if names.erase(code(number)).is_err() {
                    continue;
                }
                for (later, word) in (0..2).zip(["First", "Second"]) {
                    let name = format!("{word} Invented Number {number:04}");
                    let salt = version("x", u64::from(number) * 2 + later, 0).salt;
                    searched.push(name.into_bytes());
                    searched.push(salt.0.to_vec());
                    searched.push(salt.0[8..24].to_vec());
                }
            }
            for needle in &searched {
                assert!(
                    standing_in(folder.path(), needle) > 0,
                    "it was there before"
                );
            }
            file.write(&names).unwrap();
            for needle in &searched {
                assert_eq!(standing_in(folder.path(), needle), 0, "{count} people");
            }
            assert!(file.read().unwrap() == names);
        }
        if count > 3 {
            assert!(standing_in(folder.path(), b"First Invented Number 0001") > 0);
        }
        drop(file);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }
}

#[test]
fn a_register_that_was_read_before_somebody_else_wrote_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("register.sqlite");
    let mut one = RegisterFile::open(&path).unwrap();
    let mut other = RegisterFile::open(&path).unwrap();
    let before = register(5);
    one.write(&before).unwrap();

    let mut added = before.clone();
    added
        .issue(&[[1; 5]], &|_| false, version("New", 98, 500))
        .unwrap();
    let mut renamed = before.clone();
    renamed.rename(code(2), version("Third", 99, 500)).unwrap();
    let mut erased = before.clone();
    erased.erase(code(2)).unwrap();
    other.write(&added).unwrap();
    for stale in [&before, &renamed, &erased] {
        assert_eq!(one.write(stale), Err(RegisterProblem::Behind));
        assert!(one.read().unwrap() == added, "nothing of it was written");
    }
    let mut now = one.read().unwrap();
    now.erase(code(2)).unwrap();
    assert_eq!(one.write(&now), Ok(()));
    // An erased name does not come back.
    assert_eq!(other.write(&added), Err(RegisterProblem::Behind));
    // Nor does a name change that was written.
    let mut otherwise = Register::new();
    for (code, names) in now.rows() {
        let mut names = names.to_vec();
        if let Some(first) = names.first_mut() {
            first.since = Instant::from_epoch(1);
        }
        otherwise.restore(code, names).unwrap();
    }
    assert_eq!(other.write(&otherwise), Err(RegisterProblem::Behind));
    assert!(other.read().unwrap() == now);
}

#[test]
fn what_is_no_register_or_a_newer_one_is_left_untouched() {
    let folder = tempfile::tempdir().unwrap();
    let open = |name: &str| RegisterFile::open(&folder.path().join(name)).err();
    let record = folder.path().join("record");
    drop(super::sample(&record));
    assert_eq!(open("record"), Some(Trouble::Damaged));
    fs::write(
        folder.path().join("text"),
        "no database at all, and long enough",
    )
    .unwrap();
    assert_eq!(open("text"), Some(Trouble::Damaged));
    assert_eq!(open("missing/register"), Some(Trouble::Unreachable));
    let path = folder.path().join("register");
    RegisterFile::open(&path)
        .unwrap()
        .write(&register(3))
        .unwrap();
    let raw = Connection::open(&path).unwrap();
    raw.pragma_update(None, "user_version", 2).unwrap();
    drop(raw);
    let before = fs::read(&path).unwrap();
    assert_eq!(open("register"), Some(Trouble::Newer(2)));
    assert_eq!(fs::read(&path).unwrap(), before);
}

#[test]
fn what_no_register_can_hold_is_not_read() {
    for harm in [
        "UPDATE people SET code = 'P-7K3MQ2' WHERE code = (SELECT min(code) FROM people)",
        "UPDATE names SET name = char(27) || 'x' WHERE number = 1",
        "UPDATE names SET salt = zeroblob(32)",
        "UPDATE names SET since = 1000 WHERE number = 1",
        "DELETE FROM names WHERE number = 1",
    ] {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("register");
        RegisterFile::open(&path)
            .unwrap()
            .write(&register(3))
            .unwrap();
        let raw = Connection::open(&path).unwrap();
        raw.pragma_update(None, "foreign_keys", false).unwrap();
        assert!(raw.execute(harm, []).unwrap() > 0, "{harm}");
        drop(raw);
        let read = RegisterFile::open(&path).unwrap().read();
        assert_eq!(read.err(), Some(Trouble::Damaged), "{harm}");
    }
}

#[cfg(unix)]
#[test]
fn nobody_else_can_read_the_register() {
    use std::os::unix::fs::PermissionsExt as _;

    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("register");
    RegisterFile::open(&path)
        .unwrap()
        .write(&register(3))
        .unwrap();
    let mode = fs::metadata(&path).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o600);
}
