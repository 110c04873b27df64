//! A curing unit: exposures with one side up, cooling behind a shut door, one turn.

use super::super::Bench;
use super::super::outcome::{Measure, Region};
use super::super::perform::Scene;
use super::super::physics::light::Lamp;
use super::super::round::{of, real, share, whole};
use crate::rng::Stream;
use crate::syllabus::module::{Harm, PartKind};
use crate::syllabus::operation::{Programme, SideUp};
use crate::units::{Dose, Irradiance, Millis, Ppm};

super::number::numbers! {
    /// Light on the side that is up (our default).
    power: Irradiance = 20_000, 1 to 10_000_000;
    /// Share of it that suits the resin when another unit or programme is taken (our default).
    other_share: Ppm = 400_000, 0 to 1_000_000;
    /// Share of it that reaches the side that is down (our default).
    under_share: Ppm = 50_000, 0 to 1_000_000;
    /// Least dose on each side (our default).
    least_dose: Dose = 10_000_000, 1 to 1_000_000_000_000;
    /// How long a part stays soft behind the shut door after an exposure (our default).
    hot_for: Millis = 150_000, 0 to 86_400_000;
}

/// What lies in it, how, and how warm.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    /// The part in it, by its index.
    pub(in crate::bench) part: Option<usize>,
    up: SideUp,
    programme: Programme,
    /// Until when it is hot.
    pub(in crate::bench) hot_until: Millis,
    last: [Dose; 2],
}

impl State {
    pub(super) fn start(_: &Numbers, _: &mut Stream) -> State {
        State {
            part: None,
            up: SideUp::ToothSide,
            programme: Programme::Named,
            hot_until: Millis::ZERO,
            last: [Dose(0); 2],
        }
    }
}

/// Index of a side among a part's doses.
fn side(up: SideUp) -> usize {
    match up {
        SideUp::ToothSide => 0,
        SideUp::TissueSide => 1,
    }
}

/// Opening or handling while it is hot lets the part bend.
fn open(bench: &mut Bench, at: usize, now: Millis) {
    let Some(state) = bench.state::<Numbers>(at) else {
        return;
    };
    if state.part.is_some() && now < state.hot_until {
        let measure = Measure::Time {
            found: state.hot_until - now,
            limit: Millis::ZERO,
        };
        bench.log.harm(Harm::Warped, None, None, now, Some(measure));
    }
}

/// Puts a part in: joints that do not hold give way on the way there.
pub(in crate::bench) fn load(
    bench: &mut Bench,
    scene: &Scene<'_>,
    (unit, part): (&str, &str),
    up: SideUp,
    programme: Programme,
) {
    let (Some((at, _)), Some(part)) =
        (scene.model.station::<Numbers>(unit), scene.model.part(part))
    else {
        return;
    };
    bench.push_all(scene);
    open(bench, at, scene.now());
    if let Some(state) = bench.state_mut::<Numbers>(at) {
        state.part = Some(part);
        state.up = up;
        state.programme = programme;
        state.last = [Dose(0); 2];
    }
}

/// The part in a unit, and every other body once teeth join them into one piece.
fn together(bench: &Bench, part: usize) -> Vec<usize> {
    let joined = bench.teeth.iter().any(|tooth| tooth.seated);
    let bodies = bench.parts.iter().enumerate();
    bodies
        .filter(|(index, one)| *index == part || (joined && one.kind == PartKind::Body))
        .map(|(index, _)| index)
        .collect()
}

