//! What an indicator reads in a vessel on a plate that is itself still warming: the plate's lag on top of the vessel's and its own.

use super::decay;
use super::heating::{Lump, Probe, WarmingPlate};

/// Share by which two equal time constants are moved apart, so that their difference can be divided by (our default).
const APART: f64 = 1e-6;

/// What `probe` reads after `t` seconds in a vessel that starts at `t_start` °C on a plate warming towards the lump's `t_plate`.
///
/// Superposition: the reading with the plate at its final temperature, less the lagged answer to what the plate still lacks,
/// `q (D(q, s) − D(q, r)) / (r − s)` with the rates of probe `q`, plate `s` and vessel `r`.
#[must_use]
pub fn reading_on_warming_plate(
    vessel: &Lump,
    t_start: f64,
    plate: WarmingPlate,
    probe: Probe,
    t: f64,
) -> f64 {
    let settled = vessel.reading(t_start, probe, t);
    let Some(tau) = vessel.time_constant() else {
        return settled;
    };
    let (relax, slow) = (1.0 / probe.time_constant, 1.0 / plate.time_constant);
    let mut rate = 1.0 / tau;
    if (rate - slow).abs() < APART * slow {
        rate = slow * (1.0 + APART);
    }
    let push = vessel.g_plate / vessel.heat_capacity * (plate.t_start - vessel.t_plate);
    let lagged = decay::driven(relax, slow, t) - decay::driven(relax, rate, t);
    settled + push * relax * lagged / (rate - slow)
}

#[cfg(test)]
mod tests {
    use super::super::{VESSEL, assert_close};
    use super::*;

    /// Own values: small steps of the lag equation, driven by the vessel's own closed form.
    fn stepped(plate: WarmingPlate, probe: Probe, end: f64) -> f64 {
        let step = 0.01;
        let (mut t, mut reading) = (0.0, probe.reading);
        while t < end {
            let middle = VESSEL.temperature_on_warming_plate(20.0, plate, t + step / 2.0);
            reading += (middle - reading) * step / probe.time_constant;
            t += step;
        }
        reading
    }

    #[test]
    fn closed_form_follows_small_steps() {
        let probe = Probe {
            reading: 21.0,
            time_constant: 6.0,
        };
        // The last time constant is the vessel's own.
        for time_constant in [30.0, 180.0, 1130.0 / 2.85] {
            let plate = WarmingPlate {
                t_start: 22.0,
                time_constant,
            };
            for t in [5.0, 60.0, 400.0] {
                let reading = reading_on_warming_plate(&VESSEL, 20.0, plate, probe, t);
                assert_close(reading, stepped(plate, probe, t), 5e-3);
            }
        }
    }

    #[test]
    fn a_ready_plate_changes_nothing() {
        let probe = Probe {
            reading: 20.0,
            time_constant: 6.0,
        };
        let plate = WarmingPlate {
            t_start: 90.0,
            time_constant: 150.0,
        };
        let reading = reading_on_warming_plate(&VESSEL, 20.0, plate, probe, 120.0);
        assert_close(reading, VESSEL.reading(20.0, probe, 120.0), 1e-12);
    }
}
