//! Washing resin off parts: removal in time, the mass balance of one immersion, rotation, and where a routine of two baths ends.
//!
//! Masses in grams, volumes in millilitres, concentrations in g/mL. A job in two baths is two calls of [`immerse`].
//! A bath keeps the volume it is filled to: an immersion counts as if the liquid carried out were made up with clean solvent
//! before the next job. [`Immersion::liquid_lost_ml`] says how much that is.

/// Share of the resin on a surface that is gone after `seconds` at a rate of `k_per_s`: `1 − e^(−k t)`.
#[must_use]
pub fn removal(k_per_s: f64, seconds: f64) -> f64 {
    -libm::expm1(-k_per_s * seconds)
}

/// Seconds until the share `removed` is gone. `None` for a share of 1 or more, or without any removal.
#[must_use]
pub fn seconds_for_removal(k_per_s: f64, removed: f64) -> Option<f64> {
    (k_per_s > 0.0 && (0.0..1.0).contains(&removed)).then(|| -libm::log1p(-removed) / k_per_s)
}

/// Share that leaves a part as a whole, from `(grams, share)` of its regions. Zero on a part without resin.
#[must_use]
pub fn pooled_removal(regions: &[(f64, f64)]) -> f64 {
    let all: f64 = regions.iter().map(|region| region.0).sum();
    let gone: f64 = regions.iter().map(|region| region.0 * region.1).sum();
    if all > 0.0 { gone / all } else { 0.0 }
}

/// A bath of solvent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bath {
    /// Resin dissolved in it, g.
    pub resin_g: f64,
    /// Volume it is filled to, mL. Where nobody tops up, subtract [`Immersion::liquid_lost_ml`] before the next job.
    pub volume_ml: f64,
}

/// Resin on the parts of a job.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Carried {
    /// Resin that sticks to the surface, g.
    pub bound_g: f64,
    /// Resin dissolved in the liquid that clings to the parts, g.
    pub film_g: f64,
    /// Liquid that clings to the parts, mL.
    pub film_ml: f64,
}

impl Carried {
    /// Parts with resin and without any liquid, as they leave the printer.
    #[must_use]
    pub fn from_print(bound_g: f64) -> Carried {
        Carried {
            bound_g,
            film_g: 0.0,
            film_ml: 0.0,
        }
    }

    /// All resin on the parts, g: what dries on if they are left like this.
    #[must_use]
    pub fn residue_g(&self) -> f64 {
        self.bound_g + self.film_g
    }
}

/// What one immersion leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Immersion {
    /// The bath after the parts have left it.
    pub bath: Bath,
    /// What the parts carry on.
    pub part: Carried,
    /// Concentration of the bath right after the stage, before the parts carry liquid out, g/mL.
    pub concentration: f64,
    /// Liquid that the bath is short of, mL: carried out minus carried in.
    pub liquid_lost_ml: f64,
}

impl Bath {
    /// Clean solvent.
    #[must_use]
    pub fn fresh(volume_ml: f64) -> Bath {
        Bath {
            resin_g: 0.0,
            volume_ml,
        }
    }

    /// Concentration, g/mL. Zero for an empty vessel.
    #[must_use]
    pub fn concentration(&self) -> f64 {
        if self.volume_ml > 0.0 {
            self.resin_g / self.volume_ml
        } else {
            0.0
        }
    }

    /// The bath filled up to `volume_ml` with clean solvent. Never takes liquid out.
    #[must_use]
    pub fn topped_up(self, volume_ml: f64) -> Bath {
        Bath {
            volume_ml: self.volume_ml.max(volume_ml),
            ..self
        }
    }
}

/// One immersion: the mass balance of a stage.
///
/// The share `removed` (0 to 1, see [`removal`]) of the bound resin and the film from before go into the bath, all is mixed, and
/// the parts leave with `drag_out_ml` of the mixture (at most the whole bath). In an empty vessel nothing happens.
/// Two immersions in the same bath are the same as one with both shares together.
#[must_use]
pub fn immerse(bath: Bath, part: Carried, removed: f64, drag_out_ml: f64) -> Immersion {
    if bath.volume_ml <= 0.0 {
        return Immersion {
            bath,
            part,
            concentration: 0.0,
            liquid_lost_ml: 0.0,
        };
    }
    let freed = part.bound_g * removed;
    let mixed = Bath {
        resin_g: bath.resin_g + freed + part.film_g,
        ..bath
    };
    let concentration = mixed.concentration();
    let film_ml = drag_out_ml.clamp(0.0, bath.volume_ml);
    let film_g = film_ml * concentration;
    Immersion {
        bath: Bath {
            resin_g: mixed.resin_g - film_g,
            ..bath
        },
        part: Carried {
            bound_g: part.bound_g - freed,
            film_g,
            film_ml,
        },
        concentration,
        liquid_lost_ml: film_ml - part.film_ml,
    }
}

/// First and second bath of a wash.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// The bath that parts go into first.
    pub first: Bath,
    /// The bath that parts go into second.
    pub second: Bath,
}