/// Runs the programme for the time of the step. An empty unit does nothing.
pub(in crate::bench) fn expose(bench: &mut Bench, scene: &Scene<'_>, unit: &str) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(unit) else {
        return;
    };
    let Some(state) = bench.state_mut::<Numbers>(at) else {
        return;
    };
    let Some(part) = state.part else {
        return;
    };
    let suits = match state.programme {
        Programme::Named => Ppm(1_000_000),
        Programme::Other => numbers.other_share,
    };
    let lamp = Lamp {
        irradiance_mw_cm2: real(numbers.power.0) / 1e3,
        lamp_factor: share(suits),
        reference_distance: 1.0,
        distance: 1.0,
        window_transmission: 1.0,
        rise_s: 0.0,
    };
    let dose = Dose(whole(lamp.dose_mj_cm2(scene.span().as_seconds()) * 1e3));
    let under = Dose(of(numbers.under_share, dose.0));
    state.last = match state.up {
        SideUp::ToothSide => [dose, under],
        SideUp::TissueSide => [under, dose],
    };
    state.hot_until = scene.end + numbers.hot_for;
    let last = state.last;
    for part in together(bench, part) {
        let lit = &mut bench.parts[part];
        for (sum, dose) in lit.dose.iter_mut().zip(last) {
            sum.0 += dose.0;
        }
        lit.last_lit = Some(scene.end);
        bench.light_on_part(scene.model, part, |_: Region| true, scene.end);
    }
    bench.exposed = true;
    if !scene.model.fills {
        return;
    }
    for (index, tooth) in bench.teeth.iter().enumerate() {
        if tooth.amount.is_none() {
            bench
                .log
                .harm(Harm::StarvedJoint, Some(index), None, scene.end, None);
        }
    }
}

/// Breaks the last exposure off half way: half of its light never came.
pub(in crate::bench) fn interrupt(bench: &mut Bench, scene: &Scene<'_>, unit: &str) {
    let Some((at, _)) = scene.model.station::<Numbers>(unit) else {
        return;
    };
    let Some(state) = bench.state_mut::<Numbers>(at) else {
        return;
    };
    let Some(part) = state.part else {
        return;
    };
    let lost = state.last.map(|dose| dose.0 / 2);
    for (last, lost) in state.last.iter_mut().zip(lost) {
        last.0 -= lost;
    }
    for part in together(bench, part) {
        for (sum, lost) in bench.parts[part].dose.iter_mut().zip(lost) {
            // A part that was joined since has had less than is taken back.
            sum.0 = (sum.0 - lost).max(0);
        }
    }
}

/// Leaves the door shut for the time of the step, then opens it.
pub(in crate::bench) fn cool(bench: &mut Bench, scene: &Scene<'_>, unit: &str) {
    if let Some((at, _)) = scene.model.station::<Numbers>(unit) {
        open(bench, at, scene.end);
    }
}

/// Turns the part over.
pub(in crate::bench) fn turn(bench: &mut Bench, scene: &Scene<'_>, unit: &str) {
    let Some((at, _)) = scene.model.station::<Numbers>(unit) else {
        return;
    };
    open(bench, at, scene.now());
    if let Some(state) = bench.state_mut::<Numbers>(at) {
        state.up = match state.up {
            SideUp::ToothSide => SideUp::TissueSide,
            SideUp::TissueSide => SideUp::ToothSide,
        };
    }
}

/// Takes the cross-arch posts off: too early while a side is uncured or the part is hot.
pub(in crate::bench) fn cut_posts(bench: &mut Bench, scene: &Scene<'_>, part: &str) {
    let Some(index) = scene.model.part(part) else {
        return;
    };
    let now = scene.now();
    for (at, _) in scene.model.all::<Numbers>() {
        if bench.state::<Numbers>(at).and_then(|state| state.part) == Some(index) {
            open(bench, at, now);
        }
    }
    let part = &mut bench.parts[index];
    part.posts_cut.get_or_insert(now);
    let least = scene.model.unit.least_dose;
    if part.kind == PartKind::Body && part.cured(least) < 2 {
        let measure = Measure::Dose {
            found: part.dose[side(SideUp::ToothSide)].min(part.dose[side(SideUp::TissueSide)]),
            limit: least,
        };
        bench.log.harm(Harm::Warped, None, None, now, Some(measure));
    }
}
