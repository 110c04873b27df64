//! A vessel on a plate as one lump of heat: temperature in time, time to a temperature, and an indicator that lags.
//!
//! Newton heating: `C dT/dt = Gp (Tp − T) + Ga (Ta − T) + P`. Temperatures in °C, times in seconds, conductances in W/K.
//! Every change of setting starts a new closed form from the temperature reached.
//! Valid as long as the lump is about as warm inside as outside (h L / k below 0.1).

use super::decay;

/// A vessel with its contents, as one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lump {
    /// Heat capacity of vessel and contents, J/K. Above zero.
    pub heat_capacity: f64,
    /// Conductance to the plate, W/K. Zero when the vessel is off the plate.
    pub g_plate: f64,
    /// Temperature of the plate, °C.
    pub t_plate: f64,
    /// Conductance to the air, W/K.
    pub g_air: f64,
    /// Temperature of the air, °C.
    pub t_air: f64,
    /// Heat put in directly, W.
    pub power: f64,
    /// Extra conductance to the air by evaporation (the linearised part), W/K. Zero under a lid.
    pub g_evap: f64,
    /// Constant loss by evaporation, W. Zero under a lid.
    pub p_evap: f64,
}

/// A plate on its way to the temperature set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarmingPlate {
    /// Temperature of the plate at the start, °C.
    pub t_start: f64,
    /// Time constant of the plate, s. Above zero.
    pub time_constant: f64,
}

/// An indicator (strip, thermometer) in the vessel that follows its temperature with a lag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Probe {
    /// What it reads at the start, °C.
    pub reading: f64,
    /// Its time constant, s. Above zero.
    pub time_constant: f64,
}

/// Where one segment of a schedule ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SegmentEnd {
    /// Seconds since the start of the schedule.
    pub at: f64,
    /// Temperature then, °C.
    pub temperature: f64,
}

/// A straight line through `ln(T − surroundings)` against time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingFit {
    /// Slope, per unit of time; the time constant is `−1 / slope`.
    pub slope: f64,
    /// Intercept: the logarithm of the fitted excess at time zero.
    pub intercept: f64,
}

impl Lump {
    /// Sum of the conductances, W/K.
    fn conductance(&self) -> f64 {
        self.g_plate + self.g_air + self.g_evap
    }

    /// The temperature it ends at, °C. `None` if nothing carries heat away.
    #[must_use]
    pub fn steady_temperature(&self) -> Option<f64> {
        let heat =
            self.g_plate * self.t_plate + (self.g_air + self.g_evap) * self.t_air + self.power
                - self.p_evap;
        (self.conductance() > 0.0).then(|| heat / self.conductance())
    }

    /// Time constant, s. `None` if nothing carries heat away.
    #[must_use]
    pub fn time_constant(&self) -> Option<f64> {
        (self.conductance() > 0.0).then(|| self.heat_capacity / self.conductance())
    }

    /// Slope of the temperature when it is `temperature`, °C per second.
    #[must_use]
    pub fn slope(&self, temperature: f64) -> f64 {
        (self.g_plate * (self.t_plate - temperature)
            + (self.g_air + self.g_evap) * (self.t_air - temperature)
            + self.power
            - self.p_evap)
            / self.heat_capacity
    }

    /// Temperature `t` seconds after `t_start` °C, settings unchanged. A straight line if nothing carries heat away.
    #[must_use]
    pub fn temperature(&self, t_start: f64, t: f64) -> f64 {
        match (self.steady_temperature(), self.time_constant()) {
            (Some(steady), Some(tau)) => approach(t_start, steady, tau, t),
            _ => t_start + self.slope(t_start) * t,
        }
    }

    /// Seconds from `t_start` °C to `target` °C. `None` if it never gets there.
    #[must_use]
    pub fn time_to_reach(&self, t_start: f64, target: f64) -> Option<f64> {
        match (self.steady_temperature(), self.time_constant()) {
            (Some(steady), Some(tau)) => approach_time(t_start, steady, tau, target),
            _ => {
                let wait = (target - t_start) / self.slope(t_start);
                (wait >= 0.0 && wait.is_finite()).then_some(wait)
            }
        }
    }

