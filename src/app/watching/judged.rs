//! What the clock and the order of the taps say: told to the observer, who judges. Nothing here decides anything.
//!
//! The k-th start of a row counts as the k-th task of its step, and goes through the grader of rehearsals, without a bench. A row that was
//! marked as done and never timed counts as done when it was marked.

use super::mark::Mark;
use super::rows::{BenchCard, Row};
use super::run::{BenchRun, Occurrence};
use crate::record::entry::Seen;
use crate::rehearsal::finding::{Finding, Found};
use crate::rehearsal::grade::grade;
use crate::rehearsal::trace::{Event, Sign, What};
use crate::syllabus::plan::{TaskIndex, TaskKeeping, Window};
use crate::units::Millis;

/// How a time lies to its window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Length {
    /// There is no window.
    Free,
    /// Shorter than the least, by so much.
    Under(Millis),
    /// Inside.
    Within,
    /// Longer than the most, by so much.
    Over(Millis),
}

/// How a time lies to a window.
#[must_use]
pub fn length(window: Option<Window>, time: Millis) -> Length {
    match window {
        None => Length::Free,
        Some(window) if time < window.least => Length::Under(window.least - time),
        Some(window) if time > window.most => Length::Over(time - window.most),
        Some(_) => Length::Within,
    }
}

/// What the grader finds in times and order so far; what was not tapped yet is not asked about.
#[must_use]
pub fn findings(run: &BenchRun, card: &BenchCard) -> Vec<Finding> {
    let trace = trace(run, card);
    let graded = grade(card.module(), &card.plan, &trace, &[]);
    let mut found = Vec::new();
    for root in graded.roots {
        flatten(root, &mut found);
    }
    let tapped = |task: &TaskIndex| trace.iter().any(|event| event.task() == Some(*task));
    let timed = |task: &TaskIndex| {
        let row = &card.rows[card.plan.tasks[*task].step];
        !run.row(&row.id).times.is_empty()
    };
    found.retain(|one| match &one.what {
        Found::Misplaced { .. } | Found::Again => true,
        Found::Short { .. } | Found::Long { .. } | Found::Cap { .. } => true,
        // A mark that somebody sets when there is time for it says nothing about a gap.
        Found::Gap { .. } => one.tasks.iter().all(timed),
        // What was not tapped at all may have been done.
        Found::TooEarly { until } => until.iter().any(tapped),
        _ => false,
    });
    found.sort_by_key(|one| one.at);
    found
}

/// Rows that were marked as done and never timed, though the workflow gives them a time.
pub(super) fn never_timed<'c>(run: &BenchRun, card: &'c BenchCard) -> Vec<&'c Row> {
    let rows = card.rows.iter().filter(|row| {
        let state = run.row(&row.id);
        let done = matches!(state.seen, Some((Seen::Done | Seen::Prompted, _)));
        let has_time = (0..row.tasks.len()).any(|time| card.window(row, time).is_some());
        done && has_time && state.times.is_empty()
    });
    rows.collect()
}

fn flatten(mut finding: Finding, into: &mut Vec<Finding>) {
    let follow_ons = std::mem::take(&mut finding.follow_ons);
    into.push(finding);
    for one in follow_ons {
        flatten(one, into);
    }
}

/// The taps as events of a run, in the order in which they were tapped.
fn trace(run: &BenchRun, card: &BenchCard) -> Vec<Event> {
    let mut started = vec![0; card.rows.len()];
    let mut events = Vec::new();
    for marked in run.standing() {
        let Some(row) = marked.mark.row().and_then(|id| card.row(id)) else {
            continue;
        };
        let state = run.row(&row.id);
        match &marked.mark {
            Mark::Start { .. } => {
                let number = started[row.step];
                started[row.step] += 1;
                let time = state.times.get(number);
                events.extend(time.and_then(|time| timed(row, number, *time, card)));
            }
            Mark::Seen { seen, .. }
                if state.times.is_empty()
                    && state.seen == Some((*seen, marked.run))
                    && matches!(seen, Seen::Done | Seen::Prompted) =>
            {
                let at = (marked.run, marked.run);
                let tasks = row.tasks.iter();
                events.extend(tasks.map(|&task| event(card, task, at, None)));
            }
            _ => {}
        }
    }
    events
}

fn timed(row: &Row, number: usize, time: Occurrence, card: &BenchCard) -> Option<Event> {
    let task = card.task(row, number)?;
    let kept = card.plan.tasks[task].keeping.as_ref();
    let is_timed = matches!(kept, Some(TaskKeeping::Timer(_) | TaskKeeping::Count(_)));
    let at = (time.start, time.stop.unwrap_or(time.start));
    Some(event(card, task, at, time.lasted().filter(|_| is_timed)))
}

fn event(
    card: &BenchCard,
    task: TaskIndex,
    (start, end): (Millis, Millis),
    timed: Option<Millis>,
) -> Event {
    let step = &card.module().steps[card.plan.tasks[task].step];
    // In which manner it was done is for the observer to see.
    let ways = step.ways.iter().map(|way| {
        let mut options = way.options.iter();
        options.position(|one| one.wrong.is_none()).unwrap_or(0)
    });
    Event {
        start,
        end,
        what: What::Task {
            task,
            options: ways.collect(),
            timed,
        },
        unmet: Vec::new(),
        sign: Sign::None,
        bare: Vec::new(),
        stale: Vec::new(),
        crowded: Vec::new(),
    }
}
