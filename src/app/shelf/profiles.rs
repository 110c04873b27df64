//! Process profiles on the shelf: the shipped ones, and those of the laboratory, found by the names of their files.
//!
//! The record names profiles, so one name means one set of numbers: what would give a name a second one is refused.

use super::{DEFAULT_PROFILE, OtherName, Shelf, ShelfProblem, is_profile, stem};
use crate::syllabus::module::Module;
use crate::syllabus::profile::{self, Profile, ProfileFault, ProfileProblem};
use crate::syllabus::read::nearest;

/// A file with its path.
type File<'s> = (&'s str, &'s [u8]);

/// The files of one name.
struct OfName<'s> {
    shipped: Option<File<'s>>,
    /// Those of the laboratory's own that say something else than the shipped one.
    own: Vec<File<'s>>,
    /// Those from which nothing could be read.
    refused: Vec<(&'s str, &'s ShelfProblem)>,
}

impl Shelf {
    /// Lays a profile on the shelf that was named by its path, and says its name.
    pub(in crate::app) fn lay_profile(&mut self, path: &str, bytes: Vec<u8>) -> String {
        let name = stem(path).to_owned();
        let file = (path.to_owned(), bytes);
        self.named_profiles.insert(name.clone(), file);
        name
    }

    /// The names of the profiles, sorted. Faulty ones are among them, so that whoever asks for one is told.
    #[must_use]
    pub fn profiles(&self) -> Vec<String> {
        let files = self.files.keys().chain(self.refused.keys());
        let names = files.filter(|path| is_profile(path)).map(|path| stem(path));
        let named = self.named_profiles.keys().map(String::as_str);
        let mut names: Vec<String> = names.chain(named).map(str::to_owned).collect();
        names.sort();
        names.dedup();
        names
    }

    /// The paths of the profiles with a name, the shipped one first.
    #[must_use]
    pub fn profile_paths(&self, name: &str) -> Vec<&str> {
        let found = self.of_name(name);
        let files = found.shipped.iter().chain(&found.own);
        files.map(|(path, _)| *path).collect()
    }

    /// Whether a profile is one of the laboratory's own.
    #[must_use]
    pub fn is_own_profile(&self, name: &str) -> bool {
        self.of_name(name).shipped.is_none()
    }

    pub(super) fn profile_path(&self, name: &str) -> Option<&str> {
        self.profile_paths(name).first().copied()
    }

    /// The profile with this name.
    ///
    /// # Errors
    /// When there is none, when its file cannot be read or calls itself otherwise, or when the name would mean several sets of numbers.
    pub fn profile(&self, name: &str) -> Result<Profile, ShelfProblem> {
        let OfName {
            shipped,
            own,
            refused,
        } = self.of_name(name);
        let paths = own.iter().map(|one| one.0);
        let mut paths: Vec<&str> = paths.chain(refused.iter().map(|one| one.0)).collect();
        paths.sort_unstable();
        if let (Some(_), Some(file)) = (shipped, paths.first()) {
            return Err(ShelfProblem::ProfileOfShippedName {
                name: name.to_owned(),
                file: (*file).to_owned(),
            });
        }
        if paths.len() > 1 {
            return Err(ShelfProblem::ProfileTwice {
                name: name.to_owned(),
                files: paths.into_iter().map(str::to_owned).collect(),
            });
        }
        if let Some((_, problem)) = refused.first() {
            return Err((*problem).clone());
        }
        let Some((path, bytes)) = shipped.or(own.first().copied()) else {
            return Err(self.no_such_profile(name));
        };
        let read = profile::profile(path, bytes).map_err(ShelfProblem::Unreadable)?;
        if read.id.value != name {
            return Err(ShelfProblem::ProfileOfOtherName(Box::new(OtherName {
                file: path.to_owned(),
                at: read.id.at,
                id: read.id.value,
                name: name.to_owned(),
            })));
        }
        Ok(read)
    }

    /// Why there is none of this name: where the laboratory's folder was refused, it may lie there.
    fn no_such_profile(&self, name: &str) -> ShelfProblem {
        let mut folders = self.refused_modules();
        let folder =
            folders.find(|(path, _)| stem(path) == path.rsplit('/').next().unwrap_or(path));
        match folder {
            Some((_, problem)) => problem.clone(),
            None => ShelfProblem::NoSuchProfile {
                found: name.to_owned(),
                known: self.profiles(),
            },
        }
    }

