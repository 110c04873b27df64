//! Entries about entries: second signatures, corrections, voids.

use super::offers::{found, reason, why, words};
use super::{About, offers, to_sign};
use crate::app::System;
use crate::app::laboratory::{Deed, typed};
use crate::record::entry::{Corrected, Countersigned, Voided};
use crate::record::scope::{Id, Meaning};
use crate::report::record::meaning;
use crate::tui::screen::{Desk, Turn};
use crate::tui::screens::laboratory::answers::{Answers, Row};
use crate::tui::screens::laboratory::form::Not;

const MEMBER: &str = "deeds-row-member";
const TO: &str = "deeds-row-to";
const MEANING: &str = "deeds-row-meaning";

/// What a second signature can mean.
const MEANINGS: &[Meaning] = &[Meaning::Approved, Meaning::Reviewed, Meaning::Acknowledged];

pub(super) fn correct_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        offers::entry(about, desk),
        Row::text(MEMBER, ""),
        Row::text(TO, ""),
        reason(),
    ]
}

pub(super) fn correct<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let target = found(answers, desk)?.seal();
    let member: Id = answers.needed(MEMBER)?;
    let old = desk
        .office()
        .and_then(|(house, _)| house.laboratory.member(&target, &member));
    let to = answers.text(TO);
    let new = (!to.is_empty()).then(|| typed(to));
    let fact = Corrected {
        target,
        member,
        old,
        new,
    };
    to_sign(Deed::now(fact).because(why(answers)?), desk)
}

pub(super) fn void_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![offers::entry(about, desk), reason()]
}

pub(super) fn void<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let target = found(answers, desk)?.seal();
    to_sign(Deed::now(Voided { target }).because(why(answers)?), desk)
}

pub(super) fn countersign_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let waiting = desk
        .office()
        .and_then(|(house, _)| house.laboratory.waits_for_second());
    let about = About {
        entry: about.entry.or(waiting),
        ..about.clone()
    };
    vec![
        offers::entry(&about, desk),
        words(MEANING, MEANINGS, Meaning::word, meaning, &desk.words),
        reason(),
    ]
}

pub(super) fn countersign<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let target = found(answers, desk)?.seal();
    let meaning = answers.word(MEANING, MEANINGS, Meaning::word)?;
    let deed = Deed::now(Countersigned { target }).meaning(meaning);
    to_sign(deed.because(why(answers)?), desk)
}
