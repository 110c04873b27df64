//! Where the record, keys, names and attachments are kept: one suite for every log, and faults on the real files.

#![expect(
    clippy::disallowed_methods,
    reason = "real files are damaged, and real processes killed"
)]

mod alterations;
mod attachments;
mod conformance;
mod copies;
mod faults;
mod guards;
mod house;
mod keys;
mod laboratories;
mod processes;
mod register;
mod strangers;
mod streams;

use std::ops::ControlFlow;
use std::path::Path;

use drybench::os::Cores;
use drybench::record::entry::{BackupMade, Entry, Founded, Frame, Signed, Signing, ToSign};
use drybench::record::log::{Appended, Log};
use drybench::record::scope::Id;
use drybench::record::seal::Seal;
use drybench::record::signature::SecretKey;
use drybench::record::strand::Head;
use drybench::record::verify::{Bad, Checked, Interrupted, Known, verify};
use drybench::store::{Heads, SqliteLog};
use drybench::units::{Digest, PersonCode};

fn id(text: &str) -> Id {
    text.parse().unwrap()
}

fn digest(text: &str) -> Digest {
    Digest::of(&[text.as_bytes()])
}

fn frame(strand: &str, head: Option<&Head>) -> Frame {
    let now = "2026-01-05T08:00:00+01:00".parse().unwrap();
    Frame {
        strand: id(strand),
        number: 0,
        previous: Seal::NONE,
        happened: now,
        recorded: now,
        clock_set_back: None,
        enterer: None,
        workstation: id("front-desk"),
        program: "0.1.0".parse().unwrap(),
        reason: Some("as agreed".parse().unwrap()),
    }
    .after(head)
}

/// An entry that nobody signs.
fn noted(strand: &str, head: Option<&Head>, what: &str) -> Entry {
    let copy = digest(what);
    Entry::noted(frame(strand, head), BackupMade { copy }).unwrap()
}

/// The first entry of a record, signed by the founder.
fn founded(strand: &str) -> Entry {
    let key = SecretKey::from_seed(&[1; 32]);
    let person = PersonCode::from_random([0, 1, 2, 3, 4]);
    let fact = Signed::from(Founded {
        person,
        key: key.public(),
        laboratory: digest("laboratory"),
    });
    let signing = Signing {
        by: person,
        key: key.public().id(),
        name: digest("name"),
        meaning: fact.kind().meanings()[0],
        under: None,
        declaration: digest("I stand by this."),
    };
    let to_sign = ToSign::new(frame(strand, None), fact, signing);
    let signature = key.sign(&to_sign.bytes());
    to_sign.signed(signature).unwrap()
}

/// So many entries of one strand; the first founds the record where that is asked for.
fn row(strand: &str, count: usize, founds: bool) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    for number in 0..count {
        let head = entries.last().map(Entry::head);
        let entry = match number {
            0 if founds => founded(strand),
            _ => noted(strand, head.as_ref(), &format!("{strand} {number}")),
        };
        entries.push(entry);
    }
    entries
}

fn append(log: &mut dyn Log, entry: &Entry) -> Appended {
    let head = log.head(&entry.frame().strand).unwrap();
    log.append(head.as_ref(), entry)
}

/// A record of two strands in a new file: 12 entries at the front, 8 at the bench.
fn sample(path: &Path) -> SqliteLog {
    let mut log = SqliteLog::open(path).unwrap();
    for entry in row("front", 12, true).iter().chain(&row("bench", 8, false)) {
        assert_eq!(append(&mut log, entry), Appended::Stored);
    }
    log
}

fn verified(log: &dyn Log, known: Known<'_>) -> Result<(Checked, Vec<Bad>), Interrupted> {
    let mut bad = Vec::new();
    let checked = verify(
        log.everything()?,
        known,
        &Cores::all(),
        &mut |found| bad.push(found),
        &mut |_| ControlFlow::Continue(()),
    );
    Ok((checked?, bad))
}

fn checked(log: &SqliteLog, heads: &Heads) -> (Checked, Vec<Bad>) {
    let known = Known {
        heads,
        ..Known::default()
    };
    verified(log, known).unwrap()
}

/// Numbers that look random and are the same every time: the step of SplitMix64 (Steele, Lea, Flood 2014).
struct Dice(u64);

impl Dice {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((mixed ^ (mixed >> 31)) % end as u64).unwrap()
    }
}
