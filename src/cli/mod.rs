//! Edge: the command line. Arguments in, lines out, one exit status.
//!
//! One file per command: `command(words)` says what it takes, `run(…)` does it. Everything printed goes through one `Out`;
//! every sentence, the help included, comes from `text`.
//! Left out: rules of any kind; a command asks `app` and words the answer.

mod failure;
mod files;
mod help;
pub mod module_check;
pub mod module_show;
mod office;
mod opened;
mod out;
mod page;
pub mod read;
mod record;
pub mod rehearse;
mod usage;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::{ArgMatches, Command};

pub use failure::{Ended, Failure};
pub use out::{Out, Stop};

use crate::app::{Begin, NoScreens, Shown, System, Wish};
use crate::text::Words;

/// Shows the screens.
pub type ShowScreens<'s> = &'s dyn Fn(&Wish) -> Result<Shown, NoScreens>;

/// Runs the program with these arguments (its own name first), saying everything in the language of `words`. Without a
/// command, `screens` are shown.
pub fn run<I, S>(
    arguments: I,
    system: &S,
    words: &Words,
    out: &mut Out,
    screens: ShowScreens<'_>,
) -> ExitCode
where
    I: IntoIterator<Item = OsString>,
    S: System,
{
    let ended = match program(words).try_get_matches_from(arguments) {
        Ok(matches) if begin(&matches).is_some() => {
            return match screens(&wish(&matches)) {
                Ok(shown) => {
                    if let Some(text) = &shown.farewell {
                        // Where nobody reads any more, the exit status is all that is left to say.
                        let _nobody_to_tell = out.message(text);
                    }
                    ExitCode::from(shown.status)
                }
                Err(problem) => Failure::Screens(problem).tell(words, out),
            };
        }
        Ok(matches) => dispatch(&matches, system, words, out),
        Err(error) => usage::answer(&error, words, out),
    };
    let ended = ended.and_then(|ended| out.flush().map(|()| ended).map_err(Failure::from));
    match ended {
        Ok(ended) => ended.into(),
        Err(failure) => failure.tell(words, out),
    }
}

/// What comes first on the screens; none for commands that show none.
fn begin(matches: &ArgMatches) -> Option<Begin> {
    match matches.subcommand_name() {
        None => Some(Begin::Laboratory),
        Some("demo") => Some(Begin::Demonstration),
        Some("practise") => Some(Begin::Practice),
        Some(_) => None,
    }
}

fn wish(matches: &ArgMatches) -> Wish {
    let own = matches.subcommand().map_or(matches, |(_, own)| own);
    help::wish(own, begin(matches).unwrap_or_default())
}

/// Builds the whole command line; completions and a manual page can be made from it.
#[must_use]
pub fn program(words: &Words) -> Command {
    let module = help::group(words, "module", "cli-module")
        .subcommand(module_check::command(words))
        .subcommand(module_show::command(words));
    help::command(words, "drybench", "cli-drybench", None)
        .version(env!("CARGO_PKG_VERSION"))
        .args(help::screens(words))
        .arg(help::version(words))
        .subcommand(help::command(words, "demo", "cli-demo", None).args(help::look(words)))
        .subcommand(
            help::command(words, "practise", "cli-practise", None).args(help::screens(words)),
        )
        .subcommand(module)
        .subcommand(read::command(words))
        .subcommand(rehearse::command(words))
        .subcommand(record::lab::command(words))
        .subcommand(record::person::command(words))
        .subcommand(record::key::command(words))
        .subcommand(record::policy::command(words))
        .subcommand(record::adopt::command(words))
        .subcommand(record::adopt::retire(words))
        .subcommand(record::training::assign(words))
        .subcommand(record::training::confirm(words))
        .subcommand(record::training::command(words, "train", "cli-train"))
        .subcommand(record::training::command(
            words,
            "protection",
            "cli-protection",
        ))
        .subcommand(record::work::supervise(words))
        .subcommand(record::work::check_case(words))
        .subcommand(record::observe::command(words))
        .subcommand(record::work::evaluate(words))
        .subcommand(record::decide::sign_off(words))
        .subcommand(record::decide::suspend(words))
        .subcommand(record::decide::reinstate(words))
        .subcommand(record::decide::withdraw(words))
        .subcommand(record::decide::call_in(words))
        .subcommand(record::amend::correct(words))
        .subcommand(record::amend::void(words))
        .subcommand(record::amend::countersign(words))
        .subcommand(record::board::command(words))
        .subcommand(record::technician::command(words))
        .subcommand(record::workflow::command(words))
        .subcommand(record::matrix::command(words))
        .subcommand(record::entries::command(words))
}

fn dispatch<S: System>(
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    match matches.subcommand() {
        Some(("module", module)) => match module.subcommand() {
            Some(("check", check)) => module_check::run(&check.into(), system, words, out),
            Some(("show", show)) => module_show::run(&show.into(), system, words, out),
            _ => Err(Failure::NotThere("module")),
        },
        Some(("read", read)) => read::run(&read.into(), system, words, out),
        Some(("rehearse", rehearse)) => rehearse::run(rehearse, system, words, out),
        Some((name, matches)) => record::run(name, matches, system, words, out),
        None => Err(Failure::NotThere("drybench")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_command_line_is_sound() {
        program(&Words::shipped("en-US")).debug_assert();
    }
}
