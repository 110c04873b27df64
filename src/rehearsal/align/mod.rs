//! The fewest corrections that turn what was done into something the plan allows.
//!
//! An event may be struck, a required task may be missing, an optional one may be missing for nothing. Two matches of an
//! event with a task clash when the later event's task is the same as, or must come before, the earlier event's. Clashing is
//! a strict partial order of its own, so the matches that can stay are its heaviest antichain: exact and polynomial,
//! however many tasks may be done in any order. Derived in this project from the definition of an optimal alignment in
//! Adriansyah, van Dongen, van der Aalst 2011 (from memory); the answers agree with a general library (`tests/reference`).
//!
//! Among equally cheap alignments the one is taken that keeps the most bonus for critical tasks, then the most events.
//! An alignment is kind: a hazard rule ("never this before that") is tested on [`inversions`], never on an alignment.
//!
//! Left out: what the tasks are called and how bad a finding is.

mod flow;
pub mod model;

use crate::syllabus::order::Order;
use flow::heaviest_antichain;

/// What it costs to leave a task out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TaskCost {
    /// The cost if the task is missing. Zero for an optional task.
    pub skip: u32,
    /// How much the task is preferred where alignments cost the same. Zero for a task that is not critical.
    pub critical_bonus: u32,
}

/// What an event is and what it costs to strike it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EventCost {
    /// The task that was done, or `None` for an act that is foreign to the plan.
    pub task: Option<usize>,
    /// The cost if the event is struck.
    pub insert: u32,
}

/// The cheapest way to explain what was done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alignment {
    /// Skip costs of what is missing and insert costs of what is struck, together.
    pub cost: u64,
    /// For every event the task it counts as.
    pub matched: Vec<Option<usize>>,
    /// Required tasks (skip cost above zero) that no event counts as, rising.
    pub missing: Vec<usize>,
    /// Events that count as no task, rising.
    pub struck: Vec<usize>,
}

/// Aligns what was done, in the order of doing, with the plan.
///
/// # Panics
/// If `tasks` and `order` differ in length, or an event names a task that they do not have.
#[must_use]
pub fn align(tasks: &[TaskCost], order: &Order, events: &[EventCost]) -> Alignment {
    let pairs: Vec<Pair> = events
        .iter()
        .enumerate()
        .filter_map(|(event, cost)| cost.task.map(|task| Pair { task, event }))
        .collect();
    align_pairs(tasks, order, events, &pairs)
}

/// An event that could count as a task.
#[derive(Clone, Copy, Debug)]
struct Pair {
    task: usize,
    event: usize,
}

/// Aligns where an event could count as any of several tasks. `pairs` must be sorted by event, and tasks that one event
/// could count as must come one after another in the order: only then are two matches possible together whenever
/// neither is below the other.
fn align_pairs(
    tasks: &[TaskCost],
    order: &Order,
    events: &[EventCost],
    pairs: &[Pair],
) -> Alignment {
    assert_eq!(tasks.len(), order.len(), "every task has its cost");
    let clashes = clashes(order, pairs);
    let kept = if clashes.is_empty() {
        vec![true; pairs.len()]
    } else {
        heaviest_antichain(&weights(tasks, events, pairs), &clashes)
    };
    let mut matched = vec![None; events.len()];
    let mut done = vec![false; tasks.len()];
    for (pair, _) in pairs.iter().zip(kept).filter(|(_, kept)| *kept) {
        matched[pair.event] = Some(pair.task);
        done[pair.task] = true;
    }
    let struck: Vec<usize> = (0..events.len())
        .filter(|&event| matched[event].is_none())
        .collect();
    let missing: Vec<usize> = (0..tasks.len())
        .filter(|&task| !done[task] && tasks[task].skip > 0)
        .collect();
    let cost = struck
        .iter()
        .map(|&event| u64::from(events[event].insert))
        .chain(missing.iter().map(|&task| u64::from(tasks[task].skip)))
        .sum();
    Alignment {
        cost,
        matched,
        missing,
        struck,
    }
}

