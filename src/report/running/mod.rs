//! What is said while a run is under way: the opening, what a move did, what can be seen, what may come next, and help.
//!
//! Lines of plain mode come from here, and screens use the same words. Left out: who asks and how it is shown.

mod explain;
mod guide;
mod notices;

pub(super) use explain::limits;
pub use guide::{Guidance, Suggested, Turn};

use crate::rehearsal::drive::{Rehearsal, Seen};
use crate::rehearsal::trace::{Event, What};
use crate::report::names::Names;
use crate::report::wording::to_the_second;
use crate::syllabus::module::{Never, ProtectionKind};
use crate::syllabus::place::spelled;
use crate::syllabus::plan::{Spans, TaskIndex, TaskKeeping};
use crate::text::{Caution, Value, Words};
use crate::units::Millis;

/// A time as the clock of the bench shows it: `1:05:09`.
#[must_use]
pub fn clock(time: Millis) -> String {
    let seconds = time.0 / 1000;
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    format!("{hours}:{minutes:02}:{seconds:02}")
}

/// Says things about one run.
#[derive(Clone, Copy)]
pub struct Running<'a> {
    rehearsal: &'a Rehearsal,
    names: Names<'a>,
    on_screen: bool,
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
            on_screen: false,
        }
    }

    /// About this run, for a screen where nothing is typed by name: messages that have a part `screen` are said by it.
    #[must_use]
    pub fn on_screen(rehearsal: &'a Rehearsal, words: &'a Words) -> Running<'a> {
        Running {
            on_screen: true,
            ..Running::new(rehearsal, words)
        }
    }

    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        let words = self.names.words;
        if self.on_screen {
            let on_screen = format!("{id}.screen");
            if words.knows(&on_screen) {
                return words.say(&on_screen, values);
            }
        }
        words.say(id, values)
    }

    /// The case card in words.
    #[must_use]
    pub fn case(&self) -> String {
        let card = self.names.card().into_iter().map(|(title, value)| {
            let values = [("choice", title.into()), ("value", value.into())];
            self.say("rehearsal-choice", &values)
        });
        let card: Vec<String> = card.collect();
        self.say("rehearsal-case", &[("card", card.into())])
    }

    /// What stands before the first line: the case, the cautions, and how to begin.
    #[must_use]
    pub fn opening(&self, seed: u32) -> Vec<String> {
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
            self.case(),
            Caution::OthersComeFirst.say(self.names.words),
            Caution::TeachingModel.say(self.names.words),
        ];
        lines.push(self.say("rehearsal-how-to-begin", &[]));
        lines
    }

    /// The clock of the run, as it stands before the place to type.
    #[must_use]
    pub fn prompt(&self) -> String {
        let clock = ("clock", clock(self.rehearsal.clock()).into());
        self.say("rehearsal-prompt", &[clock])
    }

    /// What an event was, as it is told at once.
    fn event(&self, event: &Event) -> Option<String> {
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

    /// What some events were, in the order they came: places of one move in one line, with what is to be careful about when
    /// `help` is given on the way.
    #[must_use]
    pub fn events(&self, numbers: std::ops::Range<usize>, help: bool) -> Vec<String> {
        let trace = self.rehearsal.trace();
        let mut lines = Vec::new();
        let mut first = numbers.start;
        while first < numbers.end {
            let step = |number: usize| {
                let task = trace[number].task()?;
                Some(self.names.plan.tasks[task].step)
            };
            let mut next = first + 1;
            while next < numbers.end && step(first).is_some() && step(next) == step(first) {
                next += 1;
            }
            let tasks: Vec<TaskIndex> = (first..next).filter_map(|one| trace[one].task()).collect();
            if tasks.is_empty() {
                lines.extend(self.event(&trace[first]));
            } else {
                let time = to_the_second(trace[next - 1].end - trace[first].start);
                let what = ("what", self.names.tasks(&tasks).into());
                lines.push(self.say("rehearsal-done", &[what, ("time", time.into())]));
            }
            if matches!(trace[first].what, What::Disturbed(_)) && !self.on_screen {
                lines.extend(self.responses());
            }
            if help {
                lines.extend(self.notices(first..next));
            }
            first = next;
        }
        lines
    }

    /// The answers that are offered to the disturbance that is open.
    fn responses(&self) -> Vec<String> {
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
        self.changed(before, |_| true)
    }

    /// What looks different now of what the bench decides by itself; what a step makes so when it is done is left out.
    #[must_use]
    pub fn seen_of_bench(&self, before: &[Seen]) -> Vec<String> {
        let plan = self.names.plan;
        self.changed(Some(before), |aspect| plan.aspects[aspect].gauge.is_some())
    }

    fn changed(&self, before: Option<&[Seen]>, which: impl Fn(usize) -> bool) -> Vec<String> {
        let was = |aspect: usize, cell: usize| {
            let mut before = before.unwrap_or_default().iter();
            before
                .find(|one| one.aspect == aspect && one.cells.contains(&cell))
                .map(|one| one.value)
        };
        let now = self.rehearsal.readings();
        now.iter()
            .filter(|seen| which(seen.aspect))
            .filter_map(|seen| {
                let changed = seen.cells.iter().copied();
                let changed: Vec<usize> = changed
                    .filter(|&cell| was(seen.aspect, cell) != Some(seen.value))
                    .collect();
                (!changed.is_empty()).then(|| self.state(seen, &changed))
            })
            .collect()
    }

    /// That a move has been held back by what came up.
    #[must_use]
    pub fn held_back(&self) -> String {
        self.say("rehearsal-held-back", &[])
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

    /// What can be seen, part by part. What is as it was at the start is left out, unless the next step goes by it.
    #[must_use]
    pub fn parts(&self) -> Vec<String> {
        let plan = self.names.plan;
        let open = self.rehearsal.admissible();
        let matters = |aspect: usize| {
            let mut open = open.iter().map(|&task| &plan.tasks[task]);
            open.any(|task| match &task.keeping {
                Some(TaskKeeping::Watch { sign, .. }) => sign.aspect == aspect,
                Some(TaskKeeping::Judge { until, .. }) => {
                    until.iter().any(|one| one.aspect == aspect)
                }
                _ => false,
            })
        };
        let now = self.rehearsal.readings();
        let mut lines = Vec::new();
        for part in &self.names.module.parts {
            let here = now.iter().filter(|seen| {
                self.names.module.aspects[seen.aspect].part.value == part.id.value
                    && (seen.value > 0 || matters(seen.aspect))
            });
            let here: Vec<String> = here.map(|seen| self.state(seen, &seen.cells)).collect();
            if !here.is_empty() {
                let title = ("title", part.title.as_str().into());
                lines.push(self.say("rehearsal-station", &[title]));
                lines.extend(here);
            }
        }
        if lines.is_empty() {
            lines.push(self.say("rehearsal-look-untouched", &[]));
        }
        lines
    }

    /// What can be seen, part by part, with what is worn and what runs.
    #[must_use]
    pub fn look(&self) -> Vec<String> {
        let mut lines = self.parts();
        let items = &self.names.module.protection_items;
        let worn = self.rehearsal.worn();
        if worn.is_empty() && !items.is_empty() {
            lines.push(self.say("rehearsal-look-bare", &[]));
        }
        for (item, time) in worn {
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
}
