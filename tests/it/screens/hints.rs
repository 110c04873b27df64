//! Keys that a screen names do something, few of them at a time; and the cautions stand where hands are in danger.

use std::collections::BTreeMap;

use drybench::text::{Caution, Words};
use drybench::tui::frame::{Frame, Role};
use drybench::tui::ui::Ui;

use super::front::{drawn, press, seen, words};
use super::keys::strokes;
use super::scenes::{Scene, scenes};
use crate::support::machine::TestMachine;

/// What the names of keys stand for: one of these has to do something.
const NAMES: [(&str, &[&str]); 14] = [
    ("Enter", &["<enter>"]),
    ("Esc", &["<esc>"]),
    ("Space", &["<space>"]),
    ("Tab", &["<tab>"]),
    ("F1", &["<f1>"]),
    ("PgUp/PgDn", &["<pgdn>", "<pgup>"]),
    ("↑↓", &["<down>", "<up>"]),
    ("←→", &["<right>", "<left>"]),
    ("arrows", &["<down>", "<up>", "<right>", "<left>"]),
    ("A-Z", &["A", "B", "C"]),
    ("a-z", &["a", "b"]),
    ("Ctrl-T", &["<ctrl-t>"]),
    ("Ctrl-G", &["<ctrl-g>"]),
    ("Ctrl-Q", &["<ctrl-q>"]),
];

/// The keys that a name stands for.
pub(super) fn meant(name: &str) -> Vec<String> {
    if name.chars().count() == 1 {
        return vec![name.to_owned()];
    }
    if let Some(last) = name.strip_prefix("a-").filter(|_| name != "a-z") {
        let last = last.chars().next().unwrap();
        return ('a'..=last).map(String::from).collect();
    }
    let found = NAMES.iter().find(|(known, _)| *known == name);
    let (_, keys) = found.unwrap_or_else(|| panic!("no key is called {name}"));
    keys.iter().map(|&key| key.to_owned()).collect()
}

fn opened(scene: &Scene, size: (usize, usize)) -> Ui<TestMachine> {
    scene.opened(Words::shipped("en-US"), size)
}

/// The keys at the bottom of the screen, by name and by what they do.
pub(super) fn bar(ui: &Ui<TestMachine>) -> Vec<(String, String)> {
    bar_of(&ui.frame())
}

/// The same of a picture.
pub(super) fn bar_of(frame: &Frame) -> Vec<(String, String)> {
    let last = frame.area.tall - 1;
    let row: Vec<_> = frame.pieces().iter().filter(|one| one.y == last).collect();
    let keys = row.windows(2).filter(|two| two[0].role == Role::Key);
    keys.map(|two| (two[0].text.clone(), two[1].text.clone()))
        .collect()
}

/// What shows of a state.
pub(super) fn state(ui: &Ui<TestMachine>) -> String {
    format!("{:?} {:?}", ui.frame().pieces(), ui.desk().theme)
}

#[test]
fn every_key_that_a_screen_names_does_something() {
    let mut tried = 0;
    let mut idle = Vec::new();
    let mut often = BTreeMap::new();
    for scene in scenes() {
        // What is asked about a step is asked in the same way whatever the help.
        let is_again = ["bench-prompted-", "bench-unaided-"].iter().any(|level| {
            let rest = scene.name.strip_prefix(level);
            rest.is_some_and(|rest| !["begin", "middle", "hint", "no-hint"].contains(&rest))
        });
        // What lies over a screen is closed by keys that it names itself.
        if is_again || scene.is_covered() {
            continue;
        }
        let size = (80, 24);
        let mut ui = opened(&scene, size);
        let mut named = bar(&ui);
        // On a wide screen all of them stand there.
        ui.resize(300, 24);
        named.extend(bar(&ui));
        ui.resize(size.0, size.1);
        named.sort();
        named.dedup();
        assert!(named.len() > 1, "{}: {named:?}", scene.name);
        let before = state(&ui);
        for (name, says) in named {
            let pair = (scene.family().to_owned(), name.clone(), says.clone());
            let known = often.entry(pair).or_insert(0);
            // The same key of the same screen is tried in a few of its states.
            if *known >= 4 {
                continue;
            }
            *known += 1;
            let does = meant(&name).into_iter().any(|key| {
                assert!(strokes(&key).len() <= 2, "{name} takes many keys");
                tried += 1;
                // A key that did nothing has left everything as it was.
                if state(&ui) != before {
                    ui = opened(&scene, size);
                }
                !press(&mut ui, &key) || state(&ui) != before
            });
            // What is wrong stays wrong when it is sent again.
            let again = ["-wrong", "-never", "-out-of-range"];
            let is_again = name == "Enter" && again.iter().any(|end| scene.name.ends_with(end));
            if !does && !is_again {
                idle.push(format!("{}: {name} {says}", scene.name));
            }
            ui = opened(&scene, size);
        }
    }
    assert!(idle.is_empty(), "nothing happens:\n{}", idle.join("\n"));
    assert!(tried > 100, "{tried}");
}

#[test]
fn the_short_caution_stands_on_every_picture_of_a_rehearsal() {
    let said = Words::shipped("en-US").say("caution-others-come-first.short", &[]);
    let mut pictures = 0;
    for scene in scenes().iter().filter(|one| one.is_rehearsal()) {
        let mut ui = opened(scene, (80, 24));
        for (wide, tall) in [(80, 24), (120, 40), (60, 20)] {
            ui.resize(wide, tall);
            let frame = ui.frame();
            let careful = seen(&frame, Role::Caution);
            let careful: Vec<&str> = careful.iter().map(|one| one.text.as_str()).collect();
            let help_is_over = scene.name.ends_with("-help");
            assert!(
                help_is_over || words(&careful.join(" ")).contains(&said),
                "{} at {wide}x{tall}:\n{}",
                scene.name,
                drawn(&frame)
            );
            pictures += 1;
        }
    }
    assert!(pictures > 180, "{pictures}");
}

#[test]
fn the_long_caution_stands_on_the_first_screen_at_every_size() {
    let said = Caution::OthersComeFirst.say(&Words::shipped("en-US"));
    for scene in scenes() {
        if !scene.name.starts_with("first")
            || scene.name == "first-help"
            || scene.name == "first-refused"
        {
            continue;
        }
        let mut ui = opened(&scene, (80, 24));
        for (wide, tall) in [(80, 24), (120, 40), (60, 20)] {
            ui.resize(wide, tall);
            let careful = seen(&ui.frame(), Role::Caution);
            let careful: Vec<&str> = careful.iter().map(|one| one.text.as_str()).collect();
            assert!(
                words(&careful.join(" ")).contains(&said),
                "{} at {wide}x{tall}:\n{}",
                scene.name,
                drawn(&ui.frame())
            );
        }
    }
}

#[test]
fn the_long_caution_stands_in_the_read_through_and_in_the_debrief() {
    let said = Caution::OthersComeFirst.say(&Words::shipped("en-US"));
    for name in [
        "reading-overview",
        "debrief-clean-outcome",
        "debrief-not-clean-outcome",
        "debrief-given-up",
    ] {
        let all = scenes();
        let scene = all.iter().find(|one| one.name == name).unwrap();
        // As tall as the whole text; that it can be scrolled through is another test.
        let mut ui = opened(scene, (80, 24));
        ui.resize(80, 400);
        let text = words(&drawn(&ui.frame()));
        assert!(text.contains(&said), "{name}: {text}");
    }
}
