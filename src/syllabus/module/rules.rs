//! Rules over steps, what is never done, what comes up, and what errors lead to.

use super::{Condition, Miss, Name, Origin, Severity};
use crate::syllabus::operation::Operation;
use crate::syllabus::read::Spot;
use crate::units::{Chance, Millis};

/// A rule over the time between steps.
#[derive(Clone, Debug)]
pub enum TimeRule {
    /// Between one step and another.
    Gap {
        /// From which moment.
        from: Moment,
        /// To which moment.
        to: Moment,
        /// At least.
        least: Option<Millis>,
        /// At most.
        most: Option<Millis>,
        /// What breaking it means.
        miss: Miss,
        /// Where the numbers come from.
        origin: Option<Origin>,
    },
    /// Over the sum of several steps.
    Cap {
        /// The steps that are summed, each time they are done.
        over: Vec<Name>,
        /// At most.
        most: Millis,
        /// Larger caps when one of these steps was done.
        when_done: Vec<(Name, Millis)>,
        /// What the case card changes: choice, value, the cap, the larger caps.
        changes: Vec<CapChange>,
        /// What breaking it means.
        miss: Miss,
        /// Where the numbers come from.
        origin: Option<Origin>,
    },
}

/// A cap for some case cards.
#[derive(Clone, Debug)]
pub struct CapChange {
    /// The case choice.
    pub choice: Name,
    /// The value for which it applies.
    pub value: Name,
    /// The cap in its place.
    pub most: Millis,
    /// The larger caps in their place.
    pub when_done: Vec<(Name, Millis)>,
}

/// The start or the end of a step.
#[derive(Clone, Debug)]
pub struct Moment {
    /// Which step.
    pub step: Name,
    /// Its end, or its start.
    pub end: bool,
}

/// What must be worn or running, and when.
#[derive(Clone, Debug)]
pub struct Guard {
    /// The protection item.
    pub item: Name,
    /// While all of these hold (empty: always).
    pub holds_while: Vec<Condition>,
    /// During steps and acts at these stations (empty: everywhere).
    pub during: Vec<Name>,
    /// The hazard it protects from, of the shared list.
    pub hazard: Name,
    /// What going without means.
    pub miss: Miss,
    /// Time without it that is not yet a finding.
    pub grace: Millis,
}

/// Something never done in this workflow.
#[derive(Clone, Debug)]
pub enum Never {
    /// More than so many places in a state at once.
    MoreThan {
        /// How many are allowed.
        count: u16,
        /// The state.
        of: Condition,
        /// What it means.
        miss: Miss,
    },
    /// One step before another, where their places overlap.
    Before {
        /// The step that came too early.
        act: Name,
        /// The step that it must wait for.
        until: Name,
        /// Whether it waits for all places of that step.
        all: bool,
        /// What it means.
        miss: Miss,
    },
    /// An act that is offered and always wrong.
    Act(ForbiddenAct),
}

/// An act that is offered and always wrong.
#[derive(Clone, Debug)]
pub struct ForbiddenAct {
    /// Its id.
    pub id: Name,
    /// Its title, as tempting as in life.
    pub title: String,
    /// The station it is done at.
    pub at: Name,
    /// How long it takes.
    pub takes: Millis,
    /// What it does to the bench.
    pub does: Vec<Operation>,
    /// What it makes true, if anything.
    pub makes: Vec<Condition>,
    /// What it means.
    pub miss: Miss,
}

/// Something that goes wrong around the technician.
#[derive(Clone, Debug)]
pub struct Disturbance {
    /// Its id.
    pub id: Name,
    /// When it shows.
    pub comes: Comes,
    /// How often.
    pub chance: Chance,
    /// What it does to the bench.
    pub does: Vec<Operation>,
    /// Protection items that it takes away.
    pub takes_off: Vec<Name>,
    /// What the technician sees.
    pub seen: String,
    /// The responses that are offered.
    pub responses: Vec<Response>,
    /// Going on without a response, when that is wrong. `None`: going on is right.
    pub carry_on: Option<Miss>,
}

/// When a disturbance shows.
#[derive(Clone, Debug)]
pub enum Comes {
    /// Just before a step is started for the first time.
    Before(Name),
    /// Just after a step is done for the first time.
    After(Name),
}

/// A response to a disturbance.
#[derive(Clone, Debug)]
pub struct Response {
    /// Its id.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// How long it takes.
    pub takes: Millis,
    /// What it does to the bench.
    pub does: Vec<Operation>,
    /// Protection items that it puts on fresh.
    pub puts_on: Vec<Name>,
    /// What choosing it wrongly means; `None` when it is right.
    pub wrong: Option<Miss>,
}

/// A consequence that errors lead to.
#[derive(Clone, Debug)]
pub struct Consequence {
    /// Its id.
    pub id: Name,
    /// The fault of the shared fault list, if any.
    pub fault: Option<Name>,
    /// What happens, in the words of the bench.
    pub text: String,
    /// The bench's own outcomes that show it.
    pub shows: Vec<Spot<Harm>>,
    /// How much it weighs when the bench shows it and no error explains it.
    pub severity: Severity,
}

/// What a bench can end with that should not be: the teaching model's outcomes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Harm {
    /// Residue above the limit on a dry part.
    Veil,
    /// Light on a part while residue was above the limit.
    LockedVeil,
    /// Loose gel left in a socket.
    SocketGel,
    /// Too long in solvent.
    Softened,
    /// Resin placed on a damp or filmed socket.
    DampJoint,
    /// Primer never warm enough, or the tooth not covered.
    WeakPrimer,
    /// No primer at all where it is needed.
    NoPrimer,
    /// Primer too warm (43 °C).
    WarmPrimer,
    /// Primer far too warm (45 °C).
    HotPrimer,
    /// Resin placed over wet primer.
    WetPrimer,
    /// Too little resin in a joint.
    StarvedJoint,
    /// Resin ran on or gelled before the tooth was seated.
    GelledSocket,
    /// Excess lit before it was wiped, or stray light on a neighbour.
    HardFlash,
    /// A joint too weakly lit or not held: the tooth moves.
    MovedTooth,
    /// Tooth in the wrong place.
    WrongTooth,
    /// A wrong product in the joint.
    WrongProduct,
    /// A seam without sealer, or sealed too early.
    OpenSeam,
    /// A side of the base not cured through.
    UnderCured,
    /// The base bent, prised, heated or let loose.
    Warped,
    /// Surface of the tissue side polished away.
    PolishedTissue,
    /// Finishing steps out of order left scratches.
    Scratched,
    /// Solvent vapour near a heat source.
    VapourNearHeat,
    /// Solvent vapour above the short-term limit in the air.
    VapourPeak,
    /// Bare skin on wet resin.
    SkinContact,
    /// Unprotected eye at the light.
    EyeExposure,
    /// Waste or resin where it must not go.
    Spoiled,
}
