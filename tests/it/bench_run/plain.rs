//! A whole bench run in plain lines with the real program: piped in, signed, countersigned; left unsigned and taken up again.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program is started on real files"
)]

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use super::card;
use super::killed::data;

const TUOMI: &str = "quiet snow on the mill wheel";
const SMARAGDA: &str = "salt and thyme on the sill";

/// What a command said.
#[derive(Debug)]
struct Said {
    status: i32,
    results: String,
    messages: String,
}

fn said(output: Output) -> Said {
    Said {
        status: output.status.code().unwrap_or(-1),
        results: String::from_utf8(output.stdout).unwrap(),
        messages: String::from_utf8(output.stderr).unwrap(),
    }
}

/// Runs a command with these lines on its input and a passphrase on another file.
fn run(data: &Path, line: &str, input: &str, passphrase: &str) -> Said {
    let (lines, secret) = (data.join("lines"), data.join("secret"));
    fs::write(&lines, input).unwrap();
    fs::write(&secret, passphrase).unwrap();
    let line = format!(
        "exec '{}' {line} --data '{}' --passphrase-fd 3 3<'{}' <'{}'",
        env!("CARGO_BIN_EXE_drybench"),
        data.display(),
        secret.display(),
        lines.display()
    );
    said(Command::new("sh").args(["-c", &line]).output().unwrap())
}

const BEGIN: &str = "observe run stock-teeth P-2R4J54 --case-ref c-0700 --case teeth=6 --as Tuomi --lot 'primer 17'";
const RESUME: &str = "observe run stock-teeth P-2R4J54 --resume --as Tuomi";

/// Every row done, and the end.
fn clean(judgement: &str) -> String {
    let card = card();
    let rows = card.rows.iter().map(|row| format!("done {}\n", row.id));
    rows.collect::<String>() + &format!("end {judgement}\n")
}

#[test]
fn a_clean_run_is_watched_signed_and_countersigned() {
    let data = data();
    let data = data.path();
    let signed = run(data, BEGIN, &clean("acceptable"), TUOMI);
    assert_eq!(signed.status, 0, "{signed:#?}");
    let results = &signed.results;
    assert!(results.contains("Every row is marked."), "{results}");
    assert!(
        results.contains("Marked as done and never timed"),
        "{results}"
    );
    assert!(results.contains("Safety data sheet"), "{results}");
    let said = results.split_whitespace().collect::<Vec<&str>>().join(" ");
    let asked = "The run counts as clean. For a sign-off revision 2 asks that the last 3 observed runs are clean";
    assert!(said.contains(asked), "{results}");
    let stored = results.split("Stored: entry ").nth(1).unwrap();
    let entry = stored.split(' ').next().unwrap();
    let messages = &signed.messages;
    assert!(messages.contains("Result of the run: clean"), "{messages}");
    let line = format!("countersign {entry} --as P-2R4J54 --meaning acknowledged");
    assert!(messages.contains(&format!("drybench {line}")), "{messages}");
    let countersigned = run(data, &line, "", SMARAGDA);
    assert_eq!(countersigned.status, 0, "{countersigned:#?}");
    // Once it is signed it is not open any more.
    let none = run(data, RESUME, "", TUOMI);
    assert_eq!(none.status, 1, "{none:#?}");
    assert!(none.messages.contains("No bench run"), "{none:#?}");
}

#[test]
fn a_run_with_a_wrong_passphrase_stays_and_is_signed_later() {
    let data = data();
    let data = data.path();
    let lines = "done tack\nnot-done wipe\nremark slow\nend not-acceptable\n";
    let refused = run(data, BEGIN, lines, "not the passphrase");
    assert_eq!(refused.status, 1, "{refused:#?}");
    let messages = &refused.messages;
    assert!(messages.contains("The passphrase is wrong"), "{messages}");
    assert!(messages.contains("go on with --resume"), "{messages}");
    let again = run(data, RESUME, "undo\nvalue tack 9 s\nquit\n", TUOMI);
    assert_eq!(again.status, 0, "{again:#?}");
    assert!(again.results.contains("The run is over and not signed"));
    let reopened = run(data, RESUME, "end not-acceptable\n", TUOMI);
    assert_eq!(reopened.status, 0, "{reopened:#?}");
    assert!(reopened.messages.contains("Result of the run: failed"));
}

#[test]
fn what_contradicts_itself_is_told_and_what_was_begun_by_mistake_is_dropped() {
    let data = data();
    let data = data.path();
    let dropped = run(data, BEGIN, "start tack\ndrop\nundo\ndrop\n", TUOMI);
    assert_eq!(dropped.status, 0, "{dropped:#?}");
    let messages = &dropped.messages;
    assert!(messages.contains("so the run is not dropped"), "{messages}");
    let results = &dropped.results;
    assert!(
        results.contains("begun by mistake, and dropped"),
        "{results}"
    );
    let none = run(data, RESUME, "", TUOMI);
    assert!(none.messages.contains("No bench run"), "{none:#?}");
    // "Acceptable" beside a critical row that was not done.
    let lines = clean("acceptable").replacen("done tack\n", "not-done tack\n", 1);
    let signed = run(data, BEGIN, &lines, TUOMI);
    assert_eq!(signed.status, 0, "{signed:#?}");
    let told: String = signed
        .results
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(told.contains("contradict"), "{told}");
}

