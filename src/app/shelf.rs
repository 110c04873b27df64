//! The shelf: where modules, stages, hazards, faults and profiles are taken from, by id.
//!
//! The shipped files are one shelf; files of a laboratory can be laid over them. Left out: reading folders, which `laying` does.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::sync::OnceLock;

mod profiles;

use super::checked::Checked;
use super::fault;

use crate::bench::{BenchProblem, Model};
use crate::rehearsal::drive::Prepared;
use crate::report::HazardWords;
use crate::syllabus::case::CaseCard;
use crate::syllabus::digest;
use crate::syllabus::faults::{self, Fault};
use crate::syllabus::hazards::{self, Hazard};
use crate::syllabus::module::Module;
use crate::syllabus::plan::{Plan, PlanProblem};
use crate::syllabus::profile::{self, ProfileProblem};
use crate::syllabus::read::Place;
use crate::syllabus::read::module::{Assembled, Library, Refused, module};

/// The profile that is used when none is named.
pub const DEFAULT_PROFILE: &str = "common-practice";

/// Texts by path: `modules/constructions/stock-teeth.yaml`.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    files: BTreeMap<String, Vec<u8>>,
    /// The paths of files that were laid over what is shipped.
    own: BTreeSet<String>,
    /// Those of them that lie in the laboratory's folder, which is read again and again.
    of_folder: BTreeSet<String>,
    /// Paths of the folder from which nothing could be read, and why.
    refused: BTreeMap<String, ShelfProblem>,
    /// Profiles that were named by their paths: by name, with path and bytes.
    named_profiles: BTreeMap<String, (String, Vec<u8>)>,
    /// The ids that modules give themselves, by path. To know one its file is read, so each is read once, until a file comes or goes.
    ids: OnceLock<BTreeMap<String, String>>,
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
    /// The digest of the profile's numbers, in hexadecimal, where it is the laboratory's own. Those of a shipped one are the module's.
    pub numbers: Option<String>,
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
    /// A profile of the laboratory's own has the name of a shipped one.
    ProfileOfShippedName {
        /// The name.
        name: String,
        /// The path of its file.
        file: String,
    },
    /// A profile calls itself otherwise than its file.
    ProfileOfOtherName(Box<OtherName>),
    /// Several files are profiles of one name.
    ProfileTwice {
        /// The name.
        name: String,
        /// Their paths.
        files: Vec<String>,
    },
    /// The profile does not fit the module. Holds the path of its file.
    Profile(String, Vec<ProfileProblem>),
    /// The machine refused a file of the laboratory's own.
    Machine(fault::Fault),
    /// The folder holds more files of modules than are read.
    TooManyFiles {
        /// The folder's path.
        folder: String,
        /// How many there are.
        found: usize,
        /// How many are read at the most.
        most: usize,
    },
    /// Several files of the laboratory's own give themselves the same id.
    Twice {
        /// The id.
        id: String,
        /// Their paths.
        files: Vec<String>,
    },
    /// It can be read, but not be done as it is written.
    NotSound(Box<Checked>),
}

