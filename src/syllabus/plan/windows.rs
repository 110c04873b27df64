//! When tasks can start and end: a plan as a simple temporal network, and its least and greatest times.

use super::{Plan, TaskIndex, TaskKeeping};
use crate::syllabus::timing::critical_path::CriticalPath;
use crate::syllabus::timing::{Clash, Network, Reason, TimeRule, Window};
use crate::units::Millis;

/// Why a stretch of a clash is as long or as short as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Because {
    /// The task's own duration.
    Duration(TaskIndex),
    /// The first task comes before the second.
    Order(TaskIndex, TaskIndex),
    /// The gap with this index in the plan.
    Gap(usize),
    /// The task has been done and its times stand.
    Done(TaskIndex),
}

/// One stretch of a clash.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// Why.
    pub because: Because,
    /// How much time it takes at least (positive) or allows at most (then `at_most`).
    pub time: Millis,
    /// Whether `time` is an upper limit.
    pub at_most: bool,
}

/// The earliest and latest start and end of every required task.
#[derive(Clone, Debug)]
pub struct Spans {
    /// By task; `None` for optional tasks that have not been done.
    pub of: Vec<Option<Span>>,
}

/// When one task can start and end, counted from the start of the run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// Its start.
    pub start: Window,
    /// Its end.
    pub end: Window,
}

/// Sums over a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Totals {
    /// The least time of a person's hands: all attended tasks, one after the other.
    pub hands_on: Millis,
    /// The longest chain of tasks that wait for each other, at their least times.
    pub longest_chain: Millis,
    /// The tasks of one such chain.
    pub chain: Vec<TaskIndex>,
    /// The least total time: at least the larger of the two above.
    pub least: Millis,
    /// All tasks one after the other at their most; tasks without an upper limit count with what is expected.
    pub greatest: Millis,
}

impl Plan {
    /// The least and most time of a task from its start to its end. `None`: no upper limit.
    #[must_use]
    pub fn duration(&self, task: TaskIndex) -> (Millis, Option<Millis>) {
        let task = &self.tasks[task];
        let (least, most) = match &task.keeping {
            Some(TaskKeeping::Timer(window) | TaskKeeping::Count(window)) => {
                (window.least, Some(window.most))
            }
            Some(TaskKeeping::Watch {
                expect: Some((soonest, latest)),
                within,
                ..
            }) => (*soonest, Some(*latest + *within)),
            None | Some(TaskKeeping::Watch { expect: None, .. }) => (Millis::ZERO, None),
            Some(TaskKeeping::Judge { portion, .. }) => (*portion, None),
        };
        (task.takes + least, most.map(|most| task.takes + most))
    }

    /// Whether the rules of the plan agree; what has been done so far may be given as starts and ends.
    ///
    /// # Errors
    /// The chain of rules that clash.
    pub fn spans(&self, done: &[(TaskIndex, Millis, Millis)]) -> Result<Spans, Vec<Stretch>> {
        let (network, reasons) = self.network(done);
        let windows = network
            .windows()
            .map_err(|clash| explain(&clash, &reasons))?;
        let mut of: Vec<Option<Span>> = (0..self.tasks.len())
            .map(|task| {
                let happens = self.tasks[task].required || done.iter().any(|one| one.0 == task);
                happens.then(|| Span {
                    start: windows[start(task)],
                    end: windows[end(task)],
                })
            })
            .collect();
        of.shrink_to_fit();
        Ok(Spans { of })
    }

