//! stand-in
use crate::record::log::Trouble;
use crate::units::Digest;
use std::path::{Path, PathBuf};
/// k
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// k
    Kept,
    /// e
    Erasable,
}
/// p
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AttachmentProblem {
    /// a
    Altered,
    /// t
    Trouble(Trouble),
}
/// a
#[derive(Debug)]
pub struct Attachments {
    path: PathBuf,
}
impl Attachments {
    /// a
    #[must_use]
    pub fn at(path: &Path) -> Attachments {
        Attachments {
            path: path.to_owned(),
        }
    }
    /// p
    ///
    /// # Errors
    /// t
    pub fn put(&self, bytes: &[u8], _kind: Kind) -> Result<Digest, AttachmentProblem> {
        let digest = Digest::of(&[bytes]);
        std::fs::create_dir_all(&self.path)
            .map_err(|_| AttachmentProblem::Trouble(Trouble::Unreachable))?;
        std::fs::write(self.path.join(digest.to_string()), bytes)
            .map_err(|_| AttachmentProblem::Trouble(Trouble::Unreachable))?;
        Ok(digest)
    }
    /// g
    ///
    /// # Errors
    /// t
    pub fn get(&self, digest: &Digest) -> Result<Option<Vec<u8>>, AttachmentProblem> {
        Ok(std::fs::read(self.path.join(digest.to_string())).ok())
    }
}
