//! Edge: the terminal under the screens. Taken over, drawn on, listened to, and given back as it was.
//!
//! [`open`] takes the terminal over, or says why it cannot; [`run()`] shows a tree of views until it ends. Whatever happens in
//! between (an end, a panic, a signal, a closed window), the terminal is given back with what stood on it before.
//! Left out: views, themes with colours, and what a key means.

#![expect(
    clippy::disallowed_methods,
    reason = "waits for keys by the clock, and ends a program that a signal could not end"
)]

mod backend;
mod give_back;
mod pace;
mod run;
mod signals;

use std::cell::Cell;
use std::io::{self, IsTerminal as _};
use std::rc::Rc;

pub use run::{Ended, run};

use crate::app::Colours;
use backend::TerminalBackend;
use signals::Signals;

/// A terminal that has been taken over. Dropping it gives it back.
pub struct Terminal {
    backend: TerminalBackend,
    signals: Signals,
    /// Set by the loop when a tick is due, taken by the backend.
    tick: Rc<Cell<bool>>,
}

/// Why there is no terminal to show screens on. Nothing has been changed.
#[derive(Debug)]
pub enum NoTerminal {
    /// Input comes from a file or a pipe.
    Input,
    /// Output goes to a file or a pipe.
    Output,
    /// It is one, and could not be taken over.
    Refused(io::Error),
}

/// Takes the terminal over: raw keys, the second screen, mouse capture, no cursor.
///
/// # Errors
/// When input or output is no terminal, or the terminal refuses; it is then as it was.
pub fn open(colours: Colours) -> Result<Terminal, NoTerminal> {
    if !io::stdin().is_terminal() {
        return Err(NoTerminal::Input);
    }
    if !io::stdout().is_terminal() {
        return Err(NoTerminal::Output);
    }
    let tick = Rc::new(Cell::new(false));
    // Before anything is changed: from the first moment on, whatever ends the program gives the terminal back.
    let signals = Signals::watch().map_err(NoTerminal::Refused)?;
    give_back::on_panic();
    let backend =
        TerminalBackend::take_over(colours, Rc::clone(&tick)).map_err(NoTerminal::Refused)?;
    signals.end_if_stuck().map_err(NoTerminal::Refused)?;
    Ok(Terminal {
        backend,
        signals,
        tick,
    })
}
