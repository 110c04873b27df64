//! What was tapped so far, and what stands of it.

use super::clock::{ClockNote, Reading, Timekeeper};
use super::head::{Head, read_head};
use super::mark::{Mark, Marked, TEXT_MOST};
use super::rows::BenchCard;
use crate::record::entry::{Judgement, Seen};
use crate::units::{Millis, Stamp};

/// A run as far as it went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchRun {
    head: Head,
    marks: Vec<Marked>,
    /// Which of the marks stand, by index: those that were not taken back.
    stands: Vec<usize>,
    signed: Option<String>,
    clock: Timekeeper,
}

/// One time that a row was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Occurrence {
    /// When it was started, since the run began.
    pub start: Millis,
    /// When it was stopped; none while it runs.
    pub stop: Option<Millis>,
}

impl Occurrence {
    /// How long it lasted, to a tenth of a second: no thumb is finer. None while it runs.
    #[must_use]
    pub fn lasted(&self) -> Option<Millis> {
        let length = self.stop? - self.start;
        Some(Millis((length.0 + 50).div_euclid(100) * 100))
    }
}

/// What stands of a row.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RowState<'r> {
    /// The times it was started, the first first.
    pub times: Vec<Occurrence>,
    /// How it went, and when that was tapped; none while nothing was tapped.
    pub seen: Option<(Seen, Millis)>,
    /// Values that were read.
    pub values: Vec<&'r str>,
    /// Remarks.
    pub remarks: Vec<&'r str>,
}

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ended<'r> {
    /// The judgement of the whole.
    pub judgement: Judgement,
    /// What it was stopped for, where it was.
    pub danger: Option<&'r str>,
    /// When, by the clock on the wall.
    pub at: Stamp,
}

/// Why a tap is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TapProblem {
    /// The workflow has no such row. Holds what was found.
    NoSuchRow(String),
    /// The row runs already.
    Runs(String),
    /// The row does not run.
    DoesNotRun(String),
    /// Nothing was typed.
    Empty,
    /// The text is too long. Holds the most characters.
    TooLong(usize),
    /// The text holds a control character, such as a line end.
    Control,
    /// The run is over: only that can be taken back.
    Over,
    /// There is nothing to take back.
    NothingToUndo,
    /// The run is not over.
    NotOver,
    /// The observation was signed. Nothing changes any more.
    Signed,
    /// What was tapped stands: the run is not dropped.
    Stands,
    /// The run was dropped. Nothing changes any more.
    Dropped,
}

/// Why lines are no bench run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RunProblem {
    /// A line is none; holds its number, from 1, and why, as the reader of its format says.
    Line(usize, String),
    /// A line makes no sense behind those before it; holds its number, from 1.
    Senseless(usize, TapProblem),
    /// A newer program wrote it. Holds the format.
    Newer(u64),
}

impl BenchRun {
    /// Begins.
    #[must_use]
    pub fn begin(head: Head, now: Reading) -> BenchRun {
        let mut clock = Timekeeper::since(Millis::ZERO, head.started);
        clock.pass(now);
        BenchRun {
            head,
            marks: Vec::new(),
            stands: Vec::new(),
            signed: None,
            clock,
        }
    }

    /// Reads a run from its whole lines.
    ///
    /// # Errors
    /// The line that is no part of a run.
    pub fn read<L: AsRef<str>>(lines: &[L]) -> Result<BenchRun, RunProblem> {
        let mut lines = lines.iter().map(AsRef::as_ref).enumerate();
        let (_, head) = lines.next().unwrap_or((0, ""));
        let head = read_head(head)?;
        let mut run = BenchRun {
            clock: Timekeeper::since(Millis::ZERO, head.started),
            head,
            marks: Vec::new(),
            stands: Vec::new(),
            signed: None,
        };
        for (index, line) in lines {
            let number = index + 1;
            let marked: Marked = serde_json::from_str(line)
                .map_err(|why| RunProblem::Line(number, why.to_string()))?;
            if marked.run < run.last() {
                return Err(RunProblem::Line(number, "run-ms".to_owned()));
            }
            run.check(&marked.mark)
                .map_err(|why| RunProblem::Senseless(number, why))?;
            run.clock = Timekeeper::since(marked.run, marked.at);
            run.keep(marked);
        }
        Ok(run)
    }

    /// Goes on after the program was started again: what the clock on the wall did meanwhile is told with the next tap.
    pub fn go_on(&mut self, now: Reading) {
        self.clock.pass(now);
    }

