//! Files of a laboratory's own are laid on the shelf: a module or a profile by its path, or all that lie in a folder, with the stages among them.

use std::path::{Path, PathBuf};

use super::System;
use super::fault::Fault;
use super::shelf::{Shelf, ShelfProblem, is_module, is_profile, is_stage};
use crate::syllabus::read::MOST_BYTES;

/// The folder of modules inside the folder for data.
const FOLDER: &str = "modules";

/// No folder holds more files of modules than this. Our default: far above what a laboratory writes, and few
/// enough that a folder named by mistake, the root of a disk say, is not read through.
const MOST_FILES: usize = 2_000;

/// No file of a module is longer than this, in bytes.
#[must_use]
pub fn limit() -> u64 {
    u64::try_from(MOST_BYTES).unwrap_or(u64::MAX)
}

/// A path as it is shown and as a key of the shelf.
#[must_use]
pub fn shown(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}

/// Whether a file is one that modules are written in.
#[must_use]
pub fn is_yaml(path: &Path) -> bool {
    let end = path.extension();
    end.is_some_and(|end| end.eq_ignore_ascii_case("yaml") || end.eq_ignore_ascii_case("yml"))
}

/// Lays the module of a file on the shelf, with the stages that stand beside its folder, and says its id.
///
/// # Errors
/// When a file is refused.
pub fn module<S: System>(shelf: &mut Shelf, path: &Path, system: &S) -> Result<String, Fault> {
    shelf.lay(&shown(path), system.read(path, limit())?);
    let above = path.parent().and_then(Path::parent);
    let stages = above.map(|above| above.join("stages"));
    if let Some(stages) = stages.filter(|stages| system.is_folder(stages)) {
        for file in system.files_in(&stages)? {
            if is_yaml(&file) {
                shelf.lay(&shown(&file), system.read(&file, limit())?);
            }
        }
    }
    Ok(shelf.id_at(&shown(path)).unwrap_or_default())
}

/// Lays the profile of a file on the shelf, and says its name.
///
/// # Errors
/// When the file is refused.
pub fn profile<S: System>(shelf: &mut Shelf, path: &Path, system: &S) -> Result<String, Fault> {
    let bytes = system.read(path, limit())?;
    Ok(shelf.lay_profile(&shown(path), bytes))
}

/// Lays the modules below a folder on the shelf, with the stages and profiles among them, and says by which paths they are asked for.
///
/// # Errors
/// When a file is refused, or there are too many; then none was read.
pub fn folder<S: System>(
    shelf: &mut Shelf,
    folder: &Path,
    system: &S,
) -> Result<Vec<String>, ShelfProblem> {
    let mut found = Vec::new();
    for file in files(folder, system)? {
        let bytes = system.read(&file, limit());
        let path = shown(&file);
        shelf.lay(&path, bytes.map_err(ShelfProblem::Machine)?);
        if is_module(&path) || is_profile(&path) {
            found.push(path);
        }
    }
    Ok(found)
}

/// Lays what lies in the laboratory's folder of modules on the shelf, in the place of what was found there before: modules, stages and profiles.
///
/// What cannot be read keeps nothing else off the shelf: whoever asks for it is told why.
pub fn own<S: System>(shelf: &mut Shelf, data: Option<&Path>, system: &S) {
    lay_folder(shelf, data, system, |_| true);
}

/// The same of profiles alone, for whoever names a module by its path.
pub fn own_profiles<S: System>(shelf: &mut Shelf, data: Option<&Path>, system: &S) {
    lay_folder(shelf, data, system, is_profile);
}

fn lay_folder<S: System>(
    shelf: &mut Shelf,
    data: Option<&Path>,
    system: &S,
    wanted: fn(&str) -> bool,
) {
    shelf.forget_folder();
    // Without a folder for data nothing can be kept either, and what keeps something says so.
    let Ok(data) = system.data_folder(data) else {
        return;
    };
    let folder = data.join(FOLDER);
    if !system.is_folder(&folder) {
        return;
    }
    match files(&folder, system) {
        Ok(files) => {
            for file in files.into_iter().filter(|file| wanted(&shown(file))) {
                match system.read(&file, limit()) {
                    Ok(bytes) => shelf.lay_of_folder(&shown(&file), bytes),
                    Err(fault) => shelf.lay_refused(&shown(&file), ShelfProblem::Machine(fault)),
                }
            }
        }
        Err(problem) => shelf.lay_refused(&shown(&folder), problem),
    }
}

/// The files of modules, stages and profiles below a folder. Too many of them are refused before the first one is read.
fn files<S: System>(folder: &Path, system: &S) -> Result<Vec<PathBuf>, ShelfProblem> {
    let mut files = system.files_in(folder).map_err(ShelfProblem::Machine)?;
    files.retain(|file| {
        let path = shown(file);
        is_yaml(file) && (is_stage(&path) || is_profile(&path) || is_module(&path))
    });
    if files.len() > MOST_FILES {
        return Err(ShelfProblem::TooManyFiles {
            folder: shown(folder),
            found: files.len(),
            most: MOST_FILES,
        });
    }
    Ok(files)
}
