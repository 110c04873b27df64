//! What holds in the laboratory: revisions, numbers, reviews.

use super::Refused;
use super::fields::{Answers, Asked, Source, impact, independence, may, must, result};
use super::offered::Offered;
use crate::app::System;
use crate::app::laboratory::{Adoption, Deed, Moment, Number};
use crate::app::rehearse::StartProblem;
use crate::record::entry::{
    Found, Impact, Independence, PolicySet, TrailReviewed, WorkflowRetired,
};
use crate::standing::Reading;
use crate::tui::screen::Desk;
use crate::tui::screens::not_started;

/// What has to be decided stands first, then the numbers: mostly they stay as the module has them.
pub(super) const ADOPT: &[Asked] = &{
    let decided = [
        must("module", Source::Module),
        may("effective", Source::Begins),
        must("impact", Source::Words(impact)),
        must("reason", Source::Line),
    ];
    let mut all = [decided[0]; 4 + Number::ALL.len()];
    let mut at = 0;
    while at < all.len() {
        all[at] = if at < decided.len() {
            decided[at]
        } else {
            let number = Number::ALL[at - decided.len()];
            may(number.word(), Source::OfModule(number))
        };
        at += 1;
    }
    all
};

/// The modules that can be adopted: what is the laboratory's own is named so, and what is wrong with one is told when it is taken.
pub(super) fn modules<S: System>(desk: &mut Desk<S>) -> Vec<Offered> {
    desk.lay_own_modules();
    let ids = desk.shelf.modules().into_iter();
    let shown = ids.map(|id| {
        let values = [("id", id.as_str().into())];
        let taken = desk.shelf.take_sound(&id);
        let shown = if taken.is_err() {
            desk.say("deeds-module-not-sound", &values)
        } else if desk.shelf.is_own(&id) {
            desk.say("deeds-module-own", &values)
        } else {
            id.clone()
        };
        Offered {
            id,
            shown,
            asks: taken.ok().and_then(|taken| taken.module.sign_off),
        }
    });
    shown.collect()
}

pub(super) fn adopt<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<Deed, Refused> {
    let taken = desk.shelf.take_sound(answers.name("module")?);
    let taken = taken.map_err(|problem| {
        let mut notice = not_started(&StartProblem::Shelf(problem), &desk.words);
        notice
            .texts
            .insert(0, desk.say("laboratory-module-faulty", &[]));
        Refused::Told(notice)
    })?;
    let effective = answers.time("effective", Moment::Begins)?;
    let decided = Adoption {
        effective: effective.unwrap_or(answers.now),
        impact: answers.word("impact", Impact::ALL, Impact::word)?,
        reason: answers.reason()?.ok_or("reason")?,
        numbers: answers.own_numbers()?,
    };
    let Some((house, words)) = desk.office() else {
        return Err("module".into());
    };
    let deed = house.laboratory.adoption(&taken, decided);
    deed.map_err(|problem| Refused::Told(house.problem(&problem, words)))
}

pub(super) const RETIRE: &[Asked] = &[
    must("workflow", Source::Workflow),
    must("reason", Source::Line),
];

pub(super) fn retire<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let workflow = answers.workflow().ok_or("workflow")?;
    Ok(Deed::now(WorkflowRetired { workflow }).because(answers.reason()?))
}

pub(super) const POLICY: &[Asked] = &[
    may("due-days", Source::OfPolicy(|held| held.due_days)),
    may("grace-days", Source::OfPolicy(|held| held.grace_days)),
    may("late-hours", Source::OfPolicy(|held| held.late_hours)),
    may("independence", Source::Words(independence)),
    must("reason", Source::Line),
];

/// What is left empty stays as it is.
pub(super) fn policy<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let now = answers.now.instant();
    let held = desk.office().map(|(house, _)| {
        let view = house.laboratory.view(now, Reading::AsNowKnown);
        view.policy()
    });
    let held = held.unwrap_or_default();
    let independence = answers.word("independence", Independence::ALL, Independence::word);
    let set = PolicySet {
        due_days: answers.read("due-days")?.unwrap_or(held.due_days),
        grace_days: answers.read("grace-days")?.unwrap_or(held.grace_days),
        late_hours: answers.read("late-hours")?.unwrap_or(held.late_hours),
        independence: independence.unwrap_or(held.independence),
    };
    Ok(Deed::now(set).because(answers.reason()?))
}

pub(super) const REVIEW: &[Asked] = &[
    must("from", Source::Begins),
    may("until", Source::Ends),
    must("result", Source::Words(result)),
    may("reason", Source::Line),
];

pub(super) fn review<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let until = answers.time("until", Moment::Ends)?;
    let reviewed = TrailReviewed {
        from: answers.time("from", Moment::Begins)?.ok_or("from")?,
        until: until.unwrap_or(answers.now),
        result: answers.word("result", Found::ALL, Found::word)?,
    };
    Ok(Deed::now(reviewed).because(answers.reason()?))
}
