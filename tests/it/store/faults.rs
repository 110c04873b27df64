//! Faults of the machine on the real files: a torn tail, a kill, a folder that refuses. Those that one connection is given stand beside the
//! log (`src/store/sqlite/tests.rs`).

use std::fs;
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::thread;
use std::time::Duration;

use drybench::record::entry::Entry;
use drybench::record::log::{Appended, Log as _};
use drybench::record::seal::Seal;
use drybench::record::verify::Fault;
use drybench::store::{HeadsFile, SqliteLog, Standing};

use super::processes::{record, started};
use super::{Dice, append, checked, id, noted, row};

/// Copies a database whose write-ahead log ends after so many bytes.
fn torn(from: &Path, wal: &[u8], to: &Path) {
    fs::copy(from, to).unwrap();
    let name = |more: &str| {
        let mut name = to.as_os_str().to_owned();
        name.push(more);
        name
    };
    fs::write(name("-wal"), wal).unwrap();
    // What another copy left there.
    let _ignored = fs::remove_file(name("-shm"));
}

#[test]
#[expect(clippy::print_stdout, reason = "how much was tried")]
fn a_torn_tail_opens_as_a_shorter_chain_and_the_heads_file_shows_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let wal_path = folder.path().join("record.db-wal");
    let mut log = SqliteLog::open(&path).unwrap();
    let entries = row("front", 14, true);
    // The length of the write-ahead log once so many entries were acknowledged.
    let mut acknowledged = vec![fs::read(&wal_path).unwrap().len()];
    for entry in &entries {
        assert_eq!(append(&mut log, entry), Appended::Stored);
        acknowledged.push(fs::read(&wal_path).unwrap().len());
    }
    let file = HeadsFile::beside(&path);
    file.follow(&log).unwrap();
    let heads = file.read().unwrap();
    let wal = fs::read(&wal_path).unwrap();
    let all: Vec<Vec<u8>> = entries.iter().map(Entry::bytes).collect();

    // Densely through the last append, then sparsely through the others.
    let last_append = acknowledged[entries.len() - 1];
    let mut cuts: Vec<usize> = (acknowledged[0]..last_append).step_by(2_039).collect();
    cuts.extend((last_append..wal.len()).step_by(61));
    for end in &acknowledged {
        cuts.extend([end - 1, *end, end + 1]);
    }
    cuts.retain(|&cut| (acknowledged[0]..=wal.len()).contains(&cut));
    cuts.sort_unstable();
    cuts.dedup();

    let to = folder.path().join("torn.db");
    let mut lengths = std::collections::BTreeSet::new();
    for &cut in &cuts {
        torn(&path, &wal[..cut], &to);
        fs::copy(file.path(), HeadsFile::beside(&to).path()).unwrap();
        let log = SqliteLog::open(&to).unwrap();
        let strands = log.copy().unwrap();
        let length = strands.get(&id("front")).map_or(0, Vec::len);
        lengths.insert(length);
        let safe = acknowledged.iter().filter(|&&end| end <= cut).count() - 1;
        assert_eq!(
            length, safe,
            "cut at {cut}: as long as what was written whole"
        );
        let stored = strands.get(&id("front")).cloned().unwrap_or_default();
        assert_eq!(stored, all[..length]);
        assert_eq!(checked(&log, &Vec::new()).1, [], "by itself valid");
        let standing = HeadsFile::beside(&to).compare(&log).unwrap()[0].standing;
        let missing = (entries.len() - length) as u64;
        let (_, bad) = checked(&log, &heads);
        if missing == 0 {
            assert_eq!((standing, bad.len()), (Standing::Same, 0));
        } else {
            assert_eq!(standing, Standing::Leads(missing));
            let first = (bad[0].number, &bad[0].fault);
            assert_eq!(first, (length as u64 + 1, &Fault::CutOff(14)));
        }
    }
    println!("cut at {} points, lengths {lengths:?}", cuts.len());
    assert_eq!(lengths.len(), entries.len() + 1, "{lengths:?}");
}

#[test]
#[ignore = "started by what_was_acknowledged_survives_two_hundred_kills"]
#[expect(clippy::print_stdout, reason = "what was acknowledged")]
fn writes_until_it_is_killed() {
    let path = record();
    let mut log = SqliteLog::open(&path).unwrap();
    let heads = HeadsFile::beside(&path);
    for _ in 0..10_000 {
        let head = log.head(&id("front")).unwrap();
        let entry = match &head {
            None => super::founded("front"),
            Some(last) => noted("front", Some(last), &last.number.to_string()),
        };
        assert_eq!(log.append(head.as_ref(), &entry), Appended::Stored);
        println!("stored {} {}", entry.head().number, entry.seal());
        heads.follow(&log).unwrap();
    }
}

/// What a line acknowledges. The end of the last one may be missing.
fn acknowledged(line: &str) -> Option<(u64, Seal)> {
    let (_, said) = line.strip_suffix('\n')?.split_once("stored ")?;
    let (number, seal) = said.split_once(' ')?;
    Some((number.parse().unwrap(), seal.parse().unwrap()))
}

