//! The record at the command line: the real program, real files, from an empty folder to what an inspector asks.

#![expect(
    clippy::disallowed_methods,
    reason = "the program is started on real files, which are looked into"
)]

mod chain;
mod common_tools;
#[cfg(unix)]
mod full;
mod hidden;
mod own_modules;
mod own_numbers;
mod own_profiles;

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// The passphrases of the two people.
const ADA: &str = "seven dry brushes";
const BO: &str = "blue light at noon";

/// A laboratory in a folder that goes away with it.
struct Bench {
    folder: tempfile::TempDir,
}

/// What a command said.
#[derive(Debug)]
struct Said {
    status: i32,
    results: String,
    messages: String,
}

impl Bench {
    /// An empty folder.
    fn empty() -> Bench {
        Bench {
            folder: tempfile::tempdir().expect("a folder can be made"),
        }
    }

    /// Ada owns it, Bo has a key, and both may do everything but own.
    fn with_two() -> Bench {
        let bench = Bench::empty();
        bench.done("lab open --name=Invented --owner=Ada_Example", &[ADA, ADA]);
        bench.done("person add --name=Bo_Sample --as Ada", &[ADA]);
        bench.done("key issue Bo --identity=passport --as Ada", &[ADA, BO, BO]);
        for right in ["train", "assess", "approve", "publish", "quality"] {
            for person in ["Ada", "Bo"] {
                bench.done(&format!("person grant {person} {right} --as Ada"), &[ADA]);
            }
        }
        bench
    }

    fn data(&self) -> &Path {
        self.folder.path()
    }

    fn laboratory(&self) -> PathBuf {
        self.data().join("laboratory")
    }

    /// Runs a command; passphrases are handed over on standard input, a line each. Underlines stand for spaces.
    fn run(&self, line: &str, passphrases: &[&str]) -> Said {
        let mut command = Command::new(env!("CARGO_BIN_EXE_drybench"));
        command
            .args(line.split_whitespace().map(|word| word.replace('_', " ")))
            .arg("--data")
            .arg(self.data())
            .env("LC_ALL", "en_US.UTF-8")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        if !passphrases.is_empty() {
            command.args(["--passphrase-fd", "0"]);
        }
        let mut running = command.spawn().expect("the program starts");
        hand_over(running.stdin.take().expect("it has an input"), passphrases);
        said(running.wait_with_output().expect("the program ends"))
    }

    /// Runs a command that has to end well.
    fn done(&self, line: &str, passphrases: &[&str]) -> Said {
        let said = self.run(line, passphrases);
        assert_eq!(said.status, 0, "{line}: {said:#?}");
        said
    }

    /// Runs a command that has to be refused, and returns what it said.
    fn refused(&self, line: &str, passphrases: &[&str]) -> String {
        let said = self.run(line, passphrases);
        assert_eq!(said.status, 1, "{line}: {said:#?}");
        said.messages
    }

    fn json(&self, line: &str) -> serde_json::Value {
        let said = self.run(&format!("{line} --json"), &[]);
        serde_json::from_str(&said.results).unwrap_or_else(|why| panic!("{line}: {why}: {said:#?}"))
    }

    /// How many entries there are.
    fn entries(&self) -> usize {
        let list = self.json("record list");
        list["entries"].as_array().map_or(0, Vec::len)
    }
}

/// Passphrases, a line each.
fn hand_over(mut input: std::process::ChildStdin, passphrases: &[&str]) {
    for passphrase in passphrases {
        // A command that is refused before it asks reads nothing.
        let _closed = writeln!(input, "{passphrase}");
    }
}

fn said(output: Output) -> Said {
    Said {
        status: output.status.code().unwrap_or(-1),
        results: String::from_utf8(output.stdout).expect("results are text"),
        messages: String::from_utf8(output.stderr).expect("messages are text"),
    }
}
