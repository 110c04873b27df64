//! Standings for machines, with their scopes, causes, remarks and needs.

use super::entry::{EntryRefJson, named};
use crate::record::scope::{Edition, Scope};
use crate::report::record::scopes::{InScope, word_of};
use crate::report::record::telling::{AsOf, reading_word, stamped};
use crate::standing::{
    CarriedBy, Count, DueCause, LapseCause, Ledger, Need, Reading, Remark, Standing, Validity,
};

json! {
    /// The instant that a report is about, and which entries count.
    AsOfJson {
        /// The instant with its offset.
        at: String,
        /// `as-now-known`, `as-recorded-then` or `as-recorded-by`.
        reading: &'static str,
        /// By when what counts had been written down, where that is another instant.
        recorded_by: Option<String>,
    }
    /// A scope.
    ScopeJson {
        /// The workflow.
        workflow: String,
        /// The process profile.
        profile: String,
        /// The wash unit.
        wash: String,
        /// The curing unit.
        cure: String,
    }
    /// An edition.
    EditionJson {
        /// The revision.
        revision: u32,
        /// The digest of its text.
        digest: String,
    }
    /// One thing that a sign-off asks for.
    NeedJson {
        /// Its word.
        need: &'static str,
        /// The workflow, revision or method that it is about.
        about: Option<String>,
        /// How many there are, where it is counted.
        count: Option<CountJson>,
    }
    /// How many there are of how many.
    CountJson {
        /// So many there are.
        have: u16,
        /// So many it takes.
        of: u16,
    }
    /// Why a sign-off is due or has lapsed.
    CauseJson {
        /// Its word.
        cause: &'static str,
        /// The cause of a call, the number of a revision, or a seal.
        about: Option<String>,
        /// The entry that ended a sign-off which has lapsed.
        entry: Option<EntryRefJson>,
    }
    /// A later revision that a sign-off covers too.
    CarriedJson {
        /// Its number.
        revision: u32,
        /// The entry that carried the sign-off over; none where the revision asked for nothing.
        entry: Option<EntryRefJson>,
    }
    /// A standing in a scope.
    StandingJson {
        /// The scope.
        scope: ScopeJson,
        /// The standing's word, or `cannot-be-shown`.
        standing: &'static str,
        /// Whether the person may work alone.
        may_work_alone: bool,
        /// The entry that it rests on.
        entry: Option<EntryRefJson>,
        /// From when a sign-off or a supervision holds.
        since: Option<String>,
        /// Until when, this instant included.
        until: Option<String>,
        /// The code of who signed off or supervises.
        by: Option<String>,
        /// The edition of a sign-off.
        edition: Option<EditionJson>,
        /// What a suspended person may still do.
        allowed: Option<&'static str>,
        /// Why it is due, or has lapsed.
        causes: Vec<CauseJson>,
        /// Later revisions that a sign-off covers too.
        carried: Vec<CarriedJson>,
        /// What has to be printed with a sign-off.
        remarks: Vec<&'static str>,
        /// What the next sign-off asks for and is there; none where only a new need leads on.
        met: Option<Vec<NeedJson>>,
        /// What is missing.
        missing: Option<Vec<NeedJson>>,
        /// Strand and number from which on something is wrong, where it cannot be shown.
        doubt: Option<(String, u64)>,
    }
}

impl From<AsOf> for AsOfJson {
    fn from(asked: AsOf) -> AsOfJson {
        AsOfJson {
            at: asked.at.to_string(),
            reading: reading_word(asked.reading),
            recorded_by: match asked.reading {
                Reading::AsRecordedBy(by) => Some(by.to_string()),
                Reading::AsNowKnown | Reading::AsRecordedThen => None,
            },
        }
    }
}

impl From<&Scope> for ScopeJson {
    fn from(scope: &Scope) -> ScopeJson {
        ScopeJson {
            workflow: scope.workflow.to_string(),
            profile: scope.profile.to_string(),
            wash: scope.wash.to_string(),
            cure: scope.cure.to_string(),
        }
    }
}

impl From<&Edition> for EditionJson {
    fn from(edition: &Edition) -> EditionJson {
        EditionJson {
            revision: edition.revision,
            digest: edition.digest.to_string(),
        }
    }
}

