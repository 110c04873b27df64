//! Problems of use cases in words: each with its file, line and column, what was kept, and what to do.
//!
//! Both front ends say the same. Left out: where it is shown.

use super::checked::Checked;
use super::fault::{Fault, Happened, Kept, Remedy};
use super::rehearse::StartProblem;
use super::shelf::{PrepareProblem, ShelfProblem};
use crate::report::problems::{self, Told};
use crate::syllabus::check::Weight;
use crate::syllabus::profile::ProfileProblem;
use crate::syllabus::read::module::Refused;
use crate::syllabus::read::{Place, nearest};
use crate::text::Words;

/// A problem as it is printed and handed to machines.
#[derive(Clone, Debug, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Complaint {
    /// The file; empty where there is none.
    pub file: String,
    /// The line, from 1; 0 where there is none.
    pub line: u32,
    /// The column in characters, from 1.
    pub column: u32,
    /// Whether it is only a warning.
    pub warning: bool,
    /// What is wrong.
    pub what: String,
    /// What to do.
    pub fix: Option<String>,
}

impl Complaint {
    /// A problem at a place.
    #[must_use]
    pub fn at(files: &[String], place: Place, told: Told) -> Complaint {
        Complaint {
            file: files
                .get(usize::from(place.file))
                .cloned()
                .unwrap_or_default(),
            line: place.line,
            column: place.column,
            warning: false,
            what: told.what,
            fix: told.fix,
        }
    }

    /// A problem that stands at no place.
    #[must_use]
    pub fn nowhere(told: Told) -> Complaint {
        Complaint {
            file: String::new(),
            line: 0,
            column: 0,
            warning: false,
            what: told.what,
            fix: told.fix,
        }
    }

    /// As one or two lines.
    #[must_use]
    pub fn lines(&self, words: &Words) -> Vec<String> {
        let what = ("what", self.what.as_str().into());
        let mut lines = vec![if self.line == 0 {
            self.what.clone()
        } else {
            let at = words.say(
                "problems-at",
                &[
                    ("file", self.file.as_str().into()),
                    ("line", self.line.to_string().into()),
                    ("column", self.column.to_string().into()),
                ],
            );
            let id = if self.warning {
                "cli-warning-at"
            } else {
                "cli-problem-at"
            };
            words.say(id, &[("at", at.into()), what])
        }];
        if let Some(fix) = &self.fix {
            lines.push(words.say("cli-hint", &[("fix", fix.as_str().into())]));
        }
        lines
    }
}

/// Files that are no module: all faults of their structure.
#[must_use]
pub fn refused(refused: &Refused, words: &Words) -> Vec<Complaint> {
    let mut all: Vec<Complaint> = refused
        .report
        .problems
        .iter()
        .map(|one| Complaint::at(&refused.files, one.at, problems::fault(&one.what, words)))
        .collect();
    all.extend(more(refused.report.more, words));
    all
}

/// How many more problems there are than are told.
#[must_use]
pub fn more(count: usize, words: &Words) -> Option<Complaint> {
    (count > 0).then(|| {
        Complaint::nowhere(Told {
            what: words.say("cli-more-problems", &[("count", count.into())]),
            fix: None,
        })
    })
}

