//! All integration tests: one binary, linked once.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot go on has to stop, in what it shares with others too"
)]

mod cautions;
mod checking;
mod cli_help;
mod debrief;
mod digests;
mod disturbances;
mod every_slip;
mod expert;
mod following;
mod guide;
mod hostile;
mod killing;
mod mistakes;
mod plain;
mod reading;
mod reference;
mod replay;
mod saved_runs;
mod scripts;
mod store;
mod support;
mod tidy;
