//! What somebody asks of the screens when the program is started, and why there are none.

use std::io;
use std::path::PathBuf;

/// What the screens are to be like.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wish {
    /// The folder for data, if not the system's.
    pub data: Option<PathBuf>,
    /// Dark letters on a light ground.
    pub light: bool,
    /// Only ASCII for lines and figures.
    pub ascii: bool,
    /// What comes first.
    pub begin: Begin,
}

/// What comes first on the screens.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Begin {
    /// The laboratory of the folder, or what can be done where there is none.
    #[default]
    Laboratory,
    /// A fresh copy of the demonstration.
    Demonstration,
    /// Practice without a record.
    Practice,
}

/// How the screens ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The exit status: 0, or 128 and the number of the signal that ended them.
    pub status: u8,
    /// What has to be said afterwards.
    pub farewell: Option<String>,
}

/// Why the screens cannot be shown, or broke off.
#[derive(Debug)]
pub enum NoScreens {
    /// Input or output is no terminal. Nothing has been changed.
    NoTerminal,
    /// The terminal refused.
    Refused(io::Error),
    /// Keys could no longer be read. What was kept is kept.
    Broken(io::Error),
}
