//! From the text of a module and of the stages it uses to a [`Module`].
//!
//! Everything that is wrong with the structure of any of the files is told in one go. Left out: whether names stand for
//! something and whether the module makes sense (`syllabus::check`).

mod identity;
mod operations;
mod rules;
mod setting;
mod stages;
mod steps;
mod terms;

use std::collections::BTreeMap;

use super::problem::{Problems, Report};
use super::tree::{Node, Value, parse_file};
use super::{Fault, MapReader, text};
use crate::syllabus::digest;
use crate::syllabus::module::{Module, Name, Origin, Stage};

pub(in crate::syllabus) use rules::{cap_change, cap_limits, moment};
pub(in crate::syllabus) use setting::numbers;
pub(in crate::syllabus) use steps::{change, limits};
pub(in crate::syllabus) use terms::{duration, key_name, named, names, origin};

/// The stages that modules can use, as the texts of their files.
#[derive(Clone, Debug, Default)]
pub struct Library<'t> {
    stages: BTreeMap<String, (String, &'t [u8])>,
}

impl<'t> Library<'t> {
    /// No stages yet.
    #[must_use]
    pub fn new() -> Library<'t> {
        Library::default()
    }

    /// The same with one more stage: the id it is used by, the name of its file, and the file.
    #[must_use]
    pub fn with(mut self, id: &str, file: &str, bytes: &'t [u8]) -> Library<'t> {
        self.stages.insert(id.to_owned(), (file.to_owned(), bytes));
        self
    }

    fn stage(&self, id: &str) -> Option<(&str, &'t [u8])> {
        let (file, bytes) = self.stages.get(id)?;
        Some((file, bytes))
    }

    fn ids(&self) -> impl Iterator<Item = &str> {
        self.stages.keys().map(String::as_str)
    }
}

/// A module with its stages merged.
#[derive(Clone, Debug)]
pub struct Assembled {
    /// The module.
    pub module: Module,
    /// The names of the files it was read from; places refer to them by index, and 0 is the module's own.
    pub files: Vec<String>,
    /// The stages it uses.
    pub stages: Vec<StageUse>,
    /// The canonical text of the module, from which its digest is made.
    pub canonical: String,
}

/// A stage that a module uses.
#[derive(Clone, Debug)]
pub struct StageUse {
    /// Its id, where the module names it.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// The index of its file.
    pub file: u16,
    /// What it says it may name of what stands outside.
    pub expects: Vec<Name>,
    /// What the module lends it beyond that.
    pub lent: Vec<Name>,
}

/// Why files are no module: all faults of their structure.
#[derive(Clone, Debug)]
pub struct Refused {
    /// The names of the files; places refer to them by index.
    pub files: Vec<String>,
    /// The problems.
    pub report: Report,
}

/// Reads a module with the stages it uses. `name` is the name of its file.
///
/// # Errors
/// One fault of syntax, or all faults of structure, over all the files.
pub fn module(name: &str, bytes: &[u8], library: &Library<'_>) -> Result<Assembled, Refused> {
    let mut files = vec![name.to_owned()];
    let mut problems = Problems::new();
    let read = parse_file(bytes, 0, &mut problems).and_then(|root| {
        let read = assemble(&root, library, &mut files, &mut problems);
        if read.is_none() && problems.is_empty() {
            problems.add(root.at, Fault::Refused);
        }
        read
    });
    match read {
        Some((module, stages, canonical)) if problems.is_empty() => Ok(Assembled {
            module,
            files,
            stages,
            canonical,
        }),
        _ => Err(Refused {
            files,
            report: problems.report(),
        }),
    }
}

fn assemble(
    root: &Node,
    library: &Library<'_>,
    files: &mut Vec<String>,
    problems: &mut Problems,
) -> Option<(Module, Vec<StageUse>, String)> {
    let mut map = MapReader::open(root, problems)?;
    let head = map.required("module", identity::head);
    let of_module = head.as_ref().map(|head| head.origin.clone());
    // Without a head nothing is returned, so it does not matter what stands in for its origin.
    let of_module = of_module.unwrap_or(Origin::OurDefault);
    let sources = map.or("sources", Vec::new(), terms::named(text));
    let hazards = map.or("hazards", Vec::new(), terms::names);
    let cautions = map.list("cautions", text);
    let requires = map.or("requires", Vec::new(), terms::names);
    let case = map.or("case", Vec::new(), setting::case);
    let repeats = map.or("repeats", Vec::new(), setting::repeats);
    let (parts, aspects) = map.or("parts", (Vec::new(), Vec::new()), setting::parts);
    let stations = map.or("bench", Vec::new(), |node, problems| {
        setting::bench(node, problems, &of_module)
    });
    let products = map.or("shelf", Vec::new(), setting::shelf);
    let (protection_items, guards) =
        map.or("protection", (Vec::new(), Vec::new()), setting::protection);
    let flow = map.required("flow", |node, problems| {
        stages::flow(node, library, files, problems)
    });
    let time_rules = map.or("time-rules", Vec::new(), rules::time_rules);
    let never = map.or("never", Vec::new(), rules::never);
    let disturbances = map.or("disturbances", Vec::new(), rules::disturbances);
    let consequences = map.or("consequences", Vec::new(), rules::consequences);
    let sign_off = map.optional("sign-off", identity::sign_off);
    map.finish();

    let mut flow = flow?;
    let (mut steps, mut of_stage, mut kept) = (Vec::new(), Vec::new(), Vec::new());
    for written in std::mem::take(&mut flow.steps) {
        if let Some(mut step) = steps::step(&written.node, problems) {
            let stage = written.stage.map(|index| &flow.stages[index]);
            step.stage = stage.map(|stage| Stage {
                id: stage.id.value.clone(),
                title: stage.title.clone(),
            });
            steps.push(step);
            of_stage.push(written.stage);
            kept.push(written.node);
        }
    }
    stages::bridge(&mut steps, &of_stage, &flow, &repeats);
    for (node, step) in kept.iter_mut().zip(&steps) {
        set_after(node, stages::written(&step.after, node.at));
    }
    let canonical = digest::canonical(root, &kept);
    let module = Module {
        identity: head?.with(sources, hazards, cautions),
        requires,
        case,
        repeats,
        parts,
        aspects,
        stations,
        products,
        protection_items,
        steps,
        time_rules,
        guards,
        never,
        disturbances,
        consequences,
        sign_off,
    };
    Some((module, flow.stages, canonical))
}

/// Puts the links of a step in the place of those written.
fn set_after(node: &mut Node, after: Node) {
    let Value::Map(entries) = &mut node.value else {
        return;
    };
    if let Some((_, there)) = entries.iter_mut().find(|(key, _)| key.text == "after") {
        *there = after;
    }
}

#[cfg(test)]
mod tests;
