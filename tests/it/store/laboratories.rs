//! Copies of whole laboratories.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use drybench::people::{NameVersion, Passphrase, Register, Salt};
use drybench::record::log::{Appended, Log as _, Trouble};
use drybench::record::signature::{KeyId, SecretKey};
use drybench::store::{
    AttachmentKind, CopyProblem, Folder, Heads, NoCopy, Part, RegisterFile, SqliteLog,
    copy_laboratory,
};
use drybench::units::{Digest, Instant};

use super::{append, checked, id, noted, row, sample};

struct Laboratory {
    folder: Folder,
    key: KeyId,
    kept: Digest,
    erasable: Digest,
}

fn passphrase() -> Passphrase {
    Passphrase::typed("the words of one key".to_owned())
}

fn laboratory(path: &Path) -> Laboratory {
    let folder = Folder::at(path);
    folder.make().unwrap();
    let log = sample(&folder.record());
    folder.heads().follow(&log).unwrap();
    let mut register = Register::new();
    let name = NameVersion {
        name: "Invented Person".parse().ok().unwrap(),
        salt: Salt([8; 32]),
        since: Instant::from_epoch(100),
    };
    register.issue(&[[1; 5]], &|_| false, name).unwrap();
    let mut file = RegisterFile::open(&folder.register()).unwrap();
    file.write(&register).unwrap();
    let attachments = folder.attachments();
    Laboratory {
        key: folder
            .keys()
            .make(&SecretKey::from_seed(&[6; 32]), &passphrase())
            .unwrap(),
        kept: attachments.put(b"a module", AttachmentKind::Kept).unwrap(),
        erasable: attachments
            .put(b"a remark", AttachmentKind::Erasable)
            .unwrap(),
        folder,
    }
}

/// Every file below a folder with its bytes.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut open = vec![(folder.to_owned(), String::new())];
    while let Some((folder, before)) = open.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let entry = entry.unwrap();
            let name = format!("{before}{}", entry.file_name().to_str().unwrap());
            if entry.path().is_dir() {
                open.push((entry.path(), format!("{name}/")));
            } else {
                found.insert(name, fs::read(entry.path()).unwrap());
            }
        }
    }
    found
}