    fn network(&self, done: &[(TaskIndex, Millis, Millis)]) -> (Network, Vec<Because>) {
        let mut network = Network::new(1 + 2 * self.tasks.len());
        let mut reasons = Vec::new();
        let mut add = |network: &mut Network, because: Because, rule: TimeRule| {
            // Events exist by construction and limits were read as bounded durations; a limit beyond the network's
            // own (557 years) binds nothing.
            if network.add(reasons.len(), rule).is_ok() {
                reasons.push(because);
            }
        };
        let is_done = |task: TaskIndex| done.iter().find(|one| one.0 == task);
        let happens = |task: TaskIndex| self.tasks[task].required || is_done(task).is_some();
        for task in (0..self.tasks.len()).filter(|&task| happens(task)) {
            let (least, most) = match is_done(task) {
                Some(&(_, started, ended)) => (ended - started, Some(ended - started)),
                None => self.duration(task),
            };
            let because = if let Some(&(_, started, _)) = is_done(task) {
                let at = TimeRule {
                    from: 0,
                    to: start(task),
                    least: Some(started.0),
                    most: Some(started.0),
                };
                add(&mut network, Because::Done(task), at);
                Because::Done(task)
            } else {
                let not_before = TimeRule {
                    from: 0,
                    to: start(task),
                    least: Some(0),
                    most: None,
                };
                add(&mut network, Because::Order(task, task), not_before);
                Because::Duration(task)
            };
            let lasts = TimeRule {
                from: start(task),
                to: end(task),
                least: Some(least.0),
                most: most.map(|most| most.0),
            };
            add(&mut network, because, lasts);
            for first in self.required_before(task, &happens) {
                // What has been done stands, whatever its order was.
                if is_done(task).is_some() {
                    continue;
                }
                let order = TimeRule {
                    from: end(first),
                    to: start(task),
                    least: Some(0),
                    most: None,
                };
                add(&mut network, Because::Order(first, task), order);
            }
        }
        for (index, gap) in self.gaps.iter().enumerate() {
            let both_done = is_done(gap.from).is_some() && is_done(gap.to).is_some();
            if !happens(gap.from) || !happens(gap.to) || both_done {
                continue;
            }
            let event = |task, at_end| if at_end { end(task) } else { start(task) };
            let rule = TimeRule {
                from: event(gap.from, gap.from_end),
                to: event(gap.to, gap.to_end),
                least: gap.least.map(|least| least.0),
                most: gap.most.map(|most| most.0),
            };
            add(&mut network, Because::Gap(index), rule);
        }
        (network, reasons)
    }

    /// The nearest tasks that happen and come before, looking through optional ones that do not.
    fn required_before(
        &self,
        task: TaskIndex,
        happens: &impl Fn(TaskIndex) -> bool,
    ) -> Vec<TaskIndex> {
        let mut found = Vec::new();
        let mut open = self.direct[task].clone();
        let mut seen = vec![false; self.tasks.len()];
        while let Some(first) = open.pop() {
            if std::mem::replace(&mut seen[first], true) {
                continue;
            }
            if happens(first) {
                found.push(first);
            } else {
                open.extend(&self.direct[first]);
            }
        }
        found.sort_unstable();
        found
    }

    /// Hands-on sum, longest chain, least and greatest total of the required tasks.
    #[must_use]
    pub fn totals(&self) -> Totals {
        let required: Vec<TaskIndex> = (0..self.tasks.len())
            .filter(|&task| self.tasks[task].required)
            .collect();
        let durations: Vec<i64> = required
            .iter()
            .map(|&task| self.duration(task).0.0)
            .collect();
        let edges: Vec<(usize, usize)> = required
            .iter()
            .enumerate()
            .flat_map(|(then, &task)| {
                let before = self.required_before(task, &|one| self.tasks[one].required);
                before
                    .into_iter()
                    .filter_map(|first| required.binary_search(&first).ok())
                    .map(move |first| (first, then))
                    .collect::<Vec<_>>()
            })
            .collect();
        // The edges come from an order that has been closed, so there is no circle to refuse.
        let path = CriticalPath::new(&durations, &edges);
        let (length, chain) = path.map_or((0, Vec::new()), |path| {
            let chain = path.paths(1).into_iter().next().unwrap_or_default();
            (path.length, chain)
        });
        let attended = required.iter().filter(|&&task| self.tasks[task].attended);
        let hands_on: Millis = attended.map(|&task| self.duration(task).0).sum();
        let longest_chain = Millis(length);
        let greatest = required
            .iter()
            .map(|&task| {
                let (least, most) = self.duration(task);
                most.unwrap_or(least)
            })
            .sum();
        Totals {
            hands_on,
            longest_chain,
            chain: chain.into_iter().map(|index| required[index]).collect(),
            least: hands_on.max(longest_chain),
            greatest,
        }
    }
}

fn start(task: TaskIndex) -> usize {
    1 + 2 * task
}

fn end(task: TaskIndex) -> usize {
    2 + 2 * task
}

fn explain(clash: &Clash, reasons: &[Because]) -> Vec<Stretch> {
    clash
        .links
        .iter()
        .filter_map(|link| {
            let (rule, at_most) = match link.reason {
                Reason::Least(rule) => (rule, false),
                Reason::Most(rule) => (rule, true),
                Reason::Happened(_) => return None,
            };
            Some(Stretch {
                because: *reasons.get(rule)?,
                time: Millis(link.most.abs()),
                at_most,
            })
        })
        .collect()
}
