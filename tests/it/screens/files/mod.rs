//! The screens that show what the record says: the table of a day, files, entries, verification, on the demonstration.

mod cells;
mod damage;
mod hostile;
mod pictures;

use std::path::Path;

use drybench::app::laboratory::Laboratory;
use drybench::app::{Colours, System as _, Wish};
use drybench::text::Words;
use drybench::tui;
use drybench::tui::screen::{Desk, Turn};
use drybench::tui::screens::laboratory::entries::Entries;
use drybench::tui::screens::laboratory::matrix::Matrix;
use drybench::tui::screens::laboratory::person_file::PersonFile;
use drybench::tui::screens::laboratory::verifying::Verifying;
use drybench::tui::screens::laboratory::workflows::Workflows;
use drybench::tui::ui::Ui;
use drybench::units::PersonCode;

use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

/// Where a sitting begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum First {
    Matrix,
    /// Of the person whose name holds this.
    Person(&'static str),
    Workflows,
    Entries,
    Verifying,
}

/// A machine with the demonstration.
fn machine() -> TestMachine {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    machine
}

/// A desk with the machine's laboratory open on it.
fn desk(machine: &TestMachine) -> Desk<TestMachine> {
    let words = Words::shipped("en-US");
    let mut desk = tui::desk(machine.clone(), words, &Wish::default(), Colours::Full);
    let place = machine.place(Path::new("laboratory")).unwrap();
    let laboratory = Laboratory::open(place).unwrap_or_else(|why| panic!("{why:?}"));
    assert!(desk.lay_open(laboratory).is_ok());
    desk
}

/// The code of the person whose name holds a text.
fn called(desk: &mut Desk<TestMachine>, name: &str) -> PersonCode {
    let (house, _) = desk.office().unwrap();
    let mut people = house.laboratory.ledger().people();
    people
        .find(|code| house.name_of(*code).contains(name))
        .unwrap_or_else(|| panic!("nobody is called {name}"))
}

/// Screens that begin with one of them.
fn opened(machine: &TestMachine, first: First) -> Ui<TestMachine> {
    let mut desk = desk(machine);
    let turn = match first {
        First::Matrix => Matrix::open(&mut desk),
        First::Person(name) => {
            let person = called(&mut desk, name);
            PersonFile::open(person, &mut desk)
        }
        First::Workflows => Turn::Open(Box::new(Workflows::new(&mut desk))),
        First::Entries => Turn::Open(Box::new(Entries::new(&mut desk))),
        First::Verifying => Verifying::open(&mut desk),
    };
    match turn {
        Turn::Open(screen) => Ui::new(desk, screen),
        Turn::Tell(notice) => panic!("{notice:?}"),
        _ => panic!("{first:?} does not open"),
    }
}
