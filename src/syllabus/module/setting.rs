//! What the work is done on and at: repeats, parts with their aspects, stations, products, protection.

use super::{Name, Origin};
use crate::units::Millis;

/// Something that steps are repeated over.
#[derive(Clone, Debug)]
pub struct Repeat {
    /// Its id (`tooth`, `pair`, `side`).
    pub id: Name,
    /// What it runs over.
    pub over: RepeatOver,
}

/// What a repeat runs over.
#[derive(Clone, Debug)]
pub enum RepeatOver {
    /// 1 up to the value of a whole-number case choice.
    UpTo(Name),
    /// Consecutive groups of another counted repeat; an odd rest is a smaller group.
    GroupsOf {
        /// The repeat that is grouped.
        what: Name,
        /// How many make one group, at least 1.
        size: u16,
    },
    /// These named places.
    EachOf(Vec<Name>),
}

/// One thing the work is done on.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its id (`base`).
    pub id: Name,
    /// Its title.
    pub title: String,
    /// What kind of thing it is for the bench.
    pub kind: PartKind,
}

/// The kinds of parts that a bench knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// A printed body with regions: tissue side, sockets, outer faces, posts.
    Body,
    /// Teeth, one by one or as an arch.
    Teeth,
    /// Where teeth and body meet.
    Joints,
}

/// One aspect of a part: what can be true of it, in order from first to last.
#[derive(Clone, Debug)]
pub struct Aspect {
    /// Its id, unique in the module (`supports`, `film`, `joint`).
    pub id: Name,
    /// The part it belongs to (`base`, `teeth`).
    pub part: Name,
    /// Its title.
    pub title: String,
    /// Its values, the initial one first.
    pub values: Vec<AspectValue>,
    /// The repeats it exists for (empty: once for the whole part).
    pub per: Vec<Name>,
    /// Set when physics alone decides it: which gauge of the bench it shows, and of what.
    pub decided_by: Option<Gauge>,
    /// Whether a person sees it without a test.
    pub seen: bool,
}

/// One value of an aspect.
#[derive(Clone, Debug)]
pub struct AspectValue {
    /// Its id.
    pub id: Name,
    /// What it looks like at the bench.
    pub looks: String,
}

/// Something that the bench decides and a person can see, feel or read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gauge {
    /// Which kind of reading.
    pub kind: GaugeKind,
    /// The station or part that it is read from.
    pub of: Name,
}

/// The readings that a bench can give. The words are the values that an aspect showing it must have, in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GaugeKind {
    /// Of a part: `running`, `drained`.
    Drops,
    /// Of a part: `wet-resin`, `wet-solvent`, `dry`.
    Film,
    /// Of a part: `hidden` (while wet), `clear`, `veil`.
    Veil,
    /// Of a part: `uncured`, `one-side`, `cured`.
    Cure,
    /// Of a plate: `cold`, `warming`, `ready`.
    Plate,
    /// Of a vessel: `waiting`, `turned`.
    Strip,
    /// Of teeth, each: `bare`, `wet`, `dry` (of primer).
    Primer,
    /// Of joints, each: `loose`, `firm`.
    Hold,
    /// Of a curing unit: `cool`, `hot`.
    Heat,
}

impl GaugeKind {
    /// Every kind, in the order of the enum.
    pub const ALL: [GaugeKind; 9] = [
        GaugeKind::Drops,
        GaugeKind::Film,
        GaugeKind::Veil,
        GaugeKind::Cure,
        GaugeKind::Plate,
        GaugeKind::Strip,
        GaugeKind::Primer,
        GaugeKind::Hold,
        GaugeKind::Heat,
    ];

    /// The word for it in a module.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            GaugeKind::Drops => "drops",
            GaugeKind::Film => "film",
            GaugeKind::Veil => "veil",
            GaugeKind::Cure => "cure",
            GaugeKind::Plate => "plate",
            GaugeKind::Strip => "strip",
            GaugeKind::Primer => "primer",
            GaugeKind::Hold => "hold",
            GaugeKind::Heat => "heat",
        }
    }

    /// The values, in order.
    #[must_use]
    pub fn values(self) -> &'static [&'static str] {
        match self {
            GaugeKind::Drops => &["running", "drained"],
            GaugeKind::Film => &["wet-resin", "wet-solvent", "dry"],
            GaugeKind::Veil => &["hidden", "clear", "veil"],
            GaugeKind::Cure => &["uncured", "one-side", "cured"],
            GaugeKind::Plate => &["cold", "warming", "ready"],
            GaugeKind::Strip => &["waiting", "turned"],
            GaugeKind::Primer => &["bare", "wet", "dry"],
            GaugeKind::Hold => &["loose", "firm"],
            GaugeKind::Heat => &["cool", "hot"],
        }
    }
}

/// One station of the bench.
#[derive(Clone, Debug)]
pub struct Station {
    /// Its id (`bath-one`).
    pub id: Name,
    /// Its title.
    pub title: String,
    /// The kind of behaviour (`bath`, `air-line`, `plate`, …) as a word; `bench::stations` knows them.
    pub kind: Name,
    /// Its numbers as written, by name; the station's own file says which it has, their units and defaults.
    pub numbers: Vec<StationNumber>,
}

/// One number of a station, still as text: the station's own file reads it.
#[derive(Clone, Debug)]
pub struct StationNumber {
    /// Which number.
    pub name: Name,
    /// The number as written (`500 mL`).
    pub text: Name,
    /// The number in its place for some case cards: choice, value, number.
    pub changes: Vec<(Name, Name, Name)>,
    /// Where it comes from.
    pub origin: Origin,
}

/// One product on the shelf.
#[derive(Clone, Debug)]
pub struct Product {
    /// Its id (`bonding-resin`).
    pub id: Name,
    /// Its title.
    pub title: String,
}

/// Something worn, or a machine kept running for protection.
#[derive(Clone, Debug)]
pub struct ProtectionItem {
    /// Its id (`nitrile-gloves`, `extraction`).
    pub id: Name,
    /// Its title.
    pub title: String,
    /// Worn on the body or running in the room.
    pub kind: ProtectionKind,
    /// How long one of it may be used before it is changed.
    pub change_every: Option<Millis>,
}

/// How a protection item is put to use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProtectionKind {
    /// Put on and taken off.
    Worn,
    /// Switched on and off.
    Running,
}
