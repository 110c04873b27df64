//! Bench runs: somebody is watched at a real case, in memory and with the real program; killed at any moment, nothing is lost.

mod killed;
mod model;
#[cfg(unix)]
mod plain;

use std::sync::Arc;

use drybench::app::System as _;
use drybench::app::laboratory::edition_of;
use drybench::app::shelf::Shelf;
use drybench::app::watching::{BenchCard, FORMAT, Head, Mark, Reading, Watch};
use drybench::record::entry::Method;
use drybench::record::scope::Scope;
use drybench::syllabus::case::CaseCard;

use crate::support::expert::stock_teeth;
use crate::support::machine::TestMachine;

/// Who is watched, and who watches, in the demonstration too.
const TECHNICIAN: &str = "P-2R4J54";
const ASSESSOR: &str = "P-3DW7G4";

/// The workflow with six teeth.
fn card() -> Arc<BenchCard> {
    let taken = stock_teeth();
    let first = CaseCard::picked(&taken.module, |_| 0);
    let chosen = CaseCard::parse_over("teeth=6", &taken.module, first).unwrap();
    Arc::new(BenchCard::new(Arc::new(taken.clone()), &chosen).unwrap())
}

/// What the clocks of a machine say.
fn reading(machine: &TestMachine) -> Reading {
    Reading {
        at: machine.now(),
        elapsed: machine.elapsed(),
    }
}

fn head(card: &BenchCard, machine: &TestMachine) -> Head {
    Head {
        format: FORMAT,
        person: TECHNICIAN.parse().unwrap(),
        observer: ASSESSOR.parse().unwrap(),
        scope: Scope {
            workflow: "stock-teeth".parse().unwrap(),
            profile: "common-practice".parse().unwrap(),
            wash: "ultrasonic".parse().unwrap(),
            cure: "light-chamber".parse().unwrap(),
        },
        numbers: None,
        edition: edition_of(&card.taken).unwrap(),
        card: card.plan.card.clone(),
        case: "c-0700".parse().unwrap(),
        method: Method::Direct,
        started: machine.now(),
        lots: vec!["primer 17".to_owned()],
    }
}

fn begun(machine: &TestMachine) -> Watch<TestMachine> {
    let card = card();
    let head = head(&card, machine);
    Watch::begin(machine, None, card, head, reading(machine)).unwrap()
}

fn taken_up(machine: &TestMachine) -> Watch<TestMachine> {
    let files = machine.files("bench-run");
    let shelf = Shelf::shipped();
    Watch::take_up(machine, &shelf, &files[0].0, reading(machine)).unwrap()
}

fn start(row: &str) -> Mark {
    Mark::Start {
        row: row.to_owned(),
    }
}

fn stop(row: &str) -> Mark {
    Mark::Stop {
        row: row.to_owned(),
    }
}
