//! An observed run from a sheet: filled in at the bench, or written down from paper later.
//!
//! A sheet is YAML: who, what, which case, and one line for each step that was watched. Which steps are critical is not for the sheet to say; it
//! follows from the edition. The sheet itself is attached to the entry, times and all.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::Deserialize;

use super::problem::Problem;
use super::signing::Deed;
use super::{Keeping, Laboratory, Place, Wanted, edition_of};
use crate::app::shelf::Taken;
use crate::record::entry::{Judgement, Method, Observed, Seen, StepSeen};
use crate::record::scope::{Id, Text};
use crate::units::{PersonCode, Stamp};

/// The format of sheets that this program reads.
const FORMAT: u32 = 1;

/// A sheet as it was filled in.
#[derive(Clone, Debug, Deserialize, PartialEq, Eq)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Sheet {
    /// The format.
    pub sheet: u32,
    /// The code of the person who was watched.
    pub technician: String,
    /// The workflow.
    pub workflow: String,
    /// The revision that was worked by.
    pub revision: u32,
    /// The process profile, where the person has several scopes.
    pub profile: Option<String>,
    /// The wash unit, where the person has several scopes.
    pub wash: Option<String>,
    /// The curing unit, where the person has several scopes.
    pub cure: Option<String>,
    /// In which way it was watched.
    pub method: String,
    /// Which case.
    pub case: String,
    /// When the run was over: `2026-03-03T10:40:00+01:00`.
    pub ended: String,
    /// `at-the-bench`, or `from-paper` where it was written down later.
    pub written: String,
    /// The judgement of the whole.
    pub judgement: String,
    /// Why it is entered late, or anything that has to stand in the record.
    pub reason: Option<String>,
    /// Steps in order, each `- STEP: SEEN` or `- STEP: SEEN 10:02:10-10:04:20`.
    pub steps: Vec<BTreeMap<String, String>>,
}

/// Why a sheet is none that can be entered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SheetProblem {
    /// It is no sheet: as the reader of its format says, with the place.
    NoSheet(String),
    /// Its format is newer.
    Newer(u32),
    /// A value is none that may stand there. Holds the name, the value, and what may stand there.
    Value {
        /// The name.
        name: &'static str,
        /// What was found.
        found: String,
        /// What may stand there, or an example.
        known: Vec<String>,
    },
    /// There is no such step in the workflow. Holds what was found, and those there are.
    NoSuchStep(String, Vec<String>),
    /// A step stands there twice.
    Twice(String),
    /// A line names no step, or several.
    NotOneStep,
    /// The sheet is of another revision than the module on the shelf. Holds both.
    OtherRevision(u32, u32),
    /// The sheet is of another workflow than the module.
    OtherWorkflow(String),
    /// The laboratory does not take it.
    Laboratory(Problem),
}

impl From<Problem> for SheetProblem {
    fn from(problem: Problem) -> SheetProblem {
        SheetProblem::Laboratory(problem)
    }
}

/// An observation that is ready to be drafted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entered {
    /// What is to be signed.
    pub deed: Deed,
    /// Steps of the workflow that the sheet does not name: they count as not watched.
    pub left_out: Vec<String>,
}

/// An empty sheet for a workflow, with every step.
#[must_use]
pub fn blank(taken: &Taken, technician: Option<PersonCode>, title: &str) -> String {
    let module = &taken.module;
    let identity = &module.identity;
    let mut text = String::new();
    for line in title.lines() {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "# {line}");
    }
    let technician = technician.map_or_else(|| "P-".to_owned(), |code| code.to_string());
    let _ = write!(
        text,
        "sheet: {FORMAT}\ntechnician: {technician}\nworkflow: {}\nrevision: {}\nmethod: direct\ncase: \nended: \nwritten: at-the-bench\njudgement: \nsteps:\n",
        identity.id.value, identity.revision
    );
    for step in &module.steps {
        let mark = if step.critical { "   # !" } else { "" };
        let _ = writeln!(text, "  - {}: not-seen{mark}", step.id.value);
    }
    text
}

impl Sheet {
    /// Reads a sheet.
    ///
    /// # Errors
    ///
    /// It is none, or a newer one.
    pub fn read(text: &str) -> Result<Sheet, SheetProblem> {
        let sheet: Sheet =
            serde_yaml::from_str(text).map_err(|why| SheetProblem::NoSheet(why.to_string()))?;
        if sheet.sheet > FORMAT {
            return Err(SheetProblem::Newer(sheet.sheet));
        }
        Ok(sheet)
    }

