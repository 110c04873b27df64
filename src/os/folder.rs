//! Where a person's data lives.

use std::fs;
use std::path::{Path, PathBuf};

use directories::ProjectDirs;

use crate::app::fault::{Fault, Happened, Kept, Remedy};

/// Returns the folder for data, made if it was not there: the chosen one, or the one the system names.
///
/// # Errors
///
/// The system names none, or it can not be made.
pub fn data_folder(chosen: Option<&Path>) -> Result<PathBuf, Fault> {
    let folder = match chosen {
        Some(folder) => folder.to_owned(),
        None => ProjectDirs::from("", "", "drybench")
            .ok_or_else(|| Fault::harmless(Happened::NoHome, Path::new(""), Remedy::NameFolder))?
            .data_dir()
            .to_owned(),
    };
    fs::create_dir_all(&folder)
        .map_err(|error| Fault::writing(&error, &folder, Kept::Everything))?;
    Ok(folder)
}

/// What the names of folders begin with that are thrown away.
const THROWN_AWAY: &str = "drybench-demonstration-";

/// Makes a folder among the system's temporary ones that nobody else can read.
///
/// # Errors
///
/// The system refuses.
pub(super) fn folder_to_throw_away() -> Result<PathBuf, Fault> {
    let made = tempfile::Builder::new().prefix(THROWN_AWAY).tempdir();
    let made =
        made.map_err(|error| Fault::writing(&error, &std::env::temp_dir(), Kept::Everything))?;
    Ok(made.keep())
}

/// Removes a folder that was made to be thrown away, and no other. What cannot be removed is left to the system, which clears its temporary folders.
pub(super) fn clear_away(folder: &Path) {
    let name = folder.file_name().and_then(|name| name.to_str());
    let is_ours = name.is_some_and(|name| name.starts_with(THROWN_AWAY));
    if is_ours && folder.starts_with(std::env::temp_dir()) {
        let _left_to_the_system = fs::remove_dir_all(folder);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chosen_folder_is_made_and_a_file_in_the_way_is_kept() {
        let place = tempfile::tempdir().unwrap();
        let wanted = place.path().join("a/b");
        assert_eq!(data_folder(Some(&wanted)).unwrap(), wanted);
        assert!(wanted.is_dir());
        let taken = place.path().join("taken");
        fs::write(&taken, "mine").unwrap();
        let fault = data_folder(Some(&taken)).unwrap_err();
        assert_eq!(fault.kept, Kept::Everything);
        assert_eq!(fs::read_to_string(&taken).unwrap(), "mine");
    }

    #[test]
    fn only_what_was_made_to_be_thrown_away_is_cleared_away() {
        let made = folder_to_throw_away().unwrap();
        fs::write(made.join("entry"), "invented").unwrap();
        let other = tempfile::tempdir().unwrap();
        clear_away(other.path());
        assert!(other.path().is_dir());
        clear_away(&made);
        assert!(!made.exists());
    }
}
