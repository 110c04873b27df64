//! What is asked before a step is done: where, in which way, for how long. One question at a time.

use crate::rehearsal::action::Action;
use crate::rehearsal::drive::Rehearsal;
use crate::rng::{Seed, Stream};
use crate::syllabus::module::{Module, Step};
use crate::syllabus::place::spelled;
use crate::syllabus::plan::{TaskIndex, TaskKeeping};
use crate::tui::list::{Choice, Scroll};
use crate::units::Millis;

use super::timing::Timing;

/// What is being asked.
#[derive(Clone, Debug)]
pub(super) enum Question {
    /// At which of its places the step is to be done.
    Places,
    /// Which option of a way, by index of the way.
    Way(usize),
    /// How long.
    Time(Timing),
}

/// A step that is about to be done.
#[derive(Clone, Debug)]
pub(super) struct Sheet {
    /// The step, by index.
    pub(super) step: usize,
    /// Its tasks, one for each place.
    pub(super) tasks: Vec<TaskIndex>,
    /// Which of them are chosen.
    pub(super) chosen: Vec<bool>,
    /// The option taken for each way, as far as it has been answered.
    pub(super) options: Vec<Option<usize>>,
    /// What is being asked.
    pub(super) question: Question,
    /// The row that Enter would take.
    pub(super) choice: Choice,
    /// How far what is worth reading has been scrolled.
    pub(super) scroll: Scroll,
}

impl Sheet {
    /// Begins with the first question; `None` when there is nothing to ask.
    pub(super) fn open(
        rehearsal: &Rehearsal,
        step: usize,
        suggested: &[TaskIndex],
    ) -> Option<Sheet> {
        let tasks = rehearsal.plan().tasks_of_step[step].clone();
        let chosen: Vec<bool> = tasks.iter().map(|task| suggested.contains(task)).collect();
        let first_open = match chosen.iter().position(|one| *one) {
            Some(at) => at,
            None => tasks
                .iter()
                .position(|&task| !rehearsal.is_done(task))
                .unwrap_or(0),
        };
        let mut sheet = Sheet {
            step,
            chosen,
            options: vec![None; rehearsal.module().steps[step].ways.len()],
            question: Question::Places,
            choice: Choice { at: first_open },
            scroll: Scroll::default(),
            tasks,
        };
        if sheet.tasks.len() > 1 {
            return Some(sheet);
        }
        sheet.chosen = vec![true; sheet.tasks.len()];
        sheet.ask_next(rehearsal).then_some(sheet)
    }

    /// Goes on to the next question. Returns whether there is one.
    pub(super) fn ask_next(&mut self, rehearsal: &Rehearsal) -> bool {
        self.choice = Choice::NONE;
        if let Some(way) = self.options.iter().position(Option::is_none) {
            self.question = Question::Way(way);
            return true;
        }
        let first = self.tasks_chosen().next();
        let keeping = first.and_then(|task| rehearsal.plan().tasks[task].keeping.clone());
        match (&self.question, keeping) {
            (Question::Time(_), _) | (_, None) => false,
            (_, Some(keeping)) => {
                self.question = Question::Time(match keeping {
                    TaskKeeping::Timer(_) => Timing::typed(),
                    TaskKeeping::Count(_) => Timing::Count { since: None },
                    TaskKeeping::Watch { within, .. } => Timing::watch(within),
                    TaskKeeping::Judge { portion, .. } => Timing::Judge {
                        portion,
                        time: Millis::ZERO,
                    },
                });
                true
            }
        }
    }

    /// Goes back to the question before. Returns whether there was one.
    pub(super) fn ask_before(&mut self) -> bool {
        let answered = self.options.iter().rposition(Option::is_some);
        let way = match (&self.question, answered) {
            (Question::Places, _) => return false,
            (Question::Way(_) | Question::Time(_), Some(way)) => way,
            (_, None) if self.tasks.len() > 1 => {
                self.question = Question::Places;
                self.choice = Choice::default();
                return true;
            }
            (_, None) => return false,
        };
        self.options[way] = None;
        self.question = Question::Way(way);
        self.choice = Choice::NONE;
        true
    }

