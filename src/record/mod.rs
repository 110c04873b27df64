//! The record: facts that are sealed, chained and signed, and the rules by which anybody can check that they are unaltered.
//!
//! An [`entry`] is written behind the head of its [`strand`] into a [`log`]; who may sign it follows from the record itself
//! ([`authority`]); [`verify`] goes through everything again. What an entry means for a person's standing is left to
//! `standing`; where entries, keys and names are kept, to the edge.

pub mod authority;
pub mod canonical;
pub mod entry;
pub mod log;
mod member;
pub mod scope;
#[cfg(test)]
pub(crate) mod scribe;
pub mod seal;
pub mod signature;
pub mod strand;
pub mod tree;
pub mod verify;

pub use member::{MemberFault, MemberFaultKind};
