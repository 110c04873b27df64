//! A bench run in words: the same at the screens and in plain lines.

use super::clock::ClockNote;
use super::counts::{RowAsked, counts};
use super::judged::{Length, findings, length, never_timed};
use super::mark::{Mark, Marked};
use super::rows::{BenchCard, Row};
use super::run::{BenchRun, Occurrence};
use crate::record::entry::{Judgement, Seen};
use crate::report::{HazardWords, WatchedCase};
use crate::standing::Run;
use crate::syllabus::plan::TaskKeeping;
use crate::text::{Caution, Value, Words, display_safe};
use crate::units::{Millis, Stamp};

/// Says things about one run at one time.
#[derive(Clone, Copy)]
pub struct Telling<'a> {
    /// The run.
    pub run: &'a BenchRun,
    /// What it is tapped on.
    pub card: &'a BenchCard,
    /// The words of a language.
    pub words: &'a Words,
    /// The time of the run.
    pub now: Millis,
}

/// What became of the clock of a row when it was said how the row went.
#[derive(Clone, Copy)]
enum ClockWith {
    /// It was stopped just before.
    Stopped,
    /// It is left to run: so many places have begun, of so many.
    RunsOn { times: usize, all: usize },
}

impl Telling<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.words.say(id, values)
    }

    /// The title of a row.
    #[must_use]
    pub fn title(&self, row: &Row) -> String {
        display_safe(&self.card.step(row).title)
    }

    /// The titles of rows, as a list in a sentence.
    #[must_use]
    pub fn titles(&self, rows: &[&Row]) -> Vec<String> {
        rows.iter().map(|row| self.title(row)).collect()
    }

    /// How a row stands, in a few words: how often, what runs, how long it lasted, how it went.
    #[must_use]
    pub fn stands(&self, row: &Row) -> String {
        let state = self.run.row(&row.id);
        let mut parts = Vec::new();
        let (times, all) = (state.times.len(), row.tasks.len());
        if all > 1 || times > 1 {
            let values = [("times", times.into()), ("all", all.into())];
            parts.push(self.say("watching-of", &values));
        }
        if let Some((number, last)) = state.times.iter().enumerate().next_back() {
            parts.push(match last.lasted() {
                Some(time) => {
                    let values = [
                        ("time", time.into()),
                        ("length", self.length(row, number, time).into()),
                    ];
                    self.say("watching-lasted", &values)
                }
                None => self.runs(row, number, *last),
            });
        }
        parts.push(match state.seen {
            Some((seen, _)) => seen_short(seen, self.words),
            None => self.say("watching-unmarked", &[]),
        });
        let mut parts = parts.into_iter();
        let first = parts.next().unwrap_or_default();
        parts.fold(first, |first, rest| {
            let values = [("first", first.into()), ("rest", rest.into())];
            self.say("watching-beside", &values)
        })
    }

    /// Whether a row runs now.
    #[must_use]
    pub fn is_running(&self, row: &Row) -> bool {
        let state = self.run.row(&row.id);
        state.times.last().is_some_and(|last| last.stop.is_none())
    }

    /// What runs, in a few words, for where the row itself is out of sight; none while it does not run.
    #[must_use]
    pub fn runs_elsewhere(&self, row: &Row) -> Option<String> {
        let state = self.run.row(&row.id);
        let (number, last) = state.times.iter().enumerate().next_back()?;
        if last.stop.is_some() {
            return None;
        }
        let passed = self.now - last.start;
        let over = match self.card.keeping(row, number) {
            Some(TaskKeeping::Timer(window)) => whole(passed - window.target),
            _ => Millis(-1),
        };
        let is_over = over >= Millis::ZERO;
        let values = [
            ("row", self.title(row).into()),
            ("time", if is_over { over } else { whole(passed) }.into()),
        ];
        Some(self.say(
            if is_over {
                "watching-runs-elsewhere.over"
            } else {
                "watching-runs-elsewhere.runs"
            },
            &values,
        ))
    }

    /// What is said of a time that runs: how long, and what is left on a machine's timer.
    fn runs(&self, row: &Row, number: usize, time: Occurrence) -> String {
        let passed = whole(self.now - time.start);
        let values = [("time", passed.into())];
        match self.card.keeping(row, number) {
            Some(TaskKeeping::Timer(window)) => {
                let left = window.target - (self.now - time.start);
                let values = [
                    ("time", passed.into()),
                    // What is left is rounded up, so that it is nothing only when nothing is left.
                    ("left", whole(Millis(left.0.max(0) + 999)).into()),
                    ("over", whole(Millis(-left.0.min(0))).into()),
                ];
                if left > Millis::ZERO {
                    self.say("watching-timer-left", &values)
                } else {
                    self.say("watching-timer-over", &values)
                }
            }
            _ => self.say("watching-runs", &values),
        }
    }

    fn length(&self, row: &Row, number: usize, time: Millis) -> String {
        match length(self.card.window(row, number), time) {
            Length::Free => self.say("watching-length.free", &[]),
            Length::Within => self.say("watching-length.within", &[]),
            Length::Under(by) => self.say("watching-length.under", &[("by", by.into())]),
            Length::Over(by) => self.say("watching-length.over", &[("by", by.into())]),
        }
    }

    /// Every time that a row was done, a line each.
    #[must_use]
    pub fn times(&self, row: &Row) -> Vec<String> {
        let state = self.run.row(&row.id);
        let times = state.times.iter().enumerate();
        times
            .map(|(number, time)| {
                let said = match time.lasted() {
                    None => self.runs(row, number, *time),
                    Some(lasted) => {
                        let values = [
                            ("time", lasted.into()),
                            ("length", self.length(row, number, lasted).into()),
                        ];
                        self.say("watching-lasted", &values)
                    }
                };
                let more = number >= row.tasks.len();
                let values = [
                    ("number", (number + 1).into()),
                    ("said", said.into()),
                    ("more", if more { "more" } else { "asked" }.into()),
                ];
                self.say("watching-time", &values)
            })
            .collect()
    }

    /// What was read and remarked of a row.
    #[must_use]
    pub fn noted(&self, row: &Row) -> Vec<String> {
        let state = self.run.row(&row.id);
        let values = state.values.iter();
        let values = values.map(|text| self.say("watching-value", &[("text", (*text).into())]));
        let remarks = state.remarks.iter();
        let remarks = remarks.map(|text| self.say("watching-remark", &[("text", (*text).into())]));
        values.chain(remarks).collect()
    }

    /// What was noted of the whole: lots and equipment, remarks.
    #[must_use]
    pub fn noted_of_all(&self) -> Vec<String> {
        let lots = self.run.lots();
        let lots = lots.map(|text| self.say("watching-lot", &[("text", text.into())]));
        let remarks = self.run.remarks();
        let remarks = remarks.map(|text| self.say("watching-remark", &[("text", text.into())]));
        lots.chain(remarks).collect()
    }

    /// How the time of a row is kept, and its limits on this case card.
    #[must_use]
    pub fn limits(&self, row: &Row) -> Option<String> {
        self.of_case(|case| case.limits(*row.tasks.first()?))
    }

    /// What is worn and runs where a row is done, and its hazards.
    #[must_use]
    pub fn protection(&self, row: &Row) -> Vec<String> {
        let step = self.card.step(row);
        let mut lines = self.of_case(|case| case.protection(step));
        let hazards = self.hazards(row);
        if !hazards.is_empty() {
            let titles: Vec<String> = hazards.into_iter().map(|one| one.title).collect();
            lines.push(self.say("watching-hazards", &[("hazards", titles.into())]));
        }
        lines
    }

    /// The same, and what comes before this program.
    #[must_use]
    pub fn cautions(&self, row: &Row) -> Vec<String> {
        let mut lines = self.protection(row);
        lines.push(Caution::OthersComeFirst.say(self.words));
        lines
    }

    /// The hazards where a row is done, with their precautions.
    #[must_use]
    pub fn hazards(&self, row: &Row) -> Vec<HazardWords> {
        self.of_case(|case| case.hazards(self.card.step(row)))
    }

    /// Why a row is done and what good looks like.
    #[must_use]
    pub fn reasons(&self, row: &Row) -> Vec<String> {
        let step = self.card.step(row);
        vec![
            self.say("rehearsal-why", &[("why", step.why.as_str().into())]),
            self.say("rehearsal-good", &[("good", step.good.as_str().into())]),
        ]
    }

    /// The case card and the case in words.
    #[must_use]
    pub fn case(&self) -> String {
        let card = self.of_case(|case| case.card());
        let card = card.into_iter().map(|(title, value)| {
            let values = [("choice", title.into()), ("value", value.into())];
            self.say("rehearsal-choice", &values)
        });
        let values = [
            ("case", self.run.head().case.to_string().into()),
            ("card", card.collect::<Vec<String>>().into()),
        ];
        self.say("watching-case", &values)
    }

    /// What the clock and the order of the taps say so far, and what the clock on the wall did; it decides nothing.
    #[must_use]
    pub fn said_by_clock(&self) -> Vec<String> {
        let found = findings(self.run, self.card);
        let mut lines = self.of_case(|case| {
            let found = found.iter();
            found.map(|one| case.finding(one)).collect::<Vec<String>>()
        });
        if !lines.is_empty() {
            lines.push(self.say("watching-places-counted", &[]));
        }
        lines.extend(self.run.clock_notes().map(|(at, note)| {
            let at = ("at", whole(at).into());
            match note {
                ClockNote::Back(by) => {
                    self.say("watching-clock-back", &[at, ("by", seconds(by).into())])
                }
                ClockNote::Ahead(by) => {
                    self.say("watching-clock-ahead", &[at, ("by", seconds(by).into())])
                }
            }
        }));
        lines
    }

    /// What has to be known before the judgement, and again before the signature: how the run counts and what a sign-off asks for, what still runs, of
    /// which rows nobody said anything, and which were never timed though they have a time. Each with the rows that it is about.
    #[must_use]
    pub fn before_the_end(&self, asked: Option<RowAsked>) -> Vec<(String, Vec<String>)> {
        let (mut told, decide) = self.how_it_counts(asked);
        let mut tell = |id: &str, rows: &[&Row]| {
            if !rows.is_empty() {
                told.push((self.say(id, &[]), self.titles(rows)));
            }
        };
        let with = |wanted: &dyn Fn(&Row) -> bool| -> Vec<&Row> {
            let rows = self.card.rows.iter();
            rows.filter(|row| wanted(row)).collect()
        };
        tell("watching-still-running", &with(&|row| self.is_running(row)));
        let unmarked = |row: &Row| self.run.seen(&row.id).is_none();
        // Those that decide stand above.
        tell(
            "watching-not-marked",
            &with(&|row| unmarked(row) && !decide.contains(&row)),
        );
        if self.run.unmarked(self.card).is_empty() {
            told.push((self.say("watching-all-marked", &[]), Vec::new()));
        }
        told.extend(self.never_timed());
        told
    }

    /// The rows that were marked as done and never timed though they have a time, where there are any, under what that means.
    #[must_use]
    pub fn never_timed(&self) -> Option<(String, Vec<String>)> {
        let untimed = never_timed(self.run, self.card);
        let count = [("count", untimed.len().into())];
        (!untimed.is_empty()).then(|| {
            let told = self.say("watching-never-timed", &count);
            (told, self.titles(&untimed))
        })
    }

    /// How the run counts: as it was judged, or as it would be by each judgement. Then what a sign-off asks for, what clean means, and the rows that
    /// make it so, which are returned too.
    fn how_it_counts(&self, asked: Option<RowAsked>) -> (Vec<(String, Vec<String>)>, Vec<&Row>) {
        let ended = self.run.ended();
        let judgement = ended.map_or(Judgement::Acceptable, |ended| ended.judgement);
        let Some(counts) = counts(self.run, self.card, judgement) else {
            return Default::default();
        };
        let rows = counts.rows;
        let values = [
            ("count", rows.len().into()),
            (
                "judged",
                if ended.is_some() { "judged" } else { "open" }.into(),
            ),
        ];
        let danger = ended.and_then(|ended| ended.danger);
        let id = match counts.run {
            Run::Clean => "watching-counts-clean",
            Run::NotClean => "watching-counts-not-clean",
            Run::NotCounted => "watching-counts-not",
            Run::Failed if !rows.is_empty() => "watching-counts-failed-rows",
            Run::Failed if danger.is_some() => "watching-counts-failed-danger",
            Run::Failed => "watching-counts-failed-judgement",
        };
        let mut told = vec![(self.say(id, &values), Vec::new())];
        let mut add = |text: String| told.push((text, Vec::new()));
        if ended.is_none() && counts.run != Run::Failed {
            add(self.say("watching-counts-otherwise", &[]));
        }
        if let Some(asked) = asked {
            let have = asked.count.have.min(asked.count.of);
            let values = [
                ("revision", asked.revision.to_string().into()),
                ("of", usize::from(asked.count.of).into()),
                ("have", usize::from(have).into()),
            ];
            add(self.say("watching-row-asked", &values));
        }
        add(self.say("watching-clean-means", &[]));
        if !rows.is_empty() {
            let said = |row: &&Row| {
                let title = self.title(row);
                match self.run.seen(&row.id) {
                    Some(seen) => {
                        let seen = seen_short(seen, self.words);
                        let values = [("row", title.into()), ("said", seen.into())];
                        self.say("watching-kept-row", &values)
                    }
                    None => title,
                }
            };
            told.push((
                self.say("watching-counts-rows", &values),
                rows.iter().map(said).collect(),
            ));
        }
        (told, rows)
    }

    /// Says that the run was called acceptable though critical rows were not done, where that is so.
    #[must_use]
    pub fn contradiction(&self) -> Option<String> {
        let ended = self.run.ended()?;
        let not_done = |row: &&Row| row.critical && self.run.seen(&row.id) == Some(Seen::NotDone);
        let rows: Vec<&Row> = self.card.rows.iter().filter(not_done).collect();
        let contradicts = ended.judgement == Judgement::Acceptable && !rows.is_empty();
        let values = [("rows", self.titles(&rows).into())];
        contradicts.then(|| self.say("watching-contradicts", &values))
    }

    /// How the run ended, in full sentences; none while it has not.
    #[must_use]
    pub fn how_it_ended(&self) -> Option<String> {
        let ended = self.run.ended()?;
        Some(match ended.danger {
            Some(text) => self.say("watching-stopped", &[("text", text.into())]),
            None => self.say(anchor(ended.judgement), &[]),
        })
    }

    /// What was just tapped, as it is acknowledged.
    #[must_use]
    pub fn acknowledged(&self) -> String {
        if let Some(back) = self.run.taken_back() {
            return self.taken_back(back);
        }
        match self.run.marks().last() {
            None => self.say("watching-nothing-yet", &[]),
            Some(marked) => {
                let what = self.mark(marked);
                let values = [("what", what.into()), ("at", time_of_day(marked.at).into())];
                match self.clock_with(marked) {
                    // The clock comes first: what stands at the end may be cut.
                    Some(ClockWith::Stopped) => self.say("watching-kept-tap-stopped", &values),
                    Some(ClockWith::RunsOn { times, all }) => {
                        let [what, at] = values;
                        let (times, all) = (("times", times.into()), ("all", all.into()));
                        self.say("watching-kept-tap-runs-on", &[what, at, times, all])
                    }
                    None => self.say("watching-kept-tap", &values),
                }
            }
        }
    }

    /// What became of the clock of a row with the tap that said how the row went: stopped just before, or left to run for places still to come.
    fn clock_with(&self, marked: &Marked) -> Option<ClockWith> {
        let Mark::Seen { row: id, .. } = &marked.mark else {
            return None;
        };
        let row = self.card.row(id)?;
        if self.is_running(row) {
            return Some(ClockWith::RunsOn {
                times: self.run.row(id).times.len(),
                all: row.tasks.len(),
            });
        }
        let before = self.run.standing().rev().nth(1)?;
        let stopped = matches!(&before.mark, Mark::Stop { row } if row == id);
        let with_it = stopped && before.run == marked.run;
        with_it.then_some(ClockWith::Stopped)
    }

    /// Which tap was taken back, and when it had been made.
    fn taken_back(&self, back: &Marked) -> String {
        let id = match &back.mark {
            Mark::Start { .. } => "watching-taken-back.start",
            Mark::Stop { .. } => "watching-taken-back.stop",
            Mark::End { .. } | Mark::Danger { .. } => "watching-taken-back.end",
            _ => "watching-taken-back.other",
        };
        let row = back.mark.row().and_then(|id| self.card.row(id));
        let values = [
            (
                "row",
                row.map_or_else(String::new, |row| self.title(row)).into(),
            ),
            ("what", self.mark(back).into()),
            ("at", time_of_day(back.at).into()),
        ];
        self.say(id, &values)
    }

    /// A tap in words.
    #[must_use]
    pub fn mark(&self, marked: &Marked) -> String {
        let row = marked.mark.row().and_then(|id| self.card.row(id));
        let title = row.map_or_else(String::new, |row| self.title(row));
        let of_row = |id: &str| self.say(id, &[("row", title.as_str().into())]);
        let of_text = |id: &str, text: &str| {
            let values = [("row", title.as_str().into()), ("text", text.into())];
            self.say(id, &values)
        };
        match &marked.mark {
            Mark::Start { .. } => of_row("watching-tap.start"),
            Mark::Stop { .. } => of_row("watching-tap.stop"),
            Mark::Seen { seen, .. } => {
                let values = [
                    ("row", title.as_str().into()),
                    ("seen", seen_short(*seen, self.words).into()),
                ];
                self.say("watching-tap.seen", &values)
            }
            Mark::Value { text, .. } => of_text("watching-tap.value", text),
            Mark::Remark { row: Some(_), text } => of_text("watching-tap.remark", text),
            Mark::Remark { row: None, text } => of_text("watching-tap.remark-all", text),
            Mark::Lot { text } => of_text("watching-tap.lot", text),
            Mark::Danger { text } => of_text("watching-tap.danger", text),
            Mark::End { .. } => self.say("watching-tap.end", &[]),
            Mark::Undo => self.say("watching-tap.undo", &[]),
            Mark::Dropped => self.say("watching-tap.dropped", &[]),
            Mark::Signed { .. } => self.say("watching-tap.signed", &[]),
        }
    }

    fn of_case<T>(&self, say: impl FnOnce(&WatchedCase<'_>) -> T) -> T {
        let hazards = |id: &str| self.card.taken.hazard(id);
        let module = self.card.module();
        say(&WatchedCase::new(
            module,
            &self.card.plan,
            &hazards,
            self.words,
        ))
    }
}

