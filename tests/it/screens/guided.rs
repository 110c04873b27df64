//! Whole rehearsals by keys alone: they end clean, and one that breaks off goes on where it stood.

use super::front::Front;
use super::player::{Met, Player};
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
        assert!(title.ends_with(", clean"), "{debrief}");
    }
}