/// What cannot be taken from the shelf.
#[must_use]
pub fn shelf(problem: &ShelfProblem, words: &Words) -> Vec<Complaint> {
    let named = |id: &str, found: &str, known: &[String]| {
        let known = ("known", known.to_vec().into());
        vec![Complaint::nowhere(Told {
            what: words.say(id, &[("found", found.into())]),
            fix: Some(words.say("cli-known", &[known])),
        })]
    };
    match problem {
        ShelfProblem::NoSuchModule { found, known } => named("cli-no-such-module", found, known),
        ShelfProblem::NoSuchProfile { found, known } => {
            no_profile("cli-no-such-profile", found, known, words)
        }
        ShelfProblem::ProfileOfShippedName { name, file } => {
            let values = [
                ("name", name.as_str().into()),
                ("file", file.as_str().into()),
            ];
            vec![Complaint::nowhere(Told {
                what: words.say("cli-profile-of-shipped-name", &values),
                fix: Some(words.say("cli-profile-of-shipped-name.fix", &[])),
            })]
        }
        ShelfProblem::ProfileOfOtherName(one) => {
            let values = [
                ("id", one.id.as_str().into()),
                ("name", one.name.as_str().into()),
            ];
            let told = Told {
                what: words.say("cli-profile-of-other-name", &values),
                fix: Some(words.say("cli-profile-of-other-name.fix", &[])),
            };
            vec![Complaint::at(std::slice::from_ref(&one.file), one.at, told)]
        }
        ShelfProblem::ProfileTwice { name, files } => {
            let values = [
                ("name", name.as_str().into()),
                ("files", files.clone().into()),
            ];
            vec![Complaint::nowhere(Told {
                what: words.say("cli-profile-twice", &values),
                fix: Some(words.say("cli-profile-twice.fix", &[])),
            })]
        }
        ShelfProblem::Unreadable(files) => refused(files, words),
        ShelfProblem::Profile(file, all) => profile(file, all, words),
        ShelfProblem::Machine(fault) => {
            let lines = machine(fault, words).into_iter();
            lines
                .map(|what| Complaint::nowhere(Told { what, fix: None }))
                .collect()
        }
        ShelfProblem::TooManyFiles {
            folder,
            found,
            most,
        } => {
            let values = [
                ("path", folder.as_str().into()),
                ("count", (*found).into()),
                ("most", (*most).into()),
            ];
            vec![Complaint::nowhere(Told {
                what: words.say("cli-too-many-files", &values),
                fix: Some(words.say("cli-too-many-files.fix", &[])),
            })]
        }
        ShelfProblem::Twice { id, files } => {
            let values = [("id", id.as_str().into()), ("files", files.clone().into())];
            vec![Complaint::nowhere(Told {
                what: words.say("cli-module-twice", &values),
                fix: Some(words.say("cli-module-twice.fix", &[])),
            })]
        }
        ShelfProblem::NotSound(found) => {
            let mut all = checked(found, words);
            all.retain(|one| !one.warning);
            all
        }
    }
}

/// What does not fit in the profile of a file.
#[must_use]
pub fn profile(file: &str, all: &[ProfileProblem], words: &Words) -> Vec<Complaint> {
    let files = [file.to_owned()];
    let told = all
        .iter()
        .map(|one| Complaint::at(&files, one.at, problems::profile_fault(&one.what, words)));
    told.collect()
}

/// A profile that is not there: what there is, what may have been meant first, and where those of the laboratory lie.
fn no_profile(id: &str, found: &str, known: &[String], words: &Words) -> Vec<Complaint> {
    let mut known = known.to_vec();
    if let Some(meant) = nearest(found, known.iter().map(String::as_str)).map(str::to_owned) {
        known.sort_by_key(|one| *one != meant);
    }
    vec![Complaint::nowhere(Told {
        what: words.say(id, &[("found", found.into())]),
        fix: Some(words.say("cli-no-such-profile.fix", &[("known", known.into())])),
    })]
}

/// What the check finds in a module.
#[must_use]
pub fn checked(found: &Checked, words: &Words) -> Vec<Complaint> {
    let told = found.report.problems.iter().map(|problem| {
        let told = problems::check_fault(&problem.what, &found.files, words);
        let mut complaint = Complaint::at(&found.files, problem.at, told);
        complaint.warning = problem.what.weight() == Weight::Warning;
        complaint
    });
    let bench = found.bench.iter();
    let bench =
        bench.map(|one| Complaint::at(&found.files, one.at, problems::bench_problem(one, words)));
    told.chain(more(found.report.more, words))
        .chain(bench)
        .collect()
}

/// What gives no plan or no bench.
#[must_use]
pub fn prepare(problem: &PrepareProblem, files: &[String], words: &Words) -> Vec<Complaint> {
    match problem {
        PrepareProblem::Plan(all) => all
            .iter()
            .map(|one| Complaint::at(files, one.at, problems::plan_fault(&one.what, words)))
            .collect(),
        PrepareProblem::Bench(all) => all
            .iter()
            .map(|one| Complaint::at(files, one.at, problems::bench_problem(one, words)))
            .collect(),
    }
}