/// How a row went, in a word or two.
#[must_use]
pub fn seen_short(seen: Seen, words: &Words) -> String {
    words.say(
        match seen {
            Seen::Done => "watching-seen.done",
            Seen::Prompted => "watching-seen.prompted",
            Seen::NotDone => "watching-seen.not-done",
            Seen::NotSeen => "watching-seen.not-seen",
        },
        &[],
    )
}

/// The message that says what a judgement means.
fn anchor(judgement: Judgement) -> &'static str {
    match judgement {
        Judgement::Acceptable => "watching-anchor.acceptable",
        Judgement::NotAcceptable => "watching-anchor.not-acceptable",
    }
}

/// What a judgement means, in full sentences.
#[must_use]
pub fn anchored(judgement: Judgement, words: &Words) -> String {
    words.say(anchor(judgement), &[])
}

/// The time of day of a stamp, to the second.
pub(super) fn time_of_day(stamp: Stamp) -> String {
    // A stamp prints in ASCII as `2026-03-03T09:10:00+01:00`.
    stamp.to_string()[11..19].to_owned()
}

fn whole(time: Millis) -> Millis {
    Millis(time.0.div_euclid(1_000).saturating_mul(1_000))
}

fn seconds(count: i64) -> Millis {
    Millis(count.saturating_mul(1_000))
}
