//! Second signatures, corrections, voids: what is said about an entry.

use super::Refused;
use super::fields::{Answers, Asked, Source, may, meaning, must};
use crate::app::System;
use crate::app::laboratory::Deed;
use crate::record::entry::{Corrected, Countersigned, Voided};
use crate::record::scope::{Id, Meaning};
use crate::record::seal::Seal;
use crate::tui::screen::Desk;

fn target<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<Seal, Refused> {
    let found = answers.found("entry").ok_or("entry")?;
    let Some((house, words)) = desk.office() else {
        return Err("entry".into());
    };
    let entry = house.laboratory.find(found);
    entry
        .map(crate::record::entry::Entry::seal)
        .map_err(|problem| Refused::Told(house.problem(&problem, words)))
}

pub(super) const COUNTERSIGN: &[Asked] = &[
    must("entry", Source::Entry),
    must("meaning", Source::Words(meaning)),
    may("reason", Source::Line),
];

pub(super) fn countersign<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let target = target(answers, desk)?;
    let meaning = answers.word("meaning", Meaning::ALL, Meaning::word)?;
    let deed = Deed::now(Countersigned { target }).meaning(meaning);
    Ok(deed.because(answers.reason()?))
}

pub(super) const CORRECT: &[Asked] = &[
    must("entry", Source::Entry),
    must("member", Source::Member),
    may("new", Source::Value),
    must("reason", Source::Line),
];

pub(super) fn correct<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let target = target(answers, desk)?;
    let member: Id = answers.name("member")?.parse().map_err(|_| "member")?;
    let old = desk
        .office()
        .and_then(|(house, _)| house.laboratory.member(&target, &member));
    let corrected = Corrected {
        target,
        member,
        old,
        new: answers.value("new"),
    };
    Ok(Deed::now(corrected).because(answers.reason()?))
}

pub(super) const VOID: &[Asked] = &[must("entry", Source::Entry), must("reason", Source::Line)];

pub(super) fn void<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<Deed, Refused> {
    let target = target(answers, desk)?;
    Ok(Deed::now(Voided { target }).because(answers.reason()?))
}
