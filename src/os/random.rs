//! Random bytes of the system, for what nobody may guess: seeds of keys, salts of names, codes of people.

/// The system gave no random bytes. Nothing that needs them can be made then.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct NoRandomBytes;

/// Fills bytes from the system's generator for secrets.
///
/// # Errors
///
/// [`NoRandomBytes`] where the system refuses. What is in `bytes` then is not random.
pub(super) fn fill(bytes: &mut [u8]) -> Result<(), NoRandomBytes> {
    getrandom::fill(bytes).map_err(|_| NoRandomBytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_draws_are_not_the_same() {
        let (mut one, mut other) = ([0; 32], [0; 32]);
        assert_eq!(fill(&mut one), Ok(()));
        assert_eq!(fill(&mut other), Ok(()));
        assert_ne!(one, [0; 32]);
        assert_ne!(one, other);
    }
}
