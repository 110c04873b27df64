//! All integration tests: one binary, linked once.

mod checking;
mod reading;
mod reference;
