//! A laboratory's folder as the use cases know it: what `store` keeps, with the machine's clock and random bytes.

use std::fmt::Write as _;
use std::path::Path;

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
    self, AttachmentKind, AttachmentProblem, RegisterFile, RegisterProblem, SqliteLog,
    copy_laboratory,
};
use crate::units::{Digest, Millis, Stamp, from_hex, hex};

/// The first line of the file that says what the laboratory is called.
const TITLE: &str = "drybench laboratory 1";
/// Far more than such a file has, in bytes.
const TITLE_MOST: u64 = 64 * 1024;

/// A laboratory's folder.
#[derive(Debug)]
pub struct Folder {
    files: store::Folder,
    log: SqliteLog,
    register: RegisterFile,
    clock: Clock,
    /// The time that the demonstration goes on from, and when the clock was set to it.
    story: Option<(Stamp, Millis)>,
}

impl Folder {
    /// Opens a folder, and makes it where there is none.
    ///
    /// # Errors
    ///
    /// It is refused, or holds what a newer program wrote.
    pub fn open(path: &Path) -> Result<Folder, Trouble> {
        let files = store::Folder::at(path);
        files.make()?;
        Ok(Folder {
            log: SqliteLog::open(&files.record())?,
            register: RegisterFile::open(&files.register())?,
            files,
            clock: Clock::start(),
            story: None,
        })
    }
}

fn trouble(fault: &Fault) -> Trouble {
    match fault.happened {
        Happened::NotWritten(
            std::io::ErrorKind::StorageFull
            | std::io::ErrorKind::QuotaExceeded
            | std::io::ErrorKind::FileTooLarge,
        ) => Trouble::Full,
        Happened::NotWritten(
            std::io::ErrorKind::PermissionDenied | std::io::ErrorKind::ReadOnlyFilesystem,
        ) => Trouble::ReadOnly,
        _ => Trouble::Unreachable,
    }
}

fn key_problem(problem: store::KeyProblem) -> KeyProblem {
    use store::KeyProblem as Kept;
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
        self.files.heads().read()
    }

    fn follow(&self) -> Result<(), Trouble> {
        self.files.heads().follow(&self.log).map(drop)
    }

    fn renew(&self) -> Result<(), Trouble> {
        self.files.heads().renew(&self.log)
    }

    fn register(&self) -> Result<Register, Trouble> {
        self.register.read()
    }

    fn keep_register(&mut self, register: &Register) -> Result<(), Trouble> {
        self.register
            .write(register)
            .map_err(|problem| match problem {
                RegisterProblem::Trouble(trouble) => trouble,
                // Somebody else has written since it was read.
                RegisterProblem::Behind => Trouble::Unreachable,
            })
    }

    fn title(&self) -> Result<Option<Title>, Trouble> {
        let text = match read_bytes(&self.files.title(), TITLE_MOST) {
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
        write_atomically(&self.files.title(), text.as_bytes()).map_err(|fault| trouble(&fault))
    }

    fn key(&self, id: KeyId, passphrase: &Passphrase) -> Result<SecretKey, KeyProblem> {
        self.files.keys().open(id, passphrase).map_err(key_problem)
    }

    fn keep_key(&mut self, key: &SecretKey, passphrase: &Passphrase) -> Result<(), KeyProblem> {
        self.files
            .keys()
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
        self.files.keys().change(id, old, new).map_err(key_problem)
    }

    fn attach(&mut self, content: &[u8], keeping: Keeping) -> Result<Digest, Trouble> {
        let kind = match keeping {
            Keeping::Kept => AttachmentKind::Kept,
            Keeping::Erasable => AttachmentKind::Erasable,
        };
        self.files
            .attachments()
            .put(content, kind)
            .map_err(attachment)
    }

    fn attached(&self, digest: &Digest) -> Result<Option<Vec<u8>>, Trouble> {
        self.files.attachments().get(digest).map_err(attachment)
    }

    fn misfiled(&self) -> Result<Vec<(String, i64)>, Trouble> {
        let found = self.log.misfiled()?.into_iter();
        Ok(found.map(|row| (row.strand, row.number)).collect())
    }

    fn copy_to(&self, to: &Path) -> Result<Digest, CopyProblem> {
        match copy_laboratory(&self.files, to) {
            Ok(copied) => Ok(copied.digest),
            Err(no) => Err(match no.why {
                store::CopyProblem::Taken => CopyProblem::Taken,
                store::CopyProblem::Differs => CopyProblem::Differs,
                store::CopyProblem::Trouble(trouble) => CopyProblem::Trouble(trouble),
            }),
        }
    }

    fn now(&self) -> Stamp {
        let machine = self.clock.stamp();
        let Some((from, since)) = self.story else {
            return machine;
        };
        let passed = (self.clock.elapsed().0 - since.0) / 1000;
        Stamp::new(from.instant().plus_seconds(passed), from.offset()).unwrap_or(machine)
    }

    fn go_on_from(&mut self, now: Stamp) {
        self.story = Some((now, self.clock.elapsed()));
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
