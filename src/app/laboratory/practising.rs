//! A rehearsal becomes an entry when a person is signed in. It is practice: a prerequisite, never evidence (rule R10).

use super::adopting::edition_of;
use super::problem::Problem;
use super::signing::Done;
use super::{Keeping, Laboratory, Place};
use crate::app::shelf::Taken;
use crate::record::entry::{Content, Ending, Entry, Help, Noted, Rehearsed};
use crate::rehearsal::action::{self, Action};
use crate::rehearsal::run::Run;
use crate::units::{Digest, PersonCode};

impl<P: Place> Laboratory<P> {
    /// Writes down that a person rehearsed, once for each run. The run itself is attached, and can be erased.
    ///
    /// # Errors
    ///
    /// It cannot be stored.
    pub fn rehearsed(
        &mut self,
        person: PersonCode,
        taken: &Taken,
        run: &Run,
        clean: bool,
    ) -> Result<Done, Problem> {
        self.refresh()?;
        let workflow = run.module.parse();
        let workflow = workflow.map_err(|_| Problem::BadModule(run.module.clone()))?;
        let text = serde_json::to_string(run).map_err(|why| Problem::BadModule(why.to_string()))?;
        let attached = self
            .place_mut()
            .attach(text.as_bytes(), Keeping::Erasable)?;
        if let Some(entry) = self.written_down(person, attached) {
            return Ok(Done {
                entry,
                lagging: None,
            });
        }
        let rehearsed = Rehearsed {
            person,
            workflow,
            edition: edition_of(taken)?,
            help: match run.help {
                action::Help::Guided => Help::Guided,
                action::Help::Prompted => Help::Prompted,
                action::Help::Unaided => Help::Unaided,
            },
            ending: if !run.actions.contains(&Action::Finish) {
                Ending::Abandoned
            } else if clean {
                Ending::Clean
            } else {
                Ending::NotClean
            },
            run: attached,
        };
        self.note(rehearsed, None, Some(person))
    }

    /// The entry that a run has become already.
    fn written_down(&self, person: PersonCode, run: Digest) -> Option<Entry> {
        let mut about = self.ledger().about(person);
        let before = about.find(|entry| {
            matches!(entry.content(), Content::Noted(Noted::Rehearsed(before)) if before.run == run)
        });
        before.cloned()
    }
}
