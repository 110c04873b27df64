//! What a stranger with an editor can do to the file: hundreds of alterations of every kind, each found, the first bad entry named. And
//! what nobody can find without something that left the house.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use drybench::record::entry::{Content, Entry, Frame, KeyIssued, Signed, Signing, ToSign};
use drybench::record::log::Log as _;
use drybench::record::scope::Id;
use drybench::record::seal::Seal;
use drybench::record::tree::{Root, root};
use drybench::record::verify::{Fault, Known};
use drybench::store::{Heads, HeadsFile, SqliteLog};

use super::alterations::{Row, rewrite};
use super::house::{House, key, person};
use super::{Dice, id, verified};

/// How often each kind of alteration is tried.
const EACH: usize = 40;

/// The rows of one strand on their way to being altered.
struct Desk<'a> {
    rows: Vec<Row>,
    house: &'a House,
    dice: &'a mut Dice,
}

/// Who has to notice, and which number has to be named first.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Found {
    /// Verification names this number.
    Verified(u64),
    /// Only a column is wrong: this row is misfiled.
    Misfiled(i64),
}

type Kind = (&'static str, fn(&mut Desk<'_>) -> Option<Found>);

const KINDS: [Kind; 15] = [
    ("a byte", |desk| Some(desk.byte(false))),
    ("a byte, sealed again", |desk| Some(desk.byte(true))),
    ("a row dropped", |desk| desk.dropped()),
    ("two rows swapped", |desk| desk.swapped()),
    ("a row once more at the end", |desk| desk.doubled()),
    ("renumbered", |desk| desk.renumbered()),
    ("another date, sealed again", |desk| desk.dated()),
    ("another date, all sealed again from there on", |desk| {
        desk.dated_and_chained()
    }),
    ("the signature of another entry", |desk| {
        desk.signature_moved()
    }),
    ("another key in a key-issued", |desk| desk.key_replaced()),
    ("another key in a key-issued, all sealed again", |desk| {
        desk.key_replaced_and_chained()
    }),
    ("signed by another in the same name", |desk| {
        desk.signed_by_another()
    }),
    ("signed by another who may, all sealed again", |desk| {
        desk.signed_by_a_colleague()
    }),
    ("the end cut off", |desk| desk.cut()),
    ("another seal in the column", |desk| desk.column()),
];

fn number(at: usize) -> u64 {
    at as u64 + 1
}

/// The entry in another frame, with the signature that it had.
fn framed(entry: &Entry, change: impl Fn(Frame) -> Frame) -> Entry {
    let frame = change(entry.frame().clone());
    let made = match entry.content() {
        Content::Noted(fact) => Entry::noted(frame, fact.clone()),
        Content::Signed {
            fact,
            signing,
            signature,
        } => ToSign::new(frame, fact.clone(), signing.clone()).signed(*signature),
    };
    made.unwrap()
}

