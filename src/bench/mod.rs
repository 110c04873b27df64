//! The simulated bench: what happens to parts, baths, plates and air while somebody works.
//!
//! A [`Model`] is a module's bench compiled for one case card. A [`Bench`] is its state for one seed: it changes through
//! operations and time only, never through the names of steps. Everything kept is a whole number with a unit.
//! Left out: who may do what and when, what is worn (`run`), and words for people (`text`).

mod judge;
mod log;
mod model;
mod outcome;
mod part;
mod perform;
pub mod physics;
mod references;
mod round;
mod stations;
#[cfg(test)]
mod tests;
mod tooth;

use std::sync::Arc;

pub use model::{BenchProblem, Model, Wrong};
pub use outcome::{
    Air, Cleaning, Figures, HarmAt, Limits, Measure, Outcome, Region, ResidueAfter, VesselSample,
};

use crate::rng::{Seed, Stream};
use crate::syllabus::module::{GaugeKind, PartKind};
use crate::syllabus::operation::{Arrangement, Operation, Pick};
use crate::units::Millis;
use log::Log;
use part::{Film, Part};
use stations::{Of, State, plate, unit, vessel};
use tooth::Tooth;

/// The words for the kinds of stations that a module can have.
#[must_use]
pub fn station_kinds() -> Vec<&'static str> {
    stations::Kind::ALL.iter().map(|&(_, word)| word).collect()
}

/// Consecutive teeth, 1-based, both ends included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Teeth {
    /// The first.
    pub first: u16,
    /// The last.
    pub last: u16,
}

/// Where, how and how long something is done.
#[derive(Clone, Copy, Debug, Default)]
pub struct Doing<'a> {
    /// The teeth of the place; `None` for the whole part.
    pub teeth: Option<Teeth>,
    /// Index of the side of an each-of repeat, from 0; `None` for both.
    pub side: Option<u8>,
    /// What was chosen: way and option by id. A way that is missing is done as it should be.
    pub ways: &'a [(String, String)],
    /// Handling time, before the timed part.
    pub handling: Millis,
    /// The timed part; zero if the step is not timed.
    pub timed: Millis,
}

/// The state of the bench in one run.
#[derive(Clone, Debug, PartialEq)]
pub struct Bench {
    model: Arc<Model>,
    clock: Millis,
    stations: Vec<State>,
    parts: Vec<Part>,
    teeth: Vec<Tooth>,
    /// The bottle in hand.
    picked: Option<Pick>,
    arrangement: Arrangement,
    /// Index of the first of the two teeth that would be exchanged.
    swapped: u16,
    /// Whether a part was ever exposed in a curing unit.
    exposed: bool,
    running: Vec<bool>,
    log: Log,
}

/// What a dry fit of a tooth shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// It goes home.
    Home,
    /// Something in its socket keeps it proud.
    Proud,
    /// It is not the tooth for this socket, or turned.
    WrongTooth,
}

impl Bench {
    /// A bench as it is found at the start of a run; everything drawn is drawn here.
    #[must_use]
    pub fn new(model: &Arc<Model>, seed: Seed) -> Bench {
        let stations = model
            .stations()
            .iter()
            .map(|(id, numbers)| numbers.start(&mut Stream::new(seed, &format!("station:{id}"))));
        let parts = model.parts().iter().map(|(id, kind)| {
            let mut stream = Stream::new(seed, &format!("part:{id}"));
            Part::start(*kind, model, &mut stream)
        });
        let last_pair = i64::from(model.teeth) - 2;
        let swapped = Stream::new(seed, "arrangement").between(0, last_pair.max(0));
        Bench {
            clock: Millis::ZERO,
            stations: stations.collect(),
            parts: parts.collect(),
            teeth: vec![Tooth::start(); usize::from(model.teeth)],
            picked: None,
            arrangement: Arrangement::InOrder,
            swapped: u16::try_from(swapped).unwrap_or(0),
            exposed: false,
            running: vec![false; model.count_running()],
            log: Log::default(),
            model: Arc::clone(model),
        }
    }

    /// Time since the start of the run.
    #[must_use]
    pub fn clock(&self) -> Millis {
        self.clock
    }

    /// Lets time pass. A negative span counts as none.
    pub fn wait(&mut self, by: Millis) {
        perform::wait(self, by);
    }

    /// Performs operations in their order: the handling time passes, then the timed part.
    ///
    /// A timed operation lasts for the timed part, or for the handling time if nothing is timed. What names something that the
    /// model does not have is passed over; [`Model::new`] reports it.
    pub fn perform(&mut self, does: &[Operation], doing: &Doing<'_>) {
        perform::perform(self, does, doing);
    }

