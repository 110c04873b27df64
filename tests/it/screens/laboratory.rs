//! Pictures of the screens of the record, frozen as those of the dry bench are: `DRYBENCH_BLESS=1 cargo test --test it -- screens::laboratory`.

#![expect(
    clippy::disallowed_methods,
    reason = "the file of a laboratory is damaged"
)]

use std::path::Path;

use drybench::app::laboratory::{Attendance, Laboratory};
use drybench::app::{Begin, Colours, System as _, Wish};
use drybench::text::Words;
use drybench::tui;
use drybench::tui::frame::Role;
use drybench::tui::screens::laboratory::board::Board;
use drybench::tui::ui::Ui;
use rusqlite::Connection;

use super::album::{Album, SIZES};
use super::front::{Front, drawn, press, seen, words};
use super::places::desk;
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

/// Somebody signs in; the demonstration types the passphrase.
pub(super) const ASSESSOR: &str = "tuomi<enter><tab><enter>";
pub(super) const OWNER: &str = "nerea<enter><tab><enter>";
pub(super) const QUALITY: &str = "qu<enter><tab><enter>";
pub(super) const TRAINEE: &str = "inti<enter><tab><enter>";

/// Somebody enters a person; the same, to its end.
const JOIN: &str = "s<end><up*2><enter>";
const JOINED: &str = "s<end><up*2><enter>Ana Example<enter>nerea<enter><tab><enter><enter>";

/// From the list of deeds somebody gives a key, to whoever has none; from the board, to the first who has one already.
const KEY: &str = "<end><up><enter>";
const KEY_ALONE: &str = "s<end><up><enter>";

/// Whom it is for, how that was made sure, and the agreement; then a passphrase.
const CHOOSES: &str = "<down><enter>passport seen<enter><enter>";
const NEW: &str = "blue chairs under the old roof<enter>";

/// The old passphrase is typed, and a new one is asked for.
const OPENED: &str = "s<end><enter><tab><enter>";

/// A case is watched and left after one tap.
const WATCHED: &str = "b<end><up>c-0700<enter>d<esc><enter>";

/// From the board to what is shown before a signature; the same, on to who signs.
const SHOWN: &str = "<enter>s<enter><end><enter>";
const WHO: &str = "<enter>s<enter><end><enter><end><enter>";

/// What lies in the folder for data.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Has {
    Nothing,
    Demonstration,
    /// Its database holds other bytes.
    Damaged,
    /// Another program holds its database for itself.
    Locked,
}

