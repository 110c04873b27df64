//! `drybench record`: entries, one after the other or one in full; verification; a copy.

use clap::{ArgMatches, Command};

use crate::app::System;
use crate::app::laboratory::{Checking, Deed, Place as _};
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Moment, Office};
use crate::cli::out::Out;
use crate::cli::page;
use crate::record::entry::{BackupMade, Entry, Restored};
use crate::record::scope::Id;
use crate::report::record::{entries, entry, fingerprint, verified};
use crate::text::Words;

/// So many faults are told one by one. Our default; machines are told all.
const TOLD_MOST: usize = 40;

/// Says what the commands take.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let one = help::place(words, "entry", "ENTRY", "cli-option.entry").required(true);
    let to = help::place(words, "to", "DIR", "cli-record-copy.to")
        .required(true)
        .value_parser(clap::value_parser!(std::path::PathBuf));
    help::group(words, "record", "cli-record")
        .subcommand(
            help::command(words, "list", "cli-record-list", None)
                .arg(help::option(
                    words,
                    "about",
                    "PERSON",
                    "cli-record-list.whom",
                ))
                .arg(help::option(
                    words,
                    "workflow",
                    "WORKFLOW",
                    "cli-record-list.workflow",
                ))
                .arg(help::option(words, "kind", "WORD", "cli-record-list.kind"))
                .arg(help::option(words, "from", "DATE", "cli-record-list.from"))
                .arg(help::option(
                    words,
                    "until",
                    "DATE",
                    "cli-record-list.until",
                ))
                .arg(office::data(words))
                .arg(help::json(words)),
        )
        .subcommand(
            help::command(words, "show", "cli-record-show", Some(one))
                .arg(help::flag(words, "bytes", "cli-record-show.bytes"))
                .arg(office::data(words))
                .arg(help::json(words)),
        )
        .subcommand(
            help::command(words, "verify", "cli-record-verify", None)
                .arg(office::data(words))
                .arg(help::json(words)),
        )
        .subcommand(
            help::command(words, "copy", "cli-record-copy", Some(to))
                .arg(office::data(words))
                .arg(help::json(words)),
        )
        .subcommand(
            help::command(words, "restored", "cli-record-restored", None)
                .args(office::signing(words)),
        )
}

/// Does what was asked about the record.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    match what {
        "list" => list(office, office.matches, out),
        "show" => show(office, office.matches, out),
        "copy" => copy(office, out),
        "restored" => restored(office, out),
        _ => Err(Failure::NotThere("record")),
    }
}

/// Declares what is missing at the end of a strand as lost.
fn restored<S: System>(office: &mut Office<'_, S>, out: &mut Out) -> Result<Ended, Failure> {
    let Some((lost_strand, lost_number, lost_seal)) = office.laboratory.cut_off() else {
        out.message(&office.words.say("laboratory-nothing-lost", &[]))?;
        return Ok(Ended::WithFindings);
    };
    let deed = Deed::now(Restored {
        lost_strand,
        lost_number,
        lost_seal,
    });
    let deed = deed.because(office.reason()?);
    office.sign(deed, out)
}

fn list<S: System>(
    office: &Office<'_, S>,
    matches: &ArgMatches,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let about = help::text(matches, "about");
    let about = about
        .map(|found| office.person_called(&found))
        .transpose()?;
    let workflow: Option<Id> = office::value(matches, "workflow", "stock-teeth")?;
    let kind = help::text(matches, "kind");
    let from = office
        .moment("from", Moment::Begins)?
        .map(|from| from.instant());
    let until = office
        .moment("until", Moment::Ends)?
        .map(|until| until.instant());
    let ledger = office.laboratory.ledger();
    let fits = |entry: &&Entry| {
        let subject = entry.kind().subject();
        let happened = entry.frame().happened.instant();
        about.is_none_or(|person| subject.person == Some(person) || entry.actor() == Some(person))
            && workflow
                .as_ref()
                .is_none_or(|one| subject.workflow == Some(one))
            && kind.as_ref().is_none_or(|kind| entry.word() == kind)
            && from.is_none_or(|from| from <= happened)
            && until.is_none_or(|until| happened <= until)
    };
    let list = entries(ledger, ledger.entries().iter().filter(fits));
    if matches.get_flag("json") {
        page::json(&list.json(), out)?;
        return Ok(Ended::Done);
    }
    office.report(&office.told(|telling| list.blocks(telling)), out)
}

