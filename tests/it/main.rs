//! All integration tests: one binary, linked once.

mod expert;
mod mistakes;
mod reading;
mod reference;
mod support;
