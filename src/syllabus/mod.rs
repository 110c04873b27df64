//! Learning modules as data: read, checked, compared, compiled to plans.
//!
//! Left out: files (a module is given as text) and words for people (problems are values).

pub mod case;
pub mod module;
pub mod operation;
pub mod read;
