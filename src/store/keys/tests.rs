//! The folder of keys.

use std::fs;
use std::time::Instant;

use super::*;

fn passphrase(text: &str) -> Passphrase {
    Passphrase::typed(text.to_owned())
}

fn secret(seed: u8) -> SecretKey {
    SecretKey::from_seed(&[seed; 32])
}

/// A key file that is cheap to open, put where the folder has its own.
fn put_cheap(keys: &KeyFolder, secret: &SecretKey, under: KeyId) {
    let cheap = Cost { n: 2, r: 1, p: 1 };
    let text = container::lock(secret, &passphrase("cheap"), &[3; 32], cheap).unwrap();
    whole::private_folder(&keys.path).unwrap();
    fs::write(keys.file(under), text).unwrap();
}

#[test]
#[expect(clippy::print_stdout, reason = "what a passphrase costs here")]
fn a_key_that_is_kept_comes_back_under_its_passphrase_only() {
    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(&folder.path().join("keys"));
    assert_eq!(keys.list(), Ok(Vec::new()));
    let id = keys.make(&secret(1), &passphrase("first words")).unwrap();
    assert_eq!(id, secret(1).public().id());
    assert_eq!(keys.list(), Ok(vec![id]));
    assert_eq!(keys.has(id), Ok(true));
    let begun = Instant::now();
    let back = keys.open(id, &passphrase("first words")).unwrap();
    println!("opened in {} ms", begun.elapsed().as_millis());
    assert_eq!(*back.seed(), *secret(1).seed());
    let wrong = keys.open(id, &passphrase("other words"));
    assert_eq!(wrong.err(), Some(KeyProblem::Refused));
    let other = secret(2).public().id();
    assert_eq!(keys.has(other), Ok(false));
    let missing = keys.open(other, &passphrase("first words"));
    assert_eq!(missing.err(), Some(KeyProblem::Missing));
    let again = keys.make(&secret(1), &passphrase("new words"));
    assert_eq!(again, Err(KeyProblem::Taken));
    assert!(keys.open(id, &passphrase("first words")).is_ok());
    let names: Vec<String> = whole::names_in(&keys.path).unwrap();
    assert_eq!(names, [format!("{}.pem", id.0)]);
}

#[test]
fn a_changed_passphrase_takes_the_place_of_the_old_one() {
    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(folder.path());
    let id = keys.make(&secret(1), &passphrase("old words")).unwrap();
    let before = fs::read(keys.file(id)).unwrap();
    let (old, new) = (passphrase("old words"), passphrase("new words"));
    assert_eq!(keys.change(id, &new, &new), Err(KeyProblem::Refused));
    assert_eq!(fs::read(keys.file(id)).unwrap(), before);
    assert_eq!(keys.change(id, &old, &new), Ok(()));
    assert_eq!(keys.open(id, &old).err(), Some(KeyProblem::Refused));
    assert_eq!(*keys.open(id, &new).unwrap().seed(), *secret(1).seed());
    assert_eq!(whole::names_in(&keys.path).unwrap().len(), 1);
}

#[test]
fn one_key_kept_twice_makes_two_different_files() {
    let folder = tempfile::tempdir().unwrap();
    let one = KeyFolder::at(&folder.path().join("one"));
    let other = KeyFolder::at(&folder.path().join("other"));
    let id = one.make(&secret(1), &passphrase("same words")).unwrap();
    other.make(&secret(1), &passphrase("same words")).unwrap();
    let (one, other) = (one.read(id).unwrap(), other.read(id).unwrap());
    assert_ne!(one, other, "salts and first vectors are drawn each time");
}

#[test]
fn a_damaged_file_gives_an_error_whatever_was_hit() {
    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(folder.path());
    let id = secret(1).public().id();
    put_cheap(&keys, &secret(1), id);
    let whole = fs::read(keys.file(id)).unwrap();
    let open = |file: &[u8]| {
        fs::write(keys.file(id), file).unwrap();
        keys.open(id, &passphrase("cheap")).err()
    };
    assert_eq!(open(&whole), None);
    let mut seen = [0; 3];
    for at in 0..whole.len() {
        for change in [1, 2, 4, 16, 128, 255] {
            let mut changed = whole.clone();
            changed[at] ^= change;
            let slot = match open(&changed) {
                Some(KeyProblem::Damaged) => 0,
                Some(KeyProblem::Refused) => 1,
                Some(KeyProblem::OtherKey) => 2,
                found => panic!("byte {at}: {found:?}"),
            };
            seen[slot] += 1;
        }
        assert_eq!(open(&whole[..at]), Some(KeyProblem::Damaged), "cut at {at}");
    }
    assert!(seen.iter().all(|&count| count > 0), "{seen:?}");
    let mut long = whole.clone();
    long.resize(100_000, b'\n');
    assert_eq!(open(&long), Some(KeyProblem::Damaged));
}

#[test]
fn a_file_under_another_name_is_not_that_key() {
    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(folder.path());
    let id = secret(1).public().id();
    put_cheap(&keys, &secret(2), id);
    let found = keys.open(id, &passphrase("cheap"));
    assert_eq!(found.err(), Some(KeyProblem::OtherKey));
}

#[test]
fn what_is_no_key_file_is_not_listed() {
    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(folder.path());
    let id = secret(1).public().id();
    put_cheap(&keys, &secret(1), id);
    for name in ["notes.txt", "x.pem", &format!(".{}.pem.1-0.draft", id.0)] {
        fs::write(folder.path().join(name), "something").unwrap();
    }
    assert_eq!(keys.list(), Ok(vec![id]));
}

#[cfg(unix)]
#[test]
fn nobody_else_can_read_a_key() {
    use std::os::unix::fs::PermissionsExt as _;

    let folder = tempfile::tempdir().unwrap();
    let keys = KeyFolder::at(&folder.path().join("keys"));
    let id = keys.make(&secret(1), &passphrase("old words")).unwrap();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(keys.path()), 0o700);
    assert_eq!(mode(&keys.file(id)), 0o600);
    let (old, new) = (passphrase("old words"), passphrase("new words"));
    keys.change(id, &old, &new).unwrap();
    assert_eq!(mode(&keys.file(id)), 0o600);
}
