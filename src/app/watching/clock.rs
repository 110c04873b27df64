//! How time passes in a run: by the machine's count while the program runs, by the clock on the wall where it slept or was started again.

use serde::{Deserialize, Serialize};

use crate::units::{Instant, Millis, Stamp};

/// So far may the two clocks be apart before one of them is believed and the other noted: one shows whole seconds. Our default.
const APART: i64 = 2_000;

/// What the two clocks said at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The clock on the wall.
    pub at: Stamp,
    /// The machine's count since the program was started. It stands still while the machine sleeps.
    pub elapsed: Millis,
}

/// What the clock on the wall did other than go on. Holds by how many seconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ClockNote {
    /// It was set back. The machine's count was believed, or no time at all where there was none.
    #[serde(rename = "back-s")]
    Back(i64),
    /// It went ahead of the machine's count: the machine slept, or the clock was set. The clock on the wall was believed.
    #[serde(rename = "ahead-s")]
    Ahead(i64),
}

/// Counts the time of a run from reading to reading. What it counts never goes back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Timekeeper {
    run: Millis,
    at: Instant,
    /// The machine's count at that moment; none when the program has been started again since.
    elapsed: Option<Millis>,
    /// What was noticed and not yet written down.
    note: Option<ClockNote>,
}

impl Timekeeper {
    /// Begins with a run, or goes on behind its last line.
    pub(super) fn since(run: Millis, at: Stamp) -> Timekeeper {
        Timekeeper {
            run,
            at: at.instant(),
            elapsed: None,
            note: None,
        }
    }

    /// The time of the run at a reading.
    pub(super) fn now(&self, now: Reading) -> Millis {
        self.run + self.step(now).0
    }

    /// Takes note of a reading: what was noticed is told with the next line.
    pub(super) fn pass(&mut self, now: Reading) {
        let (step, note) = self.step(now);
        self.run += step;
        self.at = now.at.instant();
        self.elapsed = Some(now.elapsed);
        self.note = self.note.or(note);
    }

    /// What has been noticed and not yet been written down.
    pub(super) fn note(&self) -> Option<ClockNote> {
        self.note
    }

    /// It has been written down.
    pub(super) fn noted(&mut self) {
        self.note = None;
    }

    fn step(&self, now: Reading) -> (Millis, Option<ClockNote>) {
        let seconds = now
            .at
            .instant()
            .since_epoch()
            .saturating_sub(self.at.since_epoch());
        let wall = seconds.saturating_mul(1_000);
        let Some(before) = self.elapsed else {
            let back = (wall < 0).then(|| ClockNote::Back(seconds.saturating_neg()));
            return (Millis(wall.max(0)), back);
        };
        let counted = now.elapsed.0.saturating_sub(before.0).max(0);
        let ahead = wall.saturating_sub(counted);
        if ahead > APART {
            (Millis(wall), Some(ClockNote::Ahead(ahead / 1_000)))
        } else if ahead < -APART {
            let back = ahead.saturating_neg() / 1_000;
            (Millis(counted), Some(ClockNote::Back(back)))
        } else {
            (Millis(counted), None)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(seconds: i64, elapsed: i64) -> Reading {
        let begun: Stamp = "2026-12-01T10:15:00+01:00".parse().unwrap();
        let at = begun.instant().plus_seconds(seconds);
        Reading {
            at: Stamp::new(at, begun.offset()).unwrap(),
            elapsed: Millis(elapsed),
        }
    }

    fn begun() -> Timekeeper {
        let mut keeper = Timekeeper::since(Millis::ZERO, reading(0, 0).at);
        keeper.pass(reading(0, 0));
        keeper
    }

    #[test]
    fn the_machines_count_is_believed_while_both_go_alike() {
        let mut keeper = begun();
        keeper.pass(reading(10, 9_650));
        assert_eq!(keeper.now(reading(12, 11_000)), Millis(11_000));
        assert_eq!(keeper.note(), None);
    }

    #[test]
    fn after_sleep_the_clock_on_the_wall_counts() {
        let mut keeper = begun();
        keeper.pass(reading(3_600, 5_000));
        assert_eq!(keeper.now(reading(3_600, 5_000)), Millis(3_600_000));
        assert_eq!(keeper.note(), Some(ClockNote::Ahead(3_595)));
    }

    #[test]
    fn a_clock_set_back_is_noted_and_time_goes_on() {
        let mut keeper = begun();
        keeper.pass(reading(-120, 5_000));
        assert_eq!(keeper.note(), Some(ClockNote::Back(125)));
        assert_eq!(keeper.now(reading(-110, 15_000)), Millis(15_000));
        let again = Timekeeper::since(Millis(15_000), reading(-110, 0).at);
        let mut again = again;
        again.pass(reading(-200, 0));
        assert_eq!(again.now(reading(-200, 0)), Millis(15_000));
        assert_eq!(again.note(), Some(ClockNote::Back(90)));
        again.noted();
        assert_eq!(again.note(), None);
    }

    proptest::proptest! {
        #[test]
        fn whatever_the_clocks_say_no_time_is_negative(
            steps in proptest::collection::vec((-100_000_i64..100_000, 0_i64..100_000), 0..20),
        ) {
            let mut keeper = begun();
            let (mut wall, mut elapsed, mut last) = (0, 0, Millis::ZERO);
            for (set, passed) in steps {
                elapsed += passed;
                wall += passed / 1_000 + set;
                let now = reading(wall, elapsed);
                proptest::prop_assert!(keeper.now(now) >= last);
                last = keeper.now(now);
                keeper.pass(now);
                proptest::prop_assert_eq!(keeper.now(now), last);
            }
        }
    }
}
