//! What tests share: people at the bench, and what they sit in front of.

pub(crate) mod broken_off;
pub(crate) mod expert;
pub(crate) mod hostile_text;
pub(crate) mod machine;
pub(crate) mod memory_screen;
pub(crate) mod picture;
#[cfg(unix)]
pub(crate) mod pseudo_terminal;
#[cfg(unix)]
pub(crate) mod renditions;
