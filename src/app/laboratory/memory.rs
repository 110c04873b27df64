//! A place in memory, with a clock that is set: for the demonstration and for tests.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::path::Path;

use super::invented::{KEYS_MOST, demonstration_seed};
use super::place::{CopyProblem, Keeping, KeyProblem, Place, Title};
use crate::people::{Passphrase, Register};
use crate::record::log::{Log, MemoryLog, Trouble};
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::record::signature::{KeyId, SecretKey};
use crate::units::{Digest, Stamp};

/// Where random bytes come from that are the same every time.
pub type Dice = Box<dyn Fn(&mut [u8]) + Send>;

/// A record in memory. Its passphrases are kept as they are: nothing here is secret.
pub struct MemoryPlace {
    log: MemoryLog,
    heads: RefCell<Vec<(Id, u64, Seal)>>,
    register: Register,
    title: Option<Title>,
    keys: BTreeMap<KeyId, ([u8; 32], Vec<u8>)>,
    attached: BTreeMap<Digest, (Vec<u8>, Keeping)>,
    now: Cell<Stamp>,
    dice: Dice,
    /// How many keys of the demonstration were handed out; none where keys are drawn by the dice.
    known_keys: Option<Cell<u8>>,
}

impl MemoryPlace {
    /// An empty place at a time.
    #[must_use]
    pub fn new(now: Stamp, dice: Dice) -> MemoryPlace {
        MemoryPlace {
            log: MemoryLog::new(),
            heads: RefCell::default(),
            register: Register::new(),
            title: None,
            keys: BTreeMap::new(),
            attached: BTreeMap::new(),
            now: Cell::new(now),
            dice,
            known_keys: None,
        }
    }

    /// An empty place for the demonstration: its keys are those that everybody knows, the first first.
    #[must_use]
    pub fn demonstration(now: Stamp, dice: Dice) -> MemoryPlace {
        MemoryPlace {
            known_keys: Some(Cell::new(0)),
            ..MemoryPlace::new(now, dice)
        }
    }

    /// From now on it is this time, until it is set again.
    pub fn set(&self, now: Stamp) {
        self.now.set(now);
    }

    /// Every key with its passphrase.
    pub fn keys(&self) -> impl Iterator<Item = (SecretKey, &[u8])> {
        self.keys
            .values()
            .map(|(seed, passphrase)| (SecretKey::from_seed(seed), passphrase.as_slice()))
    }

    /// Everything that was attached.
    pub fn attachments(&self) -> impl Iterator<Item = (&[u8], Keeping)> {
        self.attached
            .values()
            .map(|(content, keeping)| (content.as_slice(), *keeping))
    }
}

impl Place for MemoryPlace {
    fn log(&self) -> &dyn Log {
        &self.log
    }

    fn log_mut(&mut self) -> &mut dyn Log {
        &mut self.log
    }

    fn heads(&self) -> Result<Vec<(Id, u64, Seal)>, Trouble> {
        Ok(self.heads.borrow().clone())
    }

    fn follow(&self) -> Result<(), Trouble> {
        self.renew()
    }

    fn renew(&self) -> Result<(), Trouble> {
        let mut heads = Vec::new();
        for strand in self.log.strands()? {
            if let Some(head) = self.log.head(&strand)? {
                heads.push((strand, head.number, head.seal));
            }
        }
        self.heads.replace(heads);
        Ok(())
    }

    fn register(&self) -> Result<Register, Trouble> {
        Ok(self.register.clone())
    }

    fn keep_register(&mut self, register: &Register) -> Result<(), Trouble> {
        self.register = register.clone();
        Ok(())
    }

    fn title(&self) -> Result<Option<Title>, Trouble> {
        Ok(self.title.clone())
    }

    fn keep_title(&mut self, title: &Title) -> Result<(), Trouble> {
        self.title = Some(title.clone());
        Ok(())
    }

    fn key(&self, id: KeyId, passphrase: &Passphrase) -> Result<SecretKey, KeyProblem> {
        let (seed, right) = self.keys.get(&id).ok_or(KeyProblem::Missing)?;
        if right == passphrase.bytes() {
            Ok(SecretKey::from_seed(seed))
        } else {
            Err(KeyProblem::Refused)
        }
    }

    fn keep_key(&mut self, key: &SecretKey, passphrase: &Passphrase) -> Result<(), KeyProblem> {
        let kept = (*key.seed(), passphrase.bytes().to_vec());
        self.keys.insert(key.public().id(), kept);
        Ok(())
    }

    fn change_passphrase(
        &mut self,
        id: KeyId,
        old: &Passphrase,
        new: &Passphrase,
    ) -> Result<(), KeyProblem> {
        let key = self.key(id, old)?;
        self.keep_key(&key, new)
    }

    fn attach(&mut self, content: &[u8], keeping: Keeping) -> Result<Digest, Trouble> {
        let digest = Digest::of(&[content]);
        self.attached.insert(digest, (content.to_vec(), keeping));
        Ok(digest)
    }

    fn attached(&self, digest: &Digest) -> Result<Option<Vec<u8>>, Trouble> {
        Ok(self
            .attached
            .get(digest)
            .map(|(content, _)| content.clone()))
    }

    fn misfiled(&self) -> Result<Vec<(String, i64)>, Trouble> {
        // There are no columns beside the bytes.
        Ok(Vec::new())
    }

    fn copy_to(&self, _to: &Path) -> Result<Digest, CopyProblem> {
        // Memory has no folders.
        Err(CopyProblem::Trouble(Trouble::Unreachable))
    }

    fn now(&self) -> Stamp {
        self.now.get()
    }

    fn go_on_from(&mut self, now: Stamp) {
        self.set(now);
    }

    fn random(&self, bytes: &mut [u8]) -> Result<(), Trouble> {
        (self.dice)(bytes);
        Ok(())
    }

    fn key_seed(&self) -> Result<[u8; 32], Trouble> {
        let Some(known) = &self.known_keys else {
            return super::founding::random(self);
        };
        let number = known.get();
        if number >= KEYS_MOST {
            return Err(Trouble::Full);
        }
        known.set(number + 1);
        Ok(demonstration_seed(number))
    }
}
