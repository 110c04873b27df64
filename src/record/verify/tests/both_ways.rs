//! Looking at bytes beforehand changes nothing: the same faults in the same order, on records with wrongs of every kind.

use super::super::go_through;
use super::super::look::{Desk, Hands, KeyRing, Looked};
use super::*;
use crate::record::entry::{Content, Founded, Frame, KeyIssued, Signed, ToSign};
use crate::units::Digest;

/// Entries of one strand once more, each holding the seal of the one before it. Nothing is signed anew.
fn chained(rows: &[Vec<u8>]) -> Vec<Vec<u8>> {
    let mut previous = Seal::NONE;
    let mut chained = Vec::new();
    for (number, bytes) in (1..).zip(rows) {
        let bytes = match Entry::read(bytes) {
            Ok(entry) => framed(&entry, |frame| Frame {
                number,
                previous,
                ..frame
            }),
            Err(_) => bytes.clone(),
        };
        previous = Seal::of(&bytes);
        chained.push(bytes);
    }
    chained
}

/// The same entry in another frame, with the signature that it had.
fn framed(entry: &Entry, change: impl Fn(Frame) -> Frame) -> Vec<u8> {
    let frame = change(entry.frame().clone());
    let made = match entry.content() {
        Content::Noted(fact) => Entry::noted(frame, fact.clone()),
        Content::Signed {
            fact,
            signing,
            signature,
        } => ToSign::new(frame, fact.clone(), signing.clone()).signed(*signature),
    };
    made.unwrap().bytes()
}

/// The same entry with another fact or signing, signed with this key.
fn signed_anew(entry: &Entry, by: u8, change: impl Fn(&mut Signed, &mut Signing)) -> Vec<u8> {
    let Content::Signed { fact, signing, .. } = entry.content() else {
        return entry.bytes();
    };
    let (mut fact, mut signing) = (fact.clone(), signing.clone());
    change(&mut fact, &mut signing);
    let to_sign = ToSign::new(entry.frame().clone(), fact, signing);
    let signature = key(by).sign(&to_sign.bytes());
    to_sign.signed(signature).unwrap().bytes()
}

fn other_key(fact: &mut Signed) {
    match fact {
        Signed::KeyIssued(KeyIssued { key: public, .. })
        | Signed::Founded(Founded { key: public, .. }) => *public = key(9).public(),
        _ => {}
    }
}

/// A wrong for which an entry is made anew.
fn forge(rows: &mut [Vec<u8>], other: &[Vec<u8>], dice: &mut Dice) {
    let at = dice.below(rows.len());
    let by = u8::try_from(dice.below(4)).unwrap();
    let Ok(entry) = Entry::read(&rows[at]) else {
        return;
    };
    let donor = &other[dice.below(other.len())];
    rows[at] = match dice.below(9) {
        0 => framed(&entry, |frame| Frame {
            recorded: stamp("2026-01-02T09:00:00+01:00"),
            ..frame
        }),
        1 => framed(&entry, |frame| Frame {
            happened: stamp("2027-01-02T09:00:00+01:00"),
            ..frame
        }),
        2 => signed_anew(&entry, by, |_, _| {}),
        3 => signed_anew(&entry, by, |_, signing| {
            signing.by = person(by);
            signing.key = key(by).public().id();
        }),
        4 => signed_anew(&entry, by, |fact, _| other_key(fact)),
        5 => signed_anew(&entry, 8, |_, signing| signing.key = key(8).public().id()),
        6 => signed_anew(&entry, by, |_, signing| {
            signing.under = Some(Seal(Digest([7; 32])));
        }),
        7 => signed_anew(&entry, by, |_, signing| signing.key = key(by).public().id()),
        _ => match (Entry::read(donor), entry.content()) {
            (Ok(donor), Content::Signed { fact, signing, .. }) => match donor.content() {
                Content::Signed { signature, .. } => {
                    let to_sign = ToSign::new(entry.frame().clone(), fact.clone(), signing.clone());
                    to_sign.signed(*signature).unwrap().bytes()
                }
                Content::Noted(_) => donor.bytes(),
            },
            _ => donor.clone(),
        },
    };
}

/// A record with one to three wrongs in it.
fn wronged(sound: &Strands, dice: &mut Dice) -> Strands {
    let mut strands = sound.clone();
    for _ in 0..=dice.below(3) {
        let (name, beside) = if dice.below(2) == 0 {
            ("front", "bench")
        } else {
            ("bench", "front")
        };
        let other = strands[&id(beside)].clone();
        let rows = strands.get_mut(&id(name)).unwrap();
        if dice.below(2) == 0 {
            forge(rows, &other, dice);
        } else if rows.len() > 2 {
            spoil(rows, &other, dice);
        }
        if dice.below(2) == 0 {
            *rows = chained(rows);
        }
    }
    strands
}

