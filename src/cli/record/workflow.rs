//! `drybench workflow`: what the record says about one workflow, as of a day.

use clap::Command;

use crate::app::System;
use crate::app::laboratory::told_departures;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::cli::page;
use crate::report::Block;
use crate::report::record::workflow;
use crate::text::Words;

/// Says what the command takes.
pub(in crate::cli) fn command(words: &Words) -> Command {
    help::command(
        words,
        "workflow",
        "files-cli-workflow",
        Some(office::workflow(words)),
    )
    .args(office::as_of(words))
    .arg(office::data(words))
    .arg(help::json(words))
}

/// Prints the workflow's file.
pub(in crate::cli) fn run<S: System>(
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let matches = office.matches;
    let (named, asked) = (office.workflow()?, office.as_of()?);
    let ledger = office.laboratory.ledger();
    let known = office.laboratory.workflows();
    if !known.contains(&named) {
        let known: Vec<String> = known.iter().map(ToString::to_string).collect();
        let known: Vec<&str> = known.iter().map(String::as_str).collect();
        return Err(Failure::value("workflow", &named.to_string(), &known));
    }
    let file = workflow(ledger, &named, asked);
    if matches.get_flag("json") {
        page::json(&file.json(ledger), out)?;
        return Ok(Ended::Done);
    }
    let blocks = office.told(|telling| {
        let mut blocks = file.blocks(telling);
        let asking = file.asking();
        let departures = asking.map(|entry| office.laboratory.departures(entry));
        blocks.extend(told_departures(
            &departures.unwrap_or_default(),
            office.words,
        ));
        blocks.push(Block::heading(
            2,
            telling.words.say("files-workflow-entries", &[]),
        ));
        blocks.push(file.rows(telling));
        blocks
    });
    office.report(&blocks, out)
}
