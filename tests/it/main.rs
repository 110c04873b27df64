//! All integration tests: one binary, linked once.

mod reading;
mod reference;
