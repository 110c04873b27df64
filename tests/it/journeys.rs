//! Whole journeys through the real program on a terminal of 80 by 24, keys alone: an owner, an assessor, a trainee.

mod demonstrated;
mod from_nothing;
mod killed;
mod own_module;

use std::path::Path;
use std::process::Command;

use drybench::record::scope::Authority;

use crate::support::pseudo_terminal::PseudoTerminal;

/// Somebody with a terminal, and the folder for data that it works on.
struct Seat {
    terminal: PseudoTerminal,
}

impl Seat {
    /// Starts the program on a folder for data.
    fn at(home: &Path) -> Seat {
        let terminal = PseudoTerminal::start(&["--data", "data"], home, 80, 24);
        Seat { terminal }
    }

    /// Waits until a text is on the screen.
    fn sees(&self, text: &str) -> &Seat {
        self.terminal.wait_for(text);
        self.terminal.settle();
        self
    }

    /// Types and waits until a text is on the screen.
    fn does(&mut self, keys: &str, text: &str) {
        self.terminal.send(keys);
        self.sees(text);
    }

    /// Types where time passes on the screen, which never comes to rest.
    fn taps(&mut self, keys: &str, text: &str) {
        self.terminal.send(keys);
        self.terminal.wait_for(text);
    }

    /// Presses a key so many times.
    fn again(&mut self, key: &str, times: usize) {
        for _ in 0..times {
            let before = self.terminal.sight();
            self.terminal.send(key);
            self.terminal.wait_for_another(&before);
            self.terminal.settle();
        }
    }

    /// Shows who somebody is: by a part of the name, and a passphrase.
    fn shows(&mut self, name: &str, passphrase: &str, then: &str) {
        self.does(name, name);
        self.does(ENTER, "Passphrase of");
        self.terminal.send(passphrase);
        self.does(ENTER, then);
    }

    /// An owner begins to set a laboratory up, up to the passphrase.
    fn is_asked_for_a_passphrase(&mut self) {
        self.sees("There is no record in this folder yet.");
        self.takes("Set up this laboratory", "What is the laboratory called?");
        self.terminal.send("Three Rivers");
        self.does(ENTER, "What is the owner's name");
        self.terminal.send("Ada Example");
        self.does(ENTER, "What is this workstation called?");
        self.does(ENTER, "Your signature binds you");
        self.does(ENTER, "Choose a passphrase:");
    }

    /// Types a passphrase where a new one is asked for, twice.
    fn chooses(&mut self, passphrase: &str, then: &str) {
        self.terminal.send(passphrase);
        self.does(ENTER, "The same passphrase again:");
        self.terminal.send(passphrase);
        self.does(ENTER, then);
    }

    /// The owner lets somebody join, where the name is asked for.
    fn lets_join(&mut self, owner: (&str, &str), name: &str, then: &str) {
        self.terminal.send(name);
        self.does(ENTER, "Who is it?");
        self.shows(owner.0, owner.1, &format!("{name} (P-"));
        self.does(ENTER, then);
    }

    /// The owner gives somebody a key, who chooses a passphrase.
    fn gives_key(&mut self, owner: (&str, &str), name: &str, passphrase: &str) {
        self.takes("Give everybody a key", "Who gets a key?");
        self.takes(name, "How did you make sure");
        self.terminal.send("passport seen");
        self.does(ENTER, "Give the keyboard to");
        self.does(ENTER, "choose a passphrase:");
        self.chooses(passphrase, "Enter or Esc closes this");
        self.again(ENTER, 1);
        self.shows(owner.0, owner.1, "has agreed that what is signed");
        self.does(ENTER, "Setting up");
    }

    /// Goes to the end of everything that is to be signed, signs, and closes what is said then.
    fn signs(&mut self, name: &str, passphrase: &str) -> String {
        self.sees("Before you sign");
        self.terminal.send(END);
        self.terminal.settle();
        for _ in 0..40 {
            if self.terminal.screen().contains("I have read it: sign") {
                break;
            }
            self.again(ENTER, 1);
        }
        self.does(ENTER, "Who is it?");
        self.shows(name, passphrase, "Stored: entry ");
        let said = self.terminal.screen();
        self.again(ENTER, 1);
        said
    }

    /// Chooses the row that holds a text, from the top, and takes it.
    fn takes(&mut self, row: &str, then: &str) {
        self.terminal.send(HOME);
        self.terminal.settle();
        for _ in 0..60 {
            if self.chosen().contains(row) {
                self.does(ENTER, then);
                return;
            }
            // What is not in sight is further away than this.
            let is_far = !self.terminal.screen().contains(row);
            self.again(&DOWN.repeat(if is_far { 4 } else { 1 }), 1);
        }
        panic!("no row says {row}:\n{}", self.terminal.screen());
    }

    /// Fills a row of a form by seeking among its answers.
    fn seeks(&mut self, words: &str, then: &str) {
        self.does(&words[..1], "Enter take it");
        self.terminal.send(&words[1..]);
        self.sees(words);
        self.does(ENTER, then);
    }

    /// Takes rights in the form that gives them.
    fn takes_rights(&mut self, rights: &[&str]) {
        self.does(ENTER, "[x] is taken");
        let mut at = 0;
        // The right to everything stands last in the list.
        let (own, others): (Vec<_>, Vec<_>) = Authority::ALL
            .iter()
            .map(|one| one.word())
            .partition(|word| *word == "own");
        for (row, right) in others.into_iter().chain(own).enumerate() {
            if rights.contains(&right) {
                self.again(DOWN, row - at);
                at = row;
                self.does(" ", &format!("[x] {right}"));
            }
        }
        self.does(ESC, &rights.join(", "));
    }

    /// Opens the form of something that can be signed, from the board.
    fn wants(&mut self, deed: &str, then: &str) {
        self.does("s", "Sign something");
        self.takes(deed, then);
    }

    /// Goes on from a form that is filled in, signs, and is back on the board.
    fn signs_form(&mut self, name: &str, passphrase: &str) {
        self.terminal.send(END);
        self.does(ENTER, "Before you sign");
        self.signs(name, passphrase);
        self.does(ESC, "Today,");
    }

    /// Somebody else sits down.
    fn changes_to(&mut self, name: &str, passphrase: &str, then: &str) {
        self.does("o", "Who is it?");
        self.shows(name, passphrase, then);
    }

    /// What is shown as chosen.
    fn chosen(&self) -> String {
        // The bar at the top looks as what is chosen does.
        self.terminal
            .cells(|row, cell| (row > 0 && cell.inverse()).then(|| cell.contents().to_owned()))
    }

    /// Leaves the program.
    fn leaves(mut self) {
        self.terminal.send("\u{11}");
        assert_eq!(self.terminal.wait().exit_code(), 0);
    }
}

const ENTER: &str = "\r";
const ESC: &str = "\u{1b}";
const DOWN: &str = "\u{1b}[B";
const UP: &str = "\u{1b}[A";
const RIGHT: &str = "\u{1b}[C";
const HOME: &str = "\u{1b}[H";
const END: &str = "\u{1b}[F";
const TAB: &str = "\t";

/// What a command prints; it has to end well.
fn prints(home: &Path, line: &str) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(line.split_whitespace())
        .args(["--data", "data"])
        .current_dir(home)
        .env("LC_ALL", "en_US.UTF-8")
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success(), "{line}: {text}");
    text
}
