//! What tests share: people at the bench, what they sit in front of, and how faults are told.

pub(crate) mod asking;
pub(crate) mod broken_off;
pub(crate) mod dangerous;
pub(crate) mod expert;
pub(crate) mod faults;
pub(crate) mod hostile_text;
pub(crate) mod laboratory;
pub(crate) mod machine;
pub(crate) mod memory_screen;
pub(crate) mod picture;
pub(crate) mod profiles;
#[cfg(unix)]
pub(crate) mod pseudo_terminal;
#[cfg(unix)]
pub(crate) mod renditions;
