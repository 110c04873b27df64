//! What verification finds: a sound record, single wrongs, and hundreds of random ones.

mod both_ways;

use std::ops::ControlFlow;

use super::{Bad, Checked, Fault, Interrupted, Known, Limit, OneHand, verify};
use crate::record::authority::AuthorityFault;
use crate::record::entry::{
    Drilled, Entry, EntryFault, KeyLost, Left, Read, Restored, Revoked, Signing,
};
use crate::record::log::{Trouble, streams};
use crate::record::scope::{Authority, Edition, Id};
use crate::record::scribe::{Dice, Scribe, digest, id, key, person, signed_otherwise, stamp};
use crate::record::seal::Seal;
use crate::record::strand::Strands;
use crate::record::tree::{Growing, Root};

fn edition() -> Edition {
    Edition {
        revision: 1,
        digest: digest("text"),
    }
}

fn read(number: u8) -> Read {
    Read {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(),
    }
}

fn drilled(number: u8, right: u16) -> Drilled {
    Drilled {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(),
        drill: id("order"),
        right,
        of: 5,
    }
}

/// Three people, two strands, 24 entries.
fn sound() -> Scribe {
    let mut scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
    scribe.join(1, &[Authority::Administer]).join(2, &[]);
    for day in 6..=12 {
        scribe.at(&format!("2026-01-{day:02}T09:00:00+01:00"));
        scribe.on_strand("front").note(drilled(2, 4));
        scribe.sign(2, read(2));
        scribe.on_strand("bench").note(drilled(1, 5));
    }
    scribe
}

fn checked(strands: &Strands, known: Known<'_>) -> (Checked, Vec<Bad>) {
    let mut bad = Vec::new();
    let mut on = |_| ControlFlow::Continue(());
    let checked = verify(
        streams(strands),
        known,
        &OneHand,
        &mut |found| bad.push(found),
        &mut on,
    );
    let checked = checked.unwrap();
    assert_eq!(checked.faults, bad.len() as u64);
    (checked, bad)
}

fn faults(scribe: &Scribe) -> Vec<Fault> {
    let heads = scribe.heads();
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let (_, bad) = checked(&scribe.strands(), known);
    bad.into_iter().map(|bad| bad.fault).collect()
}

#[test]
fn a_sound_record_has_no_fault_and_its_limits_are_stated() {
    let scribe = sound();
    let strands = scribe.strands();
    let (found, bad) = checked(&strands, Known::default());
    assert_eq!(bad, []);
    assert_eq!(found.signatures, 13);
    let lengths: Vec<u64> = found.strands.iter().map(|strand| strand.entries).collect();
    assert_eq!(lengths, [7, 20]);
    for strand in &found.strands {
        let mut tree = Growing::new();
        strands[&strand.strand]
            .iter()
            .for_each(|bytes| tree.push(Seal::of(bytes)));
        assert_eq!(strand.root, tree.root());
    }
    assert!(found.limits.contains(&Limit::NoHead(id("bench"))));
    assert!(found.limits.contains(&Limit::NoCheckpoint(id("front"))));
    let heads = scribe.heads();
    let roots: Vec<(Id, Root)> = found
        .strands
        .iter()
        .map(|strand| (strand.strand.clone(), strand.root))
        .collect();
    let known = Known {
        heads: &heads,
        checkpoints: &roots,
        ..Known::default()
    };
    let (found, bad) = checked(&strands, known);
    assert_eq!(bad, []);
    assert_eq!(
        found.limits,
        [Limit::UntrueButEntered, Limit::ClockOfMachine]
    );
}

#[test]
fn a_store_that_fails_midway_is_no_shorter_record() {
    let strands = sound().strands();
    for at in 0..20 {
        let broken = strands.iter().map(|(strand, entries)| {
            let entries = entries.iter().cloned().map(Ok);
            let failing = *strand == id("front");
            let failure = failing.then_some(Err(Trouble::Unreachable));
            let length = if failing { at } else { entries.len() };
            (strand.clone(), entries.take(length).chain(failure))
        });
        let mut bad = Vec::new();
        let checked = verify(
            broken,
            Known::default(),
            &OneHand,
            &mut |found| bad.push(found),
            &mut |_| ControlFlow::Continue(()),
        );
        let trouble = Interrupted::Trouble(Trouble::Unreachable);
        assert_eq!(checked, Err(trouble), "after {at}");
        assert_eq!(bad, [], "after {at}");
    }
}

#[test]
fn a_cut_end_is_found_by_the_remembered_head_alone() {
    let scribe = sound();
    let heads = scribe.heads();
    let mut strands = scribe.strands();
    strands.get_mut(&id("front")).unwrap().truncate(18);
    let (_, bad) = checked(&strands, Known::default());
    assert_eq!(bad, []);
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let (found, bad) = checked(&strands, known);
    assert_eq!((bad[0].number, &bad[0].fault), (19, &Fault::CutOff(20)));
    assert_eq!(found.strands[1].first_bad, Some(19));
    strands.remove(&id("bench"));
    let (_, bad) = checked(&strands, known);
    assert_eq!(bad[0].fault, Fault::CutOff(7));
}

