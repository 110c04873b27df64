//! What the views draw through: the library's own backend, with the faults taken out that a person would see.
//!
//! - Dropping it gives the terminal back without clearing what the shell had on it.
//! - What is printed is made safe once more, whatever a view forgot.
//! - Where no colour is wanted, none is sent; the library would send resets, which end bold and reverse too.
//! - After a resize, or when `Ctrl-L` asks for it, everything is drawn anew.

use std::cell::Cell;
use std::io;
use std::mem::ManuallyDrop;
use std::rc::Rc;

use cursive::Vec2;
use cursive::backend::Backend;
use cursive::backends::crossterm;
use cursive::event::Event;
use cursive::theme::{Color, ColorPair, Effect};
use unicode_width::UnicodeWidthStr as _;

use super::give_back;
use crate::app::Colours;
use crate::text::cell_safe;

/// Clears the screen and leaves colours alone (ECMA-48, ED).
const CLEAR: &str = "\u{1b}[2J";

/// The terminal while it is in our hands.
pub(super) struct TerminalBackend {
    /// Never dropped: its own end clears the shell's screen.
    inner: ManuallyDrop<Box<dyn Backend>>,
    colours: Colours,
    /// Whether a tick is to be handed over.
    tick: Rc<Cell<bool>>,
    /// Whether what stands on the screen is unknown.
    stale: Cell<bool>,
}

impl TerminalBackend {
    /// Takes the terminal over.
    ///
    /// # Errors
    /// When the terminal refuses; it is then as it was.
    pub(super) fn take_over(colours: Colours, tick: Rc<Cell<bool>>) -> io::Result<Self> {
        let inner = give_back::take(library_backend)?;
        Ok(TerminalBackend {
            inner: ManuallyDrop::new(inner),
            colours,
            tick,
            stale: Cell::new(true),
        })
    }
}

/// Draws on what standard output is, which has been found to be a terminal; `/dev/tty` may be another one or missing.
#[cfg(unix)]
fn library_backend() -> io::Result<Box<dyn Backend>> {
    use std::os::fd::AsFd as _;
    let output = io::stdout().as_fd().try_clone_to_owned()?;
    crossterm::Backend::init_with_stdout_file(output.into())
}

#[cfg(not(unix))]
fn library_backend() -> io::Result<Box<dyn Backend>> {
    crossterm::Backend::init()
}

impl Drop for TerminalBackend {
    fn drop(&mut self) {
        give_back::give_back();
    }
}

/// Returns what is printed in place of the content of a cell: safe, and as wide as the views took it to be.
fn printed(cell: &str) -> String {
    let mut safe = cell_safe(cell);
    for _ in safe.width()..cell.width() {
        safe.push(' ');
    }
    safe
}

impl Backend for TerminalBackend {
    fn poll_event(&mut self) -> Option<Event> {
        let event = self
            .inner
            .poll_event()
            .or_else(|| self.tick.take().then_some(Event::Refresh));
        if matches!(event, Some(Event::WindowResize | Event::CtrlChar('l'))) {
            self.stale.set(true);
        }
        event
    }

    fn set_title(&mut self, title: String) {
        self.inner.set_title(cell_safe(&title));
    }

    fn refresh(&mut self) {
        self.inner.refresh();
    }

    fn has_colors(&self) -> bool {
        self.colours == Colours::Full
    }

    fn screen_size(&self) -> Vec2 {
        // A terminal that has not been given a size yet says 0 by 0.
        self.inner.screen_size().or_max((1, 1))
    }

    fn move_to(&self, pos: Vec2) {
        self.inner.move_to(pos);
    }

    fn print(&self, text: &str) {
        if text == " " {
            self.inner.print(text);
        } else {
            self.inner.print(&printed(text));
        }
    }

    fn clear(&self, color: Color) {
        match self.colours {
            Colours::Full => self.inner.clear(color),
            Colours::None => self.inner.print(CLEAR),
        }
    }

    fn set_color(&self, colors: ColorPair) -> ColorPair {
        match self.colours {
            Colours::Full => self.inner.set_color(colors),
            Colours::None => ColorPair::terminal_default(),
        }
    }

    fn set_effect(&self, effect: Effect) {
        self.inner.set_effect(effect);
    }

    fn is_persistent(&self) -> bool {
        // Asked once for each drawing: what is not known to stand there is drawn.
        !self.stale.take()
    }

    fn unset_effect(&self, effect: Effect) {
        self.inner.unset_effect(effect);
    }

    fn name(&self) -> &str {
        "terminal"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_keeps_its_width_whatever_stands_in_its_place() {
        for (cell, expected) in [
            ("a", "a"),
            ("寸", "寸"),
            ("   ", "   "),
            ("\u{1b}", "\u{FFFD}"),
            ("\u{200B}", ""),
            ("\u{915}\u{94D}\u{915}\u{94D}\u{915}", "\u{FFFD}  "),
            ("\u{1F44D}\u{1F3FD}", "\u{FFFD} "),
        ] {
            assert_eq!(printed(cell), expected, "{cell:?}");
        }
    }
}
