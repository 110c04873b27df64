//! What the command line says about itself, and that a reader who stops reading is no fault.

use std::process::Stdio;

use assert_cmd::Command;

const PROGRAM: &str = env!("CARGO_BIN_EXE_drybench");

/// The program with nothing of this machine's environment but a home that cannot be written to.
fn drybench(line: &str) -> Command {
    let mut command = Command::new(PROGRAM);
    command
        .env_clear()
        .env("HOME", "/dev/null")
        .env("LANG", "C")
        .args(line.split_whitespace());
    command
}

/// Exit status, results and messages of one command line.
fn outcome(line: &str) -> (i32, String, String) {
    let output = drybench(line).output().expect("the program starts");
    let text = |bytes| String::from_utf8(bytes).expect("the program prints UTF-8");
    (
        output.status.code().expect("no signal ended the program"),
        text(output.stdout),
        text(output.stderr),
    )
}

const COMMANDS: [&str; 61] = [
    "",
    "adopt",
    "assign",
    "board",
    "call-in",
    "check-case",
    "confirm",
    "confirm change",
    "confirm read",
    "correct",
    "countersign",
    "demo",
    "evaluate",
    "key",
    "key accept",
    "key issue",
    "key lost",
    "key passphrase",
    "lab",
    "lab demonstration",
    "lab open",
    "lab show",
    "matrix",
    "module",
    "module check",
    "module show",
    "observe",
    "observe enter",
    "observe run",
    "observe sheet",
    "person",
    "person add",
    "person erase",
    "person grant",
    "person leave",
    "person list",
    "person rename",
    "person revoke",
    "policy",
    "policy set",
    "policy show",
    "practise",
    "protection",
    "read",
    "record",
    "record copy",
    "record list",
    "record restored",
    "record show",
    "record verify",
    "rehearse",
    "reinstate",
    "retire",
    "sign-off",
    "supervise",
    "suspend",
    "technician",
    "train",
    "void",
    "withdraw",
    "workflow",
];

#[test]
fn every_command_explains_itself_in_80_columns() {
    for command in COMMANDS {
        for help in ["--help", "-h"] {
            let (status, results, messages) = outcome(&format!("{command} {help}"));
            assert_eq!(status, 0, "{command}");
            assert_eq!(messages, "", "{command}");
            assert!(
                results.contains(&format!("Usage: drybench {command}")),
                "{results}"
            );
            assert!(!results.contains("[cli-"), "unworded: {results}");
            for line in results.lines() {
                assert!(line.chars().count() <= 80, "{command}: {line}");
                assert_eq!(line, line.trim_end(), "{command}");
            }
        }
    }
}

#[test]
fn arguments_stand_before_options() {
    let (_, help, _) = outcome("rehearse --help");
    let place = |heading: &str| help.find(heading).expect(heading);
    assert!(place("\nArguments:") < place("\nOptions:"));
    for option in [
        "--level",
        "--seed",
        "--case",
        "--profile",
        "--disturbances",
        "--script",
        "--replay",
        "--resume",
        "--data",
        "--json",
    ] {
        assert!(help.contains(option), "{option}");
    }
}

#[test]
fn hazardous_work_is_never_explained_without_its_caution() {
    for command in ["", "module show", "read", "rehearse"] {
        let (_, help, _) = outcome(&format!("{command} --help"));
        assert!(help.contains("Safety data sheet"), "{command}");
    }
    let (_, help, _) = outcome("rehearse --help");
    assert!(help.contains("Teaching model"));
}

#[test]
fn the_version_is_the_packages() {
    let expected = format!("drybench {}\n", env!("CARGO_PKG_VERSION"));
    assert_eq!(outcome("--version"), (0, expected, String::new()));
}