#[test]
#[expect(clippy::print_stdout, reason = "how much was tried")]
fn what_was_acknowledged_survives_two_hundred_kills() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("record.db");
    let heads = HeadsFile::beside(&path);
    let mut dice = Dice(200);
    let (mut unheard, mut behind) = (0, 0);
    for round in 0..200 {
        let mut command = started("store::faults::writes_until_it_is_killed", &path);
        let mut child = command.spawn().unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap());
        let mut last = None;
        let mut line = String::new();
        // From the first acknowledgement on, or (every eighth) at any time, also while the file is opened.
        while round % 8 != 0 && last.is_none() {
            line.clear();
            assert_ne!(lines.read_line(&mut line).unwrap(), 0, "round {round}");
            last = acknowledged(&line);
        }
        let most = if round % 8 == 0 { 30_000 } else { 12_000 };
        thread::sleep(Duration::from_micros(dice.below(most) as u64));
        child.kill().unwrap();
        child.wait().unwrap();
        loop {
            line.clear();
            if lines.read_line(&mut line).unwrap() == 0 {
                break;
            }
            last = acknowledged(&line).or(last);
        }
        let log = SqliteLog::open(&path).unwrap();
        let Some((number, seal)) = last else { continue };
        let stored = log.entries(&id("front"), number).next();
        let stored = stored.map(|bytes| Seal::of(&bytes.unwrap()));
        assert_eq!(stored, Some(seal), "round {round}, entry {number}");
        unheard += log.head(&id("front")).unwrap().unwrap().number - number;
        for found in heads.compare(&log).unwrap() {
            match found.standing {
                Standing::Same => {}
                Standing::Lags(by) => behind += by,
                wrong => panic!("round {round}: {wrong:?}"),
            }
        }
    }
    let log = SqliteLog::open(&path).unwrap();
    let (found, bad) = checked(&log, &heads.read().unwrap());
    assert_eq!(bad, []);
    assert_eq!(log.misfiled().unwrap(), []);
    let entries = found.strands[0].entries;
    println!(
        "200 kills, {entries} entries, {unheard} stored but not heard of, heads file behind by {behind} in all"
    );
    // Seven rounds of eight waited for an acknowledgement.
    assert!(entries >= 175, "{entries}");
}

#[cfg(unix)]
mod refusing {
    use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _};
    use std::os::unix::process::CommandExt as _;

    use drybench::record::log::{Trouble, WhyNot};
    use drybench::store::CopyProblem;

    use super::super::sample;
    use super::*;

    /// A user that owns nothing, as most systems number it.
    const NOBODY: u32 = 65_534;

    #[test]
    #[ignore = "started by a_folder_that_refuses_is_said_to_be_read_only"]
    fn asks_a_folder_that_refuses() {
        let path = record();
        let folder = path.parent().unwrap();
        assert!(
            fs::write(folder.join("probe"), "").is_err(),
            "it does not refuse"
        );
        // A record in use needs files beside it.
        assert_eq!(SqliteLog::open(&path).unwrap_err(), Trouble::ReadOnly);
        let new = SqliteLog::open(&folder.join("new.db"));
        assert_eq!(new.unwrap_err(), Trouble::ReadOnly);
        // A copy does not: it can be read.
        let mut copy = SqliteLog::open(&folder.join("copy.db")).unwrap();
        assert_eq!(copy.copy().unwrap()[&id("front")].len(), 12);
        let head = copy.head(&id("front")).unwrap();
        let entry = noted("front", head.as_ref(), "more");
        assert_eq!(
            copy.append(head.as_ref(), &entry),
            Appended::NotStored(WhyNot::Trouble(Trouble::ReadOnly))
        );
        let to = copy.copy_to(&folder.join("second.db"));
        assert_eq!(to, Err(CopyProblem::Trouble(Trouble::ReadOnly)));
        let heads = HeadsFile::beside(&path);
        assert_eq!(heads.renew(&copy), Err(Trouble::ReadOnly));
    }

    #[test]
    fn a_folder_that_refuses_is_said_to_be_read_only() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("record.db");
        let log = sample(&path);
        log.copy_to(&folder.path().join("copy.db")).unwrap();
        drop(log);
        let mode = |mode| fs::set_permissions(folder.path(), fs::Permissions::from_mode(mode));
        mode(0o555).unwrap();
        let test = "store::faults::refusing::asks_a_folder_that_refuses";
        let mut command = started(test, &path);
        // Nothing is refused to the system's owner, so that somebody else has to ask.
        if fs::metadata(folder.path()).unwrap().uid() == 0 {
            command.uid(NOBODY).gid(NOBODY);
        }
        let ended = command.output().unwrap();
        mode(0o755).unwrap();
        let said = String::from_utf8_lossy(&ended.stdout);
        assert!(
            ended.status.success() && said.contains("1 passed"),
            "{said}"
        );
    }
}
