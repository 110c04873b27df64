//! What a screen shows when one comes back to it.

use super::front::Front;
use super::laboratory::OWNER;
use crate::support::laboratory::demonstration;
use crate::support::machine::TestMachine;

#[test]
fn a_file_is_read_anew_after_a_signature() {
    let machine = TestMachine::default();
    machine.lay_open(demonstration());
    let mut front = Front::of_laboratory(&machine);
    // From the board to the file of the first person, who is ready, and from there to the signature.
    front.press(&format!("<tick>{OWNER}<enter>"));
    let before = front.text();
    assert!(before.contains("Ready for sign-off"), "{before}");
    front.press("s<enter><end><enter><end><enter>");
    front.press(OWNER);
    let stored = front.text();
    assert!(stored.contains("Stored: entry"), "{stored}");
    front.press("<enter><esc>");
    let after = front.text();
    assert!(!after.contains("Ready for sign-off"), "{after}");
    assert!(after.contains("Signed off from 2026-06-30"), "{after}");
}
