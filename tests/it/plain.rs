//! Plain mode as a person or a pipe uses it: the real program, lines in, lines out.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program is fed, timed, and its files are looked at"
)]

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use drybench::app::rehearse::read_run;
use drybench::rehearsal::action::Action;
use drybench::rehearsal::run::Run;
use drybench::units::Millis;

const CASE: &str = "teeth=6,wash=ultrasonic,arch=upper,shade=light,tray=fixed";

/// What the program printed and how it ended.
struct Said {
    status: Option<i32>,
    out: String,
    err: String,
    run: Run,
}

/// Rehearses stock teeth with lines piped in, each after a pause.
fn piped(level: &str, more: &[&str], lines: &[(&str, u64)]) -> Said {
    let data = tempfile::tempdir().unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_drybench"));
    command.args([
        "rehearse",
        "stock-teeth",
        "--case",
        CASE,
        "--seed",
        "7",
        "--level",
        level,
        "--data",
    ]);
    let mut child = command
        .arg(data.path())
        .args(more)
        .env("LC_ALL", "C.UTF-8")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = child.stdin.take().unwrap();
    for (line, pause) in lines {
        std::thread::sleep(Duration::from_millis(*pause));
        writeln!(input, "{line}").unwrap();
        input.flush().unwrap();
    }
    drop(input);
    let output = child.wait_with_output().unwrap();
    let journal: PathBuf = fs::read_dir(data.path().join("rehearsals"))
        .unwrap()
        .next()
        .unwrap()
        .unwrap()
        .path();
    Said {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
        run: read_run(&fs::read_to_string(journal).unwrap()).unwrap(),
    }
}

fn lines<'l>(all: &[&'l str]) -> Vec<(&'l str, u64)> {
    all.iter().map(|line| (*line, 0)).collect()
}

/// Everything up to the first wash, with a right answer to everything.
const UP_TO_THE_WASH: [&str; 11] = [
    "read-ticket",
    "ready-bench",
    "wear nitrile-gloves",
    "wear goggles",
    "drain until sign",
    "lift-off",
    "peel-supports",
    "recover-resin",
    "run extraction",
    "fill-first",
    "set-baths",
];

const NONE: [&str; 2] = ["--disturbances", "none"];

#[test]
fn guided_tells_the_next_step_with_reason_limits_and_protection() {
    let mut typed = UP_TO_THE_WASH.to_vec();
    typed.push("finish");
    let said = piped("guided", &NONE, &lines(&typed));
    for wanted in [
        "Next: read-ticket",
        "Why: A print without posts",
        "Put on first: wear nitrile-gloves",
        "Next: first-wash",
        "2 min (1 min 50 s to 2 min 10 s)",
        "How does the base go down? Tooth side down",
    ] {
        assert!(said.out.contains(wanted), "{wanted}\n{}", said.out);
    }
    assert_eq!(said.status, Some(1));
}

#[test]
fn prompted_explains_wrong_moves_at_once_and_says_how_soon() {
    let mut typed = UP_TO_THE_WASH.to_vec();
    typed.extend([
        "first-wash air=trapped for 3 min",
        "next",
        "wait 6 min",
        "next",
        "why tack",
        "finish",
    ]);
    let said = piped("prompted", &NONE, &lines(&typed));
    for wanted in [
        "Careful: Air stays in sockets and palate",
        "Careful: 3 min is outside 1 min 50 s to 2 min 10 s",
        "(start within",
        "can no longer all be kept",
        "Time, counted: 10 s (8 s to 15 s)",
    ] {
        assert!(said.out.contains(wanted), "{wanted}\n{}", said.out);
    }
}

#[test]
fn unaided_explains_nothing_before_the_debrief() {
    let mut typed = UP_TO_THE_WASH.to_vec();
    typed.extend([
        "first-wash air=trapped for 3 min",
        "why tack",
        "next",
        "ways first-wash",
        "finish",
    ]);
    let said = piped("unaided", &NONE, &lines(&typed));
    let (before, after) = said.out.split_once("Debrief:").unwrap();
    assert!(
        !before.contains("Careful") && !before.contains("Why:"),
        "{before}"
    );
    // The ways of a step can be asked for at any time: they do not say which is right.
    assert!(before.contains("air=trapped : Laid in flat"), "{before}");
    assert!(
        before.contains("Without help nothing is explained"),
        "{before}"
    );
    assert!(after.contains("Air stays in sockets and palate"), "{after}");
}

