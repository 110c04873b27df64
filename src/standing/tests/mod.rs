//! The rules by example, and against another reading of them.

mod consequences;
mod random;
mod reread;
mod rules;
mod setting_up;
pub(crate) mod shop;
