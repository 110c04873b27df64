//! Screens opened in the middle, without the ones before them: quick to build, many times over.

use std::sync::Arc;

use drybench::app::NoJournal;
use drybench::app::keep::{Drawer, Keeper};
use drybench::app::rehearse::{Disturbances, Request, Session};
use drybench::app::shelf::{Shelf, Taken};
use drybench::app::{Colours, Wish};
use drybench::rehearsal::action::{Action, Help};
use drybench::rehearsal::drive::Prepared;
use drybench::rehearsal::run::Run;
use drybench::rng::{Seed, Stream};
use drybench::syllabus::case::CaseCard;
use drybench::text::Words;
use drybench::tui;
use drybench::tui::screen::{Desk, Screen};
use drybench::tui::screens::debriefing::Debriefing;
use drybench::tui::screens::reading::Reading;
use drybench::tui::screens::setup::Setup;
use drybench::tui::screens::sitting::Sitting;
use drybench::tui::ui::Ui;

use crate::support::machine::TestMachine;

/// What all screens share, on a machine.
pub(super) fn desk(machine: &TestMachine, words: Words) -> Desk<TestMachine> {
    Desk {
        shelf: Shelf::default(),
        ..tui::desk(machine.clone(), words, &Wish::default(), Colours::Full)
    }
}

/// Screens that begin with one of them.
fn beginning(
    machine: &TestMachine,
    first: impl FnOnce(&mut Desk<TestMachine>) -> Box<dyn Screen<TestMachine>>,
) -> Ui<TestMachine> {
    let mut desk = desk(machine, Words::shipped("en-US"));
    let first = first(&mut desk);
    Ui::new(desk, first)
}

/// The set-up.
pub(super) fn setup(machine: &TestMachine, taken: &Arc<Taken>) -> Ui<TestMachine> {
    beginning(machine, |desk| {
        Box::new(Setup::new(Arc::clone(taken), desk))
    })
}

/// The read-through.
pub(super) fn reading(machine: &TestMachine, taken: &Arc<Taken>) -> Ui<TestMachine> {
    let card = CaseCard::picked(&taken.module, |_| 0);
    beginning(machine, |desk| {
        Box::new(Reading::new(taken, &card, &desk.words).unwrap())
    })
}

/// A rehearsal with actions done already, kept on the machine.
pub(super) fn sitting(
    machine: &TestMachine,
    taken: &Taken,
    help: Help,
    seed: u32,
    actions: &[Action],
) -> (Ui<TestMachine>, Arc<Prepared>) {
    let (session, keeper) = begun(machine, taken, help, seed, actions);
    let on = Arc::clone(session.prepared());
    let ui = beginning(machine, |desk| {
        Box::new(Sitting::new(session, keeper, false, desk))
    });
    (ui, on)
}

/// A rehearsal that was kept, gone on with.
pub(super) fn resumed(
    machine: &TestMachine,
    taken: &Taken,
    run: &Run,
    words: Words,
) -> Ui<TestMachine> {
    let request = Request {
        module: &run.module,
        profile: None,
        case: &run.card.to_string(),
        seed: run.seed,
        help: run.help,
        disturbances: Disturbances::Named(run.disturbances.clone()),
    };
    let mut session = Session::on(taken.clone(), &request).unwrap();
    for action in &run.actions {
        session.act(action.clone(), &mut NoJournal).unwrap();
    }
    let found = Keeper::latest(machine, Drawer::default(), &run.module).unwrap();
    let desk = desk(machine, words);
    let sitting = Sitting::new(session, found.unwrap().keeper, false, &desk);
    Ui::new(desk, Box::new(sitting))
}

/// The debrief of a rehearsal that was given up after these actions.
pub(super) fn debrief(
    machine: &TestMachine,
    taken: &Taken,
    seed: u32,
    actions: &[Action],
) -> Ui<TestMachine> {
    let (mut session, mut keeper) = begun(machine, taken, Help::Guided, seed, actions);
    session.act(Action::Abandon, &mut keeper).unwrap();
    beginning(machine, |desk| {
        Box::new(Debriefing::new(&session, true, desk).unwrap())
    })
}

fn begun(
    machine: &TestMachine,
    taken: &Taken,
    help: Help,
    seed: u32,
    actions: &[Action],
) -> (Session, Keeper<TestMachine>) {
    let request = Request {
        module: &taken.module.identity.id.value,
        profile: None,
        case: &CaseCard::picked(&taken.module, |_| 0).to_string(),
        seed: Seed(seed),
        help,
        disturbances: Disturbances::Drawn,
    };
    let mut session = Session::on(taken.clone(), &request).unwrap();
    let mut keeper = Keeper::start(machine, Drawer::default(), session.run()).unwrap();
    for action in actions {
        // With another seed something may come in between; then that is how the rehearsal stands.
        if session.act(action.clone(), &mut keeper).is_err() {
            break;
        }
    }
    (session, keeper)
}

/// A key, more often one that leads on than one that leads back.
pub(super) fn some_key(stream: &mut Stream) -> String {
    let mut pick = |all: &[&str]| {
        let last = i64::try_from(all.len()).unwrap() - 1;
        let at = usize::try_from(stream.between(0, last)).unwrap();
        all[at].to_owned()
    };
    match pick(&[
        "on", "on", "on", "row", "place", "turn", "time", "typed", "aside", "any",
    ])
    .as_str()
    {
        "on" => pick(&["<enter>", "<enter>", "<enter>", "<space>"]),
        "row" => pick(&[
            "a", "b", "c", "d", "e", "f", "g", "<down>", "<down>", "<up>",
        ]),
        "place" => pick(&[
            "A", "B", "C", "D", "E", "F", "G", "H", "I", "J", "K", "L", "M", "N", "O", "P", "Q",
            "R", "S", "<left>", "<right>",
        ]),
        "turn" => pick(&[
            "<pgdn>", "<pgup>", "<home>", "<end>", "<right>", "<left>", "<tab>",
        ]),
        "time" => pick(&[
            "<+300>",
            "<+5000>",
            "<+60000>",
            "<tick>",
            "2 min<enter>",
            "10 s<enter>",
        ]),
        "typed" => pick(&[
            "1",
            "2",
            "3",
            "4",
            "s",
            "n",
            "r",
            "/",
            "!",
            "<backspace>",
            "寸",
            "x",
        ]),
        "aside" => pick(&[
            "?",
            "<f1>",
            "<tab>",
            "<shift-tab>",
            "<ctrl-g>",
            "<ctrl-t>",
            "/",
        ]),
        _ => pick(&[
            "<esc>",
            "<esc>",
            "<up>",
            "q",
            "c",
            "<ctrl-q>",
            "<down*4>",
            "<enter*3>",
        ]),
    }
}

/// A size, often a usual one, now and then one that nothing fits on.
pub(super) fn some_size(stream: &mut Stream) -> (usize, usize) {
    let mut between = |low, high| usize::try_from(stream.between(low, high)).unwrap();
    match between(0, 9) {
        0..=2 => (80, 24),
        3 | 4 => (60, 20),
        5 => (120, 40),
        6 => (between(60, 70), between(20, 24)),
        7 => (between(100, 130), between(20, 60)),
        8 => (between(1, 300), between(1, 90)),
        _ => (between(1, 62), between(1, 22)),
    }
}
