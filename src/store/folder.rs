//! A laboratory's folder: what lies where.

use std::path::{Path, PathBuf};

use super::attachments::AttachmentFolder;
use super::heads::HeadsFile;
use super::keys::KeyFolder;
use super::whole;
use crate::record::log::Trouble;

/// A laboratory's folder. It holds `record.sqlite` and beside it `record.sqlite.heads`, `register.sqlite`, `laboratory`, `keys` and `attachments`; what
/// else stands in it is not the record's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Folder {
    path: PathBuf,
}

impl Folder {
    /// The laboratory in this folder. It need not be there yet.
    #[must_use]
    pub fn at(path: &Path) -> Folder {
        Folder {
            path: path.to_owned(),
        }
    }

    /// Makes the folder where it is missing, inside one that is there. On Unix nobody but its owner can look into it.
    ///
    /// # Errors
    ///
    /// The folder around it is missing or refuses.
    pub fn make(&self) -> Result<(), Trouble> {
        whole::private_folder(&self.path)
    }

    /// Where it is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The database of entries.
    #[must_use]
    pub fn record(&self) -> PathBuf {
        self.path.join("record.sqlite")
    }

    /// The file that says what the laboratory is called, and at which workstation.
    #[must_use]
    pub fn title(&self) -> PathBuf {
        self.path.join("laboratory")
    }

    /// The heads that are remembered beside the record.
    #[must_use]
    pub fn heads(&self) -> HeadsFile {
        HeadsFile::beside(&self.record())
    }

    /// The register of names.
    #[must_use]
    pub fn register(&self) -> PathBuf {
        self.path.join("register.sqlite")
    }

    /// The private keys.
    #[must_use]
    pub fn keys(&self) -> KeyFolder {
        KeyFolder::at(&self.path.join("keys"))
    }

    /// The attachments.
    #[must_use]
    pub fn attachments(&self) -> AttachmentFolder {
        AttachmentFolder::at(&self.path.join("attachments"))
    }
}
