//! A bench run that is over becomes what its observer signs.

use std::fmt::Write as _;

use super::observing::every_step;
use super::problem::Problem;
use super::signing::Deed;
use super::{Keeping, Laboratory, Place};
use crate::app::watching::{BenchCard, BenchRun, Head, Mark, RowAsked};
use crate::record::entry::{Judgement, Observed, Seen, Signed};
use crate::record::seal::Seal;
use crate::standing::{Reading, Refusal};
use crate::units::{Digest, Stamp};

impl<P: Place> Laboratory<P> {
    /// Makes what the observer signs of a run that is over; none while it is not. Its lines and its remarks are attached, and can be erased.
    ///
    /// # Errors
    ///
    /// Something cannot be attached.
    pub fn watched(&mut self, run: &BenchRun, card: &BenchCard) -> Result<Option<Deed>, Problem> {
        let Some(ended) = run.ended() else {
            return Ok(None);
        };
        let (steps, _) = every_step(&card.taken, |id| run.seen(id))?;
        let head = run.head();
        let text = run.text().map_err(Problem::BadModule)?;
        let place = self.place_mut();
        let taps = place.attach(text.as_bytes(), Keeping::Erasable)?;
        let remark = match remarks(run) {
            text if text.is_empty() => None,
            text => Some(place.attach(text.as_bytes(), Keeping::Erasable)?),
        };
        let observed = Observed {
            person: head.person,
            scope: head.scope.clone(),
            edition: head.edition.clone(),
            method: head.method,
            case: head.case.clone(),
            steps,
            judgement: ended.judgement,
            remark,
            taps: Some(taps),
            transcribed: None,
        };
        // Nothing is signed that lies in the future of a clock that was set back since.
        let over = ended.at.instant() <= self.now().instant();
        Ok(Some(Deed::now(observed).at(over.then_some(ended.at))))
    }

    /// Whether the observer of a run could sign it if it ended now: better asked before a case than after it.
    ///
    /// # Errors
    ///
    /// The rule that speaks against it.
    pub fn may_watch(&mut self, run: &BenchRun, card: &BenchCard) -> Result<(), Problem> {
        self.try_as_watched(run, card, None)
    }

    /// What the revision in force asks of the runs of whoever is watched: so many clean, one after the other, with how many there are and the number of the
    /// revision. None where it asks for none, or where no revision is in force.
    #[must_use]
    pub fn row_asked(&self, head: &Head) -> Option<RowAsked> {
        let view = self.view(self.now().instant(), Reading::AsNowKnown);
        let revision = view.edition(&head.scope.workflow)?.revision;
        let count = view.readiness(head.person, &head.scope).clean_in_a_row()?;
        Some(RowAsked { revision, count })
    }

    /// Whether a run that is over could only be signed with a reason now, because the policy calls it late.
    pub fn is_late(&mut self, run: &BenchRun, card: &BenchCard) -> bool {
        let over = run.ended().map(|ended| ended.at);
        let tried = over.map(|over| self.try_as_watched(run, card, Some(over)));
        let Some(Err(Problem::Refused(why) | Problem::RefusedTo { why, .. })) = tried else {
            return false;
        };
        why == Refusal::LateWithoutReason
    }

    /// Asks every rule about a run in which all went well, without a reason; none of it is kept.
    fn try_as_watched(
        &mut self,
        run: &BenchRun,
        card: &BenchCard,
        happened: Option<Stamp>,
    ) -> Result<(), Problem> {
        let head = run.head();
        let (steps, _) = every_step(&card.taken, |_| Some(Seen::Done))?;
        let observed = Observed {
            person: head.person,
            scope: head.scope.clone(),
            edition: head.edition.clone(),
            method: head.method,
            case: head.case.clone(),
            steps,
            judgement: Judgement::Acceptable,
            remark: None,
            taps: None,
            transcribed: None,
        };
        let deed = Deed::now(observed).at(happened);
        self.draft(head.observer, deed, "").map(drop)
    }

    /// The entry that a run has become, if it has: whoever was cut off after signing need not sign again.
    ///
    /// # Errors
    ///
    /// The run cannot be spelled.
    pub fn signed_already(&self, run: &BenchRun) -> Result<Option<Seal>, Problem> {
        let text = run.text().map_err(Problem::BadModule)?;
        let digest = Digest::of(&[text.as_bytes()]);
        let entries = self.ledger.entries().iter();
        let mut found = entries.filter(|entry| match entry.signed() {
            Some((Signed::Observed(observed), _)) => observed.taps == Some(digest),
            _ => false,
        });
        Ok(found.next().map(|entry| entry.seal()))
    }
}

/// Every remark that stands, a line each: on rows, on the whole, and why the run was stopped.
fn remarks(run: &BenchRun) -> String {
    let mut text = String::new();
    for marked in run.standing() {
        // Writing to a string cannot fail.
        let _ = match &marked.mark {
            Mark::Remark {
                row: Some(row),
                text: said,
            } => writeln!(text, "{row}: {said}"),
            Mark::Remark {
                row: None,
                text: said,
            }
            | Mark::Danger { text: said } => {
                writeln!(text, "{said}")
            }
            _ => Ok(()),
        };
    }
    text
}