/// What each match saves, with the bonus and the count of matches in lower places, where they only break ties.
fn weights(tasks: &[TaskCost], events: &[EventCost], pairs: &[Pair]) -> Vec<u128> {
    let bonus = |pair: &Pair| u128::from(tasks[pair.task].critical_bonus);
    let above_all_bonuses = 1 + pairs.iter().map(bonus).sum::<u128>();
    let above_all_counts = 1 + pairs.iter().map(|_| 1_u128).sum::<u128>();
    pairs
        .iter()
        .map(|pair| {
            let saved = u128::from(tasks[pair.task].skip) + u128::from(events[pair.event].insert);
            (saved * above_all_bonuses + bonus(pair)) * above_all_counts + 1
        })
        .collect()
}

/// Every two pairs that cannot both stay, as `(low, high)`: `low` is of a later or the same event, and of an earlier or
/// the same task. Closed transitively because both parts are.
fn clashes(order: &Order, pairs: &[Pair]) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut seen = vec![0_u64; order.len().div_ceil(64)];
    // The pairs so far of each task, as a chain from the last one back: no allocation per task.
    let mut last = vec![None; order.len()];
    let mut previous: Vec<Option<usize>> = Vec::with_capacity(pairs.len());
    let mut at = 0;
    for group in pairs.chunk_by(|one, other| one.event == other.event) {
        for (shift, pair) in group.iter().enumerate() {
            previous.push(last[pair.task]);
            last[pair.task] = Some(at + shift);
            seen[pair.task / 64] |= 1 << (pair.task % 64);
        }
        for (shift, pair) in group.iter().enumerate() {
            let low = at + shift;
            let mut same = previous[low];
            while let Some(high) = same {
                found.push((low, high));
                same = previous[high];
            }
            for (word, (&after, &seen)) in order.after_row(pair.task).iter().zip(&seen).enumerate()
            {
                let mut rest = after & seen;
                while rest != 0 {
                    let bit = usize::try_from(rest.trailing_zeros()).unwrap_or_default();
                    rest &= rest - 1;
                    let mut inverted = last[word * 64 + bit];
                    while let Some(high) = inverted {
                        found.push((low, high));
                        inverted = previous[high];
                    }
                }
            }
        }
        at += group.len();
    }
    found
}

/// Pairs of tasks done the wrong way round: the first must come before the second, both were done, and the first time of
/// the first is after the first time of the second. Sorted; no search and no choice between explanations.
///
/// # Panics
/// If an event names a task that `order` does not have.
#[must_use]
pub fn inversions(order: &Order, events: &[Option<usize>]) -> Vec<(usize, usize)> {
    let mut done = vec![false; order.len()];
    let mut found = Vec::new();
    for &task in events.iter().flatten() {
        if !done[task] {
            done[task] = true;
            found.extend(
                order
                    .successors(task)
                    .filter(|&then| done[then])
                    .map(|then| (task, then)),
            );
        }
    }
    found.sort_unstable();
    found
}

/// The most tasks of which none must come before another.
#[must_use]
pub fn width(order: &Order) -> usize {
    let below: Vec<(usize, usize)> = (0..order.len())
        .flat_map(|low| order.successors(low).map(move |high| (low, high)))
        .collect();
    heaviest_antichain(&vec![1; order.len()], &below)
        .iter()
        .filter(|&&kept| kept)
        .count()
}

/// How much of the plan the trace explains: 1 − cost / (all insert costs + the cost of doing nothing), and 1 where both
/// are nothing. For display beside the findings; no mark to pass by, since one missing critical task of sixty gives 0.99.
#[must_use]
pub fn fitness(cost: u64, all_inserts: u64, doing_nothing: u64) -> f64 {
    match all_inserts + doing_nothing {
        0 => 1.0,
        worst => 1.0 - cost as f64 / worst as f64,
    }
}

#[cfg(test)]
mod tests;