fn show<S: System>(
    office: &Office<'_, S>,
    matches: &ArgMatches,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let found = help::text(matches, "entry").unwrap_or_default();
    let one = office.ok(office.laboratory.find(&found))?;
    if matches.get_flag("bytes") {
        // Stored bytes are canonical JSON, which is UTF-8 on one line.
        out.line(&String::from_utf8_lossy(&one.bytes()))?;
        return Ok(Ended::Done);
    }
    let ledger = office.laboratory.ledger();
    let Some(told) = entry(ledger, &one.seal()) else {
        return Err(office.failed(&crate::app::laboratory::Problem::NoSuchEntry(found)));
    };
    if matches.get_flag("json") {
        page::json(&told.json(ledger), out)?;
        return Ok(Ended::Done);
    }
    let beside = office.laboratory.told_beside(one, office.words);
    let blocks = office.told(|telling| told.blocks(beside, telling));
    office.report(&blocks, out)
}

/// Verifies everything. Not through an open laboratory: what cannot be opened is verified too.
pub(in crate::cli) fn verify<S: System>(
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let place = office::place(matches, system)?;
    let watched = system.person_types() && !matches.get_flag("json");
    let mut told = 0;
    let mut progress = |done: u64| {
        // Every so often, so that somebody who waits sees that it goes on.
        if watched && done >= told + 10_000 {
            told = done;
            let done = i64::try_from(done).unwrap_or(i64::MAX);
            let _nobody_to_tell =
                out.message(&words.say("laboratory-verified-so-far", &[("count", done.into())]));
        }
        std::ops::ControlFlow::Continue(())
    };
    let Checking {
        checked,
        bad,
        misfiled,
    } = crate::app::laboratory::verify(&place, &*system.hands(), &mut progress)?;
    let all = verified(&checked, &bad, TOLD_MOST);
    let good = bad.is_empty() && misfiled.is_empty();
    // Names and entries are told as far as the record can be opened at all.
    if matches.get_flag("json") {
        let ledger = crate::standing::Ledger::new();
        page::json(&all.json(&ledger), out)?;
    } else {
        match Office::open(matches, system, words) {
            Ok(office) => {
                office.report(&office.told(|telling| all.blocks(telling)), out)?;
            }
            Err(_) => {
                let ledger = crate::standing::Ledger::new();
                let telling = crate::report::record::Telling {
                    ledger: &ledger,
                    words,
                    names: &|_| String::new(),
                };
                page::print(&all.blocks(&telling), 80, out)?;
            }
        }
        for one in &misfiled {
            let values = [("strand", one.0.as_str().into()), ("number", one.1.into())];
            out.line(&words.say("laboratory-misfiled", &values))?;
        }
    }
    Ok(if good {
        Ended::Done
    } else {
        Ended::WithFindings
    })
}

fn copy<S: System>(office: &mut Office<'_, S>, out: &mut Out) -> Result<Ended, Failure> {
    let matches = office.matches;
    let to = help::path(matches, "to").unwrap_or_default();
    let digest = match office.laboratory.place().copy_to(&to) {
        Ok(digest) => digest,
        Err(problem) => return Err(Failure::Copy(problem, crate::cli::files::shown(&to))),
    };
    let noted = office
        .laboratory
        .note(BackupMade { copy: digest }, None, None);
    let done = office.ok(noted)?;
    let values = [
        ("path", crate::cli::files::shown(&to).into()),
        ("digest", fingerprint(&digest).into()),
    ];
    if !matches.get_flag("json") {
        out.line(&office.words.say("laboratory-copied", &values))?;
    }
    office.answer(&done, out)
}
