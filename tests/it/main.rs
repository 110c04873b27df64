//! All integration tests: one binary, linked once.

mod cli_help;
mod expert;
mod mistakes;
mod reading;
mod reference;
mod support;
mod tidy;