/// A profile that calls itself otherwise than its file.
#[derive(Clone, Debug)]
pub struct OtherName {
    /// The path of its file.
    pub file: String,
    /// Where it names itself.
    pub at: Place,
    /// What it calls itself.
    pub id: String,
    /// What its file is called.
    pub name: String,
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
            ..Shelf::default()
        }
    }

    /// Lays a file on the shelf, over one that may lie there.
    ///
    /// A module stands in the place of a shipped one that has its id; a stage does so for modules that were laid on the shelf too.
    pub fn lay(&mut self, path: &str, bytes: Vec<u8>) {
        self.ids.take();
        let before = self.files.insert(path.to_owned(), bytes);
        if before.is_none() {
            self.own.insert(path.to_owned());
        }
    }

    /// Lays a file of the laboratory's folder on the shelf, until the folder is read again.
    pub(super) fn lay_of_folder(&mut self, path: &str, bytes: Vec<u8>) {
        self.lay(path, bytes);
        self.of_folder.insert(path.to_owned());
    }

    /// Remembers that something of the laboratory's folder could not be read, so that whoever asks for it is told.
    pub(super) fn lay_refused(&mut self, path: &str, problem: ShelfProblem) {
        self.refused.insert(path.to_owned(), problem);
    }

    /// Takes what came from the laboratory's folder off the shelf.
    pub(super) fn forget_folder(&mut self) {
        self.ids.take();
        for path in std::mem::take(&mut self.of_folder) {
            self.files.remove(&path);
            self.own.remove(&path);
        }
        self.refused.clear();
    }

    /// Whether a module is one of the laboratory's own.
    #[must_use]
    pub fn is_own(&self, id: &str) -> bool {
        self.path(id).is_some_and(|path| self.own.contains(path))
    }

    /// The ids of the modules, sorted.
    #[must_use]
    pub fn modules(&self) -> Vec<String> {
        let modules = self.files.keys().filter(|path| is_module(path));
        let mut ids: Vec<String> = modules
            .filter_map(|path| self.id_of(path))
            .chain(
                self.refused_modules()
                    .map(|(path, _)| stem(path).to_owned()),
            )
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

    /// What was refused and is no profile.
    fn refused_modules(&self) -> impl Iterator<Item = (&String, &ShelfProblem)> {
        self.refused.iter().filter(|(path, _)| !is_profile(path))
    }

    /// The path of the module with this id: the laboratory's own, where it has one.
    #[must_use]
    pub fn path(&self, id: &str) -> Option<&str> {
        let paths = self.paths(id);
        let mut own = paths.iter().filter(|path| self.own.contains(**path));
        own.next().or(paths.first()).copied()
    }

    fn paths(&self, id: &str) -> Vec<&str> {
        let paths = self.files.keys().filter(|path| is_module(path));
        paths
            .filter(|path| self.id_of(path).as_deref() == Some(id))
            .map(String::as_str)
            .collect()
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

    /// The stages that the module at a path can use: a laboratory's own stages change its own modules, never the shipped ones.
    #[must_use]
    pub fn library(&self, path: &str) -> Library<'_> {
        let stages = self.files.iter().filter(|(path, _)| is_stage(path));
        let (own, shipped): (Vec<_>, Vec<_>) =
            stages.partition(|(stage, _)| self.own.contains(*stage));
        let own = own.into_iter().filter(|_| self.own.contains(path));
        let all = shipped.into_iter().chain(own);
        all.fold(Library::new(), |library, (path, bytes)| {
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

    /// Takes a module, with a profile laid over its numbers.
    ///
    /// # Errors
    /// When there is no such module or profile, when a file cannot be read, or when the profile does not fit.
    pub fn take(&self, id: &str, profile: Option<&str>) -> Result<Taken, ShelfProblem> {
        let path = self.one_path(id)?;
        let bytes = self.file(path).unwrap_or_default();
        let assembled =
            module(path, bytes, &self.library(path)).map_err(ShelfProblem::Unreadable)?;
        let hazards = self.hazards().map_err(ShelfProblem::Unreadable)?;
        let faults = self.faults().map_err(ShelfProblem::Unreadable)?;
        let digest = digest::digest(&assembled.canonical, &assembled.module, &hazards);
        let mut module = assembled.module.clone();
        let name = profile.unwrap_or(DEFAULT_PROFILE);
        let mut numbers = None;
        if self.is_laid_over(profile, &module)? {
            let overlay = self.profile(name)?;
            profile::apply(&overlay, &mut module).map_err(|problems| {
                let path = self.profile_path(name).unwrap_or(name);
                ShelfProblem::Profile(path.to_owned(), problems)
            })?;
            numbers = self.is_own_profile(name).then_some(overlay.digest);
        }
        Ok(Taken {
            module,
            files: assembled.files.clone(),
            assembled,
            digest,
            profile: name.to_owned(),
            numbers,
            hazards,
            faults,
        })
    }

    /// Takes a module by which a laboratory is to work: one of its own has to pass the check, as those that are shipped have.
    ///
    /// # Errors
    /// When it cannot be taken, or the check finds something wrong with it.
    pub fn take_sound(&self, id: &str) -> Result<Taken, ShelfProblem> {
        let taken = self.take(id, None)?;
        let path = self.one_path(id)?;
        if self.own.contains(path) {
            let checked = self.checked(path).map_err(ShelfProblem::Unreadable)?;
            if !checked.is_sound() {
                return Err(ShelfProblem::NotSound(Box::new(checked)));
            }
        }
        Ok(taken)
    }

    /// The path of the one module that is meant by an id.
    fn one_path(&self, id: &str) -> Result<&str, ShelfProblem> {
        let mut refused = self.refused_modules();
        if let Some((_, problem)) = refused.find(|(path, _)| stem(path) == id) {
            return Err(problem.clone());
        }
        let paths = self.paths(id);
        let (own, shipped): (Vec<&str>, Vec<&str>) =
            paths.into_iter().partition(|path| self.own.contains(*path));
        match own.as_slice() {
            [] => shipped
                .first()
                .copied()
                .ok_or_else(|| ShelfProblem::NoSuchModule {
                    found: id.to_owned(),
                    known: self.modules(),
                }),
            [only] => Ok(only),
            several => Err(ShelfProblem::Twice {
                id: id.to_owned(),
                files: several.iter().map(|&path| path.to_owned()).collect(),
            }),
        }
    }

    /// The id that a module file gives itself.
    fn id_of(&self, path: &str) -> Option<String> {
        let ids = self.ids.get_or_init(|| {
            let paths = self.files.keys().filter(|path| is_module(path));
            let read = paths.filter_map(|path| Some((path.clone(), self.read_id(path)?)));
            read.collect()
        });
        match ids.get(path) {
            Some(id) => Some(id.clone()),
            None => self.read_id(path),
        }
    }

    fn read_id(&self, path: &str) -> Option<String> {
        let text = std::str::from_utf8(self.files.get(path)?).ok()?;
        let assembled = module(path, text.as_bytes(), &self.library(path));
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
    !is_stage(path) && !is_profile(path) && !matches!(file, "hazards.yaml" | "faults.yaml")
}

/// Whether a path of the shelf is one of a stage.
pub(super) fn is_stage(path: &str) -> bool {
    folder_of(path) == "stages"
}

/// Whether a path of the shelf is one of a process profile.
#[must_use]
pub fn is_profile(path: &str) -> bool {
    folder_of(path) == "profiles"
}

/// The name of the folder that a file stands in.
fn folder_of(path: &str) -> &str {
    let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
    folder.rsplit('/').next().unwrap_or_default()
}

/// The name of a file without its folder and without the end that modules are written under, in whatever case.
fn stem(path: &str) -> &str {
    let file = path.rsplit('/').next().unwrap_or(path);
    match file.rsplit_once('.') {
        Some((name, end))
            if ["yaml", "yml"]
                .iter()
                .any(|one| end.eq_ignore_ascii_case(one)) =>
        {
            name
        }
        _ => file,
    }
}

#[cfg(test)]
mod tests;