#[test]
fn wrong_usage_ends_with_2_and_helps() {
    for (line, said) in [
        (
            "rehearse stock-teeth --levle guided",
            "did you mean --level?",
        ),
        ("rehaerse stock-teeth", "did you mean rehearse?"),
        (
            "rehearse stock-teeth --level unaide",
            "did you mean unaided?",
        ),
        ("rehearse", "missing: <ID>"),
        (
            "rehearse stock-teeth --seed many",
            "many will not do for --seed",
        ),
        ("rehearse stock-teeth --seed", "--seed <N> needs a value"),
        (
            "rehearse stock-teeth --case teeth",
            "teeth will not do for --case",
        ),
        ("rehearse a --script b --resume", "can not be used together"),
        ("module", "Usage: drybench module"),
        ("", "drybench --help names all commands"),
        ("--wings", "--wings"),
    ] {
        let (status, results, messages) = outcome(line);
        assert_eq!(status, 2, "{line}");
        assert_eq!(results, "", "{line}");
        assert!(messages.contains(said), "{line}: {messages}");
    }
}

#[test]
fn arguments_are_echoed_harmlessly() {
    let output = drybench("read")
        .arg("x")
        .arg("\u{1b}[2J\u{202E}evil")
        .output()
        .expect("the program starts");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).expect("the program prints UTF-8");
    assert!(!said.contains(['\u{1b}', '\u{202E}']), "{said:?}");
}

#[test]
fn a_language_that_is_not_there_falls_back() {
    let output = drybench("--help")
        .env("LANG", "xx_YY.UTF-8")
        .output()
        .expect("the program starts");
    let said = String::from_utf8(output.stdout).expect("the program prints UTF-8");
    assert!(said.contains("Usage: drybench"), "{said}");
}

#[test]
fn a_closed_pipe_ends_the_program_quietly() {
    let (reader, writer) = std::io::pipe().expect("a pipe");
    drop(reader);
    let ended = std::process::Command::new(PROGRAM)
        .arg("--help")
        .env_clear()
        .stdout(writer)
        .stderr(Stdio::piped())
        .spawn()
        .and_then(std::process::Child::wait_with_output)
        .expect("the program starts");
    assert_eq!(String::from_utf8_lossy(&ended.stderr), "");
    assert_eq!(ended.status.code(), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn results_that_cannot_be_written_are_a_failure() {
    let full = std::fs::OpenOptions::new()
        .write(true)
        .open(concat!("/", "dev/full"))
        .expect("the device that is always full");
    let ended = std::process::Command::new(PROGRAM)
        .arg("--help")
        .env_clear()
        .stdout(full)
        .output()
        .expect("the program starts");
    assert_eq!(ended.status.code(), Some(1));
    let said = String::from_utf8_lossy(&ended.stderr);
    assert!(said.contains("could not write the results"), "{said}");
    assert!(said.contains("hint:"), "{said}");
}

/// The words that stand first in the lines under a heading.
fn listed(help: &str, heading: &str) -> Vec<String> {
    let under = help.split_once(&format!("\n{heading}:\n"));
    let under = under.map_or("", |(_, rest)| rest.split("\n\n").next().unwrap_or(""));
    let first = |line: &str| line.split_whitespace().next().map(str::to_owned);
    let entries = under.lines().filter(|line| {
        let indent = line.len() - line.trim_start().len();
        indent == 2 || (indent == 6 && line.trim_start().starts_with("--"))
    });
    entries.filter_map(first).collect()
}

#[test]
fn help_names_what_is_there_and_nothing_else() {
    let mut there = vec![String::new()];
    let mut at = 0;
    while at < there.len() {
        let command = there[at].clone();
        let (_, help, _) = outcome(&format!("{command} --help"));
        for name in listed(&help, "Commands") {
            there.push(format!("{command} {name}").trim().to_owned());
        }
        for option in listed(&help, "Options") {
            if option.starts_with("--") {
                // Named but not there would be told as unknown.
                let (_, _, messages) = outcome(&format!("{command} {option}"));
                assert!(!messages.contains("unknown argument"), "{messages}");
            }
        }
        at += 1;
    }
    there.sort();
    assert_eq!(there, COMMANDS);
    for command in &there {
        let (_, help, _) = outcome(&format!("{command} --help"));
        let options = listed(&help, "Options").len();
        let usage = help
            .lines()
            .find(|line| line.starts_with("Usage: "))
            .unwrap();
        // Besides --help, which every command takes.
        let told = usage.contains("[OPTIONS]") || options == usage.matches("[--").count() + 1;
        assert!(told, "{usage}: {options} options");
    }
}
