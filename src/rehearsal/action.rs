//! What a learner can do. Actions are few, and they are all that a run stores.

use crate::units::Millis;

/// How much help a run gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Help {
    /// The next step, its reason and its limits are shown.
    Guided,
    /// Help on request; wrong moves are explained at once.
    Prompted,
    /// Nothing until the debrief. The only one that counts as practice evidence.
    Unaided,
}

/// One action of a learner.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Action {
    /// A step, or a forbidden act, at one or more places.
    Do {
        /// The id of the step or act.
        what: String,
        /// The places as typed: empty for a step done once, `all`, `5-7`, `facial`, `5-6/facial`.
        at: String,
        /// Ways chosen, as way and option. A way that is not named takes its first right option.
        ways: Vec<(String, String)>,
        /// How long the timed part lasts at each place, for timed steps.
        timed: Option<Millis>,
    },
    /// Puts on a protection item, fresh.
    Wear {
        /// Which.
        item: String,
    },
    /// Takes a protection item off.
    TakeOff {
        /// Which.
        item: String,
    },
    /// Switches a machine for protection on.
    Start {
        /// Which.
        item: String,
    },
    /// Switches it off.
    Stop {
        /// Which.
        item: String,
    },
    /// Looks at everything that can be seen. Takes no time.
    Look,
    /// Lets time pass.
    Wait {
        /// How much.
        time: Millis,
    },
    /// Answers the disturbance that is open.
    Respond {
        /// The id of the response.
        response: String,
    },
    /// Hands the work over: the run is graded.
    Finish,
    /// Gives the run up.
    Abandon,
}
