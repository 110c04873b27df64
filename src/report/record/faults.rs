//! What can be wrong with an entry, with whoever made it, with what is stored and with where it is stored.

use super::telling::{Telling, fingerprint};
use super::terms;
use crate::record::authority::AuthorityFault;
use crate::record::canonical::JsonFaultKind;
use crate::record::entry::EntryFault;
use crate::record::log::{Trouble, WhyNot};
use crate::record::scope::TextProblem;
use crate::record::seal::Seal;
use crate::record::signature::KeyId;
use crate::record::verify::{Fault, Limit};
use crate::record::{MemberFault, MemberFaultKind};
use crate::report::problems::{Told, told, with_fix};
use crate::text::{Value, Words};
use crate::units::{CodeProblem, PersonCode};

/// A whole number as an argument; one that nobody can have counted is shown as the largest.
pub(super) fn whole(number: u64) -> Value {
    i64::try_from(number).unwrap_or(i64::MAX).into()
}

/// Words why nobody may have made an entry.
#[must_use]
pub fn authority_fault(fault: &AuthorityFault, telling: &Telling<'_>) -> Told {
    let say = |id: &str, values: &[(&str, Value)]| told(telling.words, id, values);
    let person = |id: &str, person: &PersonCode| {
        let person = telling.person(*person);
        told(telling.words, id, &[("person", person.into())])
    };
    let key = |id: &str, key: &KeyId| {
        let key = fingerprint(&key.0);
        told(telling.words, id, &[("key", key.into())])
    };
    let entry = |id: &str, seal: &Seal| {
        let entry = telling.entry(seal);
        told(telling.words, id, &[("entry", entry.into())])
    };
    match fault {
        AuthorityFault::NotFounded => say("record-right-not-founded", &[]),
        AuthorityFault::FoundedAgain => say("record-right-founded-again", &[]),
        AuthorityFault::UnknownPerson(who) => person("record-right-unknown-person", who),
        AuthorityFault::NotHere(who) => person("record-right-not-here", who),
        AuthorityFault::HereAlready(who) => person("record-right-here-already", who),
        AuthorityFault::CodeUsed(who) => person("record-right-code-used", who),
        AuthorityFault::LastOwner(who) => person("record-right-last-owner", who),
        AuthorityFault::LastOwnGrant(seal) => entry("record-right-last-own-grant", seal),
        AuthorityFault::KeyNotSeconded(id) => key("record-right-key-not-seconded", id),
        AuthorityFault::UnknownKey(id) => key("record-right-unknown-key", id),
        AuthorityFault::KeyAgain(id) => key("record-right-key-again", id),
        AuthorityFault::KeyEnded(id) => key("record-right-key-ended", id),
        AuthorityFault::KeyOfAnother(id) => key("record-right-key-of-another", id),
        AuthorityFault::OnlyThePerson => say("record-right-only-the-person", &[]),
        AuthorityFault::NotThePerson => say("record-right-not-the-person", &[]),
        AuthorityFault::NoGrant(any_of) => {
            let any_of = any_of.iter();
            let any_of = any_of.map(|one| terms::term("record-right", one.word(), telling.words));
            let any_of = crate::text::Either(any_of.collect());
            say("record-right-no-grant", &[("rights", any_of.into())])
        }
        AuthorityFault::UnknownGrant(seal) => entry("record-right-unknown-grant", seal),
        AuthorityFault::GrantEnded(seal) => entry("record-right-grant-ended", seal),
        AuthorityFault::GrantOfAnother(seal) => entry("record-right-grant-of-another", seal),
        AuthorityFault::GrantTooNarrow(seal) => entry("record-right-grant-too-narrow", seal),
        AuthorityFault::RefersToNothing(seal) => {
            let seal = fingerprint(&seal.0);
            say("record-right-refers-to-nothing", &[("seal", seal.into())])
        }
    }
}

/// Words why bytes are no entry, or an entry cannot be made.
#[must_use]
pub fn entry_fault(fault: &EntryFault, words: &Words) -> Told {
    match fault {
        EntryFault::Json(fault) => {
            let why = match fault.kind {
                JsonFaultKind::NotUtf8 => "record-json.not-utf8",
                JsonFaultKind::Syntax => "record-json.syntax",
                JsonFaultKind::NotWhole => "record-json.not-whole",
                JsonFaultKind::TooLarge => "record-json.too-large",
                JsonFaultKind::Twice => "record-json.twice",
                JsonFaultKind::TooDeep => "record-json.too-deep",
                JsonFaultKind::LoneSurrogate => "record-json.lone-surrogate",
            };
            let values = [("why", words.say(why, &[]).into()), ("at", fault.at.into())];
            told(words, "record-bad-json", &values)
        }
        EntryFault::TooLong => told(words, "record-bad-too-long", &[]),
        EntryFault::NotCanonical => told(words, "record-bad-not-canonical", &[]),
        EntryFault::Newer(format) => told(
            words,
            "record-bad-newer",
            &[("format", format.to_string().into())],
        ),
        EntryFault::UnknownKind(word) => told(
            words,
            "record-bad-unknown-kind",
            &[("kind", word.as_str().into())],
        ),
        EntryFault::Member(fault) => member_fault(fault, words),
        EntryFault::Unsigned => told(words, "record-bad-unsigned", &[]),
        EntryFault::NeedlesslySigned => told(words, "record-bad-needlessly-signed", &[]),
        EntryFault::Meaning(meaning) => {
            let meaning = terms::meaning(*meaning, words);
            told(words, "record-bad-meaning", &[("meaning", meaning.into())])
        }
        EntryFault::NoReason => told(words, "record-bad-no-reason", &[]),
    }
}