    /// What was known when it began.
    #[must_use]
    pub fn head(&self) -> &Head {
        &self.head
    }

    /// Everything that was tapped, what was taken back too.
    #[must_use]
    pub fn marks(&self) -> &[Marked] {
        &self.marks
    }

    /// What was tapped and not taken back, in order.
    pub fn standing(&self) -> impl DoubleEndedIterator<Item = &Marked> {
        self.stands.iter().map(|&index| &self.marks[index])
    }

    /// The tap that an undo would take back.
    #[must_use]
    pub fn undoable(&self) -> Option<&Marked> {
        self.standing().next_back()
    }

    /// The tap that was taken back last, where that is the last thing that happened.
    #[must_use]
    pub fn taken_back(&self) -> Option<&Marked> {
        let (last, before) = self.marks.split_last()?;
        if last.mark != Mark::Undo {
            return None;
        }
        let mut stood = Vec::new();
        for marked in before {
            match marked.mark {
                Mark::Undo => drop(stood.pop()),
                Mark::Dropped | Mark::Signed { .. } => {}
                _ => stood.push(marked),
            }
        }
        stood.pop()
    }

    /// The time of the run at a reading.
    #[must_use]
    pub fn now(&self, now: Reading) -> Millis {
        self.clock.now(now)
    }

    fn last(&self) -> Millis {
        self.marks.last().map_or(Millis::ZERO, |marked| marked.run)
    }

