//! Files named on the command line: modules and profiles by path are laid on the shelf, with the stages beside them.

use std::path::Path;

use super::failure::Failure;
use crate::app::System;
use crate::app::laying;
pub(super) use crate::app::laying::{limit, shown};
use crate::app::rehearse::StartProblem;
use crate::app::shelf::{Shelf, ShelfProblem};

/// Whether an argument is a path rather than an id.
pub(super) fn is_path(wanted: &str) -> bool {
    laying::is_yaml(Path::new(wanted)) || wanted.contains(['/', '\\'])
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
    Ok(laying::module(shelf, Path::new(wanted), system)?)
}

/// The same; an id can be that of a module in the laboratory's folder too, and the profiles that lie there can be named.
pub(super) fn module_of<S: System>(
    shelf: &mut Shelf,
    wanted: &str,
    data: Option<&Path>,
    system: &S,
) -> Result<String, Failure> {
    if is_path(wanted) {
        laying::own_profiles(shelf, data, system);
    } else {
        laying::own(shelf, data, system);
    }
    module(shelf, wanted, system)
}

/// Lays a profile on the shelf if it is named by a path, and says by which name it is asked for.
pub(super) fn profile<S: System>(
    shelf: &mut Shelf,
    wanted: Option<&str>,
    system: &S,
) -> Result<Option<String>, Failure> {
    match wanted.filter(|wanted| is_path(wanted)) {
        Some(path) => Ok(Some(laying::profile(shelf, Path::new(path), system)?)),
        None => Ok(wanted.map(str::to_owned)),
    }
}

/// Lays the profiles of the laboratory's folder on the shelf, if one of them is named and nothing else from there is.
pub(super) fn own_profile<S: System>(
    shelf: &mut Shelf,
    name: &str,
    data: Option<&Path>,
    system: &S,
) {
    if !shelf.profiles().iter().any(|one| one == name) {
        laying::own_profiles(shelf, data, system);
    }
}

/// Lays the modules below a folder on the shelf, with the stages among them, and says by which paths they are asked for.
pub(super) fn modules_in<S: System>(
    shelf: &mut Shelf,
    folder: &Path,
    system: &S,
) -> Result<Vec<String>, Failure> {
    laying::folder(shelf, folder, system).map_err(|problem| match problem {
        ShelfProblem::Machine(fault) => Failure::Machine(fault),
        problem => Failure::Start(StartProblem::Shelf(problem)),
    })
}
