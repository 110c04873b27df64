//! The board of a person, for machines.

use super::FORMAT;
use super::standing::{AsOfJson, StandingJson, standing};
use crate::report::record::board::{Board, Matter};
use crate::report::record::telling::id_of;
use crate::standing::Ledger;
use crate::units::{PersonCode, Stamp};

json! {
    /// What there is to do for a person.
    BoardJson {
        /// `drybench-board`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// The instant and the reading.
        as_of: AsOfJson,
        /// Whose board it is.
        person: String,
        /// What there is to do, the most pressing first.
        matters: Vec<MatterJson>,
    }
    /// One thing on the board; members that do not apply are null.
    MatterJson {
        /// What it is: `second`, `second-of-others`, `acknowledge`, `set-up`, `own`, `other`, `looked-after`.
        what: &'static str,
        /// The entry that it is about.
        entry: Option<String>,
        /// Whom it is about.
        person: Option<String>,
        /// The step of setting up.
        step: Option<&'static str>,
        /// Where that person stands.
        standing: Option<StandingJson>,
        /// When the record was last gone through.
        reviewed: Option<String>,
        /// When it was last copied.
        copied: Option<String>,
    }
}

const EMPTY: MatterJson = MatterJson {
    what: "",
    entry: None,
    person: None,
    step: None,
    standing: None,
    reviewed: None,
    copied: None,
};

impl Board {
    /// The board for machines.
    #[must_use]
    pub fn json(&self, ledger: &Ledger) -> BoardJson {
        let matters = self
            .matters
            .iter()
            .map(|one| matter(one, self.viewer, ledger));
        BoardJson {
            kind: "drybench-board",
            format: FORMAT,
            as_of: self.asked.into(),
            person: self.viewer.to_string(),
            matters: matters.collect(),
        }
    }
}

fn matter(of: &Matter, viewer: PersonCode, ledger: &Ledger) -> MatterJson {
    let entry = |what, seal| MatterJson {
        what,
        entry: ledger.get(seal).map(id_of),
        ..EMPTY
    };
    match of {
        Matter::Second(seal) => entry("second", seal),
        Matter::SecondOfOthers(seal) => entry("second-of-others", seal),
        Matter::Acknowledge(seal) => entry("acknowledge", seal),
        Matter::SetUp(lack) => MatterJson {
            what: "set-up",
            step: Some(lack.step.word()),
            ..EMPTY
        },
        Matter::Own(scope) => MatterJson {
            what: "own",
            person: Some(viewer.to_string()),
            standing: Some(standing(scope, ledger)),
            ..EMPTY
        },
        Matter::Other(who, scope) => MatterJson {
            what: "other",
            person: Some(who.to_string()),
            standing: Some(standing(scope, ledger)),
            ..EMPTY
        },
        Matter::LookedAfter(last) => MatterJson {
            what: "looked-after",
            reviewed: last.reviewed.as_ref().map(Stamp::to_string),
            copied: last.copied.as_ref().map(Stamp::to_string),
            ..EMPTY
        },
    }
}