impl Desk<'_> {
    fn entry(&self, at: usize) -> Entry {
        Entry::read(&self.rows[at].2).unwrap()
    }

    fn any(&mut self) -> usize {
        self.dice.below(self.rows.len())
    }

    /// Some entry of one kind; none where there is none.
    fn any_of(&mut self, words: &[&str]) -> Option<usize> {
        let fitting: Vec<usize> = (0..self.rows.len())
            .filter(|&at| words.contains(&self.entry(at).word()))
            .collect();
        (!fitting.is_empty()).then(|| fitting[self.dice.below(fitting.len())])
    }

    fn put(&mut self, at: usize, entry: &Entry) {
        self.rows[at].1 = entry.seal().0.0;
        self.rows[at].2 = entry.bytes();
    }

    /// Has every later entry hold the seal of the one before it. Signatures stay as they are.
    fn chain_from(&mut self, at: usize) {
        for at in at + 1..self.rows.len() {
            let previous = self.entry(at - 1).seal();
            let next = framed(&self.entry(at), |frame| Frame { previous, ..frame });
            self.put(at, &next);
        }
    }

    /// The first signed entry from a place on, or the last of all, whose head is remembered.
    fn first_witness(&self, from: usize) -> Found {
        let signed = (from..self.rows.len()).find(|&at| self.entry(at).signed().is_some());
        Found::Verified(number(signed.unwrap_or(self.rows.len() - 1)))
    }

    fn byte(&mut self, sealed: bool) -> Found {
        let at = self.any();
        let bytes = &mut self.rows[at].2;
        let place = self.dice.below(bytes.len());
        bytes[place] ^= 1 << self.dice.below(8);
        if sealed {
            self.rows[at].1 = Seal::of(&self.rows[at].2).0.0;
        }
        Found::Verified(number(at))
    }

    fn dropped(&mut self) -> Option<Found> {
        let at = self.any();
        self.rows.remove(at);
        Some(Found::Verified(number(at)))
    }

    fn swapped(&mut self) -> Option<Found> {
        let (one, other) = (self.any(), self.any());
        if one == other {
            return None;
        }
        self.rows.swap(one, other);
        for (number, row) in (1..).zip(&mut self.rows) {
            row.0 = number;
        }
        Some(Found::Verified(number(one.min(other))))
    }

    /// What stands twice is named by the number that it says.
    fn doubled(&mut self) -> Option<Found> {
        let at = self.any();
        let (_, seal, bytes) = self.rows[at].clone();
        let behind = self.rows.len() as i64 + 1;
        self.rows.push((behind, seal, bytes));
        Some(Found::Verified(number(at)))
    }

    fn renumbered(&mut self) -> Option<Found> {
        let at = self.any();
        self.rows[at].0 += 100;
        // The last one only stands at another number: what it says is still in its place.
        Some(if at + 1 == self.rows.len() {
            Found::Misfiled(self.rows[at].0)
        } else {
            Found::Verified(number(at))
        })
    }

    fn date(&mut self) -> usize {
        let at = self.any();
        let happened = "2026-01-01T07:00:00+01:00".parse().unwrap();
        let entry = framed(&self.entry(at), |frame| Frame { happened, ..frame });
        self.put(at, &entry);
        at
    }

    fn dated(&mut self) -> Option<Found> {
        let at = self.date();
        Some(Found::Verified(number(at)))
    }

    /// Nobody signs what the machine noted: it is found by the next signature, which is over the seal before it.
    fn dated_and_chained(&mut self) -> Option<Found> {
        let at = self.date();
        self.chain_from(at);
        Some(self.first_witness(at))
    }

    fn signature_moved(&mut self) -> Option<Found> {
        let at = self.any_of(&["observed", "read", "joined", "granted"])?;
        let from = self.any_of(&["observed", "read", "joined", "granted"])?;
        let (entry, donor) = (self.entry(at), self.entry(from));
        let (Content::Signed { fact, signing, .. }, Content::Signed { signature, .. }) =
            (entry.content(), donor.content())
        else {
            return None;
        };
        if at == from {
            return None;
        }
        let to_sign = ToSign::new(entry.frame().clone(), fact.clone(), signing.clone());
        let forged = to_sign.signed(*signature).unwrap();
        self.put(at, &forged);
        Some(Found::Verified(number(at)))
    }

    fn key_replaced(&mut self) -> Option<Found> {
        let at = self.any_of(&["key-issued"])?;
        let entry = self.entry(at);
        let Content::Signed {
            fact: Signed::KeyIssued(issued),
            signing,
            signature,
        } = entry.content()
        else {
            return None;
        };
        let forged = KeyIssued {
            key: key(9).public(),
            ..issued.clone()
        };
        let to_sign = ToSign::new(entry.frame().clone(), forged, signing.clone());
        let forged = to_sign.signed(*signature).unwrap();
        self.put(at, &forged);
        Some(Found::Verified(number(at)))
    }

    fn key_replaced_and_chained(&mut self) -> Option<Found> {
        let found = self.key_replaced()?;
        if let Found::Verified(number) = found {
            self.chain_from(usize::try_from(number).unwrap() - 1);
        }
        Some(found)
    }

    /// Somebody with a key of their own, or a stranger, signs in the name of another.
    fn signed_by_another(&mut self) -> Option<Found> {
        let at = self.any_of(&["observed", "read", "granted"])?;
        let entry = self.entry(at);
        let (fact, signing) = entry.signed()?;
        let with = [2, 4, 9][self.dice.below(3)];
        if signing.by == person(with) {
            return None;
        }
        let to_sign = ToSign::new(entry.frame().clone(), fact.clone(), signing.clone());
        let signature = key(with).sign(&to_sign.bytes());
        let forged = to_sign.signed(signature).unwrap();
        self.put(at, &forged);
        self.chain_from(at);
        Some(Found::Verified(number(at)))
    }

    /// The other assessor claims what one saw: by itself in order, but those who signed after it had signed over another seal.
    fn signed_by_a_colleague(&mut self) -> Option<Found> {
        let at = self.any_of(&["observed"])?;
        let entry = self.entry(at);
        let (fact, signing) = entry.signed()?;
        let other = if signing.by == person(1) { 3 } else { 1 };
        let signing = Signing {
            by: person(other),
            key: key(other).public().id(),
            under: self.house.assessing(other),
            ..signing.clone()
        };
        let to_sign = ToSign::new(entry.frame().clone(), fact.clone(), signing);
        let signature = key(other).sign(&to_sign.bytes());
        let forged = to_sign.signed(signature).unwrap();
        self.put(at, &forged);
        self.chain_from(at);
        Some(self.first_witness(at + 1))
    }

    fn cut(&mut self) -> Option<Found> {
        let length = 1 + self.dice.below(self.rows.len() - 1);
        self.rows.truncate(length);
        Some(Found::Verified(number(length)))
    }

    fn column(&mut self) -> Option<Found> {
        let at = self.any();
        self.rows[at].1[self.dice.below(32)] ^= 1;
        Some(Found::Misfiled(self.rows[at].0))
    }
}

