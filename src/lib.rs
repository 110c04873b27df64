//! Drybench: rehearse, assess and record the bench work of a dental laboratory.

pub mod bench;
pub mod rehearsal;
pub mod rng;
pub mod syllabus;
pub mod units;
