//! A module's stations and parts, compiled for one case card: constants only.

use super::outcome::Limits;
use super::references::References;
use super::stations::{
    Kind, Numbers, Of, air_line, bath, bonding, drip, light, plate, room, unit, vessel,
};
use crate::syllabus::case::CaseCard;
use crate::syllabus::module::{
    Aspect, GaugeKind, Module, Name, Never, PartKind, ProtectionKind, RepeatOver, Way,
};
use crate::syllabus::operation::Operation;
use crate::syllabus::read::Place;

/// What does not fit between a module and the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// No such kind of station.
    StationKind,
    /// The kind of station has no such number.
    NumberName,
    /// The number is no quantity of its unit; `known` holds the default as an example.
    NumberText,
    /// The number is outside of what the bench can work with; `known` holds the least and the most.
    NumberRange,
    /// No such station of the kind that the operation needs.
    Station,
    /// No such part.
    Part,
    /// No such product.
    Product,
    /// The step has no such way.
    Way,
    /// An option of the way is no word of the manner.
    WayOption,
    /// The values of an aspect are not those of its gauge, in order.
    GaugeValues,
    /// A gauge of something that cannot be read so.
    GaugeOf,
}

/// One thing that does not fit, with the position where it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchProblem {
    /// Where.
    pub at: Place,
    /// What.
    pub wrong: Wrong,
    /// As written.
    pub found: String,
    /// What would do.
    pub known: Vec<String>,
}

/// A module's stations and parts, compiled for one case card: constants only.
///
/// What is of parts and not of one station (limits of residue, dryness, dose) is taken from the first station of the kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The parts by id.
    parts: Vec<(String, PartKind)>,
    stations: Vec<(String, Numbers)>,
    /// Ids of what can be kept running.
    running: Vec<String>,
    /// How many teeth there are: the largest counted repeat, at least one.
    pub(super) teeth: u16,
    /// Whether the bench has a bath: without one nothing starts wet with resin.
    pub(super) has_bath: bool,
    /// Whether the bench has a vessel: without one no tooth needs primer.
    pub(super) has_vessel: bool,
    /// Whether bodies are cured from the start: nothing of the bench wets, bonds or cures them.
    pub(super) starts_cured: bool,
    /// Whether the module fills joints.
    pub(super) fills: bool,
    /// Whether the module seals seams.
    pub(super) seals: bool,
    pub(super) bath: bath::Numbers,
    pub(super) air_line: air_line::Numbers,
    pub(super) drip: drip::Numbers,
    pub(super) plate: plate::Numbers,
    pub(super) vessel: vessel::Numbers,
    pub(super) bonding: bonding::Numbers,
    pub(super) light: light::Numbers,
    pub(super) unit: unit::Numbers,
}

impl Model {
    /// Compiles the bench of a module for a case card.
    ///
    /// # Errors
    /// Everything of the module that the bench does not understand, in the order of the text.
    pub fn new(module: &Module, card: &CaseCard) -> Result<Model, Vec<BenchProblem>> {
        let mut problems = Vec::new();
        let stations = stations(module, card, &mut problems);
        let operations = every_operation(module);
        for (operation, ways) in &operations {
            check(module, operation, ways, &mut problems);
        }
        for aspect in &module.aspects {
            check_gauge(module, aspect, &mut problems);
        }
        if !problems.is_empty() {
            problems.sort_by_key(|problem| problem.at);
            return Err(problems);
        }
        let counted = module
            .repeats
            .iter()
            .filter_map(|repeat| match &repeat.over {
                RepeatOver::UpTo(choice) => card.whole(&choice.value),
                RepeatOver::GroupsOf { .. } | RepeatOver::EachOf(_) => None,
            });
        let has = |kind: Kind| stations.iter().any(|(_, numbers)| numbers.kind() == kind);
        let does = |wanted: fn(&Operation) -> bool| {
            operations.iter().any(|(operation, _)| wanted(operation))
        };
        Ok(Model {
            parts: module
                .parts
                .iter()
                .map(|part| (part.id.value.clone(), part.kind))
                .collect(),
            running: module
                .protection_items
                .iter()
                .filter(|item| item.kind == ProtectionKind::Running)
                .map(|item| item.id.value.clone())
                .collect(),
            teeth: counted.max().unwrap_or(1).clamp(1, MOST_TEETH),
            has_bath: has(Kind::Bath),
            has_vessel: has(Kind::Vessel),
            starts_cured: ![Kind::Bath, Kind::Bonding, Kind::Unit].into_iter().any(has),
            fills: does(|operation| matches!(operation, Operation::Fill { .. })),
            seals: does(|operation| matches!(operation, Operation::Seal)),
            bath: first(&stations),
            air_line: first(&stations),
            drip: first(&stations),
            plate: first(&stations),
            vessel: first(&stations),
            bonding: first(&stations),
            light: first(&stations),
            unit: first(&stations),
            stations,
        })
    }

