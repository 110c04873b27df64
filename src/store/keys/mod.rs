//! Private keys, one file each, named by the key's fingerprint and encrypted by its owner's passphrase.
//!
//! A file is PEM that the `openssl` command opens too (`openssl pkey -in FILE`), so that a key is not bound to this program. How it is made stands in
//! `container`.

mod container;

use std::fs;
use std::path::{Path, PathBuf};

use super::whole::{self, Reader};
use crate::people::Passphrase;
use crate::record::log::Trouble;
use crate::record::signature::{KeyId, SecretKey};
use container::{Cost, Locked};

const EXTENSION: &str = ".pem";
/// Far longer than any key file, in bytes.
const LONGEST: u64 = 16 << 10;

/// A folder of private keys. On Unix nobody but the owner of the files can read them.
#[derive(Clone, Debug)]
pub struct KeyFolder {
    path: PathBuf,
}

/// Why there is no key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyProblem {
    /// There is no file of that key.
    Missing,
    /// There is a file of that key already. Nothing is overwritten.
    Taken,
    /// The passphrase does not open it. A file that was damaged within the encrypted part can look the same.
    Refused,
    /// The file is no key file, or not as one is written.
    Damaged,
    /// The file holds another key than its name says: it was renamed, or damaged.
    OtherKey,
    /// Reading or writing failed.
    Trouble(Trouble),
}

impl KeyFolder {
    /// The keys in this folder. It need not be there yet.
    #[must_use]
    pub fn at(path: &Path) -> KeyFolder {
        KeyFolder {
            path: path.to_owned(),
        }
    }

    /// Where it is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Keeps a new key, encrypted. Makes the folder where it is missing. Once this has returned the key survives a power cut.
    ///
    /// # Errors
    ///
    /// [`KeyProblem::Taken`], or the folder refuses. Then there is no new file.
    pub fn make(&self, secret: &SecretKey, passphrase: &Passphrase) -> Result<KeyId, KeyProblem> {
        let id = secret.public().id();
        let file = locked(secret, passphrase)?;
        self.take(id, file.as_bytes())?;
        Ok(id)
    }

    /// Opens a key. Takes as long as the encryption is meant to take: some tenths of a second.
    ///
    /// # Errors
    ///
    /// As [`KeyProblem`] says. What is returned is the key of that fingerprint and no other.
    pub fn open(&self, id: KeyId, passphrase: &Passphrase) -> Result<SecretKey, KeyProblem> {
        let locked = Locked::read(&self.read(id)?).ok_or(KeyProblem::Damaged)?;
        let secret = locked.open(passphrase).ok_or(KeyProblem::Refused)?;
        if secret.public().id() == id {
            Ok(secret)
        } else {
            Err(KeyProblem::OtherKey)
        }
    }

    /// Encrypts a key anew under another passphrase. The key stays the same.
    ///
    /// The old file is replaced, not overwritten: whoever has a copy of it (a backup, a disk that was not wiped) opens it with the old passphrase.
    ///
    /// # Errors
    ///
    /// The old passphrase does not open it, or as [`KeyProblem`] says. The old file is whole then.
    pub fn change(&self, id: KeyId, old: &Passphrase, new: &Passphrase) -> Result<(), KeyProblem> {
        let secret = self.open(id, old)?;
        let file = locked(&secret, new)?;
        whole::replace(&self.file(id), file.as_bytes(), Reader::Owner).map_err(KeyProblem::Trouble)
    }

    /// The keys that there are files of, in order. Whether they can be opened is not looked at.
    ///
    /// # Errors
    ///
    /// The folder cannot be read. One that is missing is empty.
    pub fn list(&self) -> Result<Vec<KeyId>, Trouble> {
        let names = whole::names_in(&self.path)?;
        let key = |name: &String| Some(KeyId(name.strip_suffix(EXTENSION)?.parse().ok()?));
        let mut keys: Vec<KeyId> = names.iter().filter_map(key).collect();
        keys.sort_unstable();
        Ok(keys)
    }

    /// Tells whether there is a file of that key.
    ///
    /// # Errors
    ///
    /// The folder cannot be looked into.
    pub fn has(&self, id: KeyId) -> Result<bool, Trouble> {
        fs::exists(self.file(id)).map_err(|error| whole::trouble(&error))
    }

    /// The bytes of a key file that is one, as far as can be seen without its passphrase.
    pub(super) fn encrypted(&self, id: KeyId) -> Result<Vec<u8>, KeyProblem> {
        let file = self.read(id)?;
        match Locked::read(&file) {
            Some(_) => Ok(file),
            None => Err(KeyProblem::Damaged),
        }
    }

    /// Keeps an encrypted key under a fingerprint that is free.
    pub(super) fn take(&self, id: KeyId, encrypted: &[u8]) -> Result<(), KeyProblem> {
        whole::private_folder(&self.path).map_err(KeyProblem::Trouble)?;
        match whole::create(&self.file(id), encrypted, Reader::Owner) {
            Ok(true) => Ok(()),
            Ok(false) => Err(KeyProblem::Taken),
            Err(trouble) => Err(KeyProblem::Trouble(trouble)),
        }
    }

    fn file(&self, id: KeyId) -> PathBuf {
        self.path.join(format!("{}{EXTENSION}", id.0))
    }

    fn read(&self, id: KeyId) -> Result<Vec<u8>, KeyProblem> {
        match whole::read(&self.file(id), LONGEST) {
            Ok(file) => file.ok_or(KeyProblem::Missing),
            Err(Trouble::Damaged) => Err(KeyProblem::Damaged),
            Err(trouble) => Err(KeyProblem::Trouble(trouble)),
        }
    }
}

fn locked(secret: &SecretKey, passphrase: &Passphrase) -> Result<String, KeyProblem> {
    let mut random = [0; 32];
    // A system without random bytes is one that cannot be reached.
    getrandom::fill(&mut random).map_err(|_| KeyProblem::Trouble(Trouble::Unreachable))?;
    container::lock(secret, passphrase, &random, Cost::OURS).ok_or(KeyProblem::Damaged)
}

#[cfg(test)]
mod tests;
