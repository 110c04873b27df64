//! Answers from outside: every case of every file in `tests/reference/`, or in the folder that `DRYBENCH_REFERENCE` names.
//!
//! One file of checks per file of cases. Each has `check`, which looks at every case and returns a [`Report`], so that
//! one test can ask for no mismatch and another, with an answer altered, for at least one.

#![expect(
    clippy::disallowed_methods,
    reason = "tests read their cases from a folder, and the environment may name another"
)]

mod alignments;
mod baths;
mod counts;
mod cpm;
mod decimal;
mod drying;
mod exposure;
mod heating;
mod intervals;
mod solved;
mod stn;
mod success_run;

use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt;
use std::io::Write as _;
use std::path::{Path, PathBuf};

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
    /// Whether `got` agrees with `want`: |got − want| ≤ tolerance · max(1, |want|) with the tolerance of the header, and half
    /// a unit in the last of the digits that the header says were kept.
    pub(crate) fn agrees(&self, got: f64, want: f64) -> bool {
        let tolerance = self.header["tolerance"]
            .as_f64()
            .expect("the header states a tolerance");
        let digits = self.header["float_digits"]
            .as_u64()
            .expect("the header states how many digits were kept");
        let rounding = (1..digits).fold(0.5, |unit, _| unit / 10.0);
        (got - want).abs() <= tolerance * want.abs().max(1.0) + rounding * want.abs()
    }

    /// The same for a value of the file, where `null` stands for no value.
    pub(crate) fn agrees_with(&self, got: Option<f64>, want: &Value) -> bool {
        match (got, want) {
            (None, Value::Null) => true,
            (Some(got), Value::Number(want)) => {
                want.as_f64().is_some_and(|want| self.agrees(got, want))
            }
            _ => false,
        }
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

    /// How many cases were checked.
    pub(crate) fn count(&self) -> usize {
        self.published + self.library + self.cross_computed
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

    /// Notes every expected field that no check knows, so that nothing new in a file passes in silence.
    pub(crate) fn expects_only(&mut self, case: &Value, known: &[&str]) {
        let id = &case["id"];
        match case["expected"].as_object() {
            Some(fields) => {
                for field in fields
                    .keys()
                    .filter(|field| !known.contains(&field.as_str()))
                {
                    self.mismatches
                        .push(format!("{id}: unknown expectation {field:?}"));
                }
            }
            None => self.mismatches.push(format!("{id}: expects nothing")),
        }
    }

    /// Notes a case whose kind or family no check knows. It never passes in silence.
    pub(crate) fn unknown(&mut self, case: &Value, kind: &str) {
        let id = &case["id"];
        self.mismatches.push(format!("{id}: unknown kind {kind:?}"));
    }
}

/// The project's own folder of cases.
fn own_folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference")
}

/// The folder of the cases: the project's own, or the one that the environment names.
fn folder() -> PathBuf {
    std::env::var("DRYBENCH_REFERENCE").map_or_else(|_| own_folder(), PathBuf::from)
}

/// Every JSON file of a folder: the name of its kind, as its header or else its own name says, with its header and cases.
///
/// Panics, and so fails the test, if the folder cannot be read or a file is no file of cases.
fn read_folder(folder: &Path) -> Vec<Loaded> {
    let entries = std::fs::read_dir(folder).expect("the folder of the cases can be read");
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.expect("a folder lists its files").path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "json")
        })
        .collect();
    paths.sort();
    let read = |path: &PathBuf| {
        let text = std::fs::read_to_string(path)
            .unwrap_or_else(|problem| panic!("could not read {}: {problem}", path.display()));
        let mut all: Value = serde_json::from_str(&text)
            .unwrap_or_else(|problem| panic!("{} is no JSON: {problem}", path.display()));
        let Value::Array(cases) = all["cases"].take() else {
            panic!("{} has no list of cases", path.display());
        };
        let header = all["header"].take();
        assert!(!cases.is_empty(), "{} holds no cases", path.display());
        let own = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let name = header["file"].as_str().map_or(own, str::to_owned);
        let name = name.trim_end_matches(".json").to_owned();
        Loaded {
            name,
            header,
            cases,
        }
    };
    paths.iter().map(read).collect()
}

/// The cases of one kind in the folder that is asked for, `alignments` for files of `alignments.json`. Several files of a kind
/// are one; without any there are no cases, which only [`settle`] may accept.
pub(crate) fn cases(name: &str) -> Loaded {
    gathered(name, read_folder(&folder()))
}

/// The cases of one kind in the project's own folder, for tests of the checks themselves.
pub(crate) fn own_cases(name: &str) -> Loaded {
    let own = gathered(name, read_folder(&own_folder()));
    assert!(!own.cases.is_empty(), "{name} has cases of its own");
    own
}

fn gathered(name: &str, all: Vec<Loaded>) -> Loaded {
    let none = Loaded {
        name: name.to_owned(),
        header: Value::Null,
        cases: Vec::new(),
    };
    all.into_iter()
        .filter(|one| one.name == name)
        .fold(none, |mut all, one| {
            all.header = one.header;
            all.cases.extend(one.cases);
            all
        })
}

