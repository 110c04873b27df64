//! The invented laboratory as it stands.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;
use std::sync::OnceLock;

use super::calendar::{at, day};
use super::cast::{
    ADVANCED, BEGINNER, EXPERIENCED, FIRST, GONE, OWNER, QUALITY, RETURNED, SECOND, Who,
};
use super::telling::parsed;
use super::*;
use crate::app::laboratory::{KeyProblem, Place, demonstration_keys, edition_of};
use crate::record::entry::{Entry, Signed};
use crate::record::log::Log;
use crate::record::scope::{Id, Meaning};
use crate::record::seal::Seal;
use crate::record::verify::{Known, OneHand, verify};
use crate::standing::{Count, DueCause, LapseCause, Ledger, Need, Reading, Standing, View, audit};
use crate::units::{Day, Instant};

/// The person whose failed run stayed on paper, and a day between the run and the day on which it was written down.
const LATE: (Who, &str) = (EXPERIENCED, "2026-04-20");
/// The person who was suspended, and a day on which that held.
const SUSPENDED: (Who, &str) = (RETURNED, "2025-10-20");

/// What can be shared between tests.
struct Made {
    entries: Vec<Entry>,
    heads: Vec<(Id, u64, Seal)>,
    attached: Vec<Vec<u8>>,
    people: Vec<PersonCode>,
    today: Stamp,
}

fn open() -> Demonstration {
    demonstration(&Words::shipped("en-US")).unwrap()
}

fn parts(made: &Demonstration) -> Made {
    let place = made.laboratory.place();
    Made {
        entries: made.laboratory.ledger().entries().to_vec(),
        heads: place.heads().unwrap(),
        attached: place
            .attachments()
            .map(|(content, _)| content.to_vec())
            .collect(),
        people: made.people.iter().map(|person| person.code).collect(),
        today: made.today,
    }
}

fn made() -> &'static Made {
    static MADE: OnceLock<Made> = OnceLock::new();
    MADE.get_or_init(|| parts(&open()))
}

fn standing(who: Who, work: Work, on: Instant, reading: Reading) -> Standing {
    let made = made();
    let ledger = Ledger::collect(made.entries.iter().cloned());
    let view = View::new(&ledger, on, reading);
    let scope = work.scope().unwrap();
    view.standing(made.people[who], &scope).unwrap()
}

fn today(who: Who, work: Work) -> Standing {
    standing(who, work, made().today.instant(), Reading::AsNowKnown)
}

fn on(date: &str) -> Instant {
    let date = day(date);
    date.last_instant(at(date, 0).offset())
}

#[test]
fn made_twice_it_has_the_same_bytes() {
    let (one, other) = (made(), parts(&open()));
    assert!(one.entries.len() >= 500, "{}", one.entries.len());
    for (one, other) in one.entries.iter().zip(&other.entries) {
        assert_eq!(one.bytes(), other.bytes());
    }
    assert_eq!(one.entries.len(), other.entries.len());
    assert_eq!(one.attached, other.attached);
    assert_eq!(one.heads, other.heads);
    assert_eq!(one.people, other.people);
}

#[test]
fn verification_and_the_rules_find_nothing_wrong() {
    let made = made();
    let demonstration = open();
    let log: &dyn Log = demonstration.laboratory.place().log();
    let strands = log.strands().unwrap();
    let all = strands
        .iter()
        .map(|strand| (strand.clone(), log.entries(strand, 1)));
    let known = Known {
        heads: &made.heads,
        ..Known::default()
    };
    let mut found = Vec::new();
    let checked = verify(
        all,
        known,
        &OneHand,
        &mut |bad| found.push(bad),
        &mut |_| ControlFlow::Continue(()),
    );
    assert_eq!(found, []);
    let checked = checked.unwrap();
    let signed = made.entries.iter().filter(|one| one.signed().is_some());
    assert_eq!(checked.signatures, signed.count() as u64);
    assert_eq!(audit(made.entries.iter().cloned()), []);
    assert!(demonstration.laboratory.ledger().unfounded().is_empty());
}

#[test]
fn everything_is_done_in_order_on_working_days() {
    let mut last = Instant::from_epoch(0);
    for entry in &made().entries {
        let recorded = entry.frame().recorded;
        assert!(recorded.instant() >= last);
        last = recorded.instant();
        let minute = (recorded.instant().since_epoch()
            - recorded
                .day()
                .first_instant(recorded.offset())
                .since_epoch())
            / 60;
        assert!(
            calendar::is_open(recorded.day()) && (8 * 60..17 * 60).contains(&minute),
            "{recorded} {}",
            entry.word()
        );
    }
    assert!(last <= made().today.instant());
}

