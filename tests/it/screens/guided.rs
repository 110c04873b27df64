//! Whole rehearsals by keys alone: they end clean, and one that breaks off goes on where it stood.

use std::ops::Range;

use super::front::{Front, words};
use super::player::{Met, Player, boxed};
use super::sittings::{Begin, Workflow};
use crate::support::machine::TestMachine;

/// Goes on to the debrief, and tells its first picture.
fn to_the_end(player: &Player, front: &mut Front) -> String {
    player.play_until(front, |met| *met == Met::Debrief);
    front.text()
}

#[test]
fn a_guided_rehearsal_of_each_workflow_ends_clean() {
    for workflow in Workflow::ALL {
        let machine = TestMachine::default();
        let mut front = Front::open(&machine, (120, 40));
        front.press(&Begin::guided(workflow).keys());
        let player = Player::new(workflow.taken());
        let debrief = to_the_end(&player, &mut front);
        let title = debrief.lines().next().unwrap();
        assert!(title.starts_with(" Debrief, clean"), "{debrief}");
    }
}

/// The column that tells what came of the last move, on a screen of 120 columns.
const TOLD: Range<usize> = 45..87;

/// What came of the last move.
fn told(front: &Front) -> String {
    let text = front.text();
    let cells = |line: &str| -> String {
        let cells = line.chars().skip(TOLD.start);
        cells.take(TOLD.len()).collect()
    };
    words(&text.lines().map(cells).collect::<Vec<String>>().join(" "))
}

/// The bench on a screen of 120 columns without what came of the last move.
fn lasting(front: &Front) -> String {
    let text = front.text();
    let rows = text.lines().enumerate().map(|(row, line)| {
        let cells = line.chars().enumerate();
        let kept = cells.filter(|(at, _)| row < 2 || !TOLD.contains(at));
        kept.map(|(_, c)| c)
            .collect::<String>()
            .trim_end()
            .to_owned()
    });
    rows.collect::<Vec<String>>().join("\n")
}

/// Plays to the end, killed after every so many answers. Returns the debrief and how often it was killed.
fn killed_every(often: usize, begin: Begin) -> (String, usize) {
    let machine = TestMachine::default();
    let player = Player::new(begin.workflow.taken());
    let mut front = Front::open(&machine, (120, 40));
    front.press(&begin.keys());
    let mut bench = lasting(&front);
    let (mut answered, mut kills) = (0, 0);
    loop {
        let met = player.met(&front);
        match met {
            Met::Debrief => return (front.text(), kills),
            Met::Bench | Met::Wait => bench = lasting(&front),
            _ => {}
        }
        let over = boxed(&front.text());
        player.answer(&mut front, &met);
        answered += 1;
        if answered % often > 0 || player.met(&front) == Met::Debrief {
            continue;
        }
        kills += 1;
        let now = player.met(&front);
        let now_over = boxed(&front.text());
        if matches!(now, Met::Bench | Met::Wait) {
            bench = lasting(&front);
        }
        drop(front);
        front = Front::open(&machine, (120, 40));
        let keys = begin.workflow.set_up().trim_end_matches("<enter>");
        front.press(&format!("{keys}c"));
        match now {
            // What waits for an answer is asked again.
            Met::Disturbance(_) => {
                assert_eq!(boxed(&front.text()), now_over, "{over:?} after {answered}");
            }
            _ => assert_eq!(lasting(&front), bench, "after {answered}"),
        }
    }
}

#[test]
fn a_rehearsal_that_breaks_off_goes_on_where_it_stood_and_ends_the_same() {
    for (workflow, often, least, disturbed) in [
        (Workflow::WetResin, 3, 10, false),
        (Workflow::WetResin, 4, 7, true),
        (Workflow::StockTeeth, 7, 20, false),
        (Workflow::StockTeeth, 11, 12, true),
    ] {
        let begin = Begin {
            disturbed,
            seed: 3,
            ..Begin::guided(workflow)
        };
        let (whole, _) = killed_every(usize::MAX, begin);
        assert!(
            whole.lines().next().unwrap().starts_with(" Debrief, clean"),
            "{whole}"
        );
        let (broken, kills) = killed_every(often, begin);
        assert_eq!(broken, whole, "{begin:?}");
        assert!(kills >= least, "{begin:?} was killed {kills} times only");
    }
}

