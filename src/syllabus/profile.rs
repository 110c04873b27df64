//! The process profile: the numbers of one proven set, laid over the modules that it covers.
//!
//! A profile changes numbers and nothing else: what is done, in which order and why stays the module's. One that lists the
//! modules it covers passes over names that a module does not have, since they are meant for another one; [`Profile::unused`]
//! finds the names that none of them has. One that lists no modules is meant for each it is laid over, and there every name
//! must be found.

use super::digest::digest_without;
use super::module::{
    CapChange, Keeping, Module, Moment, Name, Origin, StationNumber, TimeChange, TimeRule,
    TimeWindow,
};
use super::read::module::{
    Refused, cap_change, cap_limits, change, duration, limits, moment, named, names, numbers,
    origin,
};
use super::read::{Fault, MapReader, Node, Place, Problems, list_of, name, nearest, read, text};
use crate::units::Millis;

/// The numbers of one proven set.
#[derive(Clone, Debug)]
pub struct Profile {
    /// Its id, as a sign-off names it.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// Where its numbers come from.
    pub origin: Origin,
    /// The proven set in generic words.
    pub set: String,
    /// The modules it covers; empty: those it is laid over.
    pub modules: Vec<Name>,
    /// Numbers of steps.
    pub steps: Vec<(Name, StepNumbers)>,
    /// Numbers of stations.
    pub stations: Vec<(Name, Vec<StationNumber>)>,
    /// Caps, found by the steps they sum.
    pub caps: Vec<CapNumbers>,
    /// Gaps, found by their two moments.
    pub gaps: Vec<GapNumbers>,
    /// How long one of a protection item may be used.
    pub change_every: Vec<(Name, Millis)>,
    /// The digest of its numbers, in hexadecimal. Its head, comments and layout leave it as it is.
    pub digest: String,
}

/// The numbers of one step.
#[derive(Clone, Debug)]
pub enum StepNumbers {
    /// Of a step that is timed or counted.
    Window {
        /// Target, least and most.
        limits: (Millis, Millis, Millis),
        /// What the case card changes.
        changes: Vec<TimeChange>,
    },
    /// Of a step that ends by a sign: how soon after it.
    Within(Millis),
}

/// The numbers of one cap.
#[derive(Clone, Debug)]
pub struct CapNumbers {
    /// Where it stands.
    pub at: Place,
    /// The steps that are summed.
    pub over: Vec<Name>,
    /// At most.
    pub most: Millis,
    /// Larger caps when one of these steps was done.
    pub when_done: Vec<(Name, Millis)>,
    /// What the case card changes.
    pub changes: Vec<CapChange>,
}

/// The numbers of one gap.
#[derive(Clone, Debug)]
pub struct GapNumbers {
    /// Where it stands.
    pub at: Place,
    /// From which moment.
    pub from: Moment,
    /// To which moment.
    pub to: Moment,
    /// At least.
    pub least: Option<Millis>,
    /// At most.
    pub most: Option<Millis>,
}

/// Why a profile cannot be laid over a module. Places are in the profile's file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProfileProblem {
    /// Where in the profile.
    pub at: Place,
    /// What is wrong.
    pub what: ProfileFault,
}

/// What is wrong with a profile for a module.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ProfileFault {
    /// The profile lists the modules it covers, and this is none of them.
    NotCovered {
        /// The module.
        module: String,
    },
    /// The profile lists a module that there is not.
    NoSuchModule {
        /// As written.
        found: String,
        /// What may have been meant.
        suggestion: Option<String>,
    },
    /// A step, station or protection item that does not exist.
    Unknown {
        /// The kind: `step`, `station`, `protection item`.
        kind: &'static str,
        /// As written.
        found: String,
        /// What may have been meant.
        suggestion: Option<String>,
    },
    /// No cap sums exactly these steps.
    NoSuchCap,
    /// No gap is between exactly these moments.
    NoSuchGap,
    /// The step keeps its time in another way than these numbers are for, or is not timed.
    OtherKeeping {
        /// The step.
        step: String,
    },
}

/// Reads a profile. `name` is the name of its file.
///
/// # Errors
/// One fault of syntax, or all faults of structure.
pub fn profile(name: &str, bytes: &[u8]) -> Result<Profile, Refused> {
    read(bytes, decode).map_err(|report| super::hazards::refused(name, report))
}

