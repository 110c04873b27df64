//! The two clocks: one that only runs forward, and the one on the wall.

use std::time;

use crate::units::{Instant, Millis, Offset, Stamp};

/// The machine's clocks, counted from when this value was made.
#[derive(Clone, Copy, Debug)]
pub struct Clock {
    started: time::Instant,
}

impl Clock {
    /// Starts counting.
    #[must_use]
    pub fn start() -> Clock {
        Clock {
            started: time::Instant::now(),
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

    /// Returns the wall clock to the second, as entries carry it.
    #[must_use]
    pub fn stamp(&self) -> Stamp {
        let now = self.now();
        let instant = Instant::from_epoch(now.timestamp());
        let minutes = i16::try_from(now.offset().local_minus_utc() / 60).unwrap_or(0);
        let offset = Offset::minutes(minutes).unwrap_or(Offset::UTC);
        let first = Stamp::new(Instant::from_epoch(0), Offset::UTC);
        // A clock that stands outside every calendar counts as not set.
        Stamp::new(instant, offset)
            .or(first)
            .unwrap_or_else(|| unreachable!("1970 is in the calendar"))
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