impl Pair {
    /// Rotation: the first bath goes to waste, the second becomes the first, and the second is fresh with `fresh_ml`.
    ///
    /// Gives the discarded bath and the new pair.
    #[must_use]
    pub fn rotated(self, fresh_ml: f64) -> (Bath, Pair) {
        let pair = Pair {
            first: self.second,
            second: Bath::fresh(fresh_ml),
        };
        (self.first, pair)
    }
}

/// A wash of two baths that does the same job again and again, topped up after each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Routine {
    /// Volume of each bath, mL. Above zero.
    pub volume_ml: f64,
    /// Liquid that the parts carry out of a bath, mL.
    pub drag_out_ml: f64,
    /// Share removed in the first bath.
    pub removed_1: f64,
    /// Share of the rest removed in the second bath.
    pub removed_2: f64,
    /// Resin on the parts of one job, g.
    pub load_g: f64,
}

impl Routine {
    /// Concentrations (first, second bath, g/mL) that a routine with rotation after every job ends at.
    ///
    /// Derived from the mass balance of [`immerse`] with `b = d/V`:
    /// `V c1 = M (f1 + (1−b)(1−f1) f2) / (1 − b(1−b))`, reached by the second or third job.
    #[must_use]
    pub fn steady_with_rotation(&self) -> (f64, f64) {
        let b = self.drag_out_ml / self.volume_ml;
        let second_share = (1.0 - self.removed_1) * self.removed_2;
        let m1 = self.load_g * (self.removed_1 + (1.0 - b) * second_share) / (1.0 - b * (1.0 - b));
        let m2 = self.load_g * second_share + b * m1;
        (m1 / self.volume_ml, m2 / self.volume_ml)
    }