fn rows_of(log: &SqliteLog, strand: &str) -> Vec<Row> {
    let bytes = log.copy().unwrap().remove(&id(strand)).unwrap();
    let row = |(number, bytes): (i64, Vec<u8>)| (number, Seal::of(&bytes).0.0, bytes);
    (1..).zip(bytes).map(row).collect()
}

fn first_bad(path: &Path, heads: &Heads, strand: &str) -> (Option<u64>, Option<i64>, Vec<Fault>) {
    let log = SqliteLog::open(path).unwrap();
    let known = Known {
        heads,
        ..Known::default()
    };
    let (checked, bad) = verified(&log, known).unwrap();
    let named = bad.iter().filter(|bad| bad.strand == id(strand));
    let number = named.map(|bad| bad.number).min();
    let whole = checked.strands.iter().find(|one| one.strand == id(strand));
    assert_eq!(whole.and_then(|one| one.first_bad), number);
    let misfiled = log.misfiled().unwrap();
    let row = misfiled.iter().find(|row| row.strand == strand);
    let faults = bad.into_iter().map(|bad| bad.fault).collect();
    (number, row.map(|row| row.number), faults)
}

/// A new file that holds some of a house's entries, and the heads of all that it holds.
fn filed(house: &House, path: &Path, which: std::ops::Range<usize>) -> Heads {
    let mut log = SqliteLog::open(path).unwrap();
    house.append(&mut log, which);
    let file = HeadsFile::beside(path);
    file.renew(&log).unwrap();
    file.read().unwrap()
}

#[test]
#[expect(clippy::print_stdout, reason = "how much was tried")]
fn whatever_a_stranger_alters_is_found_and_the_first_bad_entry_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let original = folder.path().join("record.db");
    let house = House::built(4);
    let heads = filed(&house, &original, 0..house.entries.len());
    let sound = SqliteLog::open(&original).unwrap();
    let strands = ["front", "bench"].map(|name| (name, rows_of(&sound, name)));
    drop(sound);
    for (name, _) in &strands {
        assert_eq!(first_bad(&original, &heads, name), (None, None, Vec::new()));
    }
    let path = folder.path().join("altered.db");
    let mut dice = Dice(5);
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for (kind, alter) in KINDS {
        let mut tried = 0;
        while tried < EACH {
            let (name, rows) = &strands[dice.below(2)];
            let mut desk = Desk {
                rows: rows.clone(),
                house: &house,
                dice: &mut dice,
            };
            let Some(expected) = alter(&mut desk) else {
                // Only one strand has keys that were issued; two of one draw are no exchange.
                continue;
            };
            assert_ne!(desk.rows, *rows, "{kind} changes something");
            fs::copy(&original, &path).unwrap();
            rewrite(&path, name, &desk.rows);
            let (bad, misfiled, faults) = first_bad(&path, &heads, name);
            match expected {
                Found::Verified(number) => {
                    assert_eq!(bad, Some(number), "{kind} in {name}: {faults:?}");
                }
                Found::Misfiled(row) => {
                    assert_eq!((bad, misfiled), (None, Some(row)), "{kind} in {name}");
                }
            }
            tried += 1;
        }
        counts.insert(kind, tried);
    }
    println!("altered and found: {counts:#?}");
    assert!(counts.values().sum::<usize>() >= 500);
}