    /// What a person sees, feels or reads: the index of a value of the gauge, in the order of its words.
    ///
    /// Without a tooth, a gauge that is read on each gives the lowest of all. `None` where the model has nothing to read.
    #[must_use]
    pub fn read(&self, gauge: GaugeKind, of: &str, tooth: Option<u16>) -> Option<usize> {
        match gauge {
            GaugeKind::Plate => {
                let (at, numbers) = self.model.station::<plate::Numbers>(of)?;
                Some(self.state::<plate::Numbers>(at)?.look(numbers, self.clock))
            }
            GaugeKind::Strip => {
                let (at, _) = self.model.station::<vessel::Numbers>(of)?;
                Some(usize::from(self.state::<vessel::Numbers>(at)?.turned))
            }
            GaugeKind::Heat => {
                let (at, _) = self.model.station::<unit::Numbers>(of)?;
                let hot_until = self.state::<unit::Numbers>(at)?.hot_until;
                Some(usize::from(self.clock < hot_until))
            }
            GaugeKind::Primer => self.lowest(of, tooth, |tooth| {
                let wet = tooth.primer_film > self.model.air_line.dry_below;
                match (tooth.primed, wet) {
                    (false, _) => 0,
                    (true, true) => 1,
                    (true, false) => 2,
                }
            }),
            GaugeKind::Hold => {
                let least = self.model.light.least_dose;
                self.lowest(of, tooth, |tooth| usize::from(tooth.firm(least)))
            }
            GaugeKind::Drops | GaugeKind::Film | GaugeKind::Veil | GaugeKind::Cure => {
                Some(self.look(gauge, self.parts.get(self.model.part(of)?)?))
            }
        }
    }

    /// What a part looks like.
    fn look(&self, gauge: GaugeKind, part: &Part) -> usize {
        let model = &self.model;
        let dry = part.is_dry(model.air_line.dry_below);
        match gauge {
            GaugeKind::Drops => usize::from(part.drops < model.drip.drained_below),
            GaugeKind::Film => match (dry, part.film_kind) {
                (true, _) => 2,
                (false, Film::Solvent) => 1,
                (false, Film::Resin) => 0,
            },
            GaugeKind::Veil if !dry => 0,
            GaugeKind::Veil => 1 + usize::from(part.highest_residue() > model.bath.veil_above),
            _ => part.cured(model.unit.least_dose),
        }
    }

    /// A reading of one tooth, or the lowest of all, if there is such a part.
    fn lowest(
        &self,
        of: &str,
        tooth: Option<u16>,
        read: impl Fn(&Tooth) -> usize,
    ) -> Option<usize> {
        self.model.part(of)?;
        match tooth {
            Some(number) => self
                .teeth
                .get(usize::from(number.checked_sub(1)?))
                .map(read),
            None => self.teeth.iter().map(read).min(),
        }
    }

    /// What a dry fit of a tooth (1-based) would show. `None` beyond the last tooth.
    #[must_use]
    pub fn fit(&self, tooth: u16) -> Option<Fit> {
        let number = tooth.checked_sub(1).filter(|_| tooth <= self.model.teeth)?;
        let limit = self.model.bath.gel_above;
        let gel = self
            .parts
            .iter()
            .filter(|part| part.kind == PartKind::Body)
            .filter_map(|part| part.socket(usize::from(number)))
            .any(|socket| socket.lumps() > limit);
        Some(if self.misplaced(number) {
            Fit::WrongTooth
        } else if gel {
            Fit::Proud
        } else {
            Fit::Home
        })
    }

    /// Whether a tooth (from 0) is one of two that were exchanged.
    fn misplaced(&self, index: u16) -> bool {
        self.arrangement == Arrangement::Swapped
            && (self.swapped..=self.swapped.saturating_add(1)).contains(&index)
    }

    /// The state of a station of one kind.
    fn state<N: Of>(&self, at: usize) -> Option<&N::State> {
        N::state(self.stations.get(at)?)
    }

    /// The state of a station of one kind, to change.
    fn state_mut<N: Of>(&mut self, at: usize) -> Option<&mut N::State> {
        N::state_mut(self.stations.get_mut(at)?)
    }

    /// The state of the first station of one kind.
    fn first<N: Of>(&self) -> Option<&N::State> {
        self.stations.iter().find_map(N::state)
    }

    /// A part by its id, to change.
    fn part_mut(&mut self, id: &str) -> Option<&mut Part> {
        let index = self.model.part(id)?;
        self.parts.get_mut(index)
    }

    /// How long the timed part must last until `sign` holds after it, to the millisecond; `None` if not within `at_most`.
    ///
    /// Works on copies by halving, so the sign must stay once it has come. The timed part of `doing` is ignored.
    #[must_use]
    pub fn time_until(
        &self,
        does: &[Operation],
        doing: &Doing<'_>,
        sign: impl Fn(&Bench) -> bool,
        at_most: Millis,
    ) -> Option<Millis> {
        let holds = |timed: i64| {
            let mut copy = self.clone();
            copy.perform(
                does,
                &Doing {
                    timed: Millis(timed),
                    ..*doing
                },
            );
            sign(&copy)
        };
        // From 1 ms on: with a timed part of zero an operation would last for the handling time.
        let (mut low, mut high) = (0, at_most.0);
        if high < 1 || !holds(high) {
            return None;
        }
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            if holds(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some(Millis(high))
    }

    /// Switches a protection item that runs (extraction) on or off.
    pub fn set_running(&mut self, item: &str, on: bool) {
        if let Some(running) = self
            .model
            .running(item)
            .and_then(|index| self.running.get_mut(index))
        {
            *running = on;
        }
    }

    /// What the run would end with now.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        judge::outcome(self)
    }
}
