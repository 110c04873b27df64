//! What was kept of a case that was watched, told years later: by the titles in the text that was kept, since the one on the shelf may have changed.

use super::mark::Mark;
use super::run::{BenchRun, RowState};
use super::telling::{seen_short, time_of_day};
use crate::report::record::{Titles, time};
use crate::text::{Value, Words, display_safe};

/// Lots and equipment, every row with its times, values and remarks, what was remarked of the whole, and how many taps were taken back.
#[must_use]
pub fn told(run: &BenchRun, titles: &Titles, words: &Words) -> Vec<String> {
    let say = |id: &str, values: &[(&str, Value)]| words.say(id, values);
    let text = |id: &str, text: &str| say(id, &[("text", display_safe(text).into())]);
    let mut told = vec![say(
        "watching-kept-begun",
        &[("at", time(run.head().started).into())],
    )];
    told.extend(run.lots().map(|lot| text("watching-lot", lot)));
    let mut rows: Vec<&str> = Vec::new();
    for row in run.standing().filter_map(|one| one.mark.row()) {
        if !rows.contains(&row) {
            rows.push(row);
        }
    }
    for row in rows {
        let state = run.row(row);
        let mut parts = Vec::new();
        parts.extend(state.seen.map(|(seen, _)| seen_short(seen, words)));
        parts.extend(times(run, row, &state, words));
        parts.extend(state.values.iter().map(|one| text("watching-value", one)));
        parts.extend(state.remarks.iter().map(|one| text("watching-remark", one)));
        let parts = parts.into_iter().reduce(|first, rest| {
            say(
                "watching-beside",
                &[("first", first.into()), ("rest", rest.into())],
            )
        });
        let title = titles.get(row).map_or(row, String::as_str);
        let values = [
            ("row", display_safe(title).into()),
            ("said", parts.unwrap_or_default().into()),
        ];
        told.push(say("watching-kept-row", &values));
    }
    told.extend(run.remarks().map(|remark| text("watching-remark", remark)));
    if let Some(danger) = run.ended().and_then(|ended| ended.danger) {
        told.push(text("watching-kept-danger", danger));
    }
    let undone = run.marks().iter().filter(|one| one.mark == Mark::Undo);
    let undone = undone.count();
    if undone > 0 {
        told.push(say("watching-kept-undone", &[("count", undone.into())]));
    }
    told
}

/// Each time that a row was done: from when on, and how long.
fn times(run: &BenchRun, row: &str, state: &RowState<'_>, words: &Words) -> Vec<String> {
    let starts = run
        .standing()
        .filter(|one| matches!(&one.mark, Mark::Start { row: started } if started == row));
    let times = starts.zip(&state.times);
    times
        .map(|(start, time)| {
            let from = ("from", time_of_day(start.at).into());
            match time.lasted() {
                Some(lasted) => words.say("watching-kept-time", &[from, ("time", lasted.into())]),
                None => words.say("watching-kept-open", &[from]),
            }
        })
        .collect()
}
