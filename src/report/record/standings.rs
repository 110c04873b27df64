//! Standings in words, with their circumstances: since when, until when, by whom, why, from when on.

use super::scopes::InScope;
use super::telling::{Telling, time};
use super::terms;
use crate::record::seal::Seal;
use crate::report::Item;
use crate::standing::{
    CannotBeShown, CarriedBy, DueCause, LapseCause, Remark, Standing, Supervision, Validity,
};
use crate::text::{Value, Words};

/// Words a standing by its own word ([`Standing::word`], or `cannot-be-shown`).
#[must_use]
pub fn standing(word: &str, words: &Words) -> String {
    terms::term("standing-word", word, words)
}

/// The abbreviation of a standing in a cell of a table, by its own word.
#[must_use]
pub fn standing_short(word: &str, words: &Words) -> String {
    terms::term("standing-short", word, words)
}

/// An abbreviation beside what it means and what the person may do.
pub(super) fn legend(word: &str, words: &Words) -> Vec<String> {
    vec![
        standing_short(word, words),
        terms::term("standing-means", word, words),
    ]
}

/// A standing with its circumstances in one sentence. `ground` is the entry it rests on, `supervision` who supervises.
#[must_use]
pub fn standing_told(
    standing: &Result<Standing, CannotBeShown>,
    ground: Option<&Seal>,
    supervision: Option<&Supervision>,
    telling: &Telling<'_>,
) -> String {
    let say = |id: &str, values: &[(&str, Value)]| telling.say(id, values);
    let entry = ground.and_then(|seal| telling.ledger.get(seal));
    let since = entry.map_or_else(
        || telling.say("record-nothing", &[]),
        |entry| time(entry.frame().happened),
    );
    let signer = entry.and_then(|entry| entry.signed());
    let by = signer.map_or_else(String::new, |(_, signing)| telling.person(signing.by));
    match standing {
        Err(doubt) => {
            let number = i64::try_from(doubt.number).unwrap_or(i64::MAX);
            let strand = ("strand", doubt.strand.to_string().into());
            say(
                "standing-told.cannot-be-shown",
                &[strand, ("number", number.into())],
            )
        }
        Ok(Standing::NotAssigned) => say("standing-told.not-assigned", &[]),
        Ok(Standing::InTraining) => say("standing-told.in-training", &[("since", since.into())]),
        Ok(Standing::ReadyForSignOff) => say(
            "standing-told.ready-for-sign-off",
            &[("since", since.into())],
        ),
        Ok(Standing::UnderSupervision { supervisor }) => {
            let by = ("by", telling.person(*supervisor).into());
            let until = supervision.map_or_else(
                || telling.say("record-nothing", &[]),
                |supervision| time(supervision.until),
            );
            let since = supervision.map_or(since, |supervision| time(supervision.from));
            let values = [by, ("since", since.into()), ("until", until.into())];
            say("standing-told.under-supervision", &values)
        }
        Ok(Standing::SignedOff(validity)) => {
            say("standing-told.signed-off", &signed_off(validity, telling))
        }
        Ok(Standing::Due(validity, _)) => say("standing-told.due", &signed_off(validity, telling)),
        Ok(Standing::Lapsed(validity, _)) => {
            say("standing-told.lapsed", &signed_off(validity, telling))
        }
        Ok(Standing::Suspended { allowed, .. }) => {
            let allowed = terms::allowed(*allowed, telling.words);
            let reason = entry.and_then(|entry| entry.frame().reason.as_ref());
            let values = [
                ("since", since.into()),
                ("by", by.into()),
                ("allowed", allowed.into()),
                (
                    "reason",
                    reason.map_or_else(String::new, ToString::to_string).into(),
                ),
            ];
            say("standing-told.suspended", &values)
        }
        Ok(Standing::Withdrawn { .. }) => {
            let values = [("since", since.into()), ("by", by.into())];
            say("standing-told.withdrawn", &values)
        }
        Ok(Standing::Left { .. }) => {
            let values = [("since", since.into()), ("by", by.into())];
            match entry.map(|entry| entry.word()) {
                Some("workflow-retired") => say("standing-told.retired", &values),
                _ => say("standing-told.left", &values),
            }
        }
    }
}

fn signed_off(validity: &Validity, telling: &Telling<'_>) -> [(&'static str, Value); 4] {
    [
        ("since", telling.at(validity.from, validity.offset).into()),
        ("until", telling.at(validity.until, validity.offset).into()),
        ("by", telling.person(validity.by).into()),
        ("edition", telling.edition(&validity.edition).into()),
    ]
}

