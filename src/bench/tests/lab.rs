//! A small laboratory, built by hand: stations without numbers of their own, so that the defaults are what is tested.

use std::sync::Arc;

use crate::bench::{Bench, Doing, Model, Teeth};
use crate::rng::Seed;
use crate::syllabus::case::{CaseCard, CaseValue};
use crate::syllabus::module::fixture::empty;
pub(super) use crate::syllabus::module::fixture::name;
use crate::syllabus::module::{
    CaseChoice, CaseRange, Module, Origin, Part, PartKind, Product, ProtectionItem, ProtectionKind,
    Repeat, RepeatOver, Station, StationNumber,
};
use crate::syllabus::operation::{Amount, Manner, Operation};
use crate::units::Millis;

/// A manner that the module fixes.
pub(super) fn so<T>(value: T) -> Manner<T> {
    Manner::Fixed(value)
}

fn number(which: &str, text: &str, orbital: &str) -> StationNumber {
    StationNumber {
        name: name(which),
        text: name(text),
        changes: vec![(name("wash"), name("orbital"), name(orbital))],
        origin: Origin::OurDefault,
    }
}

fn station(id: &str, kind: &str) -> Station {
    let numbers = if kind == "bath" {
        vec![
            number("grip", "0.033 /s", "0.0185 /s"),
            number("softens-after", "6 min", "10 min"),
        ]
    } else {
        Vec::new()
    };
    Station {
        id: name(id),
        title: String::new(),
        kind: name(kind),
        numbers,
    }
}

/// The whole bench of a denture with teeth set one by one.
pub(super) fn module() -> Module {
    let part = |id: &str, kind| Part {
        id: name(id),
        title: String::new(),
        kind,
    };
    let choice = |id: &str, range| CaseChoice {
        id: name(id),
        title: String::new(),
        range,
        shapes_plan: true,
    };
    let step = |does| crate::syllabus::module::Step {
        id: name("any"),
        title: String::new(),
        stage: None,
        at: name("bonding"),
        each: Vec::new(),
        after: Vec::new(),
        needs: Vec::new(),
        makes: Vec::new(),
        refused_if: Vec::new(),
        optional: false,
        attended: true,
        again: false,
        takes: Millis::ZERO,
        keeping: None,
        ways: Vec::new(),
        does,
        critical: false,
        why: String::new(),
        good: String::new(),
        tools: Vec::new(),
        hazards: Vec::new(),
        errors: crate::syllabus::module::StepErrors::default(),
        goes_with: None,
        origin: None,
    };
    Module {
        case: vec![
            choice("teeth", CaseRange::Whole { from: 1, to: 14 }),
            choice(
                "wash",
                CaseRange::OneOf(vec![name("ultrasonic"), name("orbital")]),
            ),
        ],
        repeats: vec![Repeat {
            id: name("tooth"),
            over: RepeatOver::UpTo(name("teeth")),
        }],
        parts: vec![
            part("base", PartKind::Body),
            part("teeth", PartKind::Teeth),
            part("joint", PartKind::Joints),
        ],
        stations: [
            ("bath-one", "bath"),
            ("bath-two", "bath"),
            ("air", "air-line"),
            ("rack", "drip"),
            ("plate", "plate"),
            ("vessel", "vessel"),
            ("bonding", "bonding"),
            ("lamp", "light"),
            ("unit", "unit"),
            ("room", "room"),
            ("lathe", "place"),
        ]
        .into_iter()
        .map(|(id, kind)| station(id, kind))
        .collect(),
        products: vec![Product {
            id: name("resin"),
            title: String::new(),
        }],
        protection_items: vec![ProtectionItem {
            id: name("extraction"),
            title: String::new(),
            kind: ProtectionKind::Running,
            change_every: None,
        }],
        steps: vec![step(vec![
            Operation::Fill {
                at: name("bonding"),
                amount: so(Amount::Bead),
            },
            Operation::Seal,
        ])],
        ..empty("lab")
    }
}

pub(super) fn card(teeth: u16, orbital: bool) -> CaseCard {
    let wash = if orbital { "orbital" } else { "ultrasonic" };
    CaseCard::default()
        .with("teeth", CaseValue::Whole(teeth))
        .with("wash", CaseValue::Word(wash.to_owned()))
}

pub(super) fn model(teeth: u16, orbital: bool) -> Arc<Model> {
    Arc::new(Model::new(&module(), &card(teeth, orbital)).unwrap())
}

/// A bench with a hand on it.
pub(super) struct Hand {
    pub(super) bench: Bench,
}

impl Hand {
    pub(super) fn new(model: &Arc<Model>, seed: u32) -> Hand {
        let mut bench = Bench::new(model, Seed(seed));
        bench.set_running("extraction", true);
        Hand { bench }
    }

    /// Does something that is not timed.
    pub(super) fn does(&mut self, does: &[Operation], handling: Millis) {
        self.at(does, None, None, handling, Millis::ZERO);
    }

    /// Does something timed.
    pub(super) fn timed(&mut self, does: &[Operation], handling: Millis, timed: Millis) {
        self.at(does, None, None, handling, timed);
    }

    pub(super) fn at(
        &mut self,
        does: &[Operation],
        teeth: Option<(u16, u16)>,
        side: Option<u8>,
        handling: Millis,
        timed: Millis,
    ) {
        let doing = Doing {
            teeth: teeth.map(|(first, last)| Teeth { first, last }),
            side,
            ways: &[],
            handling,
            timed,
        };
        self.bench.perform(does, &doing);
    }
}