    fn of_name(&self, name: &str) -> OfName<'_> {
        let files = self.files.iter();
        let files = files.filter(|(path, _)| is_profile(path) && stem(path) == name);
        let (own, shipped): (Vec<File<'_>>, Vec<File<'_>>) = files
            .map(|(path, bytes)| (path.as_str(), bytes.as_slice()))
            .partition(|(path, _)| self.own.contains(*path));
        let shipped = shipped.first().copied();
        let named = self.named_profiles.get(name);
        let named = named.map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
        // One that is named by its path may lie in the laboratory's folder too, and be spelled otherwise.
        let own = own.into_iter();
        let own = own.filter(|(path, bytes)| {
            named.is_none_or(|named| named.0 != *path && named.1 != *bytes)
        });
        // A copy of a shipped one gives its name no second meaning.
        let own = named.into_iter().chain(own);
        let own = own.filter(|(_, bytes)| shipped.is_none_or(|shipped| shipped.1 != *bytes));
        let refused = self.refused.iter();
        let refused = refused.filter(|(path, _)| is_profile(path) && stem(path) == name);
        OfName {
            shipped,
            own: own.collect(),
            refused: refused.map(|(path, why)| (path.as_str(), why)).collect(),
        }
    }

    /// Whether a module is worked by the numbers of a profile, and not by its own.
    pub(super) fn is_laid_over(
        &self,
        profile: Option<&str>,
        module: &Module,
    ) -> Result<bool, ShelfProblem> {
        if profile.is_some_and(|name| name != DEFAULT_PROFILE) {
            return Ok(true);
        }
        // The default holds for what is shipped. Another module keeps its own numbers under it.
        match self.of_name(DEFAULT_PROFILE).shipped {
            Some((path, bytes)) => {
                let shipped = profile::profile(path, bytes).map_err(ShelfProblem::Unreadable)?;
                Ok(shipped.covers(module))
            }
            // A shelf without the default profile gives modules their own numbers.
            None => Ok(profile.is_some()),
        }
    }

    /// Whether a workflow can be worked by the numbers of a profile; where its module is not here, whether the profile is.
    ///
    /// # Errors
    /// Why it cannot.
    pub fn suits(&self, workflow: &str, profile: &str) -> Result<(), ShelfProblem> {
        match self.take(workflow, None) {
            Ok(_) => self.take(workflow, Some(profile)).map(drop),
            Err(_) => self.profile(profile).map(drop),
        }
    }

    /// The names of the profiles by which a module can be worked, the default one first, then sorted.
    ///
    /// One that says nothing about the module is not among them; one that is faulty is, so that whoever takes it is told.
    #[must_use]
    pub fn covering(&self, module: &str) -> Vec<String> {
        let taken = self.take(module, None).ok();
        let others = self.profiles().into_iter();
        let others = others.filter(|name| name != DEFAULT_PROFILE);
        let others = others.filter(|name| match self.profile(name) {
            Ok(one) if one.modules.is_empty() => taken
                .as_ref()
                .is_none_or(|taken| profile::apply(&one, &mut taken.module.clone()).is_ok()),
            Ok(one) => one.modules.iter().any(|listed| listed.value == module),
            Err(_) => true,
        });
        std::iter::once(DEFAULT_PROFILE.to_owned())
            .chain(others)
            .collect()
    }

    /// What is wrong with the profile at a path for the modules that it is meant for: names that none of them has, and modules that there are not.
    ///
    /// # Errors
    /// When it cannot be taken from the shelf.
    pub fn checked_profile(&self, path: &str) -> Result<Vec<ProfileProblem>, ShelfProblem> {
        let profile = self.profile(stem(path))?;
        let known = self.modules();
        let mut problems = Vec::new();
        let mut modules = Vec::new();
        for listed in &profile.modules {
            match self.take(&listed.value, None) {
                Ok(taken) => modules.push(taken.module),
                Err(ShelfProblem::NoSuchModule { found, .. }) => problems.push(ProfileProblem {
                    at: listed.at,
                    what: ProfileFault::NoSuchModule {
                        suggestion: nearest(&found, known.iter().map(String::as_str))
                            .map(str::to_owned),
                        found,
                    },
                }),
                // What is wrong with the module is told where it is checked.
                Err(_) => {}
            }
        }
        problems.extend(profile.unused(&modules.iter().collect::<Vec<_>>()));
        for module in &modules {
            let misfits = profile::apply(&profile, &mut module.clone()).err();
            let misfits = misfits.unwrap_or_default().into_iter();
            let new = misfits.filter(|one| !problems.contains(one));
            problems.extend(new.collect::<Vec<_>>());
        }
        problems.sort_by_key(|one| (one.at.line, one.at.column));
        Ok(problems)
    }
}