/// A state of the screens: its name, what there is, and the keys from the first screen.
const SCENES: [(&str, Has, &[&str]); 65] = [
    ("not-opened-damaged", Has::Damaged, &["<tick>"]),
    ("not-opened-locked", Has::Locked, &["<tick>"]),
    (
        "not-opened-again",
        Has::Locked,
        &["<tick>", "<up><enter>", "<tick>"],
    ),
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
    ("signing", Has::Demonstration, &["<tick>", OWNER, SHOWN]),
    (
        "signing-end",
        Has::Demonstration,
        &["<tick>", OWNER, SHOWN, "<end>"],
    ),
    ("signing-who", Has::Demonstration, &["<tick>", OWNER, WHO]),
    (
        "signing-refused",
        Has::Demonstration,
        &[
            "<tick>",
            TRAINEE,
            "s",
            "<home><down*8><enter>",
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
    ("opening", Has::Demonstration, &[]),
    ("verifying", Has::Demonstration, &["<tick>", OWNER, "v"]),
    (
        "signing-stored",
        Has::Demonstration,
        &["<tick>", OWNER, WHO, OWNER],
    ),
    (
        "joining-no-name",
        Has::Demonstration,
        &["<tick>", OWNER, JOIN, "<enter>"],
    ),
    (
        "joining-who",
        Has::Demonstration,
        &["<tick>", OWNER, JOIN, "Ana Example<enter>"],
    ),
    (
        "joining-joined",
        Has::Demonstration,
        &["<tick>", OWNER, JOIN, "Ana Example<enter>", OWNER],
    ),
    (
        "giving-key-no-key-yet",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY],
    ),
    (
        "giving-key-identity",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY, "<down><enter>"],
    ),
    (
        "giving-key-no-identity",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY, "<down><enter>", "<enter>"],
    ),
    (
        "giving-key-binds",
        Has::Demonstration,
        &[
            "<tick>",
            OWNER,
            JOINED,
            KEY,
            "<down><enter>",
            "passport seen<enter>",
        ],
    ),
    (
        "giving-key-passphrase",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY, CHOOSES, "blue chairs"],
    ),
    (
        "giving-key-again",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY, CHOOSES, "blue chairs<enter>"],
    ),
    (
        "giving-key-differ",
        Has::Demonstration,
        &[
            "<tick>",
            OWNER,
            JOINED,
            KEY,
            CHOOSES,
            "blue chairs<enter>blue<enter>",
        ],
    ),
    (
        "giving-key-hand-back",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY, CHOOSES, NEW, NEW],
    ),
    (
        "giving-key-signs",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY, CHOOSES, NEW, NEW, "<enter>"],
    ),
    (
        "giving-key-issued",
        Has::Demonstration,
        &[
            "<tick>", OWNER, JOINED, KEY, CHOOSES, NEW, NEW, "<enter>", OWNER,
        ],
    ),
    (
        "giving-key-too-short",
        Has::Demonstration,
        &["<tick>", OWNER, JOINED, KEY, CHOOSES, "abc<enter>"],
    ),
    (
        "giving-key-second",
        Has::Demonstration,
        &[
            "<tick>", OWNER, KEY_ALONE, CHOOSES, NEW, NEW, "<enter>", OWNER,
        ],
    ),
    (
        "passphrase",
        Has::Demonstration,
        &["<tick>", OWNER, "s<end><enter>"],
    ),
    (
        "passphrase-refused",
        Has::Demonstration,
        &["<tick>", OWNER, "s<end><enter>", "wrong<enter>"],
    ),
    (
        "passphrase-new",
        Has::Demonstration,
        &["<tick>", OWNER, OPENED, "blue"],
    ),
    (
        "passphrase-again",
        Has::Demonstration,
        &["<tick>", OWNER, OPENED, NEW, "blue"],
    ),
    (
        "passphrase-differ",
        Has::Demonstration,
        &["<tick>", OWNER, OPENED, NEW, "blue<enter>"],
    ),
    (
        "passphrase-too-short",
        Has::Demonstration,
        &["<tick>", OWNER, OPENED, "abc<enter>"],
    ),
    (
        "passphrase-changed",
        Has::Demonstration,
        &["<tick>", OWNER, OPENED, NEW, NEW],
    ),
    (
        "board-open-case",
        Has::Demonstration,
        &["<tick>", ASSESSOR, WATCHED],
    ),
    (
        "open-cases",
        Has::Demonstration,
        &["<tick>", ASSESSOR, WATCHED, "b"],
    ),
    (
        "open-cases-another",
        Has::Demonstration,
        &["<tick>", ASSESSOR, WATCHED, "b<down><enter>"],
    ),
    (
        "open-cases-taken-up",
        Has::Demonstration,
        &["<tick>", ASSESSOR, WATCHED, "b<enter>"],
    ),
    (
        "watch-withdrawn",
        Has::Demonstration,
        &["<tick>", ASSESSOR, "bquynh"],
    ),
    (
        "watch-lapsed",
        Has::Demonstration,
        &["<tick>", ASSESSOR, "bteodorico"],
    ),
    (
        "signing-works",
        Has::Demonstration,
        &["<tick>", OWNER, WHO, "nerea<enter><tab><enter><hold>"],
    ),
    (
        "joining-drop",
        Has::Demonstration,
        &["<tick>", OWNER, JOIN, "Ana Example", "<esc>"],
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
    if has != Has::Nothing {
        machine.lay_open(demonstration());
    }
    let record = |machine: &TestMachine| machine.laboratory().join("record.sqlite");
    let mut held = None;
    match has {
        Has::Nothing | Has::Demonstration => {}
        Has::Damaged => std::fs::write(record(&machine), [0x5a; 8_192]).unwrap(),
        Has::Locked => {
            let other = Connection::open(record(&machine)).unwrap();
            let alone = "PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE";
            other.execute_batch(alone).unwrap();
            held = Some(other);
        }
    }
    let front = at(&machine, keys);
    drop(held);
    front
}