pub(super) fn standing(of: &InScope, ledger: &Ledger) -> StandingJson {
    let shown = of.standing.as_ref().ok();
    let (validity, causes) = match shown {
        Some(Standing::SignedOff(validity)) => (Some(validity), Vec::new()),
        Some(Standing::Due(validity, causes)) => (
            Some(validity),
            causes.iter().map(|cause| due(cause, ledger)).collect(),
        ),
        Some(Standing::Lapsed(validity, cause)) => (Some(validity), vec![lapsed(*cause, ledger)]),
        _ => (None, Vec::new()),
    };
    let at = |validity: &Validity, instant| {
        stamped(instant, validity.offset).map(|stamp| stamp.to_string())
    };
    let supervision = of.supervision;
    let needs = |list: &[Need]| list.iter().map(need).collect::<Vec<NeedJson>>();
    StandingJson {
        scope: (&of.scope).into(),
        standing: word_of(&of.standing),
        may_work_alone: shown.is_some_and(Standing::is_in_force),
        entry: of.ground.map(|seal| named(&seal, ledger)),
        since: validity
            .and_then(|validity| at(validity, validity.from))
            .or_else(|| supervision.map(|one| one.from.to_string())),
        until: validity
            .and_then(|validity| at(validity, validity.until))
            .or_else(|| supervision.map(|one| one.until.to_string())),
        by: validity
            .map(|validity| validity.by.to_string())
            .or_else(|| supervision.map(|one| one.by.to_string())),
        edition: validity.map(|validity| (&validity.edition).into()),
        allowed: match shown {
            Some(Standing::Suspended { allowed, .. }) => Some(allowed.word()),
            _ => None,
        },
        causes,
        carried: (of.carried.iter().map(|one| carried_over(*one, ledger))).collect(),
        remarks: validity.map_or_else(Vec::new, |validity| {
            validity.remarks.iter().map(|one| remark(*one)).collect()
        }),
        met: of.readiness.as_ref().map(|list| needs(&list.met)),
        missing: of.readiness.as_ref().map(|list| needs(&list.missing)),
        doubt: of
            .standing
            .as_ref()
            .err()
            .map(|doubt| (doubt.strand.to_string(), doubt.number)),
    }
}

fn carried_over((revision, by): (u32, CarriedBy), ledger: &Ledger) -> CarriedJson {
    CarriedJson {
        revision,
        entry: match by {
            CarriedBy::NothingAsked => None,
            CarriedBy::Entry(seal) => Some(named(&seal, ledger)),
        },
    }
}

fn due(due: &DueCause, ledger: &Ledger) -> CauseJson {
    let (cause, about) = match due {
        DueCause::Interval => ("interval", None),
        DueCause::CalledIn(cause, _) => ("called-in", Some(cause.word().to_owned())),
        DueCause::Failed(seal) => ("failed", Some(seal.to_string())),
        DueCause::NotEffective(seal) => ("not-effective", Some(seal.to_string())),
        DueCause::EffectNotChecked => ("effect-not-checked", None),
        DueCause::Revision(revision) => ("revision", Some(revision.to_string())),
        DueCause::ToReview(seal) => ("to-review", Some(seal.to_string())),
    };
    CauseJson {
        cause,
        about,
        entry: due.entry().map(|seal| named(&seal, ledger)),
    }
}

fn lapsed(lapsed: LapseCause, ledger: &Ledger) -> CauseJson {
    let (cause, about) = match lapsed {
        LapseCause::Interval => ("interval", None),
        LapseCause::NotReassessed(_) => ("not-reassessed", None),
        LapseCause::Revision(revision, _) => ("revision", Some(revision.to_string())),
    };
    CauseJson {
        cause,
        about,
        entry: lapsed.entry().map(|seal| named(&seal, ledger)),
    }
}

fn remark(remark: Remark) -> &'static str {
    match remark {
        Remark::ApproverTrained => "approver-trained",
        Remark::ApproverAssessed => "approver-assessed",
        Remark::FirstAssessor => "first-assessor",
        Remark::NoIndependentAssessor => "no-independent-assessor",
    }
}

fn need(need: &Need) -> NeedJson {
    let counted = |need, count: &Count| (need, None, Some(count_of(count)));
    let (need, about, count) = match need {
        Need::Edition => ("edition", None, None),
        Need::Assigned => ("assigned", None, None),
        Need::NoSuspension => ("no-suspension", None, None),
        Need::Workflow(workflow) => ("workflow", Some(workflow.to_string()), None),
        Need::Read => ("read", None, None),
        Need::Awareness(revision) => ("awareness", Some(revision.to_string()), None),
        Need::Protection => ("protection", None, None),
        Need::TrainedAfterFailure => ("trained-after-failure", None, None),
        Need::CleanRuns(count) => counted("clean-runs", count),
        Need::CleanDays(count) => counted("clean-days", count),
        Need::SupervisedCases(count) => counted("supervised-cases", count),
        Need::Observed(count) => counted("observed", count),
        Need::Assessors(count) => counted("assessors", count),
        Need::CleanInARow(count) => counted("clean-in-a-row", count),
        Need::Method(method, count) => (
            "method",
            Some(method.word().to_owned()),
            Some(count_of(count)),
        ),
        Need::Evaluated => ("evaluated", None, None),
    };
    NeedJson { need, about, count }
}

fn count_of(count: &Count) -> CountJson {
    CountJson {
        have: count.have,
        of: count.of,
    }
}
