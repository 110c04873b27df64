//! A laboratory's folder as the use cases know it: what `store` keeps, with the machine's clock and random bytes.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use super::clock::Clock;
use super::files::{read_bytes, write_atomically};
use super::random;
use crate::app::fault::{Fault, Happened};
use crate::app::laboratory::{CopyProblem, Keeping, KeyProblem, Place, Title};
use crate::people::{Passphrase, Register, Salt};
use crate::record::log::{Log, Trouble};
use crate::record::scope::Id;
use crate::record::seal::Seal;
use crate::record::signature::{KeyId, SecretKey};
use crate::store::{
    AttachmentProblem, Attachments, HeadsFile, KeyFolder, Kind, RegisterFile, SqliteLog,
};
use crate::units::{Digest, Stamp, from_hex, hex};

/// The first line of the file that says what the laboratory is called.
const TITLE: &str = "drybench laboratory 1";
/// Far more than such a file has, in bytes.
const TITLE_MOST: u64 = 64 * 1024;

/// A laboratory's folder.
#[derive(Debug)]
pub struct Folder {
    path: PathBuf,
    log: SqliteLog,
    heads: HeadsFile,
    register: RegisterFile,
    keys: KeyFolder,
    attachments: Attachments,
    clock: Clock,
}

impl Folder {
    /// Opens a folder, and makes it where there is none.
    ///
    /// # Errors
    ///
    /// It is refused, or holds what a newer program wrote.
    pub fn open(path: &Path) -> Result<Folder, Trouble> {
        std::fs::create_dir_all(path).map_err(|error| match error.kind() {
            std::io::ErrorKind::PermissionDenied | std::io::ErrorKind::ReadOnlyFilesystem => {
                Trouble::ReadOnly
            }
            std::io::ErrorKind::StorageFull => Trouble::Full,
            _ => Trouble::Unreachable,
        })?;
        let database = path.join("record.sqlite");
        Ok(Folder {
            log: SqliteLog::open(&database)?,
            heads: HeadsFile::beside(&database),
            register: RegisterFile::open(&path.join("register.sqlite"))?,
            keys: KeyFolder::at(&path.join("keys")),
            attachments: Attachments::at(&path.join("attachments")),
            path: path.to_owned(),
            clock: Clock::start(),
        })
    }

    fn title_file(&self) -> PathBuf {
        self.path.join("laboratory")
    }
}

fn trouble(fault: &Fault) -> Trouble {
    match fault.happened {
        Happened::NotWritten(std::io::ErrorKind::StorageFull) => Trouble::Full,
        Happened::NotWritten(
            std::io::ErrorKind::PermissionDenied | std::io::ErrorKind::ReadOnlyFilesystem,
        ) => Trouble::ReadOnly,
        _ => Trouble::Unreachable,
    }
}

fn key_problem(problem: crate::store::KeyProblem) -> KeyProblem {
    use crate::store::KeyProblem as Kept;
    match problem {
        Kept::Missing => KeyProblem::Missing,
        Kept::Refused => KeyProblem::Refused,
        Kept::Damaged => KeyProblem::Damaged,
        Kept::OtherKey | Kept::Taken => KeyProblem::OtherKey,
        Kept::Trouble(trouble) => KeyProblem::Trouble(trouble),
    }
}

fn attachment(problem: AttachmentProblem) -> Trouble {
    match problem {
        AttachmentProblem::Trouble(trouble) => trouble,
        _ => Trouble::Damaged,
    }
}

impl Place for Folder {
    fn log(&self) -> &dyn Log {
        &self.log
    }

    fn log_mut(&mut self) -> &mut dyn Log {
        &mut self.log
    }

    fn heads(&self) -> Result<Vec<(Id, u64, Seal)>, Trouble> {
        self.heads.read()
    }

    fn follow(&self) -> Result<(), Trouble> {
        self.heads.follow(&self.log).map(drop)
    }

    fn renew(&self) -> Result<(), Trouble> {
        self.heads.renew(&self.log)
    }

    fn register(&self) -> Result<Register, Trouble> {
        self.register.read()
    }

    fn keep_register(&mut self, register: &Register) -> Result<(), Trouble> {
        self.register.write(register)
    }

    fn title(&self) -> Result<Option<Title>, Trouble> {
        let text = match read_bytes(&self.title_file(), TITLE_MOST) {
            Ok(bytes) => String::from_utf8(bytes).map_err(|_| Trouble::Damaged)?,
            Err(fault) if fault.happened == Happened::Missing => return Ok(None),
            Err(fault) => return Err(trouble(&fault)),
        };
        parse(&text).map(Some).ok_or(Trouble::Damaged)
    }

    fn keep_title(&mut self, title: &Title) -> Result<(), Trouble> {
        let mut text = format!("{TITLE}\n");
        // Writing to a string cannot fail.
        let _ = writeln!(text, "{}\n{}", title.workstation, hex(&title.salt.0));
        let _ = writeln!(text, "{}", title.name.as_str());
        write_atomically(&self.title_file(), text.as_bytes()).map_err(|fault| trouble(&fault))
    }

    fn key(&self, id: KeyId, passphrase: &Passphrase) -> Result<SecretKey, KeyProblem> {
        self.keys.open(id, passphrase).map_err(key_problem)
    }

    fn keep_key(&mut self, key: &SecretKey, passphrase: &Passphrase) -> Result<(), KeyProblem> {
        self.keys
            .make(key, passphrase)
            .map(drop)
            .map_err(key_problem)
    }

    fn change_passphrase(
        &mut self,
        id: KeyId,
        old: &Passphrase,
        new: &Passphrase,
    ) -> Result<(), KeyProblem> {
        self.keys.change(id, old, new).map_err(key_problem)
    }

    fn attach(&mut self, content: &[u8], keeping: Keeping) -> Result<Digest, Trouble> {
        let kind = match keeping {
            Keeping::Kept => Kind::Kept,
            Keeping::Erasable => Kind::Erasable,
        };
        self.attachments.put(content, kind).map_err(attachment)
    }

    fn attached(&self, digest: &Digest) -> Result<Option<Vec<u8>>, Trouble> {
        self.attachments.get(digest).map_err(attachment)
    }

    fn misfiled(&self) -> Result<Vec<(String, i64)>, Trouble> {
        let found = self.log.misfiled()?.into_iter();
        Ok(found.map(|row| (row.strand, row.number)).collect())
    }

    fn copy_to(&self, to: &Path) -> Result<Digest, CopyProblem> {
        let _ = to;
        Err(CopyProblem::Trouble(Trouble::Unreachable))
    }

    fn now(&self) -> Stamp {
        self.clock.stamp()
    }

    fn random(&self, bytes: &mut [u8]) -> Result<(), Trouble> {
        random::fill(bytes).map_err(|_| Trouble::Unreachable)
    }
}

fn parse(text: &str) -> Option<Title> {
    let mut lines = text.lines();
    let (first, workstation, salt, name) =
        (lines.next()?, lines.next()?, lines.next()?, lines.next()?);
    if first != TITLE || lines.next().is_some() {
        return None;
    }
    Some(Title {
        name: name.parse().ok()?,
        salt: Salt(from_hex(salt).ok()?),
        workstation: workstation.parse().ok()?,
    })
}
