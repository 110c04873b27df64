//! `drybench module show`: prints what a module says and the plan it gives for one case card.

use clap::{ArgMatches, Command};

use super::failure::{Ended, Failure};
use super::help::{self, Choice};
use super::out::Out;
use crate::text::Words;

/// What to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ModuleShow {
    /// Id of the module.
    pub id: String,
    /// Choices of the case card; what is left out takes the module's first value.
    pub case: Vec<Choice>,
    /// Name or file of the process profile.
    pub profile: Option<String>,
    /// Whether a machine reads the answer.
    pub json: bool,
}

/// Says what the command takes.
pub(super) fn command(words: &Words) -> Command {
    let id = help::place(words, "id", "ID", "cli-option.id").required(true);
    help::command(words, "show", "cli-show", Some(id))
        .arg(help::case(words))
        .arg(help::profile(words))
        .arg(help::json(words))
}

impl From<&ArgMatches> for ModuleShow {
    fn from(matches: &ArgMatches) -> ModuleShow {
        ModuleShow {
            id: help::text(matches, "id").unwrap_or_default(),
            case: help::choices(matches),
            profile: help::text(matches, "profile"),
            json: matches.get_flag("json"),
        }
    }
}

/// Prints the module and its plan.
pub(super) fn run(_show: &ModuleShow, _words: &Words, _out: &mut Out) -> Result<Ended, Failure> {
    Err(Failure::NotThere("module show"))
}
