//! A rehearsal becomes an entry when a person is signed in. It is practice: a prerequisite, never evidence (rule R10).

use super::adopting::edition_of;
use super::problem::Problem;
use super::signing::Done;
use super::{Keeping, Laboratory, Place};
use crate::app::rehearse::Session;
use crate::record::entry::{Ending, Help, Rehearsed};
use crate::rehearsal::action::{self, Action};
use crate::rehearsal::replay::Replayed;
use crate::units::PersonCode;

impl<P: Place> Laboratory<P> {
    /// Writes down that a person rehearsed. The run itself is attached, and can be erased.
    ///
    /// # Errors
    ///
    /// It cannot be stored.
    pub fn rehearsed(
        &mut self,
        person: PersonCode,
        session: &Session,
        done: &Replayed,
    ) -> Result<Done, Problem> {
        let run = session.run();
        let workflow = run.module.parse();
        let workflow = workflow.map_err(|_| Problem::BadModule(run.module.clone()))?;
        let text = serde_json::to_string(run).map_err(|why| Problem::BadModule(why.to_string()))?;
        let rehearsed = Rehearsed {
            person,
            workflow,
            edition: edition_of(session.taken())?,
            help: match run.help {
                action::Help::Guided => Help::Guided,
                action::Help::Prompted => Help::Prompted,
                action::Help::Unaided => Help::Unaided,
            },
            ending: if !run.actions.contains(&Action::Finish) {
                Ending::Abandoned
            } else if done.graded.clean {
                Ending::Clean
            } else {
                Ending::NotClean
            },
            run: self
                .place_mut()
                .attach(text.as_bytes(), Keeping::Erasable)?,
        };
        self.note(rehearsed, None, Some(person))
    }
}