    /// Makes what the assessor signs. The sheet is attached.
    ///
    /// # Errors
    ///
    /// A value is wrong, the module is another, or the laboratory does not take it.
    pub fn enter<P: Place>(
        &self,
        text: &str,
        laboratory: &mut Laboratory<P>,
        taken: &Taken,
    ) -> Result<Entered, SheetProblem> {
        let identity = &taken.module.identity;
        if identity.id.value != self.workflow {
            return Err(SheetProblem::OtherWorkflow(self.workflow.clone()));
        }
        if identity.revision != self.revision {
            return Err(SheetProblem::OtherRevision(
                self.revision,
                identity.revision,
            ));
        }
        let example = |text: &str| vec![text.to_owned()];
        let person: PersonCode = parsed("technician", &self.technician, example("P-7K3MQ4"))?;
        let workflow: Id = parsed("workflow", &self.workflow, example("stock-teeth"))?;
        let of = |name, value: &Option<String>| -> Result<Option<Id>, SheetProblem> {
            let named = value
                .as_ref()
                .map(|text| parsed(name, text, example("ultrasonic")));
            named.transpose()
        };
        let wanted = Wanted {
            workflow,
            profile: of("profile", &self.profile)?,
            wash: of("wash", &self.wash)?,
            cure: of("cure", &self.cure)?,
        };
        let ended: Stamp = parsed("ended", &self.ended, example("2026-03-03T10:40:00+01:00"))?;
        let case: Id = parsed("case", &self.case, example("c-0312"))?;
        let transcribed = word("written", &self.written, &["at-the-bench", "from-paper"])? == 1;
        let judgement = chosen(
            "judgement",
            &self.judgement,
            Judgement::ALL,
            Judgement::word,
        )?;
        let method = chosen("method", &self.method, Method::ALL, Method::word)?;
        let reason: Option<Text> = match &self.reason {
            Some(text) => Some(parsed("reason", text, example("found in the day book"))?),
            None => None,
        };
        let (steps, left_out) = self.steps_of(taken)?;
        let taps = laboratory
            .place_mut()
            .attach(text.as_bytes(), Keeping::Erasable)
            .map_err(Problem::from)?;
        let observed = Observed {
            person,
            scope: laboratory.scope(person, &wanted)?,
            edition: edition_of(taken)?,
            method,
            case,
            steps,
            judgement,
            remark: None,
            taps: Some(taps),
            transcribed: transcribed.then_some(true),
        };
        let deed = Deed::now(observed).at(Some(ended)).because(reason);
        Ok(Entered { deed, left_out })
    }

    fn steps_of(&self, taken: &Taken) -> Result<(Vec<StepSeen>, Vec<String>), SheetProblem> {
        let mut told: BTreeMap<&str, Seen> = BTreeMap::new();
        let known = || {
            taken
                .module
                .steps
                .iter()
                .map(|step| step.id.value.clone())
                .collect()
        };
        for line in &self.steps {
            let mut one = line.iter();
            let (Some((step, value)), None) = (one.next(), one.next()) else {
                return Err(SheetProblem::NotOneStep);
            };
            if !taken.module.steps.iter().any(|one| one.id.value == *step) {
                return Err(SheetProblem::NoSuchStep(step.clone(), known()));
            }
            let (seen, times) = value.split_once(' ').unwrap_or((value, ""));
            check_times(times)?;
            let seen = chosen("steps", seen, Seen::ALL, Seen::word)?;
            if told.insert(step, seen).is_some() {
                return Err(SheetProblem::Twice(step.clone()));
            }
        }
        Ok(every_step(taken, |id| told.get(id).copied())?)
    }
}

/// Every step of a workflow with how it went; one of which nothing is told was not seen. Also names those of which nothing is told.
///
/// # Errors
///
/// The name of a step cannot stand in an entry.
pub(in crate::app) fn every_step(
    taken: &Taken,
    told: impl Fn(&str) -> Option<Seen>,
) -> Result<(Vec<StepSeen>, Vec<String>), Problem> {
    let mut steps = Vec::new();
    let mut left_out = Vec::new();
    for step in &taken.module.steps {
        let name = &step.id.value;
        let seen = told(name);
        if seen.is_none() {
            left_out.push(name.clone());
        }
        let id = name.parse();
        steps.push(StepSeen {
            step: id.map_err(|_| Problem::BadModule(name.clone()))?,
            critical: step.critical,
            seen: seen.unwrap_or(Seen::NotSeen),
        });
    }
    Ok((steps, left_out))
}

/// Times of a step: nothing, or `10:02:10-10:04:20`, the second not before the first.
fn check_times(times: &str) -> Result<(), SheetProblem> {
    let wrong = || SheetProblem::Value {
        name: "steps",
        found: times.to_owned(),
        known: vec!["done 10:02:10-10:04:20".to_owned()],
    };
    if times.is_empty() {
        return Ok(());
    }
    let (from, to) = times.split_once('-').ok_or_else(wrong)?;
    let clock =
        |text: &str| chrono::NaiveTime::parse_from_str(text, "%H:%M:%S").map_err(|_| wrong());
    if clock(from)? <= clock(to)? {
        Ok(())
    } else {
        Err(wrong())
    }
}

fn parsed<T: std::str::FromStr>(
    name: &'static str,
    found: &str,
    known: Vec<String>,
) -> Result<T, SheetProblem> {
    found.parse().map_err(|_| SheetProblem::Value {
        name,
        found: found.to_owned(),
        known,
    })
}

fn word(name: &'static str, found: &str, words: &[&str]) -> Result<usize, SheetProblem> {
    let at = words.iter().position(|word| *word == found);
    at.ok_or_else(|| SheetProblem::Value {
        name,
        found: found.to_owned(),
        known: words.iter().map(|&word| word.to_owned()).collect(),
    })
}

fn chosen<T: Copy>(
    name: &'static str,
    found: &str,
    all: &[T],
    spelled: fn(T) -> &'static str,
) -> Result<T, SheetProblem> {
    let words: Vec<&str> = all.iter().map(|one| spelled(*one)).collect();
    word(name, found, &words).map(|at| all[at])
}