    /// What stands of a row.
    #[must_use]
    pub fn row(&self, id: &str) -> RowState<'_> {
        let mut state = RowState::default();
        for marked in self.standing().filter(|one| one.mark.row() == Some(id)) {
            match &marked.mark {
                Mark::Start { .. } => state.times.push(Occurrence {
                    start: marked.run,
                    stop: None,
                }),
                Mark::Stop { .. } => {
                    if let Some(runs) = state.times.last_mut() {
                        runs.stop = Some(marked.run);
                    }
                }
                Mark::Seen { seen, .. } => state.seen = Some((*seen, marked.run)),
                Mark::Value { text, .. } => state.values.push(text),
                Mark::Remark { text, .. } => state.remarks.push(text),
                _ => {}
            }
        }
        state
    }

    /// How a row went, as the observer marked it.
    #[must_use]
    pub fn seen(&self, id: &str) -> Option<Seen> {
        self.row(id).seen.map(|(seen, _)| seen)
    }

    /// Remarks on the whole.
    pub fn remarks(&self) -> impl Iterator<Item = &str> {
        self.standing().filter_map(|one| match &one.mark {
            Mark::Remark { row: None, text } => Some(text.as_str()),
            _ => None,
        })
    }

    /// Lot numbers and equipment: those known before, and those noted since.
    pub fn lots(&self) -> impl Iterator<Item = &str> {
        let noted = self.standing().filter_map(|one| match &one.mark {
            Mark::Lot { text } => Some(text.as_str()),
            _ => None,
        });
        self.head.lots.iter().map(String::as_str).chain(noted)
    }

    /// How it ended, if it has.
    #[must_use]
    pub fn ended(&self) -> Option<Ended<'_>> {
        let last = self.undoable()?;
        let (judgement, danger) = match &last.mark {
            Mark::Danger { text } => (Judgement::NotAcceptable, Some(text.as_str())),
            Mark::End { judgement } => (*judgement, None),
            _ => return None,
        };
        Some(Ended {
            judgement,
            danger,
            at: last.at,
        })
    }

    /// The seal of the entry that it has become, if it has.
    #[must_use]
    pub fn signed(&self) -> Option<&str> {
        self.signed.as_deref()
    }

    /// Whether it was begun by mistake and is not gone on with.
    #[must_use]
    pub fn is_dropped(&self) -> bool {
        let last = self.marks.last();
        last.is_some_and(|last| last.mark == Mark::Dropped)
    }

    /// Whether nothing that was tapped stands, so that it can be dropped.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.stands.is_empty()
    }

    /// Whether a tap can be taken now, whatever the workflow.
    ///
    /// # Errors
    /// Why not.
    pub fn check(&self, mark: &Mark) -> Result<(), TapProblem> {
        if self.signed.is_some() {
            return Err(TapProblem::Signed);
        }
        if self.is_dropped() {
            return Err(TapProblem::Dropped);
        }
        let over = self.ended().is_some();
        match mark {
            Mark::Dropped if self.stands.is_empty() => return Ok(()),
            Mark::Dropped => return Err(TapProblem::Stands),
            Mark::Undo if self.stands.is_empty() => return Err(TapProblem::NothingToUndo),
            Mark::Undo => return Ok(()),
            Mark::Signed { .. } if over => return Ok(()),
            Mark::Signed { .. } => return Err(TapProblem::NotOver),
            _ if over => return Err(TapProblem::Over),
            _ => {}
        }
        if let Some(text) = mark.text() {
            check_text(text)?;
        }
        let runs = |row: &str| {
            let state = self.row(row);
            state.times.last().is_some_and(|last| last.stop.is_none())
        };
        match mark {
            Mark::Start { row } if runs(row) => Err(TapProblem::Runs(row.clone())),
            Mark::Stop { row } if !runs(row) => Err(TapProblem::DoesNotRun(row.clone())),
            _ => Ok(()),
        }
    }

    /// The same, and that the workflow has the row.
    ///
    /// # Errors
    /// Why not.
    pub fn check_on(&self, card: &BenchCard, mark: &Mark) -> Result<(), TapProblem> {
        match mark.row() {
            Some(row) if card.row(row).is_none() => Err(TapProblem::NoSuchRow(row.to_owned())),
            _ => self.check(mark),
        }
    }

    /// The tap that comes before another one: who says how a row went stops its clock with that. Where more places of the row are still to come the clock
    /// is left alone, since what is said then is about all of them, often in the middle of one.
    #[must_use]
    pub fn tapped_first(&self, card: &BenchCard, mark: &Mark) -> Option<Mark> {
        let Mark::Seen { row, .. } = mark else {
            return None;
        };
        let row = card.row(row)?;
        let times = self.row(&row.id).times;
        let runs = times.last().is_some_and(|last| last.stop.is_none());
        let stops = runs && times.len() >= row.tasks.len();
        stops.then(|| Mark::Stop {
            row: row.id.clone(),
        })
    }

    /// Puts the time to a tap. Nothing has changed yet: it is kept first.
    pub(super) fn timed(&mut self, mark: Mark, now: Reading) -> Marked {
        self.clock.pass(now);
        Marked {
            at: now.at,
            run: self.clock.now(now),
            clock: self.clock.note(),
            mark,
        }
    }

    /// Takes a tap that has been kept.
    pub(super) fn keep(&mut self, marked: Marked) {
        self.clock.noted();
        let index = self.marks.len();
        match &marked.mark {
            Mark::Undo => {
                self.stands.pop();
            }
            Mark::Signed { entry } => self.signed = Some(entry.clone()),
            Mark::Dropped => {}
            _ => self.stands.push(index),
        }
        self.marks.push(marked);
    }

    /// The lines as they are kept, up to the end of the run: what is attached to the entry.
    ///
    /// # Errors
    /// When they cannot be written, with the reason.
    pub fn text(&self) -> Result<String, String> {
        let unwritable = |why: serde_json::Error| why.to_string();
        let mut text = serde_json::to_string(&self.head).map_err(unwritable)? + "\n";
        let taps = self.marks.iter();
        for marked in taps.filter(|one| !matches!(one.mark, Mark::Signed { .. })) {
            text += &serde_json::to_string(marked).map_err(unwritable)?;
            text.push('\n');
        }
        Ok(text)
    }

    /// What the clock on the wall did other than go on, with the time of the run at which it was noticed.
    pub fn clock_notes(&self) -> impl Iterator<Item = (Millis, ClockNote)> {
        let noted = self.marks.iter();
        noted.filter_map(|one| Some((one.run, one.clock?)))
    }

    /// The rows of which nobody has said how they went.
    #[must_use]
    pub fn unmarked<'c>(&self, card: &'c BenchCard) -> Vec<&'c super::Row> {
        let rows = card.rows.iter();
        rows.filter(|row| self.seen(&row.id).is_none()).collect()
    }
}

/// Whether a text can be tapped in.
fn check_text(text: &str) -> Result<(), TapProblem> {
    if text.trim().is_empty() {
        Err(TapProblem::Empty)
    } else if text.chars().count() > TEXT_MOST {
        Err(TapProblem::TooLong(TEXT_MOST))
    } else if text.chars().any(char::is_control) {
        Err(TapProblem::Control)
    } else {
        Ok(())
    }
}
