//! Rules about owners, codes and keys: the same when an entry is appended and when it is verified.

use std::ops::ControlFlow;

use super::AuthorityFault;
use crate::record::entry::{
    Countersigned, Entry, Joined, KeyIssued, KeyLost, Left, Read, Revoked, Signed, Signing,
};
use crate::record::log::streams;
use crate::record::scope::{Authority, Edition, Meaning};
use crate::record::scribe::{Scribe, digest, id, key, person};
use crate::record::seal::Seal;
use crate::record::verify::{Fault, Known, OneHand, verify};

fn faults(scribe: &Scribe) -> Vec<Fault> {
    let mut faults = Vec::new();
    let strands = scribe.strands();
    let checked = verify(
        streams(&strands),
        Known::default(),
        &OneHand,
        &mut |bad| faults.push(bad.fault),
        &mut |_| ControlFlow::Continue(()),
    );
    assert!(checked.is_ok());
    faults
}

/// Holds that an entry is refused when it is appended, and found when it was forced in.
fn refused(scribe: &Scribe, entry: Entry, fault: AuthorityFault) {
    assert_eq!(scribe.staff.check(&entry), Err(fault));
    let mut forced = scribe.clone();
    forced.write(entry);
    assert_eq!(faults(&forced), [Fault::Authority(fault)]);
}

fn refused_fact(scribe: &Scribe, by: u8, fact: impl Into<Signed>, fault: AuthorityFault) {
    refused(scribe, scribe.draft(by, scribe.now(), fact), fault);
}

/// Signs what has to be in order.
fn signed(scribe: &mut Scribe, by: u8, fact: impl Into<Signed>) -> Seal {
    let entry = scribe.draft(by, scribe.now(), fact);
    written(scribe, entry)
}

fn written(scribe: &mut Scribe, entry: Entry) -> Seal {
    assert_eq!(scribe.staff.check(&entry), Ok(()), "{}", entry.word());
    scribe.write(entry)
}

/// 0 owns the record, 1 administers, 2 and 4 are entitled to nothing, 3 sees to quality.
fn laboratory() -> Scribe {
    let mut scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
    scribe.join(1, &[Authority::Administer]).join(2, &[]);
    scribe.join(3, &[Authority::Quality]).join(4, &[]);
    scribe
}

fn read(number: u8) -> Read {
    Read {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: Edition {
            revision: 1,
            digest: digest("text"),
        },
    }
}

fn left(number: u8) -> Left {
    Left {
        person: person(number),
    }
}

#[test]
fn the_last_owner_cannot_leave() {
    let mut scribe = laboratory();
    let alone = AuthorityFault::LastOwner(person(0));
    refused_fact(&scribe, 0, left(0), alone);
    refused_fact(&scribe, 1, left(0), alone);
    // Owning one workflow is not owning the record.
    scribe.grant(2, Authority::Own, Some(id("stock-teeth")));
    refused_fact(&scribe, 1, left(0), alone);
    scribe.grant(2, Authority::Own, None);
    signed(&mut scribe, 1, left(0));
    refused_fact(&scribe, 1, left(2), AuthorityFault::LastOwner(person(2)));
    signed(&mut scribe, 1, left(4));
    assert_eq!(faults(&scribe), []);
}

#[test]
fn the_last_grant_of_owning_cannot_be_taken_back() {
    let mut scribe = laboratory();
    let founding = scribe.entries[0].seal();
    let first = Revoked {
        person: person(0),
        grant: founding,
    };
    let alone = AuthorityFault::LastOwnGrant(founding);
    refused_fact(&scribe, 0, first.clone(), alone);
    let grant = scribe.grant(2, Authority::Own, None);
    signed(&mut scribe, 2, first.clone());
    let second = Revoked {
        person: person(2),
        grant,
    };
    refused_fact(&scribe, 2, second, AuthorityFault::LastOwnGrant(grant));
    // What has ended already can be said once more.
    signed(&mut scribe, 2, first);
    assert_eq!(faults(&scribe), []);
}

#[test]
fn whoever_left_does_not_come_back_under_the_old_code() {
    let mut scribe = laboratory();
    let joined = |number| Joined {
        person: person(number),
        name: digest("name"),
    };
    refused_fact(
        &scribe,
        1,
        joined(2),
        AuthorityFault::HereAlready(person(2)),
    );
    signed(&mut scribe, 1, left(2));
    refused_fact(&scribe, 1, joined(2), AuthorityFault::CodeUsed(person(2)));
    let issued = KeyIssued {
        person: person(2),
        key: key(12).public(),
    };
    refused_fact(&scribe, 1, issued, AuthorityFault::NotHere(person(2)));
    // With a new code everything begins anew, the first key included.
    scribe.join(7, &[]);
    signed(&mut scribe, 7, read(7));
    assert_eq!(faults(&scribe), []);
}

