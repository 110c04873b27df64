//! Learning modules as data: the order of tasks and the times between them.

pub mod order;
pub mod timing;
