//! What a laboratory's use cases need of the place where its record is kept.

use std::path::{Path, PathBuf};

use crate::app::System;
use crate::app::fault::Fault;
use crate::people::{Name, Passphrase, Register, Salt};
use crate::record::log::{Log, Trouble};
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::record::signature::{KeyId, SecretKey};
use crate::units::{Digest, Stamp};

/// The folder of the record inside the folder for data.
const FOLDER: &str = "laboratory";

/// The folder that the record is kept in; `data` is the folder for data, if not the system's.
///
/// # Errors
///
/// There is no folder for data, and none can be made.
pub fn folder<S: System>(system: &S, data: Option<&Path>) -> Result<PathBuf, Fault> {
    Ok(system.data_folder(data)?.join(FOLDER))
}

/// A record with what belongs to it: remembered heads, names, keys, attachments, a clock.
pub trait Place {
    /// The entries.
    fn log(&self) -> &dyn Log;

    /// The entries, to append to.
    fn log_mut(&mut self) -> &mut dyn Log;

    /// The heads that are remembered outside the log.
    ///
    /// # Errors
    ///
    /// They cannot be read.
    fn heads(&self) -> Result<Vec<(Id, u64, Seal)>, Trouble>;

    /// Brings the remembered heads up to the log, where it goes on from them.
    ///
    /// # Errors
    ///
    /// They cannot be read or written.
    fn follow(&self) -> Result<(), Trouble>;

    /// Takes the log as it is for what is remembered: only after a restore was declared.
    ///
    /// # Errors
    ///
    /// They cannot be written.
    fn renew(&self) -> Result<(), Trouble>;

    /// Names by code.
    ///
    /// # Errors
    ///
    /// They cannot be read.
    fn register(&self) -> Result<Register, Trouble>;

    /// Keeps names by code, and forgets for good what is no longer among them.
    ///
    /// # Errors
    ///
    /// They cannot be written.
    fn keep_register(&mut self, register: &Register) -> Result<(), Trouble>;

    /// What the laboratory is called; none before it is founded.
    ///
    /// # Errors
    ///
    /// It cannot be read.
    fn title(&self) -> Result<Option<Title>, Trouble>;

    /// Keeps what the laboratory is called.
    ///
    /// # Errors
    ///
    /// It cannot be written.
    fn keep_title(&mut self, title: &Title) -> Result<(), Trouble>;

    /// The private key with this fingerprint.
    ///
    /// # Errors
    ///
    /// There is none here, the passphrase is another, or it cannot be read.
    fn key(&self, id: KeyId, passphrase: &Passphrase) -> Result<SecretKey, KeyProblem>;

    /// Keeps a new private key under a passphrase.
    ///
    /// # Errors
    ///
    /// It cannot be written.
    fn keep_key(&mut self, key: &SecretKey, passphrase: &Passphrase) -> Result<(), KeyProblem>;

    /// Keeps a private key under another passphrase.
    ///
    /// # Errors
    ///
    /// There is none here, the old passphrase is another, or it cannot be written.
    fn change_passphrase(
        &mut self,
        id: KeyId,
        old: &Passphrase,
        new: &Passphrase,
    ) -> Result<(), KeyProblem>;

    /// Keeps what is too long or too personal for an entry, and says by which digest.
    ///
    /// # Errors
    ///
    /// It cannot be written.
    fn attach(&mut self, content: &[u8], keeping: Keeping) -> Result<Digest, Trouble>;

    /// What was attached under a digest; none where it was erased or never was.
    ///
    /// # Errors
    ///
    /// It cannot be read, or is no longer what was attached.
    fn attached(&self, digest: &Digest) -> Result<Option<Vec<u8>>, Trouble>;

    /// Rows whose columns do not fit their bytes, by strand and number: what verification of the bytes alone would not see.
    ///
    /// # Errors
    ///
    /// They cannot be read.
    fn misfiled(&self) -> Result<Vec<(String, i64)>, Trouble>;

    /// Copies everything, as it stands at one instant, to a new folder, and looks the copy through. Says the digest of the copied record.
    ///
    /// # Errors
    ///
    /// The name is taken, something cannot be read or written, or the copy differs. Then there is no copy.
    fn copy_to(&self, to: &Path) -> Result<Digest, CopyProblem>;

    /// Now, by the clock of the machine, or by the time that was set.
    fn now(&self) -> Stamp;

    /// From now on time goes on from here: for the demonstration, which stays in the days of its story.
    fn go_on_from(&mut self, now: Stamp);

    /// Random bytes that nobody can guess.
    ///
    /// # Errors
    ///
    /// The machine has none.
    fn random(&self, bytes: &mut [u8]) -> Result<(), Trouble>;

    /// The seed of a new private key: random bytes that nobody can guess.
    ///
    /// Apart from [`Place::random`], because the demonstration hands out seeds that everybody knows, so that its keys are refused elsewhere;
    /// its salts and codes are drawn as anywhere.
    ///
    /// # Errors
    ///
    /// The machine has no random bytes, or the demonstration no more keys.
    fn key_seed(&self) -> Result<[u8; 32], Trouble> {
        let mut seed = [0; 32];
        self.random(&mut seed)?;
        Ok(seed)
    }
}

/// What a laboratory is called, and at which workstation.
#[derive(Clone, PartialEq, Eq)]
pub struct Title {
    /// Its name.
    pub name: Name,
    /// Random bytes that hide the name in its commitment.
    pub salt: Salt,
    /// The workstation, which its strand is named after.
    pub workstation: Id,
}

/// How long an attachment is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// As long as the record: module texts, declarations.
    Kept,
    /// Until it is erased: rehearsals, remarks, times.
    Erasable,
}

/// Why there is no copy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CopyProblem {
    /// There is something of that name already. Nothing is ever overwritten.
    Taken,
    /// Reading or writing failed.
    Trouble(Trouble),
    /// The copy is not what was copied.
    Differs,
}

/// Why a private key cannot be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyProblem {
    /// There is none with this fingerprint here.
    Missing,
    /// The passphrase is another.
    Refused,
    /// The file is no key.
    Damaged,
    /// The file holds another key than its name says.
    OtherKey,
    /// The machine refused.
    Trouble(Trouble),
}
