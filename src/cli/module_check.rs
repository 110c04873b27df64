//! `drybench module check`: reads modules and process profiles and tells everything that is wrong with them.

use clap::{ArgMatches, Command};

use std::path::{Path, PathBuf};

use super::failure::{Ended, Failure};
use super::out::Out;
use super::{files, help, office, page};
use crate::app::System;
use crate::app::complain::{self, Complaint};
use crate::app::laying;
use crate::app::rehearse::StartProblem;
use crate::app::shelf::{Shelf, ShelfProblem, is_profile};
use crate::report::Block;
use crate::text::Words;
use crate::units::Millis;

/// What to check.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ModuleCheck {
    /// Paths of files or folders, ids of modules or names of profiles. None: every shipped module.
    pub wanted: Vec<String>,
    /// The folder for data, if not the system's.
    pub data: Option<PathBuf>,
    /// Whether a machine reads the answer.
    pub json: bool,
}

/// Says what the command takes.
pub(super) fn command(words: &Words) -> Command {
    let wanted = help::place(words, "wanted", "PATH|ID", "cli-check.wanted").num_args(0..);
    help::command(words, "check", "cli-check", Some(wanted))
        .arg(office::data(words))
        .arg(help::json(words))
}

impl From<&ArgMatches> for ModuleCheck {
    fn from(matches: &ArgMatches) -> ModuleCheck {
        ModuleCheck {
            wanted: matches
                .get_many::<String>("wanted")
                .map(|all| all.cloned().collect())
                .unwrap_or_default(),
            data: help::path(matches, "data"),
            json: matches.get_flag("json"),
        }
    }
}

/// Checks, prints the problems, and ends with findings if there are any.
pub(super) fn run<S: System>(
    asked: &ModuleCheck,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let mut shelf = Shelf::shipped();
    let is_id = |wanted: &String| !files::is_path(wanted) && !system.is_folder(Path::new(wanted));
    if asked.wanted.iter().any(is_id) {
        laying::own(&mut shelf, asked.data.as_deref(), system);
    }
    let mut paths = Vec::new();
    for wanted in &asked.wanted {
        if system.is_folder(Path::new(wanted)) {
            let found = files::modules_in(&mut shelf, Path::new(wanted), system)?;
            if found.is_empty() {
                return Err(Failure::NoModules(wanted.clone()));
            }
            paths.extend(found);
        } else if files::is_path(wanted) && is_profile(&files::shown(Path::new(wanted))) {
            laying::profile(&mut shelf, Path::new(wanted), system)?;
            paths.push(files::shown(Path::new(wanted)));
        } else if files::is_path(wanted) {
            files::module(&mut shelf, wanted, system)?;
            paths.push(files::shown(Path::new(wanted)));
        } else {
            paths.push(called(&shelf, wanted)?);
        }
    }
    if asked.wanted.is_empty() {
        paths = shelf.module_paths();
    }
    let mut answers = Vec::new();
    for path in paths {
        let answer = one(&shelf, &path, words);
        if !asked.json {
            for line in answer.problems.iter().flat_map(|one| one.lines(words)) {
                out.message(&line)?;
            }
            page::print(&summary(&answer, words), 80, out)?;
        }
        answers.push(answer);
    }
    if asked.json {
        page::json(&answers, out)?;
    }
    let sound = answers
        .iter()
        .all(|answer| answer.problems.iter().all(|one| one.warning));
    Ok(if sound {
        Ended::Done
    } else {
        Ended::WithFindings
    })
}

/// The path of a module with this id, else of a profile with this name.
fn called(shelf: &Shelf, wanted: &str) -> Result<String, Failure> {
    let profiles = shelf.profile_paths(wanted);
    let path = shelf.path(wanted).or(profiles.first().copied());
    if let Some(path) = path {
        return Ok(path.to_owned());
    }
    // It may have been refused, as a module or as a profile.
    let problem = match shelf.profile(wanted) {
        Err(ShelfProblem::NoSuchProfile { .. }) | Ok(_) => shelf.take(wanted, None).err(),
        Err(problem) => Some(problem),
    };
    let problem = problem.unwrap_or_else(|| ShelfProblem::NoSuchModule {
        found: wanted.to_owned(),
        known: shelf.modules(),
    });
    Err(Failure::Start(StartProblem::Shelf(problem)))
}

