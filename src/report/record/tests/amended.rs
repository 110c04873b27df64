//! What was said about entries later: corrections, voids, second signatures; and entries that were written down late.

use super::super::*;
use super::reports::{file, one, sealed, shown};
use super::{at, holds, mentions, named, telling, texts, then};
use crate::record::canonical::Value;
use crate::record::entry::{Corrected, Countersigned, PolicySet, Seen, Voided};
use crate::record::scribe::{id, person, stamp};
use crate::record::seal::Seal;
use crate::standing::tests::shop::{Shop, observed, policy};

const MARCH: &str = "2026-03-01T12:00:00+01:00";

fn correction(target: Seal, member: &str, old: &str, new: &str) -> Corrected {
    Corrected {
        target,
        member: id(member),
        old: Some(Value::Text(old.to_owned().into())),
        new: Some(Value::Text(new.to_owned().into())),
    }
}

#[test]
fn what_was_put_right_shows_both_values_and_what_is_void_stays_listed() {
    let mut shop = Shop::with_one_signed_off();
    let case = sealed(&shop, "case-checked", 3);
    shop.at("2026-02-02T08:00:00+01:00");
    let corrected = shop.sign(1, correction(case, "case", "2026-0101", "2026-0102"));
    let rehearsed = sealed(&shop, "rehearsed", 3);
    let voided = shop.sign(2, Voided { target: rehearsed });
    let told = file(&shop, 3, at(MARCH));
    mentions(&told, "checked case 2026-0102,");
    let line = format!(
        "Corrected by {}, 2026-02-02 08:00 +01:00: Case, from 2026-0101 to 2026-0102. Reason: as agreed. Entry {}.",
        named(1),
        shown(&shop, &corrected)
    );
    holds(&told, &line);
    let void = format!(
        "2026-01-12 08:00 +01:00, {}, VOID: ",
        shown(&shop, &rehearsed)
    );
    mentions(&told, &void);
    let line = format!(
        "Voided by {}, 2026-02-02 08:00 +01:00. Reason: as agreed. Entry {}.",
        named(2),
        shown(&shop, &voided)
    );
    holds(&told, &line);
    // As recorded before, nothing of it was known.
    let before = file(&shop, 3, then("2026-02-01T12:00:00+01:00"));
    mentions(&before, "checked case 2026-0101,");
    assert!(
        !before.contains("VOID") && !before.contains("Corrected"),
        "{before}"
    );
    mentions(
        &one(&shop, &rehearsed),
        "VOID: this entry counts for nothing.",
    );
    holds(&one(&shop, &case), "Case: 2026-0101");
    holds(
        &one(&shop, &case),
        &format!(
            "Corrected by {}, 2026-02-02 08:00 +01:00: Case, from 2026-0101 to 2026-0102. Reason: as agreed. Entry {}.",
            named(1),
            shown(&shop, &corrected)
        ),
    );
    let list = entries(&shop.ledger, shop.ledger.about(person(3)));
    let list = telling(&shop.ledger, |telling| texts(&list.blocks(telling)));
    mentions(&list, "| rehearsed, VOID | P-31234C | program");
}

#[test]
fn a_correction_that_waits_for_a_second_person_does_not_count() {
    let mut shop = Shop::with_one_signed_off();
    let observed = sealed(&shop, "observed", 3);
    shop.at("2026-02-02T08:00:00+01:00");
    let wrong = correction(observed, "judgement", "acceptable", "not-acceptable");
    let corrected = shop.sign(1, wrong);
    let told = file(&shop, 3, at(MARCH));
    mentions(
        &told,
        "Judgement of the whole, from acceptable to not acceptable.",
    );
    mentions(
        &told,
        "This does not count yet: it waits for a second person",
    );
    assert!(!told.contains("Result of the run: failed."), "{told}");
    // Whoever takes note of the run is told before, on the board and where they sign; and so is whoever rests a sign-off on it.
    let waits = "a correction or voiding of it waits for a second person";
    let board = |shop: &Shop| {
        telling(&shop.ledger, |telling| {
            let matters = waiting_for(&shop.ledger, at(MARCH), person(3));
            let of_run = matters
                .iter()
                .find(|one| **one == Matter::Acknowledge(observed));
            of_run.unwrap().told(telling)
        })
    };
    let evidence = |shop: &Shop| {
        telling(&shop.ledger, |telling| {
            let entry = shop.ledger.get(&observed).unwrap();
            ground(entry, entry.content(), telling)
        })
    };
    mentions(&board(&shop), waits);
    mentions(&evidence(&shop), waits);
    let note = |shop: &Shop| {
        let target = Countersigned { target: observed };
        let draft = shop.scribe.draft(3, shop.scribe.now(), target);
        let (fact, signing) = draft.signed().unwrap();
        let frame = draft.frame();
        let to_sign = ToBeSigned {
            frame,
            fact,
            signing,
            titles: &crate::report::record::Titles::new(),
        };
        telling(&shop.ledger, |telling| {
            texts(&preview(&shop.ledger, to_sign).blocks(telling))
        })
    };
    let not_yet = "This does not count yet: it waits for a second person.";
    mentions(&note(&shop), not_yet);
    shop.second(2, corrected);
    mentions(&note(&shop), "from acceptable to not acceptable");
    assert!(!note(&shop).contains(not_yet));
    assert!(!board(&shop).contains(waits) && !evidence(&shop).contains(waits));
    mentions(&board(&shop), "not acceptable");
    let told = file(&shop, 3, at(MARCH));
    assert!(!told.contains("This does not count"), "{told}");
    mentions(&told, "Result of the run: failed.");
    holds(
        &one(&shop, &corrected),
        &format!(
            "Also signed by {}, 2026-02-02 08:00 +01:00: approved. Entry front/38 ({}).",
            named(2),
            &shop.ledger.entries().last().unwrap().seal().to_string()[..12],
        ),
    );
}

#[test]
fn what_is_late_says_by_how_many_days() {
    let mut shop = Shop::with_one_signed_off();
    shop.at("2026-02-20T08:00:00+01:00");
    for (happened, late) in [
        ("2026-02-16T08:00:00+01:00", "Written down late, by 4 days."),
        ("2026-02-19T07:00:00+01:00", "Written down late, by 1 day."),
    ] {
        let fact = observed(3, 1, Seen::Prompted);
        let entry = shop.scribe.draft(1, stamp(happened), fact);
        let seal = shop.admit(entry);
        holds(&one(&shop, &seal), late);
        holds(&file(&shop, 3, at(MARCH)), late);
    }
    // A day is not late: the policy allows 24 hours.
    let entry = shop.scribe.draft(
        1,
        stamp("2026-02-19T08:00:00+01:00"),
        observed(3, 1, Seen::Done),
    );
    let seal = shop.admit(entry);
    assert!(!one(&shop, &seal).contains("Written down late"));
    // By another policy, hours are late.
    let strict = PolicySet {
        late_hours: 2,
        ..policy()
    };
    shop.at("2026-02-21T08:00:00+01:00").sign(0, strict);
    shop.at("2026-02-21T12:00:00+01:00");
    let entry = shop.scribe.draft(
        1,
        stamp("2026-02-21T09:00:00+01:00"),
        observed(3, 1, Seen::Done),
    );
    let seal = shop.admit(entry);
    holds(&one(&shop, &seal), "Written down late, by 3 hours.");
}
