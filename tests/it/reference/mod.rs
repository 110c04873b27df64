//! Answers from outside: every case of every file in `tests/reference/`, or in the folder that `DRYBENCH_REFERENCE` names.
//!
//! One file of checks per file of cases. Each has `check`, which looks at every case and returns a [`Report`], so that
//! one test can ask for no mismatch and another, with an answer altered, for at least one.

#![expect(
    clippy::disallowed_methods,
    reason = "tests read their cases from a folder, and the environment may name another"
)]

mod baths;
mod drying;
mod exposure;
mod heating;
mod solved;

use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt;
use std::io::Write as _;
use std::path::PathBuf;

/// Where the answer of a case that names no publication comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(
    dead_code,
    reason = "each origin is used by some of the files of checks only"
)]
pub(crate) enum Origin {
    /// Computed by a general-purpose library.
    Library,
    /// A model of ours computed a second way: guards against slips, not against a wrong model.
    CrossComputed,
}

/// One file of cases.
#[derive(Clone, Debug)]
pub(crate) struct Loaded {
    /// The file's name without `.json`.
    pub(crate) name: String,
    /// The header: libraries, method, tolerance.
    pub(crate) header: Value,
    /// The cases as they stand in the file. Never empty.
    pub(crate) cases: Vec<Value>,
}

impl Loaded {
    /// Whether `got` agrees with `want`, with the tolerance of the header: |got − want| ≤ tolerance · max(1, |want|).
    pub(crate) fn agrees(&self, got: f64, want: f64) -> bool {
        let tolerance = self.header["tolerance"]
            .as_f64()
            .expect("the header states a tolerance");
        (got - want).abs() <= tolerance * want.abs().max(1.0)
    }
}

/// How many cases of a file were checked, by the origin of their answers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    published: usize,
    library: usize,
    cross_computed: usize,
    not_owed: BTreeMap<String, usize>,
}

impl Tally {
    /// Counts a case that was checked. It counts as published if it names a source, otherwise as `origin`.
    pub(crate) fn checked(&mut self, case: &Value, origin: Origin) {
        // The generator writes the source "random" for projects drawn at random: those answers are a library's.
        if case["source"]
            .as_str()
            .is_some_and(|source| source != "random")
        {
            self.published += 1;
        } else if origin == Origin::Library {
            self.library += 1;
        } else {
            self.cross_computed += 1;
        }
    }

    /// Counts a case, or a part of one, of a kind that the program does not compute.
    pub(crate) fn not_owed(&mut self, kind: &str) {
        *self.not_owed.entry(kind.to_owned()).or_default() += 1;
    }
}

/// What came of checking one file.
#[derive(Clone, Debug, Default)]
pub(crate) struct Report {
    /// How many cases were checked and how many were not.
    pub(crate) tally: Tally,
    /// One line for every answer that differs and every case that could not be read. Empty when all is well.
    pub(crate) mismatches: Vec<String>,
}

impl Report {
    /// Notes that a case gave another answer than the file.
    pub(crate) fn differs(
        &mut self,
        case: &Value,
        what: &str,
        got: impl fmt::Debug,
        want: impl fmt::Debug,
    ) {
        let id = &case["id"];
        self.mismatches
            .push(format!("{id} {what}: got {got:?}, want {want:?}"));
    }

    /// Notes a case whose kind or family no check knows. It never passes in silence.
    pub(crate) fn unknown(&mut self, case: &Value, kind: &str) {
        let id = &case["id"];
        self.mismatches.push(format!("{id}: unknown kind {kind:?}"));
    }
}

/// The folder of the cases.
fn folder() -> PathBuf {
    std::env::var("DRYBENCH_REFERENCE").map_or_else(
        |_| PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference"),
        PathBuf::from,
    )
}

/// Reads one file of cases, `alignments` for `alignments.json`.
///
/// Panics, and so fails the test, if the file is missing, is no such file, or holds no cases or fewer than its header says.
pub(crate) fn cases(name: &str) -> Loaded {
    let path = folder().join(format!("{name}.json"));
    let text = std::fs::read_to_string(&path)
        .unwrap_or_else(|problem| panic!("could not read {}: {problem}", path.display()));
    let mut all: Value = serde_json::from_str(&text)
        .unwrap_or_else(|problem| panic!("{} is no JSON: {problem}", path.display()));
    let Value::Array(cases) = all["cases"].take() else {
        panic!("{} has no list of cases", path.display());
    };
    let header = all["header"].take();
    assert!(!cases.is_empty(), "{} holds no cases", path.display());
    if let Some(stated) = header["n_cases"].as_u64() {
        assert_eq!(
            u64::try_from(cases.len()).ok(),
            Some(stated),
            "{}: the header states another number of cases",
            path.display()
        );
    }
    Loaded {
        name: name.to_owned(),
        header,
        cases,
    }
}

/// Prints the line of a file and fails with every mismatch if there is one.
pub(crate) fn settle(loaded: &Loaded, report: &Report) {
    let Tally {
        published,
        library,
        cross_computed,
        not_owed,
    } = &report.tally;
    let checked = published + library + cross_computed;
    let mut line = format!(
        "reference {}: {checked} cases ({published} published, {library} library, {cross_computed} cross-computed",
        loaded.name
    );
    for (at, (kind, count)) in not_owed.iter().enumerate() {
        line += if at == 0 { "; not owed: " } else { ", " };
        line += &format!("{count} {kind}");
    }
    // Written past the test harness, which would keep it back for a test that passes.
    writeln!(std::io::stdout().lock(), "{line})").expect("standard output takes a line");
    assert!(checked > 0, "{}: no case was checked", loaded.name);
    assert!(
        report.mismatches.is_empty(),
        "{}: {} mismatches:\n{}",
        loaded.name,
        report.mismatches.len(),
        report.mismatches.join("\n")
    );
}

/// Files whose checks are not written yet. A file that is neither here nor checked fails the test below.
const AWAITED: &[&str] = &["alignments", "stn", "cpm"];

/// Files with a file of checks beside this one.
const CHECKED: &[&str] = &["heating", "baths", "drying", "exposure"];

#[test]
fn every_file_of_the_folder_has_its_checks() {
    let folder = folder();
    let mut seen = 0;
    for entry in std::fs::read_dir(&folder).expect("the folder of the cases can be read") {
        let path = entry.expect("a folder lists its files").path();
        if path.extension().is_none_or(|extension| extension != "json") {
            continue;
        }
        seen += 1;
        let name = path.file_stem().unwrap_or_default().to_string_lossy();
        assert!(
            CHECKED.contains(&&*name) || AWAITED.contains(&&*name),
            "no check knows the file {name}.json"
        );
    }
    assert!(seen > 0, "{} holds no cases", folder.display());
}
