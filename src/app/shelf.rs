//! The shelf: where modules, stages, hazards, faults and profiles are taken from, by id.
//!
//! The shipped files are one shelf; files of a laboratory can be laid over them. Left out: reading folders, which the edge does.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::bench::{BenchProblem, Model};
use crate::rehearsal::drive::Prepared;
use crate::report::HazardWords;
use crate::syllabus::case::CaseCard;
use crate::syllabus::digest;
use crate::syllabus::faults::{self, Fault};
use crate::syllabus::hazards::{self, Hazard};
use crate::syllabus::module::Module;
use crate::syllabus::plan::{Plan, PlanProblem};
use crate::syllabus::profile::{self, Profile, ProfileProblem};
use crate::syllabus::read::module::{Assembled, Library, Refused, module};

/// The profile that is used when none is named.
pub const DEFAULT_PROFILE: &str = "common-practice";

/// Texts by path: `modules/constructions/stock-teeth.yaml`.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    files: BTreeMap<String, Vec<u8>>,
}

/// A module taken from the shelf, read, with what belongs to it.
#[derive(Clone, Debug)]
pub struct Taken {
    /// The module as read, its profile applied.
    pub module: Module,
    /// The files it was read from; places refer to them by index.
    pub files: Vec<String>,
    /// The module with its stages merged, as it was before the profile.
    pub assembled: Assembled,
    /// The digest of its content, before the profile, in hexadecimal.
    pub digest: String,
    /// The name of the profile.
    pub profile: String,
    /// The shared hazards.
    pub hazards: Vec<Hazard>,
    /// The shared faults.
    pub faults: Vec<Fault>,
}

/// Why something cannot be taken from the shelf.
#[derive(Clone, Debug)]
pub enum ShelfProblem {
    /// There is no module with this id; holds the ids there are.
    NoSuchModule {
        /// What was asked for.
        found: String,
        /// What there is.
        known: Vec<String>,
    },
    /// There is no profile with this name; holds the names there are.
    NoSuchProfile {
        /// What was asked for.
        found: String,
        /// What there is.
        known: Vec<String>,
    },
    /// A file of the shelf cannot be read.
    Unreadable(Refused),
    /// The profile does not fit the module. Holds the name of its file.
    Profile(String, Vec<ProfileProblem>),
}

/// Why a module gives no plan or no bench for a case card.
#[derive(Clone, Debug)]
pub enum PrepareProblem {
    /// No plan.
    Plan(Vec<PlanProblem>),
    /// No bench.
    Bench(Vec<BenchProblem>),
}

