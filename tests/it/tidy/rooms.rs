//! Who may use whom. The table here and the one in DEVELOPERS.md are one table.

use super::reach::{reaches, room_of};
use super::{document, files, list};

/// Every room with the rooms that it may use, in reading order.
pub(super) const ROOMS: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("rng", &["units"]),
    ("shipped", &[]),
    ("syllabus", &["units"]),
    ("bench", &["syllabus", "units", "rng"]),
    ("rehearsal", &["bench", "syllabus", "units", "rng"]),
    ("drill", &["rehearsal", "bench", "syllabus", "units", "rng"]),
    ("people", &["units"]),
    ("record", &["units"]),
    ("standing", &["record", "units"]),
    ("text", &["shipped", "units"]),
    (
        "report",
        &[
            "standing",
            "record",
            "people",
            "rehearsal",
            "bench",
            "syllabus",
            "text",
            "units",
        ],
    ),
    (
        "app",
        &[
            "units",
            "rng",
            "shipped",
            "syllabus",
            "bench",
            "rehearsal",
            "drill",
            "people",
            "record",
            "standing",
            "text",
            "report",
        ],
    ),
    ("store", &["record", "units"]),
    ("tui", FRONT_END),
    ("cli", FRONT_END),
    ("os", &["app", "units", "rng"]),
];

/// What screens and the command line may use: the use cases, and the pure rooms to read from.
const FRONT_END: &[&str] = &[
    "app",
    "units",
    "rng",
    "syllabus",
    "bench",
    "rehearsal",
    "drill",
    "people",
    "record",
    "standing",
    "text",
    "report",
];

/// Departures from the table that wait for a decision. One that no longer happens has to be taken out.
const DEPARTURES: &[(&str, &str)] = &[];

/// Files that are no rooms: they may use everything.
const OUTSIDE: [&str; 3] = ["main", "lib", "build"];

/// Returns the complaints about one file, `path:line: …` each.
fn complaints(path: &str, text: &str) -> Vec<String> {
    let room = room_of(path);
    if OUTSIDE.contains(&room) {
        return Vec::new();
    }
    let Some((_, may_use)) = ROOMS.iter().find(|(name, _)| *name == room) else {
        return vec![format!("{path}:1: {room} is no room of the table")];
    };
    let mut found = Vec::new();
    for reach in reaches(path, text) {
        let line = reach.line;
        if let Some(wrong) = reach.wrong {
            found.push(format!("{path}:{line}: {wrong}"));
        }
        let Some(used) = reach.room else { continue };
        let allowed = used == room || may_use.contains(&used.as_str());
        if !allowed {
            found.push(format!("{path}:{line}: {room} may not use {used}"));
        }
    }
    found.dedup();
    found
}

#[test]
fn rooms_use_only_what_the_table_allows() {
    let mut found = Vec::new();
    let mut departed = Vec::new();
    for (path, text) in files("src", "rs") {
        for complaint in complaints(&path, &text) {
            let departure = DEPARTURES.iter().find(|(file, used)| {
                path == *file && complaint.ends_with(&format!("may not use {used}"))
            });
            match departure {
                Some(known) => departed.push(*known),
                None => found.push(complaint),
            }
        }
    }
    for known in DEPARTURES {
        if !departed.contains(known) {
            found.push(format!(
                "{} no longer uses {}: take it out of DEPARTURES",
                known.0, known.1
            ));
        }
    }
    assert!(found.is_empty(), "{}", list(&found));
}

#[test]
fn planted_violations_are_reported() {
    for (path, text, expected) in [
        (
            "src/record/seal.rs",
            "use crate::units::Millis;\nuse crate::bench::Bench;",
            "src/record/seal.rs:2: record may not use bench",
        ),
        (
            "src/syllabus/mod.rs",
            "use crate::{units::Millis, store};",
            "src/syllabus/mod.rs:1: syllabus may not use store",
        ),
        (
            "src/text/words.rs",
            "fn f() { crate::tui::draw(); }",
            "src/text/words.rs:1: text may not use tui",
        ),
        (
            "src/bench/mod.rs",
            "use crate::units::*;",
            "src/bench/mod.rs:1: a glob import hides what is used of another room",
        ),
        (
            "src/bench/mod.rs",
            "use crate::{rng::{Seed, *}};",
            "src/bench/mod.rs:1: a glob import hides what is used of another room",
        ),
        (
            "src/bench/bath.rs",
            "use super::super::app;",
            "src/bench/bath.rs:1: a chain of `super` leaves the room; say `crate::`",
        ),
        (
            "src/units.rs",
            "use super::rng::Seed;",
            "src/units.rs:1: a chain of `super` leaves the room; say `crate::`",
        ),
        (
            "src/utilities/mod.rs",
            "",
            "src/utilities/mod.rs:1: utilities is no room of the table",
        ),
    ] {
        assert_eq!(complaints(path, text), [expected], "{text}");
    }
}

#[test]
fn what_is_allowed_is_left_alone() {
    for (path, text) in [
        (
            "src/bench/mod.rs",
            "//! See crate::tui.\nuse crate::units::Millis; const T: &str = \"crate::tui\";",
        ),
        ("src/units.rs", "mod tests { use super::*; }"),
        (
            "src/bench/stations/bath.rs",
            "use super::super::Bench; mod tests { use super::super::super::Bench; }",
        ),
        (
            "src/bench/mod.rs",
            "fn f() -> i64 { crate::units::SCALE * 2 }",
        ),
        ("src/main.rs", "use drybench::cli;"),
    ] {
        assert_eq!(complaints(path, text), Vec::<String>::new(), "{text}");
    }
}

#[test]
fn the_document_has_the_same_table() {
    let text = document("DEVELOPERS.md");
    let cells = |cell: &str| -> Vec<String> {
        let mut names: Vec<String> = cell
            .split(',')
            .map(|name| name.trim().trim_matches('`').to_owned())
            .filter(|name| !name.is_empty() && name != "–")
            .collect();
        names.sort();
        names
    };
    let mut written: Vec<(String, Vec<String>)> = Vec::new();
    let rows = text
        .lines()
        .skip_while(|line| !line.starts_with("| room | may use |"))
        .skip(2)
        .take_while(|line| line.starts_with('|'));
    for row in rows {
        let columns: Vec<&str> = row.split('|').collect();
        written.extend(
            cells(columns[1])
                .into_iter()
                .map(|room| (room, cells(columns[2]))),
        );
    }
    let expected: Vec<(String, Vec<String>)> = ROOMS
        .iter()
        .map(|(room, used)| ((*room).to_owned(), cells(&used.join(","))))
        .collect();
    let rows: Vec<String> = ROOMS
        .iter()
        .map(|(room, used)| {
            format!(
                "| {room} | {} |",
                if used.is_empty() {
                    "–".to_owned()
                } else {
                    used.join(", ")
                }
            )
        })
        .collect();
    assert_eq!(
        written,
        expected,
        "the rows of the table `| room | may use |` should be\n{}",
        rows.join("\n")
    );
}
