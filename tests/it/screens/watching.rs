//! The screens of a bench run: pictures, keys, hostile texts, and a whole run that is signed.

mod taps;

use std::path::Path;
use std::sync::Arc;

use drybench::app::System as _;
use drybench::app::laboratory::{Attendance, Laboratory};
use drybench::app::shelf::{Shelf, Taken};
use drybench::app::watching::{BenchRun, Mark, Marked};
use drybench::record::scope::Scope;
use drybench::rng::{Seed, Stream};
use drybench::text::{Caution, Words};
use drybench::tui::command::Command;
use drybench::tui::frame::{Area, Frame, Role};
use drybench::tui::screen::{Desk, Hint, Screen, Turn};
use drybench::tui::screens::watching::Watching;
use drybench::tui::screens::watching::begin::{Begin, Candidate};
use drybench::tui::ui::Ui;

use super::album::{Album, SIZES};
use super::front::{Front, drawn, press, seen, words};
use super::hints::bar;
use super::hostile_modules::{blemish, spoilt};
use super::keys::strokes;
use super::places::{desk, some_key, some_size};
use super::sittings::Workflow;
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

const ASSESSOR: &str = "P-3DW7G4";

/// From the first question to the rows.
const BEGIN: &str = "<end><up>c-0700<enter>";

/// A few taps: the first wash runs, tacking was done twice, the ticket is read.
const MIDDLE: &str = "d<down*8><enter><+31500><down*22><enter><+9600><enter><enter><+6000><enter>";

/// A state of the screens: its name, and the keys from the first question.
const SCENES: [(&str, &[&str]); 31] = [
    ("begin", &[]),
    ("begin-sought", &["inti"]),
    ("begin-scope", &["<down>"]),
    ("begin-value", &["<down*3><right>"]),
    ("begin-case", &["<end><up>c-07"]),
    ("begin-no-case", &["<enter>"]),
    ("begin-help", &["<f1>"]),
    ("rows", &[BEGIN]),
    ("rows-middle", &[BEGIN, MIDDLE]),
    ("rows-running", &[BEGIN, MIDDLE, "<up*22>"]),
    ("rows-timer-over", &[BEGIN, MIDDLE, "<up*22><+90000>"]),
    ("rows-scrolled", &[BEGIN, MIDDLE, "<pgdn*2>"]),
    (
        "rows-noted",
        &[
            BEGIN,
            MIDDLE,
            "v9.5 s<enter>rtoo wet<enter>lresin 12<enter>p",
        ],
    ),
    (
        "rows-two-runs",
        &[BEGIN, "d<esc><enter>", "<again>", BEGIN, "<tab>"],
    ),
    ("rows-out-of-sight", &[BEGIN, MIDDLE, "<down*8>"]),
    ("rows-stopped", &[BEGIN, MIDDLE, "<up*22><+90000>p"]),
    ("rows-taken-back", &[BEGIN, MIDDLE, "u"]),
    ("judging-never-timed", &[BEGIN, "<every>", "f"]),
    ("ended-never-timed", &[BEGIN, "<every>", "fa"]),
    ("typing", &[BEGIN, "rtoo we"]),
    ("typing-nothing", &[BEGIN, "v<enter>"]),
    ("typing-key", &[BEGIN, "<down*8>vd<enter>"]),
    ("typing-danger", &[BEGIN, "!goggles off"]),
    ("clock", &[BEGIN, MIDDLE, "c"]),
    ("judging", &[BEGIN, MIDDLE, "f"]),
    ("ended", &[BEGIN, MIDDLE, "fb"]),
    ("danger", &[BEGIN, "!goggles off at the bath<enter>"]),
    ("help", &[BEGIN, "?"]),
    ("dropped", &[BEGIN, "x"]),
    ("drop-refused", &[BEGIN, MIDDLE, "x"]),
    ("left-empty", &[BEGIN, "<esc>"]),
];

fn candidate(taken: &Arc<Taken>, person: &str, shown: &str) -> Candidate {
    Candidate {
        person: person.parse().unwrap(),
        shown: shown.to_owned(),
        scope: Scope {
            workflow: taken.module.identity.id.value.parse().unwrap(),
            profile: "common-practice".parse().unwrap(),
            wash: "ultrasonic".parse().unwrap(),
            cure: "light-chamber".parse().unwrap(),
        },
        module: Arc::clone(taken),
        held: None,
        careful: Vec::new(),
    }
}