    /// Temperature after `t` seconds on a plate that is itself still warming towards `t_plate`.
    ///
    /// The plate follows its own exponential and does not feel the vessel. Equal time constants need no special case.
    #[must_use]
    pub fn temperature_on_warming_plate(&self, t_start: f64, plate: WarmingPlate, t: f64) -> f64 {
        let rate = self.conductance() / self.heat_capacity;
        let push = self.g_plate / self.heat_capacity * (plate.t_start - self.t_plate);
        self.temperature(t_start, t) + push * decay::driven(rate, 1.0 / plate.time_constant, t)
    }

    /// What `probe` reads after `t` seconds in a vessel that starts at `t_start` °C with settings unchanged.
    ///
    /// First-order lag: `τp dR/dt = T − R`, in closed form.
    #[must_use]
    pub fn reading(&self, t_start: f64, probe: Probe, t: f64) -> f64 {
        let relax = 1.0 / probe.time_constant;
        let fades = libm::exp(-t * relax);
        match (self.steady_temperature(), self.time_constant()) {
            (Some(steady), Some(tau)) => {
                steady
                    + (probe.reading - steady) * fades
                    + (t_start - steady) * relax * decay::driven(relax, 1.0 / tau, t)
            }
            _ => {
                let lag = self.slope(t_start) * probe.time_constant;
                let start = t_start - lag;
                start + self.slope(t_start) * t + (probe.reading - start) * fades
            }
        }
    }

    /// Seconds until `probe` first reads `target` °C in a vessel that starts at `t_start` °C. `None` if it never does.
    ///
    /// Found by halving an interval in which the reading passes the target exactly once; to the last bit.
    #[must_use]
    pub fn time_to_read(&self, t_start: f64, probe: Probe, target: f64) -> Option<f64> {
        let sign = if target >= probe.reading { 1.0 } else { -1.0 };
        let beyond = |value: f64| sign * (value - target);
        let reads = |t: f64| beyond(self.reading(t_start, probe, t)) >= 0.0;
        if reads(0.0) {
            return Some(0.0);
        }
        let ends_beyond = match self.steady_temperature() {
            Some(steady) => beyond(steady) > 0.0,
            None => sign * self.slope(t_start) > 0.0,
        };
        if ends_beyond {
            // The vessel passes the target once, and so does the reading that follows it.
            return first(probe.time_constant, reads);
        }
        // The vessel started beyond the target and comes back: the reading turns where it meets the vessel.
        let meets =
            |t: f64| sign * (self.temperature(t_start, t) - self.reading(t_start, probe, t)) <= 0.0;
        let turn = first(probe.time_constant, meets).filter(|&turn| reads(turn))?;
        Some(halve(0.0, turn, reads))
    }
}

/// The first time at which `holds`, which is false at 0 and stays true once true. `None` if not within a million `scale`.
fn first(scale: f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    let mut high = scale;
    let mut low = 0.0;
    for _ in 0..20 {
        if holds(high) {
            return Some(halve(low, high, holds));
        }
        low = high;
        high *= 2.0;
    }
    None
}

