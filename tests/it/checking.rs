//! Modules as trainers write them: broken ones get the complaints that stand in them, and mutilated ones never do harm.

#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests read their modules from folders, and what fails there fails the test"
)]

use std::path::{Path, PathBuf};

use drybench::report::problems::{self, Told};
use drybench::syllabus::check::{CheckReport, Surroundings, check};
use drybench::syllabus::faults::faults;
use drybench::syllabus::hazards::hazards;
use drybench::syllabus::read::Place;
use drybench::syllabus::read::module::{Library, module};
use drybench::text::Words;

mod hostile;
mod mutations;
mod shipped;

const STATION_KINDS: &[&str] = &[
    "bath", "air-line", "drip", "plate", "vessel", "bonding", "light", "unit", "room", "place",
];

const HAZARDS: &[u8] = b"\
hazards:
  wet-resin: { title: Wet resin, precautions: [Gloves on], origin: our default }
  bare: { title: Bare, origin: our default }
";

const FAULTS: &[u8] = b"\
faults:
  F01: { symptom: A veil, causes: [Resin left], remedy: Wash again, prevention: Wash well, origin: our default }
";

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

/// The files of a folder and of the folders in it, by name.
fn files_of(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut files = Vec::new();
    let Ok(entries) = std::fs::read_dir(folder) else {
        return files;
    };
    for entry in entries {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(files_of(&path));
        } else if path.extension().is_some_and(|it| it == "yaml") {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            files.push((name, std::fs::read(&path).unwrap()));
        }
    }
    files.sort();
    files
}

/// A folder of stages as a library.
fn library(stages: &[(String, Vec<u8>)]) -> Library<'_> {
    stages.iter().fold(Library::new(), |library, (id, bytes)| {
        library.with(id, &format!("stages/{id}.yaml"), bytes)
    })
}

/// One complaint as it stands in a file: the file unless it is the module's own, line, column, word.
type Complaint = (String, u32, u32, String);

/// The complaints that a module expects: `# problem: COLUMN WORD` about the next line that is no such comment, or
/// `# problem: FILE:LINE:COLUMN WORD`.
fn expected(bytes: &[u8]) -> Vec<Complaint> {
    let text = String::from_utf8_lossy(bytes);
    let mut expected = Vec::new();
    let mut waiting = Vec::new();
    for (line, number) in text.lines().zip(1..) {
        let Some(complaint) = line.trim().strip_prefix("# problem: ") else {
            for (column, word) in waiting.drain(..) {
                expected.push((String::new(), number, column, word));
            }
            continue;
        };
        let (place, word) = complaint.split_once(' ').unwrap();
        if let Ok(column) = place.parse() {
            waiting.push((column, word.to_owned()));
        } else {
            let [file, line, column] = place.split(':').collect::<Vec<_>>()[..] else {
                panic!("{place} is no place");
            };
            let (line, column) = (line.parse().unwrap(), column.parse().unwrap());
            expected.push((file.to_owned(), line, column, word.to_owned()));
        }
    }
    expected.sort();
    expected
}

/// Holds that a problem has words, with everything that they take in, and says what to do.
fn worded(told: &Told) {
    let fix = told.fix.as_deref().unwrap_or_default();
    for text in [&told.what, fix] {
        assert!(!text.contains("{$") && !text.starts_with('['), "{told:?}");
    }
    let counted = told.what.starts_with("One ");
    assert!(counted || !fix.is_empty(), "nothing to do: {told:?}");
}

/// What reading and checking a module says.
fn complaints(bytes: &[u8], library: &Library<'_>) -> (Vec<Complaint>, CheckReport) {
    let told = |files: &[String], at: Place, word: &str| {
        let file = match at.file {
            0 => String::new(),
            file => files[usize::from(file)].clone(),
        };
        (file, at.line, at.column, word.to_owned())
    };
    let words = Words::shipped("en-US");
    let mut report = CheckReport::default();
    let mut complaints: Vec<Complaint> = match module("bad.yaml", bytes, library) {
        Err(refused) => refused
            .report
            .problems
            .iter()
            .map(|it| {
                worded(&problems::fault(&it.what, &words));
                told(&refused.files, it.at, it.what.word())
            })
            .collect(),
        Ok(read) => {
            let hazards = hazards("hazards.yaml", HAZARDS).unwrap();
            let faults = faults("faults.yaml", FAULTS).unwrap();
            let modules = ["bad".to_owned(), "other".to_owned()];
            let around = Surroundings {
                hazards: &hazards,
                faults: &faults,
                modules: Some(&modules),
                station_kinds: Some(STATION_KINDS),
            };
            report = check(&read, &around);
            report
                .problems
                .iter()
                .map(|it| {
                    worded(&problems::check_fault(&it.what, &read.files, &words));
                    told(&read.files, it.at, it.what.word())
                })
                .collect()
        }
    };
    complaints.sort();
    (complaints, report)
}

#[test]
fn every_broken_module_gets_the_complaints_that_stand_in_it() {
    let stages = files_of(&folder("tests/modules/stages"));
    let library = library(&stages);
    let files = files_of(&folder("tests/modules/bad"));
    assert!(files.len() > 50);
    let mut wrong = Vec::new();
    for (name, bytes) in files {
        let (told, report) = complaints(&bytes, &library);
        let expected = expected(&bytes);
        assert!(!expected.is_empty(), "{name} expects nothing");
        if told != expected {
            wrong.push(format!(
                "{name}:\n  told {told:?}\n  not  {expected:?}\n  {:?}",
                report.problems
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
