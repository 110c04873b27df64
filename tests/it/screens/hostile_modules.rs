//! Modules whose texts nobody means well: drawn on every screen, nothing comes out raw, and nothing lies beyond its row.

use std::sync::Arc;

use drybench::app::shelf::Taken;
use drybench::rehearsal::action::{Action, Help};
use drybench::rng::{Seed, Stream};
use drybench::syllabus::module::{Miss, Never};
use drybench::text::wrap::columns;
use drybench::tui::frame::{Area, Frame, Role};
use drybench::tui::ui::Ui;

use super::front::press;
use super::places::{debrief, reading, setup, sitting, some_key, some_size};
use super::scenes::kept_before;
use super::sittings::Workflow;
use crate::support::hostile_text::{hostile, is_raw};
use crate::support::machine::TestMachine;

/// How many modules are spoilt.
const MODULES: u32 = 100;

/// How often each of them is drawn.
const PICTURES: usize = 200;

/// A module with other texts: what it does stays, what it says does not.
pub(super) fn spoilt(taken: &Taken, stream: &mut Stream) -> Taken {
    let mut taken = taken.clone();
    let mut spoil = |text: &mut String| {
        // Some stay as they are, some are spoilt in the middle, most are nothing but hostile; now and then one is long.
        *text = match stream.between(0, 9) {
            0 => text.clone(),
            1 => format!("{} {} {text}", hostile(stream), hostile(stream)),
            2 => (0..12).map(|_| hostile(stream) + " ").collect(),
            _ => hostile(stream),
        };
    };
    let module = &mut taken.module;
    spoil(&mut module.identity.title);
    spoil(&mut module.identity.about);
    module.identity.cautions.iter_mut().for_each(&mut spoil);
    module.case.iter_mut().for_each(|one| spoil(&mut one.title));
    module
        .parts
        .iter_mut()
        .for_each(|one| spoil(&mut one.title));
    module
        .stations
        .iter_mut()
        .for_each(|one| spoil(&mut one.title));
    module
        .protection_items
        .iter_mut()
        .for_each(|one| spoil(&mut one.title));
    for aspect in &mut module.aspects {
        spoil(&mut aspect.title);
        aspect
            .values
            .iter_mut()
            .for_each(|one| spoil(&mut one.looks));
    }
    let spoil_miss = |miss: &mut Miss, spoil: &mut dyn FnMut(&mut String)| spoil(&mut miss.text);
    for step in &mut module.steps {
        for text in [&mut step.title, &mut step.why, &mut step.good] {
            spoil(text);
        }
        step.tools.iter_mut().for_each(&mut spoil);
        for way in &mut step.ways {
            spoil(&mut way.title);
            for option in &mut way.options {
                spoil(&mut option.title);
                option
                    .wrong
                    .iter_mut()
                    .for_each(|one| spoil_miss(one, &mut spoil));
            }
        }
        let errors = &mut step.errors;
        let tiers = errors.short.iter_mut().chain(&mut errors.long);
        tiers.for_each(|one| spoil_miss(&mut one.miss, &mut spoil));
        errors
            .skipped
            .iter_mut()
            .for_each(|one| spoil_miss(one, &mut spoil));
        errors
            .unready
            .iter_mut()
            .for_each(|one| spoil_miss(one, &mut spoil));
    }
    for rule in &mut module.never {
        if let Never::Act(act) = rule {
            spoil(&mut act.title);
            spoil_miss(&mut act.miss, &mut spoil);
        }
    }
    for one in &mut module.disturbances {
        spoil(&mut one.seen);
        one.responses
            .iter_mut()
            .for_each(|one| spoil(&mut one.title));
        one.carry_on
            .iter_mut()
            .for_each(|one| spoil_miss(one, &mut spoil));
    }
    module
        .consequences
        .iter_mut()
        .for_each(|one| spoil(&mut one.text));
    for hazard in &mut taken.hazards {
        spoil(&mut hazard.title);
        hazard.precautions.iter_mut().for_each(&mut spoil);
    }
    taken
}