fn candidates(teeth: &Arc<Taken>) -> Vec<Candidate> {
    let resin = Arc::new(Workflow::WetResin.taken().clone());
    vec![
        candidate(teeth, "P-2R4J54", "Σμαράγδα Λιθοπλάτη (P-2R4J54)"),
        candidate(&resin, "P-2R4J54", "Σμαράγδα Λιθοπλάτη (P-2R4J54)"),
        candidate(teeth, "P-4Z1ZPR", "Inti Wayrapampa (P-4Z1ZPR)"),
    ]
}

/// A blank screen under the one that is looked at, with what it opens at any key.
struct Blank<F>(F);

impl<F> Screen<TestMachine> for Blank<F>
where
    F: Fn(&mut Desk<TestMachine>) -> Turn<TestMachine> + Send + Sync,
{
    fn handle(&mut self, _: Command, desk: &mut Desk<TestMachine>) -> Turn<TestMachine> {
        (self.0)(desk)
    }

    fn draw(&self, _: &mut Frame, _: Area, _: &Desk<TestMachine>) {}

    fn title(&self, _: &Desk<TestMachine>) -> String {
        "under".to_owned()
    }

    fn hints(&self, _: &Desk<TestMachine>) -> Vec<Hint> {
        Vec::new()
    }

    fn about(&self) -> &'static str {
        "watching-about"
    }
}

/// The question whom to watch, over a blank screen.
fn asking(
    candidates: Vec<Candidate>,
) -> Blank<impl Fn(&mut Desk<TestMachine>) -> Turn<TestMachine> + Send + Sync> {
    Blank(move |_: &mut Desk<TestMachine>| {
        let begin = Begin::new(ASSESSOR.parse().unwrap(), candidates.clone(), Vec::new(), 0);
        Turn::Open(Box::new(begin))
    })
}

/// The first question over a blank screen, on a machine with or without a laboratory.
fn opened(machine: &TestMachine, taken: &Arc<Taken>, with_laboratory: bool) -> Ui<TestMachine> {
    let mut desk = desk(machine, Words::shipped("en-US"));
    desk.shelf = Shelf::shipped();
    if with_laboratory {
        machine.lay_open(demonstration());
        let place = machine.place(Path::new("")).unwrap();
        let laboratory = Laboratory::open(place).unwrap();
        desk.lay_open(laboratory).unwrap();
        desk.here = Some(Attendance::of(ASSESSOR.parse().unwrap(), machine.elapsed()));
    }
    let mut ui = Ui::new(desk, Box::new(asking(candidates(taken))));
    assert!(press(&mut ui, "<enter>"));
    ui
}

fn teeth() -> Arc<Taken> {
    Arc::new(Workflow::StockTeeth.taken().clone())
}

fn front(keys: &[&str]) -> Front {
    let machine = TestMachine::default();
    let ui = opened(&machine, &teeth(), false);
    let mut front = Front::before(&machine, ui, SIZES[0]);
    for keys in keys {
        match *keys {
            "<again>" => front.press("<enter>"),
            // Every row is marked as done, and none is timed.
            "<every>" => front.press(&"d<down>".repeat(teeth().module.steps.len())),
            keys => front.press(keys),
        }
    }
    front
}

#[test]
fn every_screen_of_a_bench_run_looks_as_it_did() {
    let mut album = Album::open("bench-run-screens");
    for (name, keys) in SCENES {
        album.compare(name, &mut front(keys));
    }
    album.close();
}

#[test]
fn what_would_not_count_is_told_where_the_case_is_chosen() {
    let mut front = front(&[]);
    front.press("<right>");
    assert!(!words(&front.text()).contains("Will not count"));
    front.press("<esc>");
    let machine = TestMachine::default();
    let mut desk = desk(&machine, Words::shipped("en-US"));
    desk.shelf = Shelf::shipped();
    let mut other = candidates(&teeth());
    other.truncate(1);
    other[0].held = Some(7);
    let mut ui = Ui::new(desk, Box::new(asking(other)));
    assert!(press(&mut ui, "<enter>"));
    let mut front = Front::before(&machine, ui, SIZES[0]);
    for size in SIZES {
        front.resize(size);
        let careful = seen(&front.frame(), Role::Caution);
        let careful: Vec<&str> = careful.iter().map(|one| one.text.as_str()).collect();
        let careful = words(&careful.join(" "));
        assert!(
            careful.contains("Will not count: revision 7 holds"),
            "{size:?}: {careful}"
        );
    }
}