fn decode(node: &Node, problems: &mut Problems) -> Option<Profile> {
    let digest = digest_without(node, "profile");
    let mut map = MapReader::open(node, problems)?;
    let head = map.required("profile", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let id = map.required("id", name);
        let title = map.required("title", text);
        let origin = map.required("origin", origin);
        let set = map.required("set", text);
        let modules = map.or("modules", Vec::new(), names);
        map.finish();
        Some((id?, title?, origin?, set?, modules))
    });
    let of_profile = head.as_ref().map(|head| head.2.clone());
    // Without a head nothing is returned, so it does not matter what stands in for its origin.
    let of_profile = of_profile.unwrap_or(Origin::OurDefault);
    let steps = map.or("steps", Vec::new(), named(step_numbers));
    let stations = map.or("stations", Vec::new(), |node, problems| {
        named(|node, problems| numbers(node, problems, &of_profile))(node, problems)
    });
    let caps = map.list("caps", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let at = map.at();
        let over = map.some("over", name);
        let limits = cap_limits(&mut map);
        let changes = map.list("changes", cap_change);
        map.finish();
        let (most, when_done) = limits?;
        Some(CapNumbers {
            at,
            over: over?,
            most,
            when_done,
            changes,
        })
    });
    let gaps = map.list("gaps", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let at = map.at();
        let from = map.required("from", moment);
        let to = map.required("to", moment);
        let least = map.optional("least", duration);
        let most = map.optional("most", duration);
        if map.node("least").is_none() && map.node("most").is_none() {
            map.problems().add(at, Fault::MissingKey { key: "most" });
        }
        map.finish();
        Some(GapNumbers {
            at,
            from: from?,
            to: to?,
            least,
            most,
        })
    });
    let change_every = map.or("change-every", Vec::new(), named(duration));
    map.finish();
    let (id, title, origin, set, modules) = head?;
    Some(Profile {
        id,
        title,
        origin,
        set,
        modules,
        steps,
        stations,
        caps,
        gaps,
        change_every,
        digest,
    })
}

fn step_numbers(node: &Node, problems: &mut Problems) -> Option<StepNumbers> {
    let mut map = MapReader::open(node, problems)?;
    if map.node("within").is_some() {
        let within = map.required("within", duration);
        map.finish();
        return within.map(StepNumbers::Within);
    }
    let limits = limits(&mut map);
    let changes = map.or("changes", Vec::new(), list_of(change));
    map.finish();
    Some(StepNumbers::Window {
        limits: limits?,
        changes,
    })
}

