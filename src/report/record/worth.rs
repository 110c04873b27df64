//! What observed runs are worth, in a sentence: never more than they show.

use super::telling::Telling;
use crate::standing::{Runs, Weight, Worth};
use crate::text::Value;

/// Says what observed runs are worth, with exact bounds, and how many it would take.
#[must_use]
pub fn worth(runs: Runs, telling: &Telling<'_>) -> String {
    let worth = Worth::of(runs);
    let whole = |number: u32| -> Value { i64::from(number).into() };
    let values = [
        ("clean", whole(worth.runs.clean)),
        ("of", whole(worth.runs.of)),
        ("least", whole(below(worth.at_least))),
        ("low", whole(below(worth.between.0))),
        ("high", whole(100 - below(1.0 - worth.between.1))),
        ("needed", whole(worth.needed)),
        ("come", whole(worth.to_come)),
    ];
    let faultless = worth.runs.clean == worth.runs.of;
    telling.say(
        match worth.weight {
            Weight::Nothing => "standing-worth-nothing",
            Weight::Little if faultless => "standing-worth-little",
            Weight::Little => "standing-worth-little-with-faults",
            Weight::Something if faultless => "standing-worth-something",
            Weight::Something => "standing-worth-something-with-faults",
            Weight::Enough => "standing-worth-enough",
        },
        &values,
    )
}

/// A share in hundredths, rounded down: a bound is never said to be better than it is.
fn below(share: f64) -> u32 {
    // A share that is a whole number of hundredths but for the last digits of a double stays that number.
    let hundredths = libm::floor(share * 100.0 + 1e-9).clamp(0.0, 100.0);
    (0..=100)
        .rev()
        .find(|one| f64::from(*one) <= hundredths)
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_is_rounded_to_the_side_that_claims_less() {
        for (share, shown) in [(0.0, 0), (0.368, 36), (0.369_9, 36), (0.37, 37), (1.0, 100)] {
            assert_eq!(below(share), shown, "{share}");
        }
    }
}
