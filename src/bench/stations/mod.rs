//! What stands on the bench: one file per kind of station, with its numbers, its state and its operations.
//!
//! A new kind is a file here, its `mod` line and its line in the table below.

pub(super) mod air_line;
pub(super) mod bath;
pub(super) mod bonding;
pub(super) mod drip;
pub(super) mod light;
mod number;
pub(super) mod place;
pub(super) mod plate;
pub(super) mod room;
pub(super) mod unit;
pub(super) mod vessel;

use super::model::BenchProblem;
use crate::rng::Stream;
use crate::syllabus::case::CaseCard;
use crate::syllabus::module::Station;

macro_rules! kinds {
    ($($variant:ident $module:ident $word:literal,)+) => {
        /// The kinds of stations.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(super) enum Kind { $($variant),+ }

        impl Kind {
            /// Every kind with its word in a module.
            pub(super) const ALL: &'static [(Kind, &'static str)] = &[$((Kind::$variant, $word)),+];
        }

        /// The numbers of a station.
        #[derive(Clone, Debug, PartialEq)]
        pub(super) enum Numbers { $($variant($module::Numbers)),+ }

        impl Numbers {
            /// Reads the numbers of a station of this kind.
            pub(super) fn read(kind: Kind, station: &Station, card: &CaseCard, problems: &mut Vec<BenchProblem>) -> Numbers {
                let mut reader = number::Reader { station, card, problems };
                match kind { $(Kind::$variant => Numbers::$variant($module::Numbers::read(&mut reader))),+ }
            }

            /// Which kind it is.
            pub(super) fn kind(&self) -> Kind {
                match self { $(Numbers::$variant(_) => Kind::$variant),+ }
            }

            /// The state that it starts a run in; what is drawn is drawn here.
            pub(super) fn start(&self, stream: &mut Stream) -> State {
                match self { $(Numbers::$variant(numbers) => State::$variant($module::State::start(numbers, stream))),+ }
            }
        }

        /// The state of a station.
        #[derive(Clone, Debug, PartialEq)]
        pub(super) enum State { $($variant($module::State)),+ }

        $(impl Of for $module::Numbers {
            type State = $module::State;
            fn numbers(all: &Numbers) -> Option<&Self> {
                match all { Numbers::$variant(numbers) => Some(numbers), _ => None }
            }
            fn state(all: &State) -> Option<&Self::State> {
                match all { State::$variant(state) => Some(state), _ => None }
            }
            fn state_mut(all: &mut State) -> Option<&mut Self::State> {
                match all { State::$variant(state) => Some(state), _ => None }
            }
        })+
    };
}

/// The way from a station of any kind to the numbers and the state of its own kind.
pub(super) trait Of: Sized {
    /// Its state.
    type State;
    /// The numbers, if the station is of this kind.
    fn numbers(all: &Numbers) -> Option<&Self>;
    /// The state, if the station is of this kind.
    fn state(all: &State) -> Option<&Self::State>;
    /// The state to change, if the station is of this kind.
    fn state_mut(all: &mut State) -> Option<&mut Self::State>;
}

kinds! {
    Bath bath "bath",
    AirLine air_line "air-line",
    Drip drip "drip",
    Plate plate "plate",
    Vessel vessel "vessel",
    Bonding bonding "bonding",
    Light light "light",
    Unit unit "unit",
    Room room "room",
    Place place "place",
}

impl Kind {
    /// The kind with this word.
    pub(super) fn of(word: &str) -> Option<Kind> {
        Kind::ALL
            .iter()
            .find(|(_, spelling)| *spelling == word)
            .map(|(kind, _)| *kind)
    }
}
