//! One sentence for each entry, in the past tense: who did what, about whom, at what.

use super::facts::Facts;
use super::telling::Telling;
use super::terms::{meaning, run};
use crate::record::canonical::Value;
use crate::record::entry::{Content, Entry, Signed, Signing};
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
