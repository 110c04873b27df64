//! What is said while a run is under way: the opening, what a move did, what can be seen, what may come next, and help.
//!
//! Lines of plain mode come from here, and screens use the same words. Left out: who asks and how it is shown.

mod explain;
mod notices;

use crate::rehearsal::drive::{Rehearsal, Seen};
use crate::rehearsal::trace::{Event, What};
use crate::report::names::Names;
use crate::report::wording::to_the_second;
use crate::syllabus::module::{Never, ProtectionKind};
use crate::syllabus::place::spelled;
use crate::syllabus::plan::{Spans, TaskIndex};
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
}
