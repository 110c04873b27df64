//! Pictures of every screen of the dry bench, frozen: `DRYBENCH_BLESS=1 cargo test --test it -- screens` draws them anew.

use drybench::text::Words;

use super::album::{Album, SIZES};
use super::front::Front;
use super::scenes::scenes;
use crate::support::machine::TestMachine;

#[test]
fn every_screen_looks_as_it_did() {
    let mut album = Album::open("screens");
    for scene in scenes() {
        let machine = scene.machine();
        let begun = scene.begun(&machine, Words::shipped("en-US"));
        let mut front = Front::before(&machine, begun, SIZES[0]);
        front.press(&scene.keys);
        album.compare(&scene.name, &mut front);
    }
    let small = (59, 19);
    let mut front = Front::open(&TestMachine::default(), small);
    album.compare_at("too-small", &mut front, &[small]);
    album.close();
}
