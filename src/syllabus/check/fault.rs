//! The kinds of things that can be wrong with the meaning of a module.

use crate::syllabus::module::SignOffFault;
use crate::syllabus::read::Place;
use crate::units::Millis;

/// Whether a problem keeps a module from being used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// It can be used, but somebody should look at it.
    Warning,
    /// It cannot be used.
    Error,
}

macro_rules! name_kinds {
    ($($(#[$doc:meta])+ $kind:ident = $word:literal / $unknown:literal),+ $(,)?) => {
        /// What a name can stand for.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum NameKind { $($(#[$doc])+ $kind),+ }

        impl NameKind {
            /// Every kind.
            pub const ALL: &'static [NameKind] = &[$(NameKind::$kind),+];

            /// The word for the kind.
            #[must_use]
            pub fn word(self) -> &'static str {
                match self { $(NameKind::$kind => $word),+ }
            }

            /// The word for the complaint that a name stands for nothing of the kind.
            #[must_use]
            pub fn unknown(self) -> &'static str {
                match self { $(NameKind::$kind => $unknown),+ }
            }
        }
    };
}

name_kinds! {
    /// A step.
    Step = "step" / "unknown-step",
    /// A forbidden act.
    Act = "act" / "unknown-act",
    /// A station.
    Station = "station" / "unknown-station",
    /// A kind of station.
    StationKind = "station-kind" / "unknown-station-kind",
    /// A part.
    Part = "part" / "unknown-part",
    /// An aspect of a part.
    Aspect = "aspect" / "unknown-aspect",
    /// A value of an aspect.
    Value = "value" / "unknown-value",
    /// A repeat.
    Repeat = "repeat" / "unknown-repeat",
    /// One of the named places of a repeat.
    NamedPlace = "named-place" / "unknown-named-place",
    /// A case choice.
    Choice = "choice" / "unknown-choice",
    /// A value of a case choice.
    ChoiceValue = "choice-value" / "unknown-choice-value",
    /// A product.
    Product = "product" / "unknown-product",
    /// A protection item.
    Item = "item" / "unknown-item",
    /// A way of a step.
    Way = "way" / "unknown-way",
    /// An option of a way.
    Option = "option" / "unknown-option",
    /// A consequence.
    Consequence = "consequence" / "unknown-consequence",
    /// A disturbance.
    Disturbance = "disturbance" / "unknown-disturbance",
    /// A hazard of the shared list.
    Hazard = "hazard" / "unknown-hazard",
    /// A fault of the shared table.
    Fault = "fault" / "unknown-fault",
    /// A source.
    Source = "source" / "unknown-source",
    /// A module.
    Module = "module" / "unknown-module",
}

/// One link of a chain of rules that clash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClashLink {
    /// Why.
    pub because: ClashReason,
    /// How much time it takes at least, or allows at most.
    pub time: Millis,
    /// Whether the time is an upper limit.
    pub at_most: bool,
}

/// Why a link of a clash is as long or as short as it is. Tasks are named by their labels.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ClashReason {
    /// The task's own duration.
    Duration(String),
    /// The first comes before the second.
    Order(String, String),
    /// A gap between the two.
    Gap {
        /// Where the rule stands.
        at: Place,
        /// From this task.
        from: String,
        /// To this one.
        to: String,
    },
}

