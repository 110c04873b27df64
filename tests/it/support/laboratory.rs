//! A laboratory's real folder under a clock and dice that a test holds: the demonstration, or an empty one.

#![expect(
    clippy::disallowed_methods,
    reason = "a laboratory in a real folder is copied"
)]

use std::cell::Cell;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use drybench::app::demonstration::write_into;
use drybench::app::laboratory::{CopyProblem, Keeping, KeyProblem, Place, Title};
use drybench::os::{Folder, Machine};
use drybench::people::{Passphrase, Register};
use drybench::record::log::{Log, Trouble};
use drybench::record::scope::Id;
use drybench::record::seal::Seal;
use drybench::record::signature::{KeyId, SecretKey};
use drybench::text::Words;
use drybench::units::{Digest, Stamp};
use tempfile::TempDir;

use super::machine::TestMachine;

/// The time at which an empty laboratory begins.
const BEGINS: &str = "2026-12-01T10:15:00+01:00";

/// A laboratory's folder. Its clock stands still but for the machine's own; its dice count.
pub(crate) struct TestPlace {
    folder: Folder,
    machine: TestMachine,
    begins: Stamp,
    dice: Cell<u8>,
}

impl TestPlace {
    /// Opens a folder on a machine.
    pub(crate) fn open(path: &Path, machine: &TestMachine) -> Result<TestPlace, Trouble> {
        Ok(TestPlace {
            folder: Folder::open(path)?,
            machine: machine.clone(),
            begins: BEGINS.parse().unwrap(),
            dice: Cell::new(0),
        })
    }
}

/// A folder with the demonstration in it, a copy of its own for each.
pub(crate) fn demonstration() -> TempDir {
    static MADE: OnceLock<TempDir> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        let data = tempfile::tempdir().unwrap();
        let made = write_into(&Machine::start(), data.path(), &Words::shipped("en-US"));
        assert!(made.is_ok());
        data
    });
    let copy = tempfile::tempdir().unwrap();
    copy_folder(&made.path().join("laboratory"), copy.path());
    copy
}

fn copy_folder(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for one in fs::read_dir(from).unwrap() {
        let path = one.unwrap().path();
        let to: PathBuf = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy_folder(&path, &to);
        } else {
            fs::copy(&path, &to).unwrap();
        }
    }
}

impl Place for TestPlace {
    fn log(&self) -> &dyn Log {
        self.folder.log()
    }

    fn log_mut(&mut self) -> &mut dyn Log {
        self.folder.log_mut()
    }

    fn heads(&self) -> Result<Vec<(Id, u64, Seal)>, Trouble> {
        self.folder.heads()
    }

    fn follow(&self) -> Result<(), Trouble> {
        self.folder.follow()
    }

    fn renew(&self) -> Result<(), Trouble> {
        self.folder.renew()
    }

    fn register(&self) -> Result<Register, Trouble> {
        self.folder.register()
    }

    fn keep_register(&mut self, register: &Register) -> Result<(), Trouble> {
        self.folder.keep_register(register)
    }

    fn title(&self) -> Result<Option<Title>, Trouble> {
        self.folder.title()
    }

    fn keep_title(&mut self, title: &Title) -> Result<(), Trouble> {
        self.folder.keep_title(title)
    }

    fn key(&self, id: KeyId, passphrase: &Passphrase) -> Result<SecretKey, KeyProblem> {
        self.folder.key(id, passphrase)
    }

    fn keep_key(&mut self, key: &SecretKey, passphrase: &Passphrase) -> Result<(), KeyProblem> {
        self.folder.keep_key(key, passphrase)
    }

    fn change_passphrase(
        &mut self,
        id: KeyId,
        old: &Passphrase,
        new: &Passphrase,
    ) -> Result<(), KeyProblem> {
        self.folder.change_passphrase(id, old, new)
    }

    fn attach(&mut self, content: &[u8], keeping: Keeping) -> Result<Digest, Trouble> {
        self.folder.attach(content, keeping)
    }

    fn attached(&self, digest: &Digest) -> Result<Option<Vec<u8>>, Trouble> {
        self.folder.attached(digest)
    }

    fn misfiled(&self) -> Result<Vec<(String, i64)>, Trouble> {
        self.folder.misfiled()
    }

    fn copy_to(&self, to: &Path) -> Result<Digest, CopyProblem> {
        self.folder.copy_to(to)
    }

    fn now(&self) -> Stamp {
        let passed = self.machine.elapsed_seconds();
        let now = self.begins.instant().plus_seconds(passed);
        Stamp::new(now, self.begins.offset()).unwrap()
    }

    fn go_on_from(&mut self, now: Stamp) {
        self.begins = now;
    }

    fn random(&self, bytes: &mut [u8]) -> Result<(), Trouble> {
        for byte in bytes {
            self.dice
                .set(self.dice.get().wrapping_mul(29).wrapping_add(17));
            *byte = self.dice.get();
        }
        Ok(())
    }
}