#[test]
fn a_timer_is_asked_for_and_a_sign_is_followed_by_looking() {
    let typed = [
        "drain",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "stop",
        "lift-off",
        "peel-supports",
        "fill-first",
        "set-baths",
        "first-wash",
        "soon",
        "2:00",
        "finish",
    ];
    let said = piped("prompted", &NONE, &lines(&typed));
    assert!(said.out.contains("Drops: no running drops"), "{}", said.out);
    let timed = |what: &str| {
        said.run.actions.iter().find_map(|action| match action {
            Action::Do {
                what: one, timed, ..
            } if one == what => *timed,
            _ => None,
        })
    };
    assert_eq!(timed("drain"), Some(Millis::minutes(8)));
    assert_eq!(timed("first-wash"), Some(Millis::minutes(2)));
}

#[test]
fn a_count_is_measured_by_the_clock() {
    let mut typed = lines(&["tack 1-2 facial"]);
    typed.push(("", 300));
    typed.push(("", 2_000));
    typed.extend(lines(&["finish"]));
    let said = piped("unaided", &NONE, &typed);
    let counted = said.run.actions.iter().find_map(|action| match action {
        Action::Do { timed, .. } => *timed,
        _ => None,
    });
    let off = counted.unwrap().0 - 2_000;
    // A busy machine may hand the second line on late, never early.
    assert!((-50..=1_000).contains(&off), "off by {off} ms");
}

#[test]
fn a_disturbance_holds_the_move_back_until_it_is_answered() {
    let named = ["--disturbances", "cloudy-second-bath"];
    let mut typed = UP_TO_THE_WASH.to_vec();
    typed.extend([
        "first-wash for 2 min",
        "wear nitrile-gloves",
        "brush-inside",
        "second-wash for 1 min",
    ]);
    typed.extend(["respond renew", "second-wash for 1 min", "finish"]);
    let said = piped("prompted", &named, &lines(&typed));
    assert!(
        said.out.contains("The step has not been started"),
        "{}",
        said.out
    );
    let washes = said
        .out
        .matches("Wash in stage two, fresh alcohol: 1 min 15 s")
        .count();
    assert_eq!(washes, 1, "{}", said.out);
}

/// Runs the program to its end.
fn run(arguments: &[&str], script: Option<&str>) -> (Option<i32>, String, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("script.txt");
    let mut command = Command::new(env!("CARGO_BIN_EXE_drybench"));
    command
        .args(arguments)
        .env("LC_ALL", "C.UTF-8")
        .stdin(Stdio::null());
    if let Some(script) = script {
        fs::write(&path, script).unwrap();
        command.args(["--script".as_ref(), path.as_os_str()]);
    }
    let output = command.output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (
        output.status.code(),
        text(output.stdout),
        text(output.stderr),
    )
}

const REHEARSE: [&str; 8] = [
    "rehearse",
    "stock-teeth",
    "--case",
    CASE,
    "--seed",
    "7",
    "--disturbances",
    "none",
];

#[test]
fn a_script_with_a_line_that_is_not_understood_ends_with_its_number() {
    for (script, number, says) in [
        ("read-ticket\n\nread-tiket\n", "Line 3", "read-tiket"),
        ("# only\nwear crown\n", "Line 2", "crown"),
        ("read-ticket for 2 min\n", "Line 1", "not timed"),
        ("first-wash\n", "Line 1", "how long"),
        ("fill\n", "Line 1", "several places"),
        ("fill 77\n", "Line 1", "77"),
    ] {
        let (status, _, err) = run(&REHEARSE, Some(script));
        assert_eq!(status, Some(2), "{script}: {err}");
        assert!(
            err.contains(number) && err.contains(says),
            "{script}: {err}"
        );
    }
}

#[test]
fn a_script_without_finish_counts_as_given_up() {
    let (status, out, err) = run(&REHEARSE, Some("read-ticket\n"));
    assert_eq!(status, Some(1));
    assert!(
        out.contains("Abandoned") && err.contains("finish"),
        "{out}\n{err}"
    );
}

