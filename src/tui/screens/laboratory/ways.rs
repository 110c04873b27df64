//! The ways from the board to everything else, one key each.

use super::sign_in::SignIn;
use crate::app::System;
use crate::record::seal::Seal;
use crate::report::record::looks_after_others;
use crate::standing::{Ledger, SetUpStep};
use crate::tui::screen::{Desk, Turn};
use crate::tui::screens::start::Start;
use crate::units::PersonCode;

/// A way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Who may do what.
    Matrix,
    /// One's own file.
    OwnFile,
    /// The file of a workflow.
    Workflows,
    /// All entries.
    Entries,
    /// Watch a real case.
    BenchRun,
    /// Sign something.
    Sign,
    /// Practise at the dry bench.
    Practise,
    /// Go through the whole record.
    Verify,
    /// Somebody else sits down.
    ChangePerson,
    /// The end.
    Quit,
}

impl Way {
    /// The ways that make sense for somebody: those who look after nobody have nobody to watch.
    #[must_use]
    pub fn open_to(person: Option<PersonCode>, ledger: &Ledger) -> Vec<Way> {
        use Way::{
            BenchRun, ChangePerson, Entries, Matrix, OwnFile, Practise, Quit, Sign, Verify,
            Workflows,
        };
        let others = person.is_some_and(|person| looks_after_others(ledger, person));
        let mut ways = vec![Practise, OwnFile];
        if others {
            ways.extend([BenchRun, Sign, Matrix, Workflows, Entries, Verify]);
        } else {
            ways.extend([Sign, Matrix, Workflows, Entries, Verify]);
        }
        ways.extend([ChangePerson, Quit]);
        ways
    }

    /// Its key.
    #[must_use]
    pub fn key(self) -> char {
        match self {
            Way::Matrix => 'm',
            Way::OwnFile => 'f',
            Way::Workflows => 'w',
            Way::Entries => 'e',
            Way::BenchRun => 'b',
            Way::Sign => 's',
            Way::Practise => 'p',
            Way::Verify => 'v',
            Way::ChangePerson => 'o',
            Way::Quit => 'q',
        }
    }

    /// The message that names it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Way::Matrix => "office-way-matrix",
            Way::OwnFile => "office-way-own-file",
            Way::Workflows => "office-way-workflows",
            Way::Entries => "office-way-entries",
            Way::BenchRun => "office-way-bench-run",
            Way::Sign => "office-way-sign",
            Way::Practise => "office-way-practise",
            Way::Verify => "office-way-verify",
            Way::ChangePerson => "office-way-change-person",
            Way::Quit => "screens-key-quit",
        }
    }

    /// Goes there.
    pub fn go<S: System>(self, desk: &mut Desk<S>) -> Turn<S> {
        match self {
            Way::Practise => Turn::Open(Box::new(Start::new(desk))),
            Way::ChangePerson => Turn::Open(Box::new(SignIn::new(desk))),
            Way::Quit => Turn::Leave,
            _ => Turn::Stay,
        }
    }

    /// Opens what a step of setting up takes.
    pub fn set_up<S: System>(_step: SetUpStep, _desk: &mut Desk<S>) -> Turn<S> {
        Turn::Stay
    }

    /// Opens an entry.
    pub fn entry<S: System>(_seal: Seal, _desk: &mut Desk<S>) -> Turn<S> {
        Turn::Stay
    }

    /// Opens the file of a person.
    pub fn person<S: System>(_person: PersonCode, _desk: &mut Desk<S>) -> Turn<S> {
        Turn::Stay
    }
}
