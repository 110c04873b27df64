//! Attachments: what entries name by digest and do not hold themselves, one file each, named by its digest.
//!
//! `kept` holds what belongs to the record for as long as the record lasts, such as texts of modules; `erasable` what a person may ask to have
//! erased, such as remarks. Erasing deletes the file. It is not claimed that its bytes are overwritten: a disk may keep old blocks, and copies, backups
//! and snapshots that were made before hold what they held.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use super::whole::{self, DRAFT, Reader};
use crate::record::log::Trouble;
use crate::units::Digest;

/// The largest attachment, in bytes: 16 MiB. Our default; far more than any text or list of actions.
const LARGEST: u64 = 16 << 20;

/// The attachments of a laboratory. On Unix nobody but the owner of the files can read them.
#[derive(Clone, Debug)]
pub struct AttachmentFolder {
    path: PathBuf,
}

/// For how long an attachment is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum AttachmentKind {
    /// As long as the record.
    Kept,
    /// Until it is erased.
    Erasable,
}

impl AttachmentKind {
    /// Both.
    pub const ALL: [AttachmentKind; 2] = [AttachmentKind::Kept, AttachmentKind::Erasable];

    const fn folder(self) -> &'static str {
        match self {
            AttachmentKind::Kept => "kept",
            AttachmentKind::Erasable => "erasable",
        }
    }
}

/// What is wrong with an attachment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AttachmentProblem {
    /// It is too large. Holds how many bytes are allowed.
    TooLarge(u64),
    /// The file is not what its name says: it was changed.
    Altered,
    /// It is kept as long as the record, and cannot be erased.
    Kept,
    /// Reading or writing failed.
    Trouble(Trouble),
}

impl AttachmentFolder {
    /// The attachments in this folder. It need not be there yet.
    #[must_use]
    pub fn at(path: &Path) -> AttachmentFolder {
        AttachmentFolder {
            path: path.to_owned(),
        }
    }

    /// Where it is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Keeps these bytes. Makes the folders where they are missing. Once this has returned the attachment survives a power cut. Bytes that are there
    /// already stay as they are; a file that was altered is put right.
    ///
    /// # Errors
    ///
    /// There are too many bytes, or the folder refuses.
    pub fn put(&self, bytes: &[u8], kind: AttachmentKind) -> Result<Digest, AttachmentProblem> {
        if u64::try_from(bytes.len()).is_ok_and(|length| length > LARGEST) {
            return Err(AttachmentProblem::TooLarge(LARGEST));
        }
        let digest = Digest::of(&[bytes]);
        if self.read(kind, &digest) == Ok(Some(bytes.to_vec())) {
            return Ok(digest);
        }
        let folder = self.path.join(kind.folder());
        whole::private_folder(&self.path)
            .and_then(|()| whole::private_folder(&folder))
            .and_then(|()| whole::replace(&self.file(kind, &digest), bytes, Reader::Owner))
            .map_err(AttachmentProblem::Trouble)?;
        Ok(digest)
    }

    /// The bytes of this digest, of whichever kind; none where there are none, or none any more.
    ///
    /// # Errors
    ///
    /// [`AttachmentProblem::Altered`], or the file cannot be read.
    pub fn get(&self, digest: &Digest) -> Result<Option<Vec<u8>>, AttachmentProblem> {
        let kept = self.read(AttachmentKind::Kept, digest);
        match kept {
            Ok(Some(_)) => kept,
            Ok(None) => self.read(AttachmentKind::Erasable, digest),
            // The same bytes may stand in the other folder, unaltered.
            Err(_) => match self.read(AttachmentKind::Erasable, digest) {
                Ok(Some(bytes)) => Ok(Some(bytes)),
                _ => kept,
            },
        }
    }

    /// Deletes an erasable attachment, altered or not, with what an interrupted writing may have left of it. Returns whether there was one. The top of
    /// this module says what is not claimed.
    ///
    /// # Errors
    ///
    /// [`AttachmentProblem::Kept`], or the folder refuses.
    pub fn erase(&self, digest: &Digest) -> Result<bool, AttachmentProblem> {
        let kept = self.file(AttachmentKind::Kept, digest);
        match fs::exists(kept) {
            Ok(false) => {}
            Ok(true) => return Err(AttachmentProblem::Kept),
            Err(error) => return Err(AttachmentProblem::Trouble(whole::trouble(&error))),
        }
        let folder = self.path.join(AttachmentKind::Erasable.folder());
        let (whole_name, draft) = (digest.to_string(), format!(".{digest}."));
        let names = whole::names_in(&folder).map_err(AttachmentProblem::Trouble)?;
        let meant = |name: &&String| {
            **name == whole_name || name.starts_with(&draft) && name.ends_with(DRAFT)
        };
        let delete = |name: &String| match fs::remove_file(folder.join(name)) {
            Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
            _ => Ok(()),
        };
        names
            .iter()
            .filter(meant)
            .try_for_each(delete)
            .and_then(|()| {
                if names.is_empty() {
                    return Ok(());
                }
                whole::sync_folder(&folder)
            })
            .map_err(|error| AttachmentProblem::Trouble(whole::trouble(&error)))?;
        Ok(names.contains(&whole_name))
    }

    /// All attachments, the kept ones first, in order of their digests. What is in the files is not looked at.
    ///
    /// # Errors
    ///
    /// A folder cannot be read. One that is missing is empty.
    pub fn list(&self) -> Result<Vec<(AttachmentKind, Digest)>, Trouble> {
        let mut found = Vec::new();
        for kind in AttachmentKind::ALL {
            let names = whole::names_in(&self.path.join(kind.folder()))?;
            let digests = names.iter().filter_map(|name| name.parse().ok());
            found.extend(digests.map(|digest| (kind, digest)));
        }
        Ok(found)
    }

    /// The bytes of this digest and kind.
    pub(super) fn read(
        &self,
        kind: AttachmentKind,
        digest: &Digest,
    ) -> Result<Option<Vec<u8>>, AttachmentProblem> {
        match whole::read(&self.file(kind, digest), LARGEST) {
            Ok(Some(bytes)) if Digest::of(&[&bytes]) != *digest => Err(AttachmentProblem::Altered),
            Ok(found) => Ok(found),
            // Nothing that long was ever put there.
            Err(Trouble::Damaged) => Err(AttachmentProblem::Altered),
            Err(trouble) => Err(AttachmentProblem::Trouble(trouble)),
        }
    }

    fn file(&self, kind: AttachmentKind, digest: &Digest) -> PathBuf {
        self.path.join(kind.folder()).join(digest.to_string())
    }
}
