//! The screens of the laboratory's record, in the demonstration: journeys through deeds.

use drybench::app::System as _;
use drybench::app::laboratory::Place as _;
use drybench::report::record::id_of;
use drybench::tui::frame::Role;
use drybench::tui::screen::Desk;
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
    sits_at(machine, who, |_| {})
}

/// The same once something was done at the desk.
fn sits_at(machine: &TestMachine, who: &str, first: impl FnOnce(&mut Desk<TestMachine>)) -> Front {
    let ui = places::in_demonstration(machine, who, |desk| {
        first(desk);
        Box::new(SignSomething::new(desk))
    });
    Front::before(machine, ui, SIZES[0])
}

/// The newest entry of a kind about somebody whose name begins so.
fn newest(desk: &mut Desk<TestMachine>, kind: &str, who: &str) -> String {
    let (house, _) = desk.office().unwrap();
    let person = house.laboratory.person(who).unwrap();
    let about = house.laboratory.ledger().about(person);
    let entry = about.filter(|entry| entry.word() == kind).last().unwrap();
    id_of(entry)
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
    for _ in 0..80 {
        let text = front.text();
        if text.contains("Stored: entry") {
            return words(&shown);
        }
        let over = text.contains("Please read");
        assert!(!over || text.contains("drafted anew"), "{text}");
        shown += &text;
        shown.push('\n');
        front.press("<enter>");
        if text.contains("I have read it") {
            front.type_text(who);
            front.press("<enter><tab><enter>");
        }
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
        text.contains("Still to do by") && text.contains("Tuomi"),
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
fn an_entry_is_named_as_it_is_and_one_that_is_not_there_is_told() {
    let machine = TestMachine::default();
    let mut front = sits(&machine, "Nerea");
    open(&mut front, ": Void an entry");
    front.type_text("nowhere/1");
    front.press("<enter>");
    let text = words(&front.text());
    assert!(text.contains("no entry"), "{text}");
    front.press("<enter>");
    assert!(front.text().contains("nowhere/1"), "{}", front.text());
}

#[test]
fn a_correction_counts_with_the_second_signature() {
    let machine = TestMachine::default();
    let mut entry = String::new();
    let mut front = sits_at(&machine, "Nerea", |desk| {
        entry = newest(desk, "observed", "Ярина");
    });
    open(&mut front, ": Correct an entry");
    front.type_text(&entry);
    front.press("<down>");
    front.type_text("case");
    front.press("<down>");
    front.type_text("c-misread");
    front.press("<down>");
    front.type_text("the number was misread");
    looks(&mut front, "deed-correct");
    front.press("<enter>");
    let shown = sign(&mut front, "Tuomi");
    assert!(shown.contains("Could be the second"), "{shown}");
    stored(&mut front);
    open(&mut front, "second person");
    front.press("<enter>");
    sign(&mut front, "Nerea");
    stored(&mut front);
}

#[test]
fn a_void_shows_the_decisions_that_rest_on_it_and_counts_with_the_second_signature() {
    let machine = TestMachine::default();
    let mut entry = String::new();
    let mut front = sits_at(&machine, "Nerea", |desk| {
        entry = newest(desk, "observed", "Ярина");
    });
    open(&mut front, ": Void an entry");
    front.type_text(&entry);
    front.press("<down>");
    front.type_text("it was another person at the bench");
    front.press("<enter>");
    looks(&mut front, "deed-void-consequences");
    let shown = sign(&mut front, "Tuomi");
    assert!(shown.contains("decisions name the entry"), "{shown}");
    stored(&mut front);
    open(&mut front, "second person");
    front.press("<enter>");
    let shown = sign(&mut front, "Nerea");
    assert!(shown.contains("signed off, then due"), "{shown}");
    stored(&mut front);
}

#[test]
fn an_adopted_revision_shows_everybody_affected_first() {
    let machine = TestMachine::default();
    let mut front = sits_at(&machine, "Quỳnh", |desk| {
        let path = desk.shelf.path("stock-teeth").unwrap().to_owned();
        let text = String::from_utf8(desk.shelf.file(&path).unwrap().to_vec()).unwrap();
        let newer = text
            .lines()
            .map(|line| match line.trim_start().strip_prefix("revision:") {
                Some(_) => line.split("revision:").next().unwrap().to_owned() + "revision: 9",
                None => line.to_owned(),
            });
        let newer = newer.collect::<Vec<String>>().join("\n");
        desk.shelf.lay(&path, newer.into_bytes());
    });
    open(&mut front, ": Adopt a revision");
    front.type_text("stock-teeth");
    front.press("<down>");
    front.type_text("2026-08-01");
    looks(&mut front, "deed-adopt");
    front.press("<enter>");
    let text = words(&front.text());
    assert!(text.contains("has to be answered"), "{text}");
    front.type_text("a second bath was added");
    front.press("<enter>");
    looks(&mut front, "deed-adopt-consequences");
    let shown = sign(&mut front, "Quỳnh");
    for who in ["Tuomi", "Adaeze", "Ярина"] {
        assert!(shown.contains(who), "{who}: {shown}");
    }
    assert!(shown.contains("then lapsed"), "{shown}");
    stored(&mut front);
}