#[test]
fn a_declared_restore_is_a_limit_and_no_fault() {
    let mut scribe = sound();
    let heads = scribe.heads();
    let (_, number, seal) = heads[0].clone();
    scribe.on_strand("front").at("2026-01-20T08:00:00+01:00");
    scribe.sign(
        1,
        Restored {
            lost_strand: id("bench"),
            lost_number: number,
            lost_seal: seal,
        },
    );
    let mut strands = scribe.strands();
    strands.get_mut(&id("bench")).unwrap().truncate(3);
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let (found, bad) = checked(&strands, known);
    assert_eq!(bad, []);
    let told = |found: &Checked| {
        let said = Limit::Restored(id("bench"), 7);
        found.limits.iter().filter(|limit| **limit == said).count()
    };
    assert_eq!(told(&found), 1);
    // Also once what is remembered has gone on from there.
    let (later, _) = checked(&strands, Known::default());
    assert_eq!(told(&later), 1);
}

#[test]
fn a_record_written_anew_is_found_by_what_left_the_house() {
    let (found, _) = checked(&sound().strands(), Known::default());
    let roots: Vec<(Id, Root)> = found
        .strands
        .iter()
        .map(|strand| (strand.strand.clone(), strand.root))
        .collect();
    let mut other = Scribe::founded("2026-01-05T08:00:01+01:00");
    other.join(1, &[Authority::Administer]).join(2, &[]);
    other.at("2026-01-06T09:00:00+01:00");
    for _ in 0..14 {
        other.note(drilled(2, 4));
    }
    let (_, bad) = checked(&other.strands(), Known::default());
    assert_eq!(bad, [], "by itself it is sound");
    let known = Known {
        checkpoints: &roots,
        ..Known::default()
    };
    let (_, bad) = checked(&other.strands(), known);
    assert_eq!(
        (bad[0].number, &bad[0].fault),
        (20, &Fault::CheckpointDiffers)
    );
}

#[test]
fn who_had_no_right_is_found_when_forced_in() {
    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    let leave = Left { person: person(2) };
    scribe.sign(2, leave.clone());
    assert!(matches!(
        faults(&scribe)[..],
        [Fault::Authority(AuthorityFault::NoGrant(_))]
    ));

    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    scribe.sign(0, leave);
    scribe.sign(2, read(2));
    let gone = Fault::Authority(AuthorityFault::NotHere(person(2)));
    assert_eq!(faults(&scribe), [gone]);

    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    scribe.sign(2, read(1));
    assert_eq!(
        faults(&scribe),
        [Fault::Authority(AuthorityFault::OnlyThePerson)]
    );

    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    let lost = KeyLost {
        person: person(2),
        key: key(2).public().id(),
    };
    scribe.sign(2, lost);
    scribe.sign(2, read(2));
    let ended = Fault::Authority(AuthorityFault::KeyEnded(key(2).public().id()));
    assert_eq!(faults(&scribe), [ended]);
}

#[test]
fn a_grant_ends_where_it_is_taken_back() {
    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    let grant = scribe.grant(2, Authority::Administer, None);
    let joined = |number| crate::record::entry::Joined {
        person: person(number),
        name: digest("name"),
    };
    scribe.sign(2, joined(7));
    let late = scribe.draft(2, stamp("2026-02-01T09:00:00+01:00"), joined(8));
    let signing: Signing = late.signed().unwrap().1.clone();
    scribe.sign(
        0,
        Revoked {
            person: person(2),
            grant,
        },
    );
    let late = scribe.draft_as(2, stamp("2026-02-01T09:00:00+01:00"), joined(8), signing);
    scribe.write(late);
    assert_eq!(
        faults(&scribe),
        [Fault::Authority(AuthorityFault::GrantEnded(grant))]
    );
}

#[test]
fn a_slow_clock_on_another_strand_changes_no_right() {
    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    scribe.join(3, &[]);
    scribe.on_strand("bench").at("2026-02-01T08:50:00+01:00");
    scribe.sign(3, read(3));
    assert_eq!(faults(&scribe), []);
}

#[test]
fn a_signature_does_not_fit_another_entry() {
    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    let entry = scribe.draft(2, stamp("2026-02-01T09:00:00+01:00"), read(2));
    scribe.write(signed_otherwise(&entry, 1));
    assert_eq!(faults(&scribe), [Fault::Signature]);
}

