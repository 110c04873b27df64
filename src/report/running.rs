//! What is said while a run is under way: the opening, what a move did, what can be seen, what may come next, and help.
//!
//! Lines of plain mode come from here, and screens use the same words. Left out: who asks and how it is shown.

use super::names::Names;
use super::wording::to_the_second;
use crate::rehearsal::drive::{Rehearsal, Seen};
use crate::rehearsal::trace::{Event, Sign, What};
use crate::syllabus::module::{LINE_WORDS, Never, ProtectionKind, Step};
use crate::syllabus::place::spelled;
use crate::syllabus::plan::{Spans, TaskIndex, TaskKeeping, Window};
use crate::text::{Caution, Value, Words};
use crate::units::Millis;

/// Says things about one run.
#[derive(Clone, Copy)]
pub struct Running<'a> {
    rehearsal: &'a Rehearsal,
    names: Names<'a>,
}

impl<'a> Running<'a> {
    /// About this run, in this language.
    #[must_use]
    pub fn new(rehearsal: &'a Rehearsal, words: &'a Words) -> Running<'a> {
        Running {
            rehearsal,
            names: Names {
                module: rehearsal.module(),
                plan: rehearsal.plan(),
                words,
            },
        }
    }

    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.names.words.say(id, values)
    }

    /// What stands before the first line: the case, the cautions, and how to begin.
    #[must_use]
    pub fn opening(&self, seed: u32) -> Vec<String> {
        let card = self.names.card().into_iter().map(|(title, value)| {
            self.say(
                "rehearsal-choice",
                &[("choice", title.into()), ("value", value.into())],
            )
        });
        let card: Vec<String> = card.collect();
        let module = &self.names.module.identity;
        let mut lines = vec![
            self.say(
                "rehearsal-opening",
                &[
                    ("title", module.title.as_str().into()),
                    ("revision", module.revision.to_string().into()),
                    ("seed", seed.to_string().into()),
                ],
            ),
            self.say("rehearsal-case", &[("card", card.into())]),
            Caution::OthersComeFirst.say(self.names.words),
            Caution::TeachingModel.say(self.names.words),
        ];
        lines.push(self.say("rehearsal-how-to-begin", &[]));
        lines
    }

    /// The clock of the run, as it stands before the place to type.
    #[must_use]
    pub fn prompt(&self) -> String {
        let seconds = self.rehearsal.clock().0 / 1000;
        let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
        let clock = format!("{hours}:{minutes:02}:{seconds:02}");
        self.say("rehearsal-prompt", &[("clock", clock.into())])
    }

    /// What an event was, as it is told at once.
    #[must_use]
    pub fn event(&self, event: &Event) -> Option<String> {
        let module = self.names.module;
        let time = ("time", Value::from(to_the_second(event.end - event.start)));
        let item = |item: usize| Value::from(module.protection_items[item].title.as_str());
        let worn = |item: usize| module.protection_items[item].kind == ProtectionKind::Worn;
        Some(match &event.what {
            What::Task { task, .. } => {
                let what = ("what", self.names.tasks(&[*task]).into());
                self.say("rehearsal-done", &[what, time])
            }
            What::Act(rule) => {
                let Never::Act(act) = &module.never[*rule] else {
                    return None;
                };
                let what = ("what", act.title.as_str().into());
                self.say("rehearsal-done", &[what, time])
            }
            What::Refused(task, condition) => {
                let state = &self.names.plan.tasks[*task].refused_if[*condition];
                self.say(
                    "rehearsal-refused",
                    &[
                        ("what", self.names.tasks(&[*task]).into()),
                        ("state", self.names.cells(state).into()),
                    ],
                )
            }
            What::PutOn(one) if worn(*one) => self.say("rehearsal-worn", &[("item", item(*one))]),
            What::PutOn(one) => self.say("rehearsal-running", &[("item", item(*one))]),
            What::TookOff(one) if worn(*one) => self.say("rehearsal-off", &[("item", item(*one))]),
            What::TookOff(one) => self.say("rehearsal-stopped", &[("item", item(*one))]),
            What::Disturbed(one) => {
                let seen = module.disturbances[*one].seen.as_str();
                self.say("rehearsal-disturbed", &[("seen", seen.into())])
            }
            What::Answered(one, response) => {
                let title = module.disturbances[*one].responses[*response]
                    .title
                    .as_str();
                self.say("rehearsal-answered", &[("what", title.into()), time])
            }
            What::Waited => self.say("rehearsal-waited", &[time]),
            What::CarriedOn(_) => self.say("rehearsal-carried-on", &[]),
            What::Finished => self.say("rehearsal-finished", &[]),
            What::Abandoned => self.say("rehearsal-abandoned", &[]),
        })
    }

    /// The answers that are offered to the disturbance that is open.
    #[must_use]
    pub fn responses(&self) -> Vec<String> {
        let Some(open) = self.rehearsal.open_disturbance() else {
            return Vec::new();
        };
        let responses = self.names.module.disturbances[open].responses.iter();
        let mut lines: Vec<String> = responses
            .map(|one| {
                self.say(
                    "rehearsal-response",
                    &[
                        ("id", one.id.value.as_str().into()),
                        ("title", one.title.as_str().into()),
                    ],
                )
            })
            .collect();
        lines.push(self.say("rehearsal-or-go-on", &[]));
        lines
    }

    /// What looks different now, or everything when there is nothing to compare with.
    #[must_use]
    pub fn seen(&self, before: Option<&[Seen]>) -> Vec<String> {
        let was = |aspect: usize, cell: usize| {
            let mut before = before.unwrap_or_default().iter();
            before
                .find(|one| one.aspect == aspect && one.cells.contains(&cell))
                .map(|one| one.value)
        };
        let now = self.rehearsal.readings();
        now.iter()
            .filter_map(|seen| {
                let changed = seen.cells.iter().copied();
                let changed: Vec<usize> = changed
                    .filter(|&cell| was(seen.aspect, cell) != Some(seen.value))
                    .collect();
                (!changed.is_empty()).then(|| self.state(seen, &changed))
            })
            .collect()
    }

    /// How some cells of an aspect look.
    fn state(&self, seen: &Seen, shown: &[usize]) -> String {
        let aspect = &self.names.module.aspects[seen.aspect];
        let cells = &self.names.plan.aspects[seen.aspect].cells;
        let looks = ("looks", aspect.values[seen.value].looks.as_str().into());
        let title = ("aspect", aspect.title.as_str().into());
        if shown.len() == cells.len() {
            return self.say("rehearsal-seen", &[title, looks]);
        }
        let places = shown.iter().map(|&cell| self.names.place(&cells[cell]));
        let places = ("places", self.names.listed(places.collect()).into());
        self.say("rehearsal-seen-at", &[title, places, looks])
    }

    /// Everything that can be seen, with what is worn and what runs.
    #[must_use]
    pub fn look(&self) -> Vec<String> {
        // What is as it was at the start tells nothing, unless it is all there is to see of the bench's own.
        let now = self.rehearsal.readings();
        let mut lines: Vec<String> = now
            .iter()
            .filter(|seen| seen.value > 0 || self.names.plan.aspects[seen.aspect].gauge.is_some())
            .map(|seen| self.state(seen, &seen.cells))
            .collect();
        let items = &self.names.module.protection_items;
        for (item, time) in self.rehearsal.worn() {
            let values = [
                ("item", Value::from(items[item].title.as_str())),
                ("time", Value::from(to_the_second(time))),
            ];
            lines.push(match items[item].kind {
                ProtectionKind::Worn => self.say("rehearsal-look-worn", &values),
                ProtectionKind::Running => self.say("rehearsal-look-running", &values),
            });
        }
        lines
    }

    /// What may come next, by id with its places, and how soon where a rule says so; required steps first.
    #[must_use]
    pub fn next(&self) -> Vec<String> {
        let plan = self.names.plan;
        let mut open = self.rehearsal.admissible();
        open.sort_by_key(|&task| (!plan.tasks[task].required, plan.tasks[task].step, task));
        let clock = self.rehearsal.clock();
        let spans = plan.spans(&self.rehearsal.done_times()).ok();
        // How much time is left before a task must have been started, where a rule says so.
        let latest = |task: TaskIndex| {
            let span = spans.as_ref()?.of[task]?;
            let left = Millis(span.start.latest?) - clock;
            (left > Millis::ZERO).then_some(left)
        };
        let mut lines: Vec<String> = Vec::new();
        let mut steps: Vec<usize> = Vec::new();
        for &task in &open {
            let step = plan.tasks[task].step;
            if steps.contains(&step) {
                continue;
            }
            steps.push(step);
            let places: Vec<String> = open
                .iter()
                .filter(|&&one| plan.tasks[one].step == step)
                .map(|&one| spelled(&plan.tasks[one].place, &plan.dimensions).replace('/', " "))
                .filter(|place| !place.is_empty())
                .collect();
            let step = &self.names.module.steps[step];
            let id = ("id", Value::from(step.id.value.as_str()));
            let title = ("title", Value::from(step.title.as_str()));
            let line = match (places.is_empty(), step.optional) {
                (true, false) => self.say("rehearsal-next", &[id, title]),
                (true, true) => self.say("rehearsal-next-if-needed", &[id, title]),
                (false, _) => {
                    let places = ("places", self.names.listed(places).into());
                    self.say("rehearsal-next-at", &[id, title, places])
                }
            };
            lines.push(match latest(task) {
                Some(left) => {
                    let values = [("line", line.into()), ("left", to_the_second(left).into())];
                    self.say("rehearsal-next-before", &values)
                }
                None => line,
            });
        }
        let late = |spans: &Spans| {
            (0..plan.tasks.len()).any(|task| {
                let span = spans.of[task].filter(|_| !self.rehearsal.is_done(task));
                span.is_some_and(|span| span.start.latest.is_some_and(|latest| latest < clock.0))
            })
        };
        if spans.as_ref().is_none_or(late) {
            lines.push(self.say("rehearsal-next-too-late", &[]));
        }
        lines
    }

    /// The one step that a guide would name now, with its reason, its limits and its protection; the reasons are left out when
    /// they were told just before. Returns the step with the lines.
    #[must_use]
    pub fn guide(&self, told: Option<usize>) -> (Option<usize>, Vec<String>) {
        let plan = self.names.plan;
        let open = self.rehearsal.admissible();
        let begun = |task: &TaskIndex| !plan.tasks[*task].place.0.is_empty();
        // Work that is under way at a place goes on there first; else the order written.
        let next = open
            .iter()
            .copied()
            .filter(|&task| plan.tasks[task].required)
            .min_by_key(|&task| {
                let place = &plan.tasks[task].place;
                let low = place.0.first().map_or(0, |one| one.low);
                (begun(&task), low, plan.tasks[task].step, task)
            });
        let Some(task) = next else {
            return (None, vec![self.say("rehearsal-nothing-left", &[])]);
        };
        let index = plan.tasks[task].step;
        let step = self.names.step(task);
        let at = if self.goes_in_one(index, &open) {
            "all".to_owned()
        } else {
            spelled(&plan.tasks[task].place, &plan.dimensions).replace('/', " ")
        };
        let typed = if at.is_empty() {
            step.id.value.clone()
        } else {
            format!("{} {at}", step.id.value)
        };
        let mut lines = vec![self.say(
            "rehearsal-guide",
            &[
                ("typed", typed.into()),
                ("title", step.title.as_str().into()),
            ],
        )];
        if told != Some(index) {
            lines.extend(self.reasons(step, task));
        }
        (Some(index), lines)
    }

    /// Whether a step at several places can be done at all of them in one move, and no rule counts what it leaves open.
    fn goes_in_one(&self, step: usize, open: &[TaskIndex]) -> bool {
        let plan = self.names.plan;
        let tasks = &plan.tasks_of_step[step];
        let counted = |task: &TaskIndex| {
            plan.tasks[*task].makes.iter().any(|make| {
                let mut rules = plan.more_than.iter();
                rules.any(|rule| rule.of.aspect == make.aspect)
            })
        };
        tasks.len() > 1
            && tasks
                .iter()
                .all(|task| open.contains(task) && !counted(task))
    }

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

    fn reasons(&self, step: &Step, task: TaskIndex) -> Vec<String> {
        let mut lines = vec![
            self.say("rehearsal-why", &[("why", step.why.as_str().into())]),
            self.say("rehearsal-good", &[("good", step.good.as_str().into())]),
        ];
        lines.extend(self.limits(task));
        for way in &step.ways {
            let right = super::wording::right_options(way);
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
    fn protection(&self, step: &Step) -> Vec<String> {
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
    fn limits(&self, task: TaskIndex) -> Option<String> {
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

    /// What was wrong with an event, as far as it can be told at once.
    #[must_use]
    pub fn notices(&self, number: usize) -> Vec<String> {
        let event = &self.rehearsal.trace()[number];
        let plan = self.names.plan;
        let mut lines = Vec::new();
        for &(guard, _) in &event.bare {
            let written = &self.names.module.guards[guard];
            let text = ("text", Value::from(written.miss.text.as_str()));
            lines.push(self.say("rehearsal-notice", &[text]));
            lines.push(super::caution::guard(&self.names, written));
        }
        if let What::Act(rule) = event.what
            && let Never::Act(act) = &self.names.module.never[rule]
        {
            let text = ("text", Value::from(act.miss.text.as_str()));
            lines.push(self.say("rehearsal-notice", &[text]));
        }
        let What::Task {
            task,
            options,
            timed,
        } = &event.what
        else {
            return lines;
        };
        let step = self.names.step(*task);
        let earlier: Vec<TaskIndex> = plan
            .order
            .predecessors(*task)
            .filter(|&one| plan.tasks[one].required && !self.done_before(one, number))
            .filter(|&one| !self.passed_before(one, number))
            .collect();
        if !earlier.is_empty() {
            let missing = ("missing", self.names.tasks(&earlier).into());
            lines.push(self.say("rehearsal-notice-early", &[missing]));
        }
        for &need in &event.unmet {
            let state = self.names.cells(&plan.tasks[*task].needs[need]);
            lines.push(self.say("rehearsal-notice-need", &[("state", state.into())]));
        }
        for (way, &option) in step.ways.iter().zip(options) {
            if let Some(miss) = &way.options[option].wrong {
                lines.push(self.say("rehearsal-notice", &[("text", miss.text.as_str().into())]));
            }
        }
        lines.extend(self.time_notice(*task, *timed, event.sign));
        if !event.crowded.is_empty() {
            for rule in event
                .crowded
                .iter()
                .map(|(rule, _)| plan.more_than[*rule].rule)
            {
                if let Never::MoreThan { miss, .. } = &self.names.module.never[rule] {
                    lines
                        .push(self.say("rehearsal-notice", &[("text", miss.text.as_str().into())]));
                }
            }
        }
        lines
    }

    /// Whether a task had been passed by already, so that it was told then.
    fn passed_before(&self, task: TaskIndex, event: usize) -> bool {
        let mut earlier = self.rehearsal.trace()[..event].iter();
        earlier.any(|one| {
            one.task()
                .is_some_and(|then| self.names.plan.order.precedes(task, then))
        })
    }

    fn done_before(&self, task: TaskIndex, event: usize) -> bool {
        let earlier = &self.rehearsal.trace()[..event];
        earlier.iter().any(|one| one.task() == Some(task))
    }

    fn time_notice(&self, task: TaskIndex, timed: Option<Millis>, sign: Sign) -> Option<String> {
        let was = timed?;
        match self.names.plan.tasks[task].keeping.as_ref()? {
            TaskKeeping::Timer(window) | TaskKeeping::Count(window) => {
                if window.least <= was && was <= window.most {
                    return None;
                }
                Some(self.say(
                    "rehearsal-notice-time",
                    &[
                        ("was", was.into()),
                        ("least", window.least.into()),
                        ("most", window.most.into()),
                    ],
                ))
            }
            TaskKeeping::Watch { within, .. } => match sign {
                Sign::After(at) if was < at => Some(self.say("rehearsal-notice-before-sign", &[])),
                Sign::Never => Some(self.say("rehearsal-notice-before-sign", &[])),
                Sign::After(at) if was - at > *within => Some(self.say(
                    "rehearsal-notice-after-sign",
                    &[("by", to_the_second(was - at).into())],
                )),
                _ => None,
            },
            TaskKeeping::Judge { .. } => matches!(sign, Sign::NotShown | Sign::Never)
                .then(|| self.say("rehearsal-notice-not-yet", &[])),
        }
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
