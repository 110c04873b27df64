//! How a film dries: exponentially, or first at a constant and then at a falling rate.

/// A film that dries exponentially towards what stays behind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExponentialFilm {
    /// Moisture at the start, in any unit.
    pub start: f64,
    /// Moisture that stays for good, same unit.
    pub equilibrium: f64,
    /// Rate, per second.
    pub rate_per_s: f64,
}

impl ExponentialFilm {
    /// Moisture after `seconds`: `Xe + (X0 − Xe) e^(−k t)`.
    #[must_use]
    pub fn moisture(&self, seconds: f64) -> f64 {
        self.equilibrium + (self.start - self.equilibrium) * libm::exp(-self.rate_per_s * seconds)
    }

    /// Seconds until the moisture is down to `dry_at`: zero if it is already, `None` if it never gets there.
    #[must_use]
    pub fn seconds_to_dry(&self, dry_at: f64) -> Option<f64> {
        if self.start <= dry_at {
            return Some(0.0);
        }
        let left = (dry_at - self.equilibrium) / (self.start - self.equilibrium);
        (left > 0.0 && self.rate_per_s > 0.0).then(|| -libm::log(left) / self.rate_per_s)
    }
}

/// A wet layer that dries at a constant rate down to the critical moisture and then ever more slowly.
///
/// Standard two-period model of drying. Any one unit of time throughout (hours in the textbook form).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoPeriodFilm {
    /// Moisture at the start, mass per mass of dry matter.
    pub start: f64,
    /// Moisture at which the constant rate ends.
    pub critical: f64,
    /// Moisture that stays for good. Below `critical`.
    pub equilibrium: f64,
    /// Constant rate, mass per time and area. Above zero.
    pub rate: f64,
    /// Dry matter, mass per area. Above zero.
    pub dry_mass_per_area: f64,
}

impl TwoPeriodFilm {
    /// Fall of the moisture per unit of time while the rate is constant.
    fn fall(&self) -> f64 {
        self.rate / self.dry_mass_per_area
    }

    /// Rate of the exponential of the second period, per unit of time.
    fn falling_rate(&self) -> f64 {
        self.fall() / (self.critical - self.equilibrium)
    }

    /// When the constant rate ends. Zero if the layer starts below the critical moisture.
    #[must_use]
    pub fn end_of_constant_period(&self) -> f64 {
        ((self.start - self.critical) / self.fall()).max(0.0)
    }

    /// Moisture after `t`.
    #[must_use]
    pub fn moisture(&self, t: f64) -> f64 {
        let end = self.end_of_constant_period();
        if t < end {
            return self.start - self.fall() * t;
        }
        let from = self.start.min(self.critical);
        self.equilibrium + (from - self.equilibrium) * libm::exp(-self.falling_rate() * (t - end))
    }

    /// Time until the moisture is down to `dry_at`: zero if it is already, `None` if it never gets there.
    #[must_use]
    pub fn time_to_dry(&self, dry_at: f64) -> Option<f64> {
        if self.start <= dry_at {
            return Some(0.0);
        }
        if dry_at >= self.critical {
            return Some((self.start - dry_at) / self.fall());
        }
        let left = (dry_at - self.equilibrium) / (self.start.min(self.critical) - self.equilibrium);
        (left > 0.0).then(|| self.end_of_constant_period() - libm::log(left) / self.falling_rate())
    }
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;
    use proptest::prelude::*;

    // DRY-1: textbook of transport processes, from memory: 0.38 to 0.195 takes 2.63 h.
    #[test]
    fn constant_rate_period() {
        let layer = TwoPeriodFilm {
            start: 0.38,
            critical: 0.195,
            equilibrium: 0.0,
            rate: 1.51,
            dry_mass_per_area: 21.5,
        };
        assert_close(layer.time_to_dry(0.195).unwrap(), 2.63, 0.005);
        assert_eq!(layer.time_to_dry(0.4), Some(0.0));
        assert_eq!(layer.time_to_dry(0.0), None);
    }

    // Own values: halving times of an exponential.
    #[test]
    fn exponential_film() {
        let film = ExponentialFilm {
            start: 8.0,
            equilibrium: 0.0,
            rate_per_s: std::f64::consts::LN_2 / 30.0,
        };
        assert_close(film.moisture(90.0), 1.0, 1e-12);
        assert_close(film.seconds_to_dry(2.0).unwrap(), 60.0, 1e-9);
        assert_eq!(film.seconds_to_dry(9.0), Some(0.0));
        assert_eq!(film.seconds_to_dry(0.0), None);
        let still = ExponentialFilm {
            rate_per_s: 0.0,
            ..film
        };
        assert_eq!(still.seconds_to_dry(1.0), None);
    }

    proptest! {
        #[test]
        fn drying_never_turns_back(start in 0.1..1.0_f64, critical in 0.06..0.5_f64, rate in 0.1..5.0_f64, a in 0.0..50.0_f64, wait in 0.0..50.0_f64) {
            let layer = TwoPeriodFilm { start, critical, equilibrium: 0.05, rate, dry_mass_per_area: 10.0 };
            prop_assert!(layer.moisture(a + wait) <= layer.moisture(a) + 1e-12);
            let film = ExponentialFilm { start, equilibrium: 0.05, rate_per_s: rate };
            prop_assert!(film.moisture(a + wait) <= film.moisture(a) + 1e-12);
            prop_assert!(film.moisture(a) >= 0.05 && layer.moisture(a) >= 0.05);
        }

        #[test]
        fn dry_when_it_says_so(start in 0.2..1.0_f64, critical in 0.1..0.5_f64, dry_at in 0.06..0.2_f64) {
            let layer = TwoPeriodFilm { start, critical, equilibrium: 0.05, rate: 2.0, dry_mass_per_area: 10.0 };
            let t = layer.time_to_dry(dry_at).unwrap();
            prop_assert!((layer.moisture(t) - dry_at).abs() < 1e-9);
        }
    }
}