#[test]
fn clocks_that_run_backwards_say_so_or_are_found() {
    let mut scribe = sound();
    scribe.on_strand("front").at("2026-01-01T09:00:00+01:00");
    scribe.note(drilled(2, 1));
    assert_eq!(
        scribe.entries.last().unwrap().frame().clock_set_back,
        Some(true)
    );
    assert_eq!(faults(&scribe), []);
    let mut frame = scribe.entries.pop().unwrap().frame().clone();
    frame.clock_set_back = None;
    scribe.write(Entry::noted(frame, drilled(2, 1)).unwrap());
    assert_eq!(faults(&scribe), [Fault::ClockWentBack]);
}

#[test]
fn what_happened_after_it_was_recorded_is_found() {
    let mut scribe = sound();
    scribe.on_strand("front").at("2026-02-01T09:00:00+01:00");
    scribe.sign_late(2, stamp("2026-02-01T09:00:01+01:00"), read(2));
    assert_eq!(faults(&scribe), [Fault::DatedAhead]);
    let tolerant = Known {
        ahead_seconds: 1,
        ..Known::default()
    };
    assert_eq!(checked(&scribe.strands(), tolerant).1, []);
}

#[test]
fn a_newer_format_is_told_apart_from_damage() {
    let bytes = String::from_utf8(sound().entries[0].bytes()).unwrap();
    let newer = bytes.replace("\"format\":1", "\"format\":2");
    assert_eq!(Entry::read(newer.as_bytes()), Err(EntryFault::Newer(2)));
}

/// Changes the rows of one strand and returns the number that has to be named first.
fn spoil(rows: &mut Vec<Vec<u8>>, other: &[Vec<u8>], dice: &mut Dice) -> (&'static str, u64) {
    let last = rows.len() - 1;
    let at = dice.below(rows.len());
    let number = |at: usize| at as u64 + 1;
    match dice.below(9) {
        0 => {
            let bit = dice.below(rows[at].len() * 8);
            rows[at][bit / 8] ^= 1 << (bit % 8);
            ("a bit", number(at))
        }
        1 => {
            // A digit stays a digit: mostly the entry can still be read.
            let digits: Vec<usize> = (0..rows[at].len())
                .filter(|&byte| rows[at][byte].is_ascii_digit())
                .collect();
            let byte = digits[dice.below(digits.len())];
            rows[at][byte] = b'0' + (rows[at][byte] - b'0' + 1) % 10;
            ("a digit", number(at))
        }
        2 => {
            rows.remove(at);
            ("one taken out", number(at))
        }
        3 => {
            let row = rows[at].clone();
            rows.insert(at + 1, row);
            ("one twice", number(at))
        }
        4 => {
            let at = at.min(last - 1);
            rows.swap(at, at + 1);
            ("two exchanged", number(at))
        }
        5 => {
            let length = 1 + dice.below(last);
            rows.truncate(length);
            ("the end cut off", number(length))
        }
        6 => {
            let row = other[dice.below(other.len())].clone();
            rows.insert(at, row);
            ("one of another strand", number(at))
        }
        7 => {
            let (from, to) = (dice.below(rows.len()), dice.below(rows.len()));
            if from == to {
                return spoil(rows, other, dice);
            }
            let row = rows.remove(from);
            rows.insert(to, row);
            ("one moved", number(from.min(to)))
        }
        _ => {
            let length = rows[at].len();
            rows[at].truncate(dice.below(length));
            ("one torn", number(at))
        }
    }
}

#[test]
fn hundreds_of_random_wrongs_are_found_and_the_first_is_named() {
    let scribe = sound();
    let heads = scribe.heads();
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let strands = scribe.strands();
    let mut dice = Dice(1);
    let mut kinds = std::collections::BTreeMap::new();
    for round in 0..1000 {
        let (name, beside) = if round % 2 == 0 {
            ("front", "bench")
        } else {
            ("bench", "front")
        };
        let mut spoilt = strands.clone();
        let rows = spoilt.get_mut(&id(name)).unwrap();
        let (kind, first) = spoil(rows, &strands[&id(beside)], &mut dice);
        assert_ne!(spoilt, strands, "{kind} changes something");
        let (found, bad) = checked(&spoilt, known);
        let strand = found
            .strands
            .iter()
            .find(|strand| strand.strand == id(name))
            .unwrap();
        assert_eq!(
            strand.first_bad,
            Some(first),
            "round {round}: {kind}: {bad:#?}"
        );
        *kinds.entry(kind).or_insert(0) += 1;
    }
    assert!(
        kinds.len() == 9 && kinds.values().all(|&times| times > 50),
        "{kinds:?}"
    );
}

#[test]
fn every_byte_of_every_entry_counts() {
    let scribe = sound();
    for entry in &scribe.entries {
        let bytes = entry.bytes();
        for at in 0..bytes.len() {
            let mut changed = bytes.clone();
            changed[at] ^= 1;
            let found = match Entry::read(&changed) {
                Err(_) => true,
                Ok(read) => read.seal() != entry.seal() && read.bytes() == changed,
            };
            assert!(found, "byte {at} of {}", entry.word());
        }
    }
}
