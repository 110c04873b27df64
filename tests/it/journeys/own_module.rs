//! From an empty folder to a technician who may work alone, without a break, at a workflow that the laboratory wrote itself.
//!
//! Shipped modules ask for rehearsals on three days. This one asks for one, so that all of it happens before the same terminal.

#![expect(
    clippy::disallowed_methods,
    reason = "the laboratory lays files of its own into its folder"
)]

use std::path::Path;

use super::{DOWN, END, ENTER, ESC, RIGHT, Seat, UP, prints};

const ADA: (&str, &str) = ("Ada", "seven dry brushes");
const BO: (&str, &str) = ("Bo", "blue light at noon");
const CY: (&str, &str) = ("Cy", "third bench by the door");

/// A module of the laboratory's own, and a document from outside.
fn lay_files(home: &Path) {
    let module = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/modules/own/sharp-edge.yaml");
    let folder = home.join("data/modules");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::copy(module, folder.join("sharp-edge.yaml")).unwrap();
    std::fs::write(home.join("certificate.txt"), "Trained outside.").unwrap();
}

impl Seat {
    /// Types the letter that stands before a text on the screen.
    fn letter(&mut self, text: &str, then: &str) {
        let screen = self.terminal.screen();
        let before = screen.lines().find_map(|line| line.split_once(text));
        let before = before.unwrap_or_else(|| panic!("no {text}:\n{screen}"));
        let letter = before.0.trim_end().chars().last().unwrap();
        self.does(&letter.to_string(), then);
    }

    /// Reads the edition, and rehearses it once, unaided and clean, from the board and back.
    fn reads_and_rehearses(&mut self, (name, passphrase): (&str, &str)) {
        self.wants("I have read it", "You have read this edition");
        self.signs_form(name, passphrase);
        self.does("p", "What do you want to practise?");
        self.sees("3 steps. At the bench at least 1 min 50 s");
        self.does(ENTER, "How do you want to rehearse?");
        self.again(RIGHT, 2);
        self.sees("unaided");
        self.does(ENTER, "The bench is before you.");
        self.letter(" Protection", "Put on: Closed goggles");
        self.letter(" Put on: Closed goggles", "Worn: Closed goggles.");
        self.letter(" Desk", "Read on the ticket");
        self.letter(" Read on the ticket", "Ticket: read");
        self.letter(" Grinding place", "a Break the edge");
        self.letter(" Break the edge", "With what?");
        self.letter(" Rubber wheel", "Edge: broken");
        self.letter(" Desk", "Draw gauze");
        self.letter(" Draw gauze", "Edge: felt and smooth");
        self.letter(" Time and end", "Hand the work over");
        self.letter(" Hand the work over", "The debrief comes next");
        self.does(ENTER, "Written down as practice of");
        assert!(self.terminal.screen().contains("Debrief, clean"));
        self.does(ESC, "What do you want to practise?");
        self.does(ESC, "Today,");
    }
}

