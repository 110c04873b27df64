//! When to wake without a key: about thirty times a second while something lives, else seldom.

use std::time::{Duration, Instant};

/// Between two ticks. Our default: a gauge moves smoothly, and drawing takes a small part of it.
const TICK: Duration = Duration::from_millis(33);

/// The longest wait, so that a signal is seen soon. Our default.
const LOOK: Duration = Duration::from_millis(100);

/// The rhythm of ticks.
#[derive(Debug)]
pub(super) struct Pace {
    last: Instant,
}

impl Pace {
    /// A rhythm that starts now.
    pub(super) fn start(now: Instant) -> Pace {
        Pace { last: now }
    }

    /// How long to wait for a key at most.
    pub(super) fn wait(&self, now: Instant, lively: bool) -> Duration {
        if lively {
            (self.last + TICK).saturating_duration_since(now)
        } else {
            LOOK
        }
    }

    /// Tells whether a tick is due, and counts it as done. Ticks that were missed are not made up for.
    pub(super) fn tick(&mut self, now: Instant, lively: bool) -> bool {
        let due = lively && now.saturating_duration_since(self.last) >= TICK;
        if due {
            self.last = now;
        }
        due
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_come_thirty_times_a_second_while_something_lives() {
        let start = Instant::now();
        let mut pace = Pace::start(start);
        let mut now = start;
        let mut ticks = 0;
        while now < start + Duration::from_secs(1) {
            now += pace.wait(now, true);
            ticks += i32::from(pace.tick(now, true));
        }
        assert!((29..=31).contains(&ticks), "{ticks}");
    }

    #[test]
    fn keys_do_not_hold_ticks_back() {
        let start = Instant::now();
        let mut pace = Pace::start(start);
        let ticks = (1..=1_000_u64)
            .filter(|&ms| pace.tick(start + Duration::from_millis(ms), true))
            .count();
        assert_eq!(ticks, 30);
    }

    #[test]
    fn nothing_ticks_where_nothing_lives_and_signals_are_still_looked_for() {
        let start = Instant::now();
        let mut pace = Pace::start(start);
        let later = start + Duration::from_secs(10);
        assert!(!pace.tick(later, false));
        assert_eq!(pace.wait(later, false), LOOK);
        // What comes to life ticks at once.
        assert_eq!(pace.wait(later, true), Duration::ZERO);
        assert!(pace.tick(later, true));
    }
}