impl Shelf {
    /// The shelf of what travels inside the program.
    #[must_use]
    pub fn shipped() -> Shelf {
        let files = crate::shipped::modules().iter();
        Shelf {
            files: files
                .map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec()))
                .collect(),
        }
    }

    /// Lays a file on the shelf, over one that may lie there.
    pub fn lay(&mut self, path: &str, bytes: Vec<u8>) {
        self.files.insert(path.to_owned(), bytes);
    }

    /// Lays a stage on the shelf, in the place of one that has its name.
    pub fn lay_stage(&mut self, path: &str, bytes: Vec<u8>) {
        self.files
            .retain(|other, _| !(is_stage(other) && stem(other) == stem(path)));
        self.lay(path, bytes);
    }

    /// The ids of the modules, sorted.
    #[must_use]
    pub fn modules(&self) -> Vec<String> {
        let mut ids: Vec<String> = self
            .files
            .keys()
            .filter(|path| is_module(path))
            .filter_map(|path| self.id_of(path))
            .collect();
        ids.sort();
        ids.dedup();
        ids
    }

    /// The paths of the modules, sorted.
    #[must_use]
    pub fn module_paths(&self) -> Vec<String> {
        self.files
            .keys()
            .filter(|path| is_module(path))
            .cloned()
            .collect()
    }

    /// The path of the module with this id.
    #[must_use]
    pub fn path(&self, id: &str) -> Option<&str> {
        let mut paths = self.files.keys().filter(|path| is_module(path));
        paths
            .find(|path| self.id_of(path).as_deref() == Some(id))
            .map(String::as_str)
    }

    /// The id of the module at a path.
    #[must_use]
    pub fn id_at(&self, path: &str) -> Option<String> {
        self.id_of(path)
    }

    /// The bytes of a file.
    #[must_use]
    pub fn file(&self, path: &str) -> Option<&[u8]> {
        self.files.get(path).map(Vec::as_slice)
    }

    /// The names of the profiles, sorted.
    #[must_use]
    pub fn profiles(&self) -> Vec<String> {
        let names = self.files.keys().filter(|path| path.contains("/profiles/"));
        names.map(|path| stem(path).to_owned()).collect()
    }

    /// The stages on the shelf.
    #[must_use]
    pub fn library(&self) -> Library<'_> {
        let stages = self.files.iter().filter(|(path, _)| is_stage(path));
        stages.fold(Library::new(), |library, (path, bytes)| {
            library.with(stem(path), path, bytes)
        })
    }

    /// The shared hazards; none when the shelf has no such file.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn hazards(&self) -> Result<Vec<Hazard>, Refused> {
        self.ending("modules/hazards.yaml")
            .map_or(Ok(Vec::new()), |(path, bytes)| {
                hazards::hazards(path, bytes)
            })
    }

    /// The shared faults; none when the shelf has no such file.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn faults(&self) -> Result<Vec<Fault>, Refused> {
        self.ending("modules/faults.yaml")
            .map_or(Ok(Vec::new()), |(path, bytes)| faults::faults(path, bytes))
    }

    fn ending(&self, end: &str) -> Option<(&str, &[u8])> {
        let mut found = self.files.iter().filter(|(path, _)| path.ends_with(end));
        found
            .next()
            .map(|(path, bytes)| (path.as_str(), bytes.as_slice()))
    }

    /// The profile with this name.
    ///
    /// # Errors
    /// When there is none, or its file cannot be read.
    pub fn profile(&self, name: &str) -> Result<Profile, ShelfProblem> {
        let wanted = format!("/profiles/{name}.yaml");
        let (path, bytes) = self
            .ending(&wanted)
            .ok_or_else(|| ShelfProblem::NoSuchProfile {
                found: name.to_owned(),
                known: self.profiles(),
            })?;
        profile::profile(path, bytes).map_err(ShelfProblem::Unreadable)
    }

    /// Takes a module, with a profile laid over its numbers.
    ///
    /// # Errors
    /// When there is no such module or profile, when a file cannot be read, or when the profile does not fit.
    pub fn take(&self, id: &str, profile: Option<&str>) -> Result<Taken, ShelfProblem> {
        let path = self.path(id).ok_or_else(|| ShelfProblem::NoSuchModule {
            found: id.to_owned(),
            known: self.modules(),
        })?;
        let bytes = self.file(path).unwrap_or_default();
        let assembled = module(path, bytes, &self.library()).map_err(ShelfProblem::Unreadable)?;
        let hazards = self.hazards().map_err(ShelfProblem::Unreadable)?;
        let faults = self.faults().map_err(ShelfProblem::Unreadable)?;
        let digest = digest::digest(&assembled.canonical, &assembled.module, &hazards);
        let mut module = assembled.module.clone();
        let name = profile.unwrap_or(DEFAULT_PROFILE);
        // A shelf without the default profile gives modules their own numbers.
        if profile.is_some() || self.profiles().iter().any(|one| one == name) {
            let overlay = self.profile(name)?;
            profile::apply(&overlay, &mut module)
                .map_err(|problems| ShelfProblem::Profile(name.to_owned(), problems))?;
        }
        Ok(Taken {
            module,
            files: assembled.files.clone(),
            assembled,
            digest,
            profile: name.to_owned(),
            hazards,
            faults,
        })
    }

    /// The id that a module file gives itself, without reading the whole of it.
    fn id_of(&self, path: &str) -> Option<String> {
        let text = std::str::from_utf8(self.files.get(path)?).ok()?;
        let assembled = module(path, text.as_bytes(), &self.library());
        match assembled {
            Ok(assembled) => Some(assembled.module.identity.id.value),
            // A module that cannot be read is still asked for by the name of its file, so that its problems are told.
            Err(_) => Some(stem(path).to_owned()),
        }
    }
}

impl Taken {
    /// The text that the digest is made of.
    #[must_use]
    pub fn digested(&self) -> String {
        let Assembled {
            canonical, module, ..
        } = &self.assembled;
        digest::digested(canonical, module, &self.hazards)
    }

    /// The words of a shared hazard.
    #[must_use]
    pub fn hazard(&self, id: &str) -> Option<HazardWords> {
        let found = self.hazards.iter().find(|one| one.id.value == id)?;
        Some(HazardWords {
            title: found.title.clone(),
            precautions: found.precautions.clone(),
        })
    }

    /// Compiles the module for a case card.
    ///
    /// # Errors
    /// When it gives no plan or no bench.
    pub fn prepare(&self, card: &CaseCard) -> Result<Arc<Prepared>, PrepareProblem> {
        let plan = Plan::compile(&self.module, card).map_err(PrepareProblem::Plan)?;
        let model = Model::new(&self.module, card).map_err(PrepareProblem::Bench)?;
        Ok(Arc::new(Prepared {
            module: self.module.clone(),
            plan,
            model: Arc::new(model),
        }))
    }
}

/// Whether a path of the shelf is one of a module, and not of what modules share.
#[must_use]
pub fn is_module(path: &str) -> bool {
    let file = path.rsplit('/').next().unwrap_or_default();
    !is_stage(path)
        && folder_of(path) != "profiles"
        && !matches!(file, "hazards.yaml" | "faults.yaml")
}

fn is_stage(path: &str) -> bool {
    folder_of(path) == "stages"
}

/// The name of the folder that a file stands in.
fn folder_of(path: &str) -> &str {
    let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
    folder.rsplit('/').next().unwrap_or_default()
}

fn stem(path: &str) -> &str {
    let file = path.rsplit('/').next().unwrap_or(path);
    file.strip_suffix(".yaml").unwrap_or(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_there_is_named_with_what_is() {
        let shelf = Shelf::shipped();
        assert!(shelf.modules().contains(&"stock-teeth".to_owned()));
        let problem = shelf.take("stock-tooth", None).err();
        assert!(
            matches!(problem, Some(ShelfProblem::NoSuchModule { known, .. }) if known == shelf.modules())
        );
        let problem = shelf.take("stock-teeth", Some("nobody's")).err();
        assert!(matches!(problem, Some(ShelfProblem::NoSuchProfile { .. })));
    }
}
