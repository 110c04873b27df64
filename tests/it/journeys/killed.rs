//! Killed at random moments of a signature on the screens: what was said to be stored is there; nothing half is.

#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a person waits a moment before the power goes, and says how often it went"
)]

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use drybench::rng::{Seed, Stream};

use super::{END, ENTER, Seat, prints};

const TIMES: usize = 25;
const ASSESSOR: (&str, &str) = ("Tuomi", "quiet snow on the mill wheel");

fn entries(home: &Path) -> usize {
    let list: serde_json::Value =
        serde_json::from_str(&prints(home, "record list --json")).unwrap();
    list["entries"].as_array().unwrap().len()
}

#[test]
fn a_signature_is_there_whole_or_not_at_all_whenever_the_program_is_killed() {
    let home = tempfile::tempdir().unwrap();
    prints(home.path(), "lab demonstration");
    let mut moments = Stream::new(Seed(19), "moments of a signature");
    let mut before = entries(home.path());
    let (mut stored, mut said) = (0, 0);
    for _ in 0..TIMES {
        let mut seat = Seat::at(home.path());
        seat.sees("Who is it?");
        seat.shows(ASSESSOR.0, ASSESSOR.1, "Today,");
        seat.does("s", "Sign something");
        seat.takes("Somebody can protect themself", "The person put on");
        seat.does("i", "Enter take it");
        seat.terminal.send("nti");
        seat.does(ENTER, "Inti Wayrapampa");
        seat.does("w", "Enter take it");
        seat.terminal.send("et");
        seat.does(ENTER, "revision 1");
        seat.terminal.send(END);
        seat.does(ENTER, "Before you sign");
        for _ in 0..20 {
            if seat.terminal.screen().contains("I have read it: sign") {
                break;
            }
            seat.again(ENTER, 1);
        }
        seat.does(ENTER, "Who is it?");
        seat.does(ASSESSOR.0, ASSESSOR.0);
        seat.does(ENTER, "Passphrase of");
        seat.terminal.send(ASSESSOR.1);
        seat.terminal.settle();
        seat.terminal.send(ENTER);
        let wait = u64::try_from(moments.between(0, 900)).unwrap();
        thread::sleep(Duration::from_millis(wait));
        let screen = seat.terminal.screen();
        seat.terminal.signal("KILL");
        seat.terminal.wait();
        let now = entries(home.path());
        assert!(now == before || now == before + 1, "{before} became {now}");
        let told = screen.contains("Stored: entry ");
        assert!(
            !told || now == before + 1,
            "said to be stored and is not:\n{screen}"
        );
        stored += now - before;
        said += usize::from(told);
        before = now;
    }
    let verified = prints(home.path(), "record verify");
    assert!(verified.contains("Nothing wrong was found."), "{verified}");
    println!("killed {TIMES} times during a signature: {stored} stored, {said} of them told");
}

/// How often the same is done in plain lines.
const TIMES_IN_LINES: usize = 75;

#[test]
fn a_signature_in_plain_lines_is_there_whole_or_not_at_all_too() {
    let home = tempfile::tempdir().unwrap();
    prints(home.path(), "lab demonstration");
    let mut moments = Stream::new(Seed(23), "moments of a signature in lines");
    let first = entries(home.path());
    let mut before = first;
    for _ in 0..TIMES_IN_LINES {
        let mut signing = Command::new(env!("CARGO_BIN_EXE_drybench"))
            .args("protection Inti wet-resin-and-solvent --as Tuomi --passphrase-fd 0".split(' '))
            .args(["--data", "data"])
            .current_dir(home.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        writeln!(signing.stdin.take().unwrap(), "{}", ASSESSOR.1).unwrap();
        let wait = u64::try_from(moments.between(0, 700)).unwrap();
        thread::sleep(Duration::from_millis(wait));
        signing.kill().unwrap();
        let said = String::from_utf8(signing.wait_with_output().unwrap().stdout).unwrap();
        let now = entries(home.path());
        assert!(now == before || now == before + 1, "{before} became {now}");
        assert!(!said.contains("Stored") || now == before + 1, "{said}");
        before = now;
    }
    let verified = prints(home.path(), "record verify");
    assert!(verified.contains("Nothing wrong was found."), "{verified}");
    println!(
        "killed {TIMES_IN_LINES} times in plain lines: {} stored",
        before - first
    );
}