/// What is wrong with a picture, whatever is in it.
pub(super) fn blemish(frame: &Frame) -> Option<String> {
    frame.pieces().iter().find_map(|piece| {
        let beyond = piece.x + columns(&piece.text) > frame.area.wide || piece.y >= frame.area.tall;
        let raw = piece.text.chars().any(is_raw);
        (beyond || raw).then(|| format!("{piece:?} in {:?}", frame.area))
    })
}

/// One of the screens, each as likely as the others.
fn some_screen(taken: &Arc<Taken>, actions: &[Action], stream: &mut Stream) -> Ui<TestMachine> {
    let machine = TestMachine::default();
    let seed = u32::try_from(stream.between(1, 50)).unwrap();
    let most = i64::try_from(actions.len()).unwrap();
    let done = usize::try_from(stream.between(0, most)).unwrap();
    let help = [Help::Guided, Help::Guided, Help::Prompted, Help::Unaided];
    let help = help[usize::try_from(stream.between(0, 3)).unwrap()];
    match stream.between(0, 5) {
        0 => setup(&machine, taken),
        1 => reading(&machine, taken),
        2 => debrief(&machine, taken, seed, &actions[..done]),
        _ => sitting(&machine, taken, help, seed, &actions[..done]).0,
    }
}

#[test]
fn twenty_thousand_pictures_of_hostile_modules_are_sound() {
    let all = [
        (Workflow::WetResin, kept_before("resin-end").actions()),
        (Workflow::StockTeeth, kept_before("teeth-end").actions()),
    ];
    let mut drawn = 0;
    for seed in 0..MODULES {
        let mut stream = Stream::new(Seed(seed), "hostile modules");
        let (workflow, actions) = &all[usize::from(seed % 3 > 0)];
        let taken = Arc::new(spoilt(workflow.taken(), &mut stream));
        let mut ui = some_screen(&taken, actions, &mut stream);
        let mut pressed = String::new();
        for number in 0..PICTURES {
            if number % 40 == 39 {
                ui = some_screen(&taken, actions, &mut stream);
                pressed.clear();
            }
            if number % 5 == 0 {
                let (wide, tall) = some_size(&mut stream);
                ui.resize(wide, tall);
            }
            let key = some_key(&mut stream);
            pressed += &key;
            if !press(&mut ui, &key) {
                ui = some_screen(&taken, actions, &mut stream);
                pressed.clear();
            }
            let blemish = blemish(&ui.frame());
            assert!(blemish.is_none(), "seed {seed}, {pressed}: {blemish:?}");
            drawn += 1;
        }
    }
    assert_eq!(drawn, 20_000);
}

#[test]
fn twenty_thousand_hostile_texts_are_put_where_they_belong() {
    let mut stream = Stream::new(Seed(1), "hostile pieces");
    for number in 0..20_000 {
        let mut between = |low, high| usize::try_from(stream.between(low, high)).unwrap();
        let whole = Area::whole(between(0, 40), between(0, 8));
        let mut frame = Frame::new(whole, number % 2 == 0);
        let (left, right) = whole.split_columns(between(0, 45));
        let (upper, lower) = right.split_rows(between(0, 10));
        let (row, column) = (between(0, 9), between(0, 45));
        let text = hostile(&mut stream) + &hostile(&mut stream);
        frame.put(left, row, column, Role::Plain, &text);
        frame.put_row(upper, row, Role::Chosen, &text);
        frame.put_right(lower, row, Role::Strong, &text);
        let inside = frame.boxed(whole.middle(column, row), &text);
        frame.put(inside, 0, 0, Role::Field, &text);
        let blemish = blemish(&frame);
        assert!(blemish.is_none(), "number {number}, {text:?}: {blemish:?}");
    }
}
