//! The loop: waits for a key, hands it to the views at once, draws what came of it.
//!
//! The loop of the library sleeps between two looks and would hold a key back for up to 30 ms. This one sleeps in the wait for the
//! key itself, so that a time counted between two keys is the time between two keys.

use std::io;
use std::time::Instant;

use cursive::backends::crossterm::crossterm::event;
use cursive::{Cursive, CursiveRunner};

use super::Terminal;
use super::pace::Pace;

/// How the screens ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// Somebody left.
    Quit,
    /// The system asked the program to end, by the signal of this number.
    Signal(u8),
}

impl Ended {
    /// The exit status that says so: 0, or 128 and the number of the signal.
    #[must_use]
    pub fn status(self) -> u8 {
        match self {
            Ended::Quit => 0,
            Ended::Signal(number) => number.saturating_add(128),
        }
    }
}

/// Shows the views until they end or the system asks for it, then gives the terminal back.
///
/// `wants_ticks` is asked after every event: while it says yes, `Event::Refresh` comes about thirty times a second, and else
/// never. Something is drawn only when an event or a callback came.
///
/// # Errors
/// When keys can no longer be read.
pub fn run(
    terminal: Terminal,
    views: &mut Cursive,
    mut wants_ticks: impl FnMut(&mut Cursive) -> bool,
) -> io::Result<Ended> {
    let Terminal {
        backend,
        signals,
        tick,
    } = terminal;
    let mut runner = CursiveRunner::new(views, Box::new(backend));
    runner.refresh();
    let mut pace = Pace::start(Instant::now());
    while runner.is_running() {
        if let Some(signal) = signals.caught() {
            return Ok(Ended::Signal(signal));
        }
        let lively = wants_ticks(&mut runner);
        event::poll(pace.wait(Instant::now(), lively))?;
        tick.set(pace.tick(Instant::now(), lively));
        if runner.process_events() {
            runner.refresh();
        }
    }
    Ok(Ended::Quit)
}