    /// The limits that figures are read against.
    #[must_use]
    pub fn limits(&self) -> Limits {
        let bath = self.all::<bath::Numbers>().next();
        let vessel = self.all::<vessel::Numbers>().next();
        Limits {
            residue: bath.map(|(_, numbers)| numbers.veil_above),
            joint_dose: self
                .all::<light::Numbers>()
                .next()
                .map(|(_, numbers)| numbers.least_dose),
            body_dose: self
                .all::<unit::Numbers>()
                .next()
                .map(|(_, numbers)| numbers.least_dose),
            vapour: self
                .all::<room::Numbers>()
                .next()
                .map(|(_, numbers)| numbers.short_term_limit),
            target: vessel.map(|(_, numbers)| numbers.target),
            warm: vessel.map(|(_, numbers)| numbers.warm),
            hot: vessel.map(|(_, numbers)| numbers.hot),
        }
    }

    /// The parts with their kinds, in the order of the module.
    pub(super) fn parts(&self) -> &[(String, PartKind)] {
        &self.parts
    }

    /// Index of a part.
    pub(super) fn part(&self, id: &str) -> Option<usize> {
        self.parts.iter().position(|(part, _)| part == id)
    }

    /// The stations with their numbers, in the order of the module.
    pub(super) fn stations(&self) -> &[(String, Numbers)] {
        &self.stations
    }

    /// A station of one kind: its index and its numbers.
    pub(super) fn station<N: Of>(&self, id: &str) -> Option<(usize, &N)> {
        let at = self
            .stations
            .iter()
            .position(|(station, _)| station == id)?;
        Some((at, N::numbers(&self.stations[at].1)?))
    }

    /// Every station of one kind.
    pub(super) fn all<N: Of + 'static>(&self) -> impl Iterator<Item = (usize, &N)> {
        self.stations
            .iter()
            .enumerate()
            .filter_map(|(at, (_, numbers))| Some((at, N::numbers(numbers)?)))
    }

    /// Index of something that can be kept running.
    pub(super) fn running(&self, item: &str) -> Option<usize> {
        self.running.iter().position(|one| one == item)
    }

    /// How many things can be kept running.
    pub(super) fn count_running(&self) -> usize {
        self.running.len()
    }
}

/// More teeth than any arch has: a guard against numbers that would only cost memory.
const MOST_TEETH: u16 = 64;

/// The numbers of the first station of a kind, or the defaults.
fn first<N: Of + Default + Clone>(stations: &[(String, Numbers)]) -> N {
    stations
        .iter()
        .find_map(|(_, numbers)| N::numbers(numbers))
        .cloned()
        .unwrap_or_default()
}

fn stations(
    module: &Module,
    card: &CaseCard,
    problems: &mut Vec<BenchProblem>,
) -> Vec<(String, Numbers)> {
    let mut read = Vec::new();
    for station in &module.stations {
        match Kind::of(&station.kind.value) {
            Some(kind) => read.push((
                station.id.value.clone(),
                Numbers::read(kind, station, card, problems),
            )),
            None => problems.push(BenchProblem {
                at: station.kind.at,
                wrong: Wrong::StationKind,
                found: station.kind.value.clone(),
                known: Kind::ALL
                    .iter()
                    .map(|(_, word)| (*word).to_owned())
                    .collect(),
            }),
        }
    }
    read
}

