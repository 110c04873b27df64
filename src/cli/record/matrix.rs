//! `drybench matrix`: who may do what, as of a day.

use clap::Command;

use crate::app::System;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::cli::page;
use crate::report::record::matrix;
use crate::text::Words;
use crate::units::PersonCode;

/// Says what the command takes.
pub(in crate::cli) fn command(words: &Words) -> Command {
    help::command(words, "matrix", "cli-matrix", None)
        .args(office::as_of(words))
        .arg(help::flag(words, "all", "cli-matrix.all"))
        .arg(office::data(words))
        .arg(help::json(words))
}

/// Prints the matrix of everybody and every workflow that the record knows.
pub(in crate::cli) fn run<S: System>(
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let matches = office.matches;
    let asked = office.as_of()?;
    let ledger = office.laboratory.ledger();
    let mut people: Vec<PersonCode> = ledger.people().collect();
    people.sort_by_key(|person| office.told(|telling| telling.name(*person)));
    let workflows = office.laboratory.workflows();
    let all = matrix(ledger, asked, &people, &workflows, matches.get_flag("all"));
    if matches.get_flag("json") {
        page::json(&all.json(ledger), out)?;
        return Ok(Ended::Done);
    }
    office.report(&office.told(|telling| all.blocks(telling)), out)
}
