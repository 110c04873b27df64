//! Drives one run: actions in, events out, bench and plan in step.
//!
//! A move may cover several places and becomes one event for each. A move that makes no sense is refused and changes
//! nothing; a wrong move is done, with its consequences.

mod choose;
mod disturb;
mod protect;
mod see;

use choose::chosen_ways;
pub use choose::options;
pub use disturb::draw_disturbances;
use std::sync::Arc;

use crate::bench::{Bench, Model, Outcome};
use crate::rehearsal::action::Action;
use crate::rehearsal::trace::{Event, Sign, What};
use crate::rng::Seed;
use crate::syllabus::module::{Comes, Module, Never, ProtectionKind};
use crate::syllabus::place::Place;
use crate::syllabus::plan::{Plan, TaskIndex, TaskKeeping};
use crate::units::Millis;

/// No sign is waited for longer than this (our default).
pub const SIGN_AT_MOST: Millis = Millis::minutes(60);

/// Why a move makes no sense. Nothing has changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Nonsense {
    /// No step or act has this id.
    NoSuchMove(String),
    /// The step is not done at such a place; holds the places as they would be written.
    NoSuchPlace {
        /// What was written.
        found: String,
        /// The places there are.
        places: Vec<String>,
    },
    /// The step is done at several places and none was named; holds them.
    WhereTo(Vec<String>),
    /// The step is timed and no time was given.
    HowLong,
    /// The step is not timed.
    NotTimed,
    /// The time is below zero or beyond a day.
    TimeOutOfRange,
    /// The step has no such way; holds those it has.
    NoSuchWay {
        /// What was written.
        found: String,
        /// The ways there are.
        ways: Vec<String>,
    },
    /// The way has no such option; holds those it has.
    NoSuchOption {
        /// What was written.
        found: String,
        /// The options there are.
        options: Vec<String>,
    },
    /// No protection item has this id, or it is not of this kind; holds those that would do.
    NoSuchItem {
        /// What was written.
        found: String,
        /// The items there are.
        items: Vec<String>,
    },
    /// Nothing is waiting for an answer.
    NothingToAnswer,
    /// The open disturbance has no such response; holds those it has.
    NoSuchResponse {
        /// What was written.
        found: String,
        /// The responses there are.
        responses: Vec<String>,
    },
    /// The run is over.
    Over,
}

/// The longest time that one move may take.
const TIME_MOST: Millis = Millis::minutes(24 * 60);

/// What an action led to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Acted {
    /// The numbers of the events it made.
    pub events: std::ops::Range<usize>,
    /// Whether a disturbance showed just before the move, which has not been made then.
    pub held_back: bool,
}

/// What can be seen of one aspect.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen {
    /// The aspect, by index.
    pub aspect: usize,
    /// The value, by index.
    pub value: usize,
    /// The cells that have it.
    pub cells: Vec<usize>,
}

/// A module, its plan and its bench for one case card: all that runs on them share.
#[derive(Debug)]
pub struct Prepared {
    /// The module, its profile applied.
    pub module: Module,
    /// The plan.
    pub plan: Plan,
    /// The bench.
    pub model: Arc<Model>,
}

/// One run in progress.
#[derive(Clone, Debug)]
pub struct Rehearsal {
    on: Arc<Prepared>,
    bench: Bench,
    /// The value of every cell that the bench does not decide.
    cells: Vec<usize>,
    done: Vec<bool>,
    /// Since when each protection item is worn or running.
    worn: Vec<Option<Millis>>,
    trace: Vec<Event>,
    /// Disturbances still to come, by index.
    coming: Vec<usize>,
    /// The disturbance that waits for an answer.
    open: Option<usize>,
    over: bool,
    /// The dimension of teeth, and of sides.
    counted: Option<usize>,
    named: Option<usize>,
}

impl Rehearsal {
    /// Starts a run. `coming` holds the disturbances that will come, by index in the module.
    #[must_use]
    pub fn new(on: &Arc<Prepared>, seed: Seed, coming: Vec<usize>) -> Rehearsal {
        let (module, plan) = (&on.module, &on.plan);
        let base = |named: bool| {
            plan.dimensions
                .iter()
                .position(|one| one.names.is_empty() != named)
        };
        Rehearsal {
            on: Arc::clone(on),
            bench: Bench::new(&on.model, seed),
            cells: vec![0; plan.cell_count()],
            done: vec![false; plan.tasks.len()],
            worn: vec![None; module.protection_items.len()],
            trace: Vec::with_capacity(plan.tasks.len() + 16),
            coming,
            open: None,
            over: false,
            counted: base(false).map(|index| plan.dimensions[index].base),
            named: base(true),
        }
    }

    /// The module.
    #[must_use]
    pub fn module(&self) -> &Module {
        &self.on.module
    }

