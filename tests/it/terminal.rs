//! The terminal is taken over and given back: a program with a few views, started on a terminal of its own.

#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "starts itself as a program that prints, and measures time as the screens do"
)]

use std::env;
use std::process::{Command, Stdio, exit};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use cursive::Cursive;
use cursive::event::Event;
use cursive::theme::{Effect, Theme};
use cursive::traits::Resizable as _;
use cursive::views::Canvas;
use drybench::app::Colours;
use drybench::os;
use drybench::tui::terminal::{open, run};
use drybench::tui::theme::Theme as Ours;

use crate::support::pseudo_terminal::{PseudoTerminal, clean};
use crate::support::renditions::{renditions, sets_colour};

/// Says which variant of the program is to run.
const VARIANT: &str = "DRYBENCH_TEST_VARIANT";

/// What the shell had on the screen.
const BEFORE: &str = "what the shell said";

/// How far a count may be off.
const NEAR: Duration = Duration::from_millis(20);

/// What the program shows.
#[derive(Default)]
struct Shown {
    ticks: u32,
    lively: bool,
    draws: u32,
    marks: Vec<Instant>,
    breaks: bool,
}

#[test]
#[ignore = "no check: the program that the checks of this file start"]
fn a_program_with_screens() {
    let Ok(variant) = env::var(VARIANT) else {
        return;
    };
    println!("{BEFORE}");
    let colours = os::colours();
    let terminal = match open(colours) {
        Ok(terminal) => terminal,
        Err(none) => {
            println!("no terminal: {none:?}");
            exit(2);
        }
    };
    let shown = Arc::new(Mutex::new(Shown::default()));
    let mut views = Cursive::new();
    views.set_theme(match colours {
        Colours::None if variant != "careless" => Ours::Colourless.whole(),
        _ => Theme::retro(),
    });
    add_keys(&mut views, &shown);
    let drawn = Arc::clone(&shown);
    views.add_fullscreen_layer(
        Canvas::new(())
            .with_draw(move |(), printer| draw(&drawn, printer))
            .full_screen(),
    );
    let asked = Arc::clone(&shown);
    let ended = run(terminal, &mut views, |_| asked.lock().unwrap().lively).unwrap();
    println!("ended: {ended:?}");
    exit(i32::from(ended.status()));
}

fn add_keys(views: &mut Cursive, shown: &Arc<Mutex<Shown>>) {
    let keep = |change: fn(&mut Shown)| {
        let shown = Arc::clone(shown);
        move |_: &mut Cursive| change(&mut shown.lock().unwrap())
    };
    views.add_global_callback('q', Cursive::quit);
    views.add_global_callback('p', |_| panic!("a panic on purpose"));
    views.add_global_callback('s', |_| thread::sleep(Duration::from_mins(1)));
    views.add_global_callback('d', keep(|shown| shown.breaks = true));
    views.add_global_callback('l', keep(|shown| shown.lively = !shown.lively));
    views.add_global_callback('k', keep(|shown| shown.marks.push(Instant::now())));
    views.add_global_callback(Event::Refresh, keep(|shown| shown.ticks += 1));
}

fn draw(shown: &Mutex<Shown>, printer: &cursive::Printer<'_, '_>) {
    let mut shown = shown.lock().unwrap();
    shown.draws += 1;
    assert!(!shown.breaks, "a panic while drawing");
    let between = match shown.marks[..] {
        [.., one, two] => two.duration_since(one).as_micros(),
        _ => 0,
    };
    let size = printer.size;
    printer.print((0, 0), &format!("size {}x{} end", size.x, size.y));
    printer.print((0, 1), "the screens are up");
    printer.print((0, 2), &format!("ticks {} end", shown.ticks));
    printer.print((0, 3), &format!("draws {} end", shown.draws));
    let marks = shown.marks.len();
    printer.print((0, 4), &format!("marks {marks} between {between} end"));
    printer.with_effect(Effect::Reverse, |printer| {
        printer.print((0, 5), "raw \u{1b}[2J\u{9b}31m \u{202E}\u{200B}寸\u{200D}.");
    });
}

/// The arguments with which this program is the one with screens.
const ITSELF: [&str; 5] = [
    "terminal::a_program_with_screens",
    "--exact",
    "--ignored",
    "--nocapture",
    "--test-threads=1",
];

/// Starts the program on a terminal of 80 by 24 and waits until it is up.
fn started(variant: &str, variables: &[(&str, &str)]) -> PseudoTerminal {
    let itself = env::current_exe().unwrap();
    let mut command = clean(itself.to_str().unwrap(), &env::temp_dir());
    command.args(ITSELF);
    command.env(VARIANT, variant);
    for (name, value) in variables {
        command.env(name, value);
    }
    let terminal = PseudoTerminal::start_command(command, 80, 24);
    terminal.wait_for("the screens are up");
    terminal
}

