//! Process profiles of a laboratory's own, on screens: offered, rehearsed by, assigned under, and told when they are faulty or gone.

use std::path::{Path, PathBuf};

use super::front::{Front, words};
use super::laboratory::{ASSESSOR, OWNER, TRAINEE};
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;
use crate::support::profiles::ours;

/// To the set-up of the stock teeth from the first screen of the dry bench.
const TEETH: &str = "<home><down><enter>";

fn lay(machine: &TestMachine, name: &str, text: &str) {
    let folder = Path::new("data/modules/profiles");
    machine.put(&folder.join(name), text.as_bytes());
}

/// The demonstration with numbers of its own.
fn with_ours() -> TestMachine {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    lay(&machine, "ours.yaml", &ours("ours"));
    machine
}

/// The screens of somebody who has signed in.
fn seated(machine: &TestMachine, who: &str) -> Front {
    let mut front = Front::of_laboratory(machine);
    front.press(&format!("<tick>{who}"));
    front
}

/// The owner assigns the trainee to the stock teeth under a profile that is sought by its first letters; the form before it is shown.
fn assigning(front: &mut Front, profile: &str) {
    front.press("s<enter>inti<enter>stock<enter>");
    front.press(&format!("{profile}<enter><end>"));
    let text = front.text();
    assert!(text.contains("stock-teeth"), "{text}");
}

/// The one run that is kept.
fn kept(machine: &TestMachine) -> (PathBuf, String) {
    let runs = machine.files("run");
    assert_eq!(runs.len(), 1, "{runs:?}");
    runs[0].clone()
}

#[test]
fn the_numbers_are_chosen_before_a_rehearsal_and_kept_with_it() {
    let machine = TestMachine::default();
    lay(&machine, "ours.yaml", &ours("ours"));
    let mut front = Front::open(&machine, (80, 24));
    front.press(TEETH);
    let text = front.text();
    assert!(
        text.contains("Process profile") && text.contains("common-practice"),
        "{text}"
    );
    front.press("<down><right><enter>");
    let (_, head) = kept(&machine);
    assert!(
        head.contains("\"profile\":\"ours\",\"numbers\":\""),
        "{head}"
    );
    // Where there is nothing to choose, nothing is asked.
    let mut front = Front::open(&TestMachine::default(), (80, 24));
    front.press(TEETH);
    assert!(
        !front.text().contains("Process profile"),
        "{}",
        front.text()
    );
}

#[test]
fn a_faulty_profile_is_told_where_it_is_chosen_and_begins_nothing() {
    let machine = TestMachine::default();
    lay(&machine, "broken.yaml", "profile: { id: broken }\n");
    let mut front = Front::open(&machine, (80, 24));
    front.press(&format!("{TEETH}<down><right>"));
    let text = front.text();
    assert!(
        text.contains("broken (faulty)") && text.contains("broken.yaml:1:"),
        "{text}"
    );
    front.press("<enter>");
    assert!(machine.files("run").is_empty());
    front.press("<enter><left><enter>");
    assert_eq!(machine.files("run").len(), 1, "{}", front.text());
}

#[test]
fn whoever_is_assigned_under_a_profile_of_ones_own_rehearses_by_it_first() {
    let machine = with_ours();
    let mut front = seated(&machine, OWNER);
    assigning(&mut front, "ours");
    front.press("<enter>");
    assert!(
        !words(&front.text()).contains("Nobody can rehearse"),
        "{}",
        front.text()
    );
    front.press(&format!("<end><enter>{OWNER}"));
    assert!(
        !front.text().contains("Before you sign"),
        "{}",
        front.text()
    );
    let mut front = seated(&machine, TRAINEE);
    front.press(&format!("p{TEETH}"));
    assert!(front.text().contains("ours"), "{}", front.text());
    front.press("<enter>");
    let (_, head) = kept(&machine);
    assert!(head.contains("\"profile\":\"ours\""), "{head}");
    // Watched they are by the same numbers.
    let mut front = seated(&machine, ASSESSOR);
    front.press("b");
    assert!(
        !front.text().contains("Not to be chosen"),
        "{}",
        front.text()
    );
    // On a workstation without the file both say so.
    machine.remove(Path::new("data/modules/profiles/ours.yaml"));
    let mut front = seated(&machine, TRAINEE);
    front.press(&format!("p{TEETH}<down>"));
    let text = words(&front.text());
    assert!(text.contains("ours (not on this machine)"), "{text}");
    assert!(text.contains("has to be copied there"), "{text}");
    let mut front = seated(&machine, ASSESSOR);
    front.press("b");
    let text = words(&front.text());
    assert!(text.contains("stock-teeth (ours)"), "{text}");
}

#[test]
fn the_form_offers_what_covers_the_workflow_and_warns_of_what_is_faulty() {
    let machine = with_ours();
    lay(&machine, "broken.yaml", "profile: { id: broken }\n");
    lay(
        &machine,
        "wet.yaml",
        &ours("wet").replace("[stock-teeth, ", "["),
    );
    let mut front = seated(&machine, OWNER);
    front.press("s<enter>inti<enter>stock<enter><enter>");
    let text = front.text();
    for offered in ["common-practice", "broken", "ours"] {
        assert!(text.contains(offered), "{text}");
    }
    assert!(!text.contains("wet\n"), "{text}");
    front.press("brok<enter><end><enter>");
    let text = words(&front.text());
    assert!(
        text.contains("Nobody can rehearse or be watched by the numbers"),
        "{text}"
    );
    assert!(text.contains("broken.yaml:1:"), "{text}");
}

#[test]
fn a_run_that_broke_off_waits_for_its_numbers() {
    let machine = TestMachine::default();
    lay(&machine, "ours.yaml", &ours("ours"));
    let mut front = Front::open(&machine, (80, 24));
    front.press(&format!("{TEETH}<down><right><enter>"));
    drop(front);
    let (path, head) = kept(&machine);
    let before = head + "{\"wait\":{\"time\":30000}}\n";
    machine.put(&path, before.as_bytes());
    lay(
        &machine,
        "ours.yaml",
        &ours("ours").replace("most: 15 s", "most: 14 s"),
    );
    let mut front = Front::open(&machine, (80, 24));
    front.press("<down>c");
    let text = words(&front.text());
    assert!(
        text.contains("other numbers than the profile ours"),
        "{text}"
    );
    machine.remove(Path::new("data/modules/profiles/ours.yaml"));
    let mut front = Front::open(&machine, (80, 24));
    front.press("<down>c");
    let text = words(&front.text());
    assert!(text.contains("no profile ours"), "{text}");
    assert_eq!(kept(&machine), (path, before));
}
