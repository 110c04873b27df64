//! `drybench module show`: prints what a module says and the plan it gives for one case card.

use std::path::PathBuf;

use clap::{ArgMatches, Command};

use super::failure::{Ended, Failure};
use super::help::{self, Choice};
use super::office;
use super::opened::Opened;
use super::out::Out;
use super::page;
use crate::app::System;
use crate::rehearsal::drive::Prepared;
use crate::report::Block;
use crate::report::pages::pages;
use crate::syllabus::plan::TaskKeeping;
use crate::text::Words;
use crate::units::Millis;

/// What to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ModuleShow {
    /// Id of the module.
    pub id: String,
    /// Choices of the case card; what is left out takes the module's first value.
    pub case: Vec<Choice>,
    /// Name or file of the process profile.
    pub profile: Option<String>,
    /// The folder for data, if not the system's.
    pub data: Option<PathBuf>,
    /// Whether a machine reads the answer.
    pub json: bool,
}

/// Says what the command takes.
pub(super) fn command(words: &Words) -> Command {
    let id = help::place(words, "id", "ID", "cli-option.id").required(true);
    help::command(words, "show", "cli-show", Some(id))
        .arg(help::case(words))
        .arg(help::profile(words))
        .arg(office::data(words))
        .arg(help::json(words))
}

impl From<&ArgMatches> for ModuleShow {
    fn from(matches: &ArgMatches) -> ModuleShow {
        ModuleShow {
            id: help::text(matches, "id").unwrap_or_default(),
            case: help::choices(matches),
            profile: help::text(matches, "profile"),
            data: help::path(matches, "data"),
            json: matches.get_flag("json"),
        }
    }
}

/// A module and its plan for machines. Times are milliseconds.
#[derive(Debug, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
struct Shown<'s> {
    module: &'s str,
    revision: u32,
    digest: &'s str,
    profile: &'s str,
    card: String,
    hands_on: Millis,
    longest_chain: Millis,
    least: Millis,
    greatest: Millis,
    tasks: Vec<ShownTask<'s>>,
}

/// One task of the plan.
#[derive(Debug, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
struct ShownTask<'s> {
    label: &'s str,
    step: &'s str,
    station: &'s str,
    required: bool,
    attended: bool,
    after: Vec<&'s str>,
    takes: Millis,
    least: Option<Millis>,
    most: Option<Millis>,
}

/// Prints the module and its plan.
pub(super) fn run<S: System>(
    asked: &ModuleShow,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (profile, data) = (asked.profile.as_deref(), asked.data.as_deref());
    let prepared = Opened::open(&asked.id, &asked.case, profile, data, system)?;
    if asked.json {
        page::json(&shown(&prepared), out)?;
        return Ok(Ended::Done);
    }
    let hazards = |id: &str| prepared.taken.hazard(id);
    let on = &prepared.on;
    let pages = pages(&on.module, &on.plan, &hazards, words);
    if let Some(overview) = pages.first() {
        page::print(&overview.blocks, 80, out)?;
    }
    let heads = [
        "cli-show-task",
        "cli-show-station",
        "cli-show-time",
        "cli-show-after",
    ];
    let rows = (0..on.plan.tasks.len()).map(|task| {
        let (least, most) = on.plan.duration(task);
        let window = on.plan.tasks[task]
            .keeping
            .as_ref()
            .and_then(TaskKeeping::window);
        let time = match (window, most) {
            (Some(window), _) => words.say(
                "cli-show-window",
                &[("least", window.least.into()), ("most", window.most.into())],
            ),
            (None, Some(most)) => words.say(
                "cli-show-window",
                &[("least", least.into()), ("most", most.into())],
            ),
            (None, None) => words.write(&least.into()),
        };
        let after: Vec<String> = steps_before(&prepared, task);
        vec![
            on.plan.tasks[task].label.clone(),
            on.module.steps[on.plan.tasks[task].step].at.value.clone(),
            time,
            words.write(&after.into()),
        ]
    });
    let table = Block::Table {
        head: heads.iter().map(|id| words.say(id, &[])).collect(),
        rows: rows.collect(),
    };
    page::print(
        &[Block::heading(2, words.say("cli-show-plan", &[])), table],
        80,
        out,
    )?;
    Ok(Ended::Done)
}

/// The steps that a task waits for directly.
fn steps_before(prepared: &Opened, task: usize) -> Vec<String> {
    let mut steps: Vec<usize> = prepared.on.plan.direct[task]
        .iter()
        .map(|&one| prepared.on.plan.tasks[one].step)
        .collect();
    steps.dedup();
    steps
        .into_iter()
        .map(|step| prepared.on.module.steps[step].id.value.clone())
        .collect()
}

fn shown(prepared: &Opened) -> Shown<'_> {
    let Prepared { module, plan, .. } = &*prepared.on;
    let totals = plan.totals();
    Shown {
        module: &module.identity.id.value,
        revision: module.identity.revision,
        digest: &prepared.taken.digest,
        profile: &prepared.taken.profile,
        card: plan.card.to_string(),
        hands_on: totals.hands_on,
        longest_chain: totals.longest_chain,
        least: totals.least,
        greatest: totals.greatest,
        tasks: (0..plan.tasks.len())
            .map(|index| {
                let task = &plan.tasks[index];
                let step = &module.steps[task.step];
                let window = task.keeping.as_ref().and_then(TaskKeeping::window);
                ShownTask {
                    label: &task.label,
                    step: &step.id.value,
                    station: &step.at.value,
                    required: task.required,
                    attended: task.attended,
                    after: plan.direct[index]
                        .iter()
                        .map(|&one| plan.tasks[one].label.as_str())
                        .collect(),
                    takes: task.takes,
                    least: window.map(|window| window.least),
                    most: window.map(|window| window.most),
                }
            })
            .collect(),
    }
}