#[test]
fn an_old_copy_put_back_is_found_by_the_heads_beside_it() {
    let folder = tempfile::tempdir().unwrap();
    let house = House::built(4);
    let all = house.entries.len();
    let path = folder.path().join("record.db");
    let heads = filed(&house, &path, 0..all);
    for length in 1..all {
        let copy = folder.path().join(format!("copy-{length}.db"));
        let old = filed(&house, &copy, 0..length);
        let (strand, expected) = heads
            .iter()
            .map(|(strand, number, _)| {
                let kept = old.iter().find(|(name, ..)| name == strand);
                (strand, kept.map_or(0, |(_, number, _)| *number), *number)
            })
            .find_map(|(strand, kept, number)| (kept < number).then_some((strand, kept + 1)))
            .unwrap();
        let log = SqliteLog::open(&copy).unwrap();
        let known = Known {
            heads: &heads,
            ..Known::default()
        };
        let (_, bad) = verified(&log, known).unwrap();
        let named = bad.iter().find(|bad| bad.strand == *strand).unwrap();
        assert_eq!(named.number, expected, "after {length}");
        assert!(matches!(named.fault, Fault::CutOff(_)), "after {length}");
        // Without the file beside it, it is a shorter record.
        assert_eq!(verified(&log, Known::default()).unwrap().1, []);
    }
}

/// Roots that left the house.
fn roots(log: &SqliteLog) -> Vec<(Id, Root)> {
    let strands = log.copy().unwrap().into_iter();
    let seals =
        |rows: &Vec<Vec<u8>>| -> Vec<Seal> { rows.iter().map(|row| Seal::of(row)).collect() };
    strands
        .map(|(strand, rows)| (strand, root(&seals(&rows))))
        .collect()
}

/// Holds that nothing of the file and the heads beside it shows anything, and that a root which left the house does.
fn shown_by_roots_only(path: &Path, known_roots: &[(Id, Root)]) {
    let log = SqliteLog::open(path).unwrap();
    let heads = HeadsFile::beside(path).read().unwrap();
    let here = Known {
        heads: &heads,
        ..Known::default()
    };
    assert_eq!(verified(&log, here).unwrap().1, []);
    assert_eq!(log.misfiled().unwrap(), []);
    let outside = Known {
        checkpoints: known_roots,
        ..here
    };
    assert_ne!(verified(&log, outside).unwrap().1, []);
}

#[test]
fn what_is_rewritten_with_all_keys_and_heads_is_found_by_what_left_the_house_only() {
    let folder = tempfile::tempdir().unwrap();
    let (true_house, other) = (House::built(4), House::built(3));
    let path = folder.path().join("record.db");
    filed(&true_house, &path, 0..true_house.entries.len());
    let left_the_house = roots(&SqliteLog::open(&path).unwrap());

    // Whoever has every key writes the whole record anew.
    let anew = folder.path().join("anew.db");
    filed(&other, &anew, 0..other.entries.len());
    shown_by_roots_only(&anew, &left_the_house);

    // Without a key, but with the heads: the end cut off.
    let cut = folder.path().join("cut.db");
    filed(&true_house, &cut, 0..true_house.entries.len() - 5);
    shown_by_roots_only(&cut, &left_the_house);

    // Without a key, but with the heads: what the machine noted after the last signature.
    let noted = folder.path().join("noted.db");
    fs::copy(&path, &noted).unwrap();
    let mut rows = rows_of(&SqliteLog::open(&noted).unwrap(), "front");
    let last = rows.len() - 1;
    let entry = Entry::read(&rows[last].2).unwrap();
    assert!(entry.signed().is_none());
    let happened = "2026-01-01T07:00:00+01:00".parse().unwrap();
    let forged = framed(&entry, |frame| Frame { happened, ..frame });
    rows[last].1 = forged.seal().0.0;
    rows[last].2 = forged.bytes();
    rewrite(&noted, "front", &rows);
    HeadsFile::beside(&noted)
        .renew(&SqliteLog::open(&noted).unwrap())
        .unwrap();
    shown_by_roots_only(&noted, &left_the_house);
}

#[test]
fn a_strand_that_is_gone_is_found_by_the_heads() {
    let folder = tempfile::tempdir().unwrap();
    let house = House::built(4);
    let path = folder.path().join("record.db");
    let heads = filed(&house, &path, 0..house.entries.len());
    rewrite(&path, "bench", &[]);
    let log = SqliteLog::open(&path).unwrap();
    assert_eq!(log.strands(), Ok(vec![id("front")]));
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let (_, bad) = verified(&log, known).unwrap();
    let named: Vec<(Id, u64)> = bad
        .iter()
        .map(|bad| (bad.strand.clone(), bad.number))
        .collect();
    assert_eq!(named, [(id("bench"), 1)]);
}
