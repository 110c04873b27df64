//! A small laboratory through the use cases, in memory.

use std::cell::Cell;

use super::{
    Adoption, Deed, Document, Founding, KeyProblem, Laboratory, MemoryPlace, OwnNumbers, Owner,
    Place, Problem, edition_of,
};
use crate::app::shelf::Shelf;
use crate::people::{Known, Passphrase};
use crate::record::authority::AuthorityFault;
use crate::record::entry::{Assigned, Countersigned, Impact, Independence, PolicySet};
use crate::record::scope::{Authority, Meaning, Scope};
use crate::record::seal::Seal;
use crate::standing::{Reading, Refusal, View};
use crate::units::{PersonCode, Stamp};

const SENTENCE: &str = "I stand by this.";

fn stamp(text: &str) -> Stamp {
    text.parse().unwrap()
}

/// The same bytes each time, and no key twice.
fn counting() -> super::Dice {
    let next = Cell::new(0_u64);
    Box::new(move |bytes| {
        for byte in bytes {
            let more = next.get().wrapping_mul(6_364_136_223_846_793_005);
            next.set(more.wrapping_add(1_442_695_040_888_963_407));
            *byte = next.get().to_be_bytes()[0];
        }
    })
}

fn pass(text: &str) -> Passphrase {
    Passphrase::typed(text.to_owned())
}

const OWNERS: &str = "seven dry brushes";
const OTHERS: &str = "blue light at noon";

fn founded() -> (Laboratory<MemoryPlace>, Owner) {
    let place = MemoryPlace::new(stamp("2026-01-05T08:00:00+01:00"), counting());
    let asked = Founding {
        laboratory: "Invented laboratory".parse().unwrap(),
        workstation: "front-desk".parse().unwrap(),
        owner: "Ada Example".parse().unwrap(),
        passphrase: pass(OWNERS),
        accountability: "My signature binds me.".to_owned(),
    };
    Laboratory::found(place, &asked).unwrap()
}

fn joined(laboratory: &mut Laboratory<MemoryPlace>, owner: PersonCode) -> PersonCode {
    let name = "Bo Sample".parse().unwrap();
    let (person, _) = laboratory
        .join(owner, &pass(OWNERS), name, None, SENTENCE)
        .unwrap();
    let key = laboratory.new_key(person, pass(OTHERS)).unwrap();
    let identity = "known for years".parse().unwrap();
    laboratory
        .issue_key(owner, &pass(OWNERS), &key, identity, SENTENCE)
        .unwrap();
    person
}

#[test]
fn a_record_is_founded_once_and_opens_again() {
    let (laboratory, owner) = founded();
    assert_eq!(laboratory.ledger().entries().len(), 1);
    assert_eq!(laboratory.find("1").unwrap().seal(), owner.founded);
    assert_eq!(
        laboratory.find("front-desk/1").unwrap().seal(),
        owner.founded
    );
    assert_eq!(laboratory.person("ada").unwrap(), owner.person);
    let place = laboratory.into_place();
    let again = Laboratory::open(place).unwrap();
    assert_eq!(again.ledger().entries().len(), 1);
    let asked = Founding {
        laboratory: "Another".parse().unwrap(),
        workstation: "front-desk".parse().unwrap(),
        owner: "Ada Example".parse().unwrap(),
        passphrase: pass(OWNERS),
        accountability: String::new(),
    };
    let twice = Laboratory::found(again.into_place(), &asked).err();
    assert_eq!(twice, Some(Problem::OpenedAlready));
}

#[test]
fn nobody_signs_before_they_have_signed_that_it_binds_them() {
    let (mut laboratory, owner) = founded();
    let person = joined(&mut laboratory, owner.person);
    let draft = laboratory.grant(owner.person, person, Authority::Train, None, SENTENCE);
    laboratory.sign(&draft.unwrap(), &pass(OWNERS)).unwrap();
    let scope = Scope {
        workflow: "stock-teeth".parse().unwrap(),
        profile: "common-practice".parse().unwrap(),
        wash: "none".parse().unwrap(),
        cure: "none".parse().unwrap(),
    };
    let assigned = Assigned { person, scope };
    let early = laboratory.do_it(person, &pass(OTHERS), Deed::now(assigned.clone()), SENTENCE);
    assert_eq!(early, Err(Problem::NotAccepted(person)));
    laboratory
        .accept_key(person, &pass(OTHERS), "My signature binds me.")
        .unwrap();
    let done = laboratory.do_it(person, &pass(OTHERS), Deed::now(assigned), SENTENCE);
    assert_eq!(done.unwrap().entry.actor(), Some(person));
}