#[test]
fn a_script_makes_a_move_again_that_was_held_back() {
    let come = [
        "rehearse",
        "stock-teeth",
        "--case",
        CASE,
        "--seed",
        "7",
        "--disturbances",
        "cloudy-second-bath",
    ];
    let expert = fs::read_to_string(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/scripts/stock-teeth-expert.txt"),
    )
    .unwrap();
    let answered = expert.replace(
        "second-wash for 1 min\n",
        "second-wash for 1 min\nrespond renew\n",
    );
    let (status, out, _) = run(&come, Some(&answered));
    assert_eq!(status, Some(0), "{out}");
    // Nobody answers: the script goes on over it, and that is the mistake.
    let (status, out, _) = run(&come, Some(&expert));
    assert_eq!(status, Some(1));
    assert!(out.contains("Went on in spite of this"), "{out}");
    assert!(!out.contains("Left out: Wash in stage two"), "{out}");
}

#[test]
fn json_is_all_that_is_printed_for_machines() {
    let mut arguments = REHEARSE.to_vec();
    arguments.push("--json");
    let (status, out, _) = run(&arguments, Some("read-ticket\nlook\nfinish\n"));
    assert_eq!(status, Some(1));
    let debrief: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(debrief["clean"], false);
}

#[test]
fn json_is_all_that_is_printed_of_a_run_that_is_typed_too() {
    let more = ["--disturbances", "none", "--json"];
    // A senseless line, questions, a count and a look print nothing between.
    let typed = [
        "read-tiket",
        "read-ticket",
        "help",
        "next",
        "look",
        "ready-bench",
        "tack 1-2 facial",
        "",
        "",
        "finish",
    ];
    for level in ["guided", "prompted", "unaided"] {
        let said = piped(level, &more, &lines(&typed));
        let debrief: serde_json::Value = serde_json::from_str(&said.out)
            .unwrap_or_else(|why| panic!("{level}: {why}\n{}", said.out));
        assert_eq!(debrief["kind"], "drybench-debrief");
        assert_eq!(debrief["finished"], true);
        assert!(said.err.contains("read-tiket"), "{}", said.err);
    }
    let said = piped("guided", &more, &lines(&["read-ticket"]));
    let debrief: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(debrief["abandoned"], true);
    assert_eq!(said.status, Some(1));
}

#[test]
fn wrong_usage_says_what_there_is() {
    for (arguments, says) in [
        (&["rehearse", "stock-tooth"][..], "stock-teeth"),
        (&["rehearse", "stock-teeth", "--case", "teeth=99"], "teeth"),
        (&["rehearse", "stock-teeth", "--case", "tooth=6"], "teeth"),
        (
            &["rehearse", "stock-teeth", "--disturbances", "earthquake"],
            "cloudy-second-bath",
        ),
        (
            &["rehearse", "stock-teeth", "--profile", "nobodys"],
            "common-practice",
        ),
        (&["read", "stock-teeth", "--step", "fly"], "fly"),
    ] {
        let (status, _, err) = run(arguments, None);
        assert_eq!(status, Some(2), "{arguments:?}: {err}");
        assert!(err.contains(says), "{arguments:?}: {err}");
    }
}

#[test]
fn a_module_and_a_profile_can_be_named_by_their_files() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = tempfile::tempdir().unwrap();
    let profile = folder.path().join("ours.yaml");
    let text = fs::read_to_string(root.join("modules/profiles/common-practice.yaml")).unwrap();
    let longer = text
        .replace("id: common-practice", "id: ours")
        .replace("target: 2 min", "target: 4 min")
        .replace("least: 110 s", "least: 230 s")
        .replace("most: 130 s", "most: 250 s")
        .replace("most: 4 min", "most: 9 min")
        .replace("wash-again: 5 min", "wash-again: 12 min");
    fs::write(&profile, &longer).unwrap();
    let module = root.join("modules/constructions/stock-teeth.yaml");
    let (module, profile) = (module.to_str().unwrap(), profile.to_str().unwrap());
    let script = fs::read_to_string(root.join("assets/scripts/stock-teeth-expert.txt")).unwrap();
    let arguments = [
        "rehearse",
        module,
        "--case",
        CASE,
        "--seed",
        "7",
        "--disturbances",
        "none",
        "--profile",
        profile,
    ];
    let (status, out, err) = run(&arguments, Some(&script));
    assert_eq!(status, Some(1), "{err}");
    assert!(
        out.contains("Too short: Wash in stage one") && out.contains("ours"),
        "{out}"
    );
}

