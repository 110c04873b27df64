//! Whole sittings in front of the real program, on a terminal of its own: keys in, what can be seen out.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program is run, and its files are looked at"
)]

mod person;

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use drybench::app::rehearse::Disturbances;

use crate::support::broken_off::{CASE, stock_teeth_broken_off};
use crate::support::expert::{Expert, start, stock_teeth};
use crate::support::pseudo_terminal::PseudoTerminal;
use crate::support::renditions::{renditions, sets_colour};
use person::{Person, first_words, says};

/// How far a count may be off.
const NEAR: Duration = Duration::from_millis(20);

/// The only file with this ending in a folder below the folder for data.
fn only(data: &Path, folder: &str, ending: &str) -> String {
    let entries = fs::read_dir(data.join(folder)).unwrap();
    let paths = entries.map(|entry| entry.unwrap().path());
    let found: Vec<_> = paths
        .filter(|path| path.extension().is_some_and(|end| end == ending))
        .collect();
    assert_eq!(found.len(), 1, "{found:?}");
    fs::read_to_string(&found[0]).unwrap()
}

/// The actions that a kept run holds, as they were written down.
fn actions(data: &Path) -> Vec<String> {
    let run = only(data, "rehearsals", "run");
    run.lines().skip(1).map(str::to_owned).collect()
}

#[test]
fn a_whole_rehearsal_is_clean_is_saved_and_leaves_the_shell_as_it_was() {
    let home = tempfile::tempdir().unwrap();
    let mut person = Person::sits_down(home.path(), &[], &[]);
    person.begins("7");
    assert!(person.sees("0:00:00") && person.sees(&says("screens-sitting-guide")));
    person.works_to_the_end();
    assert!(
        person.sees("clean") && !person.sees("not clean"),
        "{}",
        person.screen()
    );
    person.press("s");
    assert!(
        person.sees(&says("screens-notice-title")),
        "{}",
        person.screen()
    );
    person.press("\r");
    person.press("\u{1b}");
    assert!(
        person.sees(&says("screens-start-question")),
        "{}",
        person.screen()
    );
    // What is over is not offered to go on with.
    assert!(!person.sees(&first_words("screens-start-waiting")));
    person.leaves("q", 0);

    let data = home.path().join("data");
    let text = only(&data, "debriefs", "txt");
    assert!(text.contains("\nClean. ") && text.is_ascii(), "{text}");
    let json: serde_json::Value = serde_json::from_str(&only(&data, "debriefs", "json")).unwrap();
    assert_eq!(
        (&json["finished"], &json["clean"]),
        (&true.into(), &true.into())
    );
    assert_eq!(json["roots"].as_array().map(Vec::len), Some(0));
}

#[test]
fn the_bench_is_the_same_after_any_change_of_size() {
    let home = tempfile::tempdir().unwrap();
    let mut person = Person::sits_down(home.path(), &[], &[]);
    person.begins("7");
    person.press("\r");
    let before = person.screen();
    let clock = before.split_whitespace().next().unwrap().to_owned();
    for (columns, rows) in [(120, 40), (60, 20)] {
        person.pulls_the_window(columns, rows);
        assert!(
            person.sees(&clock) && person.sees("A "),
            "{}",
            person.screen()
        );
        let lines: Vec<usize> = person
            .screen()
            .lines()
            .map(|line| line.chars().count())
            .collect();
        assert!(lines.len() == usize::from(rows), "{lines:?}");
        assert!(
            lines.iter().all(|wide| *wide <= usize::from(columns)),
            "{lines:?}"
        );
    }
    person.pulls_the_window(50, 15);
    let told = person
        .screen()
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(told.contains("60 columns by 20 rows"), "{told}");
    assert!(!person.sees(&clock), "{}", person.screen());
    // What cannot be seen is not acted on; other colours tell that the keys before have been heard.
    person.press("\ra\u{14}");
    person.pulls_the_window(80, 24);
    assert_eq!(person.screen(), before);
    let data = home.path().join("data");
    assert_eq!(actions(&data).len(), 1);
    person.press("\u{11}");
    person.has_left(0);
}

#[test]
fn what_ends_the_program_in_the_middle_costs_nothing_of_the_rehearsal() {
    for (name, status) in [("TERM", Some(143)), ("KILL", None)] {
        let home = tempfile::tempdir().unwrap();
        let data = home.path().join("data");
        let mut person = Person::sits_down(home.path(), &[], &[]);
        person.begins("7");
        while actions(&data).len() < 5 {
            person.goes_on();
        }
        let kept = actions(&data);
        let clock = person.clock();
        person.terminal.signal(name);
        match status {
            Some(status) => {
                person.has_left(status);
                assert!(
                    person.sees(&first_words("screens-farewell")),
                    "{}",
                    person.screen()
                );
            }
            // Nobody can give a terminal back after this; what was kept counts.
            None => drop(person.terminal.wait()),
        }

        let mut person = Person::sits_down(home.path(), &[], &[]);
        assert!(
            person.sees(&first_words("screens-start-waiting")),
            "{}",
            person.screen()
        );
        person.press("c");
        assert_eq!(person.clock(), clock, "{name}");
        assert_eq!(actions(&data), kept, "{name}");
        person.works_to_the_end();
        assert!(
            person.sees("clean") && !person.sees("not clean"),
            "{}",
            person.screen()
        );
        assert_eq!(actions(&data)[..kept.len()], kept[..], "{name}");
        person.press("\u{1b}");
        person.leaves("q", 0);
    }
}

/// The sequences that set a colour, the terminal's own included.
fn colours(raw: &[u8]) -> Vec<String> {
    let mut all = renditions(raw);
    all.retain(|one| sets_colour(one));
    all
}

