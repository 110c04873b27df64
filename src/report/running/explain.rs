//! Why a step is done, how, and what there is to do.

use super::Running;
use crate::report::names::Names;
use crate::report::wording::{right_options, to_the_second};
use crate::syllabus::module::{LINE_WORDS, Never, ProtectionKind, Step};
use crate::syllabus::plan::{TaskIndex, TaskKeeping, Window};
use crate::text::{Caution, Value};
use crate::units::Millis;

/// How many portions are reckoned with where only the look of a thing ends a step.
const PORTIONS: i64 = 10;

/// A protection item that a step asks for.
struct AskedFor {
    /// Which, by index in the module.
    item: usize,
    /// Whether it is on and fresh enough.
    fine: bool,
    /// How it stands, in words.
    said: String,
}

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
        let mut lines = self.why_and_good(step);
        lines.extend(self.limits_and_ways(step, task));
        lines.extend(self.guarded(step, task));
        lines
    }

    /// How a step is done, the numbers first: limits, right ways, why, and what good looks like.
    #[must_use]
    pub fn how(&self, step: &Step, task: TaskIndex) -> Vec<String> {
        let mut lines = self.limits_and_ways(step, task);
        lines.extend(self.why_and_good(step));
        lines
    }

    fn why_and_good(&self, step: &Step) -> Vec<String> {
        vec![
            self.say("rehearsal-why", &[("why", step.why.as_str().into())]),
            self.say("rehearsal-good", &[("good", step.good.as_str().into())]),
        ]
    }

    fn limits_and_ways(&self, step: &Step, task: TaskIndex) -> Vec<String> {
        let ways = step.ways.iter().map(|way| {
            let values = [
                ("question", Value::from(way.title.as_str())),
                ("right", right_options(way).into()),
            ];
            self.say("rehearsal-right-way", &values)
        });
        self.limits(task).into_iter().chain(ways).collect()
    }

    /// What must be worn and running for a step, and what comes before this program where there is a hazard.
    pub(super) fn guarded(&self, step: &Step, task: TaskIndex) -> Vec<String> {
        let mut lines = self.protection(step, task, false);
        if !step.hazards.is_empty() || !lines.is_empty() {
            lines.push(Caution::OthersComeFirst.say(self.names.words));
        }
        lines
    }

    /// How the signs look now that the time of a task is kept by.
    #[must_use]
    pub fn signs(&self, task: TaskIndex) -> Vec<String> {
        let conditions = match &self.names.plan.tasks[task].keeping {
            Some(TaskKeeping::Watch { sign, .. }) => std::slice::from_ref(sign),
            Some(TaskKeeping::Judge { until, .. }) => until.as_slice(),
            _ => &[],
        };
        let now = self.rehearsal.readings();
        let of = |aspect: usize| now.iter().filter(move |seen| seen.aspect == aspect);
        let all = conditions.iter().flat_map(|one| of(one.aspect));
        all.map(|seen| self.state(seen, &seen.cells)).collect()
    }

    /// What must be worn and running for a step, and whether it is.
    #[must_use]
    pub fn protected(&self, step: &Step, task: TaskIndex) -> Vec<String> {
        self.protection(step, task, false)
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

    /// What must be worn and running for a step, and whether it is; or only what is missing or would grow too old during it.
    pub(super) fn protection(&self, step: &Step, task: TaskIndex, missing: bool) -> Vec<String> {
        let all = self.asked_for(step, task).into_iter();
        all.filter(|one| !one.fine || !missing)
            .map(|one| one.said)
            .collect()
    }

    /// The first protection item that a step asks for and that is not on, or would grow too old during the task; by index.
    #[must_use]
    pub fn missing_item(&self, step: usize, task: TaskIndex) -> Option<usize> {
        let step = &self.names.module.steps[step];
        let mut all = self.asked_for(step, task).into_iter();
        all.find(|one| !one.fine).map(|one| one.item)
    }

    fn asked_for(&self, step: &Step, task: TaskIndex) -> Vec<AskedFor> {
        let module = self.names.module;
        let plan = self.names.plan;
        let worn = self.rehearsal.worn();
        let mut items: Vec<usize> = Vec::new();
        for (guard, compiled) in module.guards.iter().zip(&plan.guards) {
            let here =
                guard.during.is_empty() || guard.during.iter().any(|at| at.value == step.at.value);
            if here && !items.contains(&compiled.item) {
                items.push(compiled.item);
            }
        }
        let timed = match &plan.tasks[task].keeping {
            Some(TaskKeeping::Timer(window) | TaskKeeping::Count(window)) => window.target,
            Some(TaskKeeping::Watch { expect, .. }) => {
                expect.map_or(Millis::ZERO, |(_, latest)| latest)
            }
            Some(TaskKeeping::Judge { portion, .. }) => Millis(portion.0 * PORTIONS),
            None => Millis::ZERO,
        };
        let near = if step.attended {
            plan.tasks[task].takes + timed
        } else {
            plan.tasks[task].takes
        };
        let asked = |&item: &usize| {
            let one = &module.protection_items[item];
            let age = worn.iter().find(|(other, _)| *other == item);
            let age = age.map(|(_, age)| *age);
            let every = one
                .change_every
                .filter(|_| one.kind == ProtectionKind::Worn);
            let mut values = vec![
                ("item", Value::from(one.title.as_str())),
                ("id", Value::from(one.id.value.as_str())),
            ];
            let (fine, said) = match (one.kind, age, every) {
                (ProtectionKind::Worn, None, _) => (false, self.say("rehearsal-wear", &values)),
                (ProtectionKind::Running, None, _) => (false, self.say("rehearsal-run", &values)),
                (ProtectionKind::Running, Some(_), _) => {
                    (true, self.say("rehearsal-run-on", &values))
                }
                (ProtectionKind::Worn, Some(_), None) => {
                    (true, self.say("rehearsal-wear-on", &values))
                }
                (ProtectionKind::Worn, Some(age), Some(every)) => {
                    values.push(("age", to_the_second(age).into()));
                    values.push(("every", every.into()));
                    if age + near > every {
                        (false, self.say("rehearsal-wear-change", &values))
                    } else {
                        (true, self.say("rehearsal-wear-on-since", &values))
                    }
                }
            };
            AskedFor { item, fine, said }
        };
        items.iter().map(asked).collect()
    }

    /// How the time of a task is kept, and its limits on this case card.
    pub(super) fn limits(&self, task: TaskIndex) -> Option<String> {
        limits(&self.names, task, &|id, values| self.say(id, values))
    }

    /// What could be waited for: the name of each sign that the bench decides and that is not there yet, with its words. Whether
    /// it will come is not told.
    #[must_use]
    pub fn waits(&self) -> Vec<(String, String)> {
        let plan = self.names.plan;
        let mut signs = Vec::new();
        for (index, compiled) in plan.aspects.iter().enumerate() {
            let aspect = &self.names.module.aspects[index];
            if compiled.gauge.is_none() || !aspect.seen {
                continue;
            }
            let now = (0..compiled.cells.len()).map(|cell| self.rehearsal.value(index, cell));
            let now = now.min().unwrap_or(0);
            for value in aspect.values.iter().skip(now + 1) {
                let values = [
                    ("aspect", aspect.title.as_str().into()),
                    ("looks", value.looks.as_str().into()),
                ];
                let sign = format!("{}-{}", aspect.id.value, value.id.value);
                signs.push((sign, self.say("rehearsal-seen", &values)));
            }
        }
        signs
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

/// Says a message with its values.
pub(in crate::report) type Saying<'s> = &'s dyn Fn(&str, &[(&str, Value)]) -> String;

/// How the time of a task is kept, and its limits on this case card, said by `say`.
pub(in crate::report) fn limits(
    names: &Names<'_>,
    task: TaskIndex,
    say: Saying<'_>,
) -> Option<String> {
    let window = |id: &str, window: &Window| {
        say(
            id,
            &[
                ("target", window.target.into()),
                ("least", window.least.into()),
                ("most", window.most.into()),
            ],
        )
    };
    Some(match names.plan.tasks[task].keeping.as_ref()? {
        TaskKeeping::Timer(one) => window("rehearsal-timer", one),
        TaskKeeping::Count(one) => window("rehearsal-count", one),
        TaskKeeping::Watch { sign, within, .. } => say(
            "rehearsal-watch",
            &[
                ("sign", names.cells(sign).into()),
                ("within", (*within).into()),
            ],
        ),
        TaskKeeping::Judge { until, portion } => {
            let until = until.iter().map(|one| names.cells(one));
            let until: Vec<String> = until.collect();
            say(
                "rehearsal-judge",
                &[("until", until.into()), ("portion", (*portion).into())],
            )
        }
    })
}
