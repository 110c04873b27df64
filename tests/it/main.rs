//! All integration tests: one binary, linked once.

mod cli_help;
mod reading;
mod reference;
mod tidy;
