//! Learning modules as data: read, checked, compared, compiled to plans.
//!
//! Left out: files (a module is given as text) and words for people (problems are values).

pub mod case;
pub mod digest;
pub mod faults;
pub mod hazards;
pub mod module;
pub mod operation;
pub mod order;
pub mod place;
pub mod plan;
pub mod profile;
pub mod read;
pub mod timing;
