//! What a model takes from a module, and what it refuses.

use super::lab::{card, module, name, so};
use crate::bench::{Bench, Model, Wrong};
use crate::rng::Seed;
use crate::syllabus::module::{
    Aspect, AspectValue, Gauge, GaugeKind, Harm, Module, Origin, PartKind, StationNumber, Way,
    WayOption,
};
use crate::syllabus::operation::{Air, Manner, Operation};
use std::sync::Arc;

fn wrong(module: &Module) -> Vec<(Wrong, String, Vec<String>)> {
    Model::new(module, &card(6, false))
        .unwrap_err()
        .into_iter()
        .map(|problem| (problem.wrong, problem.found, problem.known))
        .collect()
}

fn with_number(which: &str, text: &str) -> Module {
    let mut module = module();
    module.stations[0].numbers = vec![StationNumber {
        name: name(which),
        text: name(text),
        changes: Vec::new(),
        origin: Origin::OurDefault,
    }];
    module
}

#[test]
fn numbers_are_read_by_name_unit_and_range() {
    assert!(Model::new(&with_number("volume", "1 L"), &card(6, false)).is_ok());
    let unknown = wrong(&with_number("volum", "1 L"));
    assert_eq!(unknown[0].0, Wrong::NumberName);
    assert!(unknown[0].2.contains(&"carry-over".to_owned()));
    for (text, expected) in [
        ("1 kg", Wrong::NumberText),
        ("1000", Wrong::NumberText),
        ("1 mL", Wrong::NumberRange),
        ("-1 L", Wrong::NumberRange),
    ] {
        assert_eq!(wrong(&with_number("volume", text))[0].0, expected, "{text}");
    }
}

#[test]
fn a_number_for_another_case_card_is_read_as_well() {
    let mut module = module();
    module.stations[0].numbers[0].changes[0].2 = name("fast");
    assert_eq!(wrong(&module)[0].0, Wrong::NumberText);
}

#[test]
fn unknown_kinds_and_names_say_what_there_is() {
    let mut module = module();
    module.stations[10].kind = name("lath");
    let step = &mut module.steps[0];
    step.does = vec![
        Operation::SwitchOn {
            plate: name("vessel"),
        },
        Operation::Drain {
            part: name("joint"),
        },
        Operation::Pick {
            product: name("rasin"),
            bottle: Manner::AsWay(name("bottle")),
        },
        Operation::Immerse {
            part: name("base"),
            bath: name("bath-one"),
            air: Manner::AsWay(name("air")),
        },
    ];
    let option = |id: &str| WayOption {
        id: name(id),
        title: String::new(),
        wrong: None,
    };
    step.ways = vec![Way {
        id: name("air"),
        title: String::new(),
        options: vec![option("out"), option("in")],
    }];
    let mut found = wrong(&module);
    found.sort_by(|a, b| a.1.cmp(&b.1));
    let list = |words: &[&str]| {
        words
            .iter()
            .map(|word| (*word).to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(
        found
            .iter()
            .map(|(wrong, found, _)| (*wrong, found.as_str()))
            .collect::<Vec<_>>(),
        [
            (Wrong::Way, "bottle"),
            (Wrong::WayOption, "in"),
            (Wrong::Part, "joint"),
            (Wrong::StationKind, "lath"),
            (Wrong::Product, "rasin"),
            (Wrong::Station, "vessel"),
        ]
    );
    assert_eq!(found[1].2, list(&["out", "trapped"]));
    assert_eq!(found[2].2, list(&["base", "teeth"]));
    assert_eq!(found[4].2, list(&["resin"]));
    assert_eq!(found[5].2, list(&["plate"]));
}

#[test]
fn an_aspect_shows_a_gauge_with_the_words_of_the_gauge() {
    let aspect = |values: &[&str], kind, of: &str| Aspect {
        id: name("film"),
        part: name("base"),
        title: String::new(),
        values: values
            .iter()
            .map(|id| AspectValue {
                id: name(id),
                looks: String::new(),
            })
            .collect(),
        per: Vec::new(),
        decided_by: Some(Gauge { kind, of: name(of) }),
        seen: true,
    };
    let check = |aspect| {
        let mut module = module();
        module.aspects = vec![aspect];
        Model::new(&module, &card(6, false))
            .map_err(|problems| problems.iter().map(|one| one.wrong).collect::<Vec<_>>())
            .map(|_| ())
    };
    for kind in GaugeKind::ALL {
        let of = match kind {
            GaugeKind::Plate => "plate",
            GaugeKind::Strip => "vessel",
            GaugeKind::Heat => "unit",
            GaugeKind::Primer => "teeth",
            GaugeKind::Hold => "joint",
            _ => "base",
        };
        assert_eq!(check(aspect(kind.values(), kind, of)), Ok(()));
        assert_eq!(
            check(aspect(kind.values(), kind, "lathe")),
            Err(vec![Wrong::GaugeOf])
        );
        let bench = Bench::new(
            &Arc::new(Model::new(&module(), &card(6, false)).unwrap()),
            Seed(1),
        );
        let read = bench.read(kind, of, None).unwrap();
        assert!(read < kind.values().len());
        assert_eq!(bench.read(kind, "nowhere", None), None);
    }
    assert_eq!(
        check(aspect(&["dry", "wet-resin"], GaugeKind::Film, "base")),
        Err(vec![Wrong::GaugeValues])
    );
}

#[test]
fn problems_come_in_the_order_of_the_text() {
    let mut module = module();
    module.stations[0].kind.value = "bth".to_owned();
    module.stations[0].kind.at.line = 9;
    module.stations[3].kind.value = "drp".to_owned();
    module.stations[3].kind.at.line = 2;
    let lines: Vec<u32> = Model::new(&module, &card(6, false))
        .unwrap_err()
        .iter()
        .map(|problem| problem.at.line)
        .collect();
    assert_eq!(lines, [2, 9]);
}

#[test]
fn a_bench_without_baths_starts_with_a_clean_base() {
    let mut module = module();
    module
        .stations
        .retain(|station| station.kind.value != "bath");
    let model = Arc::new(Model::new(&module, &card(6, false)).unwrap());
    let bench = Bench::new(&model, Seed(1));
    assert_eq!(bench.read(GaugeKind::Film, "base", None), Some(2));
    assert_eq!(bench.read(GaugeKind::Cure, "base", None), Some(0));
    assert!(bench.outcome().harms.is_empty());
    module
        .stations
        .retain(|station| station.kind.value == "place");
    module.steps.clear();
    let model = Arc::new(Model::new(&module, &card(6, false)).unwrap());
    let mut finishing = Bench::new(&model, Seed(1));
    assert_eq!(finishing.read(GaugeKind::Cure, "base", None), Some(2));
    finishing.perform(
        &[Operation::CutPosts { part: name("base") }],
        &crate::bench::Doing::default(),
    );
    assert!(finishing.outcome().harm(Harm::Warped).is_none());
}

#[test]
fn teeth_are_only_one_where_nothing_counts_them() {
    let mut module = module();
    module.repeats.clear();
    assert!(module.parts.iter().any(|part| part.kind == PartKind::Teeth));
    module.steps[0].does = vec![Operation::Immerse {
        part: name("teeth"),
        bath: name("bath-one"),
        air: so(Air::Out),
    }];
    let model = Arc::new(Model::new(&module, &card(6, false)).unwrap());
    let bench = Bench::new(&model, Seed(1));
    assert_eq!(bench.outcome().figures.tooth_dose.len(), 1);
}
