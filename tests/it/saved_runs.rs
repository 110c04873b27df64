//! Saved runs as they come from elsewhere: altered, cut off, swapped, or made by somebody who means harm.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program reads real files, and a ceiling keeps it from hanging"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use crate::support::expert::{Expert, start, stock_teeth, typed, wet_resin};
use drybench::app::rehearse::{Disturbances, Session, journal_head, read_run, whole_lines};
use drybench::app::shelf::Shelf;
use drybench::rehearsal::run::Run;
use drybench::rng::{Seed, Stream};

/// Far above what any replay takes.
const PATIENCE: Duration = Duration::from_secs(20);

const CASE: &str = "teeth=6,wash=orbital,arch=upper,shade=light,tray=fixed";

/// An expert's run with a disturbance that was answered.
fn run() -> Run {
    let come = Disturbances::Named(vec!["cloudy-second-bath".to_owned()]);
    let fresh = || start(stock_teeth(), CASE, 7, come.clone());
    typed(fresh(), &Expert::new(fresh()).script()).run().clone()
}

/// A run as journal lines.
fn journal(run: &Run) -> String {
    let actions = run.actions.iter();
    let lines = actions.map(|action| serde_json::to_string(action).unwrap() + "\n");
    journal_head(run).unwrap() + "\n" + &lines.collect::<String>()
}

/// What came of replaying a file.
struct Replayed {
    status: Option<i32>,
    out: String,
    err: String,
}

fn replay(module: &str, path: &Path) -> Replayed {
    let begun = Instant::now();
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(["rehearse", module, "--replay"])
        .arg(path)
        .env("LC_ALL", "C.UTF-8")
        .output()
        .unwrap();
    assert!(begun.elapsed() < PATIENCE, "{:?}", begun.elapsed());
    let err = String::from_utf8(output.stderr).unwrap();
    assert!(!err.contains("panicked"), "{err}");
    Replayed {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err,
    }
}

/// A folder with one file in it.
fn file(bytes: &[u8]) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("kept.run");
    fs::write(&path, bytes).unwrap();
    (folder, path)
}

#[test]
fn a_saved_run_is_graded_from_lines_and_from_one_piece() {
    let run = run();
    let pretty = serde_json::to_string_pretty(&run).unwrap();
    let mut told = Vec::new();
    for text in [journal(&run), pretty] {
        let (_folder, path) = file(text.as_bytes());
        let one = replay("stock-teeth", &path);
        assert_eq!((one.status, one.err.as_str()), (Some(0), ""));
        told.push(one.out);
    }
    assert!(told[0].contains("Debrief:"), "{}", told[0]);
    assert_eq!(told[0], told[1]);
}

