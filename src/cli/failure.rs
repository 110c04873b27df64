//! How a command ends: its exit status, and what is said when it did not do what was asked.

use std::io;
use std::process::ExitCode;

use super::files;
use super::out::{Out, Stop};
use crate::app::NoScreens;
use crate::app::complain;
use crate::app::fault::Fault;
use crate::app::keep::KeepProblem;
use crate::app::laboratory::{CopyProblem, Problem, worded};
use crate::app::rehearse::StartProblem;
use crate::app::shelf::ShelfProblem;
use crate::record::log::Trouble;
use crate::rehearsal::replay::ReplayProblem;
use crate::report::problems::{self, Told};
use crate::report::{self, record::Telling};
use crate::standing::Ledger;
use crate::text::Words;

/// How a command ended that did what was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// Done, nothing to object. Exit status 0.
    Done,
    /// Done, and what was looked at is not clean; the findings are printed. Exit status 1.
    WithFindings,
    /// The command line was wrong; what is wrong with it is printed. Exit status 2.
    WrongUsage,
}

impl From<Ended> for ExitCode {
    fn from(ended: Ended) -> ExitCode {
        ExitCode::from(match ended {
            Ended::Done => 0,
            Ended::WithFindings => 1,
            Ended::WrongUsage => 2,
        })
    }
}

