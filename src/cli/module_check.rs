//! `drybench module check`: reads modules and tells everything that is wrong with them.

use clap::{ArgMatches, Command};

use super::failure::{Ended, Failure};
use super::help;
use super::out::Out;
use crate::text::Words;

/// What to check.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ModuleCheck {
    /// Paths of module files or folders, or ids of shipped modules. None: every shipped module.
    pub wanted: Vec<String>,
    /// Whether a machine reads the answer.
    pub json: bool,
}

/// Says what the command takes.
pub(super) fn command(words: &Words) -> Command {
    let wanted = help::place(words, "wanted", "PATH|ID", "cli-check.wanted").num_args(0..);
    help::command(words, "check", "cli-check", Some(wanted)).arg(help::json(words))
}

impl From<&ArgMatches> for ModuleCheck {
    fn from(matches: &ArgMatches) -> ModuleCheck {
        ModuleCheck {
            wanted: matches
                .get_many::<String>("wanted")
                .map(|all| all.cloned().collect())
                .unwrap_or_default(),
            json: matches.get_flag("json"),
        }
    }
}

/// Checks, prints the problems, and ends with findings if there are any.
pub(super) fn run(_check: &ModuleCheck, _words: &Words, _out: &mut Out) -> Result<Ended, Failure> {
    Err(Failure::NotThere("module check"))
}
