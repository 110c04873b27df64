//! One sentence for each entry, in the past tense: who did what, about whom, at what.

use super::facts::Facts;
use super::telling::{Telling, as_put_right};
use super::terms::{meaning, run};
use crate::record::canonical::Value;
use crate::record::entry::{Content, Entry, Signed, Signing};
use crate::record::seal::Seal;
use crate::standing::run_of;
use crate::text::Words;

/// The message with a sentence for each kind.
const SAID: &str = "record-said";

/// Says an entry in one sentence, as it was written.
#[must_use]
pub fn said(entry: &Entry, telling: &Telling<'_>) -> String {
    sentence(&Facts::of(entry), entry.content(), telling)
}

/// The name of a member of an entry as people read it.
#[must_use]
pub fn member_name(member: &str, words: &Words) -> String {
    super::terms::term("record-member", member, words)
}

/// A word that can stand in a member of an entry, as people read it.
#[must_use]
pub fn member_word(member: &str, word: &str, words: &Words) -> String {
    super::terms::vocabulary(member).map_or_else(
        || word.to_owned(),
        |message| super::terms::term(message, word, words),
    )
}

/// The name of a member with what stands in it now, on one line.
#[must_use]
pub fn member_now(member: &str, value: Option<&Value>, telling: &Telling<'_>) -> String {
    let values = [
        ("name", telling.member(member).into()),
        ("value", telling.value_or_nothing(member, value).into()),
    ];
    telling.say("record-labelled", &values)
}

/// What a sign-off or a reinstatement rests on, on one line: when, what, how it was judged, by whom. Read as it was put right.
#[must_use]
pub fn ground(entry: &Entry, content: &Content, telling: &Telling<'_>) -> String {
    let verdict = match content {
        Content::Signed { fact, .. } => match fact {
            Signed::Observed(seen) => run(run_of(seen), telling.words),
            Signed::CaseChecked(case) => super::terms::judgement(case.judgement, telling.words),
            Signed::Evaluated(evaluated) => super::terms::effect(evaluated.effect, telling.words),
            _ => String::new(),
        },
        Content::Noted(_) => String::new(),
    };
    let case = match content {
        Content::Signed { fact, .. } => match fact {
            Signed::Observed(seen) => Some(&seen.case),
            Signed::CaseChecked(case) => Some(&case.case),
            _ => None,
        },
        Content::Noted(_) => None,
    };
    let by = entry
        .actor()
        .map_or_else(String::new, |by| telling.name(by));
    let values = [
        ("day", entry.frame().happened.day().to_string().into()),
        (
            "kind",
            super::terms::kind(entry.word(), telling.words).into(),
        ),
        ("verdict", verdict.into()),
        ("by", by.into()),
        ("has", if case.is_some() { "case" } else { "none" }.into()),
        (
            "case",
            case.map_or_else(String::new, ToString::to_string).into(),
        ),
        ("entry", super::telling::id_of(entry).into()),
    ];
    put_right_later(
        telling.say("record-ground", &values),
        &entry.seal(),
        telling,
    )
}

/// What is said of an entry, with a word where a correction or a void of the entry waits for a second person.
pub(super) fn put_right_later(said: String, seal: &Seal, telling: &Telling<'_>) -> String {
    if as_put_right(telling.ledger).has_waiting_amendment(seal) {
        telling.say("record-amendment-waits", &[("said", said.into())])
    } else {
        said
    }
}

/// Says what an entry says, with its facts as they read once put right.
pub(super) fn sentence(facts: &Facts, content: &Content, telling: &Telling<'_>) -> String {
    match content {
        Content::Noted(fact) => of_kind(fact.word(), facts, None, telling),
        Content::Signed { fact, signing, .. } => {
            of_kind(fact.word(), facts, Some((fact, signing)), telling)
        }
    }
}

pub(super) fn of_kind(
    word: &str,
    facts: &Facts,
    signed: Option<(&Signed, &Signing)>,
    telling: &Telling<'_>,
) -> String {
    let mut values = telling.arguments(&facts.0);
    if let Some((_, signing)) = signed {
        values.push(("by", telling.person(signing.by).into()));
        values.push(("meaning", meaning(signing.meaning, telling.words).into()));
    }
    // The value that was wrong is worded by the member that it stood in.
    if let Some(Value::Text(member)) = facts.0.get("member") {
        for side in ["old", "new"] {
            let value = telling.value_or_nothing(member, facts.0.get(side));
            values.retain(|(name, _)| *name != side);
            values.push((side, value.into()));
        }
    }
    let id = format!("{SAID}.{word}");
    let whole = telling.say(&id, &values);
    match signed {
        Some((Signed::Observed(observed), _)) => {
            let counts = run(run_of(observed), telling.words);
            let values = [("said", whole.into()), ("run", counts.into())];
            telling.say("record-said-run", &values)
        }
        _ => whole,
    }
}
