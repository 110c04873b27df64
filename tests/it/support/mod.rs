//! What tests share: people at the bench, and how faults are told.

pub(crate) mod expert;
pub(crate) mod faults;
