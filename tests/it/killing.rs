//! A rehearsal that is killed loses no action that it has acknowledged.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program is started, killed, and its files are looked at"
)]

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};

use crate::support::asking::asks;
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
        asks(&mut self.output)
    }

    fn type_line(&mut self, line: &str) {
        let input = self.child.stdin.as_mut().unwrap();
        // A program that was killed takes no line; what it acknowledged before is what counts.
        let _gone = writeln!(input, "{line}").and_then(|()| input.flush());
    }

    /// Types every line when it is asked for.
    #[track_caller]
    fn type_lines(&mut self, lines: &[String]) {
        for line in lines {
            assert!(self.asked());
            self.type_line(line);
        }
    }

    /// Types what is left of a run and waits for the program's end.
    #[track_caller]
    fn end_with(mut self, lines: &[String]) {
        self.type_lines(lines);
        while self.asked() {}
        self.child.wait().unwrap();
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

#[test]
fn a_killed_run_goes_on_with_everything_that_was_acknowledged() {
    let script = script();
    let whole = tempfile::tempdir().unwrap();
    Program::start(whole.path(), false).end_with(&script);
    let wanted = debrief(&journal(whole.path()));
    assert!(wanted.contains("\"clean\": true"), "{wanted}");

    let mut stream = Stream::new(Seed(1), "kills");
    let mut lost_nothing = 0;
    for round in 0..40 {
        let data = tempfile::tempdir().unwrap();
        let last = i64::try_from(script.len()).unwrap() - 2;
        let acknowledged = usize::try_from(stream.between(0, last)).unwrap();
        let mut program = Program::start(data.path(), false);
        program.type_lines(&script[..acknowledged]);
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
        Program::start(data.path(), true).end_with(&script[there..]);
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
    program.type_lines(&script[..5]);
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
    // The first one has not noticed, and goes on writing.
    first.type_line("ready-bench");
    assert!(first.asked());
    first.kill();
    assert_eq!(kept(&journal(data.path())), 2);
}

#[test]
fn of_two_programs_that_take_up_one_run_one_gets_it() {
    let data = tempfile::tempdir().unwrap();
    let mut first = Program::start(data.path(), false);
    assert!(first.asked());
    first.type_line("read-ticket");
    assert!(first.asked());
    first.kill();
    for round in 0..10 {
        let mut both = [(); 2].map(|()| Program::start(data.path(), true));
        // One that was refused has ended; the other one keeps its question open.
        let asked: Vec<bool> = both.iter_mut().map(Program::asked).collect();
        assert_ne!(asked[0], asked[1], "round {round}");
        for (program, asked) in both.into_iter().zip(asked) {
            if asked {
                program.kill();
            } else {
                let mut program = program;
                assert_eq!(program.child.wait().unwrap().code(), Some(1));
            }
        }
        assert_eq!(kept(&journal(data.path())), 1, "round {round}");
    }
}

#[test]
fn a_run_with_a_damaged_line_is_told_by_file_and_line_and_left_alone() {
    let data = tempfile::tempdir().unwrap();
    let mut first = Program::start(data.path(), false);
    first.type_lines(&script()[..4]);
    assert!(first.asked());
    first.kill();
    let path = journal(data.path());
    let sound = fs::read_to_string(&path).unwrap();
    let head = sound.lines().next().unwrap();
    let third = sound.lines().nth(2).unwrap();
    let digest = &stock_teeth().digest;
    for (what, damaged, says) in [
        (
            "a line",
            sound.replacen(third, "{\"gone\":1}", 1),
            "Line 3 ",
        ),
        (
            "half a line",
            sound.replacen(third, &third[..9], 1),
            "Line 3 ",
        ),
        ("the head", sound.replacen(head, &head[..40], 1), "Line "),
        (
            "another module",
            sound.replacen(digest, &"0".repeat(64), 1),
            "its content differs",
        ),
        (
            "a senseless action",
            sound.clone() + "{\"wear\":{\"item\":\"crown\"}}\n",
            "Action 5",
        ),
    ] {
        assert_ne!(sound, damaged, "{what}");
        fs::write(&path, &damaged).unwrap();
        let output = resumed(data.path());
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(1), "{what}: {said}");
        let name = path.file_name().unwrap().to_string_lossy();
        assert!(said.contains(&*name), "{what}: {said}");
        assert!(said.contains(says), "{what}: {said}");
        assert_eq!(fs::read_to_string(&path).unwrap(), damaged, "{what}");
    }
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

#[test]
fn a_run_killed_again_and_again_ends_like_one_that_was_not() {
    let script = script();
    let data = tempfile::tempdir().unwrap();
    let mut stream = Stream::new(Seed(2), "kills of one run");
    let (mut at, mut kills) = (0, 0);
    while at + 8 < script.len() {
        let mut program = Program::start(data.path(), at > 0);
        let more = usize::try_from(stream.between(1, 7)).unwrap();
        program.type_lines(&script[at..at + more]);
        assert!(program.asked());
        program.kill();
        at += more;
        kills += 1;
        assert_eq!(kept(&journal(data.path())), at, "after {kills} kills");
    }
    assert!(kills >= 10, "{kills}");
    Program::start(data.path(), true).end_with(&script[at..]);
    let whole = tempfile::tempdir().unwrap();
    Program::start(whole.path(), false).end_with(&script);
    assert_eq!(
        debrief(&journal(data.path())),
        debrief(&journal(whole.path()))
    );
}

#[test]
fn a_kill_in_the_middle_of_a_flood_of_lines_leaves_a_run_that_goes_on() {
    let script = script();
    let whole = tempfile::tempdir().unwrap();
    Program::start(whole.path(), false).end_with(&script);
    let path = journal(whole.path());
    let wanted = debrief(&path);
    let all = read_run(&fs::read_to_string(&path).unwrap()).unwrap();
    let length = i64::try_from(fs::metadata(&path).unwrap().len()).unwrap();
    let mut stream = Stream::new(Seed(3), "kills in a flood");
    let mut broken_off = 0;
    for round in 0..40 {
        let data = tempfile::tempdir().unwrap();
        let program = Program::start(data.path(), false);
        let mut input = program.child.stdin.as_ref().unwrap();
        input
            .write_all((script.join("\n") + "\n").as_bytes())
            .unwrap();
        // The kill comes when the file has grown so far, wherever the program is by then.
        let enough = u64::try_from(stream.between(0, length - 1)).unwrap();
        while grown(data.path()) < enough {
            std::thread::yield_now();
        }
        program.kill();
        let Some(path) = files(data.path()).pop().filter(|path| has_head(path)) else {
            // Killed before the first line was kept: nothing is there, and nothing is in the way.
            let mut second = Program::start(data.path(), true);
            assert!(!second.asked(), "round {round}");
            assert_eq!(second.child.wait().unwrap().code(), Some(1));
            Program::start(data.path(), false).end_with(&script);
            let path = files(data.path()).pop().unwrap();
            assert_eq!(debrief(&path), wanted, "round {round}");
            continue;
        };
        let there = kept(&path);
        let text = fs::read_to_string(&path).unwrap();
        let lines = text.lines().skip(1).take(there);
        for (number, (line, action)) in lines.zip(&all.actions).enumerate() {
            assert_eq!(
                line,
                serde_json::to_string(action).unwrap(),
                "line {number}"
            );
        }
        if there == all.actions.len() {
            continue;
        }
        broken_off += 1;
        Program::start(data.path(), true).end_with(&script[there..]);
        assert_eq!(debrief(&path), wanted, "round {round}, {there} kept");
    }
    assert!(
        broken_off > 10,
        "only {broken_off} kills came in the middle"
    );
}

/// The journals of a data folder; none when there is no folder yet.
fn files(data: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(data.join("rehearsals")).into_iter().flatten();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

fn grown(data: &Path) -> u64 {
    let files = files(data);
    let length = |path: &PathBuf| fs::metadata(path).map_or(0, |about| about.len());
    files.iter().map(length).sum()
}

fn has_head(path: &Path) -> bool {
    fs::read_to_string(path).unwrap().contains('\n')
}

#[test]
fn a_run_that_another_program_holds_is_told_by_its_file() {
    let data = tempfile::tempdir().unwrap();
    let mut first = Program::start(data.path(), false);
    assert!(first.asked());
    let held = resumed(data.path());
    first.kill();
    assert_eq!(held.status.code(), Some(1));
    let said = String::from_utf8(held.stderr).unwrap();
    let file = journal(data.path());
    let name = file.file_name().unwrap().to_string_lossy();
    assert!(said.contains(&*name), "{said}");
    assert!(said.contains("held by another program"), "{said}");
}

/// Takes a run up with nothing typed.
fn resumed(data: &Path) -> std::process::Output {
    Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(["rehearse", "stock-teeth", "--resume", "--data"])
        .arg(data)
        .stdin(Stdio::null())
        .output()
        .unwrap()
}

#[test]
fn a_run_of_a_newer_program_is_told_and_left_alone() {
    let data = tempfile::tempdir().unwrap();
    let mut first = Program::start(data.path(), false);
    assert!(first.asked());
    first.kill();
    let path = journal(data.path());
    let text = fs::read_to_string(&path).unwrap();
    let newer = text.replacen("\"format\":1", "\"format\":2,\"mood\":\"good\"", 1);
    fs::write(&path, &newer).unwrap();
    let output = resumed(data.path());
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert!(said.contains("newer program (format 2)"), "{said}");
    assert_eq!(fs::read_to_string(&path).unwrap(), newer);
}

#[test]
fn what_stands_in_the_way_of_the_folder_is_told_and_left_alone() {
    let place = tempfile::tempdir().unwrap();
    let taken = place.path().join("taken");
    fs::write(&taken, "mine").unwrap();
    let inside = place.path().join("inside");
    fs::create_dir(&inside).unwrap();
    fs::write(inside.join("rehearsals"), "mine too").unwrap();
    for data in [taken.join("below"), inside.clone()] {
        let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
            .args(["rehearse", "stock-teeth", "--data"])
            .arg(&data)
            .stdin(Stdio::null())
            .output()
            .unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert_eq!(output.stdout, b"", "nothing is begun that cannot be kept");
        for wanted in [
            "could not be written",
            "Nothing was changed",
            "hint: check the path",
        ] {
            assert!(said.contains(wanted), "{wanted}: {said}");
        }
    }
    assert_eq!(fs::read_to_string(&taken).unwrap(), "mine");
    assert_eq!(
        fs::read_to_string(inside.join("rehearsals")).unwrap(),
        "mine too"
    );
}

/// No file of the program may grow beyond a few blocks here, so that writing fails in the middle of a line.
#[cfg(target_os = "linux")]
#[test]
fn a_disk_that_is_full_costs_the_last_action_only_and_says_so() {
    let script = script();
    let data = tempfile::tempdir().unwrap();
    let input = data.path().join("typed.txt");
    fs::write(&input, script.join("\n") + "\n").unwrap();
    let mut limited = Command::new("sh");
    limited.args(["-c", "trap '' XFSZ; ulimit -f 4; exec \"$@\"", "sh"]);
    let output = limited
        .arg(env!("CARGO_BIN_EXE_drybench"))
        .args([
            "rehearse",
            "stock-teeth",
            "--level",
            "unaided",
            "--seed",
            SEED,
        ])
        .args(["--case", CASE, "--disturbances", "none", "--data"])
        .arg(data.path())
        .stdin(fs::File::open(&input).unwrap())
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{said}");
    for wanted in [
        "could not be written",
        "Everything before is kept; the last action is not.",
        "hint: make room on the disk",
    ] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
    let printed = String::from_utf8(output.stdout).unwrap();
    assert!(!printed.contains("Debrief:"), "{printed}");
    let path = journal(data.path());
    assert!(
        fs::read_to_string(&path).unwrap().ends_with('\n'),
        "half a line stays"
    );
    let there = kept(&path);
    assert!(0 < there && there < script.len(), "{there}");
    // One prompt per line that was read: the last one was not acknowledged.
    assert_eq!(printed.matches(" > ").count(), there + 1, "{printed}");
    Program::start(data.path(), true).end_with(&script[there..]);
    assert!(debrief(&path).contains("\"clean\": true"));
}

/// Permissions do not bind everybody, so one whom they bind is asked to write.
#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_is_told() {
    use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _};
    use std::os::unix::process::CommandExt as _;

    const NOBODY: u32 = 65_534;
    let place = tempfile::tempdir().unwrap();
    let readable = |path: &Path, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    readable(place.path(), 0o755);
    let program = place.path().join("program");
    fs::copy(env!("CARGO_BIN_EXE_drybench"), &program).unwrap();
    let data = place.path().join("data");
    fs::create_dir_all(data.join("rehearsals")).unwrap();
    readable(&data.join("rehearsals"), 0o555);
    readable(&data, 0o555);
    let mut command = Command::new(&program);
    command
        .args(["rehearse", "stock-teeth", "--data"])
        .arg(&data)
        .current_dir(place.path())
        .stdin(Stdio::null());
    if fs::metadata(&program).unwrap().uid() == 0 {
        command.uid(NOBODY);
    }
    let output = command.output().unwrap();
    readable(&data, 0o755);
    readable(&data.join("rehearsals"), 0o755);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{said}");
    for wanted in [
        "permission denied",
        "Nothing was changed",
        "choose another place",
    ] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
}
