//! A rehearsal that broke off and is kept, for screens to go on with.

use std::path::Path;

use drybench::app::keep::{Drawer, Keeper};
use drybench::app::rehearse::{Disturbances, Request, Session};
use drybench::os::Machine;
use drybench::rehearsal::action::Help;
use drybench::rng::Seed;

use super::expert::{stock_teeth, typed_and_kept};

/// The case that the scripts of `assets/scripts` were made for.
pub(crate) const CASE: &str = "teeth=6,wash=ultrasonic,arch=upper,shade=light,tray=fixed";

/// Types lines into a guided rehearsal of stock teeth, keeps it in a folder for data, and goes away.
pub(crate) fn stock_teeth_broken_off(data: &Path, lines: &[String]) {
    let request = Request {
        module: "stock-teeth",
        profile: None,
        case: CASE,
        seed: Seed(7),
        help: Help::Guided,
        disturbances: Disturbances::None,
    };
    let session = Session::on(stock_teeth().clone(), &request);
    let session = session.unwrap_or_else(|problem| panic!("{problem:#?}"));
    let drawer = Drawer {
        data: Some(data),
        person: None,
    };
    let mut keeper = Keeper::start(&Machine::start(), drawer, session.run())
        .unwrap_or_else(|problem| panic!("{problem:#?}"));
    typed_and_kept(session, lines, &mut keeper);
}
