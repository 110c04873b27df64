//! Files that appear whole or not at all.

use std::ffi::OsString;
use std::fs::{self, DirBuilder, File, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use crate::record::log::Trouble;

static DRAFTS: AtomicU64 = AtomicU64::new(0);

/// How the name of a draft ends.
pub(super) const DRAFT: &str = ".draft";

/// Who may read a new file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Reader {
    /// Whoever the system lets read new files.
    Anybody,
    /// The owner only. Systems other than Unix have their own rules, and the folder's hold.
    Owner,
}

/// A name beside the file that no other process and no other writer of this one uses.
pub(super) fn draft_beside(path: &Path) -> Result<PathBuf, Trouble> {
    let name = path.file_name().ok_or(Trouble::Unreachable)?;
    let mut draft = OsString::from(".");
    draft.push(name);
    let counted = DRAFTS.fetch_add(1, Ordering::Relaxed);
    draft.push(format!(".{}-{counted}{DRAFT}", std::process::id()));
    Ok(path.with_file_name(draft))
}

/// Replaces a file, or leaves it as it was: written beside it, synced, renamed over it, the folder synced.
pub(super) fn replace(path: &Path, content: &[u8], reader: Reader) -> Result<(), Trouble> {
    place(path, content, reader, |draft| fs::rename(draft, path)).map_err(|error| trouble(&error))
}

/// Makes a new file, whole or not at all. Returns `false` where there is something of that name already; it is left as it was.
pub(super) fn create(path: &Path, content: &[u8], reader: Reader) -> Result<bool, Trouble> {
    let made = place(path, content, reader, |draft| {
        match fs::hard_link(draft, path) {
            Ok(()) => {
                // Nothing reads a draft that stays.
                let _ignored = fs::remove_file(draft);
                Ok(())
            }
            // Some sticks and shares know no links. There looking and renaming are two steps.
            Err(_) if !fs::exists(path)? => fs::rename(draft, path),
            Err(_) => Err(io::ErrorKind::AlreadyExists.into()),
        }
    });
    match made {
        Ok(()) => Ok(true),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Ok(false),
        Err(error) => Err(trouble(&error)),
    }
}

/// Writes a draft, syncs it, has it put in its place, and syncs the folder.
fn place(
    path: &Path,
    content: &[u8],
    reader: Reader,
    put: impl FnOnce(&Path) -> io::Result<()>,
) -> io::Result<()> {
    let draft = draft_beside(path).map_err(|_| io::ErrorKind::InvalidInput)?;
    let write = || -> io::Result<()> {
        let mut file = new_file(&draft, reader)?;
        file.write_all(content)?;
        file.sync_all()?;
        drop(file);
        put(&draft)
    };
    if let Err(error) = write() {
        // Nothing reads a draft that stays.
        let _ignored = fs::remove_file(&draft);
        return Err(error);
    }
    sync_folder_of(path)
}

/// Opens a file for writing that must not be there yet.
pub(super) fn new_file(path: &Path, reader: Reader) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    if reader == Reader::Owner {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    #[cfg(not(unix))]
    let _ = reader;
    options.open(path)
}

/// Makes a folder that only its owner can look into, where there is none.
pub(super) fn private_folder(path: &Path) -> Result<(), Trouble> {
    let mut builder = DirBuilder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt as _;
        builder.mode(0o700);
    }
    match builder.create(path) {
        Ok(()) => sync_folder_of(path).map_err(|error| trouble(&error)),
        Err(_) if path.is_dir() => Ok(()),
        Err(error) => Err(trouble(&error)),
    }
}

/// The names of what is in a folder, in order; none where it is missing. Names that are no text are left out: none of ours is.
pub(super) fn names_in(folder: &Path) -> Result<Vec<String>, Trouble> {
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries.map_err(|error| trouble(&error))?,
    };
    let mut names = Vec::new();
    for entry in entries {
        let name = entry.map_err(|error| trouble(&error))?.file_name();
        names.extend(name.into_string().ok());
    }
    names.sort_unstable();
    Ok(names)
}

/// Reads a file of at most so many bytes; none where it is missing. A longer one is damaged.
pub(super) fn read(path: &Path, longest: u64) -> Result<Option<Vec<u8>>, Trouble> {
    let file = match File::open(path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        file => file.map_err(|error| trouble(&error))?,
    };
    let mut bytes = Vec::new();
    // The length that the system reports is not asked: it may change.
    file.take(longest.saturating_add(1))
        .read_to_end(&mut bytes)
        .map_err(|error| trouble(&error))?;
    if u64::try_from(bytes.len()).is_ok_and(|length| length <= longest) {
        Ok(Some(bytes))
    } else {
        Err(Trouble::Damaged)
    }
}

/// Makes a new name survive a power cut. Only on Unix a folder can be opened for that.
pub(super) fn sync_folder_of(path: &Path) -> io::Result<()> {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => sync_folder(folder),
        _ => sync_folder(Path::new(".")),
    }
}

/// Makes the names in a folder survive a power cut.
pub(super) fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(not(unix)) {
        return Ok(());
    }
    File::open(folder)?.sync_all()
}

/// What an error of the system means for what is kept.
pub(super) fn trouble(error: &io::Error) -> Trouble {
    match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded | io::ErrorKind::FileTooLarge => {
            Trouble::Full
        }
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => Trouble::ReadOnly,
        _ => Trouble::Unreachable,
    }
}
