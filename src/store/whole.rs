//! Files that appear whole or not at all.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use crate::record::log::Trouble;

static DRAFTS: AtomicU64 = AtomicU64::new(0);

/// A name beside the file that no other process and no other writer of this one uses.
pub(super) fn draft_beside(path: &Path) -> Result<PathBuf, Trouble> {
    let name = path.file_name().ok_or(Trouble::Unreachable)?;
    let mut draft = OsString::from(".");
    draft.push(name);
    let counted = DRAFTS.fetch_add(1, Ordering::Relaxed);
    draft.push(format!(".{}-{counted}.draft", std::process::id()));
    Ok(path.with_file_name(draft))
}

/// Replaces a file, or leaves it as it was: written beside it, synced, renamed over it, the folder synced.
pub(super) fn replace(path: &Path, content: &[u8]) -> Result<(), Trouble> {
    let draft = draft_beside(path)?;
    let write = || -> io::Result<()> {
        let mut file = OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&draft)?;
        file.write_all(content)?;
        file.sync_all()?;
        fs::rename(&draft, path)
    };
    if let Err(error) = write() {
        // Nothing reads a draft that stays.
        let _ignored = fs::remove_file(&draft);
        return Err(trouble(&error));
    }
    sync_folder_of(path).map_err(|error| trouble(&error))
}

/// Makes a new name survive a power cut. Only on Unix a folder can be opened for that.
pub(super) fn sync_folder_of(path: &Path) -> io::Result<()> {
    if cfg!(not(unix)) {
        return Ok(());
    }
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    File::open(folder)?.sync_all()
}

/// What an error of the system means for what is kept.
pub(super) fn trouble(error: &io::Error) -> Trouble {
    match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Trouble::Full,
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => Trouble::ReadOnly,
        _ => Trouble::Unreachable,
    }
}
