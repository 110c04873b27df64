//! Signatures by persons: Ed25519 (RFC 8032), verified strictly.
//!
//! Strictly: the scalar is below the order of the group, and neither the key nor the point of the signature is of small order, so
//! that one signature fits one text and one key. Left out: where keys are kept, passphrases, random bytes.

use std::fmt;
use std::str::FromStr;

use ed25519_dalek::{Signer as _, SigningKey, VerifyingKey};
use zeroize::Zeroizing;

use crate::units::{Digest, NoHex, from_hex, write_hex};

/// A public key that signatures can be verified with. Never one of small order.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct PublicKey(VerifyingKey);

/// The fingerprint of a public key: the SHA-256 digest of its 32 bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KeyId(pub Digest);

/// A signature: 64 bytes, printed in hexadecimal digits.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Signature([u8; 64]);

/// A private key. Wiped from memory when it is dropped.
pub struct SecretKey(SigningKey);

impl PublicKey {
    /// Reads a key of 32 bytes. Returns none for bytes that are no point of the curve, and for weak keys.
    #[must_use]
    pub fn from_bytes(bytes: &[u8; 32]) -> Option<PublicKey> {
        let key = VerifyingKey::from_bytes(bytes).ok()?;
        (!key.is_weak()).then_some(PublicKey(key))
    }

    /// The 32 bytes of the key.
    #[must_use]
    pub fn bytes(&self) -> &[u8; 32] {
        self.0.as_bytes()
    }

    /// The key's fingerprint.
    #[must_use]
    pub fn id(&self) -> KeyId {
        KeyId(Digest::of(&[self.bytes()]))
    }

    /// Tells whether the signature was made of these bytes with this key.
    #[must_use]
    pub fn verifies(&self, bytes: &[u8], signature: &Signature) -> bool {
        let signature = ed25519_dalek::Signature::from_bytes(&signature.0);
        self.0.verify_strict(bytes, &signature).is_ok()
    }
}

impl Signature {
    /// What stands in the place of a signature before there is one. No key has made it of anything.
    pub const NONE: Signature = Signature([0; 64]);
}

impl SecretKey {
    /// The key that grows from a seed of 32 random bytes.
    #[must_use]
    pub fn from_seed(seed: &[u8; 32]) -> SecretKey {
        SecretKey(SigningKey::from_bytes(seed))
    }

    /// The seed that the key grows from: what has to be kept to have the key again. Wiped when it is dropped.
    #[must_use]
    pub fn seed(&self) -> Zeroizing<[u8; 32]> {
        Zeroizing::new(*self.0.as_bytes())
    }

    /// The public half.
    #[must_use]
    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key())
    }

    /// Signs these bytes.
    #[must_use]
    pub fn sign(&self, bytes: &[u8]) -> Signature {
        Signature(self.0.sign(bytes).to_bytes())
    }
}

impl fmt::Debug for SecretKey {
    /// Says which key it is and nothing of what is secret.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the private half of {}", self.public().id().0)
    }
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

impl fmt::Display for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_hex(self.bytes(), f)
    }
}

impl FromStr for PublicKey {
    type Err = NoHex;

    fn from_str(text: &str) -> Result<PublicKey, NoHex> {
        PublicKey::from_bytes(&from_hex(text)?).ok_or(NoHex)
    }
}

impl fmt::Debug for Signature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

impl fmt::Display for Signature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_hex(&self.0, f)
    }
}

impl FromStr for Signature {
    type Err = NoHex;

