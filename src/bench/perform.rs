//! From operations to what stations do: the time an operation has, the manner chosen, and the operations that need no station.

use std::ops::Range;
use std::sync::Arc;

use super::outcome::{Measure, Region};
use super::stations::{air_line, bath, bonding, drip, light, plate, room, unit, vessel};
use super::{Bench, Doing, Model};
use crate::syllabus::module::Harm;
use crate::syllabus::operation::{FinishSide, Grade, Manner, Operation, Strain, Waste, Word};
use crate::units::{Dose, Millis};

/// The longest span that is taken at its word: ten years. Longer ones count as this.
const LONGEST: i64 = 315_360_000_000;

/// The frame of one operation: where, how, from when to when.
pub(super) struct Scene<'a> {
    pub(super) model: &'a Model,
    pub(super) doing: &'a Doing<'a>,
    /// Start and end of what a timed operation lasts.
    pub(super) begin: Millis,
    pub(super) end: Millis,
    now: Millis,
}

impl Scene<'_> {
    /// The moment at which an operation without duration happens.
    pub(super) fn now(&self) -> Millis {
        self.now
    }

    /// How long a timed operation lasts.
    pub(super) fn span(&self) -> Millis {
        self.end - self.begin
    }

    /// The teeth of the place, as indices from 0; of a place beyond the last tooth nothing is left.
    pub(super) fn teeth(&self) -> Range<usize> {
        let count = usize::from(self.model.teeth);
        match self.doing.teeth {
            None => 0..count,
            Some(teeth) => {
                let end = usize::from(teeth.last).min(count);
                usize::from(teeth.first.saturating_sub(1)).min(end)..end
            }
        }
    }

    /// The sides of the place, as indices from 0: both where none is given.
    pub(super) fn sides(&self) -> Range<usize> {
        match self.doing.side {
            None => 0..2,
            Some(0) => 0..1,
            Some(_) => 1..2,
        }
    }

    /// The word that a manner comes to. Without a choice it is the first, which is the right one.
    fn choose<T: Word>(&self, manner: &Manner<T>) -> T {
        let chosen = match manner {
            Manner::Fixed(value) => return *value,
            Manner::AsWay(way) => self
                .doing
                .ways
                .iter()
                .find(|(id, _)| *id == way.value)
                .and_then(|(_, option)| T::of(option)),
        };
        chosen.unwrap_or(T::ALL[0].0)
    }
}

/// Whether an operation lasts for the timed part.
fn lasts(operation: &Operation) -> bool {
    matches!(
        operation,
        Operation::Drain { .. }
            | Operation::Immerse { .. }
            | Operation::Dry { .. }
            | Operation::Warm { .. }
            | Operation::Tack { .. }
            | Operation::Expose { .. }
            | Operation::Cool { .. }
    )
}

/// Whether alcohol is handled during an operation; a brush is wetted with it only while it is about.
fn handles_alcohol(operation: &Operation, open: bool) -> bool {
    match operation {
        Operation::FillBath { .. } | Operation::Immerse { .. } | Operation::HandDown { .. } => true,
        Operation::Brush { .. } => open,
        _ => false,
    }
}

/// Performs operations in order and lets their time pass.
pub(super) fn perform(bench: &mut Bench, does: &[Operation], doing: &Doing<'_>) {
    let model = Arc::clone(&bench.model);
    let clamp = |span: Millis| Millis(span.0.clamp(0, LONGEST));
    let (handling, timed) = (clamp(doing.handling), clamp(doing.timed));
    let open = bench.alcohol_open();
    let source = if does.iter().any(|one| handles_alcohol(one, open)) {
        room::Source::Handled
    } else if open {
        room::Source::Open
    } else {
        room::Source::None
    };
    let start = bench.clock;
    let end = start + handling + timed;
    let begin = if timed.0 > 0 { start + handling } else { start };
    let mut scene = Scene {
        model: &model,
        doing,
        begin,
        end,
        now: if timed.0 > 0 { begin } else { end },
    };
    bench.clock = end;
    bench.breathe(handling + timed, source);
    for operation in does {
        one(bench, &scene, operation);
        if lasts(operation) {
            scene.now = end;
        }
        heat_near_vapour(bench, &scene);
    }
}

/// Lets time pass while nothing is done.
pub(super) fn wait(bench: &mut Bench, by: Millis) {
    let by = Millis(by.0.clamp(0, LONGEST));
    let source = if bench.alcohol_open() {
        room::Source::Open
    } else {
        room::Source::None
    };
    bench.clock += by;
    bench.breathe(by, source);
}