    /// Jobs that a first bath without rotation can take until its concentration is above `limit` (g/mL).
    ///
    /// From fresh solvent. `None` if the limit is never exceeded. A concentration equal to the limit still counts as within.
    #[must_use]
    pub fn jobs_before_limit(&self, limit: f64) -> Option<u64> {
        let per_job = self.removed_1 * self.load_g;
        let b = self.drag_out_ml / self.volume_ml;
        if per_job <= 0.0 {
            return None;
        }
        let share = limit * self.volume_ml / per_job;
        let jobs = if b > 0.0 {
            if b * share >= 1.0 {
                return None;
            }
            libm::log1p(-b * share) / libm::log1p(-b)
        } else {
            share
        };
        // The slack keeps a limit that is met exactly on the side of within.
        let whole = (jobs + 1e-9).floor().max(0.0);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a whole number from zero up; a number too large becomes the largest"
        )]
        Some(whole as u64)
    }
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;
    use proptest::prelude::*;

    const ROUTINE: Routine = Routine {
        volume_ml: 500.0,
        drag_out_ml: 5.0,
        removed_1: 0.9,
        removed_2: 0.8,
        load_g: 2.0,
    };

    /// One job of a routine: both immersions, one after the other.
    fn job(pair: Pair, routine: &Routine) -> (Immersion, Immersion) {
        let part = Carried::from_print(routine.load_g);
        let one = immerse(pair.first, part, routine.removed_1, routine.drag_out_ml);
        let two = immerse(
            pair.second,
            one.part,
            routine.removed_2,
            routine.drag_out_ml,
        );
        (one, two)
    }

    fn fresh_pair() -> Pair {
        Pair {
            first: Bath::fresh(500.0),
            second: Bath::fresh(500.0),
        }
    }

    // Own values: worked check of the two-bath wash, rotating after every job (mg/mL).
    #[test]
    fn rotation_after_every_job() {
        let mut pair = fresh_pair();
        let wanted_2 = [0.356, 0.359_52, 0.359_56, 0.359_56];
        for (c1, c2) in [3.6, 3.952_44, 3.955_93, 3.955_96]
            .into_iter()
            .zip(wanted_2)
        {
            let (one, two) = job(pair, &ROUTINE);
            assert_close(one.concentration * 1000.0, c1, 6e-6);
            assert_close(two.concentration * 1000.0, c2, 6e-6);
            let after = Pair {
                first: one.bath,
                second: two.bath,
            };
            let (waste, next) = after.rotated(500.0);
            assert_eq!(waste, one.bath);
            pair = next;
        }
        let (c1, c2) = ROUTINE.steady_with_rotation();
        assert_close(c1 * 1000.0, 3.955_96, 6e-6);
        assert_close(c2 * 1000.0, 0.359_56, 6e-6);
    }

    // Own values: the same wash without rotation; a limit of 20 mg/mL allows 5 jobs.
    #[test]
    fn no_rotation() {
        let mut pair = fresh_pair();
        for want in [3.6, 7.164, 10.692, 14.185, 17.644, 21.067] {
            let (one, two) = job(pair, &ROUTINE);
            assert_close(one.concentration * 1000.0, want, 6e-4);
            pair = Pair {
                first: one.bath,
                second: two.bath,
            };
        }
        assert_eq!(ROUTINE.jobs_before_limit(0.020), Some(5));
        assert_eq!(ROUTINE.jobs_before_limit(0.0036), Some(1));
        assert_eq!(ROUTINE.jobs_before_limit(0.003), Some(0));
        // The ceiling is f1 M / b = 180 g, 0.36 g/mL.
        assert_eq!(ROUTINE.jobs_before_limit(0.361), None);
        let dry = Routine {
            drag_out_ml: 0.0,
            ..ROUTINE
        };
        assert_eq!(dry.jobs_before_limit(0.020), Some(5));
        assert_eq!(dry.jobs_before_limit(0.018), Some(5));
    }

    // Own values: a part of the shares and the edges of the mass balance.
    #[test]
    fn edges_of_an_immersion() {
        let part = Carried::from_print(2.0);
        let empty = immerse(Bath::fresh(0.0), part, 0.9, 5.0);
        assert_eq!((empty.part, empty.concentration), (part, 0.0));
        // More drag-out than there is liquid takes the whole bath along.
        let all = immerse(Bath::fresh(3.0), part, 0.5, 5.0);
        assert_close(all.part.film_ml, 3.0, 0.0);
        assert_close(all.part.residue_g(), 2.0, 1e-12);
        assert_close(all.bath.resin_g, 0.0, 1e-12);
        assert_close(Bath::fresh(490.0).topped_up(500.0).volume_ml, 500.0, 0.0);
        assert_close(Bath::fresh(510.0).topped_up(500.0).volume_ml, 510.0, 0.0);
        assert_close(pooled_removal(&[(3.0, 0.9), (1.0, 0.1)]), 0.7, 1e-12);
        assert_close(pooled_removal(&[]), 0.0, 0.0);
    }

    #[test]
    fn removal_and_its_time_agree() {
        let seconds = seconds_for_removal(0.02, 0.9).unwrap();
        assert_close(removal(0.02, seconds), 0.9, 1e-12);
        assert_close(seconds, std::f64::consts::LN_10 / 0.02, 1e-9);
        assert_eq!(seconds_for_removal(0.02, 1.0), None);
        assert_eq!(seconds_for_removal(0.0, 0.5), None);
    }

    proptest! {
        #[test]
        fn removal_composes(k in 0.0..0.2_f64, a in 0.0..300.0_f64, b in 0.0..300.0_f64) {
            let left = (1.0 - removal(k, a)) * (1.0 - removal(k, b));
            prop_assert!((1.0 - removal(k, a + b) - left).abs() < 1e-12);
        }

        #[test]
        fn mass_is_conserved(
            loads in proptest::collection::vec(0.0..5.0_f64, 1..12),
            f1 in 0.0..1.0_f64,
            f2 in 0.0..1.0_f64,
            drag in 0.0..20.0_f64,
            every in 1_usize..4,
        ) {
            let mut pair = fresh_pair();
            let (mut out, mut waste) = (0.0, 0.0);
            for (at, &load_g) in loads.iter().enumerate() {
                let routine = Routine { volume_ml: 500.0, drag_out_ml: drag, removed_1: f1, removed_2: f2, load_g };
                let (one, two) = job(pair, &routine);
                prop_assert!((one.liquid_lost_ml - drag).abs() < 1e-12 && two.liquid_lost_ml.abs() < 1e-12);
                out += two.part.residue_g();
                pair = Pair { first: one.bath, second: two.bath };
                if (at + 1) % every == 0 {
                    let (gone, next) = pair.rotated(500.0);
                    waste += gone.resin_g;
                    pair = next;
                }
            }
            let all: f64 = loads.iter().sum();
            prop_assert!((all - out - waste - pair.first.resin_g - pair.second.resin_g).abs() < 1e-9);
        }

        #[test]
        fn an_interrupted_immersion_is_the_same(k in 0.0..0.1_f64, a in 0.0..200.0_f64, b in 0.0..200.0_f64, old in 0.0..50.0_f64) {
            let bath = Bath { resin_g: old, volume_ml: 400.0 };
            let whole = immerse(bath, Carried::from_print(3.0), removal(k, a + b), 6.0);
            let half = immerse(bath, Carried::from_print(3.0), removal(k, a), 6.0);
            let rest = immerse(half.bath, half.part, removal(k, b), 6.0);
            prop_assert!((rest.concentration - whole.concentration).abs() < 1e-12);
            prop_assert!((rest.part.residue_g() - whole.part.residue_g()).abs() < 1e-9);
            prop_assert!((half.liquid_lost_ml + rest.liquid_lost_ml - whole.liquid_lost_ml).abs() < 1e-12);
        }

        #[test]
        fn jobs_before_a_limit_are_counted_as_the_bath_counts_them(limit in 0.001..0.1_f64, drag in 0.0..20.0_f64) {
            let routine = Routine { drag_out_ml: drag, ..ROUTINE };
            let counted = routine.jobs_before_limit(limit);
            let mut pair = fresh_pair();
            let mut jobs = 0_u64;
            while jobs < 400 {
                let (one, two) = job(pair, &routine);
                if one.concentration > limit + 1e-12 {
                    break;
                }
                jobs += 1;
                pair = Pair { first: one.bath, second: two.bath };
            }
            prop_assert_eq!(counted.unwrap_or(400).min(400), jobs);
        }
    }
}