/// The switch of `holds` between `low` (false) and `high` (true).
fn halve(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..100 {
        let middle = low + (high - low) / 2.0;
        if middle <= low || middle >= high {
            break;
        }
        if holds(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    high
}

/// Value after `t` of something that goes from `start` to `steady` with time constant `tau` (same unit as `t`).
#[must_use]
pub fn approach(start: f64, steady: f64, tau: f64, t: f64) -> f64 {
    steady + (start - steady) * libm::exp(-t / tau)
}

/// Time at which [`approach`] passes `target`: zero at the start, `None` if it never does.
#[must_use]
pub fn approach_time(start: f64, steady: f64, tau: f64, target: f64) -> Option<f64> {
    if (target - start).abs() <= 0.0 {
        return Some(0.0);
    }
    let left = (steady - target) / (steady - start);
    (left > 0.0 && left < 1.0).then(|| tau * -libm::log(left))
}

/// Time constant of something on its way from `start` to `steady` that is at `later` after `t`.
///
/// In the unit of `t`. `None` if `later` is not strictly between `start` and `steady`.
#[must_use]
pub fn time_constant_through(start: f64, steady: f64, later: f64, t: f64) -> Option<f64> {
    let left = (steady - later) / (steady - start);
    (left > 0.0 && left < 1.0).then(|| t / -libm::log(left))
}

/// Ends of the segments of a schedule that starts at `t_start` °C: each segment is a setting and how many seconds it lasts.
#[must_use]
pub fn schedule(t_start: f64, segments: &[(Lump, f64)]) -> Vec<SegmentEnd> {
    let mut end = SegmentEnd {
        at: 0.0,
        temperature: t_start,
    };
    segments
        .iter()
        .map(|(lump, seconds)| {
            end = SegmentEnd {
                at: end.at + seconds,
                temperature: lump.temperature(end.temperature, *seconds),
            };
            end
        })
        .collect()
}

/// Least-squares line of `ln(T − surroundings)` on time through measured `(time, temperature)`.
///
/// `None` with fewer than two different times, or if a temperature is not above the surroundings.
#[must_use]
pub fn fit_cooling(surroundings: f64, measured: &[(f64, f64)]) -> Option<CoolingFit> {
    if measured.iter().any(|&(_, warm)| warm <= surroundings) {
        return None;
    }
    let points: Vec<(f64, f64)> = measured
        .iter()
        .map(|&(time, warm)| (time, libm::log(warm - surroundings)))
        .collect();
    let n: f64 = points.iter().map(|_| 1.0).sum();
    let mean_time = points.iter().map(|p| p.0).sum::<f64>() / n;
    let mean_log = points.iter().map(|p| p.1).sum::<f64>() / n;
    let spread: f64 = points
        .iter()
        .map(|p| (p.0 - mean_time) * (p.0 - mean_time))
        .sum();
    let along: f64 = points
        .iter()
        .map(|p| (p.0 - mean_time) * (p.1 - mean_log))
        .sum();
    (spread > 0.0).then(|| {
        let slope = along / spread;
        CoolingFit {
            slope,
            intercept: mean_log - slope * mean_time,
        }
    })
}

#[cfg(test)]
mod tests {
    use super::super::{VESSEL, assert_close};
    use super::*;
    use proptest::prelude::*;

    /// A ball of diameter `d` in a gas: heat capacity and conductance from its volume and surface.
    fn ball(d: f64, h: f64, c: f64, rho: f64, gas: f64) -> Lump {
        let surface = std::f64::consts::PI * d * d;
        Lump {
            heat_capacity: rho * c * surface * d / 6.0,
            g_plate: 0.0,
            t_plate: 0.0,
            g_air: h * surface,
            t_air: gas,
            power: 0.0,
            g_evap: 0.0,
            p_evap: 0.0,
        }
    }

    // Own values: worked check of the vessel model, recalculated.
    #[test]
    fn vessel_on_a_hot_plate() {
        assert_close(VESSEL.steady_temperature().unwrap(), 81.649, 5e-4);
        assert_close(VESSEL.time_constant().unwrap(), 396.49, 5e-3);
        for (t, want) in [
            (60.0, 28.658),
            (300.0, 52.721),
            (600.0, 68.075),
            (1200.0, 78.660),
        ] {
            assert_close(VESSEL.temperature(20.0, t), want, 5e-4);
        }
        assert_close(VESSEL.time_to_reach(20.0, 60.0).unwrap(), 414.9, 0.05);
        assert_eq!(VESSEL.time_to_reach(20.0, 82.0), None);
        assert_eq!(VESSEL.time_to_reach(20.0, 19.0), None);
        assert_eq!(VESSEL.time_to_reach(20.0, 20.0), Some(0.0));
        assert_eq!(approach_time(22.0, 22.0, 60.0, 22.0), Some(0.0));
        assert_eq!(approach_time(22.0, 22.0, 60.0, 23.0), None);
    }

    // Own values: the same vessel on a plate that starts at 22 °C.
    #[test]
    fn vessel_on_a_plate_that_warms_up() {
        let plate = WarmingPlate {
            t_start: 22.0,
            time_constant: 180.0,
        };
        for (t, want) in [
            (60.0, 21.564),
            (300.0, 38.816),
            (600.0, 58.924),
            (1200.0, 76.319),
        ] {
            assert_close(
                VESSEL.temperature_on_warming_plate(20.0, plate, t),
                want,
                5e-4,
            );
        }
    }

    // Own value: the printed limit form for equal time constants, T∞ + (T0 − T∞ + (Gp/C)(Tp0 − Ts) t) e^(−t/τ).
    #[test]
    fn plate_and_vessel_with_equal_time_constants() {
        let tau = VESSEL.time_constant().unwrap();
        let steady = VESSEL.steady_temperature().unwrap();
        let plate = WarmingPlate {
            t_start: 22.0,
            time_constant: tau,
        };
        let t = 300.0;
        let want =
            steady + (20.0 - steady + 2.5 / 1130.0 * (22.0 - 90.0) * t) * libm::exp(-t / tau);
        assert_close(
            VESSEL.temperature_on_warming_plate(20.0, plate, t),
            want,
            1e-9,
        );
    }

    // x01, x02: Fundamentals of Heat and Mass Transfer, ch. 5, example 5.1; tolerances 0.2 % and 1 %.
    #[test]
    fn x01_x02_thermocouple_ball() {
        let bead = ball(7.06e-4, 400.0, 400.0, 8500.0, 200.0);
        assert_close(bead.time_constant().unwrap(), 1.0, 0.002);
        assert_close(400.0 * 7.06e-4 / 6.0 / 20.0, 2.35e-3, 0.002 * 2.35e-3);
        assert_close(bead.time_to_reach(25.0, 199.0).unwrap(), 5.2, 0.052);
    }

    // x03: Heat and Mass Transfer: Fundamentals and Applications, ch. 4, example 4-1; tolerance 1 %.
    #[test]
    fn x03_thermocouple_at_99_percent() {
        let bead = ball(1e-3, 210.0, 320.0, 8500.0, 1.0);
        assert_close(1.0 / bead.time_constant().unwrap(), 0.462, 0.00462);
        assert_close(bead.time_to_reach(0.0, 0.99).unwrap(), 10.0, 0.1);
    }

    // x04: Heat and Mass Transfer: Fundamentals and Applications, ch. 4, example 4-2; tolerance 0.5 %.
    #[test]
    fn x04_plate_cooled_by_moving_air() {
        let tau = time_constant_through(700.0, 15.0, 50.0, 250.0).unwrap();
        assert_close(1.0 / tau, 0.0119, 0.005 * 0.0119);
        let h = 2800.0 * 880.0 * 0.01 / tau;
        assert_close(h, 293.0, 0.005 * 293.0);
        assert_close(libm::pow(h / 33.0, 1.25), 15.3, 0.005 * 15.3);
        assert_close(h * 0.01 / 180.0, 0.0163, 0.005 * 0.0163);
    }

    // x05: Heat Transfer (10th ed.), ch. 4, example 4-1; answer from memory, inputs seen; tolerance 0.1 %.
    #[test]
    fn x05_steel_ball() {
        let steel = ball(0.05, 10.0, 460.0, 7800.0, 100.0);
        assert_close(steel.time_to_reach(450.0, 150.0).unwrap(), 5819.0, 5.819);
    }

    // x06: Fundamentals of Heat and Mass Transfer, ch. 5, example 5.5a; tolerance 0.3 %.
    #[test]
    fn x06_ball_in_air() {
        let hot = ball(0.01, 10.0, 1000.0, 3000.0, 20.0);
        assert_close(hot.time_to_reach(400.0, 335.0).unwrap(), 94.0, 0.282);
    }

    // x07: rule of thumb, course text: 63.2 % after one time constant, 99.3 % after five.
    #[test]
    fn x07_rule_of_thumb() {
        assert_close(approach(0.0, 100.0, 7.0, 7.0), 63.2, 0.05);
        assert_close(approach(0.0, 100.0, 7.0, 35.0), 99.3, 0.05);
    }

    // HEA-2: calculus textbook, from memory: a 72 °F bottle in 44 °F is at 61 after 30 min.
    #[test]
    fn bottle_in_a_refrigerator() {
        let tau = time_constant_through(72.0, 44.0, 61.0, 30.0).unwrap();
        assert_close(approach(72.0, 44.0, tau, 60.0), 54.3, 0.05);
        assert_close(approach_time(72.0, 44.0, tau, 50.0).unwrap(), 93.0, 0.5);
    }

    // HEA-1: public course page: cup in a 74.6 °F room, a reading every 10 min.
    #[test]
    fn cup_of_hot_water() {
        let cup = [
            182.0, 151.7, 133.9, 122.0, 113.1, 106.2, 101.1, 96.7, 93.5, 90.9,
        ];
        let times = [0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0];
        let measured: Vec<(f64, f64)> = times.into_iter().zip(cup).collect();
        let fit = fit_cooling(74.6, &measured).unwrap();
        assert_close(fit.slope, -0.020_416, 1e-6);
        assert_close(fit.intercept, 4.535_718, 1e-6);
        assert_eq!(fit_cooling(90.9, &measured), None);
        assert_eq!(fit_cooling(74.6, &measured[..1]), None);
    }

    // Own values, recalculated: the time constants that fit "22 °C start, 40 °C after 4 to 6 min" on a 90 °C plate.
    #[test]
    fn time_constants_of_the_conditioner_vessel() {
        for (minutes, want) in [(4.0, 13.0), (5.0, 16.3), (6.0, 19.5)] {
            let tau = time_constant_through(22.0, 90.0, 40.0, minutes).unwrap();
            assert_close(tau, want, 0.05);
        }
        assert_eq!(time_constant_through(22.0, 90.0, 20.0, 4.0), None);
        assert_eq!(time_constant_through(22.0, 90.0, 90.0, 4.0), None);
    }

    // Own value: a probe with 20 s on a ramp of 3 °C/min reads about 1 °C low (lag = ramp × time constant).
    #[test]
    fn a_slow_probe_reads_low_on_a_ramp() {
        let ramp = Lump {
            g_plate: 0.0,
            g_air: 0.0,
            power: 1130.0 * 3.0 / 60.0,
            ..VESSEL
        };
        let probe = Probe {
            reading: 22.0,
            time_constant: 20.0,
        };
        assert_eq!(ramp.steady_temperature(), None);
        let late = ramp.temperature(22.0, 300.0) - ramp.reading(22.0, probe, 300.0);
        assert_close(late, 1.0, 1e-4);
        assert_close(ramp.time_to_reach(22.0, 25.0).unwrap(), 60.0, 1e-9);
        assert_eq!(ramp.time_to_reach(22.0, 21.0), None);
    }

    // Own value: the lag as a differential equation, stepped finely (second order).
    #[test]
    fn reading_follows_its_differential_equation() {
        for time_constant in [25.0, VESSEL.time_constant().unwrap(), 900.0] {
            let probe = Probe {
                reading: 30.0,
                time_constant,
            };
            let (mut reading, step) = (probe.reading, 0.01);
            let mut t = 0.0;
            for _ in 0..30_000 {
                let slope = (VESSEL.temperature(20.0, t) - reading) / time_constant;
                let ahead = reading + step * slope;
                t += step;
                let next = (VESSEL.temperature(20.0, t) - ahead) / time_constant;
                reading += step * (slope + next) / 2.0;
            }
            assert_close(VESSEL.reading(20.0, probe, t), reading, 1e-6);
        }
    }

    #[test]
    fn an_indicator_turns_late_and_only_if_it_can() {
        let strip = Probe {
            reading: 22.0,
            time_constant: 20.0,
        };
        let vessel = VESSEL.time_to_reach(22.0, 40.0).unwrap();
        let turned = VESSEL.time_to_read(22.0, strip, 40.0).unwrap();
        // Once the start is forgotten, the reading trails by −τ ln(1 − τp/τ).
        let trail =
            -VESSEL.time_constant().unwrap() * libm::log1p(-20.0 / VESSEL.time_constant().unwrap());
        assert!(turned > vessel + 0.9 * trail && turned < vessel + trail);
        assert_close(VESSEL.reading(22.0, strip, turned), 40.0, 1e-9);
        assert_eq!(VESSEL.time_to_read(22.0, strip, 85.0), None);
        assert_eq!(VESSEL.time_to_read(22.0, strip, 22.0), Some(0.0));
        // A cold strip dipped into a hot vessel taken off the plate turns, but not at a mark the vessel left too early.
        let off = Lump {
            g_plate: 0.0,
            ..VESSEL
        };
        let dipped = off.time_to_read(45.0, strip, 40.0).unwrap();
        assert_close(off.reading(45.0, strip, dipped), 40.0, 1e-9);
        assert!(dipped < 60.0);
        assert_eq!(off.time_to_read(45.0, strip, 44.9), None);
        assert_eq!(off.time_to_read(30.0, strip, 40.0), None);
    }

    fn any_lump() -> impl Strategy<Value = Lump> {
        (
            50.0..3000.0_f64,
            0.0..6.0_f64,
            20.0..140.0_f64,
            0.05..2.0_f64,
            10.0..30.0_f64,
            0.0..50.0_f64,
            0.0..2.0_f64,
        )
            .prop_map(
                |(heat_capacity, g_plate, t_plate, g_air, t_air, power, g_evap)| Lump {
                    heat_capacity,
                    g_plate,
                    t_plate,
                    g_air,
                    t_air,
                    power,
                    g_evap,
                    p_evap: 2.0 * g_evap,
                },
            )
    }

    proptest! {
        #[test]
        fn temperature_never_overshoots(lump in any_lump(), start in 0.0..150.0_f64, t in 0.0..1e5_f64) {
            let steady = lump.steady_temperature().unwrap();
            let got = lump.temperature(start, t);
            prop_assert!(got >= start.min(steady) - 1e-9 && got <= start.max(steady) + 1e-9);
        }

        #[test]
        fn a_restart_changes_nothing(lump in any_lump(), start in 0.0..150.0_f64, a in 0.0..2000.0_f64, b in 0.0..2000.0_f64) {
            let ends = schedule(start, &[(lump, a), (lump, b)]);
            prop_assert!((ends[1].temperature - lump.temperature(start, a + b)).abs() < 1e-9);
            let probe = Probe { reading: 20.0, time_constant: 33.0 };
            let middle = Probe { reading: lump.reading(start, probe, a), ..probe };
            let restarted = lump.reading(ends[0].temperature, middle, b);
            prop_assert!((restarted - lump.reading(start, probe, a + b)).abs() < 1e-8);
        }

        #[test]
        fn time_and_temperature_agree(lump in any_lump(), start in 0.0..150.0_f64, share in 0.01..0.99_f64) {
            let steady = lump.steady_temperature().unwrap();
            prop_assume!((steady - start).abs() > 0.1);
            let target = start + share * (steady - start);
            let t = lump.time_to_reach(start, target).unwrap();
            prop_assert!((lump.temperature(start, t) - target).abs() < 1e-9);
        }
    }
}
