//! What people and machines are told about a module, a run or the record: reports as blocks, and blocks as text.
//!
//! A report is a list of [`Block`]s, already worded in one language. A renderer knows blocks and figures and nothing else, so
//! that a new report needs no renderer and a new renderer no report. Left out: files, the date, and what a run is graded by.

mod block;
mod caution;
mod debrief;
mod figure;
mod figures;
pub mod json;
mod names;
pub mod pages;
pub mod plain;
pub mod problems;
pub mod record;
mod running;
mod watched;
mod wording;

pub use block::{Block, Item};
pub use caution::{HazardWords, Hazards};
pub use debrief::{Debriefed, debrief};
pub use figure::{
    Amount, Arch, ArchTooth, Axis, Bar, BarGroup, Bars, Bound, Curve, Figure, Mark, Point, Reach,
    Series, Stroke, Timeline, TimelineRow,
};
pub use figures::figures;
pub use running::{Guidance, Running, Suggested, Turn, clock};
pub use watched::WatchedCase;
