//! A hand light: tacking one side of teeth, and what its stray light does.

use super::super::Bench;
use super::super::outcome::{Measure, Region};
use super::super::perform::Scene;
use super::super::physics::light::Lamp;
use super::super::round::{of, real, share, whole};
use crate::rng::Stream;
use crate::syllabus::module::Harm;
use crate::syllabus::operation::{Distance, Holding, Shading, Tip};
use crate::units::{Dose, Irradiance, Millis, Ppm};

super::number::numbers! {
    /// Light at its tip when the battery is full (our default).
    power: Irradiance = 1_000_000, 1 to 100_000_000;
    /// Share of it that arrives when it is held far or slanting (our default).
    far_share: Ppm = 400_000, 0 to 1_000_000;
    /// Share that passes a dirty tip (our default).
    dirty_share: Ppm = 500_000, 0 to 1_000_000;
    /// Share that a weak battery gives (our default).
    battery_low_share: Ppm = 500_000, 0 to 1_000_000;
    /// Least dose on each side of a joint for it to hold (our default).
    least_dose: Dose = 5_500_000, 1 to 1_000_000_000_000;
    /// Share of the dose that reaches open neighbours (our default).
    stray_share: Ppm = 100_000, 0 to 1_000_000;
}

/// State of battery and tip.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    battery: Ppm,
    /// Whether its tip is soiled.
    pub(in crate::bench) dirty: bool,
    /// Whether its battery is weak.
    pub(in crate::bench) weak: bool,
}

impl State {
    pub(super) fn start(_: &Numbers, stream: &mut Stream) -> State {
        State {
            battery: Ppm(stream.between(950_000, 1_000_000)),
            dirty: false,
            weak: false,
        }
    }
}

/// How a tack is done.
#[derive(Clone, Copy, Debug)]
pub(in crate::bench) struct Manners {
    pub(in crate::bench) distance: Distance,
    pub(in crate::bench) tip: Tip,
    pub(in crate::bench) neighbours: Shading,
    pub(in crate::bench) tooth: Holding,
}

/// Lights one side of the place (or both) for the time of the step.
pub(in crate::bench) fn tack(bench: &mut Bench, scene: &Scene<'_>, light: &str, how: Manners) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(light) else {
        return;
    };
    let Some(state) = bench.state::<Numbers>(at) else {
        return;
    };
    let dose = dose(numbers, state, how, scene.span());
    let (model, end) = (scene.model, scene.end);
    let teeth = scene.teeth();
    for index in teeth.clone() {
        bench.light_on_socket(model, index, end);
        let tooth = &mut bench.teeth[index];
        let firm = tooth.firm(numbers.least_dose);
        for side in scene.sides() {
            tooth.dose[side].0 += dose.0;
        }
        tooth.lit = true;
        let hardens = tooth.amount.is_some() && tooth.excess > 0;
        let moves = how.tooth == Holding::LetGo && tooth.seated && !firm;
        tooth.let_go |= moves;
        let side = scene.doing.side;
        if hardens {
            bench
                .log
                .harm(Harm::HardFlash, Some(index), side, end, None);
        }
        if moves {
            bench
                .log
                .harm(Harm::MovedTooth, Some(index), None, end, None);
        }
    }
    if how.neighbours == Shading::Open && !teeth.is_empty() {
        let stray = Dose(of(numbers.stray_share, dose.0));
        let measure = Measure::Dose {
            found: stray,
            limit: Dose(0),
        };
        for neighbour in [teeth.start.checked_sub(1), Some(teeth.end)] {
            let Some(index) = neighbour.filter(|index| *index < bench.teeth.len()) else {
                continue;
            };
            let side = scene.doing.side;
            bench
                .log
                .harm(Harm::HardFlash, Some(index), side, end, Some(measure));
            if bench.teeth[index].filled_and_unseated() {
                bench
                    .log
                    .harm(Harm::GelledSocket, Some(index), None, end, None);
            }
        }
    }
}

fn dose(numbers: &Numbers, state: &State, how: Manners, span: Millis) -> Dose {
    let all = Ppm(1_000_000);
    let factor = |applies: bool, factor: Ppm| share(if applies { factor } else { all });
    let battery = if state.weak {
        numbers.battery_low_share
    } else {
        state.battery
    };
    let lamp = Lamp {
        irradiance_mw_cm2: real(numbers.power.0) / 1e3,
        lamp_factor: share(battery)
            * factor(state.dirty || how.tip == Tip::Dirty, numbers.dirty_share)
            * factor(how.distance == Distance::Far, numbers.far_share),
        reference_distance: 1.0,
        distance: 1.0,
        window_transmission: 1.0,
        rise_s: 0.0,
    };
    Dose(whole(lamp.dose_mj_cm2(span.as_seconds()) * 1e3))
}

/// Soils a light's tip, weakens its battery, or sets both right.
pub(in crate::bench) fn change(
    bench: &mut Bench,
    scene: &Scene<'_>,
    light: &str,
    change: impl Fn(&mut State),
) {
    let Some((at, _)) = scene.model.station::<Numbers>(light) else {
        return;
    };
    if let Some(state) = bench.state_mut::<Numbers>(at) {
        change(state);
    }
}

/// Gives a part stray curing light: residue is fixed, resin that lies open gels, excess hardens.
pub(in crate::bench) fn illuminate(bench: &mut Bench, scene: &Scene<'_>, part: &str) {
    let Some(index) = scene.model.part(part) else {
        return;
    };
    let end = scene.end;
    bench.light_on_part(scene.model, index, |_: Region| true, end);
    for (index, tooth) in bench.teeth.iter().enumerate() {
        if tooth.filled_and_unseated() {
            bench
                .log
                .harm(Harm::GelledSocket, Some(index), None, end, None);
        }
        if tooth.amount.is_some() && tooth.excess > 0 {
            bench
                .log
                .harm(Harm::HardFlash, Some(index), None, end, None);
        }
    }
}
