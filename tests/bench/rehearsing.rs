//! Whole rehearsals, simulated and graded: `cargo bench -- rehearsing`.
//!
//! Target: 10,000 seeded runs of a construction in under 5 s on one core, some 6 µs a task. Reported, never asserted.

use std::sync::Arc;

use divan::Bencher;
use drybench::app::NoJournal;
use drybench::app::rehearse::{Disturbances, Request, Session};
use drybench::app::shelf::Shelf;
use drybench::rehearsal::action::{Action, Help};
use drybench::rehearsal::drive::{Prepared, Rehearsal};
use drybench::rehearsal::line::{self, Line};
use drybench::rehearsal::replay::debriefed;
use drybench::rng::Seed;

const SCRIPT: &str = include_str!("stock-teeth-14.txt");

/// The actions of a correct run with 14 teeth, all times known.
fn actions() -> (Arc<Prepared>, Vec<Action>) {
    let request = Request {
        module: "stock-teeth",
        profile: None,
        case: "teeth=14,wash=ultrasonic,arch=upper,shade=light,tray=fixed",
        seed: Seed(1),
        help: Help::Unaided,
        disturbances: Disturbances::None,
    };
    let mut session =
        Session::start(&Shelf::shipped(), &request).expect("the shipped module starts");
    for text in SCRIPT.lines() {
        let action = match line::parse(text).expect("the script is well formed") {
            Line::Move(typed) => session.resolve(&typed).expect("the move makes sense"),
            Line::Action(action) => action,
            Line::WaitUntil { sign, plus } => {
                session.wait_until(&sign, plus).expect("the sign comes")
            }
            Line::Blank | Line::Ask(_) => continue,
        };
        session
            .act(action, &mut NoJournal)
            .expect("the move can be made");
    }
    (
        Arc::clone(session.prepared()),
        session.run().actions.clone(),
    )
}

fn run(on: &Arc<Prepared>, actions: &[Action], seed: u32) -> bool {
    let mut rehearsal = Rehearsal::new(on, Seed(seed), Vec::new());
    for action in actions {
        rehearsal
            .act(action)
            .expect("the move makes sense for every seed");
    }
    debriefed(on, rehearsal).graded.finished
}

/// One unaided run of 126 tasks, driven, simulated and graded.
#[divan::bench]
fn one_rehearsal(bencher: Bencher) {
    let (on, actions) = actions();
    let mut seed = 0;
    bencher.bench_local(|| {
        seed += 1;
        run(&on, &actions, seed)
    });
}

/// Ten thousand of them.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn ten_thousand_rehearsals(bencher: Bencher) {
    let (on, actions) = actions();
    bencher.bench_local(|| (0..10_000).filter(|&seed| run(&on, &actions, seed)).count());
}