/// What a command says that asks for no passphrase.
fn looked(data: &Path, line: &str) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_drybench"));
    let output = command
        .args(line.split(' '))
        .arg("--data")
        .arg(data)
        .output();
    let said = said(output.unwrap());
    assert_eq!(said.status, 0, "{said:#?}");
    said.results
}

/// Puts the sheets with times out of the way that hold these words, or something else into them.
fn spoil(data: &Path, words: &str, with: Option<&str>) {
    let folder = data.join("laboratory/attachments/erasable");
    let mut spoilt = 0;
    for one in fs::read_dir(folder).unwrap() {
        let path = one.unwrap().path();
        if fs::read_to_string(&path).is_ok_and(|text| text.contains(words)) {
            match with {
                Some(text) => fs::write(&path, text).unwrap(),
                None => fs::remove_file(&path).unwrap(),
            }
            spoilt += 1;
        }
    }
    assert!(spoilt > 0, "{words}");
}

#[test]
fn the_entry_in_full_tells_the_sheet_that_is_kept_beside_it() {
    let data = data();
    let data = data.path();
    let lines = "lot plate 4\nlot sieve 9\nstart first-wash\nstop first-wash\ndone first-wash\nvalue first-wash 21 degrees\n\
        remark-on first-wash lid left open\nremark calm throughout\nstart tack\nundo\ndanger sleeve in the bath\n";
    let signed = run(data, BEGIN, lines, TUOMI);
    assert_eq!(signed.status, 0, "{signed:#?}");
    let stored = signed.results.split("Stored: entry ").nth(1).unwrap();
    let entry = stored.split(' ').next().unwrap();
    let show = format!("record show {entry}");
    let told = looked(data, &show);
    // Lines are broken at the width of a page.
    let told: String = told.split_whitespace().collect::<Vec<_>>().join(" ");
    // The steps are told by the titles in the text that was kept when the edition was adopted.
    let card = card();
    let title = |id: &str| {
        card.module().steps[card.row(id).unwrap().step]
            .title
            .clone()
    };
    for wanted in [
        format!("{}: done; from ", title("first-wash")),
        format!("{} [tack]", title("tack")),
    ] {
        assert!(told.contains(&wanted), "{wanted}: {told}");
    }
    for wanted in [
        "What is kept beside it",
        "Lot or equipment: primer 17",
        "Lot or equipment: sieve 9",
        "Read: 21 degrees; Remark: lid left open",
        "Remark: calm throughout",
        "Stopped for danger: sleeve in the bath",
        "One tap was taken back.",
    ] {
        assert!(told.contains(wanted), "{wanted}: {told}");
    }
    assert!(!told.contains(&format!("{}: ", title("tack"))), "{told}");
    // What is no longer what the entry names is not told, and the entry is.
    spoil(data, "primer 17", Some("made up"));
    let spoilt = looked(data, &show);
    assert!(
        spoilt.contains("What it says") && !spoilt.contains("made up"),
        "{spoilt}"
    );
    assert!(spoilt.contains("damaged"), "{spoilt}");
    spoil(data, "made up", None);
    let gone = looked(data, &show);
    assert!(gone.contains("It is not here: it was erased"), "{gone}");
}

#[test]
fn whoever_says_how_a_row_went_stops_its_clock() {
    let data = data();
    let lines = "start first-wash\nprompted first-wash\nundo\nundo\nstop first-wash\nclock\nquit\n";
    let ran = run(data.path(), BEGIN, lines, TUOMI);
    let results = &ran.results;
    assert!(results.contains(", clock stopped: "), "{ran:#?}");
    // Both taps were taken back, so it could be stopped once more.
    assert!(results.contains("): stop of "), "{ran:#?}");
    assert!(!ran.messages.contains("does not run"), "{ran:#?}");
}

#[test]
fn a_danger_ends_it_and_lines_that_make_no_sense_end_nothing() {
    let data = data();
    let data = data.path();
    let lines = "begin tack\nstart crown\nstop tack\nend fine\nundo\nlook\nabout tack\nclock\nhelp\n\
        # a comment\ndanger goggles off at the bath\n";
    let signed = run(data, BEGIN, lines, TUOMI);
    assert_eq!(signed.status, 0, "{signed:#?}");
    for wanted in [
        "No line begins with \"begin\"",
        "The workflow has no row crown",
        "tack does not run",
        "\"fine\" is no judgement",
        "There is nothing to take back",
    ] {
        assert!(signed.messages.contains(wanted), "{wanted}: {signed:#?}");
    }
    assert!(signed.results.contains("goggles off at the bath"));
    assert!(signed.messages.contains("not acceptable"));
    // The journal is attached, and can be erased.
    let folder = data.join("laboratory/attachments/erasable");
    let attached = fs::read_dir(folder).unwrap().any(|one| {
        let text = fs::read_to_string(one.unwrap().path()).unwrap_or_default();
        text.contains("goggles off") && text.contains("run-ms")
    });
    assert!(attached);
}

#[test]
fn lines_that_end_too_early_leave_a_run_that_waits() {
    let data = data();
    let data = data.path();
    let left = run(data, BEGIN, "start first-wash\n", TUOMI);
    assert_eq!(left.status, 1, "{left:#?}");
    assert!(left.messages.contains("Every tap is kept"), "{left:#?}");
    let wrong = run(data, "observe run stock-teeth P-2R4J54 --as Tuomi", "", "");
    assert_eq!(wrong.status, 2, "{wrong:#?}");
}
