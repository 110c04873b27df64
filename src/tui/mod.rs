//! Edge: screens on a terminal.

pub mod terminal;
