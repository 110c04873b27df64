//! What a record of 100,000 entries takes: to verify it, and to say every standing of a day: `cargo bench -- recording`.
//!
//! Targets: a verification takes at most 1.3 times what hashing and signature checking alone take on as many threads; reading the record and
//! making the whole matrix at most 3 times what reading and parsing its rows takes. Reported, never asserted.

#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark reads the clock and says what it found"
)]

use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::{LazyLock, Mutex, OnceLock};
use std::time::{Duration, Instant};

use divan::{Bencher, black_box};
use drybench::os::Cores;
use drybench::record::entry::{
    Allowed, Content, Entry, Frame, Independence, PolicySet, Signed, Signing, Suspended, ToSign,
};
use drybench::record::log::{Log as _, Stream, Trouble, streams};
use drybench::record::scope::Id;
use drybench::record::seal::Seal;
use drybench::record::signature::{KeyId, PublicKey, Signature};
use drybench::record::verify::{Hands as _, Known, verify};
use drybench::standing::{Ledger, Reading, Standing, View, consequences, grant_for};
use drybench::store::SqliteLog;

use super::years::{ENTRIES, PEOPLE, person, scopes, years};

/// A signature with the key and the text that it has to hold for.
type Check = (PublicKey, Vec<u8>, Signature);

/// The shortest time of each benchmark by name, to be set in relation.
static SHORTEST: Mutex<BTreeMap<&str, Duration>> = Mutex::new(BTreeMap::new());

/// Pairs of benchmarks, and how many times the second the first may take.
const RATIOS: [(&str, &str, f64); 3] = [
    ("verify in memory", "hash and check signatures", 1.3),
    ("verify from the file", "hash and check signatures", 1.3),
    ("read, fold and make the matrix", "read and parse", 3.0),
];

fn timed<T>(bencher: Bencher<'_, '_>, name: &'static str, work: impl Fn() -> T) {
    bencher.bench_local(|| {
        let started = Instant::now();
        let done = black_box(work());
        let took = started.elapsed();
        if let Ok(mut shortest) = SHORTEST.lock() {
            let known = shortest.entry(name).or_insert(took);
            *known = took.min(*known);
        }
        done
    });
}

/// Prints how the shortest times are related, as far as both were measured.
pub(crate) fn print_ratios() {
    let Ok(shortest) = SHORTEST.lock() else {
        return;
    };
    for (one, other, target) in RATIOS {
        if let (Some(took), Some(bound)) = (shortest.get(one), shortest.get(other)) {
            let ratio = took.as_secs_f64() / bound.as_secs_f64();
            println!("{one} / {other}: {ratio:.2} (target {target})");
        }
    }
}

/// The record in a file. Written past the log's own way, which syncs after each entry.
fn file() -> &'static PathBuf {
    static FOLDER: LazyLock<tempfile::TempDir> =
        LazyLock::new(|| tempfile::tempdir().expect("there is a folder for what is temporary"));
    static FILE: OnceLock<PathBuf> = OnceLock::new();
    FILE.get_or_init(|| {
        let path = FOLDER.path().join("record.db");
        fill(&path);
        path
    })
}

/// Writes the record into a database.
pub(crate) fn fill(path: &Path) {
    drop(SqliteLog::open(path).expect("the file is made"));
    let mut owner = rusqlite::Connection::open(path).expect("the file opens");
    let all = owner.transaction().expect("nobody else writes");
    for (strand, rows) in &years().strands {
        for (number, bytes) in (1_i64..).zip(rows) {
            let row = (strand.to_string(), number, Seal::of(bytes).0.0, bytes);
            all.execute("INSERT INTO entries VALUES (?1, ?2, ?3, ?4)", row)
                .expect("the row fits");
        }
    }
    all.commit().expect("there is room");
}

fn open() -> SqliteLog {
    SqliteLog::open(file()).expect("the file opens")
}