/// What keeps a run from being started or taken up.
#[must_use]
pub fn start(problem: &StartProblem, words: &Words) -> Vec<Complaint> {
    let say = |id: &str, values: &[(&str, crate::text::Value)]| {
        vec![Complaint::nowhere(Told {
            what: words.say(id, values),
            fix: Some(words.say(&format!("{id}.fix"), values)),
        })]
    };
    match problem {
        StartProblem::Shelf(problem) => shelf(problem, words),
        StartProblem::Case(problem) => {
            vec![Complaint::nowhere(problems::case_problem(problem, words))]
        }
        StartProblem::Prepare(problem, files) => prepare(problem, files, words),
        StartProblem::NoSuchDisturbance { found, known } => {
            let values = [
                ("found", found.as_str().into()),
                ("known", known.clone().into()),
            ];
            say("cli-no-such-disturbance", &values)
        }
        StartProblem::NoRun { why, .. } if why.is_empty() => say("cli-empty-run", &[]),
        StartProblem::NoRun { line, why } => {
            let values = [("line", (*line).into()), ("why", why.as_str().into())];
            say("cli-no-run", &values)
        }
        StartProblem::NewerFormat(format) => {
            say("cli-newer-format", &[("format", format.to_string().into())])
        }
        StartProblem::OtherModule { saved, shelf } => {
            let values = [
                ("saved", saved.0.to_string().into()),
                ("shelf", shelf.0.to_string().into()),
            ];
            say("cli-other-module", &values)
        }
        StartProblem::ProfileGone { found, known } => {
            no_profile("cli-profile-gone", found, known, words)
        }
        StartProblem::OtherNumbers(profile) => {
            say("cli-other-numbers", &[("profile", profile.as_str().into())])
        }
        StartProblem::Replay(problem) => {
            vec![Complaint::nowhere(problems::replay_problem(problem, words))]
        }
    }
}

/// A fault of the machine: what happened, what is still there, what to do.
#[must_use]
pub fn machine(fault: &Fault, words: &Words) -> Vec<String> {
    let typed = fault.path.as_os_str() == "-";
    let path = if typed {
        words.say("cli-machine-input", &[])
    } else {
        fault.path.to_string_lossy().into_owned()
    };
    let path = ("path", path.into());
    let happened = match fault.happened {
        Happened::Missing => words.say("cli-machine-missing", &[path]),
        Happened::TooLong(limit) => {
            let limit = ("limit", i64::try_from(limit).unwrap_or(i64::MAX).into());
            words.say("cli-machine-too-long", &[path, limit])
        }
        Happened::NotText => words.say("cli-machine-not-text", &[path]),
        Happened::NotRead(kind) => words.say(
            "cli-machine-not-read",
            &[path, ("reason", kind.to_string().into())],
        ),
        Happened::NotWritten(kind) => words.say(
            "cli-machine-not-written",
            &[path, ("reason", kind.to_string().into())],
        ),
        Happened::NotConfirmed(kind) => words.say(
            "cli-machine-not-confirmed",
            &[path, ("reason", kind.to_string().into())],
        ),
        Happened::InUse => words.say("cli-machine-in-use", &[path]),
        Happened::SeveralLines => words.say("cli-machine-several-lines", &[path]),
        Happened::NoHome => words.say("cli-machine-no-home", &[]),
    };
    let kept = match fault.kept {
        Kept::Everything => words.say("cli-kept-everything", &[]),
        Kept::EarlierLines => words.say("cli-kept-earlier-lines", &[]),
        Kept::NewOrOld => words.say("cli-kept-new-or-old", &[]),
        Kept::LookAgain => words.say("cli-kept-look-again", &[]),
    };
    let remedy = match fault.remedy {
        Remedy::CheckPath => words.say("cli-remedy-check-path", &[]),
        Remedy::MakeRoom => words.say("cli-remedy-make-room", &[]),
        Remedy::AllowOrMove => words.say("cli-remedy-allow-or-move", &[]),
        Remedy::OtherFile => words.say("cli-remedy-other-file", &[]),
        Remedy::CloseOther => words.say("cli-remedy-close-other", &[]),
        Remedy::NameFolder => words.say("cli-remedy-name-folder", &[]),
        Remedy::TryAgain => words.say("cli-remedy-try-again", &[]),
    };
    if typed {
        // Nothing can be chosen otherwise about what was typed, and what stood before it is kept.
        return vec![happened, words.say("cli-remedy-resume", &[])];
    }
    vec![happened, kept, remedy]
}
