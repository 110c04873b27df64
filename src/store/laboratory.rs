//! A copy of a whole laboratory, made while it is in use and looked through before it gets its name.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use super::attachments::AttachmentProblem;
use super::copy::{Copied, CopyProblem};
use super::folder::Folder;
use super::heads::Standing;
use super::keys::KeyProblem;
use super::register::{RegisterFile, RegisterProblem};
use super::sqlite::SqliteLog;
use super::whole;
use crate::record::log::Trouble;
use crate::record::signature::KeyId;
use crate::units::Digest;

/// A copy of a laboratory that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CopiedLaboratory {
    /// What was copied of the record.
    pub record: Copied,
    /// How many private keys are in it.
    pub keys: usize,
    /// How many attachments are in it.
    pub attachments: usize,
    /// The digest of all of it, for the entry that tells of the copy: of the lines `DIGEST  PATH` of its files in order of their paths, as the `sha256sum`
    /// command prints them. It holds until the copy is opened as a laboratory, which changes marks in its databases.
    pub digest: Digest,
}

/// Far more than a title has, in bytes.
const TITLE_MOST: u64 = 64 * 1024;

/// What of a laboratory.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The folder as a whole.
    Folder,
    /// The record.
    Record,
    /// The heads beside it.
    Heads,
    /// The register of names.
    Register,
    /// The file that says what the laboratory is called.
    Title,
    /// A private key.
    Key(KeyId),
    /// The folder of private keys.
    Keys,
    /// An attachment.
    Attachment(Digest),
    /// The folder of attachments.
    Attachments,
}

/// Why there is no copy of a laboratory.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoCopy {
    /// At what it failed.
    pub part: Part,
    /// Why. [`CopyProblem::Differs`] at the heads: the record lacks entries that they remember, or has others.
    pub why: CopyProblem,
}

/// Copies a laboratory to a new folder: record, heads, register, keys and attachments. Others may go on writing.
///
/// The record is copied first, as it stands at one instant, and the rest after it, so that what the record names is there unless it was erased in between.
/// The heads of the copy are those of its record, after those of the original were found to agree with theirs. Everything is read again where
/// it was written: seals, digests, names, key files as far as that goes without passphrases. A kill on the way leaves at most a hidden
/// folder beside, whose name ends in `.draft`.
///
/// # Errors
///
/// The name is taken, something is missing, damaged or cannot be read or written, or the copy differs. Then there is no new folder.
pub fn copy_laboratory(from: &Folder, to: &Path) -> Result<CopiedLaboratory, NoCopy> {
    let failed = |trouble| Part::Folder.is(trouble);
    match fs::symlink_metadata(to) {
        Ok(_) => return Err(Part::Folder.no(CopyProblem::Taken)),
        Err(error) if error.kind() == ErrorKind::NotFound => {}
        Err(error) => return Err(failed(whole::trouble(&error))),
    }
    let path = whole::draft_beside(to).map_err(failed)?;
    let draft = Folder::at(&path);
    draft.make().map_err(failed)?;
    let made = fill(from, &draft).and_then(|copied| {
        put_in_place(&path, to)?;
        Ok(copied)
    });
    if made.is_err() {
        // Nothing reads a draft that stays.
        let _ignored = fs::remove_dir_all(&path);
    }
    made
}

impl Part {
    fn no(self, why: CopyProblem) -> NoCopy {
        NoCopy { part: self, why }
    }

    fn is(self, trouble: Trouble) -> NoCopy {
        self.no(CopyProblem::Trouble(trouble))
    }
}

fn fill(from: &Folder, to: &Folder) -> Result<CopiedLaboratory, NoCopy> {
    let record = copy_record(from, to)?;
    let attachments = copy_attachments(from, to)?;
    let keys = copy_keys(from, to)?;
    copy_register(from, to)?;
    copy_title(from, to)?;
    let lost = |trouble| Part::Folder.is(trouble);
    let mut lines = Vec::new();
    list(to.path(), "", &mut lines).map_err(lost)?;
    lines.sort_unstable();
    let mut listing = String::new();
    for (path, digest) in lines {
        listing.push_str(&format!("{digest}  {path}\n"));
    }
    Ok(CopiedLaboratory {
        record,
        keys,
        attachments,
        digest: Digest::of(&[listing.as_bytes()]),
    })
}

fn copy_record(from: &Folder, to: &Folder) -> Result<Copied, NoCopy> {
    // Opening would make one.
    is_there(&from.record()).map_err(|trouble| Part::Record.is(trouble))?;
    let log = SqliteLog::open(&from.record()).map_err(|trouble| Part::Record.is(trouble))?;
    // The log only grows, so what agrees now agrees with the copy.
    let remembered = from.heads().compare(&log);
    let remembered = remembered.map_err(|trouble| Part::Heads.is(trouble))?;
    let contradicts = |standing| matches!(standing, Standing::Leads(_) | Standing::Differs);
    if remembered.iter().any(|head| contradicts(head.standing)) {
        return Err(Part::Heads.no(CopyProblem::Differs));
    }
    let copied = log
        .copy_to(&to.record())
        .map_err(|why| Part::Record.no(why))?;
    to.heads()
        .set(&copied.heads)
        .map_err(|trouble| Part::Heads.is(trouble))?;
    if to.heads().read().as_ref() != Ok(&copied.heads) {
        return Err(Part::Heads.no(CopyProblem::Differs));
    }
    Ok(copied)
}

