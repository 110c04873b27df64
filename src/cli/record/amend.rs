//! Entries about entries: `correct`, `void`, `countersign`.

use clap::Command;

use crate::app::System;
use crate::app::laboratory::{Deed, typed_value};
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::record::entry::{Corrected, Countersigned, Voided};
use crate::record::scope::{Id, Meaning};
use crate::text::Words;

/// What a second signature can mean.
const MEANINGS: &[Meaning] = &[Meaning::Approved, Meaning::Reviewed, Meaning::Acknowledged];

fn about(words: &Words, name: &'static str, id: &'static str) -> Command {
    let entry = help::place(words, "entry", "ENTRY", "cli-option.entry").required(true);
    help::command(words, name, id, Some(entry))
}

/// Says what `correct` takes.
pub(in crate::cli) fn correct(words: &Words) -> Command {
    about(words, "correct", "cli-correct")
        .arg(help::place(words, "member", "MEMBER", "cli-correct.member").required(true))
        .arg(help::option(words, "to", "VALUE", "cli-correct.to"))
        .args(office::signing(words))
}

/// Says what `void` takes.
pub(in crate::cli) fn void(words: &Words) -> Command {
    about(words, "void", "cli-void").args(office::signing(words))
}

/// Says what `countersign` takes.
pub(in crate::cli) fn countersign(words: &Words) -> Command {
    about(words, "countersign", "cli-countersign")
        .arg(help::option(
            words,
            "meaning",
            "WORD",
            "cli-countersign.meaning",
        ))
        .args(office::signing(words))
}

/// Writes one of them down.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, words) = (office.matches, office.words);
    let found = help::text(matches, "entry").unwrap_or_default();
    let entry = office.ok(office.laboratory.find(&found))?.clone();
    let target = entry.seal();
    let deed = match what {
        "correct" => {
            let member: Id = office::required(matches, "member", "case")?;
            let old = office.laboratory.member(&target, &member);
            let new = help::text(matches, "to").map(|text| typed_value(&text));
            Deed::now(Corrected {
                target,
                member,
                old,
                new,
            })
        }
        "void" => Deed::now(Voided { target }),
        _ => {
            let meaning = office::chosen(matches, "meaning", MEANINGS, Meaning::word)?;
            let meaning = meaning.unwrap_or(Meaning::Approved);
            Deed::now(Countersigned { target }).meaning(meaning)
        }
    };
    let deed = deed.because(office.reason()?);
    let ended = office.sign(deed, out)?;
    if what != "countersign" && entry.kind().amending() != crate::record::entry::Amending::Free {
        out.message(&words.say("laboratory-then-second", &[]))?;
    }
    Ok(ended)
}
