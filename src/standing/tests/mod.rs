//! The rules by example, and against another reading of them.

mod random;
mod reread;
mod rules;
pub(crate) mod shop;
