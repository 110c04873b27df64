//! Problems of the laboratory in words: what happened, what was kept, what to do.

use super::{KeyProblem, PersonProblem, Problem, SheetProblem};
use crate::people::PassphraseProblem;
use crate::report::problems::{Told, sign_off_fault};
use crate::report::record::{
    Telling, authority, entry_fault, fingerprint, holders, name_problem, refusal, register_fault,
    too_few, trouble, who_could, why_not,
};
use crate::text::{Value, Words};

/// Says why a use case did not do what was asked.
#[must_use]
pub fn problem(problem: &Problem, telling: &Telling<'_>) -> Told {
    let words = telling.words;
    let say = |id: &str, values: &[(&str, Value)]| told(id, values, words);
    match problem {
        Problem::Refused(why) => refusal(why, telling),
        Problem::RefusedTo {
            why,
            instead,
            holders: held,
            lacking,
            too_few: few,
        } => {
            let mut it = who_could(refusal(why, telling), instead, lacking, telling);
            let held = held.as_ref().map(|held| holders(held, telling));
            let ways = few.map(|few| too_few(few, words));
            let texts: Vec<String> = it.fix.into_iter().chain(held).chain(ways).collect();
            it.fix = Some(texts.join(" "));
            it
        }
        Problem::Entry(fault) => entry_fault(fault, words),
        Problem::Trouble(why) => trouble(*why, words),
        Problem::NotStored(why) => why_not(why, words),
        Problem::Unknown(seal) => say(
            "laboratory-unknown",
            &[("seal", fingerprint(&seal.0).into())],
        ),
        Problem::NotOpened => say("laboratory-not-opened", &[]),
        Problem::OpenedAlready => say("laboratory-opened-already", &[]),
        Problem::CutOff(strand, number) => say(
            "laboratory-cut-off",
            &[
                ("strand", strand.to_string().into()),
                ("number", whole(*number)),
            ],
        ),
        Problem::NoSuchPerson(code) => say(
            "laboratory-no-such-person",
            &[("code", code.to_string().into())],
        ),
        Problem::StillHere(code) => say(
            "laboratory-still-here",
            &[("person", telling.person(*code).into())],
        ),
        Problem::NoSuchGrant(code, held) => say(
            "laboratory-no-such-grant",
            &[
                ("person", telling.person(*code).into()),
                ("authority", authority(*held, words).into()),
            ],
        ),
        Problem::NoKey(code) => say(
            "laboratory-no-key",
            &[("person", telling.person(*code).into())],
        ),
        Problem::NotAccepted(code) => {
            let values = [
                ("person", telling.person(*code).into()),
                ("code", code.to_string().into()),
            ];
            say("laboratory-not-accepted", &values)
        }
        Problem::Key(why) => key(*why, words),
        Problem::Passphrase { times } => say(
            "laboratory-passphrase",
            &[("times", i64::from(*times).into())],
        ),
        Problem::Wait { seconds } => say(
            "laboratory-wait",
            &[("seconds", i64::from(*seconds).into())],
        ),
        Problem::WeakPassphrase(why) => weak(*why, words),
        Problem::Register(fault) => register_fault(*fault, words),
        Problem::Name(why) => name_problem(*why, words),
        Problem::DemonstrationKey => say("laboratory-demonstration-key", &[]),
        Problem::NothingAdopted(workflow) => say(
            "laboratory-nothing-adopted",
            &[("workflow", workflow.to_string().into())],
        ),
        Problem::NoSuchRevision(workflow, revision, known) => {
            let known: Vec<String> = known.iter().map(ToString::to_string).collect();
            let values = [
                ("workflow", workflow.to_string().into()),
                ("revision", revision.to_string().into()),
                ("known", known.into()),
            ];
            say("laboratory-no-such-revision", &values)
        }
        Problem::WhichScope(workflow, 0) => say(
            "laboratory-no-scope",
            &[("workflow", workflow.to_string().into())],
        ),
        Problem::WhichScope(workflow, many) => say(
            "laboratory-which-scope",
            &[
                ("workflow", workflow.to_string().into()),
                ("count", (*many).into()),
            ],
        ),
        Problem::NoSuchEntry(found) => say(
            "laboratory-no-such-entry",
            &[("found", found.as_str().into())],
        ),
        Problem::SeveralEntries(found) => say(
            "laboratory-several-entries",
            &[("found", found.as_str().into())],
        ),
        Problem::NoProfile(module) => say(
            "laboratory-no-profile",
            &[("module", module.as_str().into())],
        ),
        Problem::Asks(fault) => {
            let why = sign_off_fault(*fault, words);
            let what = words.say("laboratory-asks", &[("why", why.what.as_str().into())]);
            Told { what, ..why }
        }
        Problem::BadModule(found) => {
            say("laboratory-bad-module", &[("found", found.as_str().into())])
        }
    }
}

