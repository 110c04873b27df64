//! Modules that a laboratory wrote itself, on screens: offered, practised, and told when they are faulty.

use std::path::Path;

use super::front::Front;
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

const SHARP_EDGE: &[u8] = include_bytes!("../../modules/own/sharp-edge.yaml");

/// The one in the demonstration who publishes.
const PUBLISHES: &str = "P-4QCHT5";

/// The screens of the demonstration with files among the laboratory's own modules, and somebody who has signed in.
fn seated(files: &[(&str, &[u8])], who: &str) -> Front {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    for (name, bytes) in files {
        machine.put(&Path::new("data/modules").join(name), bytes);
    }
    let mut front = Front::of_laboratory(&machine);
    front.press(&format!("<tick>{who}<enter><tab><enter>"));
    front
}

/// Opens the form for adopting and lays its modules open.
fn adopting(front: &mut Front) -> String {
    front.press("s<end><up*10><enter>");
    assert!(
        front.text().contains("Adopt a revision"),
        "{}",
        front.text()
    );
    front.press("<enter>");
    front.text()
}

#[test]
fn a_module_of_ones_own_is_offered_and_practised() {
    let mut front = seated(&[("sharp-edge.yaml", SHARP_EDGE)], "nerea");
    let text = adopting(&mut front);
    assert!(text.contains("sharp-edge (your own)"), "{text}");
    assert!(text.contains("stock-teeth"), "{text}");
    front.press("<esc*3>p");
    let text = front.text();
    assert!(text.contains("Practice at the dry bench"), "{text}");
    assert!(text.contains("Take a sharp edge off"), "{text}");
}

#[test]
fn a_file_that_is_no_module_is_told_where_it_is_asked_for_and_nothing_is_recorded() {
    let files: &[(&str, &[u8])] = &[
        ("broken-one.yaml", b"module: { id: broken-one }"),
        ("sharp-edge.yaml", SHARP_EDGE),
    ];
    let mut front = seated(files, PUBLISHES);
    let text = adopting(&mut front);
    assert!(text.contains("broken-one (faulty"), "{text}");
    front.press("brok<enter><down>asse<enter>first revision<end><enter>");
    let text = front.text();
    assert!(text.contains("Nothing was recorded."), "{text}");
    assert!(text.contains("data/modules/broken-one.yaml:1:"), "{text}");
    // What is sound can be adopted all the same.
    front.press("<enter><home>");
    front.press("sharp<enter><end><enter>");
    let text = front.text();
    assert!(text.contains("Before you sign"), "{text}");
}

#[test]
fn a_workflow_without_its_module_is_named_where_somebody_would_be_watched_at_it() {
    let files: &[(&str, &[u8])] = &[("stock-teeth.yaml", b"module: no")];
    let mut front = seated(files, "tuomi");
    front.press("b");
    let text = front.text();
    assert!(text.contains("Not to be chosen here"), "{text}");
    assert!(text.contains("stock-teeth"), "{text}");
}

/// The text of the stock teeth, one revision later than the demonstration works by.
fn newer() -> Vec<u8> {
    let shelf = drybench::app::shelf::Shelf::shipped();
    let path = shelf.path("stock-teeth").unwrap();
    let text = std::str::from_utf8(shelf.file(path).unwrap()).unwrap();
    let newer = text.replacen("  revision: 2\n", "  revision: 3\n", 1);
    assert_ne!(text, newer);
    newer.into_bytes()
}

#[test]
fn a_text_that_is_not_the_adopted_one_is_told_before_it_is_signed_or_watched_by() {
    let files: &[(&str, &[u8])] = &[("stock-teeth.yaml", &newer())];
    let mut front = seated(files, "inti");
    front.press("s<down><enter><enter>stock<enter><end><enter>");
    let text = front.text();
    assert!(
        text.contains("The text of revision 2 is not on this machine"),
        "{text}"
    );
    let mut front = seated(files, "tuomi");
    front.press("b<down><right>");
    let text = front.text();
    let warning = "Will not count: revision 2 holds, this text is 3.";
    assert!(text.contains(warning), "{text}");
    front.press("<down*6>c-0999<up*7><enter>");
    let text = front.text();
    assert!(text.contains("works by revision 2"), "{text}");
}
