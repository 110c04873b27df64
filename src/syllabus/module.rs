//! A learning module as data: what a trainer wrote, positions kept, nothing compiled yet.
//!
//! Every name that refers to something keeps its position, so that a check can point at it. Texts are in the module's own
//! language. Left out: files (a module is given as text), plans (`syllabus::plan`) and what happens on a bench (`bench`).

use std::collections::BTreeMap;

use super::operation::Operation;
use super::read::Spot;
use crate::units::{Chance, Millis};

/// A name with the position where it was written.
pub type Name = Spot<String>;

/// How much a finding weighs. Ordered from least to most.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Worth a remark; the run stays clean.
    Minor,
    /// The run is not clean.
    Major,
    /// The run is not clean, and a person or the case would have come to harm.
    Critical,
}

/// How much depends on a workflow (intervals of re-assessment follow from it).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Risk {
    /// Low risk.
    Low,
    /// Medium risk.
    Medium,
    /// High risk.
    High,
}

/// Where a number or statement comes from. Nothing else is accepted as an origin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A source of the module's list, by its id.
    Source(Name),
    /// `common practice, no source`.
    CommonPractice,
    /// `from memory`.
    FromMemory,
    /// `calculated from …`; holds what it was calculated from.
    Calculated(String),
    /// `our default`.
    OurDefault,
}

/// A whole module.
#[derive(Clone, Debug)]
pub struct Module {
    /// Who the module is: id, revision, dates, language.
    pub identity: Identity,
    /// Modules a person must know before this one.
    pub requires: Vec<Name>,
    /// What varies from case to case.
    pub case: Vec<CaseChoice>,
    /// What steps are repeated over.
    pub repeats: Vec<Repeat>,
    /// What the work is done on.
    pub parts: Vec<Part>,
    /// What can be true of the parts, aspect by aspect.
    pub aspects: Vec<Aspect>,
    /// The stations of the bench, with their numbers.
    pub stations: Vec<Station>,
    /// The products on the shelf.
    pub products: Vec<Product>,
    /// What can be worn or kept running.
    pub protection_items: Vec<ProtectionItem>,
    /// The steps in the order written, stages already merged.
    pub steps: Vec<Step>,
    /// Gaps and caps.
    pub time_rules: Vec<TimeRule>,
    /// What must be worn or running, and when.
    pub guards: Vec<Guard>,
    /// What is never done in this workflow.
    pub never: Vec<Never>,
    /// What can go wrong around the technician.
    pub disturbances: Vec<Disturbance>,
    /// Consequences by id.
    pub consequences: Vec<Consequence>,
    /// What a sign-off asks for.
    pub sign_off: Option<SignOff>,
}

/// Who a module is.
#[derive(Clone, Debug)]
pub struct Identity {
    /// Its id, as in `requires` and on the command line.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// What the workflow is for, in a sentence or two.
    pub about: String,
    /// The revision, counted from 1.
    pub revision: u32,
    /// The day from which the revision is meant to be used.
    pub effective: chrono::NaiveDate,
    /// The language of its texts, as a tag (`en-US`).
    pub language: String,
    /// How much depends on the workflow.
    pub risk: Risk,
    /// The origin of every number that names no other.
    pub origin: Origin,
    /// Named sources: id to citation.
    pub sources: BTreeMap<String, String>,
    /// Ids of hazards of the shared hazard list that this workflow touches.
    pub hazards: Vec<Name>,
    /// The cautions printed with the module, in its own language.
    pub cautions: Vec<String>,
}

/// One thing that varies from case to case.
#[derive(Clone, Debug)]
pub struct CaseChoice {
    /// Its id (`teeth`, `wash`).
    pub id: Name,
    /// Its title.
    pub title: String,
    /// What it may be.
    pub range: CaseRange,
    /// Whether the plan depends on it. Only such choices are enumerated by the check.
    pub shapes_plan: bool,
}

/// The values of a case choice.
#[derive(Clone, Debug)]
pub enum CaseRange {
    /// One of these words.
    OneOf(Vec<Name>),
    /// A whole number, both ends allowed.
    Whole {
        /// The least.
        from: u16,
        /// The greatest.
        to: u16,
    },
}

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

/// One step.
#[derive(Clone, Debug)]
pub struct Step {
    /// Its id.
    pub id: Name,
    /// Its title, as an instruction.
    pub title: String,
    /// The stage it came from, if any.
    pub stage: Option<String>,
    /// The station it is done at.
    pub at: Name,
    /// The repeats it is done for (empty: once).
    pub each: Vec<Name>,
    /// What must be done before.
    pub after: Vec<After>,
    /// What must be true when it starts.
    pub needs: Vec<Condition>,
    /// What is true when it is done.
    pub makes: Vec<Condition>,
    /// What a real bench would refuse: the step cannot be done at all while one of these holds at one of its places.
    pub refused_if: Vec<Condition>,
    /// Required, or free to be left out.
    pub optional: bool,
    /// Whether a person stays with it.
    pub attended: bool,
    /// Whether it may be done again without a finding.
    pub again: bool,
    /// How long its handling takes. For a timed step this is added before the timed part.
    pub takes: Millis,
    /// How its time is kept, if it is timed.
    pub keeping: Option<Keeping>,
    /// The manners in which it can be done.
    pub ways: Vec<Way>,
    /// What it does to the bench.
    pub does: Vec<Operation>,
    /// Whether leaving it out fails the run by itself.
    pub critical: bool,
    /// The step it is pointless without: left out together, leaving out that one is the root.
    pub goes_with: Option<Name>,
    /// Why it is done.
    pub why: String,
    /// What good looks like.
    pub good: String,
    /// Tools, by generic name.
    pub tools: Vec<String>,
    /// Ids of hazards of the shared list.
    pub hazards: Vec<Name>,
    /// What happens when it goes wrong.
    pub errors: StepErrors,
    /// Where its numbers come from.
    pub origin: Option<Origin>,
}