/// Why a sign-off is due.
#[must_use]
pub fn due_cause(cause: &DueCause, telling: &Telling<'_>) -> String {
    let entry = |seal: &Seal| [("entry", telling.entry(seal).into())];
    match cause {
        DueCause::Interval => telling.say("standing-due-interval", &[]),
        DueCause::CalledIn(cause, _) => {
            let cause = terms::cause(*cause, telling.words);
            telling.say("standing-due-called-in", &[("cause", cause.into())])
        }
        DueCause::Failed(seal) => telling.say("standing-due-failed", &entry(seal)),
        DueCause::NotEffective(seal) => telling.say("standing-due-not-effective", &entry(seal)),
        DueCause::EffectNotChecked => telling.say("standing-due-effect-not-checked", &[]),
        DueCause::Revision(revision) => {
            telling.say("standing-due-revision", &[revision_value(*revision)])
        }
        DueCause::ToReview(seal) => telling.say("standing-due-to-review", &entry(seal)),
    }
}

/// Why a sign-off has ended.
#[must_use]
pub fn lapse_cause(cause: LapseCause, words: &Words) -> String {
    match cause {
        LapseCause::Interval => words.say("standing-lapsed-interval", &[]),
        LapseCause::NotReassessed(_) => words.say("standing-lapsed-not-reassessed", &[]),
        LapseCause::Revision(revision, _) => {
            words.say("standing-lapsed-revision", &[revision_value(revision)])
        }
    }
}

pub(super) fn revision_value(revision: u32) -> (&'static str, Value) {
    // A revision is a name: its digits are not grouped.
    ("revision", revision.to_string().into())
}

/// That a sign-off covers a later revision too, and what carried it over.
fn carried_over(revision: u32, by: CarriedBy, telling: &Telling<'_>) -> String {
    let revision = revision_value(revision);
    let CarriedBy::Entry(seal) = by else {
        return telling.say("standing-carried.none", &[revision]);
    };
    let said = telling.ledger.get(&seal);
    let said = said.map_or_else(String::new, |entry| super::said::said(entry, telling));
    let entry = ("entry", telling.entry(&seal).into());
    telling.say(
        "standing-carried.by",
        &[revision, ("said", said.into()), entry],
    )
}

/// Why a standing is due, or has ended; nothing for others.
pub(super) fn causes(standing: &Standing, telling: &Telling<'_>) -> Vec<String> {
    match standing {
        Standing::Due(_, causes) => {
            let causes = causes.iter();
            causes.map(|cause| due_cause(cause, telling)).collect()
        }
        Standing::Lapsed(_, cause) => vec![lapse_cause(*cause, telling.words)],
        _ => Vec::new(),
    }
}

/// What every report has to print with a sign-off.
#[must_use]
pub fn remark(remark: Remark, words: &Words) -> String {
    let id = match remark {
        Remark::ApproverTrained => "standing-remark-approver-trained",
        Remark::ApproverAssessed => "standing-remark-approver-assessed",
        Remark::FirstAssessor => "standing-remark-first-assessor",
        Remark::NoIndependentAssessor => "standing-remark-no-independent-assessor",
    };
    words.say(id, &[])
}

/// Everything that is to be printed under a standing: causes, remarks, the entry behind it.
pub(super) fn circumstances(in_scope: &InScope, telling: &Telling<'_>) -> Vec<Item> {
    let shown = in_scope.standing.iter();
    let causes = shown.flat_map(|standing| causes(standing, telling));
    let mut items: Vec<Item> = causes.map(Item::new).collect();
    let validity = match &in_scope.standing {
        Ok(Standing::SignedOff(validity) | Standing::Due(validity, _)) => Some(validity),
        Ok(Standing::Lapsed(validity, cause)) => {
            items.extend(cause.entry().map(|seal| {
                let entry = [("entry", telling.entry(&seal).into())];
                Item::new(telling.say("standing-ended-by", &entry))
            }));
            Some(validity)
        }
        _ => None,
    };
    if let Some(validity) = validity {
        let carried = in_scope.carried.iter();
        items
            .extend(carried.map(|(revision, by)| Item::new(carried_over(*revision, *by, telling))));
        let remarks = validity.remarks.iter();
        items.extend(remarks.map(|one| Item::new(remark(*one, telling.words))));
    }
    if let Some(seal) = &in_scope.ground {
        let entry = [("entry", telling.entry(seal).into())];
        items.push(Item::new(telling.say("standing-entry", &entry)));
    }
    items
}
