//! Work under supervision, and whether training worked.

use super::Refused;
use super::fields::{Answers, Asked, Source, effect, judgement, may, must, stage};
use crate::app::System;
use crate::app::laboratory::{Deed, Moment};
use crate::record::entry::{CaseChecked, Effect, Evaluated, Judgement, Stage, SupervisedBy};
use crate::tui::screen::Desk;

pub(super) const SUPERVISE: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    may("from", Source::Begins),
    must("until", Source::Ends),
    may("reason", Source::Line),
];

pub(super) fn supervise<S: System>(
    answers: &Answers<'_>,
    _: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let from = answers.time("from", Moment::Begins)?;
    let supervised = SupervisedBy {
        person: answers.person("person")?,
        scope: answers.scope()?,
        from: from.unwrap_or(answers.now),
        until: answers.time("until", Moment::Ends)?.ok_or("until")?,
    };
    Ok(Deed::now(supervised).because(answers.reason()?))
}

pub(super) const CHECK_CASE: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    must("edition", Source::Edition),
    must("case", Source::Name),
    must("judgement", Source::Words(judgement)),
    may("happened", Source::Begins),
    may("reason", Source::Line),
];

pub(super) fn check_case<S: System>(
    answers: &Answers<'_>,
    _: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let checked = CaseChecked {
        person: answers.person("person")?,
        scope: answers.scope()?,
        edition: answers.edition()?,
        case: answers.own_name("case")?.ok_or("case")?,
        judgement: answers.word("judgement", Judgement::ALL, Judgement::word)?,
    };
    let happened = answers.time("happened", Moment::Begins)?;
    Ok(Deed::now(checked).at(happened).because(answers.reason()?))
}

pub(super) const EVALUATE: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    must("edition", Source::Edition),
    must("stage", Source::Words(stage)),
    must("effect", Source::Words(effect)),
    may("happened", Source::Begins),
    may("reason", Source::Line),
];

pub(super) fn evaluate<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let evaluated = Evaluated {
        person: answers.person("person")?,
        scope: answers.scope()?,
        edition: answers.edition()?,
        stage: answers.word("stage", Stage::ALL, Stage::word)?,
        effect: answers.word("effect", Effect::ALL, Effect::word)?,
    };
    let happened = answers.time("happened", Moment::Begins)?;
    Ok(Deed::now(evaluated).at(happened).because(answers.reason()?))
}
