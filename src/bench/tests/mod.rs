//! The bench as a whole: that it tells good work from bad over many seeds, and what holds for any work.

mod compile;
mod lab;
mod mending;
mod properties;
mod protocol;
mod separation;
