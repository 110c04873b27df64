//! The two clocks: one that only runs forward, and the one on the wall.

use std::time::Instant;

use crate::units::Millis;

/// The machine's clocks, counted from when this value was made.
#[derive(Clone, Copy, Debug)]
pub struct Clock {
    started: Instant,
}

impl Clock {
    /// Starts counting.
    #[must_use]
    pub fn start() -> Clock {
        Clock {
            started: Instant::now(),
        }
    }

    /// Returns how long ago the clock was started. Never goes back, whatever happens to the clock on the wall.
    #[must_use]
    pub fn elapsed(&self) -> Millis {
        Millis(i64::try_from(self.started.elapsed().as_millis()).unwrap_or(i64::MAX))
    }

    /// Returns the wall clock with the machine's offset at this instant.
    #[must_use]
    pub fn now(&self) -> chrono::DateTime<chrono::FixedOffset> {
        chrono::Local::now().fixed_offset()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elapsed_time_never_goes_back() {
        let clock = Clock::start();
        let first = clock.elapsed();
        assert!(Millis::ZERO <= first);
        assert!(first <= clock.elapsed());
    }
}
