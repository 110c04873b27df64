//! What may be recorded: each refusal names the rule that speaks against an entry.
//!
//! Asked when an entry is appended, and again of every entry when the whole record is gone through.

mod amending;
mod assessing;
pub mod others;
mod publishing;
mod signing_off;
mod stopping;

pub use amending::is_correctable;

use super::evidence::Need;
use super::ledger::{Ledger, in_turn};
use super::view::{Reading, View};
use crate::record::authority::AuthorityFault;
use crate::record::entry::{Content, Entry, Impact, Signed, Signing};
use crate::record::scope::{Edition, Id};
use crate::record::seal::Seal;
use crate::units::{Instant, PersonCode};

/// The rules of standing by number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each is described where it acts")]
pub enum Rule {
    R1,
    R2,
    R3,
    R4,
    R5,
    R6,
    R7,
    R8,
    R9,
    R10,
    R11,
    R12,
    R13,
    R14,
    R15,
    R16,
}

/// Why an entry may not be recorded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Whoever made it had no right to.
    Authority(AuthorityFault),
    /// It happened later than it is recorded (R15).
    DatedAhead,
    /// It is late and gives no reason.
    LateWithoutReason,
    /// The sign-off begins before its signature (R2).
    BeforeSignature,
    /// A sign-off is the signing itself: it cannot have happened at another time (R2).
    SignedAtAnotherTime,
    /// Something is missing (R4).
    Missing(Vec<Need>),
    /// An entry that the sign-off rests on is not evidence about this person and scope (R4).
    NoEvidence(Seal),
    /// So many assessments that it could rest on are left out, and no reason is given.
    LeftOutWithoutReason(usize),
    /// Nobody signs off themself (R6).
    SelfSignOff,
    /// Nobody assesses themself (R5).
    SelfAssessment,
    /// The assessor was not signed off at that time (R5).
    AssessorNotInForce(PersonCode),
    /// The trainer was not signed off at that time.
    TrainerNotInForce(PersonCode),
    /// The supervisor was not signed off at that time.
    SupervisorNotInForce(PersonCode),
    /// Nobody had named that person as the supervisor at that time.
    NotTheSupervisor(PersonCode),
    /// The time of supervision ends before it begins, or is longer than so many days.
    SupervisionTooLong(u16),
    /// There is somebody who could assess, so this person is not the first (R7).
    NotTheFirst(PersonCode),
    /// The policy does not say that nobody can assess independently.
    NotAlone,
    /// The laboratory has not adopted that revision.
    NotAdopted(u32),
    /// The revision was adopted with another text.
    OtherText(u32),
    /// Another revision is in force (R12).
    Superseded(u32),
    /// A revision with this number or a higher one was adopted before (R11).
    NotNewer(u32),
    /// The revision was adopted before, and asks this of those who were signed off; only what later sign-offs ask for can be changed (R11).
    OtherImpact(Impact),
    /// The suspension is not one of this person in this workflow, or is lifted already (R13).
    NoSuchSuspension(Seal),
    /// Nothing shows that the person can go on (R13).
    NoReinstatingEvidence,
    /// Nobody reinstates themself (R13).
    SelfReinstatement,
    /// The second signature is that of the first signer, or of the person that the entry is about (R13).
    NotASecondPerson,
    /// The second person has no authority to approve that.
    SecondNotEntitled,
    /// Only the person that an entry is about takes note of it.
    NotTheirs,
    /// Entries of that kind are not put right: another entry says what holds from then on.
    NotAmendable,
    /// That member cannot be corrected. Void the entry and make another.
    NotCorrectable,
    /// The member does not say what is to be corrected.
    OldDiffers,
    /// The new value is none that may stand there.
    NewWrong,
    /// The entry is void already.
    VoidAlready,
}

impl Refusal {
    /// The rule that the refusal comes from; none where it comes from elsewhere.
    #[must_use]
    pub fn rule(&self) -> Option<Rule> {
        Some(match self {
            Refusal::BeforeSignature | Refusal::SignedAtAnotherTime => Rule::R2,
            Refusal::Missing(_) | Refusal::NoEvidence(_) => Rule::R4,
            Refusal::SelfAssessment | Refusal::AssessorNotInForce(_) => Rule::R5,
            Refusal::SelfSignOff => Rule::R6,
            Refusal::NotTheFirst(_) => Rule::R7,
            Refusal::NotNewer(_) | Refusal::OtherImpact(_) => Rule::R11,
            Refusal::Superseded(_) => Rule::R12,
            Refusal::NoSuchSuspension(_)
            | Refusal::NoReinstatingEvidence
            | Refusal::SelfReinstatement
            | Refusal::NotASecondPerson => Rule::R13,
            Refusal::DatedAhead => Rule::R15,
            Refusal::Authority(_)
            | Refusal::LateWithoutReason
            | Refusal::LeftOutWithoutReason(_)
            | Refusal::TrainerNotInForce(_)
            | Refusal::SupervisorNotInForce(_)
            | Refusal::NotTheSupervisor(_)
            | Refusal::SupervisionTooLong(_)
            | Refusal::NotAlone
            | Refusal::NotAdopted(_)
            | Refusal::OtherText(_)
            | Refusal::SecondNotEntitled
            | Refusal::NotTheirs
            | Refusal::NotAmendable
            | Refusal::NotCorrectable
            | Refusal::OldDiffers
            | Refusal::NewWrong
            | Refusal::VoidAlready => return None,
        })
    }
}

