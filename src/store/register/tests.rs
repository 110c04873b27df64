//! Faults that only the register's own connection can be given: an interruption at every step of an erasure.

use std::fs;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use super::*;

fn version(name: &str, salt: u8) -> NameVersion {
    NameVersion {
        name: name
            .parse()
            .unwrap_or_else(|problem| panic!("{name}: {problem:?}")),
        salt: Salt([salt; 32]),
        since: Instant::from_epoch(100),
    }
}

/// A register of two people, and the same with the first erased.
fn registers() -> (Register, Register) {
    let mut register = Register::new();
    let mut code = None;
    for (draw, name) in [(1, "Invented Gone"), (2, "Invented Stays")] {
        let issued = register.issue(&[[draw; 5]], &|_| false, version(name, draw));
        code = code.or(issued.ok());
    }
    let mut erased = register.clone();
    erased.erase(code.unwrap()).unwrap();
    (register, erased)
}

fn holds(folder: &Path, needle: &[u8]) -> bool {
    fs::read_dir(folder).unwrap().any(|file| {
        let bytes = fs::read(file.unwrap().path()).unwrap();
        bytes.windows(needle.len()).any(|window| window == needle)
    })
}

#[test]
#[expect(clippy::print_stdout, reason = "how much was tried")]
fn an_erasure_that_is_interrupted_anywhere_is_done_wholly_or_not_at_all() {
    for lasting in [false, true] {
        let (before, after) = registers();
        let (mut old, mut new, mut late) = (0, 0, 0);
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("register.sqlite");
        RegisterFile::open(&path).unwrap().write(&before).unwrap();
        let written = fs::read(&path).unwrap();
        let mut at = 0;
        loop {
            // Every step up to the commit, and some of the many of clearing up.
            at += if new == 0 { 1 } else { 5 };
            fs::write(&path, &written).unwrap();
            let mut file = RegisterFile::open(&path).unwrap();
            assert!(holds(folder.path(), b"Invented Gone"));
            let steps = Arc::new(AtomicU64::new(0));
            let counted = Arc::clone(&steps);
            let stop = move || {
                let step = counted.fetch_add(1, Ordering::Relaxed) + 1;
                step == at || lasting && step > at
            };
            file.connection.progress_handler(1, Some(stop)).unwrap();
            let said = file.write(&after);
            // Where the file had to connect anew there is no handler any more, and this changes nothing.
            file.connection
                .progress_handler(0, None::<fn() -> bool>)
                .unwrap();
            assert!(file.connection.is_autocommit(), "step {at}");
            let told = file.read().unwrap();
            drop(file);
            let file = RegisterFile::open(&path).unwrap();
            let found = file.read().unwrap();
            assert!(told == found, "step {at}");
            if found == after {
                new += 1;
                // Whoever opened it last cleared up what was left to clear up.
                assert!(!holds(folder.path(), b"Invented Gone"), "step {at}");
                assert!(!holds(folder.path(), &[1; 32]), "step {at}");
                late += u64::from(said.is_err());
            } else {
                assert!(found == before, "step {at}");
                assert!(said.is_err(), "step {at}");
                old += 1;
            }
            if steps.load(Ordering::Relaxed) < at {
                assert_eq!(said, Ok(()));
                break;
            }
        }
        println!(
            "lasting {lasting}: {old} not done, {new} done, {late} of them in spite of an error"
        );
        assert!(old > 20 && late > 0, "{old}, {late}");
    }
}

#[test]
fn a_full_disk_leaves_the_old_register() {
    let folder = tempfile::tempdir().unwrap();
    let mut file = RegisterFile::open(&folder.path().join("register.sqlite")).unwrap();
    let (before, _) = registers();
    file.write(&before).unwrap();
    file.connection
        .pragma_update(None, "max_page_count", 4)
        .unwrap();
    let mut larger = before.clone();
    for number in 10..200 {
        let name = format!("{number} {}", "long ".repeat(20));
        larger
            .issue(
                &[[number & 31, number >> 5, 9, 9, 9]],
                &|_| false,
                version(&name, number),
            )
            .unwrap();
    }
    let full = RegisterProblem::Trouble(Trouble::Full);
    assert_eq!(file.write(&larger), Err(full));
    assert!(file.read().unwrap() == before);
    file.connection
        .pragma_update(None, "max_page_count", 10_000)
        .unwrap();
    assert_eq!(file.write(&larger), Ok(()));
    assert!(file.read().unwrap() == larger);
}
