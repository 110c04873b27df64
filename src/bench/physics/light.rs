//! Light: dose with warm-up and distance, time to a dose, dose and cure in depth, permissible time under ultraviolet.
//!
//! mW/cm² × s = mJ/cm².

/// A lamp above a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lamp {
    /// Irradiance of the new lamp at the reference distance, mW/cm².
    pub irradiance_mw_cm2: f64,
    /// Share of the new lamp's output that is left (age, battery, dirty tip), 0 to 1.
    pub lamp_factor: f64,
    /// Distance at which the irradiance was measured. Same unit as `distance`.
    pub reference_distance: f64,
    /// Distance to the surface. Above zero. The inverse square holds for a point source only; equal distances switch it off.
    pub distance: f64,
    /// Share that passes the window or cover, 0 to 1.
    pub window_transmission: f64,
    /// Time constant of the warm-up, s. Zero for a lamp that is at once fully on.
    pub rise_s: f64,
}

impl Lamp {
    /// Irradiance on the surface once the lamp is warm, mW/cm².
    #[must_use]
    pub fn plateau_mw_cm2(&self) -> f64 {
        let spread = self.reference_distance / self.distance;
        self.irradiance_mw_cm2 * self.lamp_factor * self.window_transmission * spread * spread
    }

    /// Dose of one pass of `seconds`, mJ/cm². Every pass warms up again.
    #[must_use]
    pub fn dose_mj_cm2(&self, seconds: f64) -> f64 {
        self.plateau_mw_cm2() * self.effective_seconds(seconds)
    }

    /// Dose of several passes, mJ/cm².
    #[must_use]
    pub fn dose_of_passes_mj_cm2(&self, passes: &[f64]) -> f64 {
        passes.iter().map(|&pass| self.dose_mj_cm2(pass)).sum()
    }

    /// Seconds at the plateau that give as much light: `s − r (1 − e^(−s/r))`.
    fn effective_seconds(&self, seconds: f64) -> f64 {
        if self.rise_s > 0.0 {
            seconds + self.rise_s * libm::expm1(-seconds / self.rise_s)
        } else {
            seconds
        }
    }

    /// Seconds of a single pass that gives `target_mj_cm2`. `None` if no light arrives; zero for a target of zero or less.
    ///
    /// Newton's method from above on a convex function: it closes in from one side and stops when nothing moves.
    #[must_use]
    pub fn seconds_for(&self, target_mj_cm2: f64) -> Option<f64> {
        if target_mj_cm2 <= 0.0 {
            return Some(0.0);
        }
        let plateau = self.plateau_mw_cm2();
        if plateau <= 0.0 {
            return None;
        }
        let wanted = target_mj_cm2 / plateau;
        if self.rise_s <= 0.0 {
            return Some(wanted);
        }
        let mut seconds = wanted + self.rise_s;
        for _ in 0..200 {
            let slope = -libm::expm1(-seconds / self.rise_s);
            let next = seconds - (self.effective_seconds(seconds) - wanted) / slope;
            if next >= seconds || next <= 0.0 {
                break;
            }
            seconds = next;
        }
        Some(seconds)
    }
}

/// Dose at a depth, in the unit of `dose`: `H e^(−z/Dp)`. Depth and penetration depth in the same unit.
#[must_use]
pub fn dose_at_depth(dose: f64, depth: f64, penetration_depth: f64) -> f64 {
    dose * libm::exp(-depth / penetration_depth)
}

/// Depth to which a dose cures: `Dp ln(H/Hc)` (Jacobs 1992, from memory). Zero below the critical dose.
///
/// In the unit of `penetration_depth`; both doses in the same unit, the critical one above zero.
#[must_use]
pub fn cure_depth(dose: f64, critical_dose: f64, penetration_depth: f64) -> f64 {
    if dose <= critical_dose {
        0.0
    } else {
        penetration_depth * libm::log(dose / critical_dose)
    }
}