/// Checks that the shell has its terminal back, with what it had said.
fn assert_given_back(terminal: &PseudoTerminal) {
    let screen = terminal.screen();
    assert!(!terminal.is_on_second_screen(), "{screen}");
    assert!(screen.contains(BEFORE), "{screen}");
    assert!(!screen.contains("the screens are up"), "{screen}");
    assert!(terminal.shows_the_cursor());
    assert!(!terminal.hears_the_mouse());
    assert!(terminal.modes_are_as_before());
}

/// The number between two words on the screen.
fn number(terminal: &PseudoTerminal, after: &str) -> u64 {
    let screen = terminal.screen();
    let (_, rest) = screen.split_once(&format!("{after} ")).unwrap();
    rest.split_whitespace().next().unwrap().parse().unwrap()
}

#[test]
fn leaving_gives_the_terminal_back_with_what_the_shell_had_on_it() {
    let mut terminal = started("", &[]);
    assert!(terminal.is_on_second_screen() && terminal.hears_the_mouse());
    assert!(!terminal.shows_the_cursor() && !terminal.modes_are_as_before());
    terminal.send("q");
    assert_eq!(terminal.wait().exit_code(), 0);
    assert_given_back(&terminal);
    assert!(terminal.screen().contains("ended: Quit"));
}

#[test]
fn a_panic_can_be_read_where_the_shell_goes_on() {
    for (key, message) in [("p", "a panic on purpose"), ("d", "a panic while drawing")] {
        let mut terminal = started("", &[]);
        terminal.send(key);
        assert_eq!(terminal.wait().exit_code(), 101);
        assert_given_back(&terminal);
        assert!(terminal.screen().contains(message), "{}", terminal.screen());
    }
}

#[test]
fn a_signal_ends_the_program_and_gives_the_terminal_back() {
    for (name, number) in [("TERM", 15), ("HUP", 1), ("INT", 2)] {
        let mut terminal = started("", &[]);
        terminal.signal(name);
        assert_eq!(terminal.wait().exit_code(), 128 + number);
        assert_given_back(&terminal);
        let ended = format!("ended: Signal({number})");
        assert!(terminal.screen().contains(&ended), "{}", terminal.screen());
    }
}

#[test]
fn a_signal_ends_a_program_that_does_not_listen() {
    // Busy in a view, and in the middle of a key that a slow line has cut off.
    for keys in ["s", "\u{1b}["] {
        let mut terminal = started("", &[]);
        terminal.send(keys);
        thread::sleep(Duration::from_millis(300));
        terminal.signal("TERM");
        assert_eq!(terminal.wait().exit_code(), 128 + 15);
        assert_given_back(&terminal);
    }
}

#[test]
fn a_closed_window_ends_the_program() {
    let mut terminal = started("", &[]);
    terminal.send("l");
    terminal.wait_until("ticks", |screen| !screen.contains("ticks 0 end"));
    terminal.close();
    // What is being drawn at that moment cannot be, which is a panic that nobody sees.
    let status = terminal.wait().exit_code();
    assert!(matches!(status, 101 | 129), "{status}");
}

#[test]
fn no_colour_is_sent_where_none_is_wanted() {
    for (variant, no_color, coloured) in [
        ("", "1", false),
        // A view that brings colours along all the same.
        ("careless", "1", false),
        ("", "", true),
    ] {
        let mut terminal = started(variant, &[("NO_COLOR", no_color)]);
        terminal.resize(60, 20);
        terminal.wait_for("size 60x20 end");
        terminal.send("q");
        assert_eq!(terminal.wait().exit_code(), 0);
        let renditions = renditions(&terminal.raw());
        let colours = renditions.iter().filter(|one| sets_colour(one)).count();
        assert_eq!(
            colours > 0,
            coloured,
            "{variant} {no_color}: {renditions:?}"
        );
        // The library alone would end reverse and bold at each change of colour.
        let ended = renditions.iter().any(String::is_empty);
        assert!(coloured || !ended, "{variant}: {renditions:?}");
        // Reverse is how it shows what is chosen.
        assert!(renditions.iter().any(|one| one == "7"), "{renditions:?}");
    }
}

#[test]
fn what_a_view_forgot_to_make_safe_does_no_harm() {
    let mut terminal = started("", &[]);
    terminal.send("q");
    terminal.wait();
    let raw = String::from_utf8(terminal.raw()).unwrap();
    assert!(raw.contains("raw \u{FFFD}[2J\u{FFFD}31m 寸."), "{raw:?}");
    assert!(
        !raw.contains(['\u{9b}', '\u{202E}', '\u{200B}', '\u{200D}']),
        "{raw:?}"
    );
}

