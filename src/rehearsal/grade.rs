//! Grades what happened against the plan: alignment, times, manners, needs, guards, disturbances and what the bench ended with.
//!
//! Every rule that fires gives one raw finding; `blame` then decides which are roots and what followed from them. The same
//! function grades simulated runs and real ones. Left out: words, and whether anyone is competent.

use super::align::{self, Alignment, EventCost, TaskCost};
use super::blame::{self, Raw};
use super::finding::{Finding, Found, Words};
use super::trace::{Event, Sign, What};
use crate::bench::HarmAt;
use crate::syllabus::case::CaseValue;
use crate::syllabus::module::{
    CaseRange, Keeping, Miss, Module, Name, Never, Severity, Step, Tier, TimeRule,
};
use crate::syllabus::plan::{MoreThan, Plan, TaskIndex, TaskKeeping, Window, window_for};
use crate::units::{Millis, Ppm};

/// A graded run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Graded {
    /// Whether the run was handed over.
    pub finished: bool,
    /// Whether it was handed over without a critical or major root.
    pub clean: bool,
    /// The roots, the gravest first, then in order of time.
    pub roots: Vec<Finding>,
    /// The parts of the score. They decide nothing.
    pub score: Score,
}

/// The parts of the score, each with what it was counted from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Score {
    /// Order: 1 − cost of the cheapest alignment / cost of doing nothing and striking everything.
    pub order: Ppm,
    /// Timed parts inside their window, of timed parts done.
    pub in_time: (usize, usize),
    /// Time with all protection that was called for, of all time.
    pub protected: (Millis, Millis),
    /// Harms that the bench ended with.
    pub harms: usize,
}

/// Grades a trace. `harms` is what the bench ended with; empty for a real run.
#[must_use]
pub fn grade(module: &Module, plan: &Plan, trace: &[Event], harms: &[HarmAt]) -> Graded {
    let finished = trace.iter().any(|event| event.what == What::Finished);
    let mut grader = Grader {
        module,
        plan,
        trace,
        raw: Vec::new(),
        firsts: first_events(plan, trace),
    };
    let (alignment, order) = grader.order(finished);
    grader.times();
    grader.ways();
    grader.needs();
    grader.rules();
    grader.protection();
    grader.disturbances();
    let in_time = grader.in_time();
    let protected = grader.protected();
    let raw = grader.raw;
    let roots = blame::roots(module, plan, trace, &alignment, raw, harms);
    let clean = finished && roots.iter().all(|root| root.worst() < Severity::Major);
    Graded {
        finished,
        clean,
        roots,
        score: Score {
            order,
            in_time,
            protected,
            harms: harms.len(),
        },
    }
}

/// The first event of every task.
fn first_events(plan: &Plan, trace: &[Event]) -> Vec<Option<usize>> {
    let mut firsts = vec![None; plan.tasks.len()];
    for (index, event) in trace.iter().enumerate() {
        if let Some(task) = event.task() {
            firsts[task].get_or_insert(index);
        }
    }
    firsts
}

struct Grader<'g> {
    module: &'g Module,
    plan: &'g Plan,
    trace: &'g [Event],
    raw: Vec<Raw>,
    firsts: Vec<Option<usize>>,
}

/// The consequences of a miss, by index; names that stand for nothing were refused by the check.
pub(super) fn leads(module: &Module, names: &[Name]) -> Vec<usize> {
    names
        .iter()
        .filter_map(|name| {
            module
                .consequences
                .iter()
                .position(|one| one.id.value == name.value)
        })
        .collect()
}

