//! What others see of a person's work.

use super::offers::{
    HAPPENED, REVISION, WHOM, Whom, ask, happened, reason, revision, whom, why, words,
};
use super::{About, to_sign};
use crate::app::System;
use crate::app::laboratory::{Deed, Moment};
use crate::record::entry::{CaseChecked, Effect, Evaluated, Judgement, Stage, SupervisedBy};
use crate::record::scope::Edition;
use crate::report::record::{effect, judgement, stage};
use crate::tui::screen::{Desk, Turn};
use crate::tui::screens::laboratory::answers::{Answers, Row, Wrong};
use crate::tui::screens::laboratory::form::Not;

const FROM: &str = "deeds-row-supervised-from";
const UNTIL: &str = "deeds-row-until";
const CASE: &str = "deeds-row-case";
const JUDGEMENT: &str = "deeds-row-judgement";
const STAGE: &str = "deeds-row-stage";
const EFFECT: &str = "deeds-row-effect";

pub(super) fn supervise_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        whom(about, desk),
        Row::text(FROM, ""),
        Row::text(UNTIL, ""),
        reason(),
    ]
}

pub(super) fn supervise<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let Whom { person, scope } = answers.needed(WHOM)?;
    let from = answers.time(FROM, Moment::Begins)?.unwrap_or(answers.now);
    let until = answers.time(UNTIL, Moment::Ends)?;
    let until = until.ok_or(Wrong {
        id: UNTIL,
        why: "deeds-wrong-missing",
    })?;
    let fact = SupervisedBy {
        person,
        scope,
        from,
        until,
    };
    to_sign(Deed::now(fact).because(why(answers)?), desk)
}

pub(super) fn case_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        whom(about, desk),
        Row::text(CASE, ""),
        words(
            JUDGEMENT,
            Judgement::ALL,
            Judgement::word,
            judgement,
            &desk.words,
        ),
        revision(),
        happened(),
        reason(),
    ]
}

/// The edition that is named; the one in force where none is.
pub(super) fn edition<S: System>(
    whom: &Whom,
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Edition, Not> {
    let named: Option<u32> = answers.value(REVISION)?;
    ask(desk, |laboratory| {
        laboratory.edition(&whom.scope.workflow, named)
    })
}

pub(super) fn check_case<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let whom: Whom = answers.needed(WHOM)?;
    let fact = CaseChecked {
        edition: edition(&whom, answers, desk)?,
        person: whom.person,
        scope: whom.scope,
        case: answers.needed(CASE)?,
        judgement: answers.word(JUDGEMENT, Judgement::ALL, Judgement::word)?,
    };
    let at = answers.time(HAPPENED, Moment::Begins)?;
    to_sign(Deed::now(fact).at(at).because(why(answers)?), desk)
}

pub(super) fn evaluate_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        whom(about, desk),
        words(STAGE, Stage::ALL, Stage::word, stage, &desk.words),
        words(EFFECT, Effect::ALL, Effect::word, effect, &desk.words),
        revision(),
        happened(),
        reason(),
    ]
}

pub(super) fn evaluate<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let whom: Whom = answers.needed(WHOM)?;
    let fact = Evaluated {
        edition: edition(&whom, answers, desk)?,
        person: whom.person,
        scope: whom.scope,
        stage: answers.word(STAGE, Stage::ALL, Stage::word)?,
        effect: answers.word(EFFECT, Effect::ALL, Effect::word)?,
    };
    let at = answers.time(HAPPENED, Moment::Begins)?;
    to_sign(Deed::now(fact).at(at).because(why(answers)?), desk)
}