#[test]
fn every_date_of_the_story_is_one() {
    let texts = [include_str!("story.rs"), include_str!("cast.rs")];
    let quoted = texts.iter().flat_map(|text| text.split('"'));
    let dates: Vec<&str> = quoted
        .filter(|piece| piece.len() == 10 && piece.starts_with("20"))
        .collect();
    assert!(dates.len() > 50, "{}", dates.len());
    for date in dates {
        let read: Day = date.parse().unwrap();
        assert_eq!(read.to_string(), date);
    }
}

#[test]
fn today_everybody_stands_where_the_story_left_them() {
    use Work::{Teeth, Wet};
    for (who, work, word) in [
        (OWNER, Wet, "not-assigned"),
        (OWNER, Teeth, "not-assigned"),
        (QUALITY, Wet, "withdrawn"),
        (QUALITY, Teeth, "not-assigned"),
        (FIRST, Wet, "signed-off"),
        (FIRST, Teeth, "signed-off"),
        (SECOND, Wet, "signed-off"),
        (SECOND, Teeth, "due"),
        (EXPERIENCED, Wet, "signed-off"),
        (EXPERIENCED, Teeth, "signed-off"),
        (RETURNED, Wet, "due"),
        (RETURNED, Teeth, "lapsed"),
        (GONE, Wet, "left"),
        (GONE, Teeth, "left"),
        (ADVANCED, Wet, "signed-off"),
        (ADVANCED, Teeth, "under-supervision"),
        (BEGINNER, Wet, "ready-for-sign-off"),
        (BEGINNER, Teeth, "in-training"),
    ] {
        assert_eq!(today(who, work).word(), word, "{who} {work:?}");
    }
}

#[test]
fn the_reasons_are_those_of_the_story() {
    use crate::record::entry::Cause;
    let due = |standing| match standing {
        Standing::Due(_, causes) => causes,
        other => panic!("{other:?}"),
    };
    assert_eq!(due(today(RETURNED, Work::Wet)), [DueCause::Interval]);
    let called = due(today(SECOND, Work::Teeth));
    assert!(matches!(
        called.as_slice(),
        [DueCause::CalledIn(Cause::Complaint, _)]
    ));
    // Never trained on the second revision, though the time of the sign-off is not over.
    let lapsed = today(RETURNED, Work::Teeth);
    assert!(matches!(
        lapsed,
        Standing::Lapsed(_, LapseCause::Revision(2, _))
    ));
    // Bridged by training, before it was signed off again.
    let bridged = standing(
        EXPERIENCED,
        Work::Teeth,
        on("2026-03-10"),
        Reading::AsNowKnown,
    );
    assert!(
        matches!(&bridged, Standing::SignedOff(validity) if validity.edition.revision == 1),
        "{bridged:?}"
    );
}

#[test]
fn people_work_by_the_text_on_the_shelf_and_the_one_before_says_that_it_is_invented() {
    let made = open();
    let workflow: Id = parsed(Work::Teeth.module()).unwrap();
    let shelf = Shelf::shipped().take(Work::Teeth.module(), None).unwrap();
    let now = made.laboratory.newest_edition(&workflow).unwrap();
    assert_eq!(now, edition_of(&shelf).unwrap());
    let before =
        made.laboratory
            .ledger()
            .entries()
            .iter()
            .find_map(|entry| match entry.signed()?.0 {
                Signed::RevisionAdopted(one) if one.workflow == workflow => {
                    Some(one.edition.clone())
                }
                _ => None,
            });
    let before = before.unwrap();
    assert_eq!((before.revision, now.revision), (1, 2));
    let kept = made.laboratory.place().attached(&before.digest).unwrap();
    let kept = String::from_utf8(kept.unwrap()).unwrap();
    let invented = Words::shipped("en-US").say("demonstration-revision", &[]);
    let told = format!("\"{invented}\"");
    assert_eq!(kept.matches(&told).count(), 1);
    let same = kept.replace(&format!("{told},"), "").replacen(
        "\"revision\":\"1\"",
        "\"revision\":\"2\"",
        1,
    );
    assert_eq!(same, shelf.digested());
}

