//! From the need to the first supervised case: `assign`, `confirm`, `train`, `protection`.

use clap::{ArgMatches, Command};

use crate::app::System;
use crate::app::laboratory::Deed;
use crate::app::laying;
use crate::app::rehearse::StartProblem;
use crate::app::shelf::Shelf;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::record::entry::{Assigned, AwarenessAcknowledged, ProtectionShown, Read, Trained};
use crate::record::scope::{Edition, Id};
use crate::text::Words;

/// Says what `assign` takes.
pub(in crate::cli) fn assign(words: &Words) -> Command {
    help::command(words, "assign", "cli-assign", Some(office::person(words)))
        .arg(office::workflow(words))
        .args(office::scope(words))
        .arg(office::happened(words))
        .args(office::signing(words))
}

/// Says what `confirm` takes.
pub(in crate::cli) fn confirm(words: &Words) -> Command {
    let one = |name: &'static str, id: &'static str| {
        help::command(words, name, id, Some(office::workflow(words)))
            .arg(office::revision(words))
            .args(office::signing(words))
    };
    help::group(words, "confirm", "cli-confirm")
        .subcommand(one("read", "cli-confirm-read"))
        .subcommand(one("change", "cli-confirm-change"))
}

/// Says what `train` and `protection` take.
pub(in crate::cli) fn command(words: &Words, name: &'static str, id: &'static str) -> Command {
    let command = help::command(words, name, id, Some(office::person(words)))
        .arg(office::workflow(words))
        .arg(office::revision(words));
    let command = if name == "train" {
        command.arg(help::option(words, "language", "TAG", "cli-train.language"))
    } else {
        command
    };
    command
        .arg(office::happened(words))
        .args(office::signing(words))
}

/// Writes one of them down.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, words) = (office.matches, office.words);
    let deed = match what {
        "assign" => assigned(office)?,
        "read" => {
            let (workflow, edition) = edition(office, matches)?;
            let person = office.signer()?;
            Deed::now(Read {
                person,
                workflow,
                edition,
            })
        }
        "change" => {
            let (workflow, edition) = edition(office, matches)?;
            let person = office.signer()?;
            Deed::now(AwarenessAcknowledged {
                person,
                workflow,
                edition,
            })
        }
        "train" => {
            let (workflow, edition) = edition(office, matches)?;
            let language: Option<Id> = office::value(matches, "language", "en-us")?;
            let spoken = words.language().to_lowercase().parse();
            Deed::now(Trained {
                person: office.person("person")?,
                workflow,
                edition,
                language: match language {
                    Some(language) => language,
                    None => spoken.map_err(|_| Failure::value("language", "", &["en-us"]))?,
                },
            })
        }
        _ => {
            let (workflow, edition) = edition(office, matches)?;
            let person = office.person("person")?;
            Deed::now(ProtectionShown {
                person,
                workflow,
                edition,
            })
        }
    };
    let happened = match what {
        "read" | "change" => None,
        _ => office.happened()?,
    };
    let deed = deed.at(happened).because(office.reason()?);
    office.sign(deed, out)
}

fn assigned<S: System>(office: &Office<'_, S>) -> Result<Deed, Failure> {
    let person = office.person("person")?;
    let wanted = office.wanted()?;
    let scope = wanted.new_scope();
    let scope = scope.ok_or_else(|| Failure::value("profile", "", &["common-practice"]))?;
    let mut shelf = Shelf::shipped();
    let data = help::path(office.matches, "data");
    laying::own(&mut shelf, data.as_deref(), office.system);
    let (workflow, profile) = (scope.workflow.to_string(), scope.profile.to_string());
    shelf
        .suits(&workflow, &profile)
        .map_err(|problem| Failure::Start(StartProblem::Shelf(problem)))?;
    Ok(Deed::now(Assigned { person, scope }))
}

/// The workflow, and the edition that is named; the newest where none is.
fn edition<S: System>(
    office: &Office<'_, S>,
    matches: &ArgMatches,
) -> Result<(Id, Edition), Failure> {
    let workflow = office.workflow()?;
    let edition = match matches.get_one::<u32>("revision") {
        Some(revision) => office.laboratory.edition(&workflow, Some(*revision))?,
        None => office.laboratory.newest_edition(&workflow)?,
    };
    Ok((workflow, edition))
}