#[test]
fn the_screen_follows_the_window_without_a_key() {
    let mut terminal = started("", &[]);
    for (columns, rows) in [(40, 12), (200, 60), (20, 6), (1, 1), (80, 24)] {
        terminal.resize(columns, rows);
        if columns == 1 {
            terminal.wait_until("one cell", |screen| screen.trim() == "s");
        } else {
            terminal.wait_for(&format!("size {columns}x{rows} end"));
        }
    }
    // Faster than anybody looks: the size is the old one when it is asked for, what stands there is not.
    for _ in 0..20 {
        terminal.resize(1, 1);
        terminal.resize(80, 24);
        terminal.wait_for("size 80x24 end");
        terminal.wait_for("the screens are up");
    }
    // No more is asked here: eyes of one cell have forgotten what the shell said.
    terminal.send("q");
    assert_eq!(terminal.wait().exit_code(), 0);
    assert!(!terminal.is_on_second_screen() && terminal.modes_are_as_before());
}

#[test]
fn ticks_come_while_something_lives_and_nothing_is_drawn_otherwise() {
    let mut terminal = started("", &[]);
    thread::sleep(Duration::from_millis(500));
    terminal.send("l");
    terminal.wait_until("ticks", |screen| !screen.contains("ticks 0 end"));
    // The first screen, the key, and the ticks: half a second of rest has drawn nothing.
    assert!(number(&terminal, "draws") <= number(&terminal, "ticks") + 2);
    thread::sleep(Duration::from_secs(1));
    terminal.send("l");
    thread::sleep(Duration::from_millis(300));
    let ticks = number(&terminal, "ticks");
    assert!((15..=40).contains(&ticks), "{ticks}");
    thread::sleep(Duration::from_millis(300));
    assert_eq!(number(&terminal, "ticks"), ticks);
    terminal.send("q");
    terminal.wait();
}

/// How far a count between two keys is off, in what the program measured.
fn off(terminal: &mut PseudoTerminal, length: Duration, marks: usize) -> Duration {
    let first = Instant::now();
    terminal.send("k");
    thread::sleep(length);
    let counted = first.elapsed();
    terminal.send("k");
    terminal.wait_for(&format!("marks {marks} between"));
    Duration::from_micros(number(terminal, "between")).abs_diff(counted)
}

#[test]
fn a_time_between_two_keys_is_measured_within_twenty_milliseconds() {
    for keys in ["", "l"] {
        let mut terminal = started("", &[]);
        terminal.send(keys);
        let mut all: Vec<Duration> = (1..=7)
            .map(|round| off(&mut terminal, Duration::from_millis(700), 2 * round))
            .collect();
        all.sort();
        // The middle one: other tests run at the same time, and a busy machine is late now and then.
        assert!(all[3] <= NEAR, "with {keys:?}: {all:?}");
        terminal.send("q");
        terminal.wait();
    }
}

#[test]
fn ten_counted_seconds_are_measured_within_twenty_milliseconds() {
    let mut terminal = started("", &[]);
    terminal.send("l");
    let late = off(&mut terminal, Duration::from_secs(10), 2);
    assert!(late <= NEAR, "{late:?}");
    terminal.send("q");
    terminal.wait();
}

#[test]
fn where_there_is_no_terminal_nothing_is_changed_and_a_value_says_so() {
    let itself = env::current_exe().unwrap();
    let output = Command::new(&itself)
        .args(ITSELF)
        .env(VARIANT, "")
        .stdin(Stdio::null())
        .output()
        .unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(said.contains("no terminal: Input"), "{said}");
    assert!(!said.contains('\u{1b}'), "{said:?}");
    assert_eq!(output.status.code(), Some(2));

    // Keys from a terminal, output into a pipe.
    let mut command = clean("/bin/sh", &env::temp_dir());
    let line = format!("'{}' {} | cat", itself.display(), ITSELF.join(" "));
    command.args(["-c", &line]);
    command.env(VARIANT, "");
    let mut terminal = PseudoTerminal::start_command(command, 80, 24);
    terminal.wait();
    let screen = terminal.screen();
    assert!(screen.contains("no terminal: Output"), "{screen}");
    assert!(terminal.modes_are_as_before());
    assert!(!terminal.raw().contains(&0x1b));
}

#[test]
fn the_real_program_runs_on_a_terminal_of_its_own() {
    let home = tempfile::tempdir().unwrap();
    let mut terminal = PseudoTerminal::start(&["--version"], home.path(), 80, 24);
    assert_eq!(terminal.wait().exit_code(), 0);
    terminal.wait_for("drybench");
}
