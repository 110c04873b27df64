//! Files named on the command line: modules and profiles by path are laid on the shelf, with the stages beside them.

use std::path::Path;

use super::failure::Failure;
use crate::app::System;
use crate::app::shelf::{Shelf, is_module};
use crate::syllabus::read::MOST_BYTES;

/// No file of a module is longer than this, in bytes.
pub(super) fn limit() -> u64 {
    u64::try_from(MOST_BYTES).unwrap_or(u64::MAX)
}

/// No folder that is checked holds more files of modules than this. Our default: far above what a laboratory writes, and few
/// enough that a folder named by mistake, the root of a disk say, is not read through.
const MOST_FILES: usize = 2_000;

/// Whether an argument is a path rather than an id.
pub(super) fn is_path(wanted: &str) -> bool {
    Path::new(wanted)
        .extension()
        .is_some_and(|end| end.eq_ignore_ascii_case("yaml") || end.eq_ignore_ascii_case("yml"))
        || wanted.contains(['/', '\\'])
}

/// Lays a module on the shelf if it is named by a path, and says by which id it is asked for.
pub(super) fn module<S: System>(
    shelf: &mut Shelf,
    wanted: &str,
    system: &S,
) -> Result<String, Failure> {
    if !is_path(wanted) {
        return Ok(wanted.to_owned());
    }
    let path = Path::new(wanted);
    lay(shelf, path, system)?;
    lay_neighbours(shelf, path, system)?;
    Ok(shelf.id_at(&shown(path)).unwrap_or_default())
}

/// Lays a profile on the shelf if it is named by a path, and says by which name it is asked for.
pub(super) fn profile<S: System>(
    shelf: &mut Shelf,
    wanted: Option<&str>,
    system: &S,
) -> Result<Option<String>, Failure> {
    let Some(wanted) = wanted.filter(|wanted| is_path(wanted)) else {
        return Ok(wanted.map(str::to_owned));
    };
    let path = Path::new(wanted);
    let bytes = system.read(path, limit())?;
    let name = path
        .file_stem()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned();
    shelf.lay(&format!("modules/profiles/{name}.yaml"), bytes);
    Ok(Some(name))
}

/// Lays one file on the shelf under its own path.
pub(super) fn lay<S: System>(shelf: &mut Shelf, path: &Path, system: &S) -> Result<(), Failure> {
    let bytes = system.read(path, limit())?;
    shelf.lay(&shown(path), bytes);
    Ok(())
}

/// The stages and lists that stand beside a module's folder are laid over the shipped ones.
fn lay_neighbours<S: System>(shelf: &mut Shelf, path: &Path, system: &S) -> Result<(), Failure> {
    let Some(above) = path.parent().and_then(Path::parent) else {
        return Ok(());
    };
    let stages = above.join("stages");
    if system.is_folder(&stages) {
        for file in system.files_in(&stages)? {
            if file.extension().is_some_and(|end| end == "yaml") {
                lay_stage(shelf, &file, system)?;
            }
        }
    }
    Ok(())
}

/// A path as it is shown and as a key of the shelf.
pub(super) fn shown(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}

/// Lays the modules below a folder on the shelf, with the stages among them, and says by which paths they are asked for.
///
/// A folder with too many of them is refused before the first one is read.
pub(super) fn modules_in<S: System>(
    shelf: &mut Shelf,
    folder: &Path,
    system: &S,
) -> Result<Vec<String>, Failure> {
    let mut files = system.files_in(folder)?;
    files.retain(|file| {
        let stage = file.parent().is_some_and(|above| above.ends_with("stages"));
        file.extension().is_some_and(|end| end == "yaml") && (stage || is_module(&shown(file)))
    });
    if files.len() > MOST_FILES {
        return Err(Failure::TooManyFiles {
            folder: shown(folder),
            found: files.len(),
            most: MOST_FILES,
        });
    }
    let mut found = Vec::new();
    for file in files {
        let path = shown(&file);
        if is_module(&path) {
            lay(shelf, &file, system)?;
            found.push(path);
        } else {
            lay_stage(shelf, &file, system)?;
        }
    }
    Ok(found)
}

/// Lays a stage over the shipped one of its name.
fn lay_stage<S: System>(shelf: &mut Shelf, file: &Path, system: &S) -> Result<(), Failure> {
    let bytes = system.read(file, limit())?;
    shelf.lay_stage(&shown(file), bytes);
    Ok(())
}
