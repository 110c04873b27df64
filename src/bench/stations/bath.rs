//! A vessel of alcohol in a wash unit: what it holds, and what an immersion and a brush do to a part.

use super::super::Bench;
use super::super::outcome::{Cleaning, Measure, Region};
use super::super::part::{self, Film};
use super::super::perform::Scene;
use super::super::physics::wash;
use super::super::round::{of, real, share, whole};
use crate::rng::Stream;
use crate::syllabus::module::Harm;
use crate::syllabus::operation::{Air, Liquid, Placing, Reach, Waste};
use crate::units::{Micrograms, Microliters, Millis, PerSecond, Ppm};

super::number::numbers! {
    /// Liquid that a vessel is filled with (our default).
    volume: Microliters = 500_000, 10_000 to 100_000_000;
    /// Liquid that a part carries out of it (our default).
    carry_over: Microliters = 5_000, 0 to 1_000_000;
    /// Resin in liquor that served one wash, g per mL as a share (our default).
    load_once_used: Ppm = 8_000, 0 to 500_000;
    /// Resin in used liquor that was topped up (our default).
    load_topped_up: Ppm = 20_000, 0 to 500_000;
    /// Resin in liquor at the end of its life (our default).
    load_spent: Ppm = 50_000, 0 to 500_000;
    /// Rate at which free resin comes off, before the draw of ±6 %; 0.0185 /s suits an orbital unit (our default).
    grip: PerSecond = 33_000, 1 to 10_000_000;
    /// Share of the grip that is left in hollows where air is trapped (our default).
    trapped_share: Ppm = 150_000, 0 to 1_000_000;
    /// Immersion in total after which a part softens; 10 min suits an orbital unit (our default).
    softens_after: Millis = 360_000, 1_000 to 86_400_000;
    /// First coat of resin on a printed part, before the draw of ±8 % (our default).
    resin_on_part: Micrograms = 2_000_000, 1_000 to 1_000_000_000;
    /// Share of the coat of sockets and tissue side that is gel: no liquid takes it, only a brush loosens it (our default).
    gel_share: Ppm = 300_000, 0 to 1_000_000;
    /// Share of the free resin that a brush takes where it goes (our default, so that one brushing inside is enough).
    brush_share: Ppm = 850_000, 0 to 1_000_000;
    /// Residue of a region, as a share of its first coat, above which it dries to a veil (our default).
    veil_above: Ppm = 12_500, 1 to 1_000_000;
    /// Gel left in a socket above which a tooth does not go home (our default).
    gel_above: Ppm = 100_000, 1 to 1_000_000;
}

/// Share of gel that one brushing inside loosens (our default).
const LOOSENED: Ppm = Ppm(950_000);
/// Share of resin set under trapped air that one brushing inside takes off as lumps (our default).
const LUMPS: Ppm = Ppm(500_000);

/// What a vessel holds.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    grip: PerSecond,
    resin: Micrograms,
    liquid: Microliters,
    uses: u16,
    /// Whether its lid is off.
    pub(in crate::bench) open: bool,
}

impl State {
    pub(super) fn start(numbers: &Numbers, stream: &mut Stream) -> State {
        State {
            grip: PerSecond(numbers.grip.0 * stream.between(940, 1_060) / 1_000),
            resin: Micrograms(0),
            liquid: numbers.volume,
            uses: 0,
            open: false,
        }
    }
}

/// Resin at a load of so much, in micrograms: 1 % is 10 mg per mL.
fn resin_at(load: Ppm, volume: Microliters) -> Micrograms {
    Micrograms(volume.0.saturating_mul(load.0) / 1_000)
}

/// Fills a bath; alcohol is open from then on.
pub(in crate::bench) fn fill(bench: &mut Bench, scene: &Scene<'_>, bath: &str, with: Liquid) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(bath) else {
        return;
    };
    let load = match with {
        Liquid::Fresh => Ppm(0),
        Liquid::OnceUsed => numbers.load_once_used,
        Liquid::ToppedUp => numbers.load_topped_up,
        Liquid::Spent => numbers.load_spent,
    };
    if let Some(state) = bench.state_mut::<Numbers>(at) {
        state.resin = resin_at(load, numbers.volume);
        state.liquid = numbers.volume;
        state.uses = u16::from(with != Liquid::Fresh);
        state.open = true;
    }
}

/// Sets two baths in the unit: swapped, each holds what was meant for the other.
pub(in crate::bench) fn place(
    bench: &mut Bench,
    scene: &Scene<'_>,
    (first, second): (&str, &str),
    how: Placing,
) {
    let (Some((first, _)), Some((second, _))) = (
        scene.model.station::<Numbers>(first),
        scene.model.station::<Numbers>(second),
    ) else {
        return;
    };
    if how == Placing::AsMarked {
        return;
    }
    let content = |bench: &Bench, at| {
        bench
            .state::<Numbers>(at)
            .map(|state| (state.resin, state.liquid, state.uses))
    };
    for (to, content) in [
        (second, content(bench, first)),
        (first, content(bench, second)),
    ] {
        if let (Some(state), Some((resin, liquid, uses))) =
            (bench.state_mut::<Numbers>(to), content)
        {
            (state.resin, state.liquid, state.uses) = (resin, liquid, uses);
        }
    }
}

/// Puts resin into a bath.
pub(in crate::bench) fn load(bench: &mut Bench, scene: &Scene<'_>, bath: &str, load: Ppm) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(bath) else {
        return;
    };
    if let Some(state) = bench.state_mut::<Numbers>(at) {
        state.resin.0 += resin_at(Ppm(load.0.clamp(0, 1_000_000)), numbers.volume).0;
    }
}

