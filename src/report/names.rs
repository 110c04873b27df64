//! How steps, places, conditions and case choices are called in a sentence.

use crate::syllabus::module::{CaseChoice, Condition, Module, Step};
use crate::syllabus::place::{Place, spelled};
use crate::syllabus::plan::{CellCondition, Plan, TaskIndex};
use crate::text::{Words, display_safe};

/// The most places or steps that are named one by one; the rest is counted.
const NAMED_MOST: usize = 8;

/// A module and a plan of it, with a language to name their things in.
#[derive(Clone, Copy)]
pub(super) struct Names<'a> {
    pub(super) module: &'a Module,
    pub(super) plan: &'a Plan,
    pub(super) words: &'a Words,
}

impl<'a> Names<'a> {
    /// The step of a task.
    pub(super) fn step(&self, task: TaskIndex) -> &'a Step {
        &self.module.steps[self.plan.tasks[task].step]
    }

    /// A place as it is said: `5-6 facial`. Empty for the whole part.
    pub(super) fn place(&self, place: &Place) -> String {
        let all = spelled(place, &self.plan.dimensions);
        match all.split_once('/') {
            None => display_safe(&all),
            Some((first, rest)) => self.words.say(
                "debrief-place-within",
                &[
                    ("first", first.into()),
                    ("rest", rest.replace('/', " ").into()),
                ],
            ),
        }
    }

    /// A list of which only the first ones are named.
    pub(super) fn listed(&self, items: Vec<String>) -> String {
        self.listed_to(items, NAMED_MOST)
    }

    fn listed_to(&self, mut items: Vec<String>, most: usize) -> String {
        let left = items.len().saturating_sub(most);
        if left == 0 {
            return self.words.write(&items.into());
        }
        items.truncate(most);
        // A list that goes on has no "and" before its last named entry.
        let named = items
            .into_iter()
            .reduce(|first, rest| {
                self.words.say(
                    "units-list-middle",
                    &[("first", first.into()), ("rest", rest.into())],
                )
            })
            .unwrap_or_default();
        self.words.say(
            "debrief-and-more",
            &[("named", named.into()), ("count", left.into())],
        )
    }

    /// The steps of tasks by title, the first ones in quotation marks, the others counted.
    pub(super) fn steps(&self, tasks: &[TaskIndex], most: usize) -> String {
        let mut steps: Vec<usize> = tasks.iter().map(|&one| self.plan.tasks[one].step).collect();
        steps.sort_unstable();
        steps.dedup();
        let titles = steps.into_iter().map(|step| {
            let title = ("title", self.module.steps[step].title.as_str().into());
            self.words.say("debrief-quoted", &[title])
        });
        self.listed_to(titles.collect(), most)
    }

    /// Tasks by title and place; those of several steps by title alone.
    pub(super) fn tasks(&self, tasks: &[TaskIndex]) -> String {
        let mut steps: Vec<usize> = Vec::new();
        for &task in tasks {
            let step = self.plan.tasks[task].step;
            if !steps.contains(&step) {
                steps.push(step);
            }
        }
        let [step] = steps[..] else {
            let titles = steps
                .iter()
                .map(|&step| display_safe(&self.module.steps[step].title));
            return self.listed(titles.collect());
        };
        let title = &self.module.steps[step].title;
        let all = self.plan.tasks_of_step[step].len();
        let places: Vec<String> = tasks
            .iter()
            .map(|&task| self.place(&self.plan.tasks[task].place))
            .filter(|place| !place.is_empty())
            .collect();
        if places.is_empty() {
            display_safe(title)
        } else if places.len() == all && all > 2 {
            let values = [("what", title.as_str().into()), ("count", all.into())];
            self.words.say("debrief-at-all-places", &values)
        } else {
            let places = self.listed(places);
            let values = [("what", title.as_str().into()), ("places", places.into())];
            self.words.say("debrief-at-places", &values)
        }
    }

    /// A station by its title.
    pub(super) fn station(&self, id: &str) -> String {
        let all = &self.module.stations;
        let found = all.iter().find(|one| one.id.value == id);
        display_safe(found.map_or(id, |one| &one.title))
    }

    /// A condition as the module wrote it.
    pub(super) fn condition(&self, condition: &Condition) -> String {
        self.condition_as(condition, condition.negated)
    }

    /// A condition, negated or not whatever the module wrote.
    pub(super) fn condition_as(&self, condition: &Condition, negated: bool) -> String {
        let aspect = self
            .module
            .aspects
            .iter()
            .find(|one| one.id.value == condition.aspect.value);
        let title = aspect.map_or(&condition.aspect.value, |one| &one.title);
        let looks = |id: &str| {
            aspect
                .and_then(|one| one.values.iter().find(|value| value.id.value == id))
                .map_or(id.to_owned(), |value| value.looks.clone())
        };
        let values: Vec<String> = condition
            .values
            .iter()
            .map(|value| looks(&value.value))
            .collect();
        self.state(title, values, negated)
    }

    /// A condition of a plan.
    pub(super) fn cells(&self, condition: &CellCondition) -> String {
        let aspect = &self.module.aspects[condition.aspect];
        let values = aspect.values.iter().enumerate();
        let values = values.filter(|(value, _)| condition.allows(*value));
        let values = values.map(|(_, value)| value.looks.clone()).collect();
        self.state(&aspect.title, values, false)
    }

    fn state(&self, aspect: &str, mut values: Vec<String>, negated: bool) -> String {
        let count = values.len();
        let values = if count == 1 {
            values.remove(0).into()
        } else {
            values.into()
        };
        let values = [("aspect", aspect.into()), ("values", values)];
        match (negated, count) {
            (true, _) => self.words.say("debrief-state-not", &values),
            (false, 0 | 1) => self.words.say("debrief-state", &values),
            (false, _) => self.words.say("debrief-state-one-of", &values),
        }
    }

    /// The case card, choice by choice: title and value.
    pub(super) fn card(&self) -> Vec<(String, String)> {
        let title = |choice: &CaseChoice| display_safe(&choice.title);
        let choices = self.module.case.iter();
        choices
            .filter_map(|choice| {
                let value = self.plan.card.get(&choice.id.value)?;
                Some((title(choice), display_safe(&value.to_string())))
            })
            .collect()
    }
}
