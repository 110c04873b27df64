//! Whole files: read with a limit, written so that a cut at any instant leaves the old or the new one, never half of one.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::Path;

use crate::app::fault::{Fault, Happened, Kept, Remedy};

/// Reads a file of at most `limit` bytes. A longer file is refused before it fills the memory.
///
/// # Errors
///
/// The file is missing, refused, or longer than `limit`.
pub fn read_bytes(path: &Path, limit: u64) -> Result<Vec<u8>, Fault> {
    let file = File::open(path).map_err(|error| Fault::reading(&error, path))?;
    let mut bytes = Vec::new();
    // The length that the system reports is not asked: pipes and growing files would get past it.
    file.take(limit.saturating_add(1))
        .read_to_end(&mut bytes)
        .map_err(|error| Fault::reading(&error, path))?;
    if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > limit {
        return Err(Fault::harmless(
            Happened::TooLong(limit),
            path,
            Remedy::OtherFile,
        ));
    }
    Ok(bytes)
}

/// Reads a text of at most `limit` bytes.
///
/// # Errors
///
/// As for [`read_bytes`], or the file is no UTF-8.
pub fn read_text(path: &Path, limit: u64) -> Result<String, Fault> {
    String::from_utf8(read_bytes(path, limit)?)
        .map_err(|_| Fault::harmless(Happened::NotText, path, Remedy::OtherFile))
}

/// Replaces a file by `content`, or leaves it as it was.
///
/// Writes beside it, syncs, renames over it, syncs the folder.
///
/// # Errors
///
/// Writing was refused or broke off; `Fault::kept` says which content is there now.
pub fn write_atomically(path: &Path, content: &[u8]) -> Result<(), Fault> {
    let failed = |error: &io::Error| Fault::writing(error, path, Kept::Everything);
    let Some(name) = path.file_name() else {
        return Err(failed(&io::ErrorKind::InvalidFilename.into()));
    };
    let mut beside = OsString::from(".");
    beside.push(name);
    // The number keeps two programs that write the same file from writing into one draft.
    beside.push(format!(".{}.draft", std::process::id()));
    let draft = path.with_file_name(beside);
    let written = write_synced(&draft, content).and_then(|()| fs::rename(&draft, path));
    if let Err(error) = written {
        // A draft that cannot be removed either is harmless: nothing reads it, and the next draft replaces it.
        let _ignored = fs::remove_file(&draft);
        return Err(failed(&error));
    }
    sync_folder_of(path).map_err(|error| Fault {
        happened: Happened::NotConfirmed(error.kind()),
        ..Fault::writing(&error, path, Kept::NewOrOld)
    })
}

fn write_synced(path: &Path, content: &[u8]) -> io::Result<()> {
    let mut file = OpenOptions::new()
        .write(true)
        .create(true)
        .truncate(true)
        .open(path)?;
    file.write_all(content)?;
    file.sync_all()
}

/// Makes a new name in a folder survive a power cut.
#[cfg(unix)]
pub(super) fn sync_folder_of(path: &Path) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    File::open(folder)?.sync_all()
}

/// Elsewhere a folder can not be opened as a file; the rename itself is all there is.
#[cfg(not(unix))]
pub(super) fn sync_folder_of(_path: &Path) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_replaced_whole_and_no_draft_stays() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("profile.yaml");
        write_atomically(&path, b"one").unwrap();
        write_atomically(&path, b"two").unwrap();
        assert_eq!(read_text(&path, 3).unwrap(), "two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_failed_replacement_keeps_the_old_file() {
        let folder = tempfile::tempdir().unwrap();
        let in_the_way = folder.path().join("taken");
        fs::create_dir_all(in_the_way.join("inside")).unwrap();
        let fault = write_atomically(&in_the_way, b"new").unwrap_err();
        assert_eq!(fault.kept, Kept::Everything);
        assert!(in_the_way.join("inside").is_dir());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
        let nowhere = folder.path().join("no/such/folder/file");
        assert_eq!(
            write_atomically(&nowhere, b"new").unwrap_err().remedy,
            Remedy::CheckPath
        );
    }

    #[test]
    fn reading_has_a_limit_and_wants_text() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("file");
        fs::write(&path, b"four").unwrap();
        assert_eq!(read_text(&path, 4).unwrap(), "four");
        assert_eq!(
            read_text(&path, 3).unwrap_err().happened,
            Happened::TooLong(3)
        );
        fs::write(&path, [0xff, 0xfe]).unwrap();
        assert_eq!(read_text(&path, 9).unwrap_err().happened, Happened::NotText);
        let missing = read_text(&folder.path().join("gone"), 9).unwrap_err();
        assert_eq!(missing.happened, Happened::Missing);
        assert_eq!(missing.remedy, Remedy::CheckPath);
    }
}
