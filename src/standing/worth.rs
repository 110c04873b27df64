//! What observed runs are worth: exact bounds on the share of clean runs, and how many clean runs it takes to show one.
//!
//! Clopper and Pearson's bounds, found by halving on the exact binomial sum; runs needed as in success-run demonstration. No prior is put in, so
//! few runs say little. Whether runs may be counted together is for `evidence`; what a person decides on them is for that person.

/// The confidence that sentences speak of. Our default.
pub const CONFIDENCE: f64 = 0.95;

/// The share of clean runs that sentences ask for. Our default.
pub const RELIABILITY: f64 = 0.95;

/// Below this lower bound runs say little. Our default.
const LITTLE_BELOW: f64 = 0.8;

/// The most runs that are looked for. Beyond it nobody counts runs one by one.
const RUNS_MOST: u32 = 1_000_000;

/// So many halvings leave no digit of a double undecided.
const HALVINGS: u32 = 200;

/// Observed runs that count, and how many of them were clean.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Runs {
    /// How many were clean…
    pub clean: u32,
    /// …of how many.
    pub of: u32,
}

/// How much runs say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// There are none.
    Nothing,
    /// Hardly anything.
    Little,
    /// Something, and less than what is asked for.
    Something,
    /// What is asked for.
    Enough,
}

/// What runs are worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worth {
    /// The runs.
    pub runs: Runs,
    /// At least this share is clean, at [`CONFIDENCE`].
    pub at_least: f64,
    /// The share lies between these, at [`CONFIDENCE`].
    pub between: (f64, f64),
    /// How much that says.
    pub weight: Weight,
    /// So many runs it takes in all to show [`RELIABILITY`] with as many faults as there were.
    pub needed: u32,
    /// So many of them are still to come, all clean.
    pub to_come: u32,
}

impl Worth {
    /// What these runs are worth.
    #[must_use]
    pub fn of(runs: Runs) -> Worth {
        let clean = runs.clean.min(runs.of);
        let runs = Runs { clean, ..runs };
        let at_least = lower_bound(clean, runs.of, CONFIDENCE);
        let needed = runs_needed(RELIABILITY, CONFIDENCE, runs.of - clean);
        let to_come = needed.saturating_sub(runs.of);
        Worth {
            runs,
            at_least,
            between: bounds(clean, runs.of, CONFIDENCE),
            weight: if runs.of == 0 {
                Weight::Nothing
            } else if to_come == 0 {
                Weight::Enough
            } else if at_least < LITTLE_BELOW {
                Weight::Little
            } else {
                Weight::Something
            },
            needed,
            to_come,
        }
    }
}

/// At least this share succeeds, where `clean` of `of` did: one-sided, exact.
#[must_use]
pub fn lower_bound(clean: u32, of: u32, confidence: f64) -> f64 {
    if clean == 0 || of == 0 {
        return 0.0;
    }
    if clean >= of {
        return libm::pow(1.0 - confidence, 1.0 / f64::from(of));
    }
    // The more succeed in truth, the likelier that so many did.
    rising_to(1.0 - confidence, |share| {
        1.0 - at_most(clean - 1, of, share)
    })
}

/// At most this share succeeds: one-sided, exact.
#[must_use]
pub fn upper_bound(clean: u32, of: u32, confidence: f64) -> f64 {
    1.0 - lower_bound(of.saturating_sub(clean), of, confidence)
}

/// The share lies between these: two-sided, exact, as much left out on each side.
#[must_use]
pub fn bounds(clean: u32, of: u32, confidence: f64) -> (f64, f64) {
    let each = (1.0 + confidence) / 2.0;
    (lower_bound(clean, of, each), upper_bound(clean, of, each))
}

