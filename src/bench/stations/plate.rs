//! A hot plate: its temperature in time.

use super::super::Bench;
use super::super::perform::Scene;
use super::super::physics::heating;
use super::super::round::{real, whole};
use crate::rng::Stream;
use crate::units::{MilliCelsius, Millis};

super::number::numbers! {
    /// Temperature that it is set to (common practice, no source).
    set: MilliCelsius = 90_000, 30_000 to 400_000;
    /// Temperature of the room (our default).
    room: MilliCelsius = 22_000, 0 to 29_000;
    /// Time constant of warming up and of cooling down (our default).
    warm_up: Millis = 150_000, 1_000 to 86_400_000;
    /// How close to the set temperature it counts as ready (our default).
    ready_within: MilliCelsius = 2_000, 1 to 20_000;
}

/// On or off, and how warm it was when that was last changed.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    /// Whether it is switched on.
    pub(in crate::bench) on: bool,
    then: MilliCelsius,
    since: Millis,
}

impl State {
    pub(super) fn start(numbers: &Numbers, _: &mut Stream) -> State {
        State {
            on: false,
            then: numbers.room,
            since: Millis::ZERO,
        }
    }

    /// The temperature that it goes towards.
    pub(in crate::bench) fn towards(&self, numbers: &Numbers) -> MilliCelsius {
        if self.on { numbers.set } else { numbers.room }
    }

    /// Its temperature at a time not before the last change.
    pub(in crate::bench) fn temperature(&self, numbers: &Numbers, at: Millis) -> MilliCelsius {
        MilliCelsius(whole(heating::approach(
            real(self.then.0),
            real(self.towards(numbers).0),
            numbers.warm_up.as_seconds(),
            (at - self.since).at_least_zero().as_seconds(),
        )))
    }

    /// `cold`, `warming`, `ready` as 0, 1, 2.
    pub(in crate::bench) fn look(&self, numbers: &Numbers, at: Millis) -> usize {
        let short = (numbers.set.0 - self.temperature(numbers, at).0).abs();
        match (self.on, short <= numbers.ready_within.0) {
            (false, _) => 0,
            (true, false) => 1,
            (true, true) => 2,
        }
    }
}

/// Switches a plate on or off.
pub(in crate::bench) fn switch(bench: &mut Bench, scene: &Scene<'_>, plate: &str, on: bool) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(plate) else {
        return;
    };
    if let Some(state) = bench.state_mut::<Numbers>(at) {
        state.then = state.temperature(numbers, scene.now());
        state.since = scene.now();
        state.on = on;
    }
}
