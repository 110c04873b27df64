//! Seals: the digest that an entry is known by.

use std::fmt;
use std::str::FromStr;

use crate::units::{Digest, NoHex};

/// The seal of an entry: SHA-256(0x00 ‖ its canonical bytes).
///
/// That is also the hash of a leaf in the tree of RFC 9162 (section 2.1.1), so that an entry has one value in the chain, in the tree and
/// wherever another entry names it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Seal(pub Digest);

impl Seal {
    /// What stands in the place of a previous seal in the first entry of a strand.
    pub const NONE: Seal = Seal(Digest([0; 32]));

    /// The seal of an entry's canonical bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Seal {
        Seal(Digest::of(&[&[0], bytes]))
    }
}

impl fmt::Display for Seal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl fmt::Debug for Seal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl FromStr for Seal {
    type Err = NoHex;

    fn from_str(text: &str) -> Result<Seal, NoHex> {
        text.parse().map(Seal)
    }
}