/// What the check says of one file.
#[derive(Debug, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
struct Answer {
    file: String,
    problems: Vec<Complaint>,
    cases: Vec<Case>,
}

/// What a module comes to for one case card. Times are milliseconds.
#[derive(Debug, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
struct Case {
    card: String,
    tasks: usize,
    required: usize,
    hands_on: Millis,
    longest_chain: Millis,
    least: Millis,
    greatest: Millis,
    critical_path: Vec<String>,
}

fn one(shelf: &Shelf, path: &str, words: &Words) -> Answer {
    let mut answer = Answer {
        file: path.to_owned(),
        problems: Vec::new(),
        cases: Vec::new(),
    };
    if is_profile(path) {
        answer.problems = match shelf.checked_profile(path) {
            Ok(all) => complain::profile(path, &all, words),
            Err(problem) => complain::shelf(&problem, words),
        };
        return answer;
    }
    let checked = match shelf.checked(path) {
        Ok(checked) => checked,
        Err(refused) => {
            answer.problems = complain::refused(&refused, words);
            return answer;
        }
    };
    answer.problems = complain::checked(&checked, words);
    let shaping = |card: &str| -> String {
        let shapes = |one: &&str| {
            let name = one.split('=').next().unwrap_or_default();
            let mut choices = checked.module.case.iter();
            choices.any(|choice| choice.id.value == name && choice.shapes_plan)
        };
        let kept: Vec<&str> = card.split(',').filter(shapes).collect();
        kept.join(", ")
    };
    let cases = checked.report.cases.iter();
    answer.cases = cases
        .map(|case| Case {
            card: shaping(&case.card),
            tasks: case.tasks,
            required: case.required,
            hands_on: case.hands_on,
            longest_chain: case.longest_chain,
            least: case.least,
            greatest: case.greatest,
            critical_path: case.critical_path.clone(),
        })
        .collect();
    answer
}

/// The summary as a table of case cards.
fn summary(answer: &Answer, words: &Words) -> Vec<Block> {
    let problems = answer.problems.iter().filter(|one| !one.warning).count();
    let warnings = answer.problems.len() - problems;
    let counts = [
        ("file", answer.file.as_str().into()),
        ("problems", problems.into()),
        ("warnings", warnings.into()),
    ];
    let mut blocks = vec![Block::heading(2, words.say("cli-checked", &counts))];
    if answer.cases.is_empty() {
        return blocks;
    }
    let heads = [
        "cli-check-card",
        "cli-check-tasks",
        "cli-check-hands-on",
        "cli-check-chain",
        "cli-check-least",
        "cli-check-greatest",
    ];
    let whole_minutes = |time: Millis| Millis(time.0.div_euclid(60_000) * 60_000);
    let rows = answer.cases.iter().map(|case| {
        vec![
            if case.card.is_empty() {
                words.say("cli-check-any-card", &[])
            } else {
                case.card.clone()
            },
            case.required.to_string(),
            words.write(&whole_minutes(case.hands_on).into()),
            words.write(&whole_minutes(case.longest_chain).into()),
            words.write(&whole_minutes(case.least).into()),
            words.write(&whole_minutes(case.greatest).into()),
        ]
    });
    blocks.push(Block::Table {
        head: heads.iter().map(|id| words.say(id, &[])).collect(),
        rows: rows.collect(),
    });
    if let Some(case) = answer.cases.last() {
        let values = [
            ("card", case.card.as_str().into()),
            ("steps", case.critical_path.clone().into()),
        ];
        let id = if case.card.is_empty() {
            "cli-check-path-any"
        } else {
            "cli-check-path"
        };
        blocks.push(Block::Paragraph(words.say(id, &values)));
    }
    blocks
}