#[test]
fn a_reader_that_stops_reading_ends_the_program_quietly() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(["read", "stock-teeth"])
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn what_is_judged_goes_on_by_portions_until_it_is_left() {
    let mut typed = UP_TO_THE_WASH.to_vec();
    typed.extend([
        "first-wash for 2 min",
        "wear nitrile-gloves",
        "brush-inside",
        "second-wash for 1 min",
        "brush-clean",
        "dry-base",
        "",
        "",
        "stop",
        "finish",
    ]);
    let said = piped("prompted", &NONE, &lines(&typed));
    assert!(
        said.out
            .contains("Enter goes on for 1 min. \"stop\" leaves it as it is."),
        "{}",
        said.out
    );
    let dried = said.run.actions.iter().find_map(|action| match action {
        Action::Do { what, timed, .. } if what == "dry-base" => *timed,
        _ => None,
    });
    assert_eq!(dried, Some(Millis::minutes(2)));
}

#[test]
fn a_count_that_is_broken_off_is_no_action() {
    for ends in [&["tack 1-2 facial"][..], &["tack 1-2 facial", ""]] {
        let said = piped("unaided", &NONE, &lines(ends));
        assert_eq!(said.run.actions, [], "{}", said.out);
        assert_eq!(said.status, Some(1));
        assert!(said.out.contains("Abandoned"), "{}", said.out);
    }
}

#[test]
fn a_line_that_makes_no_sense_is_told_and_the_run_goes_on() {
    let typed = [
        "read-tiket",
        "wear crown",
        "wait soon",
        "respond renew",
        "read-ticket",
        "finish",
    ];
    let said = piped("unaided", &NONE, &lines(&typed));
    for wanted in [
        "read-tiket",
        "crown",
        "soon is no time",
        "Nothing waits for an answer",
    ] {
        assert!(said.err.contains(wanted), "{wanted}: {}", said.err);
    }
    assert_eq!(said.run.actions.len(), 2);
}

#[test]
fn what_is_no_text_or_too_long_is_told_as_typed() {
    for (typed, says) in [
        (
            &b"read-ticket\n\xff\xfe\n"[..],
            "What was typed is no text.",
        ),
        (
            &[b'a'; 70_000],
            "What was typed is longer than 65,536 bytes.",
        ),
    ] {
        let data = tempfile::tempdir().unwrap();
        let input = data.path().join("typed");
        fs::write(&input, typed).unwrap();
        let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
            .args(["rehearse", "stock-teeth", "--seed", "7", "--data"])
            .arg(data.path())
            .env("LC_ALL", "C.UTF-8")
            .stdin(fs::File::open(&input).unwrap())
            .output()
            .unwrap();
        let err = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(1), "{err}");
        assert!(err.contains(says) && err.contains("--resume"), "{err}");
    }
}

#[test]
fn a_script_is_graded_to_its_end_though_nobody_reads_on() {
    let scripts = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/scripts");
    for (script, status) in [("stock-teeth-expert.txt", 0), ("one-slip.txt", 1)] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
            .args(REHEARSE)
            .arg("--script")
            .arg(scripts.join(script))
            .stdin(Stdio::null())
            .stdout(writer)
            .stderr(Stdio::piped())
            .spawn()
            .and_then(std::process::Child::wait_with_output)
            .unwrap();
        assert_eq!(String::from_utf8(output.stderr).unwrap(), "", "{script}");
        assert_eq!(output.status.code(), Some(status), "{script}");
    }
}

#[test]
fn a_person_who_reads_no_longer_has_not_rehearsed_cleanly() {
    let data = tempfile::tempdir().unwrap();
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(REHEARSE)
        .arg("--data")
        .arg(data.path())
        .stdin(Stdio::null())
        .stdout(writer)
        .stderr(Stdio::piped())
        .spawn()
        .and_then(std::process::Child::wait_with_output)
        .unwrap();
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
    assert_eq!(output.status.code(), Some(1));
}