/// The screens of a machine as the program begins on it, at the keys' end.
pub(super) fn at(machine: &TestMachine, keys: &[&str]) -> Front {
    let wish = Wish {
        begin: Begin::Laboratory,
        ..Wish::default()
    };
    let words = Words::shipped("en-US");
    let ui = tui::first(machine.clone(), words, &wish, Colours::Full);
    let mut front = Front::before(machine, ui, SIZES[0]);
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
fn the_board_is_left_at_once_but_where_what_was_done_is_thrown_away() {
    let asked = Words::shipped("en-US").say("screens-throw-away-keys", &[]);
    let opened = |is_thrown_away: bool| {
        let machine = TestMachine::default();
        machine.lay_open(demonstration());
        let mut desk = desk(&machine, Words::shipped("en-US"));
        let folder = Path::new("thrown-away").to_owned();
        let laboratory = Laboratory::open(machine.place(&folder).unwrap()).unwrap();
        desk.lay_open(laboratory).unwrap();
        if is_thrown_away {
            desk.thrown_away.push(folder.clone());
        }
        desk.data = Some(folder);
        desk.here = Some(Attendance::of(
            "P-3DW7G4".parse().unwrap(),
            machine.elapsed(),
        ));
        let board = Board::new(&mut desk);
        Ui::new(desk, Box::new(board))
    };
    // A laboratory that stays, though it is called a demonstration.
    assert!(!press(&mut opened(false), "q"));
    let mut ui = opened(true);
    let board = drawn(&ui.frame());
    assert!(press(&mut ui, "q"));
    let asks = |ui: &Ui<TestMachine>| words(&drawn(&ui.frame())).contains(&asked);
    assert!(asks(&ui), "{}", drawn(&ui.frame()));
    // No other key answers it.
    assert!(press(&mut ui, "x<down>"));
    assert!(asks(&ui));
    // Going back stays, as everywhere: whoever pressed q by a slip loses nothing.
    for stays in ["<enter>", "<esc>"] {
        assert!(press(&mut ui, stays));
        assert_eq!(drawn(&ui.frame()), board, "{stays}");
        assert!(press(&mut ui, "q"));
        assert!(asks(&ui));
    }
    assert!(!press(&mut ui, "q"));
}

#[test]
fn the_list_of_deeds_begins_at_one_that_is_theirs() {
    let mut barred = 0;
    for who in [ASSESSOR, OWNER, QUALITY, TRAINEE] {
        let mut front = front(Has::Demonstration, &["<tick>", who, "s"]);
        front.resize((100, 60));
        barred += front.text().matches("(not yours)").count();
        let chosen = seen(&front.frame(), Role::Chosen);
        assert!(!chosen.is_empty(), "{who}");
        assert!(
            chosen.iter().all(|one| !one.text.contains("(not yours)")),
            "{who}: {chosen:?}"
        );
    }
    assert!(barred > 4, "{barred}");
}

#[test]
fn everything_in_the_demonstration_says_so_at_every_size() {
    for (name, has, keys) in SCENES {
        if has != Has::Demonstration {
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

#[test]
fn a_key_in_the_place_of_another_writes_no_refused_passphrase_down() {
    let keys = [KEY_ALONE, CHOOSES, NEW, NEW, "<enter>", OWNER];
    let mut front = front(Has::Demonstration, &["<tick>", OWNER]);
    keys.iter().for_each(|keys| front.press(keys));
    let text = front.text();
    assert!(text.contains("waits for a second person"), "{text}");
    assert!(!text.contains("The passphrase is wrong"), "{text}");
    // The newest entry is the key, and nothing was written behind it.
    front.press("<enter><esc>e<tick>");
    let text = front.text();
    assert!(text.contains("750 of 750 entries"), "{text}");
}