#[test]
fn without_colours_none_is_sent_and_the_chosen_row_shows_by_reverse() {
    let home = tempfile::tempdir().unwrap();
    let mut person = Person::sits_down(home.path(), &[], &[("NO_COLOR", "1")]);
    assert!(!person.reversed().is_empty());
    person.begins("7");
    let chosen = person.reversed();
    person.press("\u{1b}[B");
    assert_ne!(person.reversed(), chosen);
    // A notice: the guide's first page is asked for where no step is chosen.
    person.press("A");
    person.press("\t");
    assert!(
        person.sees(&says("screens-notice-title")),
        "{}",
        person.screen()
    );
    person.press("\r");
    person.hands_over();
    assert!(person.sees("not clean"), "{}", person.screen());
    person.press("2");
    assert!(!person.reversed().is_empty());
    person.press("\u{1b}");
    person.leaves("q", 0);
    let raw = person.terminal.raw();
    assert_eq!(colours(&raw), Vec::<String>::new());
    assert!(renditions(&raw).iter().any(|one| one == "7"));
}

#[test]
fn a_program_without_arguments_opens_the_screens() {
    let home = tempfile::tempdir().unwrap();
    let mut terminal = PseudoTerminal::start(&[], home.path(), 80, 24);
    terminal.wait_for(&says("office-welcome-greeting"));
    assert!(terminal.is_on_second_screen());
    terminal.send("q");
    assert_eq!(terminal.wait().exit_code(), 0);
}

#[test]
fn a_click_chooses_a_row_and_a_second_one_takes_it() {
    let home = tempfile::tempdir().unwrap();
    let mut person = Person::sits_down(home.path(), &[], &[]);
    let title = &stock_teeth().module.identity.title;
    let chosen = person.reversed();
    assert!(!chosen.contains(title), "{chosen}");
    person.clicks(title);
    assert!(person.reversed().contains(title), "{}", person.screen());
    person.clicks(title);
    assert!(
        person.sees(&says("screens-setup-question")),
        "{}",
        person.screen()
    );
    person.press("\u{1b}");
    person.clicks(&says("screens-key-quit"));
    person.has_left(0);
}

#[test]
fn light_is_dark_letters_on_a_light_ground() {
    let ground = |arguments: &[&str]| {
        let home = tempfile::tempdir().unwrap();
        let mut person = Person::sits_down(home.path(), arguments, &[]);
        let ground = person.ground();
        assert!(!colours(&person.terminal.raw()).is_empty());
        person.leaves("q", 0);
        ground
    };
    let (dark, light) = (ground(&[]), ground(&["--light"]));
    assert_eq!(dark, (vt100::Color::Idx(7), vt100::Color::Idx(0)));
    assert_eq!(light, (vt100::Color::Idx(0), vt100::Color::Idx(15)));
}

#[test]
fn without_a_terminal_it_says_so_and_sends_nothing_else() {
    let output = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .stdin(Stdio::null())
        .env("LC_ALL", "C.UTF-8")
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains(&says("cli-no-terminal")), "{said}");
    assert!(output.stdout.is_empty());
    assert!(!said.contains('\u{1b}'), "{said:?}");

    // One of the two is a terminal, the other is not.
    for line in [
        "'{}' </dev/null; echo $? end",
        "{ '{}'; echo $? end >&2; } | cat",
    ] {
        let home = tempfile::tempdir().unwrap();
        let line = line.replace("'{}'", &format!("'{}'", env!("CARGO_BIN_EXE_drybench")));
        let mut terminal = PseudoTerminal::start_shell(&line, home.path(), 80, 24);
        terminal.wait();
        let screen = terminal.screen();
        assert!(
            screen.contains(&says("cli-no-terminal")),
            "{line}: {screen}"
        );
        assert!(screen.contains("2 end"), "{line}: {screen}");
        assert!(!terminal.raw().contains(&0x1b), "{line}: {screen}");
        assert!(terminal.modes_are_as_before());
    }
}

/// The time of the last action of a kept run, in milliseconds.
fn last_time(data: &Path) -> Duration {
    let last = actions(data).pop().unwrap();
    let action: serde_json::Value = serde_json::from_str(&last).unwrap();
    let timed = find(&action, "timed").unwrap_or_else(|| panic!("{last}"));
    Duration::from_millis(timed)
}

/// The number under a name, wherever it stands.
fn find(value: &serde_json::Value, name: &str) -> Option<u64> {
    let members = value.as_object()?;
    let here = members.get(name).and_then(serde_json::Value::as_u64);
    here.or_else(|| members.values().find_map(|inner| find(inner, name)))
}

#[test]
fn a_second_counted_between_two_keys_is_kept_within_twenty_milliseconds() {
    let script = Expert::new(start(stock_teeth(), CASE, 7, Disturbances::None)).script();
    let until = script
        .iter()
        .position(|line| line.starts_with("tack "))
        .unwrap();
    let mut all: Vec<Duration> = Vec::new();
    for _ in 0..3 {
        let home = tempfile::tempdir().unwrap();
        let data = home.path().join("data");
        stock_teeth_broken_off(&data, &script[..until]);
        let before = actions(&data).len();
        let mut person = Person::sits_down(home.path(), &[], &[]);
        person.press("\u{1b}[B");
        person.press("c");
        person.answers_until(&first_words("screens-sitting-count"));
        let first = Instant::now();
        person.terminal.send(" ");
        thread::sleep(Duration::from_secs(1));
        let counted = first.elapsed();
        person.press(" ");
        assert_eq!(actions(&data).len(), before + 1, "{}", person.screen());
        all.push(last_time(&data).abs_diff(counted));
    }
    all.sort();
    // The middle one: other tests run at the same time, and a busy machine is late now and then.
    assert!(all[1] <= NEAR, "{all:?}");
}