#[test]
fn an_altered_run_is_refused_in_words_and_left_as_it_is() {
    let sound = journal(&run());
    let (head, actions) = sound.split_once('\n').unwrap();
    let digest = &stock_teeth().digest;
    let altered = |from: &str, to: &str| {
        assert!(head.contains(from), "{from}");
        head.replacen(from, to, 1) + "\n" + actions
    };
    let added = |line: &str| format!("{head}\n{line}\n");
    for (what, text, says) in [
        (
            "another digest",
            altered(digest, &"0".repeat(64)),
            "its content differs",
        ),
        (
            "another revision",
            altered("\"revision\":2", "\"revision\":3"),
            "revision 3",
        ),
        (
            "no format yet",
            altered("\"format\":1", "\"format\":0"),
            "format 0",
        ),
        (
            "a newer format",
            altered("\"format\":1", "\"format\":2"),
            "newer program (format 2)",
        ),
        (
            "a newer format with more in it",
            altered("\"format\":1", "\"format\":3,\"mood\":\"good\""),
            "newer program (format 3)",
        ),
        (
            "a newer format with other actions",
            altered("\"format\":1", "\"format\":2") + "{\"dance\":1}\n",
            "newer program (format 2)",
        ),
        (
            "a format beyond all",
            altered("\"format\":1", "\"format\":70000"),
            "newer program",
        ),
        (
            "an unknown member",
            altered("\"format\":1", "\"format\":1,\"mood\":\"good\""),
            "Line 1 is no part of a saved run: unknown field `mood`",
        ),
        (
            "another profile",
            altered("common-practice", "../nobodys"),
            "no profile ../nobodys",
        ),
        (
            "too many teeth",
            altered("{\"whole\":6}", "{\"whole\":60000}"),
            "from 6 to 14",
        ),
        (
            "teeth just out of range",
            altered("{\"whole\":6}", "{\"whole\":15}"),
            "from 6 to 14",
        ),
        (
            "teeth in a word",
            altered("{\"whole\":6}", "{\"word\":\"6\"}"),
            "teeth",
        ),
        (
            "two choices in one",
            altered(
                "{\"word\":\"orbital\"}",
                "{\"word\":\"orbital,shade=dark\"}",
            ),
            "shade",
        ),
        (
            "a choice of nobody",
            altered("\"teeth\":", "\"feet\":"),
            "feet",
        ),
        (
            "a choice left out",
            altered("\"teeth\":{\"whole\":6},", ""),
            "teeth is not decided",
        ),
        (
            "a disturbance of nobody",
            altered("cloudy-second-bath", "earthquake"),
            "earthquake",
        ),
        (
            "an action that makes no sense",
            added("{\"wear\":{\"item\":\"crown\"}}"),
            "Action 1",
        ),
        (
            "a time beyond all",
            added("{\"wait\":{\"time\":9223372036854775807}}"),
            "Action 1",
        ),
        (
            "a time below zero",
            added(
                "{\"do\":{\"what\":\"first-wash\",\"at\":\"\",\"ways\":[],\"timed\":-9223372036854775808}}",
            ),
            "Action 1",
        ),
        (
            "more after the end",
            sound.clone() + "\"finish\"\n",
            "The run is over",
        ),
        (
            "a line that is none",
            added("no action") + "\"finish\"\n",
            "Line 2",
        ),
        (
            "lines of a script",
            "read-ticket\nfinish\n".to_owned(),
            "Line 1",
        ),
        ("nothing", String::new(), "There is no saved run in it"),
        ("deep brackets", "[".repeat(1_000_000), "Line 1"),
    ] {
        let (_folder, path) = file(text.as_bytes());
        let one = replay("stock-teeth", &path);
        assert_eq!(one.status, Some(1), "{what}: {}", one.err);
        assert_eq!(one.out, "", "{what}");
        assert!(one.err.contains(says), "{what}: {}", one.err);
        assert!(!one.err.contains("column"), "{what}: {}", one.err);
        assert_eq!(fs::read(&path).unwrap(), text.as_bytes(), "{what}");
    }
}

#[test]
fn a_fault_in_a_run_in_one_piece_is_told_with_its_line() {
    let text = serde_json::to_string_pretty(&run()).unwrap();
    let line = text.lines().position(|line| line.contains("\"wear\""));
    let line = line.unwrap() + 1;
    let (_folder, path) = file(text.replacen("\"wear\"", "\"eat\"", 1).as_bytes());
    let one = replay("stock-teeth", &path);
    assert_eq!(one.status, Some(1));
    assert!(one.err.contains(&format!("Line {line} ")), "{}", one.err);
    assert!(one.err.contains("`eat`"), "{}", one.err);
}

#[test]
fn a_run_of_another_module_is_not_graded_under_the_name_of_this_one() {
    let (_folder, path) = file(journal(&run()).as_bytes());
    let one = replay("wet-resin-and-solvent", &path);
    assert_eq!((one.status, one.out.as_str()), (Some(2), ""));
    assert!(
        one.err.contains("stock-teeth") && one.err.contains("wet-resin-and-solvent"),
        "{}",
        one.err
    );
}

#[test]
fn an_earlier_run_is_never_taken_up_in_silence() {
    let data = tempfile::tempdir().unwrap();
    let folder = data.path().join("rehearsals");
    fs::create_dir(&folder).unwrap();
    let mut unfinished = run();
    unfinished.actions.truncate(3);
    let earlier = folder.join("20260301-080000-stock-teeth-7-00.run");
    fs::write(earlier, journal(&unfinished)).unwrap();
    fs::write(folder.join("20260302-080000-stock-teeth-7-00.run"), "{}\n").unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args([
            "rehearse",
            "stock-teeth",
            "--resume",
            "--seed",
            "8",
            "--data",
        ])
        .arg(data.path())
        .env("LC_ALL", "C.UTF-8")
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("20260302-080000"), "{said}");
    assert!(said.contains("An earlier run is taken up"), "{said}");
    assert!(said.contains("are those of the kept run"), "{said}");
    let shown = String::from_utf8(output.stdout).unwrap();
    assert!(shown.contains("Taken up again after 3 actions"), "{shown}");
}

