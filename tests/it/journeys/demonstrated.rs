//! In the demonstration: from an inspector's question to the proof; from a watched case to a sign-off; a technician's own file.

#![expect(
    clippy::disallowed_methods,
    reason = "what is left of a folder is looked at"
)]

use super::{DOWN, END, ENTER, ESC, RIGHT, Seat, TAB, UP, prints};
use crate::support::pseudo_terminal::PseudoTerminal;

/// A folder with the demonstration, and somebody who sits before it and has signed in.
fn seated(home: &std::path::Path, name: &str, passphrase: &str) -> Seat {
    prints(home, "lab demonstration");
    let mut seat = Seat::at(home);
    seat.sees("Who is it?");
    seat.shows(name, passphrase, "Today,");
    seat
}

const OWNER: (&str, &str) = ("Nerea", "seven lamps above the bench");
const ASSESSOR: (&str, &str) = ("Tuomi", "quiet snow on the mill wheel");
const TRAINEE: (&str, &str) = ("Inti", "wind sings over high grass");

#[test]
fn an_owner_answers_an_inspector_in_a_few_keys() {
    let home = tempfile::tempdir().unwrap();
    let mut seat = seated(home.path(), OWNER.0, OWNER.1);
    // "Could Teodorico set stock teeth on 20 February, and on what ground?"
    seat.does("m", "Who stands where");
    seat.does("/", "Enter");
    seat.terminal.send("teodorico");
    seat.does(ENTER, "Teodorico Vallescura");
    seat.does("d", "20");
    seat.terminal.send("2026-02-20");
    seat.does(ENTER, "As of 2026-02-20");
    seat.sees("Due: may still work alone, until 2026-03-02");
    seat.does("e", "signed off Teodorico Vallescura");
    let proof = seat.terminal.screen();
    assert!(proof.contains("Entry front-desk/"), "{proof}");
    seat.does(ESC, "Who stands where");
    // And as it was known then.
    seat.does("r", "as recorded then");
    seat.leaves();
}

#[test]
fn a_case_is_watched_tapped_signed_and_acknowledged_and_the_technician_is_signed_off() {
    let home = tempfile::tempdir().unwrap();
    let mut seat = seated(home.path(), ASSESSOR.0, ASSESSOR.1);
    // Somebody is watched at the groundwork on a case. The power goes in the middle.
    seat.does("b", "Whom do you watch");
    for _ in 0..10 {
        if seat.terminal.screen().contains("Inti Wayrapampa") {
            break;
        }
        seat.again(RIGHT, 1);
    }
    seat.again(DOWN, 1);
    for _ in 0..4 {
        if seat.terminal.screen().contains("wet-resin-and-solvent") {
            break;
        }
        seat.again(RIGHT, 1);
    }
    seat.terminal.send(END);
    seat.again(UP, 1);
    seat.terminal.send("c-0400");
    seat.taps(ENTER, "Nothing is tapped yet.");
    seat.taps(ENTER, ": started");
    seat.taps(ENTER, ": stopped");
    seat.taps("d", "hazards: done");
    seat.terminal.send(DOWN);
    seat.taps("d", "runs: done");
    seat.terminal.signal("KILL");
    seat.terminal.wait();
    let mut seat = Seat::at(home.path());
    seat.sees("Who is it?");
    seat.shows(
        ASSESSOR.0,
        ASSESSOR.1,
        "A case that you watch is not signed yet",
    );
    seat.does("b", "case c-0400");
    seat.taps(ENTER, "Taken up again after 4 taps. Nothing is lost.");
    for _ in 0..20 {
        seat.terminal.send("d");
        seat.terminal.send(DOWN);
    }
    seat.taps("d", "Hand the bench over clean: done");
    seat.taps("f", "Acceptable: from what I saw");
    seat.taps("a", "The run is over and not signed yet.");
    seat.does(ENTER, "Before you sign");
    seat.signs(ASSESSOR.0, ASSESSOR.1);
    // The technician takes note of it at the same workstation.
    seat.sees("Today,");
    seat.does("o", "Who is it?");
    seat.shows(TRAINEE.0, TRAINEE.1, "c-0400: acceptable");
    seat.takes("c-0400", "Before you sign");
    seat.signs(TRAINEE.0, TRAINEE.1);
    assert!(!seat.terminal.screen().contains("c-0400"));
    seat.leaves();

    // The owner signs off who is ready.
    let mut seat = Seat::at(home.path());
    seat.sees("Who is it?");
    seat.shows(OWNER.0, OWNER.1, "Today,");
    seat.takes("ready for sign-off", "Record of Inti Wayrapampa");
    seat.does("s", "Sign something");
    seat.takes("Sign somebody off", "You declare the person competent");
    // Person, scope and revision are known from the file.
    seat.sees("wet-resin-and-solvent");
    seat.terminal.send(END);
    seat.does(ENTER, "Before you sign");
    let said = seat.signs(OWNER.0, OWNER.1);
    assert!(said.contains("front-desk/"), "{said}");
    seat.does(ESC, "Record of Inti Wayrapampa");
    seat.leaves();
    let file = prints(home.path(), "technician Inti");
    assert!(file.contains("Signed off from 2026-06-30"), "{file}");
    assert!(prints(home.path(), "record verify").contains("Nothing wrong was found."));
}

#[test]
fn a_trainee_takes_note_of_a_run_and_reads_what_comes_next() {
    let home = tempfile::tempdir().unwrap();
    let mut seat = seated(home.path(), TRAINEE.0, TRAINEE.1);
    seat.sees("watched you at wet-resin-and-solvent");
    seat.does(ENTER, "Before you sign");
    seat.signs(TRAINEE.0, TRAINEE.1);
    assert!(!seat.terminal.screen().contains("watched you at"));
    seat.does("f", "Next:");
    seat.does(TAB, "Record of Inti");
    seat.does(ESC, "Today,");
    // Nobody who looks after no one is offered to watch a case.
    assert!(!seat.terminal.screen().contains("watch a case"));
    seat.leaves();
}

#[test]
fn the_first_command_opens_a_fresh_demonstration_and_throws_it_away() {
    let home = tempfile::tempdir().unwrap();
    let there = || std::fs::read_dir(home.path()).unwrap().count();
    let program = env!("CARGO_BIN_EXE_drybench");
    let line = format!("TMPDIR='{}' exec '{program}' demo", home.path().display());
    let terminal = PseudoTerminal::start_shell(&line, home.path(), 80, 24);
    let mut seat = Seat { terminal };
    seat.sees("Everything here is invented");
    assert_eq!(there(), 1);
    seat.does(OWNER.0, OWNER.0);
    seat.does(
        ENTER,
        "In the demonstration it is: seven lamps above the bench",
    );
    seat.does(TAB, "•");
    seat.does(ENTER, "Today, 2026-06-30");
    seat.leaves();
    assert_eq!(there(), 0);
}
