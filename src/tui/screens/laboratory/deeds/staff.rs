//! Rights, leaving, keys that are lost.

use super::Refused;
use super::fields::{Answers, Asked, Source, authority, may, must};
use crate::app::System;
use crate::app::laboratory::{Deed, Problem};
use crate::record::entry::{KeyLost, Left, Revoked};
use crate::record::scope::Authority;
use crate::tui::screen::Desk;

pub(super) const GRANT: &[Asked] = &[
    must("person", Source::Person),
    must("authorities", Source::SomeOf(authority)),
    may("workflow", Source::Workflow),
    may("reason", Source::Line),
];

pub(super) fn grant(answers: &Answers<'_>) -> Result<Vec<Deed>, Refused> {
    let person = answers.person("person")?;
    let (workflow, reason) = (answers.workflow(), answers.reason()?);
    let authorities = answers.some_of("authorities", Authority::ALL, Authority::word);
    Ok(Deed::grants(
        person,
        authorities,
        workflow.as_ref(),
        reason.as_ref(),
    ))
}

pub(super) const REVOKE: &[Asked] = &[
    must("person", Source::Person),
    must("authority", Source::Words(authority)),
    may("workflow", Source::Workflow),
    must("reason", Source::Line),
];

/// The first grant of this right that holds.
pub(super) fn revoke<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let person = answers.person("person")?;
    let authority = answers.word("authority", Authority::ALL, Authority::word)?;
    let workflow = answers.workflow();
    let Some((house, words)) = desk.office() else {
        return Err("person".into());
    };
    let mut grants = house.laboratory.ledger().staff().grants_of(person);
    let grant = grants
        .find(|(_, held, of)| {
            *held == authority && (workflow.is_none() || *of == workflow.as_ref())
        })
        .map(|(seal, ..)| seal);
    drop(grants);
    let grant = grant.ok_or_else(|| {
        let problem = Problem::NoSuchGrant(person, authority);
        Refused::Told(house.problem(&problem, words))
    })?;
    Ok(Deed::now(Revoked { person, grant }).because(answers.reason()?))
}

pub(super) const LEAVE: &[Asked] = &[must("person", Source::Person), must("reason", Source::Line)];

pub(super) fn leave<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let person = answers.person("person")?;
    Ok(Deed::now(Left { person }).because(answers.reason()?))
}

pub(super) const KEY_LOST: &[Asked] =
    &[must("person", Source::Person), must("reason", Source::Line)];

pub(super) fn key_lost<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let person = answers.person("person")?;
    let Some((house, words)) = desk.office() else {
        return Err("person".into());
    };
    let key = house.laboratory.key_of(person);
    let key = key.map_err(|problem| Refused::Told(house.problem(&problem, words)))?;
    Ok(Deed::now(KeyLost { person, key }).because(answers.reason()?))
}
