//! An air line that dries parts and teeth.

use super::super::perform::Scene;
use super::super::physics::drying::ExponentialFilm;
use super::super::round::{of, real, whole};
use super::super::{Bench, part};
use crate::rng::Stream;
use crate::syllabus::module::PartKind;
use crate::units::{PerSecond, Ppm};

super::number::numbers! {
    /// How fast a film dries on open faces, before the draw of ±10 % (our default).
    rate: PerSecond = 20_000, 1 to 10_000_000;
    /// How fast it dries in sockets, as a share of that (our default).
    socket_share: Ppm = 750_000, 1 to 1_000_000;
    /// Share of the wet film below which a face is dry (our default).
    dry_below: Ppm = 20_000, 1 to 999_999;
}

/// What was drawn for the run.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    rate: PerSecond,
}

impl State {
    pub(super) fn start(numbers: &Numbers, stream: &mut Stream) -> State {
        State {
            rate: PerSecond(numbers.rate.0 * stream.between(900, 1_100) / 1_000),
        }
    }
}

/// Dries a part for the time of the step; of teeth, the primer of those in the place as well.
pub(in crate::bench) fn dry(bench: &mut Bench, scene: &Scene<'_>, part: &str, with: &str) {
    let Some((at, numbers)) = scene.model.station::<Numbers>(with) else {
        return;
    };
    let Some(rate) = bench.state::<Numbers>(at).map(|state| state.rate) else {
        return;
    };
    let seconds = scene.span().as_seconds();
    let fade = |film: Ppm, rate: PerSecond| {
        let film = ExponentialFilm {
            start: real(film.0),
            equilibrium: 0.0,
            rate_per_s: part::per_second(rate),
        };
        Ppm(whole(film.moisture(seconds)))
    };
    let slower = PerSecond(of(numbers.socket_share, rate.0));
    let teeth = scene.teeth();
    let Some(part) = bench.part_mut(part) else {
        return;
    };
    part.film = fade(part.film, rate);
    part.socket_film = fade(part.socket_film, slower);
    part.last_dried = scene.end;
    if part.is_dry(numbers.dry_below) {
        part.dry_on();
    }
    if part.kind == PartKind::Teeth {
        for tooth in &mut bench.teeth[teeth] {
            tooth.primer_film = fade(tooth.primer_film, rate);
        }
    }
}
