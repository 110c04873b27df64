//! Figures as data: numbers on scales together with the words for them, so that a renderer needs no language.

use crate::units::Millis;

/// A drawing. Each carries a note that has to be shown with it.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Figure {
    /// Times that were kept against the times that were allowed.
    Timeline(Timeline),
    /// Something that changes over time.
    Curve(Curve),
    /// Amounts side by side against a limit.
    Bars(Bars),
    /// Amounts on both sides of each tooth of an arch.
    Arch(Box<Arch>),
}

/// Times that were kept against the times that were allowed, a row per step.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Timeline {
    /// What it shows.
    pub title: String,
    /// What has to be read with it.
    pub note: String,
    /// How the marks are read.
    pub key: String,
    /// The rows.
    pub rows: Vec<TimelineRow>,
}

/// One step of a timeline.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct TimelineRow {
    /// The step.
    pub label: String,
    /// The least allowed.
    pub least: Millis,
    /// What was aimed at.
    pub target: Millis,
    /// The most allowed.
    pub most: Millis,
    /// How long it lasted, each time it was done.
    pub was: Vec<Millis>,
    /// The same in words.
    pub said: String,
}

impl TimelineRow {
    /// Whether a time is within the limits.
    #[must_use]
    pub fn allows(&self, was: Millis) -> bool {
        self.least <= was && was <= self.most
    }
}

/// An axis: from the least to the greatest of its ticks.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Axis {
    /// What it counts, with the unit.
    pub label: String,
    /// Values that are written at it, in order; at least two.
    pub ticks: Vec<Mark>,
}

impl Axis {
    /// The least value.
    #[must_use]
    pub fn from(&self) -> i64 {
        self.ticks.first().map_or(0, |tick| tick.at)
    }

    /// The greatest value.
    #[must_use]
    pub fn to(&self) -> i64 {
        self.ticks.last().map_or(1, |tick| tick.at)
    }
}

/// A value with the word for it.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Mark {
    /// The value, in the base unit of its quantity.
    pub at: i64,
    /// What stands at it.
    pub said: String,
}

/// Something that changes over time.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Curve {
    /// What it shows.
    pub title: String,
    /// What has to be read with it.
    pub note: String,
    /// Time, in milliseconds.
    pub across: Axis,
    /// The quantity.
    pub up: Axis,
    /// The lines.
    pub series: Vec<Series>,
    /// Values that lines are drawn at, each with what it means.
    pub marks: Vec<Mark>,
}

/// One line of a curve.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Series {
    /// Whose it is.
    pub name: String,
    /// How neighbouring points are joined.
    pub stroke: Stroke,
    /// The points, by time.
    pub points: Vec<Point>,
}

/// How neighbouring points are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stroke {
    /// By a straight line.
    Straight,
    /// Not at all: between these points nothing is known.
    Apart,
}

/// One point of a curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Point {
    /// When, in milliseconds.
    pub across: i64,
    /// How much.
    pub up: i64,
}

/// Amounts side by side against a limit.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Bars {
    /// What it shows.
    pub title: String,
    /// What has to be read with it.
    pub note: String,
    /// How the marks are read.
    pub key: String,
    /// The limit, if there is one.
    pub bound: Option<Bound>,
    /// The groups.
    pub groups: Vec<BarGroup>,
}

/// The limit of bars.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Bound {
    /// The value.
    pub at: i64,
    /// What it means.
    pub said: String,
    /// Whether bars have to reach it (else they must not pass it).
    pub at_least: bool,
}

impl Bound {
    /// Whether a value is on the right side.
    #[must_use]
    pub fn allows(&self, value: i64) -> bool {
        if self.at_least {
            value >= self.at
        } else {
            value <= self.at
        }
    }
}

/// Bars that belong together.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct BarGroup {
    /// What they are about.
    pub label: String,
    /// The bars.
    pub bars: Vec<Bar>,
}

/// One bar.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Bar {
    /// What it is.
    pub label: String,
    /// How much.
    pub value: i64,
    /// The same in words.
    pub said: String,
}

/// Amounts on both sides of each tooth of an arch, against a limit that has to be reached.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Arch {
    /// What it shows.
    pub title: String,
    /// What has to be read with it.
    pub note: String,
    /// How it is read.
    pub key: String,
    /// How many sides fell short, in words.
    pub said: String,
    /// The sides that fell short, each with its teeth, in words.
    pub missed: Vec<String>,
    /// What the numbers count: a tooth.
    pub tooth: String,
    /// What the two sides are called: the outer, then the inner side of the arch.
    pub sides: [String; 2],
    /// The limit.
    pub bound: Bound,
    /// What a side is that got something, yet less than the limit.
    pub less: String,
    /// What a side is that got nothing.
    pub none: String,
    /// The teeth in their order along the arch.
    pub teeth: Vec<ArchTooth>,
}

/// One tooth of an arch.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ArchTooth {
    /// Its number in the arch, from 1.
    pub number: u16,
    /// What its outer and its inner side got.
    pub sides: [Amount; 2],
}

/// A value with the words for it.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Amount {
    /// How much.
    pub value: i64,
    /// The same in words.
    pub said: String,
}

/// How an amount stands to the limit that it has to reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// It is at the limit or beyond.
    Enough,
    /// There is some, yet less than the limit.
    Less,
    /// There is nothing.
    None,
}

impl Arch {
    /// How an amount stands to the limit.
    #[must_use]
    pub fn reach(&self, amount: &Amount) -> Reach {
        if self.bound.allows(amount.value) {
            Reach::Enough
        } else if amount.value > 0 {
            Reach::Less
        } else {
            Reach::None
        }
    }
}
