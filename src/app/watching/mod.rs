//! A bench run: somebody is watched at a real case, with the clock on the wall.
//!
//! What the observer taps is kept line by line before it is acknowledged, and nothing is ever taken out: an undo is a line of its own. The rows are the
//! steps of the workflow for this case card. What the clock and the order of the taps say is told to the observer and decides nothing.
//! Left out: who is competent, which follows from what was signed; and the clock, which whoever taps reads.

pub mod afterwards;
mod clock;
mod counts;
mod head;
mod judged;
mod keep;
pub mod line;
mod mark;
pub mod problems;
mod rows;
mod run;
mod spelled;
pub mod telling;

pub use clock::{ClockNote, Reading};
pub use counts::{Counts, RowAsked, counts};
pub use head::{FORMAT, Head};
pub use judged::{Length, findings, length};
pub use keep::{OpenRun, OpenRuns, TapFailure, Watch, WatchProblem, open_runs};
pub use mark::{Mark, Marked, TEXT_MOST};
pub use rows::{BenchCard, Row};
pub use run::{BenchRun, Ended, Occurrence, RowState, RunProblem, TapProblem};