#[test]
fn wrong_passphrases_are_recorded_and_make_wait_ever_longer() {
    let (mut laboratory, owner) = founded();
    let policy = || {
        Deed::now(PolicySet {
            due_days: 60,
            grace_days: 0,
            late_hours: 24,
            independence: Independence::Independent,
        })
        .because(Some("as agreed".parse().unwrap()))
    };
    let wrong = pass("not the passphrase");
    for times in 1..=3 {
        let refused = laboratory.do_it(owner.person, &wrong, policy(), SENTENCE);
        assert_eq!(refused, Err(Problem::Passphrase { times }));
    }
    assert_eq!(
        laboratory.ledger().entries().len(),
        4,
        "each is in the record"
    );
    // Now even the right one has to wait.
    let early = laboratory.do_it(owner.person, &pass(OWNERS), policy(), SENTENCE);
    assert_eq!(early, Err(Problem::Wait { seconds: 2 }));
    laboratory.place().set(stamp("2026-01-05T08:00:01+01:00"));
    let still = laboratory.do_it(owner.person, &pass(OWNERS), policy(), SENTENCE);
    assert_eq!(still, Err(Problem::Wait { seconds: 1 }));
    // A clock that is set back does not shorten it.
    laboratory.place().set(stamp("2026-01-05T07:00:00+01:00"));
    let back = laboratory.do_it(owner.person, &pass(OWNERS), policy(), SENTENCE);
    assert_eq!(back, Err(Problem::Wait { seconds: 2 }));
    laboratory.place().set(stamp("2026-01-05T08:00:02+01:00"));
    laboratory
        .do_it(owner.person, &pass(OWNERS), policy(), SENTENCE)
        .unwrap();
    let refused = laboratory.do_it(owner.person, &wrong, policy(), SENTENCE);
    assert_eq!(
        refused,
        Err(Problem::Passphrase { times: 1 }),
        "a signature ends the row"
    );
}

#[test]
fn what_the_rules_refuse_is_refused_before_the_passphrase_is_asked_for() {
    let (mut laboratory, owner) = founded();
    let person = joined(&mut laboratory, owner.person);
    let grant = laboratory.grant(person, person, Authority::Own, None, SENTENCE);
    assert_eq!(grant.err(), Some(Problem::NotAccepted(person)));
    laboratory
        .accept_key(person, &pass(OTHERS), "My signature binds me.")
        .unwrap();
    let grant = laboratory.grant(person, person, Authority::Own, None, SENTENCE);
    assert!(matches!(
        grant.err(),
        Some(
            Problem::Refused(Refusal::Authority(_))
                | Problem::RefusedTo {
                    why: Refusal::Authority(_),
                    ..
                }
        )
    ));
}

#[test]
fn erasing_a_person_leaves_the_record_and_takes_the_name() {
    let (mut laboratory, owner) = founded();
    let person = joined(&mut laboratory, owner.person);
    assert_eq!(
        laboratory.erase(owner.person, &pass(OWNERS), person),
        Err(Problem::StillHere(person))
    );
    let draft = laboratory
        .leave(owner.person, person, None, SENTENCE)
        .unwrap();
    laboratory.sign(&draft, &pass(OWNERS)).unwrap();
    let before = laboratory.ledger().entries().to_vec();
    laboratory
        .erase(owner.person, &pass(OWNERS), person)
        .unwrap();
    let register = laboratory.register().unwrap();
    assert!(register.name(person, laboratory.now().instant()) == Known::Erased);
    assert_eq!(laboratory.ledger().entries(), before);
}

#[test]
fn a_passphrase_is_changed_by_whoever_knows_the_old_one() {
    let (mut laboratory, owner) = founded();
    let next = pass("nine wet brushes");
    assert_eq!(
        laboratory.change_passphrase(owner.person, &pass("not the passphrase"), &next),
        Err(Problem::Passphrase { times: 1 })
    );
    laboratory
        .change_passphrase(owner.person, &pass(OWNERS), &next)
        .unwrap();
    let key = laboratory.key_of(owner.person).unwrap();
    let old = laboratory.place().key(key, &pass(OWNERS));
    assert_eq!(old.err(), Some(KeyProblem::Refused));
    laboratory.sign_in(owner.person, &next).unwrap();
}

#[test]
fn the_text_that_is_adopted_is_kept_under_the_digest_of_its_edition() {
    let (mut laboratory, _) = founded();
    let taken = Shelf::shipped().take("stock-teeth", None).unwrap();
    let decided = Adoption {
        effective: laboratory.now(),
        impact: Impact::Reassess,
        reason: "first".parse().unwrap(),
        numbers: OwnNumbers::default(),
    };
    laboratory.adoption(&taken, decided).unwrap();
    let edition = edition_of(&taken).unwrap();
    let kept = laboratory.place().attached(&edition.digest).unwrap();
    let text = String::from_utf8(kept.expect("it is kept")).unwrap();
    assert!(
        text.contains("stock-teeth") && text.contains("hazards"),
        "{text}"
    );
}