/// Every operation of a module with the ways that it can take its manner from.
fn every_operation(module: &Module) -> Vec<(&Operation, &[Way])> {
    let mut all: Vec<(&Operation, &[Way])> = Vec::new();
    for step in &module.steps {
        all.extend(step.does.iter().map(|one| (one, step.ways.as_slice())));
    }
    for never in &module.never {
        if let Never::Act(act) = never {
            all.extend(act.does.iter().map(|one| (one, [].as_slice())));
        }
    }
    for disturbance in &module.disturbances {
        let responses = disturbance.responses.iter().flat_map(|one| &one.does);
        let does = disturbance.does.iter().chain(responses);
        all.extend(does.map(|one| (one, [].as_slice())));
    }
    all
}

fn report(problems: &mut Vec<BenchProblem>, wrong: Wrong, name: &Name, known: Vec<String>) {
    problems.push(BenchProblem {
        at: name.at,
        wrong,
        found: name.value.clone(),
        known,
    });
}

fn ids<'a>(names: impl Iterator<Item = &'a Name>) -> Vec<String> {
    names.map(|name| name.value.clone()).collect()
}

/// Ids of the stations of one kind.
fn of_kind(module: &Module, kind: Kind) -> Vec<String> {
    let all = module.stations.iter();
    ids(all
        .filter(|station| Kind::of(&station.kind.value) == Some(kind))
        .map(|station| &station.id))
}

/// Ids of the parts whose kind will do.
fn parts(module: &Module, suits: impl Fn(PartKind) -> bool) -> Vec<String> {
    ids(module
        .parts
        .iter()
        .filter(|part| suits(part.kind))
        .map(|part| &part.id))
}

fn check(module: &Module, operation: &Operation, ways: &[Way], problems: &mut Vec<BenchProblem>) {
    let named = References::of(operation);
    for (name, kind) in named.stations {
        let known = of_kind(module, kind);
        if !known.contains(&name.value) {
            report(problems, Wrong::Station, name, known);
        }
    }
    for name in named.parts {
        let known = parts(module, |kind| kind != PartKind::Joints);
        if !known.contains(&name.value) {
            report(problems, Wrong::Part, name, known);
        }
    }
    for name in named.products {
        let known = ids(module.products.iter().map(|product| &product.id));
        if !known.contains(&name.value) {
            report(problems, Wrong::Product, name, known);
        }
    }
    for (name, words) in named.ways {
        let Some(way) = ways.iter().find(|way| way.id.value == name.value) else {
            report(
                problems,
                Wrong::Way,
                name,
                ids(ways.iter().map(|way| &way.id)),
            );
            continue;
        };
        for option in &way.options {
            if !words.contains(&option.id.value.as_str()) {
                let known = words.iter().map(|word| (*word).to_owned()).collect();
                report(problems, Wrong::WayOption, &option.id, known);
            }
        }
    }
}

fn check_gauge(module: &Module, aspect: &Aspect, problems: &mut Vec<BenchProblem>) {
    let Some(gauge) = &aspect.decided_by else {
        return;
    };
    let words = gauge.kind.values();
    let written = aspect.values.iter().map(|value| value.id.value.as_str());
    if !written.eq(words.iter().copied()) {
        let known = words.iter().map(|word| (*word).to_owned()).collect();
        report(problems, Wrong::GaugeValues, &aspect.id, known);
    }
    let known = match gauge.kind {
        GaugeKind::Plate => of_kind(module, Kind::Plate),
        GaugeKind::Strip => of_kind(module, Kind::Vessel),
        GaugeKind::Heat => of_kind(module, Kind::Unit),
        GaugeKind::Primer => parts(module, |kind| kind == PartKind::Teeth),
        GaugeKind::Hold => parts(module, |kind| kind == PartKind::Joints),
        GaugeKind::Drops | GaugeKind::Film | GaugeKind::Veil | GaugeKind::Cure => {
            parts(module, |kind| kind != PartKind::Joints)
        }
    };
    if !known.contains(&gauge.of.value) {
        report(problems, Wrong::GaugeOf, &gauge.of, known);
    }
}
