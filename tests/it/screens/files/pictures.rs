//! Pictures of these screens, frozen, and the keys that they name: `DRYBENCH_BLESS=1 cargo test --test it -- screens::files`.

use super::{First, machine, opened};
use crate::screens::album::{Album, SIZES};
use crate::screens::front::{Front, press};
use crate::screens::hints::{bar, meant, state};

/// A state of the screens: its name, where it begins, and the keys from there.
const SCENES: [(&str, First, &str); 25] = [
    ("matrix", First::Matrix, "<tick>"),
    ("matrix-cell", First::Matrix, "<tick><down*2><right>"),
    ("matrix-earlier", First::Matrix, "<tick>{{{"),
    ("matrix-recorded-then", First::Matrix, "<tick>[[r"),
    (
        "matrix-recorded-by",
        First::Matrix,
        "<tick>b2026-03-31<enter>",
    ),
    ("matrix-ahead", First::Matrix, "<tick>}}}}"),
    ("matrix-left", First::Matrix, "<tick>l<end>"),
    ("matrix-names", First::Matrix, "<tick>/ti<enter>"),
    ("matrix-nobody", First::Matrix, "<tick>/zzz<enter>"),
    ("matrix-ask-day", First::Matrix, "<tick>d2026-13-01<enter>"),
    ("matrix-help", First::Matrix, "<tick>?"),
    ("matrix-proof", First::Matrix, "<tick>e"),
    ("person-trainee", First::Person("Inti"), ""),
    ("person-history", First::Person("Inti"), "<tab*3>"),
    ("person-end", First::Person("Inti"), "<end>"),
    ("person-found", First::Person("Inti"), "/missing<enter>"),
    ("person-entry", First::Person("Inti"), "<tab><enter>"),
    (
        "entry-followed",
        First::Person("Inti"),
        "<tab><enter><tab><enter>",
    ),
    ("workflows", First::Workflows, ""),
    ("workflow", First::Workflows, "<enter>"),
    ("workflow-lower", First::Workflows, "<enter><pgdn*2>"),
    ("entries", First::Entries, ""),
    (
        "entries-chosen",
        First::Entries,
        "kobserved<enter>pinti<enter><down>",
    ),
    ("entries-ask", First::Entries, "/wash"),
    ("verified", First::Verifying, "<tick>"),
];

fn front(first: First, keys: &str) -> Front {
    let machine = machine();
    let ui = opened(&machine, first);
    let mut front = Front::before(&machine, ui, SIZES[0]);
    front.press(keys);
    front
}

#[test]
fn every_file_looks_as_it_did() {
    let mut album = Album::open("files-screens");
    for (name, first, keys) in SCENES {
        album.compare(name, &mut front(first, keys));
    }
    album.close();
}

#[test]
fn every_key_that_these_screens_name_does_something() {
    let mut idle = Vec::new();
    let mut tried = 0;
    for (name, first, keys) in SCENES {
        if name == "matrix-help" {
            continue;
        }
        let machine = machine();
        let begin = || {
            let mut ui = opened(&machine, first);
            ui.resize(80, 24);
            assert!(press(&mut ui, keys), "{name} was left");
            ui
        };
        let mut ui = begin();
        ui.resize(600, 24);
        let mut named = bar(&ui);
        ui.resize(80, 24);
        named.extend(bar(&ui));
        named.sort();
        named.dedup();
        assert!(named.len() > 1, "{name}: {named:?}");
        for (key, says) in named {
            tried += 1;
            let does = meant(&key).into_iter().any(|key| {
                let mut ui = begin();
                let before = state(&ui);
                !press(&mut ui, &key) || state(&ui) != before
            });
            // What is no day stays none when it is sent again. A text that just fits a wide screen need not be scrolled there.
            let is_again = name == "matrix-ask-day" && key == "Enter";
            if !does && !is_again {
                idle.push(format!("{name}: {key} {says}"));
            }
        }
    }
    assert!(idle.is_empty(), "nothing happens:\n{}", idle.join("\n"));
    assert!(tried > 150, "{tried}");
}
