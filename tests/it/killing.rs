//! A rehearsal that is killed loses no action that it has acknowledged.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program is started, killed, and its files are looked at"
)]

use std::fs;
use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};

use crate::support::expert::{Expert, start, stock_teeth};
use drybench::app::rehearse::{Disturbances, read_run};
use drybench::rng::{Seed, Stream};

const CASE: &str = "teeth=6,wash=ultrasonic,arch=upper,shade=light,tray=fixed";
const SEED: &str = "7";

/// What an expert types, with few lines enough for many kills.
fn script() -> Vec<String> {
    Expert::new(start(stock_teeth(), CASE, 7, Disturbances::None)).script()
}

/// The program, with its input and output in hand.
struct Program {
    child: Child,
    output: ChildStdout,
}

impl Program {
    fn start(data: &Path, resume: bool) -> Program {
        let mut command = Command::new(env!("CARGO_BIN_EXE_drybench"));
        command.args([
            "rehearse",
            "stock-teeth",
            "--level",
            "unaided",
            "--seed",
            SEED,
        ]);
        command
            .args(["--case", CASE, "--disturbances", "none", "--data"])
            .arg(data);
        if resume {
            command.arg("--resume");
        }
        let mut child = command
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let output = child.stdout.take().unwrap();
        Program { child, output }
    }

    /// Reads until the program asks for the next line. Returns whether it did, rather than end.
    fn asked(&mut self) -> bool {
        let mut last = [0_u8; 2];
        let mut one = [0_u8; 1];
        loop {
            match self.output.read(&mut one) {
                Ok(1) => last = [last[1], one[0]],
                _ => return false,
            }
            if last == *b"> " {
                return true;
            }
        }
    }

    fn type_line(&mut self, line: &str) {
        let input = self.child.stdin.as_mut().unwrap();
        // A program that was killed takes no line; what it acknowledged before is what counts.
        let _gone = writeln!(input, "{line}").and_then(|()| input.flush());
    }

    fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

/// The one journal of a data folder.
fn journal(data: &Path) -> PathBuf {
    let mut files: Vec<PathBuf> = fs::read_dir(data.join("rehearsals"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    assert_eq!(files.len(), 1, "{files:?}");
    files.remove(0)
}

/// The actions that stand in a journal, the last line left out if it is torn.
fn kept(path: &Path) -> usize {
    let text = fs::read_to_string(path).unwrap();
    let whole = text.rfind('\n').map_or("", |end| &text[..=end]);
    read_run(whole).unwrap().actions.len()
}

/// The debrief for machines of a journal that has been ended.
fn debrief(path: &Path) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(["rehearse", "stock-teeth", "--json", "--replay"])
        .arg(path)
        .output()
        .unwrap();
    String::from_utf8(output.stdout).unwrap()
}

/// Goes on with a run that was broken off and hands it over.
fn go_on(data: &Path, lines: &[String]) {
    let mut program = Program::start(data, true);
    for line in lines {
        assert!(program.asked());
        program.type_line(line);
    }
    while program.asked() {}
    program.child.wait().unwrap();
}

#[test]
fn a_killed_run_goes_on_with_everything_that_was_acknowledged() {
    let script = script();
    let whole = tempfile::tempdir().unwrap();
    let mut program = Program::start(whole.path(), false);
    for line in &script {
        assert!(program.asked());
        program.type_line(line);
    }
    while program.asked() {}
    program.child.wait().unwrap();
    let wanted = debrief(&journal(whole.path()));
    assert!(wanted.contains("\"clean\": true"), "{wanted}");

    let mut stream = Stream::new(Seed(1), "kills");
    let mut lost_nothing = 0;
    for round in 0..40 {
        let data = tempfile::tempdir().unwrap();
        let last = i64::try_from(script.len()).unwrap() - 2;
        let acknowledged = usize::try_from(stream.between(0, last)).unwrap();
        let mut program = Program::start(data.path(), false);
        for line in &script[..acknowledged] {
            assert!(program.asked());
            program.type_line(line);
        }
        // The next question acknowledges the line before it.
        assert!(program.asked());
        let unanswered = round % 2 == 1;
        if unanswered {
            program.type_line(&script[acknowledged]);
        }
        program.kill();
        let path = journal(data.path());
        let there = kept(&path);
        assert!(
            there == acknowledged || (unanswered && there == acknowledged + 1),
            "round {round}: {acknowledged} acknowledged, {there} kept"
        );
        lost_nothing += 1;
        go_on(data.path(), &script[there..]);
        assert_eq!(
            debrief(&path),
            wanted,
            "round {round}, killed after {acknowledged}"
        );
    }
    assert_eq!(lost_nothing, 40);
}

#[test]
fn a_last_line_cut_anywhere_is_told_and_typed_again() {
    let script = script();
    let data = tempfile::tempdir().unwrap();
    let mut program = Program::start(data.path(), false);
    for line in &script[..5] {
        assert!(program.asked());
        program.type_line(line);
    }
    assert!(program.asked());
    program.kill();
    let path = journal(data.path());
    let whole = fs::read(&path).unwrap();
    let last = whole[..whole.len() - 1]
        .iter()
        .rposition(|&b| b == b'\n')
        .unwrap()
        + 1;
    for cut in last..whole.len() {
        fs::write(&path, &whole[..cut]).unwrap();
        let mut program = Program::start(data.path(), true);
        assert!(program.asked(), "cut at {cut}");
        program.kill();
        assert_eq!(kept(&path), 4, "cut at {cut}");
        assert_eq!(fs::read(&path).unwrap(), &whole[..last], "cut at {cut}");
    }
}

#[test]
fn two_programs_never_write_one_run() {
    let data = tempfile::tempdir().unwrap();
    let mut first = Program::start(data.path(), false);
    assert!(first.asked());
    first.type_line("read-ticket");
    assert!(first.asked());
    let mut second = Program::start(data.path(), true);
    // There is no other run to take up, so the second one says so and ends.
    assert!(!second.asked());
    assert_eq!(second.child.wait().unwrap().code(), Some(1));
    first.kill();
}

#[test]
fn a_data_folder_that_is_a_file_is_told_and_left_alone() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("taken");
    fs::write(&file, "mine").unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(["rehearse", "stock-teeth", "--data"])
        .arg(&file)
        .stdin(Stdio::null())
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert!(
        said.contains("taken") && said.contains("Nothing was changed"),
        "{said}"
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), "mine");
}