/// What is wrong with the meaning of a module. Tasks are named by their labels, case cards as they are written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CheckFault {
    /// A name that stands for nothing of its kind.
    Unknown {
        /// The kind.
        kind: NameKind,
        /// As written.
        found: String,
        /// What may have been meant.
        suggestion: Option<String>,
        /// The names there are, at most twenty.
        known: Vec<String>,
    },
    /// Two things of one kind have the same id; the place is that of the second.
    Duplicate {
        /// The kind.
        kind: NameKind,
        /// The id.
        id: String,
        /// Where it stood first.
        first: Place,
    },
    /// A step or act has the id of a word that begins another kind of line in plain mode.
    TakenWord {
        /// The id.
        id: String,
    },
    /// A stage names something outside that it does not say it expects.
    NotExpected {
        /// The stage.
        stage: String,
        /// The kind of thing.
        kind: NameKind,
        /// Its name.
        name: String,
    },
    /// A stage expects something that the module does not have.
    ExpectedMissing {
        /// The stage.
        stage: String,
        /// What it expects.
        name: String,
    },
    /// A station, part or way is of another kind than it is used for.
    WrongKind {
        /// What is named.
        name: String,
        /// Its kind.
        found: String,
        /// The kind that is needed.
        expected: &'static str,
    },
    /// Something made is not exactly one value.
    MakesNotOne {
        /// The aspect.
        aspect: String,
    },
    /// An aspect that the bench decides has other values than the reading.
    GaugeValues {
        /// The aspect.
        aspect: String,
        /// The values it must have, in this order.
        expected: &'static [&'static str],
    },
    /// A step watches for a sign that the bench does not decide.
    SignNotDecided {
        /// The aspect.
        aspect: String,
    },
    /// An aspect has more values than a plan can tell apart.
    TooManyValues {
        /// The aspect.
        aspect: String,
        /// The most it may have.
        most: usize,
    },
    /// A repeat counts up to something that is no number, or groups something that is not counted before it.
    RepeatUnresolved {
        /// The repeat.
        repeat: String,
    },
    /// The plan depends on a choice that does not say so.
    ShapesPlan {
        /// The choice.
        choice: String,
    },
    /// Tasks each of which must come before the next, and the last before the first.
    Circle {
        /// The labels.
        labels: Vec<String>,
    },
    /// Steps that go with each other in a circle.
    GoesWithCircle {
        /// The steps.
        steps: Vec<String>,
    },
    /// A window whose limits are the wrong way round for a case card.
    WindowOrder {
        /// The step.
        step: String,
        /// The case card.
        card: String,
    },
    /// Rules about time that cannot all be kept.
    Clash {
        /// The case card.
        card: String,
        /// The chain of rules.
        chain: Vec<ClashLink>,
    },
    /// Rules about time that cannot be kept when every window is met exactly on its target.
    TargetsClash {
        /// The case card.
        card: String,
        /// The chain of rules.
        chain: Vec<ClashLink>,
    },
    /// A cap smaller than the sum of what the windows allow.
    CapTooSmall {
        /// The case card.
        card: String,
        /// The cap.
        cap: Millis,
        /// The sum of the allowed windows.
        sum: Millis,
        /// The tasks that raise the cap, if it is a raised one.
        when_done: Vec<String>,
    },
    /// A step needs what nothing makes.
    NobodyMakes {
        /// The step.
        step: String,
        /// The aspect.
        aspect: String,
        /// The values, one of which is needed.
        values: Vec<String>,
    },
    /// A task needs what is only made after it.
    MadeTooLate {
        /// The case card.
        card: String,
        /// The task.
        task: String,
        /// The aspect.
        aspect: String,
        /// The tasks that make it.
        makers: Vec<String>,
    },
    /// A task needs what a required task before it always undoes.
    Undone {
        /// The case card.
        card: String,
        /// The task.
        task: String,
        /// The aspect.
        aspect: String,
        /// The task that undoes it.
        by: String,
    },
    /// A plan would have too many tasks or places.
    TooLarge {
        /// The step or aspect with which it became too many.
        name: String,
        /// The most there may be.
        most: usize,
    },
    /// Not every case card was compiled: there are too many.
    TooManyCards {
        /// How many were compiled.
        compiled: usize,
        /// How many there are.
        of: usize,
    },
    /// A critical step that does not say what follows when it is left out.
    CriticalWithoutConsequence {
        /// The step.
        step: String,
    },
    /// A hazard that the module touches has no precautions.
    NoPrecautions {
        /// The hazard.
        hazard: String,
    },
    /// A hazard that a step touches and the module does not list.
    HazardNotListed {
        /// The hazard.
        hazard: String,
    },
    /// A way without a right option.
    NoRightOption {
        /// The way.
        way: String,
    },
    /// A disturbance to which nothing is right, not even going on.
    NoRightResponse {
        /// The disturbance.
        disturbance: String,
    },
    /// A consequence that nothing leads to and the bench never shows.
    ConsequenceUnused {
        /// The consequence.
        consequence: String,
    },
    /// Tiers that are not from mild to grave and from near to far.
    TierOrder {
        /// The step.
        step: String,
    },
    /// The module has no cautions.
    NoCautions,
    /// What a sign-off asks for contradicts itself.
    SignOff(SignOffFault),
    /// A step without a reason or without what good looks like.
    NoReason {
        /// The step.
        step: String,
    },
    /// A step that takes no time at all.
    NoTime {
        /// The step.
        step: String,
    },
    /// A title too long for one line of a small screen.
    TitleTooLong {
        /// How many columns it takes.
        columns: usize,
        /// The most it may take.
        most: usize,
    },
    /// A text with a word that no line of a small screen holds.
    WordTooLong {
        /// The start of the word.
        word: String,
        /// The most columns a word may take.
        most: usize,
    },
}

