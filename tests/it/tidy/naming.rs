//! What files are called, what they begin with, and what stands in none of them.

use std::collections::BTreeSet;

use super::{files, list};

/// Names that say nothing about what is inside.
const EMPTY_NAMES: [&str; 5] = ["utils", "util", "helpers", "helper", "common"];

/// Everything that people of the project write by hand.
fn written() -> Vec<(String, String)> {
    [
        ("src", "rs"),
        ("tests", "rs"),
        ("locales", "ftl"),
        ("modules", "yaml"),
        ("tests", "yaml"),
        ("tests", "txt"),
        ("tests", "json"),
        ("assets", "md"),
    ]
    .into_iter()
    .flat_map(|(folder, extension)| files(folder, extension))
    .chain(
        [
            "README.md",
            "DEVELOPERS.md",
            "CHANGELOG.md",
            "Cargo.toml",
            ".ci/run",
        ]
        .into_iter()
        .map(|name| (name.to_owned(), super::document(name))),
    )
    .collect()
}

/// Returns what is wrong with a text whatever it is about.
fn blemishes(text: &str) -> Vec<String> {
    // Taken apart, so that this file does not complain about itself.
    let mut unwanted: Vec<String> = ["home", "root", "tmp"]
        .map(|folder| format!("/{folder}/"))
        .into();
    unwanted.extend(
        ["TO", "FIX"]
            .into_iter()
            .zip(["DO", "ME"])
            .map(|(a, b)| format!("{a}{b}")),
    );
    let mut found = Vec::new();
    for (at, line) in text.lines().enumerate() {
        for word in unwanted.iter().filter(|word| line.contains(*word)) {
            found.push(format!("{}: {word}", at + 1));
        }
        let chars: Vec<char> = line.chars().collect();
        let drive = chars.windows(3).enumerate().any(|(i, three)| {
            let alone = i == 0 || !chars[i - 1].is_alphanumeric();
            alone && three[0].is_ascii_uppercase() && three[1] == ':' && three[2] == '\\'
        });
        if drive {
            found.push(format!("{}: a drive letter", at + 1));
        }
    }
    found
}

#[test]
fn no_file_holds_a_path_of_one_machine_or_an_unkept_promise() {
    let found: Vec<String> = written()
        .into_iter()
        .flat_map(|(path, text)| {
            blemishes(&text)
                .into_iter()
                .map(move |what| format!("{path}:{what}"))
        })
        .collect();
    assert!(found.is_empty(), "{}", list(&found));
    for planted in [
        format!("see /{}/x", "tmp"),
        format!("TO{} later", "DO"),
        format!("C{}x", ":\\"),
    ] {
        assert_eq!(blemishes(&planted).len(), 1, "{planted}");
    }
}

#[test]
fn every_source_file_opens_by_saying_what_it_is_for() {
    let found: Vec<String> = files("src", "rs")
        .into_iter()
        .chain(files("tests", "rs"))
        .filter(|(_, text)| !text.starts_with("//! "))
        .map(|(path, _)| path)
        .collect();
    assert!(found.is_empty(), "{}", list(&found));
}

#[test]
fn no_file_has_a_name_that_says_nothing() {
    let found: Vec<String> = files("src", "rs")
        .into_iter()
        .chain(files("tests", "rs"))
        .map(|(path, _)| path)
        .filter(|path| {
            path.trim_end_matches(".rs")
                .split('/')
                .any(|part| EMPTY_NAMES.contains(&part))
        })
        .collect();
    assert!(found.is_empty(), "{}", list(&found));
}

#[test]
fn every_test_file_is_part_of_the_test_program() {
    let all = files("tests/it", "rs");
    let mut reached = BTreeSet::new();
    let mut open = vec![("tests/it/main.rs".to_owned(), "tests/it".to_owned())];
    while let Some((path, folder)) = open.pop() {
        let Some((_, text)) = all.iter().find(|(known, _)| *known == path) else {
            continue;
        };
        reached.insert(path);
        let names = text.lines().filter_map(|line| {
            let declared = line.trim().strip_suffix(';')?;
            let (visibility, name) = declared.rsplit_once("mod ")?;
            (visibility.is_empty() || visibility.starts_with("pub")).then_some(name)
        });
        for name in names {
            let inner = format!("{folder}/{name}");
            open.push((format!("{inner}.rs"), inner.clone()));
            open.push((format!("{inner}/mod.rs"), inner));
        }
    }
    let forgotten: Vec<String> = all
        .into_iter()
        .map(|(path, _)| path)
        .filter(|path| !reached.contains(path))
        .collect();
    assert!(forgotten.is_empty(), "{}", list(&forgotten));
}
