//! How a command ends: its exit status, and what is said when it did not do what was asked.

use std::io;
use std::process::ExitCode;

use super::out::{Out, Stop};
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
    /// Says what went wrong on the stream for messages and returns the exit status.
    pub(super) fn tell(self, words: &Words, out: &mut Out) -> ExitCode {
        let text = match self {
            Failure::Closed => return ExitCode::SUCCESS,
            Failure::NotThere(command) => {
                words.say("cli-failure-not-there", &[("command", command.into())])
            }
            Failure::NotWritten(error) => words.say(
                "cli-failure-not-written",
                &[("reason", error.to_string().into())],
            ),
        };
        // Where even messages can not be printed, the exit status is all that is left to say.
        let _nobody_to_tell = out.message(&text);
        ExitCode::FAILURE
    }
}