impl CheckFault {
    /// Whether it keeps the module from being used.
    #[must_use]
    pub fn weight(&self) -> Weight {
        match self {
            CheckFault::HazardNotListed { .. }
            | CheckFault::ConsequenceUnused { .. }
            | CheckFault::TierOrder { .. }
            | CheckFault::NoReason { .. }
            | CheckFault::NoTime { .. }
            | CheckFault::TitleTooLong { .. }
            | CheckFault::WordTooLong { .. } => Weight::Warning,
            _ => Weight::Error,
        }
    }

    /// The word for the kind of problem, by which its message is found.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            CheckFault::Unknown { kind, .. } => kind.unknown(),
            CheckFault::Duplicate { .. } => "duplicate-id",
            CheckFault::TakenWord { .. } => "taken-word",
            CheckFault::NotExpected { .. } => "not-expected",
            CheckFault::ExpectedMissing { .. } => "expected-missing",
            CheckFault::WrongKind { .. } => "wrong-kind",
            CheckFault::MakesNotOne { .. } => "makes-not-one",
            CheckFault::GaugeValues { .. } => "gauge-values",
            CheckFault::SignNotDecided { .. } => "sign-not-decided",
            CheckFault::TooManyValues { .. } => "too-many-values",
            CheckFault::RepeatUnresolved { .. } => "repeat-unresolved",
            CheckFault::ShapesPlan { .. } => "shapes-plan",
            CheckFault::Circle { .. } => "circle",
            CheckFault::GoesWithCircle { .. } => "goes-with-circle",
            CheckFault::WindowOrder { .. } => "window-order",
            CheckFault::Clash { .. } => "clash",
            CheckFault::TargetsClash { .. } => "targets-clash",
            CheckFault::CapTooSmall { .. } => "cap-too-small",
            CheckFault::NobodyMakes { .. } => "nobody-makes",
            CheckFault::MadeTooLate { .. } => "made-too-late",
            CheckFault::Undone { .. } => "undone",
            CheckFault::TooLarge { .. } => "too-large-a-plan",
            CheckFault::TooManyCards { .. } => "too-many-cards",
            CheckFault::CriticalWithoutConsequence { .. } => "critical-without-consequence",
            CheckFault::NoPrecautions { .. } => "no-precautions",
            CheckFault::HazardNotListed { .. } => "hazard-not-listed",
            CheckFault::NoRightOption { .. } => "no-right-option",
            CheckFault::NoRightResponse { .. } => "no-right-response",
            CheckFault::ConsequenceUnused { .. } => "consequence-unused",
            CheckFault::TierOrder { .. } => "tier-order",
            CheckFault::NoCautions => "no-cautions",
            CheckFault::SignOff(fault) => fault.word(),
            CheckFault::NoReason { .. } => "no-reason",
            CheckFault::NoTime { .. } => "no-time",
            CheckFault::TitleTooLong { .. } => "title-too-long",
            CheckFault::WordTooLong { .. } => "word-too-long",
        }
    }
}
