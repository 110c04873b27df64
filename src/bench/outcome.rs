//! What a run on the bench ends with: harms and the figures behind them, all as values.

use crate::syllabus::module::Harm;
use crate::units::{Dose, MilliCelsius, Millis, Ppm};

/// Everything that a run ends with.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outcome {
    /// The harms, in the order in which they came about.
    pub harms: Vec<HarmAt>,
    /// The figures for the debrief.
    pub figures: Figures,
}

impl Outcome {
    /// The entry of one harm, if it came about. The first one where it came about on several sides.
    #[must_use]
    pub fn harm(&self, harm: Harm) -> Option<&HarmAt> {
        self.harms.iter().find(|one| one.harm == harm)
    }
}

/// One harm, gathered over the teeth that it came about on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HarmAt {
    /// Which.
    pub harm: Harm,
    /// The teeth, 1-based and sorted; empty where it is of no single tooth.
    pub teeth: Vec<u16>,
    /// The side, where it is of one: of joints as the module's own each-of repeat counts, of a body 0 for the tooth side and 1
    /// for the tissue side.
    pub side: Option<u8>,
    /// When it first came about.
    pub at: Millis,
    /// How much it was, where it is measured. The first measure for this harm and side.
    pub amount: Option<Measure>,
}

/// A measure and the limit that it broke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A share, as of the first coat or of the wet film.
    Share {
        /// Found.
        found: Ppm,
        /// At most.
        limit: Ppm,
    },
    /// A dose of light.
    Dose {
        /// Found.
        found: Dose,
        /// At least (for stray light: at most).
        limit: Dose,
    },
    /// A temperature.
    Temperature {
        /// Found.
        found: MilliCelsius,
        /// At most, or at least for a weak primer.
        limit: MilliCelsius,
    },
    /// A span of time.
    Time {
        /// Found.
        found: Millis,
        /// At most.
        limit: Millis,
    },
    /// A count.
    Count {
        /// Found.
        found: u16,
        /// At most.
        limit: u16,
    },
    /// Vapour in the air, ppm by volume.
    Vapour {
        /// Found.
        found: Ppm,
        /// At most.
        limit: Ppm,
    },
}

/// The figures for the debrief: of the teaching model, no process limit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Figures {
    /// Temperature in a vessel while it stood on a plate.
    pub vessel: Vec<VesselSample>,
    /// Residue of a part after each bath and each brushing.
    pub residue: Vec<ResidueAfter>,
    /// Light on each tooth: a pair for sides 0 and 1.
    pub tooth_dose: Vec<[Dose; 2]>,
    /// Light on each body: its index among the parts of the module, tooth side and tissue side.
    pub body_dose: Vec<(usize, [Dose; 2])>,
    /// Vapour in the room.
    pub air: Air,
}

/// One point of a vessel's temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct VesselSample {
    /// Index of the vessel among the stations of the module.
    pub vessel: usize,
    /// When.
    pub at: Millis,
    /// How warm.
    pub temperature: MilliCelsius,
}

/// What a region is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Region {
    /// The side towards the tissue.
    Tissue,
    /// The outer faces.
    Outer,
    /// The cross-arch posts.
    Posts,
    /// The socket of a tooth, 1-based.
    Socket(u16),
}

/// What left a residue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cleaning {
    /// An immersion.
    Bath {
        /// Index of the bath among the stations of the module.
        bath: usize,
        /// How many washes its liquor had served before.
        uses: u16,
        /// Resin in it afterwards, g per mL as a share.
        load: Ppm,
    },
    /// A brushing.
    Brush,
}

/// Residue of a part after one cleaning.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ResidueAfter {
    /// When.
    pub at: Millis,
    /// Index of the part among the parts of the module.
    pub part: usize,
    /// After what.
    pub after: Cleaning,
    /// Of each region: resin that comes off with liquid and the film on it, and gel, both as shares of the region's first coat.
    pub regions: Vec<(Region, Ppm, Ppm)>,
}

/// Vapour in the room over a run.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Air {
    /// Time and level in ppm by volume, where the source or the air flow changed and at the end.
    pub samples: Vec<(Millis, Ppm)>,
    /// Average over eight hours, clean air outside the run.
    pub average_8_h: Ppm,
    /// Highest average over 15 minutes.
    pub highest_15_min: Ppm,
    /// Highest level as a share of the lower explosive limit.
    pub explosive_share: Ppm,
}

/// The limits that the figures of a bench are read against; `None` where the bench has nothing that they are for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Limits {
    /// The most residue of a region that dries without a veil.
    pub residue: Option<Ppm>,
    /// The least dose of a side of a joint.
    pub joint_dose: Option<Dose>,
    /// The least dose of a side of a body.
    pub body_dose: Option<Dose>,
    /// The highest average of vapour over 15 minutes.
    pub vapour: Option<Ppm>,
    /// The temperature at which the sign of a vessel turns.
    pub target: Option<MilliCelsius>,
    /// The temperature above which teeth suffer.
    pub warm: Option<MilliCelsius>,
    /// The temperature above which teeth are spoiled.
    pub hot: Option<MilliCelsius>,
}
