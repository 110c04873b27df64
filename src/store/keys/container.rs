//! The text of a key file: PEM around PKCS#8 `EncryptedPrivateKeyInfo` (RFC 5958), encrypted by PBES2 (RFC 8018) with scrypt (RFC 7914) and
//! AES-256-CBC. Inside stands the private key alone, as in RFC 8410, section 7, without the public one: common tools do not read it with both.
//!
//! What the libraries keep in between (the derived key, scrypt's memory) is not wiped by them; everything that passes here is.

use pkcs8::der::pem::PemLabel as _;
use pkcs8::der::{Decode as _, Document, asn1::OctetString};
use pkcs8::pkcs5::EncryptionScheme;
use pkcs8::pkcs5::pbes2::{EncryptionScheme as Cipher, Kdf, Parameters, Salt, ScryptParams};
use pkcs8::{EncryptedPrivateKeyInfoOwned, LineEnding};
use zeroize::Zeroizing;

use crate::people::Passphrase;
use crate::record::signature::SecretKey;

/// What stands before the seed in an unencrypted key: version 0, the algorithm 1.3.101.112, an octet string in an octet string. Source: RFC 8410,
/// sections 3 and 7, and the example in 10.3.
const BEFORE_SEED: [u8; 16] = [
    0x30, 0x2e, 0x02, 0x01, 0x00, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x04, 0x22, 0x04, 0x20,
];
/// An unencrypted key, in bytes.
const PLAIN: usize = BEFORE_SEED.len() + 32;
/// An encrypted one: a whole block of padding is added.
const ENCRYPTED: usize = PLAIN + 16;

/// So much memory may opening a file take, in bytes: as much as the `openssl` command grants by default. From memory, and tried.
const MEMORY_MOST: u64 = 32 << 20;
/// So many rounds over that memory. Our default.
const ROUNDS_MOST: u16 = 16;

/// How much work a guess costs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cost {
    /// scrypt's N, a power of two: memory is N · r · 128 bytes.
    pub(super) n: u64,
    /// scrypt's r.
    pub(super) r: u16,
    /// scrypt's p.
    pub(super) p: u16,
}

impl Cost {
    /// 16 MiB, gone through five times. The `openssl` command refuses 32 MiB with what comes on top by default, so N can not be larger; p makes up for that. OWASP's list for storing passwords names this very set as one of equal strength with
    /// N = 2^17, p = 1. From memory.
    pub(super) const OURS: Cost = Cost {
        n: 1 << 14,
        r: 8,
        p: 5,
    };
}

/// A key file that was read and not opened yet.
#[derive(Debug)]
pub(super) struct Locked {
    parameters: Parameters,
    encrypted: [u8; ENCRYPTED],
}

/// Encrypts a key. `random` must be fresh each time: the salt, then the first vector. None where the libraries refuse, which nothing here makes them do.
pub(super) fn lock(
    secret: &SecretKey,
    passphrase: &Passphrase,
    random: &[u8; 32],
    cost: Cost,
) -> Option<String> {
    let (salt, iv) = random.split_at(16);
    let scrypt = ScryptParams {
        salt: Salt::new(salt).ok()?,
        cost_parameter: cost.n,
        block_size: cost.r,
        parallelization: cost.p,
        key_length: None,
    };
    let parameters = Parameters {
        kdf: Kdf::Scrypt(scrypt),
        encryption: Cipher::Aes256Cbc {
            iv: iv.try_into().ok()?,
        },
    };
    let mut buffer = Zeroizing::new([0; ENCRYPTED]);
    buffer[..BEFORE_SEED.len()].copy_from_slice(&BEFORE_SEED);
    buffer[BEFORE_SEED.len()..PLAIN].copy_from_slice(&*secret.seed());
    let encrypted = parameters
        .encrypt_in_place(passphrase.bytes(), &mut *buffer, PLAIN)
        .ok()?;
    text(&parameters, encrypted)
}

/// The text of a file. One key with one salt has one text.
fn text(parameters: &Parameters, encrypted: &[u8]) -> Option<String> {
    let info = EncryptedPrivateKeyInfoOwned {
        encryption_algorithm: EncryptionScheme::from(parameters.clone()),
        encrypted_data: OctetString::new(encrypted).ok()?,
    };
    let document = Document::encode_msg(&info).ok()?;
    let label = EncryptedPrivateKeyInfoOwned::PEM_LABEL;
    document.to_pem(label, LineEnding::LF).ok()
}

impl Locked {
    /// Reads a file. None where it is anything but a key encrypted in this way, byte for byte as [`lock`] or the `openssl` command writes it.
    ///
    /// Costs beyond what is granted are refused here, before anything is computed: the file says them itself.
    pub(super) fn read(file: &[u8]) -> Option<Locked> {
        let pem = std::str::from_utf8(file).ok()?;
        let (label, document) = Document::from_pem(pem).ok()?;
        if label != EncryptedPrivateKeyInfoOwned::PEM_LABEL {
            return None;
        }
        let info = EncryptedPrivateKeyInfoOwned::from_der(document.as_bytes()).ok()?;
        let EncryptionScheme::Pbes2(parameters) = info.encryption_algorithm else {
            return None;
        };
        let scrypt = parameters.kdf.scrypt()?;
        let (n, r) = (scrypt.cost_parameter, u64::from(scrypt.block_size));
        let granted = n.is_power_of_two()
            && n > 1
            && (1..=ROUNDS_MOST).contains(&scrypt.parallelization)
            && r > 0
            && n.checked_mul(r * 128)
                .is_some_and(|memory| memory <= MEMORY_MOST);
        let ciphered = matches!(parameters.encryption, Cipher::Aes256Cbc { .. });
        let encrypted: [u8; ENCRYPTED] = info.encrypted_data.as_bytes().try_into().ok()?;
        // Whatever a lenient reader let pass is seen here.
        let same = text(&parameters, &encrypted).is_some_and(|text| text == pem);
        (granted && ciphered && same).then_some(Locked {
            parameters,
            encrypted,
        })
    }

    /// Decrypts the key. None where the passphrase does not fit.
    ///
    /// The encryption does not show changes by itself: where the seed was hit, another key comes out, and its fingerprint shows that.
    pub(super) fn open(&self, passphrase: &Passphrase) -> Option<SecretKey> {
        let mut buffer = Zeroizing::new(self.encrypted);
        let plain = self
            .parameters
            .decrypt_in_place(passphrase.bytes(), &mut *buffer)
            .ok()?;
        let seed = plain.strip_prefix(&BEFORE_SEED)?;
        seed.try_into().ok().map(SecretKey::from_seed)
    }
}

#[cfg(test)]
mod tests;