/// Seconds for which ultraviolet light is permissible: limit (mJ/cm²) over irradiance (µW/cm²). `None` in the dark.
#[must_use]
pub fn permissible_seconds(limit_mj_cm2: f64, irradiance_uw_cm2: f64) -> Option<f64> {
    (irradiance_uw_cm2 > 0.0).then(|| limit_mj_cm2 * 1000.0 / irradiance_uw_cm2)
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;
    use proptest::prelude::*;

    const UNIT: Lamp = Lamp {
        irradiance_mw_cm2: 30.0,
        lamp_factor: 0.8,
        reference_distance: 10.0,
        distance: 10.0,
        window_transmission: 0.9,
        rise_s: 5.0,
    };

    // Own values: worked check of the light model, recalculated.
    #[test]
    fn two_passes_with_warm_up() {
        assert_close(UNIT.plateau_mw_cm2(), 21.6, 1e-12);
        let dose = UNIT.dose_of_passes_mj_cm2(&[120.0, 120.0]);
        assert_close(dose, 4968.0, 0.01);
        assert_close(cure_depth(dose, 15.0, 0.5), 2.901, 5e-4);
        assert_close(dose_at_depth(dose, 2.901, 0.5), 15.0, 0.02);
        assert_close(cure_depth(14.0, 15.0, 0.5), 0.0, 0.0);
    }

    // Definition: 1000 mW/cm² for 10 s is 10 J/cm²; own value: 16 J/cm² take 53.3 s at 300 and 12.3 s at 1300 mW/cm².
    #[test]
    fn dose_is_irradiance_times_time() {
        let lamp = |irradiance_mw_cm2| Lamp {
            irradiance_mw_cm2,
            lamp_factor: 1.0,
            window_transmission: 1.0,
            rise_s: 0.0,
            ..UNIT
        };
        assert_close(lamp(1000.0).dose_mj_cm2(10.0), 10_000.0, 1e-9);
        assert_close(lamp(300.0).seconds_for(16_000.0).unwrap(), 53.3, 0.05);
        assert_close(lamp(1300.0).seconds_for(16_000.0).unwrap(), 12.3, 0.05);
        assert_eq!(lamp(0.0).seconds_for(1.0), None);
        assert_eq!(lamp(0.0).seconds_for(0.0), Some(0.0));
    }

    // Inverse square law of a point source.
    #[test]
    fn twice_the_distance_is_a_quarter_of_the_light() {
        let far = Lamp {
            distance: 20.0,
            ..UNIT
        };
        assert_close(far.plateau_mw_cm2() * 4.0, UNIT.plateau_mw_cm2(), 1e-12);
    }

    // EXP-2: public table of permissible times at 254 nm, 6 mJ/cm²; 3 mJ/cm² and 10 µW/cm² for 5 min from memory.
    #[test]
    fn permissible_times_of_ultraviolet() {
        for (irradiance, hours) in [(0.07, 24.0), (0.09, 18.0), (0.14, 12.0)] {
            let got = permissible_seconds(6.0, irradiance).unwrap() / 3600.0;
            assert_close(got, hours, 0.6);
        }
        assert_close(permissible_seconds(3.0, 10.0).unwrap(), 300.0, 1e-9);
        assert_eq!(permissible_seconds(3.0, 0.0), None);
    }

    proptest! {
        #[test]
        fn doses_add_up_without_warm_up(a in 0.0..600.0_f64, b in 0.0..600.0_f64) {
            let lamp = Lamp { rise_s: 0.0, ..UNIT };
            let apart = lamp.dose_of_passes_mj_cm2(&[a, b]);
            prop_assert!((apart - lamp.dose_mj_cm2(a + b)).abs() < 1e-9 * (1.0 + apart));
        }

        #[test]
        fn a_second_warm_up_costs_light(a in 1.0..600.0_f64, b in 1.0..600.0_f64) {
            prop_assert!(UNIT.dose_of_passes_mj_cm2(&[a, b]) < UNIT.dose_mj_cm2(a + b));
        }

        #[test]
        fn time_and_dose_agree(target in 1e-3..1e5_f64, rise_s in 0.0..100.0_f64) {
            let lamp = Lamp { rise_s, ..UNIT };
            let seconds = lamp.seconds_for(target).unwrap();
            prop_assert!((lamp.dose_mj_cm2(seconds) - target).abs() < 1e-9 * (1.0 + target));
        }
    }
}
