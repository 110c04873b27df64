//! Edge: the screens. Keys become commands, commands change a screen's state, and every picture is drawn anew from it.
//!
//! `handle(command)` and `frame()` need no terminal (`ui`); the drawing library only carries events in and pieces out (`view`).
//! Left out: rules about modules, runs and grades, which `app` and the pure rooms know; and the words, which `text` says.

pub mod command;
mod field;
pub mod frame;
mod list;
mod prose;
pub mod screen;
pub mod screens;
pub mod terminal;
pub mod theme;
pub mod ui;
pub mod view;
