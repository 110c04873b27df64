//! What a step can do to the bench: the vocabulary that modules use and stations understand.
//!
//! An operation names stations and parts of its module; a manner is either fixed by the module or taken from what the learner
//! chose (`as: WAY`). Left out: what an operation causes, which is `bench`'s.

use super::module::Name;
use crate::units::Ppm;

/// A word of the vocabulary: every value of a manner has one spelling.
pub trait Word: Copy + Sized + 'static {
    /// All values with their spellings.
    const ALL: &'static [(Self, &'static str)];

    /// The value that is spelled so.
    #[must_use]
    fn of(word: &str) -> Option<Self> {
        Self::ALL
            .iter()
            .find(|(_, spelling)| *spelling == word)
            .map(|(value, _)| *value)
    }
}

/// How something is done: fixed by the module, or as the learner chose.
#[derive(Clone, Debug)]
pub enum Manner<T> {
    /// Always so.
    Fixed(T),
    /// As chosen for this way of the step; its options are words of `T`.
    AsWay(Name),
}

macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$inner:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$inner])* $variant),+ }

        impl Word for $name {
            const ALL: &'static [(Self, &'static str)] = &[$(($name::$variant, $word)),+];
        }
    };
}

words! {
    /// What a bath is filled with.
    Liquid {
        /// Clean, never used.
        Fresh = "fresh",
        /// Served one wash as the second bath.
        OnceUsed = "once-used",
        /// At the end of its life.
        Spent = "spent",
        /// Used, then topped up with clean.
        ToppedUp = "topped-up",
    }
}

words! {
    /// How two marked vessels stand.
    Placing {
        /// Each where its mark says.
        AsMarked = "as-marked",
        /// Each where the other belongs.
        Swapped = "swapped",
    }
}

words! {
    /// How a part is handled when it is lifted or freed.
    Strain {
        /// Evenly, without force.
        Gentle = "gentle",
        /// With force.
        Forced = "forced",
        /// By the thin border.
        Flange = "flange",
        /// Prised or twisted.
        Prised = "prised",
    }
}

words! {
    /// What happens to air while a part is lowered into liquid.
    Air {
        /// Rolled out.
        Out = "out",
        /// Stays in hollows.
        Trapped = "trapped",
    }
}

words! {
    /// Where a brush goes.
    Reach {
        /// Tissue side, every socket, post roots.
        Inside = "inside",
        /// Outer faces only.
        Outside = "outside",
    }
}

words! {
    /// Where something goes at the end of its life.
    Waste {
        /// The marked container for it.
        Collected = "collected",
        /// The sink.
        Drain = "drain",
        /// Household rubbish.
        Bin = "bin",
    }
}

words! {
    /// How teeth are laid out.
    Arrangement {
        /// In arch order.
        InOrder = "in-order",
        /// Two of them exchanged or turned.
        Swapped = "swapped",
    }
}

words! {
    /// How far liquid covers what lies in it.
    Level {
        /// Fully.
        Covered = "covered",
        /// In part.
        Low = "low",
    }
}

words! {
    /// How teeth lie in the vessel.
    Rest {
        /// Bonding faces down, held in place.
        Seated = "seated",
        /// Loose or floating.
        Floating = "floating",
    }
}

words! {
    /// Which bottle is picked.
    Pick {
        /// The named product, the base's shade, in date.
        Matching = "matching",
        /// Another product.
        OtherKind = "other-kind",
        /// Another shade.
        OtherShade = "other-shade",
        /// Past its date.
        Expired = "expired",
    }
}

words! {
    /// How much resin goes into a joint.
    Amount {
        /// Enough for a continuous bead at the seam.
        Bead = "bead",
        /// Too little.
        Starved = "starved",
        /// Far too much.
        Flooded = "flooded",
    }
}

words! {
    /// How a tooth is seated.
    Seating {
        /// Straight along the path, fully.
        Home = "home",
        /// Left standing proud.
        Proud = "proud",
    }
}

words! {
    /// How a seam is wiped.
    Wiping {
        /// Dry.
        Dry = "dry",
        /// With alcohol.
        Alcohol = "alcohol",
    }
}

words! {
    /// How far the light is held.
    Distance {
        /// Close and square.
        Close = "close",
        /// Far or slanting.
        Far = "far",
    }
}

