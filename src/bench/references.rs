//! What an operation names: stations of a kind, parts, products, and the words that its manners take from ways.

use super::stations::Kind;
use crate::syllabus::module::Name;
use crate::syllabus::operation::{Manner, Operation, Word};

/// Everything that one operation names.
#[derive(Default)]
pub(super) struct References<'a> {
    pub(super) stations: Vec<(&'a Name, Kind)>,
    pub(super) parts: Vec<&'a Name>,
    pub(super) products: Vec<&'a Name>,
    /// Ways with the words that their options may be.
    pub(super) ways: Vec<(&'a Name, Vec<&'static str>)>,
}

impl<'a> References<'a> {
    /// What `operation` names.
    pub(super) fn of(operation: &'a Operation) -> References<'a> {
        let mut all = References::default();
        all.gather(operation);
        all
    }

    fn gather(&mut self, operation: &'a Operation) {
        match operation {
            Operation::FillBath { bath, with } => self.at(bath, Kind::Bath).way(with),
            Operation::PlaceBaths { first, second, how } => {
                self.at(first, Kind::Bath).at(second, Kind::Bath).way(how)
            }
            Operation::LoadBath { bath, load: _ } => self.at(bath, Kind::Bath),
            Operation::Drain { part }
            | Operation::CutPosts { part }
            | Operation::Steam { part }
            | Operation::Illuminate { part } => self.part(part),
            Operation::Strain { part, how } => self.part(part).way(how),
            Operation::Immerse { part, bath, air } => self.part(part).at(bath, Kind::Bath).way(air),
            Operation::Brush { part, reach } => self.part(part).way(reach),
            Operation::HandDown { from, to, old } => {
                self.at(from, Kind::Bath).at(to, Kind::Bath).way(old)
            }
            Operation::Dry { part, with } => self.part(part).at(with, Kind::AirLine),
            Operation::Arrange { how } => self.way(how),
            Operation::SwitchOn { plate } | Operation::SwitchOff { plate } => {
                self.at(plate, Kind::Plate)
            }
            Operation::Charge {
                vessel,
                level,
                rest,
            } => self.at(vessel, Kind::Vessel).way(level).way(rest),
            Operation::Warm { vessel, plate } => {
                self.at(vessel, Kind::Vessel).at(plate, Kind::Plate)
            }
            Operation::Unload { vessel } => self.at(vessel, Kind::Vessel),
            Operation::Pick { product, bottle } => {
                self.products.push(product);
                self.way(bottle)
            }
            Operation::Fill { at, amount } => self.at(at, Kind::Bonding).way(amount),
            Operation::Seat { how } => self.way(how),
            Operation::Wipe { how } => self.way(how),
            Operation::Tack {
                light,
                distance,
                tip,
                neighbours,
                tooth,
            } => self
                .at(light, Kind::Light)
                .way(distance)
                .way(tip)
                .way(neighbours)
                .way(tooth),
            Operation::DirtyTip { light }
            | Operation::WeakLight { light }
            | Operation::RestoreLight { light } => self.at(light, Kind::Light),
            Operation::LoadUnit {
                unit,
                part,
                up,
                programme,
            } => self.at(unit, Kind::Unit).part(part).way(up).way(programme),
            Operation::Expose { unit }
            | Operation::Interrupt { unit }
            | Operation::Cool { unit }
            | Operation::Turn { unit } => self.at(unit, Kind::Unit),
            Operation::Abrade { part, with, side } => self.part(part).way(with).way(side),
            Operation::Discard { to } => self.way(to),
            Operation::CloseAlcohol | Operation::TryIn | Operation::Lift | Operation::Seal => self,
        };
    }

    fn at(&mut self, name: &'a Name, kind: Kind) -> &mut Self {
        self.stations.push((name, kind));
        self
    }

    fn part(&mut self, name: &'a Name) -> &mut Self {
        self.parts.push(name);
        self
    }

    fn way<T: Word>(&mut self, manner: &'a Manner<T>) -> &mut Self {
        if let Manner::AsWay(way) = manner {
            let words = T::ALL.iter().map(|(_, word)| *word).collect();
            self.ways.push((way, words));
        }
        self
    }
}
