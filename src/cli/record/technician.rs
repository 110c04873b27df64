//! `drybench technician`: what the record says about one person, as of a day.

use clap::Command;

use crate::app::System;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::cli::page;
use crate::report::record::technician;
use crate::text::Words;

/// Says what the command takes.
pub(in crate::cli) fn command(words: &Words) -> Command {
    help::command(
        words,
        "technician",
        "cli-technician",
        Some(office::person(words)),
    )
    .args(office::as_of(words))
    .arg(office::data(words))
    .arg(help::json(words))
}

/// Prints the person's file.
pub(in crate::cli) fn run<S: System>(
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let matches = office.matches;
    let (person, asked) = (office.person("person")?, office.as_of()?);
    let ledger = office.laboratory.ledger();
    let file = technician(ledger, person, asked);
    if matches.get_flag("json") {
        page::json(&file.json(ledger), out)?;
        return Ok(Ended::Done);
    }
    office.report(&office.told(|telling| file.blocks(telling)), out)
}