/// Looks at every case of a file.
pub(crate) type Check = fn(&Loaded) -> Report;

/// Looks at every case of a file, one by one.
pub(crate) fn check_each(loaded: &Loaded, check_case: fn(&Loaded, &Value, &mut Report)) -> Report {
    let mut report = Report::default();
    for case in &loaded.cases {
        check_case(loaded, case, &mut report);
    }
    report
}

/// Prints the line of a file and fails with every mismatch if there is one.
pub(crate) fn settle(loaded: &Loaded, report: &Report) {
    if loaded.cases.is_empty() {
        let line = format!(
            "reference {}: 0 cases (the folder has no such file)",
            loaded.name
        );
        writeln!(std::io::stdout().lock(), "{line}").expect("standard output takes a line");
        return;
    }
    let Tally {
        published,
        library,
        cross_computed,
        not_owed,
    } = &report.tally;
    let checked = report.tally.count();
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
    let counted = checked + not_owed.values().sum::<usize>();
    assert!(counted > 0, "{}: no case was counted", loaded.name);
    assert!(
        report.mismatches.is_empty(),
        "{}: {} mismatches:\n{}",
        loaded.name,
        report.mismatches.len(),
        report.mismatches.join("\n")
    );
}

/// Alters the answers of every checked case, one at a time, and fails if `check` does not notice one.
///
/// Altered are the first and the last value within every field of `expected`, except the fields of `not_checked`.
pub(crate) fn notices_altered_answers(loaded: &Loaded, check: Check, not_checked: &[&str]) {
    let mut altered = 0;
    for case in &loaded.cases {
        let mut one = Loaded {
            cases: vec![case.clone()],
            ..loaded.clone()
        };
        if check(&one).tally.count() == 0 {
            continue;
        }
        let fields = case["expected"].as_object().expect("a case expects fields");
        for (field, value) in fields {
            if not_checked.contains(&field.as_str()) {
                continue;
            }
            let places = leaves(value, format!("/expected/{field}"));
            for place in places.first().into_iter().chain(places.last()) {
                one.cases[0].clone_from(case);
                alter(
                    one.cases[0]
                        .pointer_mut(place)
                        .expect("the place was found in the same case"),
                );
                altered += 1;
                assert!(
                    !check(&one).mismatches.is_empty(),
                    "{} {}: nobody noticed that {place} was altered",
                    loaded.name,
                    case["id"]
                );
            }
        }
    }
    assert!(altered > 0, "{}: no answer was altered", loaded.name);
}

/// Where the values without parts are, in order. An empty list or object is one.
fn leaves(value: &Value, place: String) -> Vec<String> {
    match value {
        Value::Array(items) if !items.is_empty() => items
            .iter()
            .enumerate()
            .flat_map(|(at, item)| leaves(item, format!("{place}/{at}")))
            .collect(),
        Value::Object(fields) if !fields.is_empty() => fields
            .iter()
            .flat_map(|(field, item)| leaves(item, format!("{place}/{field}")))
            .collect(),
        _ => vec![place],
    }
}

/// Makes a value a different one.
fn alter(value: &mut Value) {
    *value = match value.take() {
        Value::Null => Value::from(7),
        Value::Bool(claim) => Value::from(!claim),
        Value::Number(number) => match number.as_i64() {
            Some(whole) => Value::from(whole + 1),
            None => Value::from(number.as_f64().unwrap_or_default() * 1.01 + 0.01),
        },
        Value::String(text) => Value::from(text + "x"),
        Value::Array(_) | Value::Object(_) => Value::from(vec![7]),
    };
}

/// Files whose checks are not written yet. A file that is neither here nor checked fails the test below.
const AWAITED: &[&str] = &[
    "agreement",
    "cusum",
    "forgetting",
    "items",
    "paired",
    "timing",
];

/// Files with a file of checks beside this one, and what looks at their cases.
const CHECKS: &[(&str, Check)] = &[
    ("alignments", alignments::check),
    ("baths", baths::check),
    ("cpm", cpm::check),
    ("drying", drying::check),
    ("exposure", exposure::check),
    ("heating", heating::check),
    ("intervals", intervals::check),
    ("stn", stn::check),
    ("success_run", success_run::check),
];

#[test]
fn every_file_of_the_folder_has_its_checks() {
    let all = read_folder(&folder());
    for one in &all {
        let name = one.name.as_str();
        assert!(
            CHECKS.iter().any(|(checked, _)| *checked == name) || AWAITED.contains(&name),
            "no check knows the file {name}.json"
        );
        if AWAITED.contains(&name) {
            let line = format!(
                "reference {name}: 0 cases (not owed yet: {})",
                one.cases.len()
            );
            writeln!(std::io::stdout().lock(), "{line}").expect("standard output takes a line");
        }
    }
    assert!(!all.is_empty(), "{} holds no cases", folder().display());
}

#[test]
fn the_own_folder_has_a_file_for_every_check() {
    for (name, _) in CHECKS {
        assert!(!own_cases(name).cases.is_empty());
    }
}
