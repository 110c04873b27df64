//! The screens of the laboratory's record, in the demonstration: journeys through deeds.

use drybench::app::System as _;
use drybench::app::laboratory::Place as _;
use drybench::tui::frame::Role;
use drybench::tui::screens::laboratory::board::Board;
use drybench::tui::screens::laboratory::deeds::SignSomething;

use super::front::{Front, drawn, seen, words};
use super::places;
use crate::support::machine::TestMachine;

/// The sizes at which a journey is looked at.
const SIZES: [(usize, usize); 2] = [(80, 24), (60, 20)];

#[test]
fn the_demonstration_opens_for_a_test_again_and_again() {
    let machine = TestMachine::default();
    let ui = places::in_demonstration(&machine, "Nerea", |desk| Box::new(Board::new(desk)));
    assert!(
        drawn(&ui.frame()).contains("Today"),
        "{}",
        drawn(&ui.frame())
    );
    machine.lay_demonstration();
    let folder = machine.data_folder(None).unwrap().join("laboratory");
    for _ in 0..2 {
        let place = machine.place(&folder).unwrap();
        assert_eq!(place.now().to_string(), "2026-06-30T17:00:00+02:00");
        assert_eq!(place.log().strands().unwrap().len(), 1);
    }
}

/// Sits before everything that can be signed, as somebody whose name begins so.
fn sits(machine: &TestMachine, who: &str) -> Front {
    let ui = places::in_demonstration(machine, who, |desk| Box::new(SignSomething::new(desk)));
    Front::before(machine, ui, SIZES[0])
}

/// Opens a deed by what it is called in the list.
fn open(front: &mut Front, deed: &str) {
    front.press("<home>");
    for _ in 0..40 {
        let frame = front.frame();
        let chosen = seen(&frame, Role::Chosen);
        if chosen.iter().any(|one| one.text.contains(deed)) {
            front.press("<enter>");
            return;
        }
        front.press("<down>");
    }
    panic!("{deed} is not offered:\n{}", front.text());
}

/// Compares what is seen at both sizes with the picture in the repository.
fn looks(front: &mut Front, name: &str) {
    let pictures = SIZES.map(|size| super::pictures::picture(front, size));
    front.resize(SIZES[0]);
    let changed = super::pictures::compare(name, &pictures.concat());
    assert_eq!(changed, None);
}

/// Goes on from a form, reads to the end and signs as a person of the demonstration. Returns all that was shown before the passphrase.
fn sign(front: &mut Front, who: &str) -> String {
    let mut shown = String::new();
    for _ in 0..60 {
        let text = front.text();
        assert!(!text.contains("Please read"), "{text}");
        shown += &text;
        shown.push('\n');
        if text.contains("I have read it") {
            front.press("<enter>");
            front.type_text(who);
            front.press("<enter><tab><enter>");
            return words(&shown);
        }
        front.press("<enter>");
    }
    panic!("nothing to sign comes:\n{}", front.text());
}

/// The entry was stored; closes the notice.
fn stored(front: &mut Front) {
    let text = front.text();
    assert!(text.contains("Stored: entry"), "{text}");
    front.press("<enter>");
}

#[test]
fn whoever_is_ready_is_signed_off_with_the_evidence_and_its_worth_shown_first() {
    let machine = TestMachine::default();
    let mut front = sits(&machine, "Nerea");
    looks(&mut front, "deed-list");
    open(&mut front, ": Sign off");
    front.type_text("inti wet");
    looks(&mut front, "deed-sign-off-whom");
    front.press("<enter>");
    looks(&mut front, "deed-sign-off");
    front.press("<enter>");
    looks(&mut front, "deed-sign-off-consequences");
    let shown = sign(&mut front, "Nerea");
    assert!(shown.contains("says little"), "{shown}");
    assert!(
        shown.contains("ready for sign-off, then signed off"),
        "{shown}"
    );
    looks(&mut front, "deed-sign-off-done");
    stored(&mut front);
    assert!(front.text().contains("Sign something"), "{}", front.text());
}

#[test]
fn a_refused_sign_off_says_what_is_missing_and_who_could_do_it_and_keeps_what_was_typed() {
    let machine = TestMachine::default();
    let mut front = sits(&machine, "Nerea");
    open(&mut front, ": Sign off");
    front.type_text("inti stock");
    front.press("<enter><down*4>");
    front.type_text("agreed with both assessors");
    front.press("<enter>");
    looks(&mut front, "deed-sign-off-refused");
    let text = words(&front.text());
    assert!(
        text.contains("Missing:") && text.contains("Tuomi"),
        "{text}"
    );
    front.press("<enter>");
    assert!(front.text().contains("both assessors"), "{}", front.text());
    front.press("<esc>");
    let text = words(&front.text());
    assert!(text.contains("not kept anywhere"), "{text}");
}

#[test]
fn whoever_has_no_right_is_told_who_has() {
    let machine = TestMachine::default();
    let mut front = sits(&machine, "Inti");
    open(&mut front, ": Suspend");
    front.type_text("teodorico");
    front.press("<down>");
    front.type_text("wet");
    front.press("<down*2>");
    front.type_text("seen without gloves");
    front.press("<enter>");
    looks(&mut front, "deed-no-right");
    let text = words(&front.text());
    assert!(
        text.contains("Could sign it now") && text.contains("Nerea"),
        "{text}"
    );
}

#[test]
fn a_suspension_and_the_way_back_with_a_second_signature() {
    let machine = TestMachine::default();
    let mut front = sits(&machine, "Nerea");
    open(&mut front, ": Suspend");
    front.type_text("ярина");
    front.press("<down>");
    front.type_text("stock");
    front.press("<enter>");
    looks(&mut front, "deed-suspend-no-reason");
    front.press("<enter><down*2>");
    front.type_text("two remakes in one week");
    front.press("<enter>");
    looks(&mut front, "deed-suspend-consequences");
    let shown = sign(&mut front, "Nerea");
    assert!(shown.contains("then suspended"), "{shown}");
    stored(&mut front);
    // Back on a document, and by two.
    let proof = std::path::Path::new("shown.txt");
    machine.put(proof, b"What she showed on 30 June.");
    open(&mut front, ": Reinstate");
    front.press("<down*2>");
    front.type_text("shown.txt");
    looks(&mut front, "deed-reinstate");
    front.press("<enter>");
    let shown = sign(&mut front, "Nerea");
    assert!(shown.contains("suspended, then signed off"), "{shown}");
    assert!(shown.contains("Could be the second"), "{shown}");
    stored(&mut front);
    open(&mut front, "second person");
    looks(&mut front, "deed-countersign");
    front.press("<enter>");
    // The first signer is refused, and told who could.
    let text = words(&front.text());
    assert!(text.contains("Could sign it now"), "{text}");
}

#[test]
fn a_correction_and_a_void_show_what_they_change() {
    let machine = TestMachine::default();
    let mut front = sits(&machine, "Nerea");
    open(&mut front, ": Void an entry");
    front.type_text("nowhere/1");
    front.press("<enter>");
    assert!(
        words(&front.text()).contains("no entry"),
        "{}",
        front.text()
    );
    front.press("<enter>");
    assert!(front.text().contains("nowhere/1"), "{}", front.text());
}

#[test]
fn an_adopted_revision_shows_everybody_affected_first() {
    let machine = TestMachine::default();
    let mut front = sits(&machine, "Quỳnh");
    open(&mut front, ": Adopt a revision");
    looks(&mut front, "deed-adopt");
    front.press("<enter>");
    assert!(
        words(&front.text()).contains("has to be answered"),
        "{}",
        front.text()
    );
}
