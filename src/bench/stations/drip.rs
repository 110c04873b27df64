//! A place where resin runs off a print.

use super::super::perform::Scene;
use super::super::physics::drying::ExponentialFilm;
use super::super::round::{real, whole};
use super::super::{Bench, part};
use crate::rng::Stream;
use crate::units::{PerSecond, Ppm};

super::number::numbers! {
    /// How fast drops run off, before the draw of ±15 % (our default).
    rate: PerSecond = 8_000, 1 to 10_000_000;
    /// Share of the drops below which nothing runs any more (our default).
    drained_below: Ppm = 100_000, 1 to 999_999;
}

/// What was drawn for the run.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    rate: PerSecond,
}

impl State {
    pub(super) fn start(numbers: &Numbers, stream: &mut Stream) -> State {
        State {
            rate: PerSecond(numbers.rate.0 * stream.between(850, 1_150) / 1_000),
        }
    }
}

/// Lets drops run off a part for the time of the step, at the first drain place of the module.
pub(in crate::bench) fn drain(bench: &mut Bench, scene: &Scene<'_>, part: &str) {
    let rate = bench
        .first::<Numbers>()
        .map_or(Numbers::default().rate, |state| state.rate);
    if let Some(part) = bench.part_mut(part) {
        part.drops = faded(part.drops, rate, scene);
    }
}

fn faded(drops: Ppm, rate: PerSecond, scene: &Scene<'_>) -> Ppm {
    let drops = ExponentialFilm {
        start: real(drops.0),
        equilibrium: 0.0,
        rate_per_s: part::per_second(rate),
    };
    Ppm(whole(drops.moisture(scene.span().as_seconds())))
}
