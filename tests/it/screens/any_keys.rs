//! Keys pressed at random, deep inside rehearsals, at any size: nothing stops the program, and what was kept stays readable.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use drybench::app::rehearse::read_run;
use drybench::app::shelf::Taken;
use drybench::rehearsal::action::{Action, Help};
use drybench::rehearsal::drive::Prepared;
use drybench::rehearsal::replay;
use drybench::rng::{Seed, Stream};
use drybench::syllabus::case::CaseCard;
use drybench::text::Words;
use drybench::tui::ui::Ui;

use super::front::{press, ui};
use super::hostile_modules::blemish;
use super::places::{debrief, setup, sitting, some_key, some_size};
use super::scenes::kept_before;
use super::sittings::Workflow;
use crate::support::machine::TestMachine;

/// How many rehearsals are sat through.
const WALKS: u32 = 400;

/// How many times keys are pressed in each of them, one after the other.
const SEQUENCES: usize = 25;

/// Where a walk begins.
struct Start {
    machine: TestMachine,
    ui: Ui<TestMachine>,
    /// The plan, if a rehearsal is under way already.
    on: Option<Arc<Prepared>>,
}

/// One of many places, most of them in the middle of a rehearsal.
fn some_start(all: &[(Arc<Taken>, Vec<Action>)], stream: &mut Stream) -> Start {
    let machine = TestMachine::default();
    let (taken, actions) = &all[usize::from(stream.between(0, 3) > 0)];
    let seed = u32::try_from(stream.between(1, 500)).unwrap();
    let most = i64::try_from(actions.len()).unwrap();
    let done = usize::try_from(stream.between(0, most)).unwrap();
    let help = [Help::Guided, Help::Guided, Help::Prompted, Help::Unaided];
    let help = help[usize::try_from(stream.between(0, 3)).unwrap()];
    let (ui, on) = match stream.between(0, 39) {
        0 => (ui(&machine, Words::shipped("en-US")), None),
        1..=3 => (setup(&machine, taken), None),
        4..=6 => (debrief(&machine, taken, seed, &actions[..done]), None),
        _ => {
            let (ui, on) = sitting(&machine, taken, help, seed, &actions[..done]);
            (ui, Some(on))
        }
    };
    Start { machine, ui, on }
}

/// Whether everything that was kept can be read, and the run under way replayed.
fn check_journals(start: &Start) {
    for (path, text) in start.machine.files("run") {
        let run =
            read_run(&text).unwrap_or_else(|why| panic!("{}: {why:?}\n{text}", path.display()));
        if let Some(on) = &start.on
            // Another case may have been begun after the debrief.
            && run.card == CaseCard::picked(&on.module, |_| 0)
        {
            replay::resume(on, &run).unwrap_or_else(|why| panic!("{}: {why:?}", path.display()));
        }
    }
}

/// Sits through the rehearsals of some seeds.
fn walk(seeds: std::ops::Range<u32>) {
    let all: Vec<(Arc<Taken>, Vec<Action>)> = [
        (Workflow::WetResin, "resin-end"),
        (Workflow::StockTeeth, "teeth-end"),
    ]
    .into_iter()
    .map(|(workflow, name)| {
        let taken = Arc::new(workflow.taken().clone());
        (taken, kept_before(name).actions())
    })
    .collect();
    let (mut sequences, mut keys, mut kept) = (0, 0, 0);
    for seed in seeds {
        let mut stream = Stream::new(Seed(seed), "any keys");
        let mut start = some_start(&all, &mut stream);
        for _ in 0..SEQUENCES {
            let (wide, tall) = some_size(&mut stream);
            let length = stream.between(1, 30);
            let resized = stream.between(0, length);
            let mut pressed = String::new();
            let went = catch_unwind(AssertUnwindSafe(|| {
                start.ui.resize(wide, tall);
                for at in 0..length {
                    if at == resized {
                        let (wide, tall) = some_size(&mut stream);
                        start.ui.resize(wide, tall);
                    }
                    let key = some_key(&mut stream);
                    pressed += &key;
                    keys += 1;
                    if !press(&mut start.ui, &key) {
                        check_journals(&start);
                        start = some_start(&all, &mut stream);
                    }
                }
                assert_eq!(blemish(&start.ui.frame()), None);
            }));
            assert!(went.is_ok(), "seed {seed}, {wide}x{tall}, after {pressed}");
            sequences += 1;
        }
        check_journals(&start);
        kept += start.machine.files("run").len();
    }
    assert_eq!(sequences, 5_000);
    assert!(keys > 70_000 && kept > 150, "{keys} keys, {kept} kept");
}

// Ten thousand sequences in all, in two tests, so that they run beside each other.

#[test]
fn five_thousand_sequences_of_keys_do_no_harm() {
    walk(0..WALKS / 2);
}

#[test]
fn five_thousand_other_sequences_of_keys_do_no_harm() {
    walk(WALKS / 2..WALKS);
}
