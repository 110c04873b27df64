//! The terminal as it was before, whoever asks for it: the end, a panic, a signal.

use std::io;
use std::panic;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, LazyLock, Once};

use cursive::backends::crossterm::crossterm::{
    cursor::Show,
    event::DisableMouseCapture,
    execute,
    style::{Attribute, SetAttribute},
    terminal::{LeaveAlternateScreen, disable_raw_mode},
};

/// Whether the terminal is the shell's. There is one terminal, so there is one of this.
static FREE: LazyLock<Arc<AtomicBool>> = LazyLock::new(|| Arc::new(AtomicBool::new(true)));

/// What says whether the terminal is the shell's, for those who cannot ask later.
#[cfg(unix)]
pub(super) fn free() -> Arc<AtomicBool> {
    Arc::clone(&FREE)
}

/// Tells whether the terminal is in our hands.
#[cfg(unix)]
pub(super) fn is_taken() -> bool {
    !FREE.load(Ordering::SeqCst)
}

/// Runs what takes the terminal over.
///
/// # Errors
/// When it fails; the terminal counts as the shell's then.
pub(super) fn take<T>(take_over: impl FnOnce() -> io::Result<T>) -> io::Result<T> {
    // Said first, so that a signal in between gives back too much rather than too little.
    FREE.store(false, Ordering::SeqCst);
    let taken = take_over();
    if taken.is_err() {
        FREE.store(true, Ordering::SeqCst);
        let _refused = disable_raw_mode();
    }
    taken
}

/// Gives the terminal back, once, with the screen that the shell left. Can be called at any time.
///
/// Nothing is cleared: leaving the second screen brings the first one back, with its cursor.
pub(super) fn give_back() {
    if FREE.swap(true, Ordering::SeqCst) {
        return;
    }
    // A terminal that is gone takes nothing back, and there is nobody left to tell.
    let _gone = execute!(
        io::stdout(),
        SetAttribute(Attribute::Reset),
        DisableMouseCapture,
        LeaveAlternateScreen,
        Show
    );
    let _gone = disable_raw_mode();
}

/// Has a panic give the terminal back before its message is printed, so that the message can be read.
pub(super) fn on_panic() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |about| {
            give_back();
            before(about);
        }));
    });
}