fn names_in(folder: &Path) -> Vec<String> {
    let names = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = names
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn a_copy_of_a_laboratory_is_a_laboratory() {
    let around = tempfile::tempdir().unwrap();
    let there = laboratory(&around.path().join("laboratory"));
    // An entry that the heads do not remember yet, and something that is not the record's.
    let mut log = SqliteLog::open(&there.folder.record()).unwrap();
    let head = log.head(&id("front")).unwrap();
    let late = noted("front", head.as_ref(), "late");
    assert_eq!(append(&mut log, &late), Appended::Stored);
    fs::write(there.folder.path().join("shopping.txt"), "milk").unwrap();

    let to = around.path().join("copy");
    let copied = copy_laboratory(&there.folder, &to).unwrap();
    assert_eq!((copied.keys, copied.attachments), (1, 2));
    assert_eq!(names_in(around.path()), ["copy", "laboratory"]);
    let files = files(&to);
    let names: Vec<&str> = files.keys().map(String::as_str).collect();
    let (key, kept, erasable) = (there.key.0, there.kept, there.erasable);
    assert_eq!(
        names,
        [
            format!("attachments/erasable/{erasable}").as_str(),
            format!("attachments/kept/{kept}").as_str(),
            format!("keys/{key}.pem").as_str(),
            "record.sqlite",
            "record.sqlite.heads",
            "register.sqlite",
        ]
    );
    let listing: String = files
        .iter()
        .map(|(path, bytes)| format!("{}  {path}\n", Digest::of(&[bytes])))
        .collect();
    assert_eq!(copied.digest, Digest::of(&[listing.as_bytes()]));

    let copy = Folder::at(&to);
    assert_eq!(copy.heads().read().unwrap(), copied.record.heads);
    let log = SqliteLog::open(&copy.record()).unwrap();
    assert_eq!(log.head(&id("front")), Ok(Some(late.head())));
    let (_, bad) = checked(&log, &copied.record.heads);
    assert_eq!(bad, []);
    let read = |folder: &Folder| RegisterFile::open(&folder.register()).unwrap().read();
    assert!(read(&copy).unwrap() == read(&there.folder).unwrap());
    assert!(copy.keys().open(there.key, &passphrase()).is_ok());
    let remark = copy.attachments().get(&there.erasable);
    assert_eq!(remark, Ok(Some(b"a remark".to_vec())));
    // The original went on being one.
    let original = SqliteLog::open(&there.folder.record()).unwrap();
    assert_eq!(checked(&original, &Heads::new()).1, []);
    // And a copy can be copied.
    drop(log);
    assert!(copy_laboratory(&copy, &around.path().join("second")).is_ok());
}

#[test]
fn a_copy_of_a_laboratory_overwrites_nothing() {
    let around = tempfile::tempdir().unwrap();
    let there = laboratory(&around.path().join("laboratory"));
    let taken = NoCopy {
        part: Part::Folder,
        why: CopyProblem::Taken,
    };
    let to = around.path().join("file");
    fs::write(&to, "something").unwrap();
    assert_eq!(copy_laboratory(&there.folder, &to), Err(taken));
    assert_eq!(fs::read(&to).unwrap(), b"something");
    let to = around.path().join("folder");
    fs::create_dir(&to).unwrap();
    assert_eq!(copy_laboratory(&there.folder, &to), Err(taken));
    let before = files(there.folder.path());
    let itself = copy_laboratory(&there.folder, there.folder.path());
    assert_eq!(itself, Err(taken));
    assert_eq!(files(there.folder.path()), before);
    assert_eq!(names_in(around.path()), ["file", "folder", "laboratory"]);
}

#[test]
fn what_is_missing_or_damaged_gives_no_copy_and_names_the_part() {
    let flip = |path: &Path| {
        let mut bytes = fs::read(path).unwrap();
        let middle = bytes.len() / 2;
        bytes[middle] ^= 1;
        fs::write(path, bytes).unwrap();
    };
    let key_file = |there: &Laboratory| {
        let keys = there.folder.keys();
        keys.path().join(format!("{}.pem", there.key.0))
    };
    let damaged = CopyProblem::Trouble(Trouble::Damaged);
    let missing = CopyProblem::Trouble(Trouble::Unreachable);
    let cases: [(&str, Part, CopyProblem); 8] = [
        ("no record", Part::Record, missing),
        ("no register", Part::Register, missing),
        ("record", Part::Record, CopyProblem::Differs),
        ("heads", Part::Heads, damaged),
        ("heads lead", Part::Heads, CopyProblem::Differs),
        ("register", Part::Register, damaged),
        ("key", Part::Keys, damaged),
        ("attachment", Part::Attachments, damaged),
    ];
    for (harm, part, why) in cases {
        let around = tempfile::tempdir().unwrap();
        let there = laboratory(&around.path().join("laboratory"));
        let folder = &there.folder;
        let mut part = part;
        match harm {
            "no record" => fs::remove_file(folder.record()).unwrap(),
            "no register" => fs::remove_file(folder.register()).unwrap(),
            "record" => {
                let third = SqliteLog::open(&folder.record()).unwrap().copy().unwrap();
                let third = third[&id("front")][2].clone();
                let mut bytes = fs::read(folder.record()).unwrap();
                let mut windows = bytes.windows(third.len());
                let at = windows.position(|window| window == third).unwrap();
                bytes[at + 20] ^= 1;
                fs::write(folder.record(), bytes).unwrap();
            }
            "heads" => fs::write(folder.heads().path(), "no heads at all").unwrap(),
            "heads lead" => {
                let shorter = around.path().join("shorter");
                let mut log = SqliteLog::open(&shorter).unwrap();
                for entry in row("front", 4, true) {
                    assert_eq!(append(&mut log, &entry), Appended::Stored);
                }
                drop(log);
                fs::rename(shorter, folder.record()).unwrap();
            }
            "register" => fs::write(folder.register(), "no register at all").unwrap(),
            "key" => {
                fs::write(key_file(&there), "no key at all").unwrap();
                part = Part::Key(there.key);
            }
            "attachment" => {
                let kept = folder.attachments().path().join("kept");
                flip(&kept.join(there.kept.to_string()));
                part = Part::Attachment(there.kept);
            }
            other => panic!("{other}"),
        }
        let to = around.path().join("copy");
        let made = copy_laboratory(folder, &to);
        assert_eq!(made, Err(NoCopy { part, why }), "{harm}");
        assert_eq!(names_in(around.path()), ["laboratory"], "{harm}");
        assert_eq!(folder.record().exists(), harm != "no record");
        assert_eq!(folder.register().exists(), harm != "no register");
    }
}

#[test]
fn a_copy_holds_nothing_of_what_was_erased_before_it() {
    let around = tempfile::tempdir().unwrap();
    let there = laboratory(&around.path().join("laboratory"));
    let mut file = RegisterFile::open(&there.folder.register()).unwrap();
    let mut register = file.read().unwrap();
    let (code, _) = register.rows().next().unwrap();
    register.erase(code).unwrap();
    let copy_and_look = |to: &str| {
        let to = around.path().join(to);
        copy_laboratory(&there.folder, &to).unwrap();
        let held = |needle: &[u8]| {
            let files = files(&to);
            let mut bytes = files.values();
            bytes.any(|bytes| bytes.windows(needle.len()).any(|window| window == needle))
        };
        (held(b"Invented Person"), held(&[8; 32]), held(b"a remark"))
    };
    assert_eq!(copy_and_look("before"), (true, true, true));
    file.write(&register).unwrap();
    there.folder.attachments().erase(&there.erasable).unwrap();
    assert_eq!(copy_and_look("after"), (false, false, false));
}