words! {
    /// The state of the light's tip that is accepted.
    Tip {
        /// Looked at, clean.
        Clean = "clean",
        /// Not looked at, dirty.
        Dirty = "dirty",
    }
}

words! {
    /// What happens to the neighbours of what is lit.
    Shading {
        /// Covered with something opaque.
        Shaded = "shaded",
        /// Left open.
        Open = "open",
    }
}

words! {
    /// What happens to a tooth while it is lit.
    Holding {
        /// Held until the light is off.
        Held = "held",
        /// Let go before.
        LetGo = "let-go",
    }
}

words! {
    /// Which side of a part is up.
    SideUp {
        /// Teeth up.
        ToothSide = "tooth-side",
        /// Tissue side up.
        TissueSide = "tissue-side",
    }
}

words! {
    /// Which unit and programme are chosen.
    Programme {
        /// The ones named for this set.
        Named = "named",
        /// Another unit or programme.
        Other = "other",
    }
}

words! {
    /// Which side is finished.
    FinishSide {
        /// Outer surfaces only.
        Outer = "outer",
        /// The tissue side as well.
        TissueToo = "tissue-too",
    }
}

words! {
    /// An abrasive, from coarse to fine.
    Grade {
        /// Rounded carbide.
        Carbide = "carbide",
        /// Rubber.
        Rubber = "rubber",
        /// Bristle brush.
        Bristle = "bristle",
        /// Wet pumice on cloth.
        Pumice = "pumice",
        /// Final polish on its own wheel.
        Polish = "polish",
    }
}

