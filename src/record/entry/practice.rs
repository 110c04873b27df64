//! Practice: drills and rehearsals. Written by the machine; it counts as practice and as a prerequisite, never as evidence.

use super::{Amending, Kind, Subject};
use crate::record::member::{members, words};
use crate::record::scope::{Edition, Id};
use crate::units::{Digest, PersonCode};

members! {
    /// A person did a drill.
    Drilled {
        /// Who.
        "person" person: PersonCode,
        /// Of which workflow.
        "workflow" workflow: Id,
        /// Of which edition.
        "edition" edition: Edition,
        /// The kind of drill.
        "drill" drill: Id,
        /// How many answers were right…
        "right" right: u16,
        /// …of how many.
        "of" of: u16,
    }
}

words! {
    /// How much help a rehearsal gave.
    Help {
        /// The next step was shown.
        "guided" Guided,
        /// Help on request.
        "prompted" Prompted,
        /// None.
        "unaided" Unaided,
    }
}

words! {
    /// How a rehearsal ended.
    Ending {
        /// No critical and no major root finding.
        "clean" Clean,
        /// With such a finding.
        "not-clean" NotClean,
        /// Given up.
        "abandoned" Abandoned,
    }
}

members! {
    /// A person rehearsed a workflow on the simulated bench.
    Rehearsed {
        /// Who.
        "person" person: PersonCode,
        /// Which workflow.
        "workflow" workflow: Id,
        /// Which edition.
        "edition" edition: Edition,
        /// With how much help.
        "help" help: Help,
        /// How it ended.
        "ending" ending: Ending,
        /// The digest of the saved run, which is kept apart and can be erased.
        "run" run: Digest,
    }
}

impl Kind for Drilled {
    fn subject(&self) -> Subject<'_> {
        Subject::workflow(self.person, &self.workflow)
    }

    fn amending(&self) -> Amending {
        Amending::Free
    }
}

impl Kind for Rehearsed {
    fn subject(&self) -> Subject<'_> {
        Subject::workflow(self.person, &self.workflow)
    }

    fn documents(&self) -> Vec<(&'static str, Digest)> {
        vec![("run", self.run)]
    }

    fn amending(&self) -> Amending {
        Amending::Free
    }
}
