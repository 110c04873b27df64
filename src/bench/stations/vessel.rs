//! A metal vessel of primer with an indicator strip: warmed on a plate, cooling beside it, keeping its state between batches.

use super::super::Bench;
use super::super::outcome::{Measure, VesselSample};
use super::super::perform::Scene;
use super::super::physics::{heating, strip};
use super::super::round::{real, whole};
use super::plate;
use crate::rng::Stream;
use crate::syllabus::module::Harm;
use crate::syllabus::operation::{Level, Rest};
use crate::units::{MilliCelsius, Millis, Ppm};

super::number::numbers! {
    /// Soonest and latest time from the room's temperature to the target on a ready plate, drawn between (common practice, no
    /// source).
    soonest: Millis = 240_000, 1_000 to 86_400_000;
    /// See `soonest`.
    latest: Millis = 360_000, 1_000 to 86_400_000;
    /// Temperature at which the strip turns (common practice, no source).
    target: MilliCelsius = 40_000, 29_500 to 200_000;
    /// Time constant of the strip behind the liquid (our default).
    lag: Millis = 6_000, 1 to 600_000;
    /// Least temperature that primer must have had on a tooth (our default).
    least: MilliCelsius = 39_500, 0 to 200_000;
    /// Above it teeth suffer (our default).
    warm: MilliCelsius = 43_000, 0 to 300_000;
    /// Above it teeth are spoiled (our default).
    hot: MilliCelsius = 45_000, 0 to 300_000;
    /// Time constant of cooling beside the plate (our default).
    cools_in: Millis = 1_200_000, 1_000 to 86_400_000;
    /// Lowest temperature at the start of a run; the highest is 2 °C above (our default).
    starts_at: MilliCelsius = 21_000, 0 to 27_000;
}

/// Heat capacity that the conductances are scaled to, J/K. Only ratios matter (our default).
const CAPACITY: f64 = 1_000.0;
/// Points of the temperature curve per stay on a plate (our default).
const SAMPLES: i64 = 12;

/// How warm it is, and what its strip shows.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    /// Time from the room's temperature to the target on a ready plate.
    reaches_in: Millis,
    temperature: MilliCelsius,
    strip: MilliCelsius,
    since: Millis,
    /// Whether the strip has turned since the last charge.
    pub(in crate::bench) turned: bool,
    stays: Vec<Stay>,
}

/// One stay on a plate, kept for the debrief.
#[derive(Clone, Debug, PartialEq)]
struct Stay {
    heat: Heat,
    begin: Millis,
    end: Millis,
}

/// What a stay on a plate starts from, in whole units like everything that is kept.
#[derive(Clone, Debug, PartialEq)]
struct Heat {
    time_constant: Millis,
    /// What the plate goes towards, and how fast.
    towards: MilliCelsius,
    warm_up: Millis,
    /// Vessel and plate at the start.
    vessel: MilliCelsius,
    plate: MilliCelsius,
}

impl Heat {
    fn lump(&self) -> heating::Lump {
        heating::Lump {
            heat_capacity: CAPACITY,
            g_plate: CAPACITY / self.time_constant.as_seconds(),
            t_plate: celsius(self.towards),
            // On the plate its warmth surrounds the vessel: the loss to the room counts only beside it.
            g_air: 0.0,
            t_air: 0.0,
            power: 0.0,
            g_evap: 0.0,
            p_evap: 0.0,
        }
    }

    fn plate(&self) -> heating::WarmingPlate {
        heating::WarmingPlate {
            t_start: celsius(self.plate),
            time_constant: self.warm_up.as_seconds(),
        }
    }

    fn temperature(&self, after: Millis) -> MilliCelsius {
        let vessel = celsius(self.vessel);
        milli(
            self.lump()
                .temperature_on_warming_plate(vessel, self.plate(), after.as_seconds()),
        )
    }

    fn strip(&self, probe: heating::Probe, after: Millis) -> MilliCelsius {
        let vessel = celsius(self.vessel);
        milli(strip::reading_on_warming_plate(
            &self.lump(),
            vessel,
            self.plate(),
            probe,
            after.as_seconds(),
        ))
    }
}

/// A temperature for the closed forms.
fn celsius(temperature: MilliCelsius) -> f64 {
    real(temperature.0) / 1e3
}

fn milli(celsius: f64) -> MilliCelsius {
    MilliCelsius(whole(celsius * 1e3))
}

impl State {
    pub(super) fn start(numbers: &Numbers, stream: &mut Stream) -> State {
        let reaches_in = Millis(stream.between(numbers.soonest.0, numbers.latest.0));
        let temperature =
            MilliCelsius(stream.between(numbers.starts_at.0, numbers.starts_at.0 + 2_000));
        State {
            reaches_in,
            temperature,
            strip: temperature,
            since: Millis::ZERO,
            turned: false,
            stays: Vec::new(),
        }
    }