/// Lays a profile over a module.
///
/// # Errors
/// Everything of the profile that does not fit the module; the module is then as it was.
pub fn apply(profile: &Profile, module: &mut Module) -> Result<(), Vec<ProfileProblem>> {
    let id = &module.identity.id.value;
    let covers_several = !profile.modules.is_empty();
    if !profile.covers(module) {
        let what = ProfileFault::NotCovered { module: id.clone() };
        let at = profile.id.at;
        return Err(vec![ProfileProblem { at, what }]);
    }
    let mut changed = module.clone();
    let mut problems = overlay(profile, &mut changed);
    if covers_several {
        problems.retain(|it| matches!(it.what, ProfileFault::OtherKeeping { .. }));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    *module = changed;
    Ok(())
}

impl Profile {
    /// Whether it is meant for a module: it lists it, or it lists none.
    #[must_use]
    pub fn covers(&self, module: &Module) -> bool {
        let id = &module.identity.id.value;
        self.modules.is_empty() || self.modules.iter().any(|it| it.value == *id)
    }

    /// What fits none of the modules that the profile is meant for.
    #[must_use]
    pub fn unused(&self, modules: &[&Module]) -> Vec<ProfileProblem> {
        let mut modules = modules.iter();
        let misses = |module: &&Module| overlay(self, &mut (*module).clone());
        let Some(mut left) = modules.next().map(misses) else {
            return Vec::new();
        };
        for module in modules {
            let here = misses(module);
            left.retain(|one| here.iter().any(|other| other.at == one.at));
        }
        left
    }
}

/// Changes what is found and says what is not.
fn overlay(profile: &Profile, module: &mut Module) -> Vec<ProfileProblem> {
    let mut problems = Vec::new();
    let mut complain = |at, what| problems.push(ProfileProblem { at, what });
    for (name, numbers) in &profile.steps {
        let ids: Vec<String> = module.steps.iter().map(|it| it.id.value.clone()).collect();
        match module.steps.iter_mut().find(|it| it.id.value == name.value) {
            None => complain(name.at, unknown("step", name, &ids)),
            Some(step) => {
                if !set(step.keeping.as_mut(), numbers, &profile.origin) {
                    let step = name.value.clone();
                    complain(name.at, ProfileFault::OtherKeeping { step });
                }
            }
        }
    }
    for (name, numbers) in &profile.stations {
        let stations = &mut module.stations;
        let ids: Vec<String> = stations.iter().map(|it| it.id.value.clone()).collect();
        let Some(station) = stations.iter_mut().find(|it| it.id.value == name.value) else {
            complain(name.at, unknown("station", name, &ids));
            continue;
        };
        for number in numbers {
            let there = station.numbers.iter_mut();
            match there
                .into_iter()
                .find(|it| it.name.value == number.name.value)
            {
                Some(there) => *there = number.clone(),
                None => station.numbers.push(number.clone()),
            }
        }
    }
    for cap in &profile.caps {
        if !set_cap(cap, &profile.origin, &mut module.time_rules) {
            complain(cap.at, ProfileFault::NoSuchCap);
        }
    }
    for gap in &profile.gaps {
        if !set_gap(gap, &profile.origin, &mut module.time_rules) {
            complain(gap.at, ProfileFault::NoSuchGap);
        }
    }
    for (name, every) in &profile.change_every {
        let items = &mut module.protection_items;
        let ids: Vec<String> = items.iter().map(|it| it.id.value.clone()).collect();
        match items.iter_mut().find(|it| it.id.value == name.value) {
            Some(item) => item.change_every = Some(*every),
            None => complain(name.at, unknown("protection item", name, &ids)),
        }
    }
    problems
}

fn unknown(kind: &'static str, name: &Name, known: &[String]) -> ProfileFault {
    ProfileFault::Unknown {
        kind,
        found: name.value.clone(),
        suggestion: nearest(&name.value, known.iter().map(String::as_str)).map(str::to_owned),
    }
}

/// Sets the numbers of a step, if it keeps its time in the way they are for.
fn set(keeping: Option<&mut Keeping>, numbers: &StepNumbers, from: &Origin) -> bool {
    match (keeping, numbers) {
        (
            Some(Keeping::Timer(window) | Keeping::Count(window)),
            StepNumbers::Window { limits, changes },
        ) => {
            let (target, least, most) = *limits;
            *window = TimeWindow {
                target,
                least,
                most,
                changes: changes.clone(),
                origin: Some(from.clone()),
            };
            true
        }
        (Some(Keeping::Watch { within, .. }), StepNumbers::Within(new)) => {
            *within = *new;
            true
        }
        _ => false,
    }
}

fn set_cap(cap: &CapNumbers, from: &Origin, rules: &mut [TimeRule]) -> bool {
    let sorted = |names: &[Name]| {
        let mut names: Vec<String> = names.iter().map(|it| it.value.clone()).collect();
        names.sort_unstable();
        names
    };
    let mut found = false;
    for rule in rules {
        if let TimeRule::Cap {
            over,
            most,
            when_done,
            changes,
            origin,
            ..
        } = rule
            && sorted(over) == sorted(&cap.over)
        {
            *most = cap.most;
            when_done.clone_from(&cap.when_done);
            changes.clone_from(&cap.changes);
            *origin = Some(from.clone());
            found = true;
        }
    }
    found
}

fn set_gap(gap: &GapNumbers, of_profile: &Origin, rules: &mut [TimeRule]) -> bool {
    let same =
        |one: &Moment, other: &Moment| one.step.value == other.step.value && one.end == other.end;
    let mut found = false;
    for rule in rules {
        if let TimeRule::Gap {
            from,
            to,
            least,
            most,
            origin,
            ..
        } = rule
            && same(from, &gap.from)
            && same(to, &gap.to)
        {
            *least = gap.least;
            *most = gap.most;
            *origin = Some(of_profile.clone());
            found = true;
        }
    }
    found
}

#[cfg(test)]
mod tests;