/// A step that must be done before.
#[derive(Clone, Debug)]
pub struct After {
    /// Which step.
    pub step: Name,
    /// Whether all its places must be done, also those that do not overlap.
    pub all: bool,
}

/// A condition on one aspect.
#[derive(Clone, Debug)]
pub struct Condition {
    /// Which aspect.
    pub aspect: Name,
    /// The values that satisfy it (at least one), or, if `negated`, those that do not.
    pub values: Vec<Name>,
    /// Turns the condition round (`not cured`).
    pub negated: bool,
}

/// How a timed step's time is kept in reality, with its limits.
#[derive(Clone, Debug)]
pub enum Keeping {
    /// A machine's timer is set.
    Timer(TimeWindow),
    /// It is counted in the head.
    Count(TimeWindow),
    /// A sign is watched for.
    Watch {
        /// The sign: an aspect value that the bench decides.
        sign: Condition,
        /// How soon after the sign it must end.
        within: Millis,
        /// What to expect, for the read-through (never a rule).
        expect: Option<(Millis, Millis)>,
    },
    /// It goes on until it looks right.
    Judge {
        /// What it must look like.
        until: Vec<Condition>,
        /// How much one more portion takes.
        portion: Millis,
    },
}

/// Target and limits of a timed step, with what the case card adds.
#[derive(Clone, Debug)]
pub struct TimeWindow {
    /// What to aim at.
    pub target: Millis,
    /// The least that is allowed.
    pub least: Millis,
    /// The most that is allowed.
    pub most: Millis,
    /// What the case card changes.
    pub changes: Vec<TimeChange>,
    /// Where the numbers come from.
    pub origin: Option<Origin>,
}

/// A change of a window for some case cards.
#[derive(Clone, Debug)]
pub struct TimeChange {
    /// The case choice.
    pub choice: Name,
    /// The value for which it applies.
    pub value: Name,
    /// What is added to target, least and most.
    pub add: Option<Millis>,
    /// What replaces target, least and most (target, least, most).
    pub replace: Option<(Millis, Millis, Millis)>,
}

/// One manner in which a step can be done.
#[derive(Clone, Debug)]
pub struct Way {
    /// Its id (`amount`).
    pub id: Name,
    /// The question it answers, as a person would ask it.
    pub title: String,
    /// The options, at least one of them right.
    pub options: Vec<WayOption>,
}

/// One option of a way.
#[derive(Clone, Debug)]
pub struct WayOption {
    /// Its id (`bead`). When an operation takes its value from the way, this is one of that operation's words.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// What choosing it wrongly means; `None` when it is right.
    pub wrong: Option<Miss>,
}

/// What one kind of miss means.
#[derive(Clone, Debug)]
pub struct Miss {
    /// How much it weighs.
    pub severity: Severity,
    /// The consequences it leads to.
    pub leads_to: Vec<Name>,
    /// What is said about it, beyond the consequence.
    pub text: String,
}

/// A miss of time from a given size on.
#[derive(Clone, Debug)]
pub struct Tier {
    /// The limit: below it for `short`, above it for `long` and `late`. `None`: the window itself.
    pub limit: Option<Millis>,
    /// What it means.
    pub miss: Miss,
}

/// What happens when a step goes wrong. Where a list of tiers is empty the finding is minor and leads nowhere.
#[derive(Clone, Debug, Default)]
pub struct StepErrors {
    /// Left out.
    pub skipped: Option<Miss>,
    /// Too short, stopped before the sign, or not yet looking right; mildest tier first.
    pub short: Vec<Tier>,
    /// Too long, or too late after the sign; mildest tier first.
    pub long: Vec<Tier>,
    /// Done while something it needs was not there.
    pub unready: Option<Miss>,
    /// Done out of its order.
    pub misplaced: Option<Miss>,
}

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

/// What a sign-off asks for.
#[derive(Clone, Debug)]
pub struct SignOff {
    /// Clean unaided runs before supervised work, and on how many days.
    pub clean_unaided: (u16, u16),
    /// Supervised cases.
    pub supervised_cases: u16,
    /// Observed runs, assessors, last clean in a row.
    pub observed: (u16, u16, u16),
    /// Validity of first and later sign-offs in months; the last one repeats.
    pub valid_months: Vec<u16>,
    /// Window of the effectiveness check in days.
    pub effect_check_days: Option<(u16, u16)>,
}