fn one(bench: &mut Bench, scene: &Scene<'_>, operation: &Operation) {
    match operation {
        Operation::FillBath { bath, with } => {
            bath::fill(bench, scene, &bath.value, scene.choose(with));
        }
        Operation::PlaceBaths { first, second, how } => {
            let baths = (first.value.as_str(), second.value.as_str());
            bath::place(bench, scene, baths, scene.choose(how));
        }
        Operation::LoadBath { bath, load } => bath::load(bench, scene, &bath.value, *load),
        Operation::Drain { part } => drip::drain(bench, scene, &part.value),
        Operation::Strain { part: _, how } => strain(bench, scene, scene.choose(how)),
        Operation::Immerse { part, bath, air } => {
            let names = (part.value.as_str(), bath.value.as_str());
            bath::immerse(bench, scene, names, scene.choose(air));
        }
        Operation::Brush { part, reach } => {
            bath::brush(bench, scene, &part.value, scene.choose(reach));
        }
        Operation::HandDown { from, to, old } => {
            let names = (from.value.as_str(), to.value.as_str());
            bath::hand_down(bench, scene, names, scene.choose(old));
        }
        Operation::CloseAlcohol => bench.close_alcohol(),
        Operation::Dry { part, with } => air_line::dry(bench, scene, &part.value, &with.value),
        Operation::Arrange { how } => bench.arrangement = scene.choose(how),
        // A dry fit changes nothing: what it shows is read with `Bench::fit`.
        Operation::TryIn => {}
        Operation::Lift => lift(bench, scene),
        Operation::SwitchOn { plate } => plate::switch(bench, scene, &plate.value, true),
        Operation::SwitchOff { plate } => plate::switch(bench, scene, &plate.value, false),
        Operation::Charge {
            vessel,
            level,
            rest,
        } => {
            let manners = (scene.choose(level), scene.choose(rest));
            vessel::charge(bench, scene, &vessel.value, manners);
        }
        Operation::Warm { vessel, plate } => {
            vessel::warm(bench, scene, &vessel.value, &plate.value);
        }
        Operation::Unload { vessel } => vessel::unload(bench, scene, &vessel.value),
        Operation::Pick { product: _, bottle } => bench.picked = Some(scene.choose(bottle)),
        Operation::Fill { at, amount } => {
            bonding::fill(bench, scene, &at.value, scene.choose(amount));
        }
        Operation::Seat { how } => bonding::seat(bench, scene, scene.choose(how)),
        Operation::Wipe { how } => bonding::wipe(bench, scene, scene.choose(how)),
        Operation::Tack {
            light,
            distance,
            tip,
            neighbours,
            tooth,
        } => {
            let how = light::Manners {
                distance: scene.choose(distance),
                tip: scene.choose(tip),
                neighbours: scene.choose(neighbours),
                tooth: scene.choose(tooth),
            };
            light::tack(bench, scene, &light.value, how);
        }
        Operation::DirtyTip { light } => {
            light::change(bench, scene, &light.value, |state| state.dirty = true);
        }
        Operation::WeakLight { light } => {
            light::change(bench, scene, &light.value, |state| state.weak = true);
        }
        Operation::RestoreLight { light } => light::change(bench, scene, &light.value, |state| {
            (state.dirty, state.weak) = (false, false);
        }),
        Operation::Seal => bonding::seal(bench, scene),
        Operation::LoadUnit {
            unit,
            part,
            up,
            programme,
        } => {
            let names = (unit.value.as_str(), part.value.as_str());
            unit::load(
                bench,
                scene,
                names,
                scene.choose(up),
                scene.choose(programme),
            );
        }
        Operation::Expose { unit } => unit::expose(bench, scene, &unit.value),
        Operation::Interrupt { unit } => unit::interrupt(bench, scene, &unit.value),
        Operation::Cool { unit } => unit::cool(bench, scene, &unit.value),
        Operation::Turn { unit } => unit::turn(bench, scene, &unit.value),
        Operation::CutPosts { part } => unit::cut_posts(bench, scene, &part.value),
        Operation::Abrade { part, with, side } => {
            let manners = (scene.choose(with), scene.choose(side));
            abrade(bench, scene, &part.value, manners);
        }
        Operation::Steam { part: _ } => {
            bench.log.harm(Harm::Warped, None, None, scene.now, None);
        }
        Operation::Illuminate { part } => light::illuminate(bench, scene, &part.value),
        Operation::Discard { to } => waste(bench, scene, scene.choose(to)),
    }
}

/// Anything but even handling bends a part.
fn strain(bench: &mut Bench, scene: &Scene<'_>, how: Strain) {
    if how != Strain::Gentle {
        bench.log.harm(Harm::Warped, None, None, scene.now, None);
    }
}

