//! The names of a module by kind, and the complaint about a name that is none of them.

use std::collections::BTreeMap;

use super::{CheckFault, CheckProblem, NameKind, Surroundings};
use crate::syllabus::module::{CaseRange, Module, Name};
use crate::syllabus::read::nearest;

/// How many of the known names a complaint holds.
const MOST_KNOWN: usize = 20;

/// No suggestion is looked for among more names than this: no real module has so many, and a hostile one would buy time.
const MOST_COMPARED: usize = 300;

/// The names of a module by kind.
pub(super) struct Names<'m> {
    of_kind: BTreeMap<NameKind, Vec<&'m str>>,
    of_aspect: BTreeMap<&'m str, Vec<&'m str>>,
    of_choice: BTreeMap<&'m str, &'m CaseRange>,
    /// Kinds that nothing is known of, so that no name of them can be wrong.
    open: Vec<NameKind>,
}

impl<'m> Names<'m> {
    pub(super) fn of(module: &'m Module, around: &Surroundings<'m>) -> Names<'m> {
        fn of<'m>(names: impl Iterator<Item = &'m Name>) -> Vec<&'m str> {
            names.map(|it| it.value.as_str()).collect()
        }
        let mut of_kind = BTreeMap::new();
        of_kind.insert(NameKind::Step, of(module.steps.iter().map(|it| &it.id)));
        of_kind.insert(
            NameKind::Station,
            of(module.stations.iter().map(|it| &it.id)),
        );
        of_kind.insert(NameKind::Part, of(module.parts.iter().map(|it| &it.id)));
        of_kind.insert(NameKind::Aspect, of(module.aspects.iter().map(|it| &it.id)));
        of_kind.insert(NameKind::Repeat, of(module.repeats.iter().map(|it| &it.id)));
        of_kind.insert(NameKind::Choice, of(module.case.iter().map(|it| &it.id)));
        of_kind.insert(
            NameKind::Product,
            of(module.products.iter().map(|it| &it.id)),
        );
        let items = module.protection_items.iter().map(|it| &it.id);
        of_kind.insert(NameKind::Item, of(items));
        let consequences = module.consequences.iter().map(|it| &it.id);
        of_kind.insert(NameKind::Consequence, of(consequences));
        of_kind.insert(NameKind::Hazard, of(around.hazards.iter().map(|it| &it.id)));
        of_kind.insert(NameKind::Fault, of(around.faults.iter().map(|it| &it.id)));
        let sources = module.identity.sources.keys().map(String::as_str);
        of_kind.insert(NameKind::Source, sources.collect());
        let mut open = Vec::new();
        match around.modules {
            Some(ids) => {
                of_kind.insert(NameKind::Module, ids.iter().map(String::as_str).collect());
            }
            None => open.push(NameKind::Module),
        }
        match around.station_kinds {
            Some(words) => {
                of_kind.insert(NameKind::StationKind, words.to_vec());
            }
            None => open.push(NameKind::StationKind),
        }
        let aspects = module.aspects.iter();
        Names {
            of_kind,
            of_aspect: aspects
                .map(|it| (it.id.value.as_str(), of(it.values.iter().map(|it| &it.id))))
                .collect(),
            of_choice: module
                .case
                .iter()
                .map(|it| (it.id.value.as_str(), &it.range))
                .collect(),
            open,
        }
    }

    fn all(&self, kind: NameKind) -> &[&'m str] {
        self.of_kind.get(&kind).map_or(&[], Vec::as_slice)
    }

    /// Whether a name stands for something of a kind.
    pub(super) fn has(&self, kind: NameKind, name: &str) -> bool {
        self.open.contains(&kind) || self.all(kind).contains(&name)
    }

    /// Whether a name stands for anything that a stage could expect.
    pub(super) fn has_any(&self, name: &str) -> bool {
        self.of_kind.values().any(|names| names.contains(&name))
    }

    /// Whether an aspect has a value; of an unknown aspect nothing is known.
    pub(super) fn has_value(&self, aspect: &str, value: &str) -> bool {
        self.of_aspect
            .get(aspect)
            .is_none_or(|values| values.contains(&value))
    }

    /// The complaint about a name, if it stands for nothing.
    pub(super) fn complaint(&self, kind: NameKind, name: &Name) -> Option<CheckProblem> {
        (!self.has(kind, &name.value)).then(|| unknown(kind, name, self.all(kind)))
    }

    /// The complaint about a value of an aspect.
    pub(super) fn value_complaint(&self, aspect: &str, value: &Name) -> Option<CheckProblem> {
        let known = self.of_aspect.get(aspect)?;
        let is_known = known.contains(&value.value.as_str());
        (!is_known).then(|| unknown(NameKind::Value, value, known))
    }

    /// The complaint about a value of a choice.
    pub(super) fn choice_complaint(&self, choice: &str, value: &Name) -> Option<CheckProblem> {
        match self.of_choice.get(choice)? {
            CaseRange::OneOf(words) => {
                let known: Vec<&str> = words.iter().map(|it| it.value.as_str()).collect();
                let is_known = known.contains(&value.value.as_str());
                (!is_known).then(|| unknown(NameKind::ChoiceValue, value, &known))
            }
            CaseRange::Whole { from, to } => {
                let number = value.value.parse::<u16>();
                let is_known = number.is_ok_and(|it| (*from..=*to).contains(&it));
                let range = format!("{from}–{to}");
                (!is_known).then(|| unknown(NameKind::ChoiceValue, value, &[&range]))
            }
        }
    }
}

/// The complaint about a name that is none of `known`.
pub(super) fn unknown(kind: NameKind, name: &Name, known: &[&str]) -> CheckProblem {
    let near = |known: &[&str]| nearest(&name.value, known.iter().copied()).map(str::to_owned);
    let suggestion = (known.len() <= MOST_COMPARED)
        .then(|| near(known))
        .flatten();
    let known = known.iter().take(MOST_KNOWN);
    CheckProblem {
        at: name.at,
        what: CheckFault::Unknown {
            kind,
            found: name.value.clone(),
            suggestion,
            known: known.map(|it| (*it).to_owned()).collect(),
        },
    }
}
