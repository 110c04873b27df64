//! `drybench read`: reads through a module, step by step, as it applies to one case card.

use clap::{ArgMatches, Command};

use super::failure::{Ended, Failure};
use super::help::{self, Choice};
use super::out::Out;
use crate::text::Words;

/// What to read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Read {
    /// Id of the module.
    pub id: String,
    /// Choices of the case card; what is left out takes the module's first value.
    pub case: Vec<Choice>,
}

/// Says what the command takes.
pub(super) fn command(words: &Words) -> Command {
    let id = help::place(words, "id", "ID", "cli-option.id").required(true);
    help::command(words, "read", "cli-read", Some(id)).arg(help::case(words))
}

impl From<&ArgMatches> for Read {
    fn from(matches: &ArgMatches) -> Read {
        Read {
            id: help::text(matches, "id").unwrap_or_default(),
            case: help::choices(matches),
        }
    }
}

/// Prints the steps with their reasons.
pub(super) fn run(_read: &Read, _words: &Words, _out: &mut Out) -> Result<Ended, Failure> {
    Err(Failure::NotThere("read"))
}
