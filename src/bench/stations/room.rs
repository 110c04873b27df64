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

/// Molar mass of the alcohol (2-propanol), g/mol.
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

/// Vapour in the air now and before.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    /// Vapour per cubic metre.
    level: Micrograms,
    /// Stretches of time: how long, their average and the level at their end, both per cubic metre.
    stretches: Vec<(Millis, Micrograms, Micrograms)>,
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
        if given.0 == 0 && self.level.0 == 0 {
            match self.stretches.last_mut() {
                Some((still, Micrograms(0), Micrograms(0))) => *still += span,
                _ => self.stretches.push((span, Micrograms(0), Micrograms(0))),
            }
            return;
        }
        let changes = if extraction {
            numbers.changes_with
        } else {
            numbers.changes_without
        };
        let room = air::Room::with_air_changes(real(numbers.volume.0) / 1e9, real(changes.0) / 1e3);
        let minutes = span.as_seconds() / 60.0;
        let (start, source) = (real(self.level.0) / 1e3, real(given.0) / 1e3);
        let average = room.exposure(start, source, minutes) / minutes;
        self.level = Micrograms(whole(room.level(start, source, minutes) * 1e3));
        self.stretches
            .push((span, Micrograms(whole(average * 1e3)), self.level));
    }

    /// The figures of the whole run.
    pub(in crate::bench) fn figures(&self, numbers: &Numbers) -> Air {
        let ppm = |level: Micrograms| {
            air::ppm_from_mg_m3(
                real(level.0) / 1e3,
                MOLAR_MASS,
                air::CONVENTIONAL_MOLAR_VOLUME_L,
            )
        };
        let stretches: Vec<air::Stretch> = self
            .stretches
            .iter()
            .map(|(span, average, _)| air::Stretch {
                minutes: span.as_seconds() / 60.0,
                level: ppm(*average),
            })
            .collect();
        let mut at = Millis::ZERO;
        let mut samples = vec![(at, Ppm(0))];
        let mut highest = Micrograms(0);
        for (span, _, level) in &self.stretches {
            at += *span;
            samples.push((at, Ppm(whole(ppm(*level)))));
            highest = highest.max(*level);
        }
        let explosive = air::percent_of_lower_explosive_limit(
            ppm(highest),
            real(numbers.explosive_from.0) / 1e4,
        );
        Air {
            samples,
            average_8_h: Ppm(whole(air::average_8_h(&stretches))),
            highest_15_min: Ppm(whole(air::highest_15_min_average(&stretches))),
            explosive_share: Ppm(whole(explosive * 1e4)),
        }
    }
}