#[test]
fn an_empty_folder_becomes_a_technician_who_may_work_alone_and_a_record_that_verifies() {
    let home = tempfile::tempdir().unwrap();
    lay_files(home.path());
    let mut seat = Seat::at(home.path());
    seat.is_asked_for_a_passphrase();
    seat.chooses(ADA.1, "The record is open.");
    seat.does(ENTER, "Setting up");
    seat.takes("Let people join", "The person's name");
    seat.lets_join(ADA, "Bo Sample", "Setting up");
    seat.wants("Somebody joins", "The person's name");
    seat.lets_join(ADA, "Cy Trial", "Sign something");
    seat.does(ESC, "Today,");
    seat.gives_key(ADA, "Bo Sample", BO.1);
    seat.gives_key(ADA, "Cy Trial", CY.1);
    // The board names the rights that nobody holds until there is none.
    seat.sees("publish: adopt revisions");
    seat.takes("Give these rights", "The person may do something");
    seat.seeks("Bo", "Rights");
    seat.takes_rights(&["train", "assess", "approve"]);
    seat.terminal.send(END);
    seat.does(ENTER, "Before you sign");
    seat.signs(ADA.0, ADA.1);
    seat.sees("nobody holds them yet: publish");
    seat.takes("Give these rights", "The person may do something");
    seat.seeks("Ada", "Rights");
    seat.takes_rights(&["approve", "publish"]);
    seat.terminal.send(END);
    seat.does(ENTER, "Before you sign");
    seat.signs(ADA.0, ADA.1);
    seat.sees("Setting up");
    assert!(!seat.terminal.screen().contains("nobody holds them yet"));

    // The laboratory's own module is adopted, and both get the need.
    seat.takes("Adopt a workflow", "Asks of others");
    seat.seeks("sharp-edge (your own)", "Holds from");
    seat.again(DOWN, 1);
    seat.seeks("assess", "Reason");
    seat.terminal.send("first revision");
    seat.terminal.send(END);
    seat.does(ENTER, "Before you sign");
    seat.signs(ADA.0, ADA.1);
    seat.sees("Setting up");
    for name in ["Bo Sample", "Cy Trial"] {
        seat.wants("Assign somebody", "training begins");
        seat.seeks(&name[..2], name);
        seat.signs_form(ADA.0, ADA.1);
    }

    // The second person approves of it, reads it and rehearses; so does the technician.
    seat.changes_to(BO.0, BO.1, "A second signature is wanted");
    seat.does(ENTER, "Before you sign");
    seat.signs(BO.0, BO.1);
    seat.sees("sharp-edge: in training");
    seat.reads_and_rehearses(BO);
    seat.changes_to(CY.0, CY.1, "Next: read the edition in force");
    seat.reads_and_rehearses(CY);

    // Nobody could assess yet: the first who can is signed off on a document.
    seat.changes_to(ADA.0, ADA.1, "Sign off a first assessor");
    seat.takes("Sign off a first assessor", "a document says so");
    seat.seeks("Bo", "Bo Sample");
    seat.again(DOWN, 2);
    seat.seeks("training outside", "training outside the laboratory");
    seat.terminal.send("certificate.txt");
    seat.terminal.send(END);
    seat.does(ENTER, "in training, then signed off");
    seat.signs(ADA.0, ADA.1);
    assert!(!seat.terminal.screen().contains("Setting up"));

    // The assessor sees protection shown, watches a real case, and says whether training worked.
    seat.changes_to(BO.0, BO.1, "sharp-edge: signed off until");
    seat.wants("Somebody can protect", "before supervised work");
    seat.seeks("Cy", "Cy Trial");
    seat.signs_form(BO.0, BO.1);
    seat.does("b", "Whom do you watch");
    seat.sees("Cy Trial");
    seat.terminal.send(END);
    seat.again(UP, 1);
    seat.terminal.send("c-0001");
    seat.taps(ENTER, "Nothing is tapped yet.");
    seat.taps("d", "is meant: done");
    seat.terminal.send(DOWN);
    seat.taps("d", "Break the edge: done");
    seat.terminal.send(DOWN);
    seat.taps("d", "along the edge: done");
    seat.taps("f", "Acceptable: from what I saw");
    seat.taps("a", "The run is over and not signed yet.");
    seat.does(ENTER, "Before you sign");
    let said = seat.signs(BO.0, BO.1);
    assert!(said.contains("whether training worked"), "{said}");
    seat.wants("Whether training worked", "Did training lead");
    seat.seeks("Cy", "Cy Trial");
    seat.again(DOWN, 2);
    seat.seeks("at the", "at the assessment");
    seat.seeks("it worked", "Reason");
    seat.signs_form(BO.0, BO.1);

    // The technician takes note of it; somebody who did not assess signs off.
    seat.changes_to(CY.0, CY.1, "c-0001: acceptable");
    seat.takes("c-0001", "Before you sign");
    seat.signs(CY.0, CY.1);
    assert!(!seat.terminal.screen().contains("c-0001"));
    seat.changes_to(ADA.0, ADA.1, "ready for sign-off");
    seat.takes("ready for sign-off", "Record of Cy Trial");
    seat.wants("Sign somebody off", "You declare the person competent");
    seat.sees("sharp-edge");
    seat.terminal.send(END);
    seat.does(ENTER, "ready for sign-off, then signed off");
    seat.signs(ADA.0, ADA.1);
    seat.does(ESC, "Record of Cy Trial");
    seat.does(ESC, "Today,");
    seat.does("m", "Who stands where");
    seat.sees("2 of 3");
    seat.does(ESC, "Today,");
    seat.does("v", "Nothing wrong was found.");
    seat.does(ESC, "Today,");
    seat.changes_to(CY.0, CY.1, "sharp-edge: signed off until");
    seat.leaves();

    let verified = prints(home.path(), "record verify");
    assert!(verified.contains("Nothing wrong was found."), "{verified}");
    let file = prints(home.path(), "technician Cy");
    assert!(file.contains("Signed off from"), "{file}");
    let table = prints(home.path(), "matrix");
    assert!(table.contains("May work alone: 2 of 3"), "{table}");
    assert!(prints(home.path(), "board Cy").contains("signed off until"));
}