/// Lifts what keeps teeth of the place proud; what it leaves behind has to be brushed away.
fn lift(bench: &mut Bench, scene: &Scene<'_>) {
    let limit = scene.model.bath.gel_above;
    for index in scene.teeth() {
        for part in &mut bench.parts {
            if let Some(socket) = part.socket_mut(index)
                && socket.lumps() > limit
            {
                (socket.gel.0, socket.set.0) = (0, 0);
                socket.smeared = true;
            }
        }
    }
}

/// Works a surface; anything finer than carbide takes the detail of the tissue side away.
fn abrade(bench: &mut Bench, scene: &Scene<'_>, part: &str, (with, side): (Grade, FinishSide)) {
    let (now, open) = (scene.now, bench.alcohol_open());
    let Some(part) = bench.part_mut(part) else {
        return;
    };
    part.surface.abrade(with, now);
    if side == FinishSide::TissueToo && with > Grade::Carbide {
        bench.log.harm(Harm::PolishedTissue, None, None, now, None);
    }
    if open {
        bench.log.harm(Harm::VapourNearHeat, None, None, now, None);
    }
}

/// Only the marked container is right.
pub(super) fn waste(bench: &mut Bench, scene: &Scene<'_>, to: Waste) {
    if to != Waste::Collected {
        bench.log.harm(Harm::Spoiled, None, None, scene.now, None);
    }
}

fn heat_near_vapour(bench: &mut Bench, scene: &Scene<'_>) {
    let heated = scene.model.all::<plate::Numbers>().any(|(at, _)| {
        bench
            .state::<plate::Numbers>(at)
            .is_some_and(|state| state.on)
    });
    if heated && bench.alcohol_open() {
        bench
            .log
            .harm(Harm::VapourNearHeat, None, None, scene.now, None);
    }
}

impl Bench {
    /// Joints are pushed or shaken: teeth that are not firm move.
    pub(super) fn push_all(&mut self, scene: &Scene<'_>) {
        let limit = scene.model.light.least_dose;
        for (index, tooth) in self.teeth.iter().enumerate() {
            if tooth.amount.is_some() && !tooth.firm(limit) {
                let found = tooth.weaker();
                let measure = (found < limit).then_some(Measure::Dose { found, limit });
                self.log
                    .harm(Harm::MovedTooth, Some(index), None, scene.now, measure);
            }
        }
    }

    /// Light reaches the socket of a tooth, on every part that has one.
    pub(super) fn light_on_socket(&mut self, model: &Model, tooth: usize, at: Millis) {
        for part in 0..self.parts.len() {
            let lit =
                |region| matches!(region, Region::Socket(one) if usize::from(one) == tooth + 1);
            self.light_on_part(model, part, lit, at);
        }
    }

    /// Light reaches regions of a part: residue above the limit is fixed for good.
    pub(super) fn light_on_part(
        &mut self,
        model: &Model,
        part: usize,
        lit: impl Fn(Region) -> bool,
        at: Millis,
    ) {
        let limit = model.bath.veil_above;
        if let Some(found) = self.parts[part].lock(lit, limit) {
            let measure = Measure::Share { found, limit };
            self.log
                .harm(Harm::LockedVeil, None, None, at, Some(measure));
        }
    }

    /// How cold the primer of a tooth stayed; nothing to measure where it was never covered on a plate.
    pub(super) fn weak_primer(&self, index: usize) -> Option<Measure> {
        let found = self.teeth[index].primed_at;
        (found.0 > i64::MIN).then_some(Measure::Temperature {
            found,
            limit: self.model.vessel.least,
        })
    }

    fn close_alcohol(&mut self) {
        for state in &mut self.stations {
            if let super::stations::State::Bath(bath) = state {
                bath.open = false;
            }
        }
    }

    fn alcohol_open(&self) -> bool {
        let open = |state: &super::stations::State| matches!(state, super::stations::State::Bath(bath) if bath.open);
        self.stations.iter().any(open)
    }

    /// Time passes in the air of the first room.
    fn breathe(&mut self, span: Millis, source: room::Source) {
        let model = Arc::clone(&self.model);
        let extraction = self.running.contains(&true);
        let Some((at, numbers)) = model.all::<room::Numbers>().next() else {
            return;
        };
        if let Some(state) = self.state_mut::<room::Numbers>(at) {
            state.pass(numbers, span, source, extraction);
        }
    }

    /// Light on a joint's two sides.
    #[must_use]
    pub fn joint_dose(&self, tooth: u16) -> Option<[Dose; 2]> {
        let index = usize::from(tooth.checked_sub(1)?);
        self.teeth.get(index).map(|tooth| tooth.dose)
    }
}