/// Washes a part for the time of the step. Locked residue and gel stay; a cured part no longer softens.
pub(in crate::bench) fn immerse(
    bench: &mut Bench,
    scene: &Scene<'_>,
    (part, bath): (&str, &str),
    air: Air,
) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(bath) else {
        return;
    };
    let Some(index) = scene.model.part(part) else {
        return;
    };
    let Some(state) = bench.state_mut::<Numbers>(at) else {
        return;
    };
    state.open = true;
    let before = state.clone();
    if before.liquid.0 <= 0 {
        return;
    }
    let seconds = scene.span().as_seconds();
    let grip = part::per_second(before.grip);
    let removed_open = wash::removal(grip, seconds);
    let removed_hollow = match air {
        Air::Out => removed_open,
        Air::Trapped => wash::removal(grip * share(numbers.trapped_share), seconds),
    };
    let part = &mut bench.parts[index];
    let coat_g = real(part.coat.0) / 1e6;
    let washed: Vec<(f64, f64)> = part
        .areas
        .iter()
        .map(|area| {
            let removed = match area.region {
                _ if area.locked => 0.0,
                Region::Outer | Region::Posts => removed_open,
                Region::Tissue | Region::Socket(_) => removed_hollow,
            };
            (coat_g * share(area.share) * share(area.free), removed)
        })
        .collect();
    let bound_g: f64 = washed.iter().map(|(grams, _)| grams).sum();
    let after = wash::immerse(
        wash::Bath {
            resin_g: real(before.resin.0) / 1e6,
            volume_ml: real(before.liquid.0) / 1e3,
        },
        wash::Carried {
            bound_g,
            // Drops that still run are loose like a film and mix at once.
            film_g: real(part.film_resin.0 + part.running().0) / 1e6,
            film_ml: real(part.film_liquid.0) / 1e3,
        },
        wash::pooled_removal(&washed),
        real(numbers.carry_over.0) / 1e3,
    );
    for (area, (_, removed)) in part.areas.iter_mut().zip(&washed) {
        area.free = Ppm(whole(real(area.free.0) * (1.0 - removed)));
        let hollow = matches!(area.region, Region::Tissue | Region::Socket(_));
        if air == Air::Trapped && hollow && !area.locked {
            area.set_under_air(numbers.trapped_share);
        }
    }
    part.drops = Ppm(0);
    part.film_resin = Micrograms(whole(after.part.film_g * 1e6));
    part.film_liquid = Microliters(whole(after.part.film_ml * 1e3));
    part.wet(Film::Solvent);
    let soft = if part.cured(scene.model.unit.least_dose) == 2 {
        None
    } else {
        part.immersed += scene.span();
        Some(part.immersed).filter(|immersed| *immersed > numbers.softens_after)
    };
    let cleaning = Cleaning::Bath {
        bath: at,
        uses: before.uses,
        load: Ppm(whole(after.bath.concentration() * 1e6)),
    };
    let residue = part.residue(index, scene.end, cleaning);
    bench.log.residue.push(residue);
    if let Some(found) = soft {
        let measure = Measure::Time {
            found,
            limit: numbers.softens_after,
        };
        bench
            .log
            .harm(Harm::Softened, None, None, scene.end, Some(measure));
    }
    if let Some(state) = bench.state_mut::<Numbers>(at) {
        state.resin = Micrograms(whole(after.bath.resin_g * 1e6));
        state.uses = state.uses.saturating_add(1);
    }
}

/// Brushes a part: inside loosens gel and clears the tissue side, the sockets and the post roots; outside the outer faces.
pub(in crate::bench) fn brush(bench: &mut Bench, scene: &Scene<'_>, part: &str, reach: Reach) {
    let Some(index) = scene.model.part(part) else {
        return;
    };
    let numbers = &scene.model.bath;
    let teeth = scene.teeth();
    let whole_part = scene.doing.teeth.is_none();
    let part = &mut bench.parts[index];
    for area in &mut part.areas {
        let reached = match (area.region, reach) {
            (Region::Outer, Reach::Outside) | (Region::Tissue | Region::Posts, Reach::Inside) => {
                whole_part
            }
            (Region::Socket(tooth), Reach::Inside) => {
                teeth.contains(&(usize::from(tooth).saturating_sub(1)))
            }
            _ => false,
        };
        if !reached || area.locked {
            continue;
        }
        let loosened = of(LOOSENED, area.gel.0);
        area.gel.0 -= loosened;
        area.free.0 += loosened;
        area.free.0 -= of(numbers.brush_share, area.free.0);
        area.set.0 -= of(LUMPS, area.set.0);
        area.smeared = false;
    }
    let residue = part.residue(index, scene.end, Cleaning::Brush);
    bench.log.residue.push(residue);
}

/// Makes the liquor of one bath the content of another.
pub(in crate::bench) fn hand_down(
    bench: &mut Bench,
    scene: &Scene<'_>,
    (from, to): (&str, &str),
    old: Waste,
) {
    super::super::perform::waste(bench, scene, old);
    let (Some((from, _)), Some((to, _))) = (
        scene.model.station::<Numbers>(from),
        scene.model.station::<Numbers>(to),
    ) else {
        return;
    };
    if from == to {
        return;
    }
    let Some(given) = bench.state_mut::<Numbers>(from) else {
        return;
    };
    let content = (given.resin, given.liquid, given.uses);
    (given.resin, given.liquid, given.uses) = (Micrograms(0), Microliters(0), 0);
    if let Some(state) = bench.state_mut::<Numbers>(to) {
        // Vessels are handed down with their lids on: what has been put away stays put away.
        (state.resin, state.liquid, state.uses) = content;
    }
}
