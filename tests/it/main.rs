//! All integration tests: one binary, linked once.

mod reference;
