//! The ways from the board to everything else, one key each.

use super::bench_runs::BenchRuns;
use super::deeds::{About, Deeds, What, open};
use super::enrolling::Enrolling;
use super::entries::Entries;
use super::giving_key::GivingKey;
use super::matrix::Matrix;
use super::one_entry::OneEntry;
use super::person_file::PersonFile;
use super::sign_in::SignIn;
use super::signing::Signing;
use super::verifying::Verifying;
use super::workflows::Workflows;
use crate::app::System;
use crate::app::laboratory::Deed;
use crate::record::entry::Countersigned;
use crate::record::scope::{Id, Meaning};
use crate::record::seal::Seal;
use crate::report::record::{entry, looks_after_others};
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
        let watch = others.then_some(BenchRun);
        let ways = [Practise, OwnFile].into_iter().chain(watch);
        let rest = [Sign, Matrix, Workflows, Entries, Verify, ChangePerson, Quit];
        ways.chain(rest).collect()
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
            Way::Matrix => Matrix::open(desk),
            Way::OwnFile => match desk.person() {
                Some(person) => PersonFile::open(person, desk),
                None => Turn::Stay,
            },
            Way::Workflows => Turn::Open(Box::new(Workflows::new(desk))),
            Way::Entries => Turn::Open(Box::new(Entries::new(desk))),
            Way::Verify => Verifying::open(desk),
            Way::Sign => Turn::Open(Box::new(Deeds::about(About::default(), desk))),
            Way::BenchRun => BenchRuns::open(None, desk),
            Way::Quit => Turn::Leave,
        }
    }

    /// Opens what a step of setting up takes.
    pub fn set_up<S: System>(step: SetUpStep, desk: &mut Desk<S>) -> Turn<S> {
        let form = |what, desk: &mut Desk<S>| open(what, &About::default(), desk);
        match step {
            SetUpStep::People => Turn::Open(Box::new(Enrolling::new())),
            SetUpStep::Keys => Turn::Open(Box::new(GivingKey::new(None, desk))),
            SetUpStep::Rights => form(What::Grant, desk),
            SetUpStep::Workflow => form(What::Adopt, desk),
            SetUpStep::Assigned => form(What::Assign, desk),
            SetUpStep::FirstAssessor => form(What::FirstAssessor, desk),
            SetUpStep::FromOutside => form(What::Outside, desk),
        }
    }

    /// Shows an entry in full and asks for a signature under it.
    pub fn second<S: System>(seal: Seal, meaning: Meaning, desk: &mut Desk<S>) -> Turn<S> {
        let shown = desk.office().map_or_else(Vec::new, |(house, words)| {
            let ledger = house.laboratory.ledger();
            let both = entry(ledger, &seal).zip(ledger.get(&seal));
            both.map_or_else(Vec::new, |(told, stored)| {
                let beside = house.laboratory.told_beside(stored, words);
                house.told(words, |telling| told.blocks(beside, telling))
            })
        });
        let deed = Deed::now(Countersigned { target: seal }).meaning(meaning);
        Signing::open(deed, shown, desk)
    }

    /// Opens an entry.
    pub fn entry<S: System>(seal: Seal, desk: &mut Desk<S>) -> Turn<S> {
        OneEntry::open(seal, desk)
    }

    /// Opens the file of a person, a workflow first.
    pub fn person<S: System>(person: PersonCode, workflow: Id, desk: &mut Desk<S>) -> Turn<S> {
        let today = desk.office().map(|(house, _)| house.today());
        today.map_or(Turn::Stay, |today| {
            PersonFile::open_at(person, Some(workflow), today, desk)
        })
    }
}
