//! Pictures of the screens of the record, frozen as those of the dry bench are: `DRYBENCH_BLESS=1 cargo test --test it -- screens::laboratory`.

use drybench::app::{Begin, Colours, Wish};
use drybench::text::Words;
use drybench::tui;

use super::album::{Album, SIZES};
use super::front::Front;
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

/// Somebody signs in; the demonstration types the passphrase.
pub(super) const ASSESSOR: &str = "tuomi<enter><tab><enter>";
pub(super) const OWNER: &str = "nerea<enter><tab><enter>";
pub(super) const QUALITY: &str = "qu<enter><tab><enter>";
pub(super) const TRAINEE: &str = "inti<enter><tab><enter>";

/// What lies in the folder for data.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Has {
    Nothing,
    Demonstration,
}

/// A state of the screens: its name, what there is, and the keys from the first screen.
const SCENES: [(&str, Has, &[&str]); 29] = [
    ("welcome", Has::Nothing, &[]),
    ("welcome-practise", Has::Nothing, &["<down*2>"]),
    ("welcome-help", Has::Nothing, &["?"]),
    ("founding", Has::Nothing, &["<down><enter>", "Three Rivers"]),
    ("founding-no-name", Has::Nothing, &["<down><enter><enter>"]),
    (
        "founding-binds",
        Has::Nothing,
        &[
            "<down><enter>",
            "Three Rivers<enter>",
            "Ana Example<enter><enter>",
        ],
    ),
    (
        "founding-passphrase",
        Has::Nothing,
        &[
            "<down><enter>",
            "Three Rivers<enter>",
            "Ana Example<enter*3>",
            "abc",
        ],
    ),
    ("sign-in", Has::Demonstration, &["<tick>"]),
    ("sign-in-nobody", Has::Demonstration, &["<tick>", "zzz"]),
    (
        "sign-in-passphrase",
        Has::Demonstration,
        &["<tick>", "tuomi<enter>", "quiet"],
    ),
    (
        "sign-in-refused",
        Has::Demonstration,
        &["<tick>", "tuomi<enter>", "quiet<enter>"],
    ),
    ("board-assessor", Has::Demonstration, &["<tick>", ASSESSOR]),
    (
        "board-assessor-lower",
        Has::Demonstration,
        &["<tick>", ASSESSOR, "<end>"],
    ),
    ("board-owner", Has::Demonstration, &["<tick>", OWNER]),
    ("board-trainee", Has::Demonstration, &["<tick>", TRAINEE]),
    ("board-help", Has::Demonstration, &["<tick>", TRAINEE, "?"]),
    ("deeds", Has::Demonstration, &["<tick>", OWNER, "s"]),
    (
        "deeds-trainee",
        Has::Demonstration,
        &["<tick>", TRAINEE, "s"],
    ),
    (
        "form-assign",
        Has::Demonstration,
        &["<tick>", OWNER, "s<enter>"],
    ),
    (
        "form-answers",
        Has::Demonstration,
        &["<tick>", OWNER, "s<enter>", "in"],
    ),
    (
        "form-missing",
        Has::Demonstration,
        &["<tick>", OWNER, "s<enter>", "<end><enter>"],
    ),
    (
        "form-sign-off-from-file",
        Has::Demonstration,
        &["<tick>", OWNER, "<enter>", "s<enter>"],
    ),
    (
        "signing",
        Has::Demonstration,
        &["<tick>", OWNER, "<enter>", "s<enter><end><enter>"],
    ),
    (
        "signing-end",
        Has::Demonstration,
        &["<tick>", OWNER, "<enter>", "s<enter><end><enter>", "<end>"],
    ),
    (
        "signing-who",
        Has::Demonstration,
        &[
            "<tick>",
            OWNER,
            "<enter>",
            "s<enter><end><enter>",
            "<end><enter>",
        ],
    ),
    (
        "signing-refused",
        Has::Demonstration,
        &[
            "<tick>",
            TRAINEE,
            "s",
            "<down*8><enter>",
            "tuomi<enter>",
            "<right><end><enter>",
        ],
    ),
    (
        "joining",
        Has::Demonstration,
        &["<tick>", OWNER, "s", "<end><up*2><enter>", "Ana Example"],
    ),
    (
        "giving-key",
        Has::Demonstration,
        &["<tick>", OWNER, "s", "<end><up><enter>"],
    ),
    (
        "locked",
        Has::Demonstration,
        &["<tick>", TRAINEE, "<+600000>"],
    ),
];

/// The screens of a scene, at the keys' end.
fn front(has: Has, keys: &[&str]) -> Front {
    let machine = TestMachine::default();
    if has == Has::Demonstration {
        machine.lay_open(demonstration());
    }
    let wish = Wish {
        begin: Begin::Laboratory,
        ..Wish::default()
    };
    let words = Words::shipped("en-US");
    let ui = tui::first(machine.clone(), words, &wish, Colours::Full);
    let mut front = Front::before(&machine, ui, SIZES[0]);
    keys.iter().for_each(|keys| front.press(keys));
    front
}

#[test]
fn every_screen_of_the_record_looks_as_it_did() {
    let mut album = Album::open("laboratory-screens");
    for (name, has, keys) in SCENES {
        album.compare(name, &mut front(has, keys));
    }
    album.close();
}

#[test]
fn everything_in_the_demonstration_says_so_at_every_size() {
    for (name, has, keys) in SCENES {
        if has == Has::Nothing {
            continue;
        }
        let mut front = front(has, keys);
        for size in SIZES {
            front.resize(size);
            let text = front.text();
            assert!(text.contains("DEMONSTRATION, invented"), "{name}: {text}");
        }
    }
}

#[test]
fn who_was_away_has_to_show_who_they_are_and_finds_everything_as_it_was() {
    let mut front = front(Has::Demonstration, &["<tick>", TRAINEE, "<end>"]);
    let before = front.text();
    front.press("<+599000>");
    assert_eq!(front.text(), before);
    front.press("<+1000>");
    assert!(
        front.text().contains("Nobody pressed a key"),
        "{}",
        front.text()
    );
    // Neither leaving the question nor a wrong passphrase opens it.
    front.press("<esc>");
    assert!(
        !front.text().contains("Your own workflows"),
        "{}",
        front.text()
    );
    front.press("inti<enter>wrong<enter><enter>");
    assert!(
        !front.text().contains("Your own workflows"),
        "{}",
        front.text()
    );
    front.press("<+5000><tab><enter>");
    assert_eq!(front.text(), before);
}
