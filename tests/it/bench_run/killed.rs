//! A bench run in plain lines that is killed at any moment loses no tap that it has acknowledged.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program is started, killed, and its files are looked at"
)]

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};

use drybench::app::watching::{BenchRun, Mark};
use drybench::rng::{Seed, Stream};
use tempfile::TempDir;

use super::{ASSESSOR, TECHNICIAN};
use crate::support::asking::asks;
use crate::support::laboratory::demonstration;

/// How often a run is killed.
const KILLS: usize = 100;

/// How long a program may take to get through what it was sent. Generous: other tests run at the same time.
const PATIENCE: Duration = Duration::from_secs(60);

/// What is typed, each line one tap.
fn script() -> Vec<String> {
    let mut lines = Vec::new();
    for row in ["read-ticket", "ready-bench", "drain", "lift-off"] {
        lines.extend([format!("start {row}"), format!("stop {row}")]);
        lines.push(format!("done {row}"));
    }
    lines.extend([
        "lot alcohol 99 # 12".to_owned(),
        "start first-wash".to_owned(),
    ]);
    for time in 0..6 {
        lines.extend(["start tack".to_owned(), "stop tack".to_owned()]);
        lines.push(format!("value tack lamp {time}"));
    }
    lines.extend(
        [
            "stop first-wash",
            "undo",
            "stop first-wash",
            "prompted first-wash",
            "not-done wipe",
            "remark-on wipe too wet",
            "remark calm hands",
            "not-seen polish-nothing",
            "undo",
        ]
        .map(str::to_owned),
    );
    // A row that does not exist is refused, and is no tap.
    lines.retain(|line| !line.contains("polish-nothing"));
    lines
}

/// A folder for data with the demonstration in it.
pub(super) fn data() -> TempDir {
    let data = tempfile::tempdir().unwrap();
    let laboratory = demonstration().keep();
    fs::rename(laboratory, data.path().join("laboratory")).unwrap();
    data
}

/// The program, with its input and output in hand.
struct Program {
    child: Child,
    output: Option<ChildStdout>,
}

impl Program {
    fn start(data: &Path, resume: bool) -> Program {
        Program::printing(data, resume, Stdio::piped())
    }

    fn printing(data: &Path, resume: bool, to: Stdio) -> Program {
        let mut command = Command::new(env!("CARGO_BIN_EXE_drybench"));
        command.args(["observe", "run", "stock-teeth", TECHNICIAN]);
        if resume {
            command.arg("--resume");
        } else {
            command.args(["--case-ref", "c-0700", "--case", "teeth=6"]);
        }
        command.args(["--as", ASSESSOR, "--data"]).arg(data);
        let mut child = command
            .stdin(Stdio::piped())
            .stdout(to)
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        Program {
            output: child.stdout.take(),
            child,
        }
    }

    /// Reads until the program asks for the next line. Returns whether it did, rather than end.
    fn asked(&mut self) -> bool {
        asks(self.output.as_mut().unwrap())
    }

    fn type_line(&mut self, line: &str) {
        let input = self.child.stdin.as_mut().unwrap();
        // A program that was killed takes no line; what it acknowledged before is what counts.
        let _gone = writeln!(input, "{line}").and_then(|()| input.flush());
    }

    #[track_caller]
    fn type_lines(&mut self, lines: &[String]) {
        for line in lines {
            assert!(self.asked());
            self.type_line(line);
        }
    }

    fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

fn files(data: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(data.join("bench-runs")).into_iter().flatten();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

/// The taps that stand in the one journal, the last line left out if it is torn; none when not even the head was kept.
fn kept(data: &Path) -> Option<Vec<Mark>> {
    let path = files(data).pop()?;
    let text = fs::read_to_string(path).unwrap();
    let whole = text.rfind('\n').map_or("", |end| &text[..=end]);
    let lines: Vec<&str> = whole.lines().collect();
    if lines.is_empty() {
        return None;
    }
    let run = BenchRun::read(&lines).unwrap();
    Some(run.marks().iter().map(|one| one.mark.clone()).collect())
}

fn grown(data: &Path) -> u64 {
    let length = |path: &PathBuf| fs::metadata(path).map_or(0, |about| about.len());
    files(data).iter().map(length).sum()
}

#[test]
fn a_run_killed_a_hundred_times_keeps_every_tap_and_goes_on() {
    let data = data();
    let data = data.path();
    let script = script();
    let mut whole = Program::start(data, false);
    whole.type_lines(&script);
    assert!(whole.asked());
    let wanted = kept(data).unwrap();
    let length = i64::try_from(grown(data)).unwrap();
    whole.kill();
    assert_eq!(wanted.len(), script.len());

    let mut stream = Stream::new(Seed(1), "kills of bench runs");
    let (mut in_the_middle, mut gone_on) = (0, 0);
    for round in 0..KILLS {
        fs::remove_dir_all(data.join("bench-runs")).unwrap();
        let flooded = round % 2 == 1;
        let printing = if flooded {
            // Nobody reads what a flooded program prints, and it must not wait for that.
            Stdio::null()
        } else {
            Stdio::piped()
        };
        let mut program = Program::printing(data, false, printing);
        let acknowledged = if !flooded {
            // The next question acknowledges the line before it; every other time one more line is on its way.
            let last = i64::try_from(script.len()).unwrap() - 1;
            let acknowledged = usize::try_from(stream.between(0, last)).unwrap();
            program.type_lines(&script[..acknowledged]);
            assert!(program.asked());
            if round % 4 == 2 {
                program.type_line(&script[acknowledged]);
            }
            acknowledged
        } else {
            // The kill comes when the file has grown so far, wherever the program is by then.
            let mut input = program.child.stdin.as_ref().unwrap();
            let all = script.join("\n") + "\n";
            input.write_all(all.as_bytes()).unwrap();
            // A line's length hangs on its time, so that a quick run is shorter than the first: the last tenth is left out.
            let enough = u64::try_from(stream.between(1, length * 9 / 10)).unwrap();
            let begun = Instant::now();
            while grown(data) < enough {
                assert!(begun.elapsed() < PATIENCE, "round {round}: {enough} bytes");
                std::thread::sleep(Duration::from_micros(200));
            }
            0
        };
        program.kill();
        let there = kept(data).unwrap_or_default();
        assert!(there.len() >= acknowledged, "round {round}");
        if !flooded {
            assert!(there.len() <= acknowledged + 1, "round {round}");
        }
        assert_eq!(there[..], wanted[..there.len()], "round {round}");
        if !there.is_empty() && there.len() < wanted.len() {
            in_the_middle += 1;
        }
        // Every tenth goes on to its end; a run that was killed before its head was kept is begun anew.
        if round % 10 < 2 {
            let resume = kept(data).is_some();
            let mut program = Program::start(data, resume);
            program.type_lines(&script[there.len()..]);
            assert!(program.asked(), "round {round}");
            program.type_line("quit");
            assert!(!program.asked(), "round {round}");
            assert!(program.child.wait().unwrap().success(), "round {round}");
            assert_eq!(kept(data).unwrap(), wanted, "round {round}");
            gone_on += 1;
        }
    }
    assert!(in_the_middle > 60, "only {in_the_middle}");
    assert_eq!(gone_on, KILLS / 5);
}

#[test]
fn a_last_line_cut_anywhere_is_told_and_the_run_goes_on() {
    let data = data();
    let data = data.path();
    let script = script();
    let mut program = Program::start(data, false);
    program.type_lines(&script[..4]);
    assert!(program.asked());
    program.kill();
    let path = files(data).pop().unwrap();
    let whole = fs::read(&path).unwrap();
    let before = whole[..whole.len() - 1].iter();
    let last = before.clone().rposition(|&byte| byte == b'\n').unwrap() + 1;
    for cut in (last..whole.len()).step_by(7) {
        fs::write(&path, &whole[..cut]).unwrap();
        let mut program = Program::start(data, true);
        assert!(program.asked(), "cut at {cut}");
        program.kill();
        assert_eq!(kept(data).unwrap().len(), 3, "cut at {cut}");
        assert_eq!(fs::read(&path).unwrap(), &whole[..last], "cut at {cut}");
    }
}
