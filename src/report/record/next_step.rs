//! What somebody does next in a scope, in one sentence.

use super::scopes::InScope;
use super::telling::Telling;
use super::terms;
use crate::standing::{Count, Need, Readiness, Standing, Validity};

/// The next step of the person whose standing this is. Rehearsals are asked for, never due.
#[must_use]
pub fn next_step(in_scope: &InScope, telling: &Telling<'_>) -> String {
    let say = |id: &str| telling.say(id, &[]);
    let missing = || {
        let list = in_scope.readiness.as_ref()?;
        let first = in_scope
            .first_missing()
            .map(|need| step(need, list, telling));
        let as_first = || {
            in_scope
                .could_be_first
                .then(|| say("files-step-first-assessor"))
        };
        first.or_else(as_first)
    };
    match &in_scope.standing {
        Err(_) => say("files-next-cannot-be-shown"),
        Ok(Standing::NotAssigned) => say("files-next-not-assigned"),
        Ok(Standing::Withdrawn { .. }) => say("files-next-withdrawn"),
        Ok(Standing::Left { .. }) => say("files-next-left"),
        Ok(Standing::Suspended { .. }) => say("files-next-suspended"),
        Ok(Standing::ReadyForSignOff) => say("files-next-ready"),
        Ok(Standing::InTraining | Standing::UnderSupervision { .. }) => {
            missing().unwrap_or_else(|| say("files-next-ready"))
        }
        Ok(Standing::SignedOff(validity)) => {
            telling.say("files-next-signed-off", &until(validity, telling))
        }
        Ok(Standing::Due(validity, _)) => {
            let step = missing().unwrap_or_else(|| say("files-next-ready"));
            let mut values = until(validity, telling).to_vec();
            values.push(("step", step.into()));
            telling.say("files-next-due", &values)
        }
        Ok(Standing::Lapsed(..)) => {
            let step = missing().unwrap_or_else(|| say("files-next-ready"));
            telling.say("files-next-lapsed", &[("step", step.into())])
        }
    }
}

fn until(validity: &Validity, telling: &Telling<'_>) -> [(&'static str, crate::text::Value); 1] {
    [("until", telling.at(validity.until, validity.offset).into())]
}

fn more(count: &Count) -> i64 {
    i64::from(count.of.saturating_sub(count.have))
}

/// What meets the first thing that is missing, in the order in which it can be done.
fn step(need: &Need, list: &Readiness, telling: &Telling<'_>) -> String {
    let counted = |id: &str, count: &Count| telling.say(id, &[("more", more(count).into())]);
    let say = |id: &str| telling.say(id, &[]);
    match need {
        Need::Edition => say("files-step-edition"),
        Need::Assigned => say("files-step-assigned"),
        Need::NoSuspension => say("files-next-suspended"),
        Need::Workflow(workflow) => {
            let workflow = [("workflow", workflow.to_string().into())];
            telling.say("files-step-workflow", &workflow)
        }
        Need::Read => say("files-step-read"),
        Need::Awareness(revision) => {
            let revision = [("revision", revision.to_string().into())];
            telling.say("files-step-awareness", &revision)
        }
        Need::Protection => say("files-step-protection"),
        Need::TrainedAfterFailure => say("files-step-trained"),
        Need::CleanRuns(_) | Need::CleanDays(_) => rehearsals(list, telling),
        Need::SupervisedCases(count) => counted("files-step-cases", count),
        Need::Observed(count) => counted("files-step-observed", count),
        Need::Assessors(count) => counted("files-step-assessors", count),
        Need::CleanInARow(count) => counted("files-step-in-a-row", count),
        Need::Method(method, count) => {
            let method = terms::method(*method, telling.words);
            let values = [("more", more(count).into()), ("method", method.into())];
            telling.say("files-step-method", &values)
        }
        Need::Evaluated => say("files-step-evaluated"),
    }
}

/// Rehearsals and the days that they are spread over belong together.
fn rehearsals(list: &Readiness, telling: &Telling<'_>) -> String {
    let mut runs = 0;
    let mut days = 0;
    for need in &list.missing {
        match need {
            Need::CleanRuns(count) => runs = more(count),
            Need::CleanDays(count) => days = more(count),
            _ => {}
        }
    }
    // A run on each of the days is at least as many runs.
    let values = [("runs", runs.max(days).into()), ("days", days.into())];
    telling.say("files-step-rehearse", &values)
}
