//! Drives one run: actions in, events out, bench and plan in step.
//!
//! A move may cover several places and becomes one event for each. A move that makes no sense is refused and changes
//! nothing; a wrong move is done, with its consequences.

use std::sync::Arc;

use crate::bench::{Bench, Doing, Model, Outcome, Teeth};
use crate::rehearsal::action::Action;
use crate::rehearsal::trace::{Event, Sign, What};
use crate::rng::{Seed, Stream};
use crate::syllabus::module::{Comes, Module, Never, ProtectionKind, Step};
use crate::syllabus::operation::Operation;
use crate::syllabus::place::{self, Coordinate, Place};
use crate::syllabus::plan::{AnyCell, CellCondition, Plan, TaskIndex, TaskKeeping};
use crate::units::Millis;

/// No sign is waited for longer than this.
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

/// Draws which disturbances will come, each from its own stream.
#[must_use]
pub fn draw_disturbances(module: &Module, seed: Seed) -> Vec<usize> {
    let drawn = |index: &usize| {
        let one = &module.disturbances[*index];
        Stream::new(seed, &format!("disturbance:{}", one.id.value)).happens(one.chance)
    };
    (0..module.disturbances.len()).filter(drawn).collect()
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

    /// The tasks of a step at the places that were written.
    ///
    /// # Errors
    /// When there is no such place, or several places and none is named.
    pub fn select(&self, step: usize, at: &str) -> Result<Vec<TaskIndex>, Nonsense> {
        let tasks = &self.on.plan.tasks_of_step[step];
        let spelled = |task: &TaskIndex| {
            place::spelled(&self.on.plan.tasks[*task].place, &self.on.plan.dimensions)
        };
        let places = || tasks.iter().map(spelled).collect::<Vec<_>>();
        let at = at.trim();
        let once = tasks
            .iter()
            .all(|&task| self.on.plan.tasks[task].place.0.is_empty());
        if at == "all" || (at.is_empty() && once) {
            return Ok(tasks.clone());
        }
        if at.is_empty() {
            return Err(Nonsense::WhereTo(places()));
        }
        let no_such = || Nonsense::NoSuchPlace {
            found: at.to_owned(),
            places: places(),
        };
        let wanted = self.written_place(at).ok_or_else(no_such)?;
        let chosen: Vec<TaskIndex> = tasks
            .iter()
            .copied()
            .filter(|&task| {
                let place = &self.on.plan.tasks[task].place;
                !place.0.is_empty()
                    && place.overlaps(&wanted)
                    && wanted.0.iter().all(|one| place.along(one.base).is_some())
            })
            .collect();
        if chosen.is_empty() || once {
            return Err(no_such());
        }
        Ok(chosen)
    }

    /// Reads `5-6/facial`: numbers count teeth, names are looked up.
    fn written_place(&self, at: &str) -> Option<Place> {
        let mut coordinates = Vec::new();
        for part in at.split(['/', ' ']).filter(|part| !part.is_empty()) {
            let number = |text: &str| text.parse::<u16>().ok();
            let range = match part.split_once('-') {
                Some((low, high)) => number(low).zip(number(high)),
                None => number(part).map(|one| (one, one)),
            };
            let coordinate = if let Some((low, high)) = range {
                let base = self.counted?;
                let steps = &self.on.plan.dimensions[base].steps;
                let last = steps.last()?.1;
                (1 <= low && low <= high && high <= last).then_some(Coordinate {
                    base,
                    low,
                    high,
                })?
            } else {
                let named = self.on.plan.dimensions.iter().enumerate();
                named
                    .filter_map(|(base, one)| {
                        let at = one.names.iter().position(|name| name == part)?;
                        let at = u16::try_from(at).ok()?;
                        Some(Coordinate {
                            base,
                            low: at,
                            high: at,
                        })
                    })
                    .next()?
            };
            coordinates.push(coordinate);
        }
        (!coordinates.is_empty()).then_some(Place(coordinates))
    }

    /// The teeth and the side of a place, as the bench wants them.
    fn doing<'a>(
        &self,
        place: &Place,
        ways: &'a [(String, String)],
        handling: Millis,
        timed: Millis,
    ) -> Doing<'a> {
        let teeth = self.counted.and_then(|base| place.along(base));
        let side = self.named.and_then(|base| place.along(base));
        Doing {
            teeth: teeth.map(|(first, last)| Teeth { first, last }),
            side: side.and_then(|(low, _)| u8::try_from(low).ok()),
            ways,
            handling,
            timed,
        }
    }

    /// Does one task. Returns whether the bench let it.
    fn perform(&mut self, index: TaskIndex, options: &[usize], timed: Option<Millis>) -> bool {
        let on = Arc::clone(&self.on);
        let (module, plan) = (&on.module, &on.plan);
        let task = &plan.tasks[index];
        let step = &module.steps[task.step];
        let start = self.clock();
        if let Some(refused) = task.refused_if.iter().position(|one| self.holds(one)) {
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
            if make.with.iter().all(|&other| self.done[other]) {
                let first = plan.aspects[make.aspect].first_cell;
                self.cells[first + make.cell] = make.value;
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

    /// A disturbance that is still open when the work goes on has been left as it was.
    fn settle(&mut self) {
        if let Some(disturbance) = self.open.take() {
            let event = self.event(self.clock(), What::CarriedOn(disturbance));
            self.trace.push(event);
        }
    }

    /// Takes the next disturbance that comes at this moment.
    fn due(&mut self, now: impl Fn(&Comes) -> bool) -> Option<usize> {
        let at = self
            .coming
            .iter()
            .position(|&one| now(&self.on.module.disturbances[one].comes))?;
        Some(self.coming.remove(at))
    }

    fn disturb(&mut self, index: usize) {
        let on = Arc::clone(&self.on);
        let module = &on.module;
        let disturbance = &module.disturbances[index];
        let doing = self.doing(&Place::default(), &[], Millis::ZERO, Millis::ZERO);
        self.bench.perform(&disturbance.does, &doing);
        for name in &disturbance.takes_off {
            if let Some(item) = self.item(&name.value) {
                self.switch(item, None);
            }
        }
        let event = self.event(self.clock(), What::Disturbed(index));
        self.trace.push(event);
        self.open = Some(index);
    }

    fn respond(&mut self, response: &str) -> Result<(), Nonsense> {
        let open = self.open.ok_or(Nonsense::NothingToAnswer)?;
        let on = Arc::clone(&self.on);
        let module = &on.module;
        let responses = &module.disturbances[open].responses;
        let Some(chosen) = responses.iter().position(|one| one.id.value == response) else {
            return Err(Nonsense::NoSuchResponse {
                found: response.to_owned(),
                responses: responses.iter().map(|one| one.id.value.clone()).collect(),
            });
        };
        let start = self.clock();
        let doing = self.doing(
            &Place::default(),
            &[],
            responses[chosen].takes,
            Millis::ZERO,
        );
        self.bench.perform(&responses[chosen].does, &doing);
        for name in &responses[chosen].puts_on {
            if let Some(item) = self.item(&name.value) {
                self.switch(item, Some(self.clock()));
            }
        }
        self.open = None;
        let event = self.event(start, What::Answered(open, chosen));
        self.trace.push(event);
        Ok(())
    }

    fn item(&self, id: &str) -> Option<usize> {
        self.on
            .module
            .protection_items
            .iter()
            .position(|one| one.id.value == id)
    }

    fn item_of(&self, id: &str, kind: ProtectionKind) -> Result<usize, Nonsense> {
        let items = &self.on.module.protection_items;
        self.item(id)
            .filter(|&item| items[item].kind == kind)
            .ok_or_else(|| Nonsense::NoSuchItem {
                found: id.to_owned(),
                items: items
                    .iter()
                    .filter(|one| one.kind == kind)
                    .map(|one| one.id.value.clone())
                    .collect(),
            })
    }

    fn put_on(&mut self, id: &str, kind: ProtectionKind) -> Result<(), Nonsense> {
        let item = self.item_of(id, kind)?;
        self.switch(item, Some(self.clock()));
        let event = self.event(self.clock(), What::PutOn(item));
        self.trace.push(event);
        Ok(())
    }

    fn take_off(&mut self, id: &str, kind: ProtectionKind) -> Result<(), Nonsense> {
        let item = self.item_of(id, kind)?;
        self.switch(item, None);
        let event = self.event(self.clock(), What::TookOff(item));
        self.trace.push(event);
        Ok(())
    }

    fn switch(&mut self, item: usize, since: Option<Millis>) {
        self.worn[item] = since;
        let written = &self.on.module.protection_items[item];
        if written.kind == ProtectionKind::Running {
            self.bench.set_running(&written.id.value, since.is_some());
        }
    }

    /// The value of one cell.
    #[must_use]
    pub fn value(&self, aspect: usize, cell: usize) -> usize {
        let compiled = &self.on.plan.aspects[aspect];
        match &compiled.gauge {
            Some(gauge) => {
                let tooth = self
                    .counted
                    .and_then(|base| compiled.cells[cell].along(base))
                    .map(|(low, _)| low);
                // What the model has nothing to read for stays as it was at first; the check refuses such modules.
                self.bench
                    .read(gauge.kind, &gauge.of.value, tooth)
                    .unwrap_or(0)
            }
            None => self.cells[compiled.first_cell + cell],
        }
    }

    fn holds(&self, condition: &CellCondition) -> bool {
        condition
            .cells
            .iter()
            .all(|&cell| condition.allows(self.value(condition.aspect, cell)))
    }

    /// The cells that are in a state.
    fn cells_in<'s>(&'s self, state: &'s AnyCell) -> impl Iterator<Item = usize> + 's {
        (0..self.on.plan.aspects[state.aspect].cells.len()).filter(|&cell| {
            let value = self.value(state.aspect, cell);
            value < 32 && state.allowed & (1 << value) != 0
        })
    }

    /// The guards that apply now to work at a station (`None`: no station, only guards that apply everywhere).
    fn guards_in_force(&self, station: Option<usize>) -> Vec<usize> {
        (0..self.on.plan.guards.len())
            .filter(|&index| {
                let guard = &self.on.plan.guards[index];
                let here = guard.during.is_empty()
                    || station.is_some_and(|station| guard.during.contains(&station));
                here && guard
                    .holds_while
                    .iter()
                    .all(|one| self.cells_in(one).next().is_some())
            })
            .collect()
    }

    /// The guards that were not met, and for how long.
    ///
    /// Hands and face are near the work only while somebody is: at a machine that runs by itself, what is worn counts for the
    /// handling alone; what runs in the room counts for the whole time.
    fn missing(&self, guards: &[usize], start: Millis, near: Millis) -> Vec<(usize, Millis)> {
        let time = self.clock() - start;
        let bare = guards.iter().filter_map(|&guard| {
            let item = self.on.plan.guards[guard].item;
            let time = match self.on.module.protection_items[item].kind {
                ProtectionKind::Worn => near.min(time),
                ProtectionKind::Running => time,
            };
            (self.worn[item].is_none() && time > Millis::ZERO).then_some((guard, time))
        });
        bare.collect()
    }

    /// What is worn past its change interval while hands are at the work, and by how much.
    fn stale(&self, guards: &[usize], start: Millis, near: Millis) -> Vec<(usize, Millis)> {
        let mut stale = Vec::new();
        for &guard in guards {
            let item = self.on.plan.guards[guard].item;
            let limit = self.on.module.protection_items[item].change_every;
            if let (Some(since), Some(limit)) = (self.worn[item], limit) {
                let over = start + near - since - limit;
                if over > Millis::ZERO && !stale.contains(&(item, over)) {
                    stale.push((item, over));
                }
            }
        }
        stale
    }

    fn crowded(&self) -> Vec<(usize, Vec<usize>)> {
        let rules = self.on.plan.more_than.iter().enumerate();
        rules
            .map(|(index, rule)| {
                (
                    index,
                    self.cells_in(&rule.of).collect::<Vec<_>>(),
                    rule.count,
                )
            })
            .filter(|(_, cells, most)| cells.len() > *most)
            .map(|(index, cells, _)| (index, cells))
            .collect()
    }

    /// Everything that can be seen now.
    #[must_use]
    pub fn readings(&self) -> Vec<Seen> {
        let mut all: Vec<Seen> = Vec::new();
        for (aspect, compiled) in self.on.plan.aspects.iter().enumerate() {
            if !self.on.module.aspects[aspect].seen {
                continue;
            }
            for cell in 0..compiled.cells.len() {
                let value = self.value(aspect, cell);
                match all
                    .iter_mut()
                    .find(|one| one.aspect == aspect && one.value == value)
                {
                    Some(seen) => seen.cells.push(cell),
                    None => all.push(Seen {
                        aspect,
                        value,
                        cells: vec![cell],
                    }),
                }
            }
        }
        all
    }

    /// How long the timed part of a task must last until the sign it is kept by shows, if it does within an hour.
    #[must_use]
    pub fn sign_time(&self, index: TaskIndex, options: &[usize]) -> Option<Millis> {
        let task = &self.on.plan.tasks[index];
        let step = &self.on.module.steps[task.step];
        let ways = chosen_ways(step, options);
        let doing = self.doing(&task.place, &ways, task.takes, Millis::ZERO);
        match &task.keeping {
            Some(TaskKeeping::Watch { sign, .. }) => {
                self.time_until(&self.bench, &step.does, &doing, std::slice::from_ref(sign))
            }
            Some(TaskKeeping::Judge { until, portion }) => {
                let needed = self.time_until(&self.bench, &step.does, &doing, until)?;
                let portions = (needed.0 + portion.0 - 1)
                    .div_euclid(portion.0.max(1))
                    .max(1);
                Some(Millis(portions * portion.0))
            }
            _ => None,
        }
    }

    fn time_until(
        &self,
        bench: &Bench,
        does: &[Operation],
        doing: &Doing,
        sign: &[CellCondition],
    ) -> Option<Millis> {
        // The sign is read on a copy of the bench; only its gauges can be a sign.
        let shows = |bench: &Bench| -> bool {
            sign.iter().all(|condition| {
                let compiled = &self.on.plan.aspects[condition.aspect];
                let Some(gauge) = &compiled.gauge else {
                    return false;
                };
                condition.cells.iter().all(|&cell| {
                    let tooth = self
                        .counted
                        .and_then(|base| compiled.cells[cell].along(base))
                        .map(|(low, _)| low);
                    bench
                        .read(gauge.kind, &gauge.of.value, tooth)
                        .is_some_and(|value| condition.allows(value))
                })
            })
        };
        bench.time_until(does, doing, shows, SIGN_AT_MOST)
    }

    /// A copy of the run in which a task has just been done, to show what one more portion would look like.
    #[must_use]
    pub fn after(&self, index: TaskIndex, options: &[usize], timed: Millis) -> Rehearsal {
        let mut copy = self.clone();
        copy.perform(index, options, Some(timed));
        copy
    }
}

/// The options by index: named ones, and the first right one for every way that is not named.
///
/// # Errors
/// When a way or an option does not exist.
pub fn options(step: &Step, named: &[(String, String)]) -> Result<Vec<usize>, Nonsense> {
    for (way, _) in named {
        if !step.ways.iter().any(|one| one.id.value == *way) {
            return Err(Nonsense::NoSuchWay {
                found: way.clone(),
                ways: step.ways.iter().map(|one| one.id.value.clone()).collect(),
            });
        }
    }
    step.ways
        .iter()
        .map(|way| {
            let Some((_, option)) = named.iter().rev().find(|(one, _)| *one == way.id.value) else {
                return Ok(way
                    .options
                    .iter()
                    .position(|one| one.wrong.is_none())
                    .unwrap_or(0));
            };
            way.options
                .iter()
                .position(|one| one.id.value == *option)
                .ok_or_else(|| Nonsense::NoSuchOption {
                    found: option.clone(),
                    options: way.options.iter().map(|one| one.id.value.clone()).collect(),
                })
        })
        .collect()
}

fn chosen_ways(step: &Step, options: &[usize]) -> Vec<(String, String)> {
    step.ways
        .iter()
        .zip(options)
        .map(|(way, &option)| (way.id.value.clone(), way.options[option].id.value.clone()))
        .collect()
}
