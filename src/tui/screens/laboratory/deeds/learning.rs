//! From the need to the first supervised case.

use super::Refused;
use super::fields::{Answers, Asked, Source, may, must};
use crate::app::System;
use crate::app::laboratory::{Deed, Moment, Wanted};
use crate::record::entry::{Assigned, AwarenessAcknowledged, ProtectionShown, Read, Trained};
use crate::record::scope::{Edition, Id};
use crate::tui::screen::{Desk, Notice};
use crate::units::PersonCode;

pub(super) const ASSIGN: &[Asked] = &[
    must("person", Source::Person),
    must("workflow", Source::Workflow),
    may("profile", Source::InScope(|scope| &scope.profile)),
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
