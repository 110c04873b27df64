//! The guide for authors of modules names everything that a module can say.

#![expect(
    clippy::disallowed_methods,
    reason = "the guide and the sources are read"
)]

use std::fs;
use std::path::{Path, PathBuf};

use drybench::bench::station_kinds;
use drybench::syllabus::module::GaugeKind;
use drybench::syllabus::operation::OPERATION_WORDS;

fn read(path: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap()
}

/// The names of the numbers that stations have, as modules write them.
fn station_numbers() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/bench/stations");
    let files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    let mut names = Vec::new();
    for file in files {
        let text = fs::read_to_string(&file).unwrap();
        let Some(block) = text
            .split("numbers! {")
            .nth(1)
            .and_then(|rest| rest.split("\n}").next())
        else {
            continue;
        };
        let declared = block
            .lines()
            .filter(|line| line.contains(" = ") && !line.trim().starts_with("//"));
        names.extend(
            declared.filter_map(|line| Some(line.trim().split(':').next()?.replace('_', "-"))),
        );
    }
    names
}

#[test]
fn the_guide_names_every_word_of_a_module() {
    let guide = read("assets/modules.md");
    let mut wanted: Vec<String> = OPERATION_WORDS
        .iter()
        .map(|&word| word.to_owned())
        .collect();
    wanted.extend(station_kinds().into_iter().map(str::to_owned));
    wanted.extend(GaugeKind::ALL.iter().map(|kind| kind.word().to_owned()));
    wanted.extend(
        GaugeKind::ALL
            .iter()
            .flat_map(|kind| kind.values().iter().map(|&word| word.to_owned())),
    );
    let numbers = station_numbers();
    assert!(numbers.len() > 40, "only {} numbers", numbers.len());
    wanted.extend(numbers);
    let missing: Vec<&String> = wanted
        .iter()
        .filter(|word| !guide.contains(&format!("`{word}`")))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}
