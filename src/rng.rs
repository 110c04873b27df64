//! Seeded randomness: one stream per name, so that a new user of randomness never disturbs an old run.
//!
//! A stream is ChaCha12 (a value-stable generator) keyed by SHA-256 of the name and the run's seed. Its first values are frozen
//! by a test: a change there would change every saved run.

use rand::rngs::ChaCha12Rng;
use rand::{Rng, SeedableRng};
use sha2::{Digest, Sha256};

/// A run's seed, 32 bits so that a person can type it.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(transparent)]
pub struct Seed(pub u32);

/// One named stream of a seed.
#[derive(Debug)]
pub struct Stream(ChaCha12Rng);

impl Stream {
    /// Opens the stream called `name` of `seed`.
    #[must_use]
    pub fn new(seed: Seed, name: &str) -> Stream {
        let mut hash = Sha256::new();
        hash.update(b"drybench stream 1\n");
        hash.update(seed.0.to_be_bytes());
        hash.update(name.as_bytes());
        Stream(ChaCha12Rng::from_seed(hash.finalize().into()))
    }

    /// A whole number with `low <= number <= high`. Returns `low` when the bounds are the wrong way round.
    pub fn between(&mut self, low: i64, high: i64) -> i64 {
        if high <= low {
            return low;
        }
        let span = high.abs_diff(low) + 1;
        // Multiply-shift on 64 random bits: the bias of at most 2^-32 is far below anything a bench shows.
        let wide = u128::from(self.0.next_u64()) * u128::from(span);
        low.saturating_add(i64::try_from(wide >> 64).unwrap_or(0))
    }

    /// Whether something with this chance happens this time.
    pub fn happens(&mut self, chance: crate::units::Chance) -> bool {
        self.between(1, i64::from(chance.of)) <= i64::from(chance.hits)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sequence_is_frozen() {
        let mut stream = Stream::new(Seed(7), "plate");
        let drawn: Vec<i64> = (0..5).map(|_| stream.between(0, 999_999)).collect();
        assert_eq!(
            drawn,
            [662_360, 240_879, 310_368, 484_460, 382_030],
            "saved runs depend on these values"
        );
    }

    #[test]
    fn streams_of_one_seed_differ() {
        let draw = |name| Stream::new(Seed(7), name).between(0, i64::MAX - 1);
        assert_ne!(draw("plate"), draw("bath"));
    }

    #[test]
    fn bounds_are_kept_and_reached() {
        let mut stream = Stream::new(Seed(1), "bounds");
        let drawn: Vec<i64> = (0..200).map(|_| stream.between(-2, 2)).collect();
        assert!(drawn.iter().all(|n| (-2..=2).contains(n)));
        assert!((-2..=2).all(|n| drawn.contains(&n)));
        assert_eq!(stream.between(5, 5), 5);
    }
}
