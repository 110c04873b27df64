//! Signals that ask the program to end: noted, and looked at between two keys.
//!
//! SIGTERM, SIGHUP and SIGINT end the program with status 128 and their number. A handler may do next to nothing, so it notes
//! the number, and the loop gives the terminal back. Where the loop does not come round (the library that reads keys waits for
//! ever at a window that was closed), a thread does so and ends the program; what was acknowledged has been kept by then.
//! Systems without these signals have none to note.

#[cfg(not(unix))]
use std::io;

/// Proof that signals are noted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Signals(());

#[cfg(not(unix))]
impl Signals {
    /// Does nothing.
    ///
    /// # Errors
    /// Never.
    pub(super) fn watch() -> io::Result<Signals> {
        Ok(Signals(()))
    }

    /// None.
    pub(super) fn caught(self) -> Option<u8> {
        None
    }

    /// Does nothing.
    ///
    /// # Errors
    /// Never.
    pub(super) fn end_if_stuck(self) -> io::Result<()> {
        Ok(())
    }
}

#[cfg(unix)]
mod noted {
    use std::io;
    use std::process;
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::sync::{Arc, LazyLock, OnceLock};
    use std::thread;
    use std::time::Duration;

    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::flag;

    use super::Signals;
    use crate::tui::terminal::give_back::{free, give_back, is_taken};

    /// What ends the program.
    const ENDING: [i32; 3] = [SIGTERM, SIGHUP, SIGINT];

    /// How often the thread looks. Our default.
    const LOOK: Duration = Duration::from_millis(100);

    /// How long the loop has to end by itself. It looks every tenth of a second; drawing takes a few thousandths.
    const GRACE: Duration = Duration::from_secs(1);

    /// The number of the signal that came last, 0 for none.
    static LAST: LazyLock<Arc<AtomicUsize>> = LazyLock::new(Arc::default);

    /// What came of registering, which is done once for the whole life of the program.
    static REGISTERED: OnceLock<Result<(), io::ErrorKind>> = OnceLock::new();

    impl Signals {
        /// Has signals noted while the terminal is taken over. While it is the shell's they do what they always do.
        ///
        /// # Errors
        /// When the system refuses.
        pub(in crate::tui::terminal) fn watch() -> io::Result<Signals> {
            (*REGISTERED.get_or_init(|| register().map_err(|error| error.kind())))?;
            LAST.store(0, Ordering::SeqCst);
            Ok(Signals(()))
        }

        /// The number of the signal that asked for the end, if one has.
        pub(in crate::tui::terminal) fn caught(self) -> Option<u8> {
            let Signals(()) = self;
            u8::try_from(LAST.load(Ordering::SeqCst))
                .ok()
                .filter(|&number| number > 0)
        }

        /// Has the program ended where a signal came and the loop did not end by itself.
        ///
        /// # Errors
        /// When the system has no thread left.
        pub(in crate::tui::terminal) fn end_if_stuck(self) -> io::Result<()> {
            thread::Builder::new()
                .name("signals".to_owned())
                .spawn(move || {
                    while is_taken() {
                        thread::sleep(LOOK);
                        if let Some(signal) = self.caught() {
                            thread::sleep(GRACE);
                            if is_taken() {
                                give_back();
                                process::exit(128 + i32::from(signal));
                            }
                        }
                    }
                })
                .map(drop)
        }
    }

    fn register() -> io::Result<()> {
        for signal in ENDING {
            flag::register_conditional_default(signal, free())?;
            let number = usize::try_from(signal).unwrap_or(0);
            flag::register_usize(signal, Arc::clone(&LAST), number)?;
        }
        Ok(())
    }
}
