//! `drybench board`: what there is to do for one person.

use clap::Command;

use crate::app::System;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::cli::page;
use crate::report::record::board;
use crate::text::Words;

/// Says what the command takes.
pub(in crate::cli) fn command(words: &Words) -> Command {
    help::command(words, "board", "cli-board", Some(office::person(words)))
        .args(office::as_of(words))
        .arg(office::data(words))
        .arg(help::json(words))
}

/// Prints the person's board.
pub(in crate::cli) fn run<S: System>(
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (person, asked) = (office.person("person")?, office.as_of()?);
    let ledger = office.laboratory.ledger();
    let board = board(ledger, asked, person);
    if office.matches.get_flag("json") {
        page::json(&board.json(ledger), out)?;
        return Ok(Ended::Done);
    }
    office.report(&office.told(|telling| board.blocks(telling)), out)
}
