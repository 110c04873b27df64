//! A fingerprint of bytes: 32 bytes of SHA-256 (FIPS 180-4), printed as 64 hexadecimal digits.

use std::fmt;
use std::str::FromStr;

use sha2::{Digest as _, Sha256};

/// A SHA-256 digest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest(pub [u8; 32]);

/// Why a text is no row of so many bytes in hexadecimal digits of lower case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoHex;

impl Digest {
    /// The digest of several pieces, one after the other.
    #[must_use]
    pub fn of(pieces: &[&[u8]]) -> Digest {
        let mut hash = Sha256::new();
        for piece in pieces {
            hash.update(piece);
        }
        Digest(hash.finalize().into())
    }
}

/// Writes bytes as hexadecimal digits of lower case.
#[must_use]
pub fn hex(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(2 * bytes.len());
    // Writing to a string cannot fail.
    let _written = write_hex(bytes, &mut text);
    text
}

/// Writes bytes as hexadecimal digits of lower case, without a text in between.
///
/// # Errors
///
/// Those of what is written to.
pub fn write_hex(bytes: &[u8], to: &mut impl fmt::Write) -> fmt::Result {
    let digit = |value: u8| b"0123456789abcdef"[usize::from(value)];
    for some in bytes.chunks(32) {
        let mut digits = [0; 64];
        for (pair, byte) in digits.chunks_exact_mut(2).zip(some) {
            pair.copy_from_slice(&[digit(byte >> 4), digit(byte & 15)]);
        }
        let text = std::str::from_utf8(&digits[..2 * some.len()]);
        to.write_str(text.map_err(|_| fmt::Error)?)?;
    }
    Ok(())
}

/// What stands for a byte that is no digit.
const NO_DIGIT: u8 = 0xff;

/// The value of each byte as a digit.
const VALUES: [u8; 256] = {
    let mut values = [NO_DIGIT; 256];
    let mut value = 0;
    while value < 16 {
        values[b"0123456789abcdef"[value as usize] as usize] = value;
        value += 1;
    }
    values
};

/// Reads exactly `N` bytes from hexadecimal digits of lower case.
///
/// # Errors
///
/// [`NoHex`] where the text has other characters or another length.
pub fn from_hex<const N: usize>(text: &str) -> Result<[u8; N], NoHex> {
    let text = text.as_bytes();
    if text.len() != 2 * N {
        return Err(NoHex);
    }
    let mut bytes = [0; N];
    let mut seen = 0;
    for (byte, pair) in bytes.iter_mut().zip(text.chunks_exact(2)) {
        let (high, low) = (VALUES[usize::from(pair[0])], VALUES[usize::from(pair[1])]);
        seen |= high | low;
        *byte = high << 4 | low & 15;
    }
    // Looked at once: a record holds a dozen such texts in every entry.
    if seen == NO_DIGIT {
        Err(NoHex)
    } else {
        Ok(bytes)
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_hex(&self.0, f)
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

impl FromStr for Digest {
    type Err = NoHex;

    fn from_str(text: &str) -> Result<Digest, NoHex> {
        from_hex(text).map(Digest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Messages of FIPS 180-2, appendix B, and of RFC 6234, section 8.5 (the empty one from the NIST example values).
    #[test]
    fn published_digests_come_out() {
        let many = "a".repeat(1_000_000);
        for (message, digest) in [
            (
                "",
                "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
            ),
            (
                "abc",
                "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
            ),
            (
                "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
            ),
            (
                "abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu",
                "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1",
            ),
            (
                many.as_str(),
                "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
            ),
        ] {
            assert_eq!(Digest::of(&[message.as_bytes()]).to_string(), digest);
        }
        assert_eq!(Digest::of(&[b"a", b"", b"bc"]), Digest::of(&[b"abc"]));
    }

    #[test]
    fn only_lower_case_digits_of_the_right_number_are_read() {
        assert_eq!(from_hex::<2>("0aff"), Ok([10, 255]));
        for text in ["0Aff", "0aff0", "0af", "0afg", ""] {
            assert_eq!(from_hex::<2>(text), Err(NoHex), "{text}");
        }
    }
}