/// People who come and go, with keys that are lost and replaced, on two strands.
fn lively() -> Scribe {
    let mut scribe = sound();
    scribe.on_strand("front").at("2026-01-13T09:00:00+01:00");
    scribe.join(3, &[Authority::Own]);
    scribe.on_strand("bench").sign(3, read(3));
    scribe.sign(
        3,
        KeyLost {
            person: person(2),
            key: key(2).public().id(),
        },
    );
    scribe.on_strand("front").at("2026-01-14T09:00:00+01:00");
    scribe.sign(0, Left { person: person(3) });
    scribe.sign(1, read(1));
    scribe
}

/// Does parts in an odd order, some twice, and leaves some out.
struct Clumsy(std::cell::Cell<usize>);

impl Hands for Clumsy {
    fn each(&self, count: usize, one: &(dyn Fn(usize) + Sync), beside: &mut dyn FnMut()) {
        self.0.set(self.0.get() + 1);
        for at in (0..count).rev() {
            let times = (at * 7 + self.0.get()) % 3;
            (0..times).for_each(|_| one(at));
        }
        one(count + 3);
        if self.0.get().is_multiple_of(2) {
            beside();
        }
    }
}

#[test]
fn who_looks_and_when_makes_no_difference() {
    let scribe = lively();
    let heads = scribe.heads();
    let known = Known {
        heads: &heads,
        ..Known::default()
    };
    let sound = scribe.strands();
    let mut dice = Dice(3);
    let mut kinds = std::collections::BTreeSet::new();
    let clumsy = Clumsy(std::cell::Cell::new(0));
    for round in 0..600 {
        let strands = wronged(&sound, &mut dice);
        let told = |desk: fn(Desk<'_>) -> Desk<'_>, hands: &dyn Hands| {
            let mut bad = Vec::new();
            let mut on = |_| ControlFlow::Continue(());
            let desk = desk(Desk::new(hands, &mut on));
            let checked = go_through(streams(&strands), known, desk, &mut |found| bad.push(found));
            (checked.unwrap(), bad)
        };
        let in_turn = told(|desk| desk.without_keys(), &OneHand);
        assert_eq!(told(|desk| desk, &OneHand), in_turn, "round {round}");
        assert_eq!(told(|desk| desk, &clumsy), in_turn, "round {round}");
        for bad in in_turn.1 {
            let words = format!("{:?}", bad.fault);
            let word = words.split(|c: char| !c.is_alphanumeric()).next();
            kinds.extend(word.map(str::to_owned));
        }
    }
    assert!(kinds.len() >= 11, "{kinds:?}");
}

#[test]
fn a_desk_with_keys_verifies_every_signature_beforehand() {
    let scribe = lively();
    let mut ring = KeyRing::new();
    scribe.entries.iter().for_each(|entry| ring.take(entry));
    for entry in &scribe.entries {
        let bytes = entry.bytes();
        assert_eq!(
            Entry::signed_part(&bytes).map(<[u8]>::to_vec),
            entry.signed_bytes(),
            "{}",
            entry.word()
        );
        let looked = Looked::at(&bytes, &ring);
        let signer = entry.signed().map(|(_, signing)| signing.key);
        assert_eq!(looked.verified_under(), signer.map(|key| (key, true)));
        let alone = Looked::at(&bytes, &KeyRing::new()).verified_under();
        assert_eq!(alone.is_some(), entry.word() == "founded");
    }
}

#[test]
fn it_can_be_watched_and_stopped() {
    let strands = sound().strands();
    let mut seen = Vec::new();
    let mut on = |passed| {
        seen.push(passed);
        ControlFlow::Continue(())
    };
    let strands_of = || streams(&strands);
    let checked = verify(
        strands_of(),
        Known::default(),
        &OneHand,
        &mut |_| {},
        &mut on,
    );
    assert!(checked.is_ok());
    assert!(seen.is_sorted(), "{seen:?}");
    assert_eq!(seen.last(), Some(&27));
    let mut stop = |_| ControlFlow::Break(());
    let stopped = verify(
        strands_of(),
        Known::default(),
        &OneHand,
        &mut |_| {},
        &mut stop,
    );
    assert_eq!(stopped, Err(Interrupted::Stopped));
}