/// What a person signs with another key of theirs.
fn with_key(scribe: &Scribe, number: u8, with: u8, fact: impl Into<Signed>) -> Entry {
    let fact = fact.into();
    let draft = scribe.draft(number, scribe.now(), fact.clone());
    let signing = Signing {
        key: key(with).public().id(),
        ..draft.signed().unwrap().1.clone()
    };
    scribe.draft_as(with, scribe.now(), fact, signing)
}

#[test]
fn a_key_in_the_place_of_another_takes_a_second_person() {
    let mut scribe = laboratory();
    let issue = signed(
        &mut scribe,
        1,
        KeyIssued {
            person: person(2),
            key: key(12).public(),
        },
    );
    let waits = AuthorityFault::KeyNotSeconded(key(12).public().id());
    let attempt = |scribe: &Scribe| refused(scribe, with_key(scribe, 2, 12, read(2)), waits);
    attempt(&scribe);
    // The earlier key goes on until it is said to be lost.
    signed(&mut scribe, 2, read(2));
    // Neither who issued it, nor whose it is, nor who is entitled to nothing, nor who only looked through it.
    for by in [1, 2, 4] {
        let second = scribe.second(by, issue);
        written(&mut scribe, second);
        attempt(&scribe);
    }
    let second = scribe.second(3, issue);
    let signing = Signing {
        meaning: Meaning::Reviewed,
        ..second.signed().unwrap().1.clone()
    };
    let target = Countersigned { target: issue };
    let reviewed = scribe.draft_as(3, scribe.now(), target, signing);
    written(&mut scribe, reviewed);
    attempt(&scribe);
    let second = scribe.second(3, issue);
    written(&mut scribe, second);
    let entry = with_key(&scribe, 2, 12, read(2));
    written(&mut scribe, entry);
    // Approved once and lost is lost.
    let lost = KeyLost {
        person: person(2),
        key: key(12).public().id(),
    };
    signed(&mut scribe, 1, lost);
    let ended = AuthorityFault::KeyEnded(key(12).public().id());
    refused(&scribe, with_key(&scribe, 2, 12, read(2)), ended);
    assert_eq!(faults(&scribe), []);
}

#[test]
fn a_second_signature_under_a_grant_that_has_ended_frees_no_key() {
    let mut scribe = laboratory();
    let issued = KeyIssued {
        person: person(2),
        key: key(12).public(),
    };
    let issue = signed(&mut scribe, 1, issued);
    let second = scribe.second(3, issue);
    let grant = second.signed().unwrap().1.under.unwrap();
    signed(
        &mut scribe,
        0,
        Revoked {
            person: person(3),
            grant,
        },
    );
    let signing = second.signed().unwrap().1.clone();
    let late = scribe.draft_as(3, scribe.now(), Countersigned { target: issue }, signing);
    refused(&scribe, late, AuthorityFault::GrantEnded(grant));
    let without = scribe.second(3, issue);
    assert_eq!(without.signed().unwrap().1.under, None);
    written(&mut scribe, without);
    let waits = AuthorityFault::KeyNotSeconded(key(12).public().id());
    refused(&scribe, with_key(&scribe, 2, 12, read(2)), waits);
}

#[test]
fn the_founder_replaces_a_key_as_everybody_does() {
    let mut scribe = laboratory();
    let issued = KeyIssued {
        person: person(0),
        key: key(10).public(),
    };
    // Whoever signs it, it is the same: here the founder, with the first key.
    let issue = signed(&mut scribe, 0, issued);
    let waits = AuthorityFault::KeyNotSeconded(key(10).public().id());
    refused(&scribe, with_key(&scribe, 0, 10, left(4)), waits);
    let second = scribe.second(1, issue);
    written(&mut scribe, second);
    let entry = with_key(&scribe, 0, 10, left(4));
    written(&mut scribe, entry);
    assert_eq!(faults(&scribe), []);
}

#[test]
fn a_key_that_has_its_second_signature_on_another_strand_waits_for_that_entry_and_for_no_clock() {
    let mut scribe = laboratory();
    let issued = KeyIssued {
        person: person(2),
        key: key(12).public(),
    };
    let issue = signed(&mut scribe, 1, issued);
    scribe.at("2026-01-06T09:00:00+01:00");
    let second = scribe.second(3, issue);
    written(&mut scribe, second);
    scribe.on_strand("bench").at("2026-01-06T08:50:00+01:00");
    let entry = with_key(&scribe, 2, 12, read(2));
    written(&mut scribe, entry);
    assert_eq!(faults(&scribe), []);
}