/// An entry with what its rule has to look at.
struct Case<'a> {
    entry: &'a Entry,
    signing: &'a Signing,
    ledger: &'a Ledger,
    /// What was known when the entry was written down.
    view: View<'a>,
}

impl<'a> Case<'a> {
    fn happened(&self) -> Instant {
        self.entry.frame().happened.instant()
    }

    fn recorded(&self) -> Instant {
        self.entry.frame().recorded.instant()
    }

    /// What is known now about the time when it happened.
    fn then(&self) -> View<'a> {
        self.view.of(self.happened())
    }

    /// Refuses an edition that the laboratory has not adopted.
    fn check_adopted(&self, workflow: &Id, edition: &Edition) -> Result<(), Refusal> {
        let adopted = self.view.adopted(workflow);
        let same = adopted
            .iter()
            .find(|one| one.edition.revision == edition.revision);
        match same {
            None => Err(Refusal::NotAdopted(edition.revision)),
            Some(same) if same.edition != *edition => Err(Refusal::OtherText(edition.revision)),
            Some(_) => Ok(()),
        }
    }
}

/// Tells whether an entry may be recorded, as things stand.
///
/// # Errors
///
/// The first thing that speaks against it.
pub fn admit(ledger: &Ledger, entry: &Entry) -> Result<(), Refusal> {
    own_work(entry)?;
    ledger.staff().check(entry).map_err(Refusal::Authority)?;
    let frame = entry.frame();
    let (happened, recorded) = (frame.happened.instant(), frame.recorded.instant());
    if happened > recorded {
        return Err(Refusal::DatedAhead);
    }
    let view = View::new(ledger, recorded, Reading::AsNowKnown);
    let late_after = happened.plus_seconds(i64::from(view.policy().late_hours) * 3600);
    if recorded > late_after && frame.reason.is_none() {
        return Err(Refusal::LateWithoutReason);
    }
    let (fact, signing) = match entry.content() {
        Content::Noted(_) => return Ok(()),
        Content::Signed { fact, signing, .. } => (fact, signing),
    };
    let case = Case {
        entry,
        signing,
        ledger,
        view,
    };
    match fact {
        Signed::Read(fact) => case.check_adopted(&fact.workflow, &fact.edition),
        Signed::AwarenessAcknowledged(fact) => case.check_adopted(&fact.workflow, &fact.edition),
        Signed::Trained(fact) => assessing::trained(&case, &fact.workflow, &fact.edition),
        Signed::ProtectionShown(fact) => assessing::trained(&case, &fact.workflow, &fact.edition),
        Signed::SupervisedBy(fact) => assessing::supervised(&case, fact),
        Signed::CaseChecked(fact) => assessing::checked(&case, fact),
        Signed::Observed(fact) => assessing::assessed(&case, &fact.scope, &fact.edition),
        Signed::Evaluated(fact) => assessing::assessed(&case, &fact.scope, &fact.edition),
        Signed::SignedOff(fact) => signing_off::signed_off(&case, fact),
        Signed::Reinstated(fact) => stopping::reinstated(&case, fact),
        Signed::Countersigned(fact) => amending::countersigned(&case, fact),
        Signed::Corrected(fact) => amending::corrected(&case, fact),
        Signed::Voided(fact) => amending::voided(&case, fact),
        Signed::RevisionAdopted(fact) => publishing::adopted(&case, fact),
        Signed::Founded(_)
        | Signed::Joined(_)
        | Signed::Left(_)
        | Signed::Granted(_)
        | Signed::Revoked(_)
        | Signed::KeyIssued(_)
        | Signed::KeyLost(_)
        | Signed::Assigned(_)
        | Signed::Suspended(_)
        | Signed::Withdrawn(_)
        | Signed::CalledIn(_)
        | Signed::WorkflowRetired(_)
        | Signed::PolicySet(_)
        | Signed::TrailReviewed(_)
        | Signed::Restored(_) => Ok(()),
    }
}

/// Says by its own rule what would otherwise be a matter of authority: nobody judges their own work.
fn own_work(entry: &Entry) -> Result<(), Refusal> {
    let Some((fact, signing)) = entry.signed() else {
        return Ok(());
    };
    match fact {
        Signed::Observed(fact) if fact.person == signing.by => Err(Refusal::SelfAssessment),
        Signed::Evaluated(fact) if fact.person == signing.by => Err(Refusal::SelfAssessment),
        Signed::SignedOff(fact)
            if fact.person == signing.by
                && !matches!(fact.basis, crate::record::entry::Basis::Outside(_)) =>
        {
            Err(Refusal::SelfSignOff)
        }
        _ => Ok(()),
    }
}

/// Goes through a whole record again and returns what should have been refused, each with its entry.
#[must_use]
pub fn audit(entries: impl IntoIterator<Item = Entry>) -> Vec<(Seal, Refusal)> {
    let mut refused = Vec::new();
    let mut ledger = Ledger::new();
    let take = |entry: Entry, ledger: &mut Ledger| {
        if let Err(refusal) = admit(ledger, &entry) {
            refused.push((entry.seal(), refusal));
        }
        ledger.add(entry);
    };
    in_turn(entries, take, &mut ledger);
    refused
}
