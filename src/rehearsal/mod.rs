//! One run over a plan and a bench: driven, aligned, graded.
//!
//! A run is a seed and a list of actions; from it everything else is replayed. Left out: history and who is working.

pub mod action;
pub mod align;
pub mod blame;
pub mod drive;
pub mod finding;
pub mod grade;
pub mod line;
pub mod replay;
pub mod run;
pub mod trace;
