//! The simulated bench: what happens to parts, baths, plates and air while somebody works.
//!
//! A [`Model`] is a module's bench compiled for one case card. A [`Bench`] is its state for one seed: it changes through
//! operations and time only, never through the names of steps. Everything kept is a whole number with a unit.
//! Left out: who may do what and when, what is worn (`run`), and words for people (`text`).

mod model;
mod outcome;
pub mod physics;
mod round;

use std::sync::Arc;

pub use model::{BenchProblem, Model, Wrong};
pub use outcome::{
    Air, Cleaning, Figures, HarmAt, Measure, Outcome, Region, ResidueAfter, VesselSample,
};

use crate::rng::Seed;
use crate::syllabus::module::GaugeKind;
use crate::syllabus::operation::Operation;
use crate::units::Millis;

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
}

impl Bench {
    /// A bench as it is found at the start of a run; everything drawn is drawn here.
    #[must_use]
    pub fn new(model: &Arc<Model>, seed: Seed) -> Bench {
        let _ = seed;
        Bench {
            model: Arc::clone(model),
            clock: Millis::ZERO,
        }
    }

    /// Time since the start of the run.
    #[must_use]
    pub fn clock(&self) -> Millis {
        self.clock
    }

    /// Lets time pass. A negative span counts as none.
    pub fn wait(&mut self, by: Millis) {
        self.clock += by.at_least_zero();
    }

    /// Performs operations in their order: the handling time passes, then the timed part.
    ///
    /// A timed operation lasts for the timed part, or for the handling time if nothing is timed. What names something that the
    /// model does not have is passed over; [`Model::new`] reports it.
    pub fn perform(&mut self, does: &[Operation], doing: &Doing<'_>) {
        let _ = does;
        self.wait(doing.handling);
        self.wait(doing.timed);
    }

    /// What a person sees, feels or reads: the index of a value of the gauge, in the order of its words.
    ///
    /// Without a tooth, a gauge that is read on each gives the lowest of all. `None` where the model has nothing to read.
    #[must_use]
    pub fn read(&self, gauge: GaugeKind, of: &str, tooth: Option<u16>) -> Option<usize> {
        let _ = (gauge, of, tooth);
        self.model.parts.first().map(|_| 0)
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
        let _ = (item, on);
    }

    /// What the run would end with now.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        Outcome::default()
    }
}
