//! From an empty folder to people at work: everything on screens, by the owner and the second person.

use super::{END, ENTER, ESC, Seat, prints};

const ADA: &str = "seven dry brushes";
const BO: &str = "blue light at noon";

#[test]
fn an_owner_sets_a_laboratory_up_and_a_new_hire_is_told_what_to_practise() {
    let home = tempfile::tempdir().unwrap();
    let mut seat = Seat::at(home.path());
    // A look at the demonstration comes first, and leaves nothing of it behind.
    seat.sees("There is no record in this folder yet.");
    seat.takes("Look at the demonstration", "Everything here is invented");
    seat.does(ESC, "There is no record in this folder yet.");
    assert!(!seat.terminal.screen().contains("DEMONSTRATION"));
    seat.is_asked_for_a_passphrase();
    seat.terminal.send(ADA);
    seat.does(ENTER, "The same passphrase again:");
    seat.terminal.send("another one");
    seat.does(ENTER, "The two passphrases differ.");
    seat.does(ENTER, "Choose a passphrase:");
    seat.chooses(ADA, "The record is open.");
    seat.does(ENTER, "Setting up");

    // Somebody joins and gets a key.
    seat.takes("Let people join", "The person's name");
    seat.lets_join(("Ada", ADA), "Bo Sample", "Setting up");
    assert!(!seat.terminal.screen().contains("Let people join"));
    seat.gives_key(("Ada", ADA), "Bo Sample", BO);

    // Rights: several at once, each an entry that somebody answers for.
    seat.sees("publish: adopt revisions");
    for person in ["Ada", "Bo"] {
        seat.wants("Give somebody rights", "The person may do something");
        seat.seeks(person, "Rights");
        seat.takes_rights(&["train", "assess", "approve", "publish"]);
        seat.signs_form("Ada", ADA);
    }
    assert!(!seat.terminal.screen().contains("nobody holds them yet"));

    // A workflow is adopted, and a second person approves of it at the same workstation.
    seat.takes("Adopt a workflow", "Asks of others");
    seat.seeks("wet", "wet-resin-and-solvent");
    seat.again(super::DOWN, 1);
    seat.seeks("assess", "Reason");
    seat.terminal.send("first revision");
    seat.terminal.send(END);
    seat.does(ENTER, "Before you sign");
    seat.signs("Ada", ADA);
    seat.sees("Setting up");
    seat.changes_to("Bo", BO, "A second signature is wanted");
    seat.does(ENTER, "Before you sign");
    seat.signs("Bo", BO);

    // The owner assigns; the new hire reads and is told what is worth practising.
    seat.changes_to("Ada", ADA, "Setting up");
    seat.takes("Assign people", "training begins");
    seat.seeks("Bo", "Bo Sample");
    seat.terminal.send(END);
    seat.does(ENTER, "Before you sign");
    seat.signs("Ada", ADA);
    seat.changes_to("Bo", BO, "Your own workflows");
    seat.sees("read the edition in force");
    seat.wants("I have read it", "You have read this edition");
    seat.signs_form("Bo", BO);
    seat.does("f", "Next:");
    seat.does(ESC, "Today,");
    seat.does("v", "Nothing wrong was found.");
    seat.leaves();

    let verified = prints(home.path(), "record verify");
    assert!(verified.contains("Nothing wrong was found."), "{verified}");
    let board = prints(home.path(), "board Bo");
    assert!(board.contains("in training"), "{board}");
}
