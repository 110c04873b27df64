//! What holds for everybody: revisions, retired workflows, the laboratory's numbers.

use super::offers::{REASON, WORKFLOW, ask, reason, why, words, workflow};
use super::{About, to_sign};
use crate::app::System;
use crate::app::laboratory::{Adoption, Deed, Moment};
use crate::app::rehearse::StartProblem;
use crate::record::entry::{Impact, Independence, PolicySet, WorkflowRetired};
use crate::report::record::{impact, independence};
use crate::tui::screen::{Desk, Notice, Turn};
use crate::tui::screens::laboratory::answers::{Answers, Offer, Row};
use crate::tui::screens::laboratory::form::Not;

const MODULE: &str = "deeds-row-module";
const EFFECTIVE: &str = "deeds-row-effective";
const IMPACT: &str = "deeds-row-impact";
const DUE: &str = "deeds-row-due-days";
const GRACE: &str = "deeds-row-grace-days";
const LATE: &str = "deeds-row-late-hours";
const INDEPENDENCE: &str = "deeds-row-independence";

pub(super) fn adopt_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let ids = desk.shelf.modules();
    let wanted = about.workflow.as_ref().map(ToString::to_string);
    let offers = ids.iter().map(|id| Offer::new(id, id.clone())).collect();
    // The strictest comes first: whoever says nothing has everybody assessed again.
    let all: Vec<Impact> = Impact::ALL.iter().rev().copied().collect();
    vec![
        Row::one(MODULE, offers, wanted.as_deref()),
        Row::text(EFFECTIVE, ""),
        words(IMPACT, &all, Impact::word, impact, &desk.words),
        reason(),
    ]
}

pub(super) fn adopt<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let taken = desk
        .shelf
        .take(answers.text(MODULE), None)
        .map_err(|problem| {
            let all = crate::app::complain::start(&StartProblem::Shelf(problem), &desk.words);
            let lines = all.iter().flat_map(|one| one.lines(&desk.words));
            Not::Told(Notice::new(lines.collect()))
        })?;
    let effective = answers.time(EFFECTIVE, Moment::Begins)?;
    let decided = Adoption {
        effective: effective.unwrap_or(answers.now),
        impact: answers.word(IMPACT, Impact::ALL, Impact::word)?,
        reason: answers.needed(REASON)?,
    };
    let deed = ask(desk, |laboratory| laboratory.adoption(&taken, decided))?;
    to_sign(deed, desk)
}

pub(super) fn retire_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![workflow(about, desk), reason()]
}

pub(super) fn retire<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let workflow = answers.needed(WORKFLOW)?;
    let deed = Deed::now(WorkflowRetired { workflow });
    to_sign(deed.because(why(answers)?), desk)
}

pub(super) fn policy_rows<S: System>(_about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let held = desk.office().map_or_else(Default::default, |(house, _)| {
        let asked = house.today();
        let view = house.laboratory.view(asked.at.instant(), asked.reading);
        view.policy()
    });
    let all = Independence::ALL.iter();
    let offers = all.map(|one| Offer::new(one.word(), independence(*one, &desk.words)));
    vec![
        Row::text(DUE, &held.due_days.to_string()),
        Row::text(GRACE, &held.grace_days.to_string()),
        Row::text(LATE, &held.late_hours.to_string()),
        Row::one(
            INDEPENDENCE,
            offers.collect(),
            Some(held.independence.word()),
        ),
        reason(),
    ]
}

pub(super) fn policy<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let set = PolicySet {
        due_days: answers.needed(DUE)?,
        grace_days: answers.needed(GRACE)?,
        late_hours: answers.needed(LATE)?,
        independence: answers.word(INDEPENDENCE, Independence::ALL, Independence::word)?,
    };
    to_sign(Deed::now(set).because(why(answers)?), desk)
}