    fn from_str(text: &str) -> Result<Signature, NoHex> {
        from_hex(text).map(Signature)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seed, public key, message, signature.
    type Vector = (&'static str, &'static str, &'static [u8], &'static str);

    // RFC 8032, section 7.1: tests 1, 2, 3 and SHA(abc).
    const VECTORS: [Vector; 4] = [
        (
            "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
            "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
            b"",
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
        ),
        (
            "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
            b"\x72",
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        ),
        (
            "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
            "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
            b"\xaf\x82",
            "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
        ),
        (
            "833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42",
            "ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf",
            &[
                0xdd, 0xaf, 0x35, 0xa1, 0x93, 0x61, 0x7a, 0xba, 0xcc, 0x41, 0x73, 0x49, 0xae, 0x20,
                0x41, 0x31, 0x12, 0xe6, 0xfa, 0x4e, 0x89, 0xa9, 0x7e, 0xa2, 0x0a, 0x9e, 0xee, 0xe6,
                0x4b, 0x55, 0xd3, 0x9a, 0x21, 0x92, 0x99, 0x2a, 0x27, 0x4f, 0xc1, 0xa8, 0x36, 0xba,
                0x3c, 0x23, 0xa3, 0xfe, 0xeb, 0xbd, 0x45, 0x4d, 0x44, 0x23, 0x64, 0x3c, 0xe8, 0x0e,
                0x2a, 0x9a, 0xc9, 0x4f, 0xa5, 0x4c, 0xa4, 0x9f,
            ],
            "dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704",
        ),
    ];

    #[test]
    fn published_keys_and_signatures_come_out() {
        for (seed, public, message, signature) in VECTORS {
            let secret = SecretKey::from_seed(&from_hex(seed).unwrap());
            assert_eq!(secret.public().to_string(), public);
            assert_eq!(secret.sign(message).to_string(), signature);
            assert_eq!(crate::units::hex(&*secret.seed()), seed);
            let public: PublicKey = public.parse().unwrap();
            assert!(public.verifies(message, &signature.parse().unwrap()));
        }
    }

    #[test]
    fn any_bit_changed_anywhere_is_noticed() {
        for (_, public, message, signature) in VECTORS {
            let (key, signed): (PublicKey, Signature) =
                (public.parse().unwrap(), signature.parse().unwrap());
            for bit in 0..512 {
                let mut wrong = signed;
                wrong.0[bit / 8] ^= 1 << (bit % 8);
                assert!(!key.verifies(message, &wrong), "bit {bit} of the signature");
            }
            for bit in 0..message.len() * 8 {
                let mut wrong = message.to_vec();
                wrong[bit / 8] ^= 1 << (bit % 8);
                assert!(!key.verifies(&wrong, &signed), "bit {bit} of the message");
            }
            for bit in 0..256 {
                let mut wrong: [u8; 32] = from_hex(public).unwrap();
                wrong[bit / 8] ^= 1 << (bit % 8);
                let held = PublicKey::from_bytes(&wrong)
                    .is_some_and(|wrong| wrong.verifies(message, &signed));
                assert!(!held, "bit {bit} of the key");
            }
        }
    }

    // RFC 8032, section 5.1.7: S must be below the order L = 2^252 + 27742317777372353535851937790883648493 (section 5.1).
    #[test]
    fn a_scalar_beyond_the_order_is_refused() {
        let order: [u8; 32] =
            from_hex("edd3f55c1a631258d69cf7a2def9de1400000000000000000000000000000010").unwrap();
        for (_, public, message, signature) in VECTORS {
            let mut wrong: Signature = signature.parse().unwrap();
            let mut carry = 0_u16;
            for (byte, more) in wrong.0[32..].iter_mut().zip(order) {
                let sum = u16::from(*byte) + u16::from(more) + carry;
                *byte = sum.to_le_bytes()[0];
                carry = sum >> 8;
            }
            let public: PublicKey = public.parse().unwrap();
            assert!(!public.verifies(message, &wrong));
        }
    }

    // A point of order 1 is a valid encoding, and a key that any signature could be made for.
    #[test]
    fn weak_keys_are_refused() {
        let mut identity = [0; 32];
        identity[0] = 1;
        assert_eq!(PublicKey::from_bytes(&identity), None);
        assert_eq!(PublicKey::from_bytes(&[0; 32]), None);
    }

    #[test]
    fn a_private_key_is_not_printed() {
        let secret = SecretKey::from_seed(&[7; 32]);
        assert!(!format!("{secret:?}").contains("0707"));
    }
}
