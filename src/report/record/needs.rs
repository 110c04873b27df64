//! What a sign-off asks for, in words: what is there and what is missing, with counts.

use super::standings::revision_value;
use super::terms;
use crate::report::Item;
use crate::standing::{Count, Need, Readiness, TooFew};
use crate::text::{Value, Words};

/// One thing that a sign-off asks for, with how much of it is there.
#[must_use]
pub fn need(need: &Need, words: &Words) -> String {
    let say = |id: &str| words.say(id, &[]);
    let counted = |id: &str, count: &Count| words.say(id, &counts(count));
    match need {
        Need::Edition => say("standing-need-edition"),
        Need::Assigned => say("standing-need-assigned"),
        Need::NoSuspension => say("standing-need-no-suspension"),
        Need::Workflow(workflow) => {
            let workflow = [("workflow", workflow.to_string().into())];
            words.say("standing-need-workflow", &workflow)
        }
        Need::Read => say("standing-need-read"),
        Need::Awareness(revision) => {
            words.say("standing-need-awareness", &[revision_value(*revision)])
        }
        Need::Protection => say("standing-need-protection"),
        Need::TrainedAfterFailure => say("standing-need-trained-after-failure"),
        Need::CleanRuns(count) => counted("standing-need-clean-runs", count),
        Need::CleanDays(count) => counted("standing-need-clean-days", count),
        Need::SupervisedCases(count) => counted("standing-need-supervised-cases", count),
        Need::Observed(count) => counted("standing-need-observed", count),
        Need::Assessors(count) => counted("standing-need-assessors", count),
        Need::CleanInARow(count) => counted("standing-need-clean-in-a-row", count),
        Need::Method(method, count) => {
            let mut values = counts(count).to_vec();
            values.push(("method", terms::method(*method, words).into()));
            words.say("standing-need-method", &values)
        }
        Need::Evaluated => say("standing-need-evaluated"),
    }
}

/// That a sign-off takes more assessors than there are, and the ways out.
#[must_use]
pub fn too_few(few: TooFew, words: &Words) -> String {
    let values = [("here", few.here.into()), ("of", i64::from(few.of).into())];
    words.say("standing-too-few-assessors", &values)
}

fn counts(count: &Count) -> [(&'static str, Value); 2] {
    [
        ("have", i64::from(count.have).into()),
        ("of", i64::from(count.of).into()),
    ]
}

/// What is met and what is missing.
pub(super) fn readiness(readiness: &Readiness, few: Option<TooFew>, words: &Words) -> Vec<Item> {
    let list = |needs: &[Need]| -> Vec<Item> {
        let each = needs.iter();
        each.map(|one| Item::new(need(one, words))).collect()
    };
    let mut items = Vec::new();
    if readiness.missing.is_empty() {
        items.push(Item::new(words.say("standing-none-missing", &[])));
    } else {
        let mut missing = list(&readiness.missing);
        missing.extend(few.map(|few| Item::new(too_few(few, words))));
        items.push(Item::new(words.say("standing-missing", &[])).with(missing));
    }
    if !readiness.met.is_empty() {
        items.push(Item::new(words.say("standing-met", &[])).with(list(&readiness.met)));
    }
    items
}
