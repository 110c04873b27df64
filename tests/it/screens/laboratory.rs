//! The screens of the laboratory's record, in the demonstration.

use drybench::app::System as _;
use drybench::app::laboratory::Place as _;
use drybench::tui::screens::laboratory::board::Board;

use super::front::drawn;
use super::places;
use crate::support::machine::TestMachine;

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
