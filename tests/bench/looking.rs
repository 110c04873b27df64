//! How long screens of the record take from a key to the picture: `cargo bench -- looking`.
//!
//! Targets: a key in the table of 200 people and 40 workflows at most 16 ms; with 100,000 entries the first picture, of the program and of every screen,
//! and a key's picture within 150 ms. Reported, never asserted.

#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark reads the clock and says what it found"
)]

use std::cell::Cell;
use std::sync::LazyLock;
use std::time::Instant;

use divan::{Bencher, black_box};
use drybench::app::laboratory::{Attendance, Laboratory, MemoryPlace, Place as _, Title, folder};
use drybench::app::{Colours, System, Wish};
use drybench::os::Machine;
use drybench::people::Salt;
use drybench::record::entry::Entry;
use drybench::record::log::Appended;
use drybench::text::Words;
use drybench::tui;
use drybench::tui::command::Command;
use drybench::tui::screen::{Desk, Turn};
use drybench::tui::screens::laboratory::board::Board;
use drybench::tui::screens::laboratory::entries::Entries;
use drybench::tui::screens::laboratory::matrix::Matrix;
use drybench::tui::screens::laboratory::opening::Opening;
use drybench::tui::ui::Ui;
use drybench::units::Stamp;

use super::crowd::{PEOPLE, WORKFLOWS, crowd};
use super::recording::fill;
use super::still::Still;
use super::years::{person, years};

fn place(entries: impl Iterator<Item = Entry>, now: Stamp) -> MemoryPlace {
    let mut place = MemoryPlace::new(now, Box::new(|_| {}));
    for entry in entries {
        let strand = entry.frame().strand.clone();
        let head = place.log().head(&strand).expect("memory is read");
        let stored = place.log_mut().append(head.as_ref(), &entry);
        assert!(matches!(stored, Appended::Stored));
    }
    place.renew().expect("memory is written");
    place.keep_title(&title()).expect("memory is written");
    place
}

fn title() -> Title {
    Title {
        name: "Many".parse().expect("it is a name"),
        salt: Salt([7; 32]),
        workstation: "office".parse().expect("it is an id"),
    }
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

fn opened<S: System>(desk: Desk<S>, turn: Turn<S>) -> Ui<S> {
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

/// Ticks until nothing lives any more, with a picture each time. Returns how many ticks there were, and the longest in microseconds.
fn ticked<S: System>(ui: &mut Ui<S>) -> (usize, u128) {
    let (mut ticks, mut longest) = (0, 0);
    while ui.is_live() {
        let tick = Instant::now();
        ui.handle(Command::Tick);
        black_box(ui.frame());
        longest = longest.max(tick.elapsed().as_micros());
        ticks += 1;
        // What is read beside has a turn too.
        std::thread::yield_now();
    }
    (ticks, longest)
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
        let started = Instant::now();
        let (ticks, longest) = ticked(&mut ui);
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

/// The record of ten years, entry by entry.
fn read() -> &'static Vec<Entry> {
    static READ: LazyLock<Vec<Entry>> = LazyLock::new(|| {
        let rows = years().strands.values().flatten();
        rows.map(|bytes| Entry::read(bytes).expect("the record is sound"))
            .collect()
    });
    &READ
}

/// The laboratory of ten years, opened.
fn long() -> Desk<Still> {
    let now = read().last().map(|entry| entry.frame().recorded);
    desk(place(
        read().iter().cloned(),
        now.expect("there are entries"),
    ))
}

/// A folder with the record of ten years, opened as the program opens it: the first picture and one after a key while the record is read on another
/// thread, and the sign-in once it is.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn looking_while_100_000_entries_are_opened(bencher: Bencher) {
    let data = tempfile::tempdir().expect("there is a folder for what is temporary");
    let machine = Machine::start();
    let folder = folder(&machine, Some(data.path())).expect("the folder has a name");
    let mut place = machine.place(&folder).expect("the folder is made");
    place.keep_title(&title()).expect("there is room");
    drop(place);
    fill(&drybench::store::Folder::at(&folder).record());
    let place = machine.place(&folder).expect("the folder opens");
    place.renew().expect("there is room");
    drop(place);
    let wish = Wish {
        data: Some(data.path().to_owned()),
        ..Wish::default()
    };
    bencher.bench_local(|| {
        let begun = Instant::now();
        let words = Words::shipped("en-US");
        let desk = tui::desk(Machine::start(), words, &wish, Colours::Full);
        let Ok(Some(opening)) = Opening::begin(&desk) else {
            panic!("the laboratory is there");
        };
        let mut ui = opened(desk, Turn::Open(Box::new(opening)));
        black_box(ui.frame());
        let first = begun.elapsed().as_micros();
        let key = Instant::now();
        ui.handle(Command::Help);
        black_box(ui.frame());
        let key = key.elapsed().as_micros();
        ui.handle(Command::Back);
        let (_, longest) = ticked(&mut ui);
        let all = begun.elapsed().as_millis();
        println!(
            "{} entries: first picture after {first} µs, a key's picture {key} µs, sign-in after {all} ms; longest tick {longest} µs",
            read().len()
        );
    });
}

/// The board of the owner over 100,000 entries, from signing in to its first picture; and how long until everybody was looked at.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn looking_at_the_board_of_100_000_entries(bencher: Bencher) {
    bencher.with_inputs(long).bench_local_values(|mut desk| {
        let begun = Instant::now();
        desk.here = Some(Attendance::of(person(0), desk.system.elapsed()));
        let board = Board::new(&mut desk);
        let mut ui = opened(desk, Turn::Open(Box::new(board)));
        black_box(ui.frame());
        let first = begun.elapsed().as_micros();
        let (_, longest) = ticked(&mut ui);
        let all = begun.elapsed().as_millis();
        println!("the board: first picture after {first} µs, everybody after {all} ms, longest tick {longest} µs");
        ui
    });
}

/// The list of 100,000 entries, from the key that opens it to its first picture; and other keys.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn looking_at_100_000_entries(bencher: Bencher) {
    let bencher = bencher.with_inputs(long);
    bencher.bench_local_values(|mut desk| {
        let list = Entries::new(&mut desk);
        let ui = opened(desk, Turn::Open(Box::new(list)));
        black_box(ui.frame());
        ui
    });
    let mut desk = long();
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
        println!("the list of {} entries {name}: {took} µs", read().len());
    }
}
