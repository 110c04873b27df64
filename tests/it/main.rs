//! All integration tests: one binary, linked once.

mod checking;
mod cli_help;
mod debrief;
mod expert;
mod mistakes;
mod reading;
mod reference;
mod support;
mod tidy;
