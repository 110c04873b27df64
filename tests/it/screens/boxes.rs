//! What lies over a screen takes no key that was meant for the screen; what takes a while is said before it begins; what is refused is refused at once.

use drybench::text::Words;

use super::front::{Front, words};
use super::laboratory::{ASSESSOR, OWNER, TRAINEE, at};
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

/// The demonstration with somebody signed in, at the keys' end.
fn signed_in(who: &str, keys: &str) -> Front {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    at(&machine, &["<tick>", who, keys])
}

/// Everything that is seen when there is room.
fn seen(front: &mut Front) -> String {
    front.resize((100, 60));
    words(&front.text())
}

fn say(id: &str) -> String {
    words(&Words::shipped("en-US").say(id, &[]))
}

#[test]
fn a_box_is_closed_by_enter_or_esc_and_keeps_every_other_key_from_the_screen() {
    let closes = say("screens-notice-close");
    for key in ["<enter>", "<esc>"] {
        let mut front = Front::open(&TestMachine::default(), (80, 24));
        let before = front.text();
        front.press("c");
        let told = front.text();
        assert!(told.contains(&closes), "{told}");
        front.press("r q?<down><right><tab><backspace>");
        assert_eq!(front.text(), told);
        front.press(key);
        assert_eq!(front.text(), before);
    }
}

#[test]
fn a_wrong_passphrase_is_told_beside_its_field_and_the_next_letter_counts() {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    let mut front = at(&machine, &["<tick>", "inti<enter>wrong<enter>"]);
    assert!(front.text().contains("The passphrase is wrong"));
    front.press("abc");
    let text = front.text();
    assert!(!text.contains("The passphrase is wrong"), "{text}");
    assert!(text.contains("•••_") && !text.contains("••••"), "{text}");
}

#[test]
fn it_is_said_that_a_key_is_being_opened_before_it_is() {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    let mut front = at(&machine, &["<tick>", "inti<enter><tab><enter><hold>"]);
    let (moment, board) = (say("office-key-opens"), "Your own workflows");
    assert!(seen(&mut front).contains(&moment), "{}", front.text());
    // What is pressed meanwhile was meant for what stood there before.
    front.press("q<hold><enter><hold>");
    assert!(seen(&mut front).contains(&moment), "{}", front.text());
    front.press("<tick>");
    let text = seen(&mut front);
    assert!(!text.contains(&moment) && text.contains(board), "{text}");
}

#[test]
fn a_weak_passphrase_is_refused_before_it_is_asked_for_again() {
    let founding = "<down><enter>Three Rivers<enter>Ana Example<enter><enter><enter>";
    let (first, again) = (
        say("office-founding-passphrase"),
        say("office-founding-again"),
    );
    let mut front = at(&TestMachine::default(), &[founding]);
    for (typed, why) in [
        ("abc", "too short"),
        ("aaaaaaaaaaaaaa", "over and over"),
        ("Three Rivers 12", "mainly your name"),
    ] {
        front.press(typed);
        front.press("<enter>");
        let text = words(&front.text());
        assert!(text.contains(&first) && text.contains(why), "{text}");
        assert!(!text.contains(&again), "{text}");
    }
    front.press("blue chairs under the old roof<enter>");
    let text = words(&front.text());
    assert!(text.contains(&again), "{text}");
}

#[test]
fn q_goes_back_from_practice_to_the_laboratory() {
    let mut front = signed_in(TRAINEE, "");
    let board = front.text();
    front.press("p");
    assert_ne!(front.text(), board);
    front.press("q");
    assert_eq!(front.text(), board);
}

#[test]
fn that_a_rehearsal_counts_for_nothing_is_said_where_it_is_true() {
    let (helped, unkept) = (
        say("screens-setup-helped-counts-not"),
        say("screens-setup-unkept-counts-not"),
    );
    let mut front = signed_in(TRAINEE, "p<enter>");
    assert!(seen(&mut front).contains(&helped), "{}", front.text());
    front.press("<right>");
    assert!(seen(&mut front).contains(&helped), "{}", front.text());
    front.press("<right>");
    let text = seen(&mut front);
    assert!(!text.contains(&helped) && !text.contains(&unkept), "{text}");
    front.press("<end><up><right>");
    assert!(seen(&mut front).contains(&unkept), "{}", front.text());
    // Where nobody is signed in, nothing counts for anybody.
    let mut front = Front::open(&TestMachine::default(), (80, 24));
    front.press("<enter>");
    let text = seen(&mut front);
    let asks = say("screens-setup-question");
    assert!(text.contains(&asks) && !text.contains(&helped), "{text}");
}

#[test]
fn the_last_step_of_a_read_through_leads_to_the_signature_that_it_was_read() {
    let last = "rc<end><enter><end>";
    let offer = "You have not signed yet that you have read";
    // Nobody is signed in.
    let mut front = Front::open(&TestMachine::default(), (100, 60));
    front.press(last);
    assert!(!seen(&mut front).contains(offer), "{}", front.text());
    // Somebody who has signed it already.
    let mut front = signed_in(TRAINEE, &format!("p{last}"));
    assert!(!seen(&mut front).contains(offer), "{}", front.text());
    // Somebody who has not: on the last step only.
    let mut front = signed_in(OWNER, &format!("p{last}"));
    assert!(seen(&mut front).contains(offer), "{}", front.text());
    front.press("<left>");
    assert!(!seen(&mut front).contains(offer), "{}", front.text());
    let before = seen(&mut front);
    front.press("s");
    assert_eq!(seen(&mut front), before);
    front.press("<right>s");
    let text = seen(&mut front);
    let title = Words::shipped("en-US").part("deeds-title", "read");
    assert!(
        text.contains(&title) && text.contains("wet-resin-and-solvent"),
        "{text}"
    );
    front.press("<end><enter><end><enter><enter><tab><enter>");
    assert!(
        seen(&mut front).contains("Stored: entry"),
        "{}",
        front.text()
    );
    front.press("<enter>");
    assert!(!seen(&mut front).contains(offer), "{}", front.text());
}

#[test]
fn whoever_is_signed_in_is_pointed_at_first_and_a_name_can_still_be_typed() {
    let signing = "<enter>s<enter><end><enter><end><enter>";
    let mut front = signed_in(OWNER, signing);
    front.press("<enter>");
    let text = words(&front.text());
    assert!(text.contains("Passphrase of Nerea"), "{text}");
    front.press("<esc>tuo<enter>");
    let text = words(&front.text());
    assert!(text.contains("Passphrase of Tuomi"), "{text}");
    // Who sits down in the place of somebody else is not guessed.
    let front = signed_in(ASSESSOR, "o<enter>");
    let text = words(&front.text());
    assert!(!text.contains("Passphrase of"), "{text}");
}