#[test]
fn acceptable_with_a_critical_step_not_done_is_told_to_contradict_itself() {
    let critical = teeth();
    let steps = critical.module.steps.iter();
    let at = steps.take_while(|step| !step.critical).count();
    let to_it = "<down>".repeat(at);
    let mut front = front(&[BEGIN]);
    front.press(&to_it);
    front.press("nfa");
    let text = words(&front.text());
    assert!(text.contains("contradict each other"), "{text}");
    front.press("<enter>u");
    front.press("fb");
    let text = words(&front.text());
    assert!(!text.contains("contradict each other"), "{text}");
}

#[test]
fn the_cautions_stand_beside_every_row_at_every_size() {
    let shipped = Words::shipped("en-US");
    let short = shipped.say("caution-others-come-first.short", &[]);
    let long = Caution::OthersComeFirst.say(&shipped);
    let taken = teeth();
    let mut front = front(&[BEGIN]);
    for step in &taken.module.steps {
        for size in SIZES {
            front.resize(size);
            let careful = seen(&front.frame(), Role::Caution);
            let careful: Vec<&str> = careful.iter().map(|one| one.text.as_str()).collect();
            let careful = words(&careful.join(" "));
            assert!(careful.contains(&short), "{} at {size:?}", step.id.value);
        }
        // As tall as the whole text; that it can be scrolled through is seen from its keys.
        front.resize((120, 200));
        let text = words(&columns_of(&front.text()));
        assert!(text.contains(&long), "{}: {text}", step.id.value);
        for guard in &taken.module.guards {
            let here =
                guard.during.is_empty() || guard.during.iter().any(|at| at.value == step.at.value);
            let mut items = taken.module.protection_items.iter();
            let item = items
                .find(|item| item.id.value == guard.item.value)
                .unwrap();
            if here {
                assert!(
                    text.contains(&item.title),
                    "{}: {}",
                    step.id.value,
                    item.title
                );
            }
        }
        front.press("<down>");
    }
}

/// The right-hand column, row by row.
fn columns_of(text: &str) -> String {
    let right = text.lines().filter_map(|row| row.split_once('│'));
    let right: Vec<&str> = right.map(|(_, right)| right).collect();
    right.join("\n").replace('!', " ")
}

#[test]
fn every_key_that_the_screen_names_does_something() {
    let names = |name: &str| -> Vec<String> {
        let keys: &[&str] = match name {
            "Enter" => &["<enter>"],
            "Esc" => &["<esc>"],
            "Space" => &["<space>"],
            "Tab" => &["<tab>"],
            "F1" => &["<f1>"],
            "PgUp/PgDn" => &["<pgdn>", "<pgup>"],
            "↑↓" => &["<down>", "<up>"],
            "←→" => &["<right>", "<left>"],
            "a-b" => &["a", "b"],
            one => return vec![one.to_owned()],
        };
        keys.iter().map(|&key| key.to_owned()).collect()
    };
    let mut tried = 0;
    for scene in [
        "begin",
        "begin-case",
        "rows-middle",
        "typing",
        "clock",
        "judging",
        "ended",
    ] {
        let (_, keys) = SCENES.iter().find(|(name, _)| *name == scene).unwrap();
        let begun = || {
            let machine = TestMachine::default();
            let mut ui = opened(&machine, &teeth(), false);
            ui.resize(300, 24);
            for keys in *keys {
                assert!(press(&mut ui, keys));
            }
            ui
        };
        for (name, says) in bar(&begun()) {
            let does = names(&name).into_iter().any(|key| {
                assert!(strokes(&key).len() <= 2);
                let mut ui = begun();
                let before = drawn(&ui.frame());
                let chosen = format!("{:?}", seen(&ui.frame(), Role::Chosen));
                press(&mut ui, &key);
                let after = format!("{:?}", seen(&ui.frame(), Role::Chosen));
                before != drawn(&ui.frame()) || chosen != after
            });
            let scrolls_nothing = name == "PgUp/PgDn" || says.contains("scroll");
            assert!(does || scrolls_nothing, "{scene}: {name} {says}");
            tried += 1;
        }
    }
    assert!(tried > 40, "{tried}");
}

