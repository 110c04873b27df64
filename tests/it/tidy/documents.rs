//! What documents promise exists: files of the tree, commands with their options.

use std::path::Path;

use drybench::cli;
use drybench::text::Words;

use super::{document, list};

/// Returns the paths below `src/` that a document names.
fn paths(text: &str) -> Vec<&str> {
    let part_of_path = |c: char| c.is_ascii_alphanumeric() || "_/.-".contains(c);
    text.match_indices("src/")
        .filter(|(at, _)| !text[..*at].ends_with(part_of_path))
        .map(|(at, _)| {
            let rest = &text[at..];
            let end = rest.find(|c| !part_of_path(c)).unwrap_or(rest.len());
            rest[..end].trim_end_matches('.')
        })
        .collect()
}

/// Returns the command lines that a document shows: lines of code blocks, and code within sentences.
fn command_lines(text: &str) -> Vec<String> {
    let mut lines = Vec::new();
    let mut in_block = false;
    for line in text.lines() {
        if line.trim_start().starts_with("```") {
            in_block = !in_block;
        } else if in_block {
            lines.push(line.trim().trim_start_matches("$ ").to_owned());
        } else {
            lines.extend(line.split('`').skip(1).step_by(2).map(str::to_owned));
        }
    }
    lines.retain(|line| line == "drybench" || line.starts_with("drybench "));
    lines
}

/// Returns what of a command line does not exist, if anything.
fn unknown(line: &str) -> Option<String> {
    let words = Words::shipped("en-US");
    let program = cli::program(&words);
    let mut command = &program;
    let mut naming = true;
    for word in line.split_whitespace().skip(1) {
        if matches!(word, "|" | ">" | "<" | "&&" | "#") {
            break;
        }
        if let Some(option) = word.trim_matches(['[', ']', ',']).strip_prefix("--") {
            let name = option.split('=').next().unwrap_or(option);
            if !command
                .get_arguments()
                .any(|known| known.get_long() == Some(name))
            {
                return Some(format!("--{name}"));
            }
        } else if naming {
            match command.find_subcommand(word) {
                Some(found) => command = found,
                None if command.has_subcommands() => return Some(word.to_owned()),
                None => naming = false,
            }
        }
    }
    None
}

#[test]
fn documents_name_only_what_exists() {
    let mut found = Vec::new();
    for name in ["README.md", "DEVELOPERS.md"] {
        let text = document(name);
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        for path in paths(&text) {
            if !root.join(path).exists() {
                found.push(format!("{name}: {path} does not exist"));
            }
        }
        for line in command_lines(&text) {
            if let Some(what) = unknown(&line) {
                found.push(format!("{name}: `{line}`: no {what}"));
            }
        }
    }
    assert!(found.is_empty(), "{}", list(&found));
}

#[test]
fn planted_promises_are_noticed() {
    assert_eq!(
        paths("See `src/cli/mod.rs`, src/nowhere/. Not assets/src/x."),
        ["src/cli/mod.rs", "src/nowhere/"]
    );
    let text = "Use `drybench module check` or\n```\n$ drybench fly --high\ncargo test\n```\n";
    assert_eq!(
        command_lines(text),
        ["drybench module check", "drybench fly --high"]
    );
    assert_eq!(
        unknown("drybench module check modules/stock-teeth.yaml --json"),
        None
    );
    assert_eq!(
        unknown("drybench rehearse stock-teeth --seed 7 | head -1"),
        None
    );
    assert_eq!(unknown("drybench fly").as_deref(), Some("fly"));
    assert_eq!(
        unknown("drybench rehearse x --wings").as_deref(),
        Some("--wings")
    );
}