#[test]
fn a_voided_case_counts_for_nothing() {
    let made = made();
    let ledger = Ledger::collect(made.entries.iter().cloned());
    let view = View::new(&ledger, made.today.instant(), Reading::AsNowKnown);
    let scope = Work::Teeth.scope().unwrap();
    let readiness = view.readiness(made.people[ADVANCED], &scope);
    // Seven were checked, one of them by mistake; ten are needed.
    let cases = Need::SupervisedCases(Count { have: 6, of: 10 });
    assert!(readiness.missing.contains(&cases), "{readiness:?}");
}

#[test]
fn a_suspension_holds_until_a_second_person_has_signed() {
    let (who, date) = SUSPENDED;
    let then = |date| standing(who, Work::Teeth, on(date), Reading::AsNowKnown);
    assert_eq!(then("2025-10-13").word(), "signed-off");
    assert_eq!(then(date).word(), "suspended");
    assert_eq!(then("2025-10-27").word(), "signed-off");
}

#[test]
fn a_run_that_stayed_on_paper_parts_the_two_readings() {
    let (who, date) = LATE;
    let known = standing(who, Work::Teeth, on(date), Reading::AsNowKnown);
    let recorded = standing(who, Work::Teeth, on(date), Reading::AsRecordedThen);
    assert!(
        matches!(&known, Standing::Due(_, causes) if matches!(causes.as_slice(), [DueCause::Failed(_)])),
        "{known:?}"
    );
    assert_eq!(recorded.word(), "signed-off");
}

#[test]
fn names_stand_in_no_entry() {
    let made = made();
    for part in &CAST {
        for word in part.name.split(' ').filter(|word| word.chars().count() > 2) {
            let found = made.entries.iter().find(|entry| {
                let bytes = entry.bytes();
                String::from_utf8_lossy(&bytes).contains(word)
            });
            assert!(found.is_none(), "{word}: {found:?}");
            let attached = made.attached.iter();
            assert!(
                !attached
                    .into_iter()
                    .any(|text| String::from_utf8_lossy(text).contains(word)),
                "{word}"
            );
        }
    }
}

#[test]
fn everybody_signs_in_with_a_key_that_other_laboratories_refuse() {
    let mut demonstration = open();
    assert!(demonstration.laboratory.is_demonstration());
    let known = demonstration_keys();
    let place = demonstration.laboratory.place();
    let keys: BTreeSet<_> = place.keys().map(|(key, _)| key.public().id()).collect();
    // One each, and one that replaced a lost one.
    assert_eq!(keys.len(), CAST.len() + 1);
    assert!(keys.iter().all(|key| known.contains(key)));
    for person in &demonstration.people {
        let signed_in = demonstration
            .laboratory
            .sign_in(person.code, &person.passphrase);
        let expected = if person.left {
            Err(Problem::NoSuchPerson(person.code))
        } else {
            Ok(())
        };
        assert_eq!(signed_in, expected, "{}", person.role.word());
    }
    let wrong = Passphrase::typed("nobody's passphrase".to_owned());
    let key = *keys.iter().next().unwrap();
    let opened = demonstration.laboratory.place().key(key, &wrong);
    assert_eq!(opened.err(), Some(KeyProblem::Refused));
}

#[test]
fn a_replacement_key_was_approved_before_it_was_used() {
    let made = made();
    let person = made.people[EXPERIENCED];
    let issued = made.entries.iter().rposition(
        |entry| matches!(entry.signed(), Some((Signed::KeyIssued(one), _)) if one.person == person),
    );
    let issued = issued.unwrap();
    let seal = made.entries[issued].seal();
    let mut after = made.entries[issued..].iter().filter_map(|entry| {
        let (fact, signing) = entry.signed()?;
        match fact {
            Signed::Countersigned(one) if one.target == seal => Some((signing.meaning, signing.by)),
            _ => (signing.by == person).then_some((signing.meaning, signing.by)),
        }
    });
    assert_eq!(
        after.next(),
        Some((Meaning::Approved, made.people[QUALITY]))
    );
    assert_eq!(after.next(), Some((Meaning::Acknowledged, person)));
}

#[test]
fn every_kind_of_the_story_is_there() {
    let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
    for entry in &made().entries {
        *kinds.entry(entry.word()).or_default() += 1;
    }
    // A restore, a pack, a retired workflow, a revoked grant and a notice of awareness are no part of it.
    let absent: Vec<&str> = Signed::WORDS
        .iter()
        .chain(crate::record::entry::Noted::WORDS)
        .copied()
        .filter(|word| !kinds.contains_key(word))
        .collect();
    assert_eq!(
        absent,
        [
            "revoked",
            "awareness-acknowledged",
            "workflow-retired",
            "restored",
            "pack-exported"
        ]
    );
}