    /// The plan.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        &self.on.plan
    }

    /// The time since the start.
    #[must_use]
    pub fn clock(&self) -> Millis {
        self.bench.clock()
    }

    /// What has happened.
    #[must_use]
    pub fn trace(&self) -> &[Event] {
        &self.trace
    }

    /// Whether the run has been handed over or given up.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.over
    }

    /// The disturbance that waits for an answer.
    #[must_use]
    pub fn open_disturbance(&self) -> Option<usize> {
        self.open
    }

    /// The protection items worn or running, by index, with how long.
    #[must_use]
    pub fn worn(&self) -> Vec<(usize, Millis)> {
        let clock = self.clock();
        let worn = self.worn.iter().enumerate();
        worn.filter_map(|(item, since)| since.map(|since| (item, clock - since)))
            .collect()
    }

    /// Whether a task has been done.
    #[must_use]
    pub fn is_done(&self, task: TaskIndex) -> bool {
        self.done[task]
    }

    /// The tasks that may come next: not done, everything before them done (optional ones may be passed over).
    #[must_use]
    pub fn admissible(&self) -> Vec<TaskIndex> {
        (0..self.on.plan.tasks.len())
            .filter(|&task| {
                let mut before = self.on.plan.order.predecessors(task);
                let mut after = self.on.plan.order.successors(task);
                !self.done[task]
                    && before.all(|one| self.done[one] || !self.on.plan.tasks[one].required)
                    && !after.any(|one| self.done[one])
            })
            .collect()
    }

    /// Ends the run and hands out its trace and the bench's outcome.
    #[must_use]
    pub fn into_parts(self) -> (Vec<Event>, Outcome) {
        let outcome = self.bench.outcome();
        (self.trace, outcome)
    }

    /// Does one action.
    ///
    /// # Errors
    /// [`Nonsense`] when the action makes no sense; nothing has changed then.
    pub fn act(&mut self, action: &Action) -> Result<Acted, Nonsense> {
        if self.over {
            return Err(Nonsense::Over);
        }
        let first = self.trace.len();
        let mut held_back = false;
        match action {
            Action::Do {
                what,
                at,
                ways,
                timed,
            } => held_back = self.make_move(what, at, ways, *timed)?,
            Action::Wear { item } => self.put_on(item, ProtectionKind::Worn)?,
            Action::Start { item } => self.put_on(item, ProtectionKind::Running)?,
            Action::TakeOff { item } => self.take_off(item, ProtectionKind::Worn)?,
            Action::Stop { item } => self.take_off(item, ProtectionKind::Running)?,
            Action::Look => {}
            Action::Wait { time } => {
                if !(Millis::ZERO..=TIME_MOST).contains(time) {
                    return Err(Nonsense::TimeOutOfRange);
                }
                let start = self.clock();
                self.bench.wait(*time);
                let guards = self.guards_in_force(None);
                let mut event = self.event(start, What::Waited);
                event.bare = self.missing(&guards, start, *time);
                self.trace.push(event);
            }
            Action::Respond { response } => self.respond(response)?,
            Action::Finish | Action::Abandon => {
                self.settle();
                let end = if *action == Action::Finish {
                    What::Finished
                } else {
                    What::Abandoned
                };
                let event = self.event(self.clock(), end);
                self.trace.push(event);
                self.over = true;
            }
        }
        Ok(Acted {
            events: first..self.trace.len(),
            held_back,
        })
    }

    fn event(&self, start: Millis, what: What) -> Event {
        Event {
            start,
            end: self.clock(),
            what,
            unmet: Vec::new(),
            sign: Sign::None,
            bare: Vec::new(),
            stale: Vec::new(),
            crowded: Vec::new(),
        }
    }

    /// Makes a move. Returns whether a disturbance held it back.
    fn make_move(
        &mut self,
        what: &str,
        at: &str,
        ways: &[(String, String)],
        timed: Option<Millis>,
    ) -> Result<bool, Nonsense> {
        if timed.is_some_and(|time| !(Millis::ZERO..=TIME_MOST).contains(&time)) {
            return Err(Nonsense::TimeOutOfRange);
        }
        let on = Arc::clone(&self.on);
        let module = &on.module;
        let Some(step) = module.steps.iter().position(|step| step.id.value == what) else {
            let act = module
                .never
                .iter()
                .position(|rule| matches!(rule, Never::Act(act) if act.id.value == what));
            let act = act.ok_or_else(|| Nonsense::NoSuchMove(what.to_owned()))?;
            self.settle();
            self.forbidden(act);
            return Ok(false);
        };
        let tasks = self.select(step, at)?;
        let options = options(&module.steps[step], ways)?;
        match (&module.steps[step].keeping, timed) {
            (Some(_), None) => return Err(Nonsense::HowLong),
            (None, Some(_)) => return Err(Nonsense::NotTimed),
            _ => {}
        }
        self.settle();
        if let Some(disturbance) =
            self.due(|comes| matches!(comes, Comes::Before(name) if name.value == what))
        {
            self.disturb(disturbance);
            return Ok(true);
        }
        for task in tasks {
            if !self.perform(task, &options, timed) {
                break;
            }
        }
        if let Some(disturbance) =
            self.due(|comes| matches!(comes, Comes::After(name) if name.value == what))
        {
            self.disturb(disturbance);
        }
        Ok(false)
    }

    /// Does one task. Returns whether the bench let it.
    fn perform(&mut self, index: TaskIndex, options: &[usize], timed: Option<Millis>) -> bool {
        let on = Arc::clone(&self.on);
        let (module, plan) = (&on.module, &on.plan);
        let task = &plan.tasks[index];
        let step = &module.steps[task.step];
        let start = self.clock();
        if let Some(refused) = task.refused_if.iter().position(|one| self.touches(one)) {
            let event = self.event(start, What::Refused(index, refused));
            self.trace.push(event);
            return false;
        }
        let unmet: Vec<usize> = (0..task.needs.len())
            .filter(|&need| !self.holds(&task.needs[need]))
            .collect();
        let station = self
            .on
            .module
            .stations
            .iter()
            .position(|one| one.id.value == step.at.value);
        let guards = self.guards_in_force(station);
        let ways = chosen_ways(step, options);
        let doing = self.doing(
            &task.place,
            &ways,
            task.takes,
            timed.unwrap_or(Millis::ZERO),
        );
        let wanted = match &task.keeping {
            Some(TaskKeeping::Watch { sign, .. }) => std::slice::from_ref(sign),
            Some(TaskKeeping::Judge { until, .. }) => until.as_slice(),
            _ => &[],
        };
        // When the sign comes is known before the work is done; looking it up is left out where it need not be known.
        let before = (!wanted.is_empty()).then(|| self.bench.clone());
        self.bench.perform(&step.does, &doing);
        let comes = |bench: &Bench| self.time_until(bench, &step.does, &doing, wanted);
        let sign = match (&task.keeping, &before) {
            (Some(TaskKeeping::Watch { .. }), Some(before)) => {
                comes(before).map_or(Sign::Never, Sign::After)
            }
            (Some(TaskKeeping::Judge { .. }), Some(before)) => {
                if wanted.iter().all(|one| self.holds(one)) {
                    Sign::Shown
                } else if comes(before).is_some() {
                    Sign::NotShown
                } else {
                    Sign::Never
                }
            }
            _ => Sign::None,
        };
        self.done[index] = true;
        for make in &task.makes {
            let cell = plan.aspects[make.aspect].first_cell + make.cell;
            // Done late, it does not undo what has been done after it in the order of the work.
            let stands = self.cells[cell] > make.value
                && plan.order.successors(index).any(|then| {
                    self.done[then]
                        && plan.tasks[then].makes.iter().any(|later| {
                            (later.aspect, later.cell) == (make.aspect, make.cell)
                                && later.value > make.value
                        })
                });
            if !stands && make.with.iter().all(|&other| self.done[other]) {
                self.cells[cell] = make.value;
            }
        }
        let mut event = self.event(
            start,
            What::Task {
                task: index,
                options: options.to_vec(),
                timed,
            },
        );
        event.unmet = unmet;
        event.sign = sign;
        let near = if task.attended {
            self.clock() - start
        } else {
            task.takes
        };
        event.bare = self.missing(&guards, start, near);
        event.stale = self.stale(&guards, start, near);
        event.crowded = self.crowded();
        self.trace.push(event);
        true
    }

    fn forbidden(&mut self, rule: usize) {
        let on = Arc::clone(&self.on);
        let (module, plan) = (&on.module, &on.plan);
        let Never::Act(act) = &module.never[rule] else {
            return;
        };
        let start = self.clock();
        let station = self
            .on
            .module
            .stations
            .iter()
            .position(|one| one.id.value == act.at.value);
        let guards = self.guards_in_force(station);
        let doing = self.doing(&Place::default(), &[], act.takes, Millis::ZERO);
        self.bench.perform(&act.does, &doing);
        if let Some(act) = plan.acts.iter().find(|one| one.rule == rule) {
            for &(aspect, cell, value) in &act.makes {
                self.cells[plan.aspects[aspect].first_cell + cell] = value;
            }
        }
        let mut event = self.event(start, What::Act(rule));
        event.bare = self.missing(&guards, start, act.takes);
        event.crowded = self.crowded();
        self.trace.push(event);
    }
}