fn verified(strands: Vec<(Id, Stream<'_>)>) -> u64 {
    let known = Known {
        heads: &years().heads,
        ..Known::default()
    };
    let mut on = |_| ControlFlow::Continue(());
    let found = &mut |bad| panic!("{bad:?}");
    let checked = verify(strands, known, &Cores::all(), found, &mut on);
    checked.expect("the log is read").signatures
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn verify_in_memory(bencher: Bencher) {
    let strands = &years().strands;
    timed(bencher, "verify in memory", || verified(streams(strands)));
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn verify_from_the_file(bencher: Bencher) {
    let log = open();
    timed(bencher, "verify from the file", || {
        verified(log.everything().expect("the log is read"))
    });
}

/// The bound: every entry hashed once and every signature checked, all keys and texts at hand.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn hash_and_check_signatures(bencher: Bencher) {
    let mut keys: BTreeMap<KeyId, PublicKey> = BTreeMap::new();
    let mut work: Vec<(Vec<u8>, Option<Check>)> = Vec::new();
    // Strands in the order in which the first brings the keys.
    for bytes in years().strands.values().rev().flatten() {
        let entry = Entry::read(bytes).expect("the record is sound");
        let key = match entry.signed().map(|(fact, _)| fact) {
            Some(Signed::Founded(founded)) => Some(founded.key),
            Some(Signed::KeyIssued(issued)) => Some(issued.key),
            _ => None,
        };
        keys.extend(key.map(|key| (key.id(), key)));
        let signed = match entry.content() {
            Content::Noted(_) => None,
            Content::Signed {
                signing, signature, ..
            } => {
                let text = entry.signed_bytes().expect("it is signed");
                Some((keys[&signing.key], text, *signature))
            }
        };
        work.push((bytes.clone(), signed));
    }
    let cores = Cores::all();
    timed(bencher, "hash and check signatures", || {
        let one = |at: usize| {
            let (bytes, signed) = &work[at];
            black_box(Seal::of(bytes));
            if let Some((key, text, signature)) = signed {
                assert!(key.verifies(text, signature));
            }
        };
        cores.each(work.len(), &one, &mut || {});
    });
}

fn entries(log: &SqliteLog) -> impl Iterator<Item = Entry> {
    let everything = log.everything().expect("the log is read");
    let read = |bytes: Result<Vec<u8>, Trouble>| {
        Entry::read(&bytes.expect("the log is read")).expect("the record is sound")
    };
    everything
        .into_iter()
        .flat_map(|(_, stream)| stream)
        .map(read)
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn read_and_parse(bencher: Bencher) {
    let log = open();
    timed(bencher, "read and parse", || {
        let count = entries(&log).map(black_box).count();
        assert!(count >= ENTRIES);
    });
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn matrix(bencher: Bencher) {
    let log = open();
    timed(bencher, "read, fold and make the matrix", || {
        let ledger = Ledger::collect(entries(&log));
        assert_eq!(ledger.unfounded(), []);
        let view = View::new(&ledger, years().end, Reading::AsNowKnown);
        let mut words: BTreeMap<&str, u32> = BTreeMap::new();
        for scope in scopes() {
            for number in 0..PEOPLE {
                let standing = view.standing(person(number), &scope);
                let word = standing.as_ref().map_or("cannot be shown", Standing::word);
                *words.entry(word).or_default() += 1;
            }
        }
        words
    });
}

/// What is shown before a signature, with 100,000 entries there: a suspension reaches one person, a policy everybody.
#[divan::bench(sample_count = 5, sample_size = 1, args = ["suspension", "policy"])]
fn what_follows(bencher: Bencher, kind: &str) {
    let ledger = Ledger::collect(entries(&open()));
    let last = ledger.entries().iter().rev();
    let (newest, signing) = last
        .filter_map(|entry| Some((entry, entry.signed()?.1)))
        .find(|(_, signing)| signing.by == person(1))
        .expect("somebody assessed");
    let fact: Signed = if kind == "policy" {
        PolicySet {
            due_days: 1,
            grace_days: 0,
            late_hours: 24,
            independence: Independence::Independent,
        }
        .into()
    } else {
        Suspended {
            person: person(2),
            workflow: scopes()[0].workflow.clone(),
            allowed: Allowed::Nothing,
        }
        .into()
    };
    let by = if kind == "policy" {
        person(0)
    } else {
        person(1)
    };
    let signing = Signing {
        by,
        key: ledger.staff().key_of(by).expect("the person has a key"),
        under: grant_for(&ledger, by, &fact),
        meaning: fact.kind().meanings()[0],
        ..signing.clone()
    };
    let frame = Frame {
        reason: Some("a benchmark".parse().expect("it is a reason")),
        ..newest.frame().clone()
    };
    let frame = frame.after(Some(&newest.head()));
    let draft = ToSign::new(frame, fact, signing);
    let draft = draft.signed(Signature::NONE).expect("it can be drafted");
    bencher.bench_local(|| {
        let then = consequences(&ledger, &draft);
        assert!(then.with.get(&draft.seal()).is_some());
        then.changes.len()
    });
}
