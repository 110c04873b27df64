//! Who works in the demonstration, and in which scopes. Names are put together from many languages and belong to nobody known.

use crate::record::scope::{Authority, Scope, TextProblem};

/// A person of the story, as a place in [`CAST`].
pub(super) type Who = usize;

pub(super) const OWNER: Who = 0;
pub(super) const QUALITY: Who = 1;
pub(super) const FIRST: Who = 2;
pub(super) const SECOND: Who = 3;
pub(super) const EXPERIENCED: Who = 4;
pub(super) const RETURNED: Who = 5;
pub(super) const GONE: Who = 6;
pub(super) const ADVANCED: Who = 7;
pub(super) const BEGINNER: Who = 8;

/// What a person does in the demonstration's laboratory.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Owns the laboratory.
    Owner,
    /// Looks after quality.
    Quality,
    /// Trains, supervises and assesses.
    Assessor,
    /// Works at the bench.
    Technician,
    /// Learns.
    Trainee,
}

impl Role {
    /// The role's own word, for machines and for looking up what people are told.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Role::Owner => "owner",
            Role::Quality => "quality",
            Role::Assessor => "assessor",
            Role::Technician => "technician",
            Role::Trainee => "trainee",
        }
    }
}

/// One person before the story begins.
pub(super) struct Part {
    pub(super) name: &'static str,
    pub(super) role: Role,
    /// Everybody knows it: nothing here is secret.
    pub(super) passphrase: &'static str,
    /// The day of joining.
    pub(super) from: &'static str,
    pub(super) may: &'static [Authority],
}

const fn part(
    name: &'static str,
    role: Role,
    passphrase: &'static str,
    from: &'static str,
    may: &'static [Authority],
) -> Part {
    Part {
        name,
        role,
        passphrase,
        from,
        may,
    }
}

const ASSESSING: &[Authority] = &[Authority::Train, Authority::Assess, Authority::Approve];

/// Everybody who ever works there, in the order of joining. The first owns the laboratory.
pub(super) const CAST: [Part; 9] = [
    part(
        "Nerea Olabarrondo",
        Role::Owner,
        "seven lamps above the bench",
        "2025-01-06",
        &[Authority::Approve],
    ),
    part(
        "Quỳnh Lạc Vân Thủy",
        Role::Quality,
        "paper lanterns keep the minutes",
        "2025-01-06",
        &[Authority::Quality, Authority::Publish],
    ),
    part(
        "Tuomi Järvenhauta",
        Role::Assessor,
        "quiet snow on the mill wheel",
        "2025-01-07",
        ASSESSING,
    ),
    part(
        "Adaeze Okwuchimma",
        Role::Assessor,
        "yellow kites over the market",
        "2025-01-07",
        ASSESSING,
    ),
    part(
        "Ярина Сніговійко",
        Role::Technician,
        "copper kettle by the window",
        "2025-02-03",
        &[],
    ),
    part(
        "Teodorico Vallescura",
        Role::Technician,
        "three olives and a stone",
        "2025-02-03",
        &[],
    ),
    part(
        "Bríd Nic Fhionnlocha",
        Role::Technician,
        "the ferry leaves at dusk",
        "2025-02-10",
        &[],
    ),
    part(
        "Σμαράγδα Λιθοπλάτη",
        Role::Technician,
        "salt and thyme on the sill",
        "2025-09-01",
        &[],
    ),
    part(
        "Inti Wayrapampa",
        Role::Trainee,
        "wind sings over high grass",
        "2026-03-02",
        &[],
    ),
];

/// A workflow of the demonstration.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Work {
    /// Wet resin, solvent and skin.
    Wet,
    /// Stock teeth, set one by one.
    Teeth,
}

impl Work {
    pub(super) const ALL: [Work; 2] = [Work::Wet, Work::Teeth];

    /// The id of its module.
    pub(super) fn module(self) -> &'static str {
        match self {
            Work::Wet => "wet-resin-and-solvent",
            Work::Teeth => "stock-teeth",
        }
    }

    /// The scope that people are signed off for. The curing unit is the laboratory's own name for it.
    pub(super) fn scope(self) -> Result<Scope, TextProblem> {
        let (wash, cure) = match self {
            Work::Wet => (
                crate::app::laboratory::NO_UNIT,
                crate::app::laboratory::NO_UNIT,
            ),
            Work::Teeth => ("ultrasonic", "light-chamber"),
        };
        Ok(Scope {
            workflow: self.module().parse()?,
            profile: crate::app::shelf::DEFAULT_PROFILE.parse()?,
            wash: wash.parse()?,
            cure: cure.parse()?,
        })
    }
}
