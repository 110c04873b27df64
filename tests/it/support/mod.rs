//! What tests share: people at the bench.

pub(crate) mod expert;