#[test]
fn a_document_is_kept_with_its_entry_and_not_before() {
    let (mut laboratory, owner) = founded();
    let document = Document::new(b"a certificate".to_vec());
    let digest = document.digest();
    let policy = PolicySet {
        due_days: 60,
        grace_days: 0,
        late_hours: 24,
        independence: Independence::Independent,
    };
    let reason = "agreed".parse().unwrap();
    let deed = Deed::now(policy).because(Some(reason)).with(Some(document));
    let draft = laboratory.draft(owner.person, deed, SENTENCE).unwrap();
    assert!(laboratory.sign(&draft, &pass("another")).is_err());
    assert_eq!(laboratory.place().attached(&digest), Ok(None));
    laboratory.sign(&draft, &pass(OWNERS)).unwrap();
    let kept = laboratory.place().attached(&digest);
    assert_eq!(kept, Ok(Some(b"a certificate".to_vec())));
}

#[test]
fn a_right_that_is_held_by_another_grant_is_told_before_it_is_given_or_taken() {
    use crate::record::entry::Revoked;
    use crate::report::record::Telling;
    let (mut laboratory, owner) = founded();
    let person = joined(&mut laboratory, owner.person);
    let words = crate::text::Words::shipped("en-US");
    let cautions = |laboratory: &Laboratory<MemoryPlace>, draft: &super::Draft| {
        let telling = Telling {
            ledger: laboratory.ledger(),
            words: &words,
            names: &|_| String::new(),
        };
        let shown = super::shown_all(std::slice::from_ref(draft), &telling).into_iter();
        let told = shown.filter_map(|block| match block {
            crate::report::Block::Caution(text) => Some(text),
            _ => None,
        });
        told.collect::<Vec<String>>().join("\n")
    };
    let of = |workflow: Option<&str>| workflow.map(|id| id.parse().unwrap());
    let mut seals = Vec::new();
    // In one workflow, in all, in another one.
    for (workflow, already) in [
        (Some("stock-teeth"), false),
        (None, false),
        (Some("wet-resin-and-solvent"), true),
    ] {
        let draft = laboratory.grant(
            owner.person,
            person,
            Authority::Train,
            of(workflow),
            SENTENCE,
        );
        let draft = draft.unwrap();
        let told = cautions(&laboratory, &draft);
        assert_eq!(told.contains("has this right already"), already, "{told}");
        seals.push(laboratory.sign(&draft, &pass(OWNERS)).unwrap().entry.seal());
    }
    for (grant, keeps) in [(2, 1), (1, 1), (0, 0)] {
        let revoked = Revoked {
            person,
            grant: seals[grant],
        };
        let reason = Some("another task".parse().unwrap());
        let deed = Deed::now(revoked).because(reason);
        let draft = laboratory.draft(owner.person, deed, SENTENCE).unwrap();
        let told = cautions(&laboratory, &draft);
        let count = told.matches("keeps this right by another grant").count();
        assert_eq!(count, keeps, "{grant}: {told}");
        laboratory.sign(&draft, &pass(OWNERS)).unwrap();
    }
}

#[test]
fn a_key_in_the_place_of_another_is_used_from_its_second_signature_on() {
    let (mut laboratory, owner) = founded();
    let people = [(); 12].map(|()| joined(&mut laboratory, owner.person));
    for person in people {
        laboratory
            .accept_key(person, &pass(OTHERS), "My signature binds me.")
            .unwrap();
    }
    let approver = people[0];
    let grant = laboratory.grant(owner.person, approver, Authority::Approve, None, SENTENCE);
    let grant = grant.unwrap();
    laboratory.sign(&grant, &pass(OWNERS)).unwrap();
    // Whichever fingerprint is smaller: the order of keys is that of their issue.
    for person in people.into_iter().skip(1) {
        let before = laboratory.key_of(person).unwrap();
        let new = laboratory.new_key(person, pass(OWNERS)).unwrap();
        let identity = "passport seen".parse().unwrap();
        let issued = laboratory
            .issue_key(owner.person, &pass(OWNERS), &new, identity, SENTENCE)
            .unwrap();
        assert_eq!(
            laboratory.key_of(person),
            Ok(before),
            "the earlier one holds"
        );
        let entries = laboratory.ledger().entries().len();
        let early = laboratory.accept_key(person, new.passphrase(), "My signature binds me.");
        assert!(matches!(
            early,
            Err(Problem::Refused(Refusal::Authority(
                AuthorityFault::KeyNotSeconded(_)
            )))
        ));
        assert_eq!(
            laboratory.ledger().entries().len(),
            entries,
            "nothing was tried"
        );
        let view = View::new(
            laboratory.ledger(),
            laboratory.now().instant(),
            Reading::AsNowKnown,
        );
        let waiting: Vec<Seal> = view.waiting().iter().map(|entry| entry.seal()).collect();
        assert_eq!(waiting, [issued.entry.seal()]);
        let second = Countersigned {
            target: issued.entry.seal(),
        };
        let second = Deed::now(second).meaning(Meaning::Approved);
        laboratory
            .do_it(approver, &pass(OTHERS), second, SENTENCE)
            .unwrap();
        let view = View::new(
            laboratory.ledger(),
            laboratory.now().instant(),
            Reading::AsNowKnown,
        );
        assert!(view.waiting().is_empty());
        assert_ne!(laboratory.key_of(person), Ok(before));
        laboratory
            .accept_key(person, new.passphrase(), "My signature binds me.")
            .unwrap();
    }
}