/// One thing that a step, a forbidden act, a disturbance or a response does to the bench.
#[derive(Clone, Debug)]
pub enum Operation {
    /// `fill-bath`: fills a bath vessel; alcohol is open from then on.
    FillBath {
        /// Which bath.
        bath: Name,
        /// With what.
        with: Manner<Liquid>,
    },
    /// `place-baths`: sets two filled baths in the unit.
    PlaceBaths {
        /// The one marked first.
        first: Name,
        /// The one marked second.
        second: Name,
        /// As marked or not.
        how: Manner<Placing>,
    },
    /// `load-bath`: puts resin into a bath that should not be there (for disturbances).
    LoadBath {
        /// Which bath.
        bath: Name,
        /// Resin as a share of the volume, g per mL.
        load: Ppm,
    },
    /// `drain`: lets resin run off a part for the time of the step.
    Drain {
        /// Which part.
        part: Name,
    },
    /// `strain`: handles a part with more or less force.
    Strain {
        /// Which part.
        part: Name,
        /// How.
        how: Manner<Strain>,
    },
    /// `immerse`: washes a part in a bath for the timed part of the step.
    Immerse {
        /// Which part.
        part: Name,
        /// In which bath.
        bath: Name,
        /// What happens to the air.
        air: Manner<Air>,
    },
    /// `brush`: brushes a part: loosens gel and takes residue off where the brush goes.
    Brush {
        /// Which part.
        part: Name,
        /// Where.
        reach: Manner<Reach>,
    },
    /// `hand-down`: makes the liquor of one bath the content of another; the old content leaves the bench.
    HandDown {
        /// From which bath.
        from: Name,
        /// To which bath.
        to: Name,
        /// Where the old content goes.
        old: Manner<Waste>,
    },
    /// `close-alcohol`: closes every alcohol vessel and takes it away.
    CloseAlcohol,
    /// `dry`: dries a part for the timed part of the step (or its handling time).
    Dry {
        /// Which part.
        part: Name,
        /// With which air line.
        with: Name,
    },
    /// `arrange`: lays teeth out.
    Arrange {
        /// How.
        how: Manner<Arrangement>,
    },
    /// `try-in`: seats a tooth dry: a swapped tooth or gel in its socket shows.
    TryIn,
    /// `lift`: lifts what keeps a tooth proud out of its socket (gel, a nub).
    Lift,
    /// `switch-on`: switches a plate on.
    SwitchOn {
        /// Which plate.
        plate: Name,
    },
    /// `switch-off`: switches a plate off.
    SwitchOff {
        /// Which plate.
        plate: Name,
    },
    /// `charge`: puts liquid and teeth into a vessel.
    Charge {
        /// Which vessel.
        vessel: Name,
        /// How far covered.
        level: Manner<Level>,
        /// How the teeth lie.
        rest: Manner<Rest>,
    },
    /// `warm`: has a vessel stand on a plate for the timed part of the step.
    Warm {
        /// Which vessel.
        vessel: Name,
        /// On which plate.
        plate: Name,
    },
    /// `unload`: takes teeth out of a vessel, wet.
    Unload {
        /// Which vessel.
        vessel: Name,
    },
    /// `pick`: takes a bottle from the shelf; what follows is done with it.
    Pick {
        /// Which product it should be.
        product: Name,
        /// Which bottle it is.
        bottle: Manner<Pick>,
    },
    /// `fill`: puts resin into the joints of the place.
    Fill {
        /// At which bonding place.
        at: Name,
        /// How much.
        amount: Manner<Amount>,
    },
    /// `seat`: seats the teeth of the place.
    Seat {
        /// How.
        how: Manner<Seating>,
    },
    /// `wipe`: wipes the seams of the place.
    Wipe {
        /// How.
        how: Manner<Wiping>,
    },
    /// `tack`: lights one side of the place for the timed part of the step.
    Tack {
        /// With which light.
        light: Name,
        /// How far.
        distance: Manner<Distance>,
        /// How clean.
        tip: Manner<Tip>,
        /// What happens to the neighbours.
        neighbours: Manner<Shading>,
        /// Whether the tooth is held.
        tooth: Manner<Holding>,
    },
    /// `dirty-tip`: soils a light's tip (for disturbances).
    DirtyTip {
        /// Which light.
        light: Name,
    },
    /// `weak-light`: weakens a light's battery (for disturbances).
    WeakLight {
        /// Which light.
        light: Name,
    },
    /// `restore-light`: cleans a light's tip and charges it.
    RestoreLight {
        /// Which light.
        light: Name,
    },
    /// `seal`: runs sealer along the collars of one side.
    Seal,
    /// `load-unit`: puts a part into a curing unit.
    LoadUnit {
        /// Which unit.
        unit: Name,
        /// Which part.
        part: Name,
        /// Which side is up.
        up: Manner<SideUp>,
        /// Which unit and programme.
        programme: Manner<Programme>,
    },
    /// `expose`: runs the programme for the timed part of the step.
    Expose {
        /// Which unit.
        unit: Name,
    },
    /// `interrupt`: breaks the last exposure off half way (for disturbances).
    Interrupt {
        /// Which unit.
        unit: Name,
    },
    /// `cool`: leaves the door shut for the timed part of the step, then opens it.
    Cool {
        /// Which unit.
        unit: Name,
    },
    /// `turn`: turns the part over.
    Turn {
        /// Which unit.
        unit: Name,
    },
    /// `cut-posts`: takes the cross-arch posts off a part.
    CutPosts {
        /// Which part.
        part: Name,
    },
    /// `abrade`: works a part's surface.
    Abrade {
        /// Which part.
        part: Name,
        /// With what.
        with: Manner<Grade>,
        /// Which side.
        side: Manner<FinishSide>,
    },
    /// `steam`: meets a part with steam or strong heat.
    Steam {
        /// Which part.
        part: Name,
    },
    /// `illuminate`: gives a part stray curing light (for forbidden acts).
    Illuminate {
        /// Which part.
        part: Name,
    },
    /// `discard`: gets rid of something.
    Discard {
        /// Where it goes.
        to: Manner<Waste>,
    },
}

/// The words for the operations in a module, in the order of [`Operation`].
pub const OPERATION_WORDS: &[&str] = &[
    "fill-bath",
    "place-baths",
    "load-bath",
    "drain",
    "strain",
    "immerse",
    "brush",
    "hand-down",
    "close-alcohol",
    "dry",
    "arrange",
    "try-in",
    "lift",
    "switch-on",
    "switch-off",
    "charge",
    "warm",
    "unload",
    "pick",
    "fill",
    "seat",
    "wipe",
    "tack",
    "dirty-tip",
    "weak-light",
    "restore-light",
    "seal",
    "load-unit",
    "expose",
    "interrupt",
    "cool",
    "turn",
    "cut-posts",
    "abrade",
    "steam",
    "illuminate",
    "discard",
];
