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
}