fn member_fault(fault: &MemberFault, words: &Words) -> Told {
    let id = match fault.kind {
        MemberFaultKind::Missing => "record-bad-member-missing",
        MemberFaultKind::Wrong => "record-bad-member-wrong",
        MemberFaultKind::Unknown => "record-bad-member-unknown",
    };
    let name = if fault.name.is_empty() {
        words.say("record-bad-whole", &[])
    } else {
        fault.name.clone()
    };
    told(words, id, &[("member", name.into())])
}

/// Words what verification found wrong with an entry.
#[must_use]
pub fn fault(fault: &Fault, telling: &Telling<'_>) -> Told {
    let words = telling.words;
    match fault {
        Fault::Unreadable(fault) => {
            let why = entry_fault(fault, words);
            let values = [("why", why.what.into())];
            let it = told(words, "record-found-unreadable", &values);
            // What else is to be done before an entry is made comes too late once it is stored.
            let newer = matches!(fault, EntryFault::Newer(_) | EntryFault::UnknownKind(_));
            with_fix(it, why.fix.filter(|_| newer))
        }
        Fault::Missing(until) => told(words, "record-found-missing", &[("until", whole(*until))]),
        Fault::Misplaced(strand, number) => {
            let entry = format!("{strand}/{number}");
            told(words, "record-found-misplaced", &[("entry", entry.into())])
        }
        Fault::PreviousDiffers => told(words, "record-found-previous-differs", &[]),
        Fault::Altered => told(words, "record-found-altered", &[]),
        Fault::Signature => told(words, "record-found-signature", &[]),
        Fault::Authority(fault) => {
            let why = authority_fault(fault, telling);
            told(words, "record-found-authority", &[("why", why.what.into())])
        }
        Fault::ClockWentBack => told(words, "record-found-clock-went-back", &[]),
        Fault::DatedAhead => told(words, "record-found-dated-ahead", &[]),
        Fault::CutOff(number) => told(words, "record-found-cut-off", &[("number", whole(*number))]),
        Fault::HeadDiffers => told(words, "record-found-head-differs", &[]),
        Fault::CheckpointDiffers => told(words, "record-found-checkpoint-differs", &[]),
    }
}

/// Words what no check of this kind can show.
#[must_use]
pub fn limit(limit: &Limit, words: &Words) -> String {
    let strand = |id: &str, strand: &crate::record::scope::Id| {
        words.say(id, &[("strand", strand.to_string().into())])
    };
    match limit {
        Limit::NoHead(of) => strand("record-limit-no-head", of),
        Limit::NoCheckpoint(of) => strand("record-limit-no-checkpoint", of),
        Limit::Restored(of, number) => {
            let values = [
                ("strand", of.to_string().into()),
                ("number", whole(*number)),
            ];
            words.say("record-limit-restored", &values)
        }
        Limit::UntrueButEntered => words.say("record-limit-untrue-but-entered", &[]),
        Limit::ClockOfMachine => words.say("record-limit-clock-of-machine", &[]),
    }
}

/// Words why a record cannot be read or written.
#[must_use]
pub fn trouble(trouble: Trouble, words: &Words) -> Told {
    match trouble {
        Trouble::Full => told(words, "record-trouble-full", &[]),
        Trouble::ReadOnly => told(words, "record-trouble-read-only", &[]),
        Trouble::Unreachable => told(words, "record-trouble-unreachable", &[]),
        Trouble::Damaged => told(words, "record-trouble-damaged", &[]),
        Trouble::Newer(format) => told(
            words,
            "record-trouble-newer",
            &[("format", format.to_string().into())],
        ),
    }
}

/// Words why an entry is not stored.
#[must_use]
pub fn why_not(why: &WhyNot, words: &Words) -> Told {
    match why {
        WhyNot::HeadMoved(Some(head)) => {
            let number = [("number", whole(head.number))];
            told(words, "record-not-stored-head-moved", &number)
        }
        WhyNot::HeadMoved(None) => told(words, "record-not-stored-strand-empty", &[]),
        WhyNot::OutOfLine => told(words, "record-not-stored-out-of-line", &[]),
        WhyNot::Trouble(why) => trouble(*why, words),
    }
}

/// Words why a text may not stand in an entry.
#[must_use]
pub fn text_problem(problem: TextProblem, words: &Words) -> Told {
    match problem {
        TextProblem::Empty => told(words, "record-text-empty", &[]),
        TextProblem::TooLong(most) => told(words, "record-text-too-long", &[("most", most.into())]),
        TextProblem::Character => told(words, "record-text-character", &[]),
    }
}

/// Words why a text is no person's code.
#[must_use]
pub fn code_problem(problem: CodeProblem, words: &Words) -> Told {
    match problem {
        CodeProblem::Shape => told(words, "record-code-shape", &[]),
        CodeProblem::Check => told(words, "record-code-check", &[]),
    }
}
