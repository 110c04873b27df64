//! How the time of a step is kept on a screen: typed, counted without a clock, watched live, or judged portion by portion.

use crate::tui::field::Field;
use crate::units::Millis;

/// How long a sign is good for lasts at least this long in real time, so that a hand can stop it. Our default.
const WINDOW: Millis = Millis::seconds(3);

/// No bench runs faster than so many times the wall clock on a screen. Our default.
const FASTEST: i64 = 60;

/// A time that is being kept.
#[derive(Clone, Debug)]
pub(super) enum Timing {
    /// A machine's timer: the time is typed. Holds what was wrong with what was typed before.
    Timer {
        /// What has been typed.
        field: Field,
        /// What was wrong with it.
        wrong: Option<String>,
    },
    /// Counted in the head; no clock is shown.
    Count {
        /// When the count began, by the machine's clock.
        since: Option<Millis>,
    },
    /// A sign is watched for.
    Watch {
        /// Milliseconds on the bench for each second of the machine's clock.
        speed: i64,
        /// When it began, by the machine's clock.
        since: Option<Millis>,
        /// How long it has lasted on the bench.
        time: Millis,
    },
    /// It goes on until it looks right.
    Judge {
        /// How long one portion is.
        portion: Millis,
        /// How long it has lasted on the bench.
        time: Millis,
    },
}

impl Timing {
    /// A timer with nothing typed.
    pub(super) fn typed() -> Timing {
        Timing::Timer {
            field: Field::default(),
            wrong: None,
        }
    }

    /// A watch on a sign that is good for so long.
    pub(super) fn watch(within: Millis) -> Timing {
        let speed = (within.0 * 1000 / WINDOW.0.max(1)).clamp(1000, FASTEST * 1000);
        Timing::Watch {
            speed,
            since: None,
            time: Millis::ZERO,
        }
    }

    /// Whether time passes on the screen.
    pub(super) fn is_live(&self) -> bool {
        matches!(self, Timing::Watch { since: Some(_), .. })
    }

    /// Takes note of the machine's clock. Returns the time on the bench when nothing will come any more.
    pub(super) fn tick(&mut self, now: Millis, most: Millis) -> Option<Millis> {
        let Timing::Watch {
            speed,
            since: Some(since),
            time,
        } = self
        else {
            return None;
        };
        let passed = (now - *since).0.saturating_mul(*speed) / 1000;
        *time = Millis(passed.max(0)).min(most);
        (*time == most).then_some(*time)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sign_can_be_stopped_within_three_real_seconds() {
        for (within, speed) in [(20, 6_666), (1, 1_000), (3_600, 60_000)] {
            let Timing::Watch { speed: found, .. } = Timing::watch(Millis::seconds(within)) else {
                panic!("no watch");
            };
            assert_eq!(found, speed, "{within} s");
        }
    }

    #[test]
    fn the_bench_runs_ahead_of_the_clock_and_stops_at_the_most() {
        let mut watch = Timing::Watch {
            speed: 6_000,
            since: Some(Millis::seconds(100)),
            time: Millis::ZERO,
        };
        let most = Millis::minutes(60);
        assert_eq!(watch.tick(Millis::seconds(110), most), None);
        assert!(matches!(watch, Timing::Watch { time, .. } if time == Millis::seconds(60)));
        assert_eq!(watch.tick(Millis::minutes(60), most), Some(most));
    }
}