#[test]
fn what_is_no_file_of_a_run_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let missing = replay("stock-teeth", &folder.path().join("gone.run"));
    assert_eq!(missing.status, Some(1));
    assert!(missing.err.contains("is not there"), "{}", missing.err);
    let one = replay("stock-teeth", folder.path());
    assert_eq!(one.status, Some(1));
    assert!(one.err.contains("directory"), "{}", one.err);
    let (_folder, path) = file(&[0xff, 0xfe, 0, 1]);
    let one = replay("stock-teeth", &path);
    assert_eq!(one.status, Some(1));
    assert!(one.err.contains("is no text"), "{}", one.err);
}

#[test]
fn a_last_line_cut_anywhere_is_left_out_and_the_rest_stands() {
    let mut run = run();
    run.actions.truncate(6);
    let text = journal(&run);
    let last = text.trim_end().rfind('\n').unwrap() + 1;
    for cut in last..text.len() {
        let (whole, torn) = whole_lines(&text[..cut]);
        // A line that is there to its last letter was not cut off, though its line end is missing.
        let complete = cut == text.len() - 1;
        assert_eq!(torn, cut > last && !complete, "cut at {cut}");
        let there = read_run(whole).unwrap().actions.len();
        assert_eq!(there, if complete { 6 } else { 5 }, "cut at {cut}");
    }
    let (_folder, path) = file(&text.as_bytes()[..text.len() - 4]);
    let one = replay("stock-teeth", &path);
    assert_eq!(one.status, Some(1));
    assert!(one.err.contains("was cut off"), "{}", one.err);
    assert!(one.out.contains("Abandoned"), "{}", one.out);
    // Only what stands last can have been cut off.
    let (_folder, path) = file((text[..text.len() - 4].to_owned() + "\n\"finish\"\n").as_bytes());
    let one = replay("stock-teeth", &path);
    assert_eq!((one.status, one.out.as_str()), (Some(1), ""));
    assert!(one.err.contains("Line 7 "), "{}", one.err);
}

#[test]
fn a_run_that_fills_the_file_ends_in_time() {
    let mut run = run();
    run.actions.clear();
    let text = journal(&run) + &"{\"wait\":{\"time\":86400000}}\n".repeat(500_000);
    let (_folder, path) = file(text.as_bytes());
    let one = replay("stock-teeth", &path);
    assert_eq!(one.status, Some(1), "{}", one.err);
    assert!(one.out.contains("Debrief:"));
    let (_folder, path) = file("\n".repeat(17 * 1024 * 1024).as_bytes());
    let one = replay("stock-teeth", &path);
    assert_eq!(one.status, Some(1));
    assert!(one.err.contains("is longer than"), "{}", one.err);
}

#[test]
fn runs_altered_at_random_never_do_harm() {
    let shelf = Shelf::shipped();
    let resin = || start(wet_resin(), "", 3, Disturbances::Drawn);
    let resin = typed(resin(), &Expert::new(resin()).script());
    let texts = [journal(&run()), journal(resin.run())];
    let mut stream = Stream::new(Seed(11), "altered runs");
    let mut at = |many: usize| {
        let last = i64::try_from(many).unwrap() - 1;
        usize::try_from(stream.between(0, last)).unwrap()
    };
    let (mut graded, mut refused) = (0, 0);
    for round in 0..400 {
        let mut lines: Vec<String> = texts[round % 2].lines().map(str::to_owned).collect();
        for _ in 0..=at(3) {
            let (one, other) = (1 + at(lines.len() - 1), 1 + at(lines.len() - 1));
            match at(5) {
                0 => drop(lines.remove(one)),
                1 => lines.insert(one, lines[other].clone()),
                2 => lines.swap(one, other),
                3 => {
                    let digit = lines[one].find(|letter: char| letter.is_ascii_digit());
                    if let Some(digit) = digit {
                        lines[one].insert_str(digit, &"9".repeat(1 + at(20)));
                    }
                }
                _ => {
                    // Anywhere, in the head too.
                    let line = at(lines.len());
                    let letter = at(lines[line].len());
                    lines[line].replace_range(letter..=letter, ["\"", "0", "-", "}", "x"][at(5)]);
                }
            }
        }
        let text = lines.join("\n");
        let (whole, _) = whole_lines(&text);
        let session = read_run(whole).and_then(|run| Session::resume(&shelf, run));
        match session {
            Ok(session) => {
                graded += 1;
                assert!(session.debrief().is_ok(), "{text}");
            }
            Err(_) => refused += 1,
        }
    }
    assert!(
        graded > 40 && refused > 40,
        "{graded} graded, {refused} refused"
    );
}