#[test]
fn a_whole_run_is_watched_and_signed_at_the_screens() {
    let machine = TestMachine::default();
    let taken = teeth();
    let mut ui = opened(&machine, &taken, true);
    assert!(press(&mut ui, BEGIN));
    for _ in &taken.module.steps {
        assert!(press(&mut ui, "d<down>"));
    }
    assert!(press(&mut ui, "<enter><+5000><enter>fa"));
    let text = drawn(&ui.frame());
    assert!(text.contains("Every row is marked."), "{text}");
    // Through everything that will be signed, then who signs and the passphrase.
    assert!(press(&mut ui, "<enter>"));
    let shown = drawn(&ui.frame());
    assert!(shown.contains("Acceptable: from what I saw"), "{shown}");
    for _ in 0..40 {
        if drawn(&ui.frame()).contains("Who is it?") {
            break;
        }
        assert!(press(&mut ui, "<enter>"));
    }
    assert!(press(&mut ui, "tuomi<enter><tab><enter>"));
    let text = drawn(&ui.frame());
    assert!(text.contains("Stored: entry front-desk/"), "{text}");
    assert!(text.contains("the technician signs in"), "{text}");
    assert!(press(&mut ui, "<enter>"));
    assert!(drawn(&ui.frame()).contains("under"));
    let (_, kept) = machine.files("bench-run").remove(0);
    let lines: Vec<&str> = kept.lines().collect();
    let run = BenchRun::read(&lines).unwrap();
    assert!(run.signed().is_some());
}

#[test]
fn what_is_taken_back_is_named_with_the_time_when_it_was_tapped() {
    let mut front = front(&[BEGIN, "<enter><+65000><enter>"]);
    let shown = |front: &mut Front| words(&front.text());
    front.press("<+5000>u");
    let row = "Read the ticket against the print";
    let stop = format!("Taken back (10:16:05): stop of {row}");
    assert!(shown(&mut front).contains(&stop), "{}", front.text());
    front.press("u");
    let start = format!("Taken back (10:15:00): start of {row}");
    assert!(shown(&mut front).contains(&start), "{}", front.text());
    front.press("d<+1000>u");
    let done = format!("Taken back (10:16:10): {row}: done");
    assert!(shown(&mut front).contains(&done), "{}", front.text());
    // What was taken back before is not named again, and there is nothing left.
    front.press("u");
    assert!(shown(&mut front).contains("There is nothing to take back."));
    front.press("<enter>d<+2000>fau");
    let end = "Taken back (10:16:13): the end. The run goes on.";
    assert!(shown(&mut front).contains(end), "{}", front.text());
}

#[test]
fn rows_that_have_a_time_and_were_never_timed_are_told_before_the_judgement() {
    let told = "Marked as done and never timed";
    let shown = |keys: &str| {
        let mut front = front(&[BEGIN, "<every>", keys]);
        front.resize((120, 200));
        front.text()
    };
    let text = shown("f");
    assert!(text.contains(told), "{text}");
    let after = text.split(told).nth(1).unwrap();
    assert!(after.contains("- Wash in stage one, lid on"), "{text}");
    // A row without a time is none of them, and neither is one that was timed.
    assert!(!after.contains("Read the ticket"), "{text}");
    let text = shown("<home><down*8><enter><+31500><enter>f");
    let row = "Wash in stage one, lid on";
    let after = text.split(told).nth(1).unwrap();
    assert!(!after.contains(row), "{text}");
    // It is said again where the run is signed.
    assert!(shown("fa").contains(told));
}

#[test]
fn the_title_of_the_workflow_is_whole_in_the_demonstration_at_80_columns() {
    let machine = TestMachine::default();
    let mut ui = opened(&machine, &teeth(), true);
    assert!(press(&mut ui, BEGIN));
    let text = drawn(&ui.frame());
    let bar = text.lines().next().unwrap_or_default();
    assert!(bar.contains("Stock teeth, set one by one"), "{bar}");
    assert!(bar.contains("DEMONSTRATION, invented"), "{bar}");
}

#[test]
fn letters_that_are_no_words_of_their_own_are_spelled_out_where_there_is_room() {
    let mut rows = front(&[BEGIN]);
    for size in SIZES {
        rows.resize(size);
        let text = rows.text();
        assert!(
            text.contains("c: what the clock and the order say") || size.0 < 70,
            "{text}"
        );
    }
}

#[test]
fn a_reason_is_asked_for_only_where_the_run_is_signed_late() {
    let late = ["which needs a reason: y says why", "why late"];
    let machine = TestMachine::default();
    let mut ui = opened(&machine, &teeth(), true);
    ui.resize(120, 40);
    assert!(press(&mut ui, BEGIN));
    assert!(press(&mut ui, "d<enter><+5000>fb"));
    let text = words(&drawn(&ui.frame()));
    assert!(text.contains("not signed yet"), "{text}");
    assert!(!late.iter().any(|one| text.contains(one)), "{text}");
    assert!(!text.contains("y: why it is signed late"), "{text}");
    // More than a day later, after the assessor has signed in again.
    assert!(press(&mut ui, "<+90000000>"));
    assert!(press(&mut ui, "<tab><enter>"));
    let text = words(&drawn(&ui.frame()));
    assert!(late.iter().all(|one| text.contains(one)), "{text}");
    assert!(text.contains("y: why it is signed late"), "{text}");
    // Once it has been said it can still be said in other words.
    assert!(press(&mut ui, "yThe power was out.<enter>"));
    let text = words(&drawn(&ui.frame()));
    assert!(text.contains("The power was out."), "{text}");
    assert!(text.contains(late[1]) && !text.contains(late[0]), "{text}");
}