fn key(why: KeyProblem, words: &Words) -> Told {
    match why {
        KeyProblem::Missing => told("laboratory-key-missing", &[], words),
        KeyProblem::Refused => told("laboratory-key-refused", &[], words),
        KeyProblem::Damaged => told("laboratory-key-damaged", &[], words),
        KeyProblem::OtherKey => told("laboratory-key-other", &[], words),
        KeyProblem::Trouble(why) => trouble(why, words),
    }
}

/// Says why a new passphrase may not be used.
fn weak(problem: PassphraseProblem, words: &Words) -> Told {
    match problem {
        PassphraseProblem::TooShort(least) => {
            told("laboratory-weak-short", &[("least", least.into())], words)
        }
        PassphraseProblem::TooLong(most) => {
            told("laboratory-weak-long", &[("most", most.into())], words)
        }
        PassphraseProblem::Character => told("laboratory-weak-character", &[], words),
        PassphraseProblem::OneCharacter => told("laboratory-weak-one-character", &[], words),
        PassphraseProblem::Name => told("laboratory-weak-name", &[], words),
        PassphraseProblem::WellKnown => told("laboratory-weak-well-known", &[], words),
    }
}

/// Says who is not clear.
#[must_use]
pub fn person_problem(problem: PersonProblem, found: &str, words: &Words) -> Told {
    let found = ("found", found.into());
    match problem {
        PersonProblem::Nobody => told("laboratory-nobody", &[found], words),
        PersonProblem::Several(count) => told(
            "laboratory-several-people",
            &[found, ("count", count.into())],
            words,
        ),
        PersonProblem::Trouble(why) => trouble(why, words),
    }
}

/// Says why a sheet cannot be entered.
#[must_use]
pub fn sheet_problem(problem: &SheetProblem, telling: &Telling<'_>) -> Told {
    let words = telling.words;
    let say = |id: &str, values: &[(&str, Value)]| told(id, values, words);
    match problem {
        SheetProblem::NoSheet(why) => say("laboratory-no-sheet", &[("why", why.as_str().into())]),
        SheetProblem::Newer(format) => say(
            "laboratory-newer-sheet",
            &[("format", format.to_string().into())],
        ),
        SheetProblem::Value { name, found, known } => {
            let values = [
                ("name", (*name).into()),
                ("found", found.as_str().into()),
                ("known", known.clone().into()),
            ];
            say("laboratory-sheet-value", &values)
        }
        SheetProblem::NoSuchStep(found, known) => {
            let values = [
                ("found", found.as_str().into()),
                ("known", known.clone().into()),
            ];
            say("laboratory-no-such-step", &values)
        }
        SheetProblem::Twice(step) => {
            say("laboratory-step-twice", &[("step", step.as_str().into())])
        }
        SheetProblem::NotOneStep => say("laboratory-not-one-step", &[]),
        SheetProblem::OtherRevision(sheet, shelf) => {
            let values = [
                ("sheet", sheet.to_string().into()),
                ("shelf", shelf.to_string().into()),
            ];
            say("laboratory-other-revision", &values)
        }
        SheetProblem::OtherWorkflow(found) => say(
            "laboratory-other-workflow",
            &[("found", found.as_str().into())],
        ),
        SheetProblem::Laboratory(why) => self::problem(why, telling),
    }
}

fn told(id: &str, values: &[(&str, Value)], words: &Words) -> Told {
    Told {
        what: words.say(id, values),
        fix: Some(words.say(&format!("{id}.fix"), values)),
    }
}

fn whole(number: u64) -> Value {
    i64::try_from(number).unwrap_or(i64::MAX).into()
}
