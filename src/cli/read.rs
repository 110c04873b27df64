//! `drybench read`: reads through a module, step by step, as it applies to one case card.

use std::path::PathBuf;

use clap::{ArgMatches, Command};

use super::failure::{Ended, Failure};
use super::help::{self, Choice};
use super::office;
use super::opened::Opened;
use super::out::Out;
use super::page;
use crate::app::System;
use crate::rehearsal::drive::Nonsense;
use crate::report::pages::pages;
use crate::report::problems;
use crate::text::Words;

/// What to read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Read {
    /// Id of the module.
    pub id: String,
    /// Choices of the case card; what is left out takes the module's first value.
    pub case: Vec<Choice>,
    /// Name or file of the process profile.
    pub profile: Option<String>,
    /// The folder for data, if not the system's.
    pub data: Option<PathBuf>,
    /// The id of the one step to read.
    pub step: Option<String>,
}

/// Says what the command takes.
pub(super) fn command(words: &Words) -> Command {
    let id = help::place(words, "id", "ID", "cli-option.id").required(true);
    help::command(words, "read", "cli-read", Some(id))
        .arg(help::case(words))
        .arg(help::profile(words))
        .arg(office::data(words))
        .arg(help::option(words, "step", "STEP", "cli-read.step"))
}

impl From<&ArgMatches> for Read {
    fn from(matches: &ArgMatches) -> Read {
        Read {
            id: help::text(matches, "id").unwrap_or_default(),
            case: help::choices(matches),
            profile: help::text(matches, "profile"),
            data: help::path(matches, "data"),
            step: help::text(matches, "step"),
        }
    }
}

/// Prints the steps with their reasons: all of them, or page by page where a person sits.
pub(super) fn run<S: System>(
    asked: &Read,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (profile, data) = (asked.profile.as_deref(), asked.data.as_deref());
    let opened = Opened::open(&asked.id, &asked.case, profile, data, system)?;
    let hazards = |id: &str| opened.taken.hazard(id);
    let pages = pages(&opened.on.module, &opened.on.plan, &hazards, words);
    if let Some(step) = &asked.step {
        let Some(found) = pages.iter().find(|one| one.step.as_ref() == Some(step)) else {
            let told = problems::nonsense(&Nonsense::NoSuchMove(step.clone()), words);
            out.message(&told.what)?;
            return Ok(Ended::WrongUsage);
        };
        page::print(&found.blocks, 80, out)?;
        return Ok(Ended::Done);
    }
    let last = pages.len().saturating_sub(1);
    for (number, one) in pages.iter().enumerate() {
        page::print(&one.blocks, 80, out)?;
        out.line("")?;
        if system.person_types() && number < last {
            out.ask(&words.say("cli-read-on", &[]))?;
            match system.read_line()? {
                Some(answer) if answer.trim().is_empty() => {}
                _ => return Ok(Ended::Done),
            }
        }
    }
    Ok(Ended::Done)
}