    /// The tasks that are chosen.
    pub(super) fn tasks_chosen(&self) -> impl Iterator<Item = TaskIndex> + '_ {
        let all = self.tasks.iter().zip(&self.chosen);
        all.filter(|(_, chosen)| **chosen).map(|(task, _)| *task)
    }

    /// The options by index: what has been answered, else what is right.
    pub(super) fn options(&self, step: &Step) -> Vec<usize> {
        let right = |way: usize| {
            let mut options = step.ways[way].options.iter();
            options.position(|one| one.wrong.is_none()).unwrap_or(0)
        };
        let all = self.options.iter().enumerate();
        all.map(|(way, taken)| taken.unwrap_or_else(|| right(way)))
            .collect()
    }

    /// The options of a way in the order in which they are offered: shuffled by the case number, so that no letter can be learned.
    pub(super) fn offered(step: &Step, way: usize, seed: Seed) -> Vec<usize> {
        let way = &step.ways[way];
        let mut left: Vec<usize> = (0..way.options.len()).collect();
        let name = format!("offered:{}:{}", step.id.value, way.id.value);
        let mut stream = Stream::new(seed, &name);
        let mut offered = Vec::with_capacity(left.len());
        while !left.is_empty() {
            let last = i64::try_from(left.len()).unwrap_or(1) - 1;
            let at = usize::try_from(stream.between(0, last)).unwrap_or(0);
            offered.push(left.remove(at.min(left.len() - 1)));
        }
        offered
    }

    /// Whether only one place can be done at a time, because its time is kept by a person.
    pub(super) fn one_at_a_time(&self, rehearsal: &Rehearsal) -> bool {
        let keeping = self
            .tasks
            .first()
            .and_then(|&task| rehearsal.plan().tasks[task].keeping.as_ref());
        matches!(
            keeping,
            Some(TaskKeeping::Count(_) | TaskKeeping::Watch { .. } | TaskKeeping::Judge { .. })
        )
    }

    /// Marks a place, or takes its mark away.
    pub(super) fn mark(&mut self, row: usize, rehearsal: &Rehearsal) {
        let Some(was) = self.chosen.get(row).copied() else {
            return;
        };
        if self.one_at_a_time(rehearsal) {
            self.chosen.fill(false);
        }
        self.chosen[row] = !was;
    }

    /// What has been answered, as actions: places next to each other are one move.
    pub(super) fn actions(
        &self,
        module: &Module,
        rehearsal: &Rehearsal,
        timed: Option<Millis>,
    ) -> Vec<Action> {
        let step = &module.steps[self.step];
        let plan = rehearsal.plan();
        let ways = step.ways.iter().zip(&self.options);
        let ways: Vec<(String, String)> = ways
            .filter_map(|(way, taken)| {
                let option = &way.options[(*taken)?];
                Some((way.id.value.clone(), option.id.value.clone()))
            })
            .collect();
        // A place along one line of numbers can be joined with the one after it.
        let range = |task: TaskIndex| match plan.tasks[task].place.0.as_slice() {
            [one] if plan.dimensions[one.base].names.is_empty() => Some((one.low, one.high)),
            _ => None,
        };
        let mut places: Vec<String> = Vec::new();
        let mut joined: Option<(u16, u16)> = None;
        let close = |joined: &mut Option<(u16, u16)>, places: &mut Vec<String>| {
            if let Some((low, high)) = joined.take() {
                places.push(if low == high {
                    low.to_string()
                } else {
                    format!("{low}-{high}")
                });
            }
        };
        for task in self.tasks_chosen() {
            match (range(task), joined) {
                (Some((low, high)), Some((first, last))) if low == last + 1 => {
                    joined = Some((first, high));
                }
                (Some(range), _) => {
                    close(&mut joined, &mut places);
                    joined = Some(range);
                }
                (None, _) => {
                    close(&mut joined, &mut places);
                    places.push(spelled(&plan.tasks[task].place, &plan.dimensions));
                }
            }
        }
        close(&mut joined, &mut places);
        let action = |at: String| Action::Do {
            what: step.id.value.clone(),
            at,
            ways: ways.clone(),
            timed,
        };
        places.into_iter().map(action).collect()
    }
}
