//! From the need to the first supervised case.

use super::offers::{
    HAPPENED, PERSON, REVISION, WORKFLOW, ask, happened, here, person, reason, revision, why,
    workflow,
};
use super::{About, to_sign};
use crate::app::System;
use crate::app::laboratory::{Deed, Moment, NO_UNIT};
use crate::app::shelf::DEFAULT_PROFILE;
use crate::record::entry::{Assigned, AwarenessAcknowledged, ProtectionShown, Read, Trained};
use crate::record::scope::{Edition, Id, Scope};
use crate::tui::screen::{Desk, Turn};
use crate::tui::screens::laboratory::answers::{Answers, Offer, Row};
use crate::tui::screens::laboratory::form::Not;

const PROFILE: &str = "deeds-row-profile";
const WASH: &str = "deeds-row-wash";
const CURE: &str = "deeds-row-cure";
const LANGUAGE: &str = "deeds-row-language";

pub(super) fn assign_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let ids = desk.shelf.modules();
    let wanted = about.workflow.as_ref().map(ToString::to_string);
    let offers = ids.iter().map(|id| Offer::new(id, id.clone())).collect();
    vec![
        person(PERSON, about.person, desk),
        Row::one(WORKFLOW, offers, wanted.as_deref()),
        Row::text(PROFILE, DEFAULT_PROFILE),
        Row::text(WASH, NO_UNIT),
        Row::text(CURE, NO_UNIT),
        happened(),
        reason(),
    ]
}

pub(super) fn assign<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let scope = Scope {
        workflow: answers.needed(WORKFLOW)?,
        profile: answers.needed(PROFILE)?,
        wash: answers.needed(WASH)?,
        cure: answers.needed(CURE)?,
    };
    let person = answers.needed(PERSON)?;
    to_sign(when(answers, Deed::now(Assigned { person, scope }))?, desk)
}

pub(super) fn own_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![workflow(about, desk), revision(), reason()]
}

pub(super) fn rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let language = desk.words.language().to_lowercase();
    vec![
        person(PERSON, about.person, desk),
        workflow(about, desk),
        revision(),
        Row::text(LANGUAGE, &language),
        happened(),
        reason(),
    ]
}

/// The workflow, and the edition that is named; the newest where none is.
fn edition<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<(Id, Edition), Not> {
    let workflow: Id = answers.needed(WORKFLOW)?;
    let named: Option<u32> = answers.value(REVISION)?;
    let edition = ask(desk, |laboratory| match named {
        Some(_) => laboratory.edition(&workflow, named),
        None => laboratory.newest_edition(&workflow),
    })?;
    Ok((workflow, edition))
}

fn when(answers: &Answers<'_>, deed: Deed) -> Result<Deed, Not> {
    let at = answers.time(HAPPENED, Moment::Begins)?;
    Ok(deed.at(at).because(why(answers)?))
}

pub(super) fn read<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let (workflow, edition) = edition(answers, desk)?;
    let person = here(desk)?;
    let fact = Read {
        person,
        workflow,
        edition,
    };
    to_sign(Deed::now(fact).because(why(answers)?), desk)
}

pub(super) fn change<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let (workflow, edition) = edition(answers, desk)?;
    let person = here(desk)?;
    let fact = AwarenessAcknowledged {
        person,
        workflow,
        edition,
    };
    to_sign(Deed::now(fact).because(why(answers)?), desk)
}

pub(super) fn train<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let (workflow, edition) = edition(answers, desk)?;
    let fact = Trained {
        person: answers.needed(PERSON)?,
        workflow,
        edition,
        language: answers.needed(LANGUAGE)?,
    };
    to_sign(when(answers, Deed::now(fact))?, desk)
}

pub(super) fn protection<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let (workflow, edition) = edition(answers, desk)?;
    let person = answers.needed(PERSON)?;
    let fact = ProtectionShown {
        person,
        workflow,
        edition,
    };
    to_sign(when(answers, Deed::now(fact))?, desk)
}
