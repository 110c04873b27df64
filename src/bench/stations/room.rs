//! The room: solvent vapour in well-mixed air.

use super::super::outcome::Air;
use super::super::physics::air;
use super::super::round::{real, whole};
use crate::rng::Stream;
use crate::units::{MassRate, Micrograms, Microliters, Millis, PerHour, Ppm};

super::number::numbers! {
    /// Volume of air (our default).
    volume: Microliters = 50_000_000_000, 1_000_000_000 to 10_000_000_000_000;
    /// Air changes with extraction running (our default).
    changes_with: PerHour = 12_000, 0 to 1_000_000;
    /// Air changes without (our default).
    changes_without: PerHour = 1_000, 0 to 1_000_000;
    /// Vapour given off while alcohol is handled open (our default).
    vapour_handled: MassRate = 1_500_000, 0 to 1_000_000_000;
    /// Vapour given off while alcohol merely stands open (our default).
    vapour_open: MassRate = 100_000, 0 to 1_000_000_000;
    /// Short-term limit over 15 minutes, ppm by volume (our default; limits differ between countries).
    short_term_limit: Ppm = 400, 1 to 1_000_000;
    /// Lower explosive limit, share by volume (from memory).
    explosive_from: Ppm = 20_000, 1 to 1_000_000;
}

/// Molar mass of the alcohol (2-propanol), g/mol: calculated from its formula, C₃H₈O.
const MOLAR_MASS: f64 = 60.1;

/// Where the vapour comes from for a while.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::bench) enum Source {
    /// Nothing stands open.
    None,
    /// Alcohol stands open.
    Open,
    /// Alcohol is handled.
    Handled,
}

/// Most pieces that one stretch is cut into for averages (our default).
const MOST_PIECES: i64 = 15;

/// Vapour in the air now and before.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    /// Vapour per cubic metre.
    level: Micrograms,
    stretches: Vec<Stretch>,
}

/// A stretch of time with one source and one air flow.
#[derive(Clone, Debug, PartialEq)]
struct Stretch {
    span: Millis,
    /// Vapour per cubic metre at its start.
    from: Micrograms,
    given: MassRate,
    changes: PerHour,
}

impl Stretch {
    fn room(&self, numbers: &Numbers) -> air::Room {
        air::Room::with_air_changes(real(numbers.volume.0) / 1e9, real(self.changes.0) / 1e3)
    }

    /// Level after a part of it, mg/m³.
    fn level(&self, numbers: &Numbers, after: Millis) -> f64 {
        let (start, source) = (real(self.from.0) / 1e3, real(self.given.0) / 1e3);
        let minutes = after.as_seconds() / 60.0;
        self.room(numbers).level(start, source, minutes)
    }

    /// Pieces of a minute, or longer ones in a long stretch: how long, their average and the level at their end, mg/m³.
    fn pieces(&self, numbers: &Numbers) -> impl Iterator<Item = (Millis, f64, f64)> {
        let still = self.given.0 == 0 && self.from.0 == 0;
        let most = if still { 1 } else { MOST_PIECES };
        let count = (self.span.0 / 60_000 + 1).min(most);
        (0..count).map(move |piece| {
            let edge = |piece: i64| Millis(self.span.0 * piece / count);
            let span = edge(piece + 1) - edge(piece);
            let minutes = span.as_seconds() / 60.0;
            let start = self.level(numbers, edge(piece));
            let source = real(self.given.0) / 1e3;
            let average = if minutes > 0.0 {
                self.room(numbers).exposure(start, source, minutes) / minutes
            } else {
                start
            };
            (span, average, self.level(numbers, edge(piece + 1)))
        })
    }
}

impl State {
    pub(super) fn start(_: &Numbers, _: &mut Stream) -> State {
        State {
            level: Micrograms(0),
            stretches: Vec::new(),
        }
    }

    /// Lets time pass with one source and one air flow.
    pub(in crate::bench) fn pass(
        &mut self,
        numbers: &Numbers,
        span: Millis,
        source: Source,
        extraction: bool,
    ) {
        if span.0 <= 0 {
            return;
        }
        let given = match source {
            Source::None => MassRate(0),
            Source::Open => numbers.vapour_open,
            Source::Handled => numbers.vapour_handled,
        };
        let changes = if extraction {
            numbers.changes_with
        } else {
            numbers.changes_without
        };
        let mut stretch = Stretch {
            span,
            from: self.level,
            given,
            changes,
        };
        let still = given.0 == 0 && self.level.0 == 0;
        match self.stretches.last_mut() {
            Some(last) if still && last.given.0 == 0 && last.from.0 == 0 => last.span += span,
            Some(last) if last.given == given && last.changes == changes => {
                // One closed form for the whole of it: a wait cut in two is the same wait.
                last.span += span;
                stretch = last.clone();
                self.level = Micrograms(whole(stretch.level(numbers, stretch.span) * 1e3));
            }
            _ => {
                self.level = Micrograms(whole(stretch.level(numbers, span) * 1e3));
                self.stretches.push(stretch);
            }
        }
    }

    /// The figures of the whole run.
    pub(in crate::bench) fn figures(&self, numbers: &Numbers) -> Air {
        let ppm =
            |level: f64| air::ppm_from_mg_m3(level, MOLAR_MASS, air::CONVENTIONAL_MOLAR_VOLUME_L);
        let mut at = Millis::ZERO;
        let mut samples = vec![(at, Ppm(0))];
        let mut stretches = Vec::new();
        let mut highest = 0.0_f64;
        for (span, average, level) in self.stretches.iter().flat_map(|one| one.pieces(numbers)) {
            at += span;
            samples.push((at, Ppm(whole(ppm(level)))));
            highest = highest.max(ppm(level));
            stretches.push(air::Stretch {
                minutes: span.as_seconds() / 60.0,
                level: ppm(average),
            });
        }
        let explosive =
            air::percent_of_lower_explosive_limit(highest, real(numbers.explosive_from.0) / 1e4);
        Air {
            samples,
            average_8_h: Ppm(whole(air::average_8_h(&stretches))),
            highest_15_min: Ppm(whole(air::highest_15_min_average(&stretches))),
            explosive_share: Ppm(whole(explosive * 1e4)),
        }
    }
}
