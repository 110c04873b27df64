//! The pictures in README are drawn from the screens themselves.
//!
//! `DRYBENCH_BLESS=1 cargo test picture` draws them anew. Look at them before you commit them.

#![expect(
    clippy::disallowed_methods,
    reason = "the pictures are files of the project"
)]

use std::fs;
use std::path::{Path, PathBuf};

use cursive::event::{Event, Key};
use drybench::app::rehearse::Disturbances;
use drybench::app::{Begin, Colours, Wish};
use drybench::os::Machine;
use drybench::text::Words;
use drybench::tui;

use crate::support::broken_off::{CASE, stock_teeth_broken_off};
use crate::support::expert::{Expert, start, stock_teeth};
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;
use crate::support::memory_screen::MemoryScreen;
use crate::support::picture::svg;

/// What the picture of the bench tells those who do not see it; README says the same.
const BENCH: &str = "The bench in a terminal. At the top what is worn and what runs. On the left all places, and what can \
                     be done at the hot plate: one step, and one thing that nobody should ever do. On the right \
                     what came of the last step, what the guide says comes next and why, and the beginning of what can be seen. At the bottom a caution and the keys.";

/// The same for the debrief.
const DEBRIEF: &str = "A debrief in a terminal. On the left the findings, each with how grave it is. On the right \
                       the first of them: what was expected and what was found, and what followed from it.";

/// The same for the board of the day.
const BOARD: &str = "The board of the day of somebody who trains and assesses, in the invented demonstration. At the top people for whom \
                     something is to be done: one is ready for sign-off, one has lapsed, two are due. Below stand the own \
                     workflows, when the record was last gone through, the keys to everything else, and a caution.";

/// The same for the table of people and workflows.
const TABLE: &str = "The table of people and workflows on a day of the invented demonstration. Each cell says in a word where somebody \
                     stands; below, how many may work alone, and the chosen cell in full with the entry that shows it.";

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The screens at 80 by 24, gone on with the rehearsal that is kept in a folder for data.
fn gone_on(data: &Path) -> MemoryScreen {
    let wish = Wish {
        data: Some(data.to_owned()),
        begin: Begin::Practice,
        ..Wish::default()
    };
    let words = Words::shipped("en-US");
    let screens = tui::first(Machine::start(), words, &wish, Colours::Full);
    let mut screen = MemoryScreen::open(80, 24, tui::views(screens));
    screen.send([Event::Key(Key::Down)]);
    screen.type_text("c");
    screen
}

fn word(id: &str) -> String {
    Words::shipped("en-US").say(id, &[])
}

fn assert_shows(screen: &MemoryScreen, texts: &[&str]) {
    for text in texts {
        assert!(screen.text().contains(text), "{text}:\n{}", screen.text());
    }
}

/// Compares a picture with the one in the repository, or, with `DRYBENCH_BLESS` set, puts it there.
fn frozen(name: &str, screen: &MemoryScreen, title: &str, description: &str) {
    let path = root().join("assets/pictures").join(name);
    let now = svg(&screen.cells(), title, description);
    if std::env::var_os("DRYBENCH_BLESS").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, &now).unwrap();
    }
    let then = fs::read_to_string(&path).unwrap();
    assert!(
        now == then,
        "assets/pictures/{name} is no longer what the screen shows: look at it and draw it anew\n{}",
        screen.text()
    );
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    assert!(
        readme.contains(&format!("![{description}](assets/pictures/{name})")),
        "README shows assets/pictures/{name} and says in words what is seen"
    );
}

#[test]
fn the_picture_of_the_bench_is_what_the_screen_shows() {
    let script = Expert::new(start(stock_teeth(), CASE, 7, Disturbances::None)).script();
    let until = script
        .iter()
        .position(|line| line == "put-away-alcohol")
        .unwrap();
    let home = tempfile::tempdir().unwrap();
    stock_teeth_broken_off(home.path(), &script[..until]);
    let mut screen = gone_on(home.path());
    // What the guide suggests is done, so that what came of it stands there.
    screen.send([Event::Key(Key::Enter)]);
    assert_shows(
        &screen,
        &[
            "Nitrile gloves",
            "Running: Exhaust",
            "Closed goggles",
            // Never right, and on the list all the same.
            "Stand the wash alcohol on the plate",
            &word("screens-sitting-guide"),
            &word("screens-sitting-seen"),
            "! Safety data sheet",
        ],
    );
    frozen("bench.svg", &screen, "The bench", BENCH);
}

#[test]
fn the_picture_of_a_debrief_is_what_the_screen_shows() {
    let script = fs::read_to_string(root().join("assets/scripts/novice.txt")).unwrap();
    let lines = script.lines().filter(|line| line.trim() != "finish");
    let lines: Vec<String> = lines.map(str::to_owned).collect();
    let home = tempfile::tempdir().unwrap();
    stock_teeth_broken_off(home.path(), &lines);
    let mut screen = gone_on(home.path());
    screen.type_text("/");
    screen.type_text(&word("screens-sitting-finish"));
    let enter = Event::Key(Key::Enter);
    screen.send([enter.clone(), enter, Event::Char('a')]);
    assert_shows(&screen, &["not clean", &word("screens-debrief-outcome")]);
    screen.type_text("2");
    assert_shows(&screen, &["not clean", "critical"]);
    frozen("debrief.svg", &screen, "A debrief", DEBRIEF);
}

/// The demonstration at 80 by 24, with somebody who assesses signed in.
fn demonstrated() -> MemoryScreen {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    let words = Words::shipped("en-US");
    let screens = tui::first(machine, words, &Wish::default(), Colours::Full);
    let mut screen = MemoryScreen::open(80, 24, tui::views(screens));
    screen.send([Event::Refresh]);
    screen.type_text("tuomi");
    let enter = || Event::Key(Key::Enter);
    // The key is opened once it has been said that it is.
    screen.send([enter(), Event::Key(Key::Tab), enter(), Event::Refresh]);
    screen
}

#[test]
fn the_picture_of_the_board_is_what_the_screen_shows() {
    let screen = demonstrated();
    assert_shows(
        &screen,
        &[
            "DEMONSTRATION, invented",
            "ready for sign-off",
            "! Safety data sheet",
        ],
    );
    frozen("board.svg", &screen, "The board of the day", BOARD);
}

#[test]
fn the_picture_of_the_table_is_what_the_screen_shows() {
    let mut screen = demonstrated();
    screen.type_text("m");
    screen.send([Event::Refresh, Event::Refresh]);
    assert_shows(
        &screen,
        &[
            "DEMONSTRATION, invented",
            "May work alone",
            "Shown by the entry",
        ],
    );
    frozen("table.svg", &screen, "Who stands where", TABLE);
}