/// The fewest runs that show a share with a confidence where so many of them may fail.
#[must_use]
pub fn runs_needed(reliability: f64, confidence: f64, failures: u32) -> u32 {
    let shows = |runs: u32| shown_confidence(reliability, runs, failures) >= confidence - 1e-12;
    let mut most = failures.saturating_add(1);
    while !shows(most) {
        if most >= RUNS_MOST {
            return RUNS_MOST;
        }
        most = most.saturating_mul(2).min(RUNS_MOST);
    }
    let mut least = failures;
    while least + 1 < most {
        let middle = least + (most - least) / 2;
        if shows(middle) {
            most = middle;
        } else {
            least = middle;
        }
    }
    most
}

/// The confidence with which so many runs, of which so many failed, show a share.
#[must_use]
pub fn shown_confidence(reliability: f64, runs: u32, failures: u32) -> f64 {
    1.0 - at_most(failures, runs, 1.0 - reliability)
}

/// The chance that at most `most` of `of` happen, each with a chance of its own that is the same for all.
#[must_use]
pub fn at_most(most: u32, of: u32, chance: f64) -> f64 {
    if most >= of || chance <= 0.0 {
        return 1.0;
    }
    if chance >= 1.0 {
        return 0.0;
    }
    let (log_in, log_out) = (libm::log(chance), libm::log1p(-chance));
    let all = libm::lgamma(f64::from(of) + 1.0);
    let chances = (0..=most).map(|number| {
        let (in_it, out_of_it) = (f64::from(number), f64::from(of - number));
        let ways = all - libm::lgamma(in_it + 1.0) - libm::lgamma(out_of_it + 1.0);
        libm::exp(ways + in_it * log_in + out_of_it * log_out)
    });
    chances.sum::<f64>().min(1.0)
}

/// Where a function that rises from 0 to 1 reaches a value.
fn rising_to(value: f64, rising: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if rising(middle) < value {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(one: f64, other: f64) -> bool {
        (one - other).abs() < 1e-9
    }

    #[test]
    fn three_clean_runs_say_little() {
        let worth = Worth::of(Runs { clean: 3, of: 3 });
        assert!(close(worth.at_least, libm::cbrt(0.05)), "{worth:?}");
        assert!(close(worth.between.0, libm::cbrt(0.025)) && close(worth.between.1, 1.0));
        assert_eq!(
            (worth.weight, worth.needed, worth.to_come),
            (Weight::Little, 59, 56)
        );
    }

    #[test]
    fn a_fault_makes_it_more() {
        let worth = Worth::of(Runs { clean: 3, of: 4 });
        assert_eq!(
            (worth.weight, worth.needed, worth.to_come),
            (Weight::Little, 93, 89)
        );
    }

    #[test]
    fn nothing_is_said_of_no_runs_and_enough_of_enough() {
        let none = Worth::of(Runs::default());
        assert_eq!((none.weight, none.to_come), (Weight::Nothing, 59));
        assert!(close(none.between.0, 0.0) && close(none.between.1, 1.0));
        let enough = Worth::of(Runs { clean: 59, of: 59 });
        assert_eq!((enough.weight, enough.to_come), (Weight::Enough, 0));
        let some = Worth::of(Runs { clean: 20, of: 20 });
        assert_eq!(some.weight, Weight::Something);
    }

    #[test]
    fn bounds_hold_what_was_seen_and_narrow_with_more_runs() {
        for of in 1..60 {
            for clean in 0..=of {
                let (low, high) = bounds(clean, of, CONFIDENCE);
                let seen = f64::from(clean) / f64::from(of);
                assert!(low <= seen && seen <= high, "{clean} of {of}");
                let (tighter, _) = bounds(clean * 2, of * 2, CONFIDENCE);
                assert!(clean == 0 || tighter > low, "{clean} of {of}");
                assert!(lower_bound(clean, of, CONFIDENCE) >= low);
            }
        }
    }

    #[test]
    fn what_it_takes_shows_it_and_one_less_does_not() {
        for failures in 0..4 {
            let needed = runs_needed(0.9, 0.9, failures);
            assert!(lower_bound(needed - failures, needed, 0.9) >= 0.9 - 1e-12);
            assert!(lower_bound(needed - 1 - failures, needed - 1, 0.9) < 0.9);
        }
    }
}