fn copy_attachments(from: &Folder, to: &Folder) -> Result<usize, NoCopy> {
    let (from, to) = (from.attachments(), to.attachments());
    let listed = from.list();
    let mut count = 0;
    for (kind, digest) in listed.map_err(|trouble| Part::Attachments.is(trouble))? {
        let part = Part::Attachment(digest);
        let lost = |problem| match problem {
            AttachmentProblem::Trouble(trouble) => part.is(trouble),
            _ => part.is(Trouble::Damaged),
        };
        // Erased since they were listed.
        let Some(bytes) = from.read(kind, &digest).map_err(lost)? else {
            continue;
        };
        to.put(&bytes, kind).map_err(lost)?;
        if to.read(kind, &digest) != Ok(Some(bytes)) {
            return Err(part.no(CopyProblem::Differs));
        }
        count += 1;
    }
    Ok(count)
}

fn copy_keys(from: &Folder, to: &Folder) -> Result<usize, NoCopy> {
    let (from, to) = (from.keys(), to.keys());
    let keys = from.list().map_err(|trouble| Part::Keys.is(trouble))?;
    for key in &keys {
        let part = Part::Key(*key);
        let lost = |problem| match problem {
            KeyProblem::Trouble(trouble) => part.is(trouble),
            _ => part.is(Trouble::Damaged),
        };
        let encrypted = from.encrypted(*key).map_err(lost)?;
        to.take(*key, &encrypted).map_err(lost)?;
        if to.encrypted(*key) != Ok(encrypted) {
            return Err(part.no(CopyProblem::Differs));
        }
    }
    Ok(keys.len())
}

fn copy_register(from: &Folder, to: &Folder) -> Result<(), NoCopy> {
    let lost = |trouble| Part::Register.is(trouble);
    // Opening would make one.
    is_there(&from.register()).map_err(lost)?;
    let register = RegisterFile::open(&from.register()).and_then(|file| file.read());
    let register = register.map_err(lost)?;
    let mut copy = RegisterFile::open(&to.register()).map_err(lost)?;
    copy.write(&register).map_err(|problem| match problem {
        RegisterProblem::Trouble(trouble) => lost(trouble),
        RegisterProblem::Behind => Part::Register.no(CopyProblem::Differs),
    })?;
    if copy.read().map_err(lost)? == register {
        Ok(())
    } else {
        Err(Part::Register.no(CopyProblem::Differs))
    }
}

/// A record can be without a title: then the laboratory was never opened.
fn copy_title(from: &Folder, to: &Folder) -> Result<(), NoCopy> {
    let lost = |trouble| Part::Title.is(trouble);
    let Some(title) = whole::read(&from.title(), TITLE_MOST).map_err(lost)? else {
        return Ok(());
    };
    whole::create(&to.title(), &title, whole::Reader::Owner).map_err(lost)?;
    match whole::read(&to.title(), TITLE_MOST).map_err(lost)? {
        Some(copy) if copy == title => Ok(()),
        _ => Err(Part::Title.no(CopyProblem::Differs)),
    }
}

fn is_there(path: &Path) -> Result<(), Trouble> {
    match fs::metadata(path) {
        Ok(_) => Ok(()),
        Err(error) => Err(whole::trouble(&error)),
    }
}

/// Adds the files below a folder with their digests, paths with forward slashes; syncs the folders on the way.
fn list(folder: &Path, before: &str, lines: &mut Vec<(String, Digest)>) -> Result<(), Trouble> {
    for name in whole::names_in(folder)? {
        let inside = folder.join(&name);
        let path = format!("{before}{name}");
        if inside.is_dir() {
            list(&inside, &format!("{path}/"), lines)?;
        } else {
            let bytes = fs::read(&inside).map_err(|error| whole::trouble(&error))?;
            lines.push((path, Digest::of(&[&bytes])));
        }
    }
    whole::sync_folder(folder).map_err(|error| whole::trouble(&error))
}

fn put_in_place(draft: &Path, to: &Path) -> Result<(), NoCopy> {
    fs::rename(draft, to).map_err(|error| match error.kind() {
        // Somebody else was faster. An empty folder is replaced on Unix, which loses nothing.
        ErrorKind::AlreadyExists | ErrorKind::DirectoryNotEmpty | ErrorKind::NotADirectory => {
            Part::Folder.no(CopyProblem::Taken)
        }
        _ => Part::Folder.is(whole::trouble(&error)),
    })?;
    whole::sync_folder_of(to).map_err(|error| {
        // It could be gone after a power cut, and what is reported as no copy must not stay.
        let _ignored = fs::remove_dir_all(to);
        Part::Folder.is(whole::trouble(&error))
    })
}
