//! Why a step is done, how, and what there is to do.

use super::Running;
use crate::report::wording::right_options;
use crate::syllabus::module::{LINE_WORDS, Never, ProtectionKind, Step};
use crate::syllabus::plan::{TaskIndex, TaskKeeping, Window};
use crate::text::{Caution, Value};

impl Running<'_> {
    /// Why a step is done, what good looks like, its limits, its ways and its protection.
    #[must_use]
    pub fn why(&self, id: &str) -> Option<Vec<String>> {
        let index = self
            .names
            .module
            .steps
            .iter()
            .position(|one| one.id.value == id)?;
        let task = *self.names.plan.tasks_of_step[index].first()?;
        let step = &self.names.module.steps[index];
        let mut lines = vec![self.say("rehearsal-about", &[("title", step.title.as_str().into())])];
        lines.extend(self.reasons(step, task));
        Some(lines)
    }

    pub(super) fn reasons(&self, step: &Step, task: TaskIndex) -> Vec<String> {
        let mut lines = vec![
            self.say("rehearsal-why", &[("why", step.why.as_str().into())]),
            self.say("rehearsal-good", &[("good", step.good.as_str().into())]),
        ];
        lines.extend(self.limits(task));
        for way in &step.ways {
            let right = right_options(way);
            let values = [
                ("question", Value::from(way.title.as_str())),
                ("right", right.into()),
            ];
            lines.push(self.say("rehearsal-right-way", &values));
        }
        let guards = self.protection(step);
        let hazardous = !step.hazards.is_empty() || !guards.is_empty();
        lines.extend(guards);
        if hazardous {
            lines.push(Caution::OthersComeFirst.say(self.names.words));
        }
        lines
    }

    /// In which manners a step can be done, as they are typed; which is right is for the learner to know.
    #[must_use]
    pub fn ways(&self, id: &str) -> Option<Vec<String>> {
        let mut steps = self.names.module.steps.iter();
        let step = steps.find(|one| one.id.value == id)?;
        if step.ways.is_empty() {
            return Some(vec![self.say("rehearsal-no-ways", &[])]);
        }
        let mut lines = Vec::new();
        for way in &step.ways {
            lines.push(self.say("rehearsal-way", &[("title", way.title.as_str().into())]));
            let mut options: Vec<_> = way.options.iter().collect();
            // Sorted by name, so that where an option stands does not tell whether it is right.
            options.sort_by(|one, other| one.id.value.cmp(&other.id.value));
            lines.extend(options.into_iter().map(|one| {
                self.say(
                    "rehearsal-option",
                    &[
                        ("way", way.id.value.as_str().into()),
                        ("option", one.id.value.as_str().into()),
                        ("title", one.title.as_str().into()),
                    ],
                )
            }));
        }
        Some(lines)
    }

    /// What must be worn and running for a step, and whether it is.
    pub(super) fn protection(&self, step: &Step) -> Vec<String> {
        let module = self.names.module;
        let worn = self.rehearsal.worn();
        let mut items: Vec<usize> = Vec::new();
        for guard in &module.guards {
            let here =
                guard.during.is_empty() || guard.during.iter().any(|at| at.value == step.at.value);
            let mut all = module.protection_items.iter();
            let item = all.position(|one| one.id.value == guard.item.value);
            if let Some(item) = item.filter(|item| here && !items.contains(item)) {
                items.push(item);
            }
        }
        let line = |&item: &usize| {
            let one = &module.protection_items[item];
            let values = [
                ("item", Value::from(one.title.as_str())),
                ("id", Value::from(one.id.value.as_str())),
            ];
            let on = worn.iter().any(|(other, _)| *other == item);
            match (one.kind, on) {
                (ProtectionKind::Worn, false) => self.say("rehearsal-wear", &values),
                (ProtectionKind::Worn, true) => self.say("rehearsal-wear-on", &values),
                (ProtectionKind::Running, false) => self.say("rehearsal-run", &values),
                (ProtectionKind::Running, true) => self.say("rehearsal-run-on", &values),
            }
        };
        items.iter().map(line).collect()
    }

    /// How the time of a task is kept, and its limits on this case card.
    pub(super) fn limits(&self, task: TaskIndex) -> Option<String> {
        let window = |id: &str, window: &Window| {
            self.say(
                id,
                &[
                    ("target", window.target.into()),
                    ("least", window.least.into()),
                    ("most", window.most.into()),
                ],
            )
        };
        Some(match self.names.plan.tasks[task].keeping.as_ref()? {
            TaskKeeping::Timer(one) => window("rehearsal-timer", one),
            TaskKeeping::Count(one) => window("rehearsal-count", one),
            TaskKeeping::Watch { sign, within, .. } => self.say(
                "rehearsal-watch",
                &[
                    ("sign", self.names.cells(sign).into()),
                    ("within", (*within).into()),
                ],
            ),
            TaskKeeping::Judge { until, portion } => {
                let until = until.iter().map(|one| self.names.cells(one));
                let until: Vec<String> = until.collect();
                self.say(
                    "rehearsal-judge",
                    &[("until", until.into()), ("portion", (*portion).into())],
                )
            }
        })
    }

    /// Every step and tempting act, by station.
    #[must_use]
    pub fn moves(&self) -> Vec<String> {
        let module = self.names.module;
        let mut lines = Vec::new();
        for station in &module.stations {
            let steps = module
                .steps
                .iter()
                .filter(|step| step.at.value == station.id.value)
                .map(|step| (step.id.value.as_str(), step.title.as_str()));
            let acts = module.never.iter().filter_map(|rule| match rule {
                Never::Act(act) if act.at.value == station.id.value => {
                    Some((act.id.value.as_str(), act.title.as_str()))
                }
                _ => None,
            });
            let mut here: Vec<(&str, &str)> = steps.chain(acts).collect();
            if here.is_empty() {
                continue;
            }
            // Sorted by name, so that where an entry stands does not tell whether it is a trap.
            here.sort_unstable();
            lines.push(self.say(
                "rehearsal-station",
                &[("title", station.title.as_str().into())],
            ));
            lines.extend(here.into_iter().map(|(id, title)| {
                self.say(
                    "rehearsal-move",
                    &[("id", id.into()), ("title", title.into())],
                )
            }));
        }
        let items = module.protection_items.iter().map(|item| {
            let values = [
                ("id", Value::from(item.id.value.as_str())),
                ("title", Value::from(item.title.as_str())),
            ];
            match item.kind {
                ProtectionKind::Worn => self.say("rehearsal-move-wear", &values),
                ProtectionKind::Running => self.say("rehearsal-move-run", &values),
            }
        });
        lines.push(self.say("rehearsal-protection", &[]));
        lines.extend(items);
        lines
    }

    /// What can be typed.
    #[must_use]
    pub fn help(&self) -> Vec<String> {
        let text = self.say("rehearsal-help", &[]);
        debug_assert!(
            LINE_WORDS.iter().all(|word| text.contains(word)),
            "a word is not explained"
        );
        text.lines().map(str::to_owned).collect()
    }
}
