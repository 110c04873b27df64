//! What is told beside a real run that is watched: limits, protection and hazards of a step, and what times and order say.

use super::caution::{self, HazardWords, Hazards};
use super::names::Names;
use super::running::limits;
use super::wording::Wording;
use crate::bench::Outcome;
use crate::rehearsal::finding::Finding;
use crate::syllabus::module::{Guard, Module, Step};
use crate::syllabus::plan::{Plan, TaskIndex};
use crate::text::{Value, Words, display_safe};

/// Says things about a workflow on one real case.
#[derive(Clone, Copy)]
pub struct WatchedCase<'a> {
    names: Names<'a>,
    hazards: Hazards<'a>,
}

impl<'a> WatchedCase<'a> {
    /// About this workflow, in this language.
    #[must_use]
    pub fn new(
        module: &'a Module,
        plan: &'a Plan,
        hazards: Hazards<'a>,
        words: &'a Words,
    ) -> WatchedCase<'a> {
        WatchedCase {
            names: Names {
                module,
                plan,
                words,
            },
            hazards,
        }
    }

    /// The case card, choice by choice: title and value.
    #[must_use]
    pub fn card(&self) -> Vec<(String, String)> {
        self.names.card()
    }

    /// The station of a step.
    #[must_use]
    pub fn station(&self, step: &Step) -> String {
        self.names.station(&step.at.value)
    }

    /// Where a task is done; empty for the whole part.
    #[must_use]
    pub fn place(&self, task: TaskIndex) -> String {
        self.names.place(&self.names.plan.tasks[task].place)
    }

    /// How the time of a task is kept, and its limits on this case card.
    #[must_use]
    pub fn limits(&self, task: TaskIndex) -> Option<String> {
        let words = self.names.words;
        limits(&self.names, task, &|id: &str, values: &[(&str, Value)]| {
            words.say(&format!("{id}.screen"), values)
        })
    }

    /// What is worn and runs at the station of a step.
    #[must_use]
    pub fn protection(&self, step: &Step) -> Vec<String> {
        let mut told = Vec::new();
        for guard in self.guards(step) {
            let said = caution::guard_here(&self.names, guard);
            if !told.contains(&said) {
                told.push(said);
            }
        }
        told
    }

    /// The hazards of a step and of what is protected against at its station, with their precautions.
    #[must_use]
    pub fn hazards(&self, step: &Step) -> Vec<HazardWords> {
        let guarded = self.guards(step).map(|guard| guard.hazard.value.as_str());
        let own = step.hazards.iter().map(|one| one.value.as_str());
        let mut ids: Vec<&str> = Vec::new();
        for id in own.chain(guarded) {
            if !ids.contains(&id) {
                ids.push(id);
            }
        }
        let told = ids.into_iter().map(|id| {
            let known = (self.hazards)(id).unwrap_or_default();
            let title = if known.title.is_empty() {
                id
            } else {
                &known.title
            };
            let precautions = known.precautions.iter();
            HazardWords {
                title: display_safe(title),
                precautions: precautions.map(|one| display_safe(one)).collect(),
            }
        });
        told.collect()
    }

    /// What times and order say about tasks, and what was expected.
    #[must_use]
    pub fn finding(&self, finding: &Finding) -> String {
        // A real case ends with nothing that the program knows.
        let outcome = Outcome::default();
        let wording = Wording {
            names: self.names,
            outcome: &outcome,
        };
        let values = [
            ("what", wording.what(finding).into()),
            (
                "against",
                wording.expected(finding).unwrap_or_default().into(),
            ),
        ];
        self.names.words.say("watching-finding", &values)
    }

    fn guards(&self, step: &Step) -> impl Iterator<Item = &'a Guard> {
        let at = step.at.value.clone();
        let guards = self.names.module.guards.iter();
        guards.filter(move |guard| {
            guard.during.is_empty() || guard.during.iter().any(|one| one.value == at)
        })
    }
}
