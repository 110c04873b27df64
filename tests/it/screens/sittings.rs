//! Keys that lead from the first screen to a place, the same case each time.

use drybench::app::shelf::Taken;
use drybench::rehearsal::action::Help;

use crate::support::expert::{stock_teeth, wet_resin};

/// A shipped workflow as it is come by on the first screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Workflow {
    WetResin,
    StockTeeth,
}

impl Workflow {
    pub(super) const ALL: [Workflow; 2] = [Workflow::WetResin, Workflow::StockTeeth];

    /// The keys from the first screen to its set-up.
    pub(super) fn set_up(self) -> &'static str {
        match self {
            Workflow::WetResin => "<home><enter>",
            Workflow::StockTeeth => "<home><down><enter>",
        }
    }

    pub(super) fn taken(self) -> &'static Taken {
        match self {
            Workflow::WetResin => wet_resin(),
            Workflow::StockTeeth => stock_teeth(),
        }
    }
}

/// How a rehearsal is begun.
#[derive(Clone, Copy, Debug)]
pub(super) struct Begin {
    pub(super) workflow: Workflow,
    pub(super) help: Help,
    /// Whether things come in between.
    pub(super) disturbed: bool,
    pub(super) kept: bool,
    pub(super) seed: u32,
}

impl Begin {
    /// Guided, nothing in between, kept.
    pub(super) fn guided(workflow: Workflow) -> Begin {
        Begin {
            workflow,
            help: Help::Guided,
            disturbed: false,
            kept: true,
            seed: 7,
        }
    }

    /// The keys from the first screen to the bench.
    pub(super) fn keys(self) -> String {
        let help = match self.help {
            Help::Guided => "",
            Help::Prompted => "<right>",
            Help::Unaided => "<right*2>",
        };
        let case = "<down><right>".repeat(self.workflow.taken().module.case.len());
        let turned = |turned: bool| if turned { "<right>" } else { "" };
        format!(
            "{}{help}{case}<down>{}<down>{}<down>{}<enter>",
            self.workflow.set_up(),
            turned(!self.disturbed),
            turned(!self.kept),
            self.seed
        )
    }
}