    /// Lets it stand beside the plate until `at`.
    fn stand(&mut self, numbers: &Numbers, room: MilliCelsius, at: Millis) {
        let seconds = (at - self.since).at_least_zero().as_seconds();
        if seconds <= 0.0 {
            return;
        }
        let lump = heating::Lump {
            heat_capacity: CAPACITY,
            g_plate: 0.0,
            t_plate: 0.0,
            g_air: CAPACITY / numbers.cools_in.as_seconds(),
            t_air: celsius(room),
            power: 0.0,
            g_evap: 0.0,
            p_evap: 0.0,
        };
        let start = celsius(self.temperature);
        let probe = self.probe(numbers);
        self.strip = milli(lump.reading(start, probe, seconds));
        self.temperature = milli(lump.temperature(start, seconds));
        self.since = at;
    }

    fn probe(&self, numbers: &Numbers) -> heating::Probe {
        heating::Probe {
            reading: celsius(self.strip),
            time_constant: numbers.lag.as_seconds(),
        }
    }

    /// Points of the temperature curve of every stay on a plate.
    pub(in crate::bench) fn samples(&self, vessel: usize) -> impl Iterator<Item = VesselSample> {
        self.stays.iter().flat_map(move |stay| {
            let span = stay.end - stay.begin;
            (0..=SAMPLES).map(move |point| {
                let passed = Millis(span.0 * point / SAMPLES);
                VesselSample {
                    vessel,
                    at: stay.begin + passed,
                    temperature: stay.heat.temperature(passed),
                }
            })
        })
    }
}

/// Puts liquid and teeth into a vessel: the strip starts anew.
pub(in crate::bench) fn charge(
    bench: &mut Bench,
    scene: &Scene<'_>,
    vessel: &str,
    (level, rest): (Level, Rest),
) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(vessel) else {
        return;
    };
    let room = scene.model.plate.room;
    let Some(state) = bench.state_mut::<Numbers>(at) else {
        return;
    };
    state.stand(numbers, room, scene.now());
    state.turned = false;
    for tooth in &mut bench.teeth[scene.teeth()] {
        tooth.vessel = Some(at);
        tooth.covered = level == Level::Covered && rest == Rest::Seated;
        tooth.primed = true;
        tooth.primer_film = Ppm(1_000_000);
    }
}

/// Has a vessel stand on a plate for the time of the step, then takes it off.
pub(in crate::bench) fn warm(bench: &mut Bench, scene: &Scene<'_>, vessel: &str, plate: &str) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(vessel) else {
        return;
    };
    let Some((plate_at, plate_numbers)) = scene.model.station::<plate::Numbers>(plate) else {
        return;
    };
    let Some(on) = bench.state::<plate::Numbers>(plate_at).cloned() else {
        return;
    };
    let Some(state) = bench.state_mut::<Numbers>(at) else {
        return;
    };
    state.stand(numbers, plate_numbers.room, scene.begin);
    let time_constant = heating::time_constant_through(
        celsius(plate_numbers.room),
        celsius(plate_numbers.set),
        celsius(numbers.target),
        state.reaches_in.as_seconds(),
    );
    let Some(time_constant) = time_constant else {
        return; // The plate is set so low that the target is out of reach: nothing warms to speak of.
    };
    let heat = Heat {
        time_constant: Millis(whole(time_constant * 1e3)),
        towards: on.towards(plate_numbers),
        warm_up: plate_numbers.warm_up,
        vessel: state.temperature,
        plate: on.temperature(plate_numbers, scene.begin),
    };
    let before = state.temperature;
    state.strip = heat.strip(state.probe(numbers), scene.span());
    state.temperature = heat.temperature(scene.span());
    state.since = scene.end;
    state.turned |= state.strip >= numbers.target;
    let warmest = state.temperature.max(before);
    state.stays.push(Stay {
        heat,
        begin: scene.begin,
        end: scene.end,
    });
    for (index, tooth) in bench.teeth.iter_mut().enumerate() {
        if tooth.vessel != Some(at) {
            continue;
        }
        tooth.hottest = tooth.hottest.max(warmest);
        if tooth.covered {
            tooth.primed_at = tooth.primed_at.max(warmest);
        }
        for (harm, limit) in [
            (Harm::WarmPrimer, numbers.warm),
            (Harm::HotPrimer, numbers.hot),
        ] {
            if tooth.hottest > limit {
                let measure = Measure::Temperature {
                    found: tooth.hottest,
                    limit,
                };
                bench
                    .log
                    .harm(harm, Some(index), None, scene.end, Some(measure));
            }
        }
    }
}

/// Takes the teeth of the place out, wet.
pub(in crate::bench) fn unload(bench: &mut Bench, scene: &Scene<'_>, vessel: &str) {
    let Some((at, _)) = scene.model.station::<Numbers>(vessel) else {
        return;
    };
    for tooth in &mut bench.teeth[scene.teeth()] {
        if tooth.vessel == Some(at) {
            tooth.vessel = None;
            tooth.primer_film = Ppm(1_000_000);
        }
    }
}
