//! How long screens of the record take from a key to the picture: `cargo bench -- looking`.
//!
//! Targets: a key in the table of 200 people and 40 workflows at most 16 ms; the first picture of the list of 100,000 entries at once. Reported, never
//! asserted.

#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark reads the clock and says what it found"
)]

use std::cell::Cell;
use std::sync::LazyLock;
use std::time::Instant;

use divan::{Bencher, black_box};
use drybench::app::laboratory::{Laboratory, MemoryPlace, Place as _, Title};
use drybench::app::{Colours, Wish};
use drybench::people::Salt;
use drybench::record::entry::Entry;
use drybench::record::log::Appended;
use drybench::text::Words;
use drybench::tui;
use drybench::tui::command::Command;
use drybench::tui::screen::{Desk, Turn};
use drybench::tui::screens::laboratory::entries::Entries;
use drybench::tui::screens::laboratory::matrix::Matrix;
use drybench::tui::ui::Ui;
use drybench::units::Stamp;

use super::crowd::{PEOPLE, WORKFLOWS, crowd};
use super::still::Still;
use super::years::years;

fn place(entries: impl Iterator<Item = Entry>, now: Stamp) -> MemoryPlace {
    let mut place = MemoryPlace::new(now, Box::new(|_| {}));
    for entry in entries {
        let strand = entry.frame().strand.clone();
        let head = place.log().head(&strand).expect("memory is read");
        let stored = place.log_mut().append(head.as_ref(), &entry);
        assert!(matches!(stored, Appended::Stored));
    }
    place.renew().expect("memory is written");
    let title = Title {
        name: "Many".parse().expect("it is a name"),
        salt: Salt([7; 32]),
        workstation: "office".parse().expect("it is an id"),
    };
    place.keep_title(&title).expect("memory is written");
    place
}

fn desk(place: MemoryPlace) -> Desk<Still> {
    let words = Words::shipped("en-US");
    let system = Still::start();
    let mut desk = tui::desk(system, words, &Wish::default(), Colours::Full);
    let Ok(laboratory) = Laboratory::open(place) else {
        panic!("the laboratory opens");
    };
    assert!(desk.lay_open(laboratory).is_ok());
    desk
}

fn opened(desk: Desk<Still>, turn: Turn<Still>) -> Ui<Still> {
    let Turn::Open(first) = turn else {
        panic!("the screen opens");
    };
    let mut ui = Ui::new(desk, first);
    ui.resize(120, 40);
    ui
}

/// The table as it opens.
fn table() -> Ui<Still> {
    let (entries, end) = crowd();
    let mut desk = desk(place(entries.iter().cloned(), *end));
    let turn = Matrix::open(&mut desk);
    opened(desk, turn)
}

fn complete(ui: &mut Ui<Still>) {
    while ui.is_live() {
        ui.handle(Command::Tick);
    }
}

#[divan::bench(sample_count = 1, sample_size = 1)]
fn looking_at_every_cell(bencher: Bencher) {
    let mut ui = table();
    bencher.bench_local(|| {
        let (started, mut ticks, mut longest) = (Instant::now(), 0, 0);
        while ui.is_live() {
            let tick = Instant::now();
            ui.handle(Command::Tick);
            black_box(ui.frame());
            longest = longest.max(tick.elapsed().as_micros());
            ticks += 1;
        }
        let all = started.elapsed().as_millis();
        println!(
            "{PEOPLE} people, {WORKFLOWS} workflows: every cell after {all} ms in {ticks} ticks; longest tick with its picture {longest} µs"
        );
    });
}

#[divan::bench(sample_count = 200, sample_size = 1)]
fn looking_around_the_table(bencher: Bencher) {
    let mut ui = table();
    complete(&mut ui);
    let number = Cell::new(0_usize);
    let keys = [
        Command::Right,
        Command::Down,
        Command::PageDown,
        Command::Left,
        Command::Right,
        Command::Last,
        Command::Right,
        Command::First,
    ];
    bencher.bench_local(|| {
        number.set(number.get() + 1);
        ui.handle(keys[number.get() % keys.len()]);
        ui.frame()
    });
}

#[divan::bench(sample_count = 50, sample_size = 1)]
fn looking_while_cells_are_gathered(bencher: Bencher) {
    let mut ui = table();
    let number = Cell::new(0_usize);
    bencher.bench_local(|| {
        number.set(number.get() + 1);
        ui.handle([Command::Right, Command::Down][number.get() % 2]);
        ui.frame()
    });
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn looking_at_the_day_before(bencher: Bencher) {
    let mut ui = table();
    bencher.bench_local(|| {
        ui.handle(Command::Type('['));
        ui.frame()
    });
}

/// The list of 100,000 entries, from the key that opens it to its first picture; and other keys.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn looking_at_100_000_entries(bencher: Bencher) {
    static READ: LazyLock<Vec<Entry>> = LazyLock::new(|| {
        let rows = years().strands.values().flatten();
        rows.map(|bytes| Entry::read(bytes).expect("the record is sound"))
            .collect()
    });
    let now = READ.last().map(|entry| entry.frame().recorded);
    let now = now.expect("there are entries");
    let again = || desk(place(READ.iter().cloned(), now));
    let bencher = bencher.with_inputs(again);
    bencher.bench_local_values(|mut desk| {
        let list = Entries::new(&mut desk);
        let ui = opened(desk, Turn::Open(Box::new(list)));
        black_box(ui.frame());
        ui
    });
    let mut desk = again();
    let list = Entries::new(&mut desk);
    let mut ui = opened(desk, Turn::Open(Box::new(list)));
    for (name, keys) in [
        ("to its end", vec![Command::Last]),
        (
            "to those of a kind",
            "krevoked"
                .chars()
                .map(Command::Type)
                .chain([Command::Take])
                .collect(),
        ),
    ] {
        let begun = Instant::now();
        for key in keys {
            ui.handle(key);
        }
        black_box(ui.frame());
        let took = begun.elapsed().as_micros();
        println!("the list of {} entries {name}: {took} µs", READ.len());
    }
}