#[test]
fn a_rehearsal_whose_last_line_was_cut_off_goes_on_before_it_and_says_so() {
    let machine = TestMachine::default();
    let mut front = Front::open(&machine, (120, 40));
    front.press(&Begin::guided(Workflow::WetResin).keys());
    front.press("<enter*3>");
    drop(front);
    let (path, text) = machine.files("run").pop().unwrap();
    assert!(text.lines().count() > 2, "{text}");
    machine.put(&path, &text.as_bytes()[..text.len() - 3]);
    let mut front = Front::open(&machine, (120, 40));
    front.press("c");
    let told = told(&front);
    assert!(
        told.contains("The last line of the kept run had been cut off."),
        "{told}"
    );
    drop(front);
    let (_, kept) = machine.files("run").pop().unwrap();
    assert_eq!(kept.lines().count(), text.lines().count() - 1);
}

#[test]
fn a_rehearsal_that_waits_is_never_hidden_by_a_later_one() {
    let machine = TestMachine::default();
    let mut front = Front::open(&machine, (120, 40));
    let begin = Begin::guided(Workflow::WetResin).keys();
    // One with three actions, a later one with one, and the latest in which nothing was done.
    for actions in ["<enter*3>", "<enter>", ""] {
        front.press(&format!("{begin}{actions}<esc>b"));
    }
    assert!(
        front.text().contains("2 rehearsals wait"),
        "{}",
        front.text()
    );
    front.press("c");
    assert!(front.text().contains("1 action done"), "{}", front.text());
    front.press("<down><enter>");
    assert!(
        told(&front).contains("Taken up again after 3 actions"),
        "{}",
        front.text()
    );
    front.press("<esc>b");
    let (damaged, _) = machine.files("run").remove(0);
    machine.put(&damaged, b"{}\n");
    drop(front);
    let mut front = Front::open(&machine, (120, 40));
    front.press("c");
    let text = words(&front.text());
    assert!(text.contains("cannot be taken up"), "{text}");
    front.press("<enter>");
    assert!(
        told(&front).contains("Taken up again after 1 action"),
        "{}",
        front.text()
    );
}

#[test]
fn what_cannot_be_kept_is_told_and_what_was_done_stays() {
    let machine = TestMachine::default();
    let mut front = Front::open(&machine, (80, 24));
    machine.refuse(true);
    front.press(&Begin::guided(Workflow::WetResin).keys());
    let (title, told) = boxed(&front.text()).unwrap();
    assert_eq!(title, "Please read");
    for wanted in [
        "permission denied",
        "Nothing was changed",
        "\"Keep the rehearsal\" to no",
    ] {
        assert!(told.contains(wanted), "{wanted}: {told}");
    }
    machine.refuse(false);
    machine.fill(true);
    front.press("<enter><enter>");
    let (_, told) = boxed(&front.text()).unwrap();
    assert!(told.contains("make room on the disk"), "{told}");
    machine.fill(false);
    front.press("<enter><enter><enter>");
    let before = machine.files("run");
    machine.fill(true);
    front.press("<enter>");
    let (_, told) = boxed(&front.text()).unwrap();
    for wanted in ["Everything before is kept", "it is no longer kept"] {
        assert!(told.contains(wanted), "{wanted}: {told}");
    }
    assert_eq!(machine.files("run"), before);
    // It goes on all the same, and leaving says that it is gone then.
    front.press("<enter><esc>");
    let (_, told) = boxed(&front.text()).unwrap();
    assert!(told.contains("so it would be gone"), "{told}");
}
