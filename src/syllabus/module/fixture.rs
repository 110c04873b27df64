//! What tests that build modules by hand begin with.

use std::collections::BTreeMap;

use super::{Identity, Module, Name, Origin, Risk};
use crate::syllabus::read::Place;

/// A name that stands nowhere.
pub(crate) fn name(text: &str) -> Name {
    Name {
        value: text.to_owned(),
        at: Place::default(),
    }
}

/// A module with an id and nothing in it.
pub(crate) fn empty(id: &str) -> Module {
    Module {
        identity: Identity {
            id: name(id),
            title: String::new(),
            about: String::new(),
            revision: 1,
            effective: chrono::NaiveDate::default(),
            language: "en-US".to_owned(),
            risk: Risk::Low,
            origin: Origin::OurDefault,
            sources: BTreeMap::new(),
            hazards: Vec::new(),
            cautions: Vec::new(),
        },
        requires: Vec::new(),
        case: Vec::new(),
        repeats: Vec::new(),
        parts: Vec::new(),
        aspects: Vec::new(),
        stations: Vec::new(),
        products: Vec::new(),
        protection_items: Vec::new(),
        steps: Vec::new(),
        time_rules: Vec::new(),
        guards: Vec::new(),
        never: Vec::new(),
        disturbances: Vec::new(),
        consequences: Vec::new(),
        sign_off: None,
    }
}