impl Grader<'_> {
    fn step(&self, task: TaskIndex) -> &Step {
        &self.module.steps[self.plan.tasks[task].step]
    }

    /// Adds a finding about tasks, or joins it to one of the same kind about the same step.
    fn add(
        &mut self,
        what: Found,
        miss: Option<&Miss>,
        otherwise: Severity,
        words: Words,
        event: Option<usize>,
        tasks: Vec<TaskIndex>,
    ) {
        let leads_to = miss.map_or_else(Vec::new, |miss| leads(self.module, &miss.leads_to));
        let finding = Finding {
            what,
            severity: miss.map_or(otherwise, |miss| miss.severity),
            at: event.map_or(
                self.trace.last().map_or(Millis::ZERO, |event| event.end),
                |event| self.trace[event].start,
            ),
            tasks,
            leads_to,
            words,
            follow_ons: Vec::new(),
        };
        self.raw.push(Raw::new(finding, event));
    }

    /// Skipped, misplaced and repeated tasks. Returns the alignment of the task events and the order's share.
    fn order(&mut self, finished: bool) -> (Alignment, Ppm) {
        let plan = self.plan;
        let events: Vec<usize> = (0..self.trace.len())
            .filter(|&index| self.trace[index].task().is_some())
            .collect();
        let tasks: Vec<TaskCost> = (0..plan.tasks.len())
            .map(|task| TaskCost {
                skip: plan.skip_cost(task),
                critical_bonus: plan.bonus(
                    task,
                    self.step(task)
                        .errors
                        .skipped
                        .as_ref()
                        .map(|miss| miss.severity),
                ),
            })
            .collect();
        let costs: Vec<EventCost> = events
            .iter()
            .map(|&index| {
                let task = self.trace[index].task();
                let free = task
                    .is_some_and(|task| plan.tasks[task].again && self.firsts[task] != Some(index));
                EventCost {
                    task,
                    insert: u32::from(!free),
                }
            })
            .collect();
        let alignment = align::align(&tasks, &plan.order, &costs);
        let inserts: u64 = costs.iter().map(|cost| u64::from(cost.insert)).sum();
        let skips: u64 = tasks.iter().map(|cost| u64::from(cost.skip)).sum();
        let order = share(
            inserts + skips - alignment.cost.min(inserts + skips),
            inserts + skips,
        );
        let matched = |task: TaskIndex| alignment.matched.contains(&Some(task));
        for &at in &alignment.struck {
            let event = events[at];
            let Some(task) = self.trace[event].task() else {
                continue;
            };
            let miss = self.step(task).errors.misplaced.clone();
            let words = Words::Misplaced(plan.tasks[task].step);
            if !matched(task) && self.firsts[task] == Some(event) {
                let Some((against, early)) = self.crossed(task, event, &alignment, &events) else {
                    continue;
                };
                let found = Found::Misplaced { against, early };
                self.add(
                    found,
                    miss.as_ref(),
                    Severity::Minor,
                    words,
                    Some(event),
                    vec![task],
                );
            } else if !plan.tasks[task].again {
                self.add(
                    Found::Again,
                    None,
                    Severity::Minor,
                    Words::None,
                    Some(event),
                    vec![task],
                );
            }
        }
        if finished {
            for &task in &alignment.missing {
                if self.firsts[task].is_none() {
                    let miss = self.step(task).errors.skipped.clone();
                    let otherwise = if plan.tasks[task].critical {
                        Severity::Critical
                    } else {
                        Severity::Major
                    };
                    let words = Words::Skipped(plan.tasks[task].step);
                    // It was passed by when something was done that had to wait for it.
                    let passed = plan.order.successors(task);
                    let passed = passed.filter_map(|then| self.firsts[then]).min();
                    self.add(
                        Found::Skipped,
                        miss.as_ref(),
                        otherwise,
                        words,
                        passed,
                        vec![task],
                    );
                }
            }
        }
        (alignment, order)
    }

    /// The nearest kept event whose order with this task was crossed, and whether the task came too early.
    fn crossed(
        &self,
        task: TaskIndex,
        event: usize,
        alignment: &Alignment,
        events: &[usize],
    ) -> Option<(TaskIndex, bool)> {
        let order = &self.plan.order;
        alignment
            .matched
            .iter()
            .zip(events)
            .filter_map(|(kept, &at)| {
                let kept = (*kept)?;
                let early = at > event && order.precedes(kept, task);
                let late = at < event && order.precedes(task, kept);
                (early || late).then_some((at.abs_diff(event), kept, early))
            })
            .min()
            .map(|(_, kept, early)| (kept, early))
    }

    /// Timed parts against windows and signs.
    fn times(&mut self) {
        let plan = self.plan;
        for (index, event) in self.trace.iter().enumerate() {
            let What::Task {
                task,
                timed: Some(was),
                ..
            } = event.what
            else {
                continue;
            };
            let number = plan.tasks[task].step;
            let errors = self.step(task).errors.clone();
            let add =
                |grader: &mut Self, found, tier: Option<usize>, tiers: &[Tier], short: bool| {
                    let words = match (tier, short) {
                        (Some(tier), true) => Words::Short(number, tier),
                        (Some(tier), false) => Words::Long(number, tier),
                        (None, _) => Words::None,
                    };
                    let miss = tier.map(|tier| &tiers[tier].miss);
                    grader.add(found, miss, Severity::Minor, words, Some(index), vec![task]);
                };
            match &plan.tasks[task].keeping {
                Some(TaskKeeping::Timer(window) | TaskKeeping::Count(window)) => {
                    let window = *window;
                    if was < window.least {
                        let tier = tier(&errors.short, |limit| was < limit);
                        let right_for = self.right_for(task, was);
                        let found = Found::Short {
                            was,
                            window,
                            right_for,
                        };
                        add(self, found, tier, &errors.short, true);
                    } else if was > window.most {
                        let tier = tier(&errors.long, |limit| was > limit);
                        add(self, Found::Long { was, window }, tier, &errors.long, false);
                    }
                }
                Some(TaskKeeping::Watch { within, .. }) => match event.sign {
                    Sign::After(sign) if was < sign => {
                        let by = sign - was;
                        let tier = tier(&errors.short, |limit| by > limit);
                        add(
                            self,
                            Found::BeforeSign { by: Some(by) },
                            tier,
                            &errors.short,
                            true,
                        );
                    }
                    Sign::Never => {
                        let tier = tier(&errors.short, |_| true);
                        add(
                            self,
                            Found::BeforeSign { by: None },
                            tier,
                            &errors.short,
                            true,
                        );
                    }
                    Sign::After(sign) if was - sign > *within => {
                        let by = was - sign;
                        let tier = tier(&errors.long, |limit| by > limit);
                        let within = *within;
                        add(
                            self,
                            Found::AfterSign { by, within },
                            tier,
                            &errors.long,
                            false,
                        );
                    }
                    _ => {}
                },
                Some(TaskKeeping::Judge { .. }) => {
                    let found = match event.sign {
                        Sign::NotShown => Found::NotYetRight,
                        // However long it had gone on: something before it was not right.
                        Sign::Never => Found::BeforeSign { by: None },
                        _ => continue,
                    };
                    if self.stood(task, index) {
                        let tier = tier(&errors.short, |_| true);
                        add(self, found, tier, &errors.short, true);
                    }
                }
                None => {}
            }
        }
    }

    /// Whether a judged task was left as it was at this event: not taken up again before anything that had to wait for it.
    fn stood(&self, task: TaskIndex, event: usize) -> bool {
        let later = self.trace[event + 1..].iter().filter_map(Event::task);
        for one in later {
            if one == task {
                return false;
            }
            if self.plan.order.precedes(task, one) {
                return true;
            }
        }
        true
    }

    /// The case choice and value for which a time that is wrong here would have been right.
    fn right_for(&self, task: TaskIndex, was: Millis) -> Option<(usize, usize)> {
        let (Keeping::Timer(written) | Keeping::Count(written)) =
            self.step(task).keeping.as_ref()?
        else {
            return None;
        };
        for (index, choice) in self.module.case.iter().enumerate() {
            let CaseRange::OneOf(values) = &choice.range else {
                continue;
            };
            for (value, name) in values.iter().enumerate() {
                if self.plan.card.matches(&choice.id.value, &name.value) {
                    continue;
                }
                let other = self
                    .plan
                    .card
                    .clone()
                    .with(&choice.id.value, CaseValue::Word(name.value.clone()));
                let Window { least, most, .. } = window_for(written, &other);
                if least <= was && was <= most {
                    return Some((index, value));
                }
            }
        }
        None
    }

    fn ways(&mut self) {
        for (index, event) in self.trace.iter().enumerate() {
            let What::Task { task, options, .. } = &event.what else {
                continue;
            };
            let number = self.plan.tasks[*task].step;
            for (way, &option) in options.iter().enumerate() {
                let miss = self.step(*task).ways[way].options[option].wrong.clone();
                if let Some(miss) = miss {
                    let found = Found::WrongWay { way, option };
                    let words = Words::Option(number, way, option);
                    self.add(
                        found,
                        Some(&miss),
                        miss.severity,
                        words,
                        Some(index),
                        vec![*task],
                    );
                }
            }
        }
    }

    fn needs(&mut self) {
        for (index, event) in self.trace.iter().enumerate() {
            let Some(task) = event.task() else { continue };
            let miss = self.step(task).errors.unready.clone();
            for &need in &event.unmet {
                let aspect = self.plan.tasks[task].needs[need].aspect;
                let words = Words::Unready(self.plan.tasks[task].step);
                let found = Found::Unready { aspect };
                self.add(
                    found,
                    miss.as_ref(),
                    Severity::Major,
                    words,
                    Some(index),
                    vec![task],
                );
            }
        }
    }

    /// Hazard rules on order, counting rules, forbidden acts, gaps and caps.
    fn rules(&mut self) {
        for before in &self.plan.before {
            let Never::Before { miss, .. } = &self.module.never[before.rule] else {
                continue;
            };
            let Some(act) = self.firsts[before.act] else {
                continue;
            };
            let until: Vec<TaskIndex> = before
                .until
                .iter()
                .copied()
                .filter(|&one| self.firsts[one].is_none_or(|at| at > act))
                .collect();
            if !until.is_empty() {
                let found = Found::TooEarly { until };
                let words = Words::Never(before.rule);
                self.add(
                    found,
                    Some(miss),
                    miss.severity,
                    words,
                    Some(act),
                    vec![before.act],
                );
            }
        }
        for (index, event) in self.trace.iter().enumerate() {
            for (rule, cells) in &event.crowded {
                let rule = *rule;
                let number = self.plan.more_than[rule].rule;
                if let Never::MoreThan { miss, .. } = &self.module.never[number] {
                    let stuck = self.stuck(&self.plan.more_than[rule], cells, index);
                    let cells = cells.clone();
                    let found = Found::Crowded { rule, cells, stuck };
                    let tasks = event.task().into_iter().collect();
                    self.add(
                        found,
                        Some(miss),
                        miss.severity,
                        Words::Never(number),
                        Some(index),
                        tasks,
                    );
                }
            }
            if let What::Act(rule) = event.what
                && let Never::Act(act) = &self.module.never[rule]
            {
                let found = Found::Forbidden { rule };
                self.add(
                    found,
                    Some(&act.miss),
                    act.miss.severity,
                    Words::Never(rule),
                    Some(index),
                    Vec::new(),
                );
            }
        }
        self.gaps();
        self.caps();
    }

    /// Whether so many places are in a state only because tasks that would have freed them were left out.
    fn stuck(&self, rule: &MoreThan, cells: &[usize], event: usize) -> bool {
        let freed_by = |cell: usize| {
            (0..self.plan.tasks.len()).filter(move |&task| rule.is_left_by(self.plan, task, cell))
        };
        let left_out = |task: &TaskIndex| self.firsts[*task].is_none();
        let held = |cell: &&usize| {
            freed_by(**cell).any(|task| left_out(&task))
                && freed_by(**cell)
                    .filter(|task| !left_out(task))
                    .all(|task| self.firsts[task].is_some_and(|at| at <= event))
        };
        cells.len() - cells.iter().filter(held).count() <= rule.count
    }

    fn gaps(&mut self) {
        for (index, gap) in self.plan.gaps.iter().enumerate() {
            let (Some(from), Some(to)) = (self.last_before(gap.from, gap.to), self.firsts[gap.to])
            else {
                continue;
            };
            let moment = |event: usize, end: bool| {
                if end {
                    self.trace[event].end
                } else {
                    self.trace[event].start
                }
            };
            let was = moment(to, gap.to_end) - moment(from, gap.from_end);
            let broken = gap.most.is_some_and(|most| was > most)
                || gap.least.is_some_and(|least| was < least);
            if broken && let TimeRule::Gap { miss, .. } = &self.module.time_rules[gap.rule] {
                let found = Found::Gap { gap: index, was };
                let tasks = vec![gap.from, gap.to];
                self.add(
                    found,
                    Some(miss),
                    miss.severity,
                    Words::TimeRule(gap.rule),
                    Some(to),
                    tasks,
                );
            }
        }
    }

    /// The last time a task was done before another was first done.
    fn last_before(&self, task: TaskIndex, then: TaskIndex) -> Option<usize> {
        let until = self.firsts[then]?;
        (0..until)
            .rev()
            .find(|&index| self.trace[index].task() == Some(task))
    }

    fn caps(&mut self) {
        for (index, cap) in self.plan.caps.iter().enumerate() {
            let most = cap
                .when_done
                .iter()
                .filter(|(task, _)| self.firsts[*task].is_some())
                .map(|&(_, most)| most)
                .fold(cap.most, Millis::max);
            let mut sum = Millis::ZERO;
            let mut over = None;
            for (at, event) in self.trace.iter().enumerate() {
                if let What::Task {
                    task,
                    timed: Some(timed),
                    ..
                } = event.what
                    && cap.over.contains(&task)
                {
                    sum += timed;
                    if sum > most && over.is_none() {
                        over = Some(at);
                    }
                }
            }
            if let (Some(at), TimeRule::Cap { miss, .. }) =
                (over, &self.module.time_rules[cap.rule])
            {
                let found = Found::Cap {
                    cap: index,
                    was: sum,
                    most,
                };
                let words = Words::TimeRule(cap.rule);
                self.add(
                    found,
                    Some(miss),
                    miss.severity,
                    words,
                    Some(at),
                    cap.over.clone(),
                );
            }
        }
    }

    fn protection(&mut self) {
        for guard in 0..self.plan.guards.len() {
            let bare = |event: &Event| {
                let all = event.bare.iter().filter(|(one, _)| *one == guard);
                all.map(|&(_, time)| time).sum::<Millis>()
            };
            let time: Millis = self.trace.iter().map(bare).sum();
            let written = &self.module.guards[guard];
            if time <= written.grace {
                continue;
            }
            let first = self
                .trace
                .iter()
                .position(|event| bare(event) > Millis::ZERO);
            let tasks = self
                .trace
                .iter()
                .filter(|event| bare(event) > Millis::ZERO)
                .filter_map(Event::task)
                .collect();
            let found = Found::Unprotected { guard, time };
            let miss = &written.miss;
            self.add(
                found,
                Some(miss),
                miss.severity,
                Words::Guard(guard),
                first,
                tasks,
            );
        }
        for item in 0..self.module.protection_items.len() {
            let over = |event: &Event| {
                let all = event.stale.iter().filter(|(one, _)| *one == item);
                all.map(|&(_, by)| by).max().unwrap_or(Millis::ZERO)
            };
            let by = self.trace.iter().map(over).max().unwrap_or(Millis::ZERO);
            if by > Millis::ZERO {
                let first = self
                    .trace
                    .iter()
                    .position(|event| over(event) > Millis::ZERO);
                self.add(
                    Found::Stale { item, by },
                    None,
                    Severity::Minor,
                    Words::None,
                    first,
                    Vec::new(),
                );
            }
        }
    }

    fn disturbances(&mut self) {
        for (index, event) in self.trace.iter().enumerate() {
            match event.what {
                What::Answered(disturbance, response) => {
                    let wrong = &self.module.disturbances[disturbance].responses[response].wrong;
                    if let Some(miss) = wrong {
                        let found = Found::WrongResponse {
                            disturbance,
                            response,
                        };
                        let words = Words::Response(disturbance, response);
                        self.add(
                            found,
                            Some(miss),
                            miss.severity,
                            words,
                            Some(index),
                            Vec::new(),
                        );
                    }
                }
                What::CarriedOn(disturbance) => {
                    if let Some(miss) = &self.module.disturbances[disturbance].carry_on {
                        let found = Found::CarriedOn { disturbance };
                        let words = Words::CarryOn(disturbance);
                        self.add(
                            found,
                            Some(miss),
                            miss.severity,
                            words,
                            Some(index),
                            Vec::new(),
                        );
                    }
                }
                _ => {}
            }
        }
    }

    /// Timed parts inside their window or ended by their sign, of all timed parts.
    fn in_time(&self) -> (usize, usize) {
        let timed = self
            .trace
            .iter()
            .filter(|event| matches!(event.what, What::Task { timed: Some(_), .. }))
            .count();
        let missed = self.raw.iter().filter(|raw| {
            matches!(
                raw.finding.what,
                Found::Short { .. }
                    | Found::Long { .. }
                    | Found::BeforeSign { .. }
                    | Found::AfterSign { .. }
                    | Found::NotYetRight
            )
        });
        (timed - missed.count().min(timed), timed)
    }

    fn protected(&self) -> (Millis, Millis) {
        let all: Millis = self.trace.iter().map(|event| event.end - event.start).sum();
        let bare: Millis = self
            .trace
            .iter()
            .map(|event| {
                event
                    .bare
                    .iter()
                    .map(|&(_, time)| time)
                    .max()
                    .unwrap_or(Millis::ZERO)
            })
            .sum();
        (all - bare, all)
    }
}

/// The gravest tier whose limit was passed; tiers without a limit are the window itself.
fn tier(tiers: &[Tier], passed: impl Fn(Millis) -> bool) -> Option<usize> {
    (0..tiers.len())
        .filter(|&index| tiers[index].limit.is_none_or(&passed))
        .max_by_key(|&index| (tiers[index].miss.severity, index))
}

/// A share in parts per million; a whole of nothing is a whole.
fn share(part: u64, whole: u64) -> Ppm {
    if whole == 0 {
        return Ppm(1_000_000);
    }
    Ppm(i64::try_from(u128::from(part) * 1_000_000 / u128::from(whole)).unwrap_or(0))
}
