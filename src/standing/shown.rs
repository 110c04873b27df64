//! Whether a standing can be shown: what it rests on, and what verification doubts.

use std::collections::BTreeSet;

use super::CannotBeShown;
use super::ledger::Doubt;
use super::view::View;
use crate::record::entry::Signed;
use crate::record::scope::Id;
use crate::units::PersonCode;

impl<'a> View<'a> {
    /// Whether what the standing rests on is beyond doubt.
    pub(super) fn shown(&self, person: PersonCode, workflow: &Id) -> Result<(), CannotBeShown> {
        for doubt in self.ledger.doubts() {
            let hidden = doubt.hidden_since.is_some_and(|since| since <= self.at);
            let rests = || self.rests_on(person, workflow);
            if hidden || rests().any(|at| self.is_touched(at, doubt)) {
                return Err(CannotBeShown {
                    strand: doubt.strand.clone(),
                    number: doubt.number,
                });
            }
        }
        Ok(())
    }

    /// Whether an entry, a correction, a void or a second signature of it is in doubt.
    fn is_touched(&self, at: usize, doubt: &Doubt) -> bool {
        let ledger = self.ledger;
        let doubted = |at: usize| {
            let frame = ledger.entry(at).frame();
            frame.strand == doubt.strand && frame.number >= doubt.number && self.knows(at)
        };
        let with_seconds =
            |at: usize| doubted(at) || ledger.seconds(at).iter().any(|&at| doubted(at));
        let happened = ledger.entry(at).frame().happened.instant() <= self.at;
        let amended = || ledger.amendments(at).iter().any(|&at| with_seconds(at));
        happened && (with_seconds(at) || amended())
    }

    /// Every entry that a standing may rest on: about the person, about whoever saw the person's work, about everybody.
    fn rests_on(&self, person: PersonCode, workflow: &Id) -> impl Iterator<Item = usize> + 'a {
        let ledger = self.ledger;
        let about = move |person: PersonCode, workflow: &Id| -> Vec<usize> {
            let about = ledger.about_person_in(person, workflow).iter().copied();
            let about = about.filter(|&at| {
                let own = ledger.entry(at).kind().subject().workflow;
                own.is_none_or(|own| own == workflow)
            });
            let others = ledger.about_workflow(workflow).iter().copied();
            about.chain(others).collect()
        };
        let own = about(person, workflow);
        // Their own standing at that time is asked for, and rests on nobody else's.
        let judges: BTreeSet<PersonCode> = own
            .iter()
            .filter_map(|&at| match ledger.entry(at).signed()? {
                (
                    Signed::Observed(_)
                    | Signed::Evaluated(_)
                    | Signed::CaseChecked(_)
                    | Signed::SupervisedBy(_)
                    | Signed::ProtectionShown(_),
                    signing,
                ) => Some(signing.by),
                _ => None,
            })
            .collect();
        let judges = judges.into_iter().flat_map(|judge| about(judge, workflow));
        let required = self.current(workflow);
        let required = required
            .into_iter()
            .flat_map(|adopted| adopted.profile(self.at).requires.clone());
        let required = required.flat_map(|workflow| about(person, &workflow));
        let all: Vec<usize> = own.iter().copied().chain(judges).chain(required).collect();
        all.into_iter().chain(ledger.policies().iter().copied())
    }
}
