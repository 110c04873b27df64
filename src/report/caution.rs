//! What stands wherever something hazardous is told: what to wear and run, precautions, and what comes before this program.

use super::block::{Block, Item};
use super::names::Names;
use crate::syllabus::module::{Guard, Name, ProtectionKind};
use crate::text::{Caution, display_safe};

/// The words of one hazard of the shared list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct HazardWords {
    /// Its title.
    pub title: String,
    /// What is done so that nothing happens.
    pub precautions: Vec<String>,
}

/// Finds the words of a hazard by its id.
pub type Hazards<'a> = &'a dyn Fn(&str) -> Option<HazardWords>;

/// The protection that a guard asks for, and when.
pub(super) fn guard(names: &Names<'_>, guard: &Guard) -> String {
    let stations = guard.during.iter().map(|at| names.station(&at.value));
    asked(names, guard, stations.collect())
}

/// The protection that a guard asks for, told at one of its stations.
pub(super) fn guard_here(names: &Names<'_>, guard: &Guard) -> String {
    asked(names, guard, Vec::new())
}

fn asked(names: &Names<'_>, guard: &Guard, stations: Vec<String>) -> String {
    let found = names
        .module
        .protection_items
        .iter()
        .find(|one| one.id.value == guard.item.value);
    let item = found.map_or(guard.item.value.as_str(), |one| one.title.as_str());
    let running = found.is_some_and(|one| one.kind == ProtectionKind::Running);
    let mut when: Vec<String> = guard
        .holds_while
        .iter()
        .map(|one| {
            if one.negated {
                let until = names.condition_as(one, false);
                names.words.say("debrief-until", &[("state", until.into())])
            } else {
                let state = ("state", names.condition(one).into());
                names.words.say("debrief-while", &[state])
            }
        })
        .collect();
    if !stations.is_empty() {
        let stations = ("stations", stations.into());
        when.push(names.words.say("debrief-during", &[stations]));
    }
    let always = when.is_empty();
    let values = [("item", item.into()), ("when", when.into())];
    let say = |id: &str| names.words.say(id, &values);
    match (running, always) {
        (false, true) => say("debrief-wear"),
        (false, false) => say("debrief-wear-when"),
        (true, true) => say("debrief-run"),
        (true, false) => say("debrief-run-when"),
    }
}

/// One entry per hazard, with its protection and precautions; nothing when there is no hazard.
pub(super) fn blocks(names: &Names<'_>, ids: &[&Name], hazards: Hazards<'_>) -> Vec<Block> {
    let mut told: Vec<&str> = Vec::new();
    let mut items = Vec::new();
    for id in ids {
        if told.contains(&id.value.as_str()) {
            continue;
        }
        told.push(&id.value);
        let known = hazards(&id.value).unwrap_or_default();
        let title = if known.title.is_empty() {
            &id.value
        } else {
            &known.title
        };
        let mut under: Vec<String> = Vec::new();
        for one in &names.module.guards {
            if one.hazard.value == id.value {
                let said = guard(names, one);
                if !under.contains(&said) {
                    under.push(said);
                }
            }
        }
        under.extend(known.precautions.iter().map(|one| display_safe(one)));
        items.push(Item::new(display_safe(title)).with(under.into_iter().map(Item::new).collect()));
    }
    if items.is_empty() {
        return Vec::new();
    }
    vec![
        Block::Items(items),
        Block::Caution(Caution::OthersComeFirst.say(names.words)),
    ]
}
