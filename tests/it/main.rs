//! All integration tests: one binary, linked once.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot go on has to stop, in what it shares with others too"
)]

mod bench_run;
mod cautions;
mod cells;
mod checking;
mod cli_help;
mod debrief;
mod digests;
mod disturbances;
mod every_slip;
mod expert;
mod following;
mod guidance;
mod guide;
mod hostile;
#[cfg(unix)]
mod journeys;
mod killing;
mod laboratory;
mod mistakes;
mod picture;
mod plain;
mod reading;
mod record;
mod reference;
mod replay;
mod saved_runs;
mod screens;
mod scripts;
#[cfg(unix)]
mod sitting;
mod store;
mod support;
#[cfg(unix)]
mod terminal;
mod tidy;