#[test]
fn what_can_be_noted_stands_over_the_keys_and_a_click_notes_it() {
    let letters = ["d done", "p prompted", "n not done", "o not seen"];
    let mut front = front(&[BEGIN]);
    for size in SIZES {
        front.resize(size);
        let text = front.text();
        let rows: Vec<&str> = text.lines().collect();
        let (legend, keys) = (rows[size.1 - 3], rows[size.1 - 1]);
        assert!(letters.iter().all(|one| legend.contains(one)), "{text}");
        assert!(keys.contains("f finish"), "{text}");
        assert!(keys.contains("! danger"), "{text}");
        let all = ["v value", "r remark", "l lot"];
        assert!(
            size.0 < 80 || text.contains("w on all") && all.iter().all(|one| legend.contains(one)),
            "{text}"
        );
        let at = legend.find("n not done").unwrap();
        let clicked = front.frame().clicked(at + 3, size.1 - 3);
        assert_eq!(clicked, Some(Command::Type('n')), "{text}");
        // A row whose place the line has taken is no longer clicked there.
        let blank = front.frame().clicked(0, size.1 - 3);
        assert_eq!(blank, None, "{text}");
    }
}

#[test]
fn leaving_keeps_the_run_and_says_where() {
    let machine = TestMachine::default();
    let mut ui = opened(&machine, &teeth(), false);
    assert!(press(&mut ui, BEGIN));
    assert!(press(&mut ui, "dn"));
    let farewell = ui.farewell().unwrap();
    assert!(farewell.contains("bench-runs/"), "{farewell}");
    assert!(press(&mut ui, "<esc>"));
    let text = words(&drawn(&ui.frame()));
    assert!(text.contains("every tap is kept in"), "{text}");
    let (_, kept) = machine.files("bench-run").remove(0);
    let lines: Vec<&str> = kept.lines().collect();
    let run = BenchRun::read(&lines).unwrap();
    let marks: Vec<&Mark> = run.marks().iter().map(|one| &one.mark).collect();
    assert!(matches!(marks[..], [Mark::Seen { .. }, Mark::Seen { .. }]));
}

#[test]
fn a_full_disk_loses_the_tap_and_nothing_else() {
    let machine = TestMachine::default();
    let mut ui = opened(&machine, &teeth(), false);
    assert!(press(&mut ui, BEGIN));
    assert!(press(&mut ui, "d"));
    machine.fill(true);
    assert!(press(&mut ui, "n"));
    let text = words(&drawn(&ui.frame()));
    assert!(text.contains("This tap could not be kept"), "{text}");
    machine.fill(false);
    assert!(press(&mut ui, "<enter>rwhat I typed"));
    machine.fill(true);
    assert!(press(&mut ui, "<enter>"));
    let text = words(&drawn(&ui.frame()));
    assert!(text.contains("what I typed"), "{text}");
}

#[test]
fn any_keys_and_hostile_modules_do_no_harm() {
    for seed in 0..60 {
        let mut stream = Stream::new(Seed(seed), "keys of a bench run");
        let machine = TestMachine::default();
        let taken = if seed % 2 == 0 {
            teeth()
        } else {
            Arc::new(spoilt(Workflow::StockTeeth.taken(), &mut stream))
        };
        let mut ui = opened(&machine, &taken, false);
        assert!(press(&mut ui, BEGIN));
        let mut pressed = String::new();
        for number in 0..120 {
            if number % 10 == 0 {
                let (wide, tall) = some_size(&mut stream);
                ui.resize(wide, tall);
            }
            let key = some_key(&mut stream);
            pressed += &key;
            if !press(&mut ui, &key) {
                break;
            }
            let blemish = blemish(&ui.frame());
            assert!(blemish.is_none(), "seed {seed}, {pressed}: {blemish:?}");
        }
        for (path, text) in machine.files("bench-run") {
            let lines: Vec<&str> = text.lines().collect();
            let read = BenchRun::read(&lines);
            assert!(read.is_ok(), "{}: {read:?}", path.display());
        }
    }
}
