//! Whether operations name stations and parts of the right kind, and whether ways offer words that operations know.

use super::names::{Names, unknown};
use super::{CheckFault, Found, NameKind, note};
use crate::syllabus::module::{Module, Name, Never, Way};
use crate::syllabus::operation::{Manner, Operation, Word};

/// What an operation names.
pub(super) struct Uses<'o> {
    /// The kind of name, the kind of station it must be (empty: any), and the name.
    pub(super) names: Vec<(NameKind, &'static str, &'o Name)>,
    /// Ways that decide a manner, with the words of that manner.
    ways: Vec<(&'o Name, Vec<&'static str>)>,
}

fn way<'o, T: Word>(manner: &'o Manner<T>, uses: &mut Uses<'o>) {
    if let Manner::AsWay(name) = manner {
        let words = T::ALL.iter().map(|(_, spelling)| *spelling);
        uses.ways.push((name, words.collect()));
    }
}

/// Everything that an operation names.
pub(super) fn names_of(operation: &Operation) -> Uses<'_> {
    use NameKind::{Part, Product, Station};
    let mut uses = Uses {
        names: Vec::new(),
        ways: Vec::new(),
    };
    let all = &mut uses;
    match operation {
        Operation::FillBath { bath, with } => {
            all.names.push((Station, "bath", bath));
            way(with, all);
        }
        Operation::PlaceBaths { first, second, how } => {
            all.names.push((Station, "bath", first));
            all.names.push((Station, "bath", second));
            way(how, all);
        }
        Operation::LoadBath { bath, .. } => all.names.push((Station, "bath", bath)),
        Operation::Strain { part, how } => {
            all.names.push((Part, "", part));
            way(how, all);
        }
        Operation::Immerse { part, bath, air } => {
            all.names.push((Part, "", part));
            all.names.push((Station, "bath", bath));
            way(air, all);
        }
        Operation::Brush { part, reach } => {
            all.names.push((Part, "", part));
            way(reach, all);
        }
        Operation::HandDown { from, to, old } => {
            all.names.push((Station, "bath", from));
            all.names.push((Station, "bath", to));
            way(old, all);
        }
        Operation::Dry { part, with } => {
            all.names.push((Part, "", part));
            all.names.push((Station, "air-line", with));
        }
        Operation::Arrange { how } => way(how, all),
        Operation::SwitchOn { plate } | Operation::SwitchOff { plate } => {
            all.names.push((Station, "plate", plate));
        }
        Operation::Charge {
            vessel,
            level,
            rest,
        } => {
            all.names.push((Station, "vessel", vessel));
            way(level, all);
            way(rest, all);
        }
        Operation::Warm { vessel, plate } => {
            all.names.push((Station, "vessel", vessel));
            all.names.push((Station, "plate", plate));
        }
        Operation::Unload { vessel } => all.names.push((Station, "vessel", vessel)),
        Operation::Pick { product, bottle } => {
            all.names.push((Product, "", product));
            way(bottle, all);
        }
        Operation::Fill { at, amount } => {
            all.names.push((Station, "bonding", at));
            way(amount, all);
        }
        Operation::Seat { how } => way(how, all),
        Operation::Wipe { how } => way(how, all),
        Operation::Tack {
            light,
            distance,
            tip,
            neighbours,
            tooth,
        } => {
            all.names.push((Station, "light", light));
            way(distance, all);
            way(tip, all);
            way(neighbours, all);
            way(tooth, all);
        }
        Operation::DirtyTip { light }
        | Operation::WeakLight { light }
        | Operation::RestoreLight { light } => all.names.push((Station, "light", light)),
        Operation::LoadUnit {
            unit,
            part,
            up,
            programme,
        } => {
            all.names.push((Station, "unit", unit));
            all.names.push((Part, "", part));
            way(up, all);
            way(programme, all);
        }
        Operation::Expose { unit }
        | Operation::Interrupt { unit }
        | Operation::Cool { unit }
        | Operation::Turn { unit } => all.names.push((Station, "unit", unit)),
        Operation::Abrade { part, with, side } => {
            all.names.push((Part, "", part));
            way(with, all);
            way(side, all);
        }
        Operation::Drain { part }
        | Operation::CutPosts { part }
        | Operation::Steam { part }
        | Operation::Illuminate { part } => all.names.push((Part, "", part)),
        Operation::Discard { to } => way(to, all),
        Operation::CloseAlcohol | Operation::TryIn | Operation::Lift | Operation::Seal => {}
    }
    uses
}

pub(super) fn check(module: &Module, names: &Names<'_>, found: &mut Found) {
    for step in &module.steps {
        check_all(module, &step.does, &step.ways, names, found);
    }
    for never in &module.never {
        if let Never::Act(act) = never {
            check_all(module, &act.does, &[], names, found);
        }
    }
    for one in &module.disturbances {
        check_all(module, &one.does, &[], names, found);
        for response in &one.responses {
            check_all(module, &response.does, &[], names, found);
        }
    }
}

fn check_all(
    module: &Module,
    does: &[Operation],
    ways: &[Way],
    names: &Names<'_>,
    found: &mut Found,
) {
    for operation in does {
        let uses = names_of(operation);
        for (kind, expected, name) in uses.names {
            if kind == NameKind::Station && names.has(kind, &name.value) {
                is_station(module, name, expected, found);
            }
        }
        for (name, words) in uses.ways {
            let Some(way) = ways.iter().find(|it| it.id.value == name.value) else {
                let known: Vec<&str> = ways.iter().map(|it| it.id.value.as_str()).collect();
                found.push(unknown(NameKind::Way, name, &known));
                continue;
            };
            for option in &way.options {
                if !words.contains(&option.id.value.as_str()) {
                    found.push(unknown(NameKind::Option, &option.id, &words));
                }
            }
        }
    }
}

/// Complains when a station is of another kind than it is used for.
pub(super) fn is_station(module: &Module, name: &Name, expected: &'static str, found: &mut Found) {
    let station = module.stations.iter().find(|it| it.id.value == name.value);
    if let Some(station) = station
        && station.kind.value != expected
        && !expected.is_empty()
    {
        let what = CheckFault::WrongKind {
            name: name.value.clone(),
            found: station.kind.value.clone(),
            expected,
        };
        note(found, name.at, what);
    }
}
