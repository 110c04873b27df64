//! The acts that are about the laboratory as a whole, that stop people or let them go on, and that put entries right.

use super::calendar::at;
use super::cast::{OWNER, QUALITY, Who, Work};
use super::telling::{Telling, parsed};
use crate::app::laboratory::{Adoption, Deed, OwnNumbers, Place, Problem};
use crate::record::canonical::Value;
use crate::record::entry::{
    Allowed, BackupMade, CalledIn, Cause, Corrected, Entry, Found, Impact, Independence, PolicySet,
    Reinstated, RestoreTested, Signed, Suspended, TrailReviewed, Voided, Withdrawn,
};
use crate::record::seal::Seal;
use crate::units::{Day, Digest};

impl Telling<'_> {
    pub(super) fn policy(&mut self) -> Result<(), Problem> {
        let policy = PolicySet {
            due_days: 60,
            grace_days: 0,
            late_hours: 24,
            independence: Independence::Independent,
        };
        let reason = self.why("demonstration-policy")?;
        self.sign(OWNER, Deed::now(policy).because(Some(reason)))
            .map(drop)
    }

    /// What is adopted last is the text on the shelf, so that people can work by it; a workflow that is revised began with the one before it, see `earlier`.
    pub(super) fn adopt(&mut self, work: Work, impact: Impact, from: Day) -> Result<(), Problem> {
        let workflow = Telling::id(work)?;
        let revised = self.newest().any(
            |(_, fact)| matches!(fact, Signed::RevisionAdopted(one) if one.workflow == workflow),
        );
        let taken = match work {
            Work::Teeth if !revised => self.earlier,
            _ => &self.taken[work as usize],
        };
        let reason = if revised {
            "demonstration-revised"
        } else {
            "demonstration-adopted"
        };
        let decided = Adoption {
            effective: at(from, 8 * 60),
            impact,
            reason: self.why(reason)?,
            numbers: OwnNumbers::default(),
        };
        let deed = self.laboratory.adoption(taken, decided)?;
        let adopted = self.sign(QUALITY, deed)?;
        self.second(OWNER, adopted.seal())
    }

    pub(super) fn suspend(&mut self, who: Who, work: Work) -> Result<(), Problem> {
        let suspended = Suspended {
            person: self.code(who),
            workflow: Telling::id(work)?,
            allowed: Allowed::Supervised,
        };
        let reason = self.why("demonstration-suspended")?;
        self.sign(QUALITY, Deed::now(suspended).because(Some(reason)))
            .map(drop)
    }

    /// On the newest observation, with the quality person as the second.
    pub(super) fn reinstate(&mut self, who: Who, work: Work, by: Who) -> Result<(), Problem> {
        let (person, workflow) = (self.code(who), Telling::id(work)?);
        let suspension = self.newest_seal(&|fact| {
            matches!(fact, Signed::Suspended(one) if one.person == person && one.workflow == workflow)
        })?;
        let seen = self.newest_seal(&|fact| {
            matches!(fact, Signed::Observed(one) if one.person == person && one.scope.workflow == workflow)
        })?;
        let reinstated = Reinstated {
            person,
            workflow,
            suspension,
            evidence: vec![seen],
            proof: None,
        };
        let lifted = self.sign(by, Deed::now(reinstated))?;
        self.second(QUALITY, lifted.seal())
    }

    pub(super) fn withdraw(&mut self, who: Who, work: Work) -> Result<(), Problem> {
        let withdrawn = Withdrawn {
            person: self.code(who),
            scope: Telling::scope(work)?,
        };
        let reason = self.why("demonstration-withdrawn")?;
        self.sign(who, Deed::now(withdrawn).because(Some(reason)))
            .map(drop)
    }

    pub(super) fn call_in(&mut self, who: Who, work: Work) -> Result<(), Problem> {
        let called = CalledIn {
            person: self.code(who),
            scope: Telling::scope(work)?,
            cause: Cause::Complaint,
        };
        let reason = self.why("demonstration-called-in")?;
        self.sign(QUALITY, Deed::now(called).because(Some(reason)))
            .map(drop)
    }

    pub(super) fn correct_case(&mut self, who: Who, by: Who) -> Result<(), Problem> {
        let target = self.checked_case(who)?;
        self.correct(by, &target).map(drop)
    }

    /// Counts once the quality person has signed it, too.
    pub(super) fn correct_observed(&mut self, who: Who) -> Result<(), Problem> {
        let person = self.code(who);
        let target = self
            .newest_entry(&|fact| matches!(fact, Signed::Observed(one) if one.person == person))?;
        let by = target.actor();
        let by = self.people().iter().position(|code| Some(*code) == by);
        let correction = self.correct(by.unwrap_or(OWNER), &target)?;
        self.second(QUALITY, correction)
    }

    /// The number of a case was misread.
    fn correct(&mut self, by: Who, target: &Entry) -> Result<Seal, Problem> {
        let right = self.next_case()?.to_string();
        let corrected = Corrected {
            target: target.seal(),
            member: parsed("case")?,
            old: target.content().member("case"),
            new: Some(Value::Text(right.into())),
        };
        let reason = self.why("demonstration-corrected")?;
        let entry = self.sign(by, Deed::now(corrected).because(Some(reason)))?;
        Ok(entry.seal())
    }

    pub(super) fn void_case(&mut self, who: Who, by: Who) -> Result<(), Problem> {
        let target = self.checked_case(who)?.seal();
        let reason = self.why("demonstration-voided")?;
        let deed = Deed::now(Voided { target }).because(Some(reason));
        self.sign(by, deed).map(drop)
    }

    /// Everything since the review before.
    pub(super) fn review(&mut self) -> Result<(), Problem> {
        let now = self.now();
        let before = self.newest().find_map(|(_, fact)| match fact {
            Signed::TrailReviewed(review) => Some(review.until),
            _ => None,
        });
        let first = self.laboratory.ledger().entries().first();
        let from = before.or_else(|| first.map(|entry| entry.frame().recorded));
        let reviewed = TrailReviewed {
            from: from.unwrap_or(now),
            until: now,
            result: Found::Good,
        };
        self.sign(QUALITY, Deed::now(reviewed)).map(drop)
    }

    /// The digest is that of the stored entries, one after the other; no file is written.
    pub(super) fn backup(&mut self) -> Result<Digest, Problem> {
        let log = self.laboratory.place().log();
        let mut pieces = Vec::new();
        for bytes in log.entries(self.laboratory.workstation(), 1) {
            pieces.push(bytes?);
        }
        let pieces: Vec<&[u8]> = pieces.iter().map(Vec::as_slice).collect();
        let copy = Digest::of(&pieces);
        self.note(BackupMade { copy }, None)?;
        Ok(copy)
    }

    pub(super) fn try_backup(&mut self) -> Result<(), Problem> {
        let copy = self.backup()?;
        self.pass(300, 900);
        let tested = RestoreTested {
            copy,
            result: Found::Good,
        };
        self.note(tested, None)
    }

    fn checked_case(&self, who: Who) -> Result<Entry, Problem> {
        let person = self.code(who);
        self.newest_entry(&|fact| matches!(fact, Signed::CaseChecked(one) if one.person == person))
    }

    fn newest_entry(&self, fits: &dyn Fn(&Signed) -> bool) -> Result<Entry, Problem> {
        let found = self.newest().find(|(_, fact)| fits(fact));
        let found = found.map(|(entry, _)| entry.clone());
        found.ok_or_else(|| Problem::NoSuchEntry(String::new()))
    }

    fn newest_seal(&self, fits: &dyn Fn(&Signed) -> bool) -> Result<Seal, Problem> {
        self.newest_entry(fits).map(|entry| entry.seal())
    }
}
