//! The scripts that are shipped stay true, and so do the lines of them that README prints.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program is run, and README is read"
)]

use std::path::PathBuf;
use std::process::Command;

const STOCK: (&str, &str) = (
    "stock-teeth",
    "teeth=6,wash=ultrasonic,arch=upper,shade=light,tray=fixed",
);
const RESIN: (&str, &str) = ("wet-resin-and-solvent", "liquid=alcohol,glove=double");

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Runs a script: exit status and what was printed.
fn run((module, case): (&str, &str), script: &str, more: &[&str]) -> (Option<i32>, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args([
            "rehearse",
            module,
            "--case",
            case,
            "--seed",
            "7",
            "--disturbances",
            "none",
            "--script",
        ])
        .arg(root().join("assets/scripts").join(script))
        .args(more)
        .env("LC_ALL", "C.UTF-8")
        .output()
        .unwrap();
    (
        output.status.code(),
        String::from_utf8(output.stdout).unwrap(),
    )
}

/// The roots of the debrief for machines: rule and step.
fn roots(module: (&str, &str), script: &str) -> (Option<i32>, Vec<String>) {
    let (status, text) = run(module, script, &["--level", "unaided", "--json"]);
    let debrief: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(debrief["finished"], true, "{script}");
    assert_eq!(debrief["clean"], status == Some(0), "{script}");
    let roots = debrief["roots"].as_array().unwrap().iter().map(|root| {
        format!(
            "{} {}",
            root["rule"].as_str().unwrap(),
            root["step"].as_str().unwrap_or("-")
        )
    });
    (status, roots.collect())
}

#[test]
fn the_experts_are_clean() {
    for (module, script) in [
        (STOCK, "stock-teeth-expert.txt"),
        (RESIN, "wet-resin-expert.txt"),
    ] {
        assert_eq!(roots(module, script), (Some(0), Vec::new()), "{script}");
    }
}

#[test]
fn the_beginners_make_the_slips_that_their_scripts_say() {
    let one = ["wrong-way set-baths"];
    assert_eq!(
        roots(STOCK, "one-slip.txt"),
        (Some(1), one.map(str::to_owned).to_vec())
    );
    let (status, mut novice) = roots(STOCK, "novice.txt");
    novice.sort_unstable();
    assert_eq!(status, Some(1));
    let wanted = [
        "after-sign warm-primer",
        "skipped dry-fit",
        "skipped tack",
        "unprotected tack",
        "wrong-way brush-inside",
        "wrong-way final-polish",
    ];
    assert_eq!(novice, wanted);
    let (status, mut novice) = roots(RESIN, "wet-resin-novice.txt");
    novice.sort_unstable();
    assert_eq!(status, Some(1));
    assert_eq!(
        novice,
        ["forbidden -", "skipped find-eyewash", "unprotected -"]
    );
}

fn readme() -> String {
    std::fs::read_to_string(root().join("README.md")).unwrap()
}

/// The lines of the blocks of commands in README, block by block.
fn commands(readme: &str) -> Vec<Vec<&str>> {
    let blocks = readme.split("```sh\n").skip(1);
    blocks
        .map(|rest| {
            rest.split("```")
                .next()
                .unwrap_or_default()
                .lines()
                .collect()
        })
        .collect()
}

#[test]
fn what_readme_tells_to_type_first_opens_the_screens_and_passes_the_tests() {
    // What the first opens, and that it is thrown away, `journeys` holds.
    assert_eq!(
        commands(&readme())[0],
        [
            "cargo run --release -- demo",
            "bash .ci/tools && cargo test"
        ]
    );
}

#[test]
fn what_readme_tells_to_type_without_screens_runs_clean_and_with_its_slip() {
    let readme = readme();
    let line = match commands(&readme)[1][..] {
        [line] => line.strip_prefix("cargo run --release -- "),
        _ => None,
    };
    let line = line.expect("README goes on with a rehearsal in plain lines");
    let run = |line: &str| {
        let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
            .args(line.split_whitespace())
            .current_dir(root())
            .env("LC_ALL", "C.UTF-8")
            .output()
            .unwrap();
        (
            output.status.code(),
            String::from_utf8(output.stdout).unwrap(),
        )
    };
    let title = "\nDebrief: Stock teeth, set one by one\n";
    let (status, printed) = run(line);
    assert_eq!(status, Some(0), "{printed}");
    assert!(
        printed.contains(title) && printed.contains("\nClean. "),
        "{printed}"
    );
    for (script, mistakes) in [("one-slip", "One mistake"), ("novice", "6 mistakes")] {
        assert!(readme.contains(&format!("assets/scripts/{script}.txt")));
        let (status, printed) = run(&line.replace("stock-teeth-expert", script));
        assert_eq!(status, Some(1), "{printed}");
        assert!(
            printed.contains("\nNot clean. ") && printed.contains(mistakes),
            "{printed}"
        );
    }
}

#[test]
fn what_readme_prints_is_what_the_program_prints() {
    let readme = readme();
    let (_, printed) = run(RESIN, "wet-resin-novice.txt", &[]);
    let block = readme
        .split("```text\n")
        .nth(1)
        .and_then(|rest| rest.split("```").next())
        .expect("README shows what a rehearsal prints");
    // From the first line on, and whole between the marks: what is cut is marked as cut.
    let mut parts = block.split("[…]\n");
    let mut rest = parts
        .next()
        .and_then(|first| printed.strip_prefix(first))
        .expect("README shows how a rehearsal begins");
    for part in parts {
        let after_line_end = format!("\n{part}");
        let at = rest
            .find(&after_line_end)
            .unwrap_or_else(|| panic!("not printed like this, or not in this order:\n{part}"));
        rest = &rest[at + part.len()..];
    }
    assert!(block.lines().count() > 80, "README shows a debrief too");
}
