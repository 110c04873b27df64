//! A tooth with its joint: primer, resin, seat, light, seal.

use crate::syllabus::operation::Amount;
use crate::units::{Dose, MilliCelsius, Millis, Ppm};

/// How a collar is sealed on one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Collar {
    /// Not at all.
    Open,
    /// While a joint was still unlit.
    Early,
    /// As it should be.
    Sealed,
}

/// A tooth and its joint in one run.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tooth {
    /// The vessel it lies in, by its index among the stations.
    pub(super) vessel: Option<usize>,
    /// Whether it lies in the liquid as it should.
    pub(super) covered: bool,
    /// Whether primer has been on it.
    pub(super) primed: bool,
    /// The warmest that primer has been on its bonding face.
    pub(super) primed_at: MilliCelsius,
    /// The warmest that it has been itself.
    pub(super) hottest: MilliCelsius,
    /// Wet primer on it, as a share of a full film.
    pub(super) primer_film: Ppm,
    /// Resin in its joint.
    pub(super) amount: Option<Amount>,
    pub(super) filled_at: Millis,
    pub(super) seated: bool,
    /// Whether it stands proud after seating: not pushed home, or on gel.
    pub(super) proud: bool,
    /// How many wipes the excess at its seam still needs.
    pub(super) excess: u8,
    /// Light on each side of the joint.
    pub(super) dose: [Dose; 2],
    /// Whether a light was pointed at it at all.
    pub(super) lit: bool,
    /// Whether it was let go under the light before it was firm.
    pub(super) let_go: bool,
    pub(super) collars: [Collar; 2],
}

impl Tooth {
    /// A tooth as it lies there at the start.
    pub(super) fn start() -> Tooth {
        Tooth {
            vessel: None,
            covered: false,
            primed: false,
            primed_at: MilliCelsius(i64::MIN),
            hottest: MilliCelsius(i64::MIN),
            primer_film: Ppm(0),
            amount: None,
            filled_at: Millis::ZERO,
            seated: false,
            proud: false,
            excess: 0,
            dose: [Dose(0); 2],
            lit: false,
            let_go: false,
            collars: [Collar::Open; 2],
        }
    }

    /// Whether resin lies in its joint that no light was pointed at.
    pub(super) fn filled_and_unlit(&self) -> bool {
        self.amount.is_some() && !self.lit
    }

    /// Whether resin lies open in its socket.
    pub(super) fn filled_and_unseated(&self) -> bool {
        self.amount.is_some() && !self.seated
    }

    /// Light on its weaker side.
    pub(super) fn weaker(&self) -> Dose {
        self.dose[0].min(self.dose[1])
    }

    /// Whether it would stay where it is when pushed.
    pub(super) fn firm(&self, least: Dose) -> bool {
        self.amount.is_some()
            && self.seated
            && self.weaker() >= least
            && !self.let_go
            && !self.proud
    }
}
