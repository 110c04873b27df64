//! A record that somebody changed: what is wrong can be chosen and opened, and verification can be stopped.

use std::path::Path;

use drybench::app::System as _;

use super::{First, machine, opened};
use crate::screens::front::{drawn, press};
use crate::support::machine::TestMachine;

/// Changes bytes in the middle of some entries of the file, past every guard.
fn alter(machine: &TestMachine, numbers: &[i64]) {
    let path = machine.laboratory().join("record.sqlite");
    assert!(Path::new(&path).is_file());
    let owner = rusqlite::Connection::open(&path).unwrap();
    let triggers: Vec<String> = owner
        .prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    for name in triggers {
        owner
            .execute(&format!("DROP TRIGGER \"{name}\""), [])
            .unwrap();
    }
    for number in numbers {
        let changed = owner
            .execute(
                "UPDATE entries SET bytes = CAST(replace(CAST(bytes AS TEXT), '2025-', '2024-') AS BLOB) WHERE number = ?1",
                [number],
            )
            .unwrap();
        assert!(changed > 0);
    }
}

#[test]
fn the_first_bad_entry_and_later_ones_are_opened() {
    let machine = machine();
    alter(&machine, &[40, 60]);
    let mut ui = opened(&machine, First::Verifying);
    ui.resize(80, 24);
    assert!(press(&mut ui, "<tick>"));
    let text = drawn(&ui.frame());
    assert!(text.contains("Something is wrong"), "{text}");
    assert!(press(&mut ui, "<enter>"));
    let text = drawn(&ui.frame());
    assert!(text.lines().next().unwrap().contains("/40"), "{text}");
    assert!(press(&mut ui, "<esc><tab><end><enter>"));
    let text = drawn(&ui.frame());
    let title = text.lines().next().unwrap();
    assert!(
        title.contains("Entry ") && !title.contains("/40 "),
        "{text}"
    );
    assert!(press(&mut ui, "<esc><esc>"));
    assert!(drawn(&ui.frame()).contains("Something is wrong"));
}

#[test]
fn a_standing_that_rests_on_it_is_not_shown() {
    let machine = machine();
    alter(&machine, &[40]);
    let mut ui = opened(&machine, First::Matrix);
    ui.resize(120, 40);
    assert!(press(&mut ui, "<tick>"));
    let text = drawn(&ui.frame());
    assert!(text.contains("unshown"), "{text}");
    assert!(text.contains("cannot be shown"), "{text}");
}

#[test]
fn work_aside_that_is_stopped_says_nothing_of_the_record() {
    // A machine that never begins the work: nothing has come yet.
    let machine = machine();
    machine.put_aside(true);
    let mut ui = opened(&machine, First::Verifying);
    assert!(ui.is_live());
    assert!(press(&mut ui, "<tick><down>"));
    assert!(drawn(&ui.frame()).contains(" of "));
    // It was the only screen.
    assert!(!press(&mut ui, "<esc>"));
    assert!(machine.place(Path::new("laboratory")).is_ok());
}
