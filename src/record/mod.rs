//! The record: facts that are sealed, chained and signed, and the rules by which anybody can check that they are unaltered.

pub mod canonical;
pub mod seal;
pub mod signature;
pub mod tree;
