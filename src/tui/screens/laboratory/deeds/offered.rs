//! What a form offers of the shelf and of the scopes that somebody was assigned to.

use std::collections::BTreeMap;

use super::What;
use super::fields::Answers;
use super::keeping::modules;
use super::row::{Answer, named};
use crate::app::System;
use crate::app::laboratory::{Laboratory, Place};
use crate::app::shelf::DEFAULT_PROFILE;
use crate::record::scope::{Id, Scope};
use crate::syllabus::module::SignOff;
use crate::tui::screen::Desk;

/// What of the shelf a form offers. It is read once, when the form is opened.
#[derive(Default)]
pub(super) struct OnShelf {
    /// The modules that can be adopted.
    pub(super) modules: Vec<Offered>,
    /// For each workflow of the record the profiles by which it can be worked.
    profiles: BTreeMap<Id, Vec<Id>>,
}

/// A module that can be chosen.
pub(super) struct Offered {
    pub(super) id: String,
    /// The words for it.
    pub(super) shown: String,
    /// What it asks for before somebody is signed off; none where it says nothing, or is faulty.
    pub(super) asks: Option<SignOff>,
}

impl OnShelf {
    /// What the form of a deed offers.
    pub(super) fn read<S: System>(what: What, desk: &mut Desk<S>) -> OnShelf {
        match what {
            What::Adopt => OnShelf {
                modules: modules(desk),
                ..OnShelf::default()
            },
            What::Assign => OnShelf {
                profiles: covering(desk),
                ..OnShelf::default()
            },
            _ => OnShelf::default(),
        }
    }
}

/// For each workflow of the record the profiles by which it can be worked.
fn covering<S: System>(desk: &mut Desk<S>) -> BTreeMap<Id, Vec<Id>> {
    desk.lay_own_modules();
    let workflows = desk.office().map(|(house, _)| house.laboratory.workflows());
    let workflows = workflows.unwrap_or_default().into_iter();
    let covered = workflows.map(|workflow| {
        let names = desk.shelf.covering(&workflow.to_string()).into_iter();
        // What the record cannot name nobody can be assigned to.
        let names = names.filter_map(|name| name.parse().ok()).collect();
        (workflow, names)
    });
    covered.collect()
}

/// The profiles that can be chosen: those on the shelf that cover the workflow, the shipped one first, then others that somebody was assigned to.
pub(super) fn profiles<P: Place>(
    shelf: &OnShelf,
    answers: &Answers<'_>,
    laboratory: &Laboratory<P>,
) -> Vec<(Answer, String)> {
    let shipped = DEFAULT_PROFILE.parse::<Id>().ok();
    let workflow = answers.workflow();
    let covering = workflow.and_then(|workflow| shelf.profiles.get(&workflow));
    let names = shipped.iter().chain(covering.into_iter().flatten());
    let assigned = in_scopes(|scope| &scope.profile, answers, laboratory);
    let mut options = Vec::new();
    for option in names.map(named).chain(assigned) {
        if !options.contains(&option) {
            options.push(option);
        }
    }
    options
}

/// What stands in the scopes that somebody was assigned to, each once, those of the workflow first.
pub(super) fn in_scopes<P: Place>(
    part: fn(&Scope) -> &Id,
    answers: &Answers<'_>,
    laboratory: &Laboratory<P>,
) -> Vec<(Answer, String)> {
    let workflow = answers.workflow();
    let mut scopes: Vec<&Scope> = laboratory.ledger().assigned_scopes().collect();
    scopes.sort_by_key(|scope| (Some(&scope.workflow) != workflow.as_ref(), part(scope)));
    let mut options = Vec::new();
    for scope in scopes {
        let option = named(part(scope));
        if !options.contains(&option) {
            options.push(option);
        }
    }
    options
}
