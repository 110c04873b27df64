//! From the need to the first supervised case.

use super::Refused;
use super::fields::{Answers, Asked, Source, may, must};
use crate::app::System;
use crate::app::laboratory::{Deed, Moment, Wanted, edition_of};
use crate::app::rehearse::StartProblem;
use crate::record::entry::{
    Assigned, AwarenessAcknowledged, ProtectionShown, Read, Signed, Trained,
};
use crate::record::scope::{Edition, Id};
use crate::report::Block;
use crate::tui::screen::{Desk, Notice};
use crate::tui::screens::not_started;
use crate::units::PersonCode;

pub(super) const ASSIGN: &[Asked] = &[
    must("person", Source::Person),
    must("workflow", Source::Workflow),
    may("profile", Source::Profile),
    may("wash", Source::InScope(|scope| &scope.wash)),
    may("cure", Source::InScope(|scope| &scope.cure)),
    may("happened", Source::Begins),
    may("reason", Source::Line),
];

pub(super) fn assign<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let wanted = Wanted {
        workflow: answers.workflow().ok_or("workflow")?,
        profile: answers.id("profile"),
        wash: answers.id("wash"),
        cure: answers.id("cure"),
    };
    let assigned = Assigned {
        person: answers.person("person")?,
        scope: wanted.new_scope().ok_or("profile")?,
    };
    let happened = answers.time("happened", Moment::Begins)?;
    Ok(Deed::now(assigned).at(happened).because(answers.reason()?))
}

pub(super) const READ: &[Asked] = &[
    must("workflow", Source::Workflow),
    must("edition", Source::NewestEdition),
];

/// Who reads and takes note is who is signed in.
fn own<S: System>(
    answers: &Answers<'_>,
    desk: &Desk<S>,
) -> Result<(PersonCode, Id, Edition), Refused> {
    let nobody = || Refused::Told(Notice::new(vec![desk.say("office-signing-nobody", &[])]));
    let person = desk.person().ok_or_else(nobody)?;
    let workflow = answers.workflow().ok_or("workflow")?;
    Ok((person, workflow, answers.edition()?))
}

pub(super) fn read<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<Deed, Refused> {
    let (person, workflow, edition) = own(answers, desk)?;
    Ok(Deed::now(Read {
        person,
        workflow,
        edition,
    }))
}

pub(super) fn change<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let (person, workflow, edition) = own(answers, desk)?;
    Ok(Deed::now(AwarenessAcknowledged {
        person,
        workflow,
        edition,
    }))
}

/// What somebody has to know first who signs for a text that is not the newest, or that lies on no shelf here.
pub(super) fn of_other_text<S: System>(deed: &Deed, desk: &mut Desk<S>) -> Vec<Block> {
    let (workflow, edition) = match &deed.fact {
        Signed::Read(fact) => (&fact.workflow, &fact.edition),
        Signed::AwarenessAcknowledged(fact) => (&fact.workflow, &fact.edition),
        _ => return Vec::new(),
    };
    desk.lay_own_modules();
    let taken = desk.shelf.take(&workflow.to_string(), None).ok();
    let here = taken.and_then(|taken| edition_of(&taken).ok());
    let newest = desk
        .office()
        .and_then(|(house, _)| house.laboratory.newest_edition(workflow).ok());
    let caution = |id: &str, other: &Edition| {
        let values = [
            ("signed", edition.revision.to_string().into()),
            ("other", other.revision.to_string().into()),
        ];
        Block::Caution(desk.say(id, &values))
    };
    let mut cautions = Vec::new();
    if let Some(newest) = newest.filter(|newest| newest != edition) {
        cautions.push(caution("deeds-not-the-newest", &newest));
    }
    match here {
        Some(here) if here != *edition => {
            cautions.push(caution("deeds-other-text-here", &here));
        }
        None => cautions.push(caution("deeds-no-text-here", edition)),
        Some(_) => {}
    }
    cautions
}

/// What somebody has to know first who assigns a person under a profile by whose numbers nobody can work here.
pub(super) fn of_profile_not_here<S: System>(deed: &Deed, desk: &mut Desk<S>) -> Vec<Block> {
    let Signed::Assigned(fact) = &deed.fact else {
        return Vec::new();
    };
    desk.lay_own_modules();
    let (workflow, profile) = (&fact.scope.workflow, &fact.scope.profile);
    let suits = desk
        .shelf
        .suits(&workflow.to_string(), &profile.to_string());
    let Err(problem) = suits else {
        return Vec::new();
    };
    let values = [("profile", profile.to_string().into())];
    let mut texts = vec![desk.say("deeds-profile-not-here", &values)];
    texts.extend(not_started(&StartProblem::Shelf(problem), &desk.words).texts);
    texts.into_iter().map(Block::Caution).collect()
}

pub(super) const TRAIN: &[Asked] = &[
    must("person", Source::Person),
    must("workflow", Source::Workflow),
    must("edition", Source::NewestEdition),
    may("happened", Source::Begins),
    may("reason", Source::Line),
];

pub(super) fn train<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<Deed, Refused> {
    let spoken = desk.words.language().to_lowercase().parse();
    let trained = Trained {
        person: answers.person("person")?,
        workflow: answers.workflow().ok_or("workflow")?,
        edition: answers.edition()?,
        language: spoken.map_err(|_| "workflow")?,
    };
    let happened = answers.time("happened", Moment::Begins)?;
    Ok(Deed::now(trained).at(happened).because(answers.reason()?))
}

pub(super) fn protection<S: System>(
    answers: &Answers<'_>,
    _: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let shown = ProtectionShown {
        person: answers.person("person")?,
        workflow: answers.workflow().ok_or("workflow")?,
        edition: answers.edition()?,
    };
    let happened = answers.time("happened", Moment::Begins)?;
    Ok(Deed::now(shown).at(happened).because(answers.reason()?))
}