/// Why a command did not do what was asked.
#[derive(Debug)]
pub enum Failure {
    /// The command is named and described, and not built yet; holds its name.
    NotThere(&'static str),
    /// Nobody reads any more, which is no fault.
    Closed,
    /// The results could not be written.
    NotWritten(io::Error),
    /// The machine refused a file or a folder.
    Machine(Fault),
    /// A run cannot be started or taken up.
    Start(StartProblem),
    /// A saved run cannot be taken up or graded again.
    Saved(StartProblem),
    /// A run among those that are kept cannot be taken up; holds where it is.
    Kept(String, StartProblem),
    /// A saved run is of another module than the one that was named.
    OtherRun {
        /// The module that the run is of.
        found: String,
        /// The module that was named.
        wanted: String,
    },
    /// A run does not replay, although it has just been made: a fault of the program.
    Replay(ReplayProblem),
    /// There is no run to take up; holds the module.
    NothingToResume(String),
    /// There is no module in a folder; holds its path.
    NoModules(String),
    /// A file is no text; holds its path.
    NoText(String),
    /// The screens cannot be shown, or broke off.
    Screens(NoScreens),
    /// Said already, with what to do.
    Told(Told),
    /// The same, about what was typed.
    Usage(Told),
    /// A use case of the laboratory did not do what was asked.
    Laboratory(Problem),
    /// The value of an option is none that may stand there. Holds the option, the value, and what may.
    Value(&'static str, String, Vec<String>),
    /// There is no copy at this path.
    Copy(CopyProblem, String),
    /// Nobody can be asked for a passphrase.
    NoPassphrase,
    /// Somebody left before signing.
    NotSigned,
    /// The two passphrases that were typed differ.
    Differ,
}

impl From<Problem> for Failure {
    fn from(problem: Problem) -> Failure {
        Failure::Laboratory(problem)
    }
}

impl From<Trouble> for Failure {
    fn from(trouble: Trouble) -> Failure {
        Failure::Laboratory(Problem::Trouble(trouble))
    }
}

impl From<Fault> for Failure {
    fn from(fault: Fault) -> Failure {
        Failure::Machine(fault)
    }
}

impl From<KeepProblem> for Failure {
    fn from(problem: KeepProblem) -> Failure {
        match problem {
            KeepProblem::Machine(fault) => Failure::Machine(fault),
            KeepProblem::Unwritable(why) => Failure::NotWritten(io::Error::other(why)),
            KeepProblem::NoNameLeft => Failure::NotWritten(io::ErrorKind::AlreadyExists.into()),
            KeepProblem::Damaged(path, problem) => Failure::Kept(files::shown(&path), problem),
        }
    }
}

impl From<Stop> for Failure {
    fn from(stop: Stop) -> Failure {
        match stop {
            Stop::Closed => Failure::Closed,
            Stop::Broken(error) => Failure::NotWritten(error),
        }
    }
}

impl Failure {
    /// The value of an option is none that may stand there.
    pub(super) fn value(option: &'static str, found: &str, known: &[&str]) -> Failure {
        let known = known.iter().map(|&one| one.to_owned()).collect();
        Failure::Value(option, found.to_owned(), known)
    }

    /// Says what went wrong on the stream for messages and returns the exit status.
    pub(super) fn tell(self, words: &Words, out: &mut Out) -> ExitCode {
        let mut status = ExitCode::FAILURE;
        let lines: Vec<String> = match self {
            Failure::Closed => return ExitCode::SUCCESS,
            Failure::NotThere(command) => {
                vec![words.say("cli-failure-not-there", &[("command", command.into())])]
            }
            Failure::NotWritten(error) => vec![words.say(
                "cli-failure-not-written",
                &[("reason", error.to_string().into())],
            )],
            Failure::Machine(fault) => complain::machine(&fault, words),
            Failure::Start(problem) => {
                if is_usage(&problem) {
                    status = ExitCode::from(2);
                }
                let all = complain::start(&problem, words);
                all.iter().flat_map(|one| one.lines(words)).collect()
            }
            Failure::Saved(problem) => {
                let all = complain::start(&problem, words);
                all.iter().flat_map(|one| one.lines(words)).collect()
            }
            Failure::Kept(path, problem) => {
                let all = complain::start(&problem, words);
                let mut lines: Vec<String> = all.iter().flat_map(|one| one.lines(words)).collect();
                if let Some(first) = lines.first_mut() {
                    let values = [("at", path.into()), ("what", first.as_str().into())];
                    *first = words.say("cli-problem-at", &values);
                }
                if matches!(problem, StartProblem::NoRun { .. }) {
                    // Nobody named this file, so there is no other one to name.
                    lines.truncate(1);
                    lines.push(words.say("cli-damaged-run", &[]));
                }
                lines
            }
            Failure::OtherRun { found, wanted } => {
                status = ExitCode::from(2);
                let values = [("found", found.into()), ("wanted", wanted.into())];
                vec![words.say("cli-other-run", &values)]
            }
            Failure::Replay(problem) => {
                let told = problems::replay_problem(&problem, words);
                std::iter::once(told.what).chain(told.fix).collect()
            }
            Failure::NothingToResume(module) => {
                vec![words.say("cli-nothing-to-resume", &[("module", module.into())])]
            }
            Failure::NoModules(path) => {
                vec![words.say("cli-no-modules", &[("path", path.into())])]
            }
            Failure::Screens(problem) => {
                let (id, reason) = match problem {
                    NoScreens::NoTerminal => {
                        status = ExitCode::from(2);
                        ("cli-no-terminal", String::new())
                    }
                    NoScreens::Refused(error) => ("cli-terminal-refused", error.to_string()),
                    NoScreens::Broken(error) => ("cli-terminal-broken", error.to_string()),
                };
                let values = [("reason", reason.into())];
                let fix = format!("{id}.fix");
                vec![words.say(id, &values), words.say(&fix, &values)]
            }
            Failure::Told(told) => both(told),
            Failure::Usage(told) => {
                status = ExitCode::from(2);
                both(told)
            }
            Failure::Laboratory(problem) => {
                let ledger = Ledger::new();
                let telling = Telling {
                    ledger: &ledger,
                    words,
                    names: &|_| String::new(),
                };
                both(worded::problem(&problem, &telling))
            }
            Failure::Value(option, found, known) => {
                status = ExitCode::from(2);
                let values = [
                    ("argument", format!("--{option}").into()),
                    ("value", found.into()),
                ];
                let known = words.say("cli-known", &[("known", known.into())]);
                vec![words.say("cli-wrong-value", &values), known]
            }
            Failure::NoPassphrase => {
                status = ExitCode::from(2);
                vec![
                    words.say("cli-no-passphrase", &[]),
                    words.say("cli-no-passphrase.fix", &[]),
                ]
            }
            Failure::Copy(problem, path) => {
                let path = [("path", path.into())];
                match problem {
                    CopyProblem::Taken => vec![words.say("cli-copy-taken", &path)],
                    CopyProblem::Differs => vec![words.say("cli-copy-differs", &path)],
                    CopyProblem::Trouble(why) => both(report::record::trouble(why, words)),
                }
            }
            Failure::NotSigned => vec![words.say("cli-not-signed", &[])],
            Failure::Differ => vec![words.say("cli-passphrases-differ", &[])],
            Failure::NoText(path) => {
                vec![words.say("cli-machine-not-text", &[("path", path.into())])]
            }
        };
        for line in lines {
            // Where even messages can not be printed, the exit status is all that is left to say.
            let _nobody_to_tell = out.message(&line);
        }
        status
    }
}

fn both(told: Told) -> Vec<String> {
    std::iter::once(told.what).chain(told.fix).collect()
}

/// Whether somebody typed something that is not there.
fn is_usage(problem: &StartProblem) -> bool {
    matches!(
        problem,
        StartProblem::Case(_)
            | StartProblem::NoSuchDisturbance { .. }
            | StartProblem::Shelf(
                ShelfProblem::NoSuchModule { .. } | ShelfProblem::NoSuchProfile { .. }
            )
    )
}
