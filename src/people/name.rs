//! Names, their salts, and commitments to them.

use std::str::FromStr;

use crate::units::Digest;

/// The longest name, in characters.
const NAME_MOST: usize = 120;

/// A person's name as it is printed: one line, 1 to 120 characters, no control characters, no spaces around it.
///
/// Cannot be printed for debugging, so that it does not reach a log.
#[derive(Clone, PartialEq, Eq)]
pub struct Name(String);

/// Why a text is no name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NameProblem {
    /// It is empty.
    Empty,
    /// It has too many characters. Holds how many are allowed.
    TooLong(usize),
    /// It holds a character that does not show, or that turns the direction of writing.
    Character,
}

/// Random bytes that hide a name in its commitment: 256 bits.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Salt(pub [u8; 32]);

impl FromStr for Name {
    type Err = NameProblem;

    fn from_str(text: &str) -> Result<Name, NameProblem> {
        let text = text.trim();
        if text.is_empty() {
            return Err(NameProblem::Empty);
        }
        if text.chars().count() > NAME_MOST {
            return Err(NameProblem::TooLong(NAME_MOST));
        }
        let hidden = |c: char| {
            c.is_control()
                || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
        };
        if text.chars().any(hidden) {
            return Err(NameProblem::Character);
        }
        Ok(Name(text.to_owned()))
    }
}

impl Name {
    /// The name as it is printed.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The commitment to the name: SHA-256 of a label, the salt and the name's UTF-8 bytes.
    #[must_use]
    pub fn commitment(&self, salt: &Salt) -> Digest {
        Digest::of(&[&self.opening(salt)])
    }

    /// The bytes that the commitment is the digest of: whoever has them can show the name.
    #[must_use]
    pub fn opening(&self, salt: &Salt) -> Vec<u8> {
        [b"drybench name 1\n", salt.0.as_slice(), self.0.as_bytes()].concat()
    }
}
