//! Whether the constants tell right from wrong: over 1,000 seeds, good work leaves no harm and each mistake leaves its own only.

use std::collections::BTreeSet;

use super::lab::model;
use super::protocol::{Edge, Protocol};
use crate::bench::Outcome;
use crate::syllabus::module::Harm;
use crate::syllabus::operation::{
    Air, Amount, Arrangement, Distance, FinishSide, Grade, Holding, Level, Liquid, Pick, Placing,
    Programme, Reach, Rest, Seating, Shading, SideUp, Strain, Tip, Waste, Wiping,
};
use crate::units::Millis;

const SEEDS: u32 = 1_000;
/// An odd number, so that the last group is smaller.
const TEETH: u16 = 7;

fn harms(outcome: &Outcome) -> BTreeSet<Harm> {
    outcome.harms.iter().map(|one| one.harm).collect()
}

/// Runs a mistake over every seed on one unit; `expected` must come about each time and nothing else.
#[track_caller]
fn leaves_on(orbital: bool, expected: &[Harm], mistake: &impl Fn(&mut Protocol)) {
    let model = model(TEETH, orbital);
    let mut protocol = Protocol::clean(orbital, Edge::Target);
    mistake(&mut protocol);
    let expected: BTreeSet<Harm> = expected.iter().copied().collect();
    for seed in 0..SEEDS {
        let outcome = protocol.run(&model, seed, TEETH).outcome();
        assert_eq!(
            harms(&outcome),
            expected,
            "seed {seed}, orbital {orbital}: {:#?}",
            outcome.harms
        );
    }
}

#[track_caller]
fn leaves(expected: &[Harm], mistake: impl Fn(&mut Protocol)) {
    leaves_on(false, expected, &mistake);
    leaves_on(true, expected, &mistake);
}

#[test]
fn good_work_is_clean_at_both_edges_of_every_window() {
    for orbital in [false, true] {
        let model = model(TEETH, orbital);
        for edge in [Edge::Least, Edge::Target, Edge::Most] {
            for first in [Liquid::Fresh, Liquid::OnceUsed] {
                let mut protocol = Protocol::clean(orbital, edge);
                protocol.first = first;
                for seed in 0..SEEDS {
                    let outcome = protocol.run(&model, seed, TEETH).outcome();
                    assert_eq!(
                        harms(&outcome),
                        BTreeSet::new(),
                        "seed {seed}, orbital {orbital}, {edge:?}, {first:?}: {:#?}",
                        outcome.harms
                    );
                }
            }
        }
    }
}

const VEIL: [Harm; 2] = [Harm::Veil, Harm::LockedVeil];

#[test]
fn a_second_bath_that_is_not_fresh() {
    for second in [Liquid::OnceUsed, Liquid::ToppedUp, Liquid::Spent] {
        leaves(&VEIL, |work| work.second = second);
    }
}

#[test]
fn vessels_swapped() {
    leaves(&VEIL, |work| work.placing = Placing::Swapped);
}

#[test]
fn times_of_the_ultrasonic_unit_on_the_orbital_one() {
    let mistake = |work: &mut Protocol| {
        work.wash = Protocol::clean(false, Edge::Most).wash;
    };
    leaves_on(true, &VEIL, &mistake);
}

#[test]
fn second_wash_left_out() {
    leaves(&VEIL, |work| work.wash[1] = None);
    leaves(&VEIL, |work| (work.wash[1], work.brushes[1]) = (None, None));
}

#[test]
fn brushed_outside_only() {
    // A tooth on gel stands proud and gives way when it is pushed.
    let expected = [Harm::SocketGel, Harm::MovedTooth];
    leaves(&expected, |work| work.brushes = [Some(Reach::Outside); 2]);
    leaves(&expected, |work| work.brushes = [None; 2]);
}

#[test]
fn air_trapped() {
    leaves(&[Harm::SocketGel, Harm::MovedTooth], |work| {
        work.air = Air::Trapped;
    });
}

#[test]
fn ten_minutes_in_solvent() {
    leaves(&[Harm::Softened], |work| {
        work.wash[0] = Some(Millis::minutes(10));
    });
}

#[test]
fn drying_stopped_early() {
    for seconds in [0, 30, 90] {
        leaves(&[Harm::DampJoint], |work| {
            work.dry_for = Some(Millis::seconds(seconds));
        });
    }
}

#[test]
fn lit_while_a_bad_wash_was_still_on_it() {
    leaves(&VEIL, |work| {
        work.second = Liquid::Spent;
        work.lit_after_wash = true;
    });
    leaves(&[], |work| work.lit_after_wash = true);
}

#[test]
fn primer_too_warm() {
    leaves(&[Harm::WarmPrimer], |work| {
        work.lifted = Millis::seconds(75);
    });
    leaves(&[Harm::HotPrimer], |work| work.lifted = Millis::minutes(3));
}

#[test]
fn primer_too_weak() {
    let weak = [Harm::WeakPrimer];
    leaves(&weak, |work| work.lifted = Millis::seconds(-60));
    leaves(&weak, |work| work.plate_on = false);
    leaves(&weak, |work| work.level = Level::Low);
    leaves(&weak, |work| work.rest = Rest::Floating);
}

#[test]
fn primer_missing_or_wet() {
    leaves(&[Harm::NoPrimer], |work| work.prime = false);
    leaves(&[Harm::WetPrimer], |work| work.teeth_dry = false);
}

#[test]
fn wrong_bottle() {
    for bottle in [Pick::OtherKind, Pick::OtherShade, Pick::Expired] {
        leaves(&[Harm::WrongProduct], |work| work.bottle = bottle);
    }
}

#[test]
fn three_sockets_at_once_or_too_slow() {
    leaves(&[Harm::GelledSocket], |work| work.group = 3);
    leaves(&[Harm::GelledSocket], |work| {
        work.seats_after = Millis::minutes(6);
    });
}

#[test]
fn too_little_and_too_much_resin() {
    leaves(&[Harm::StarvedJoint], |work| work.amount = Amount::Starved);
    leaves(&[Harm::HardFlash], |work| work.amount = Amount::Flooded);
    leaves(&[Harm::StarvedJoint], |work| {
        work.wipe = Some(Wiping::Alcohol);
    });
}

#[test]
fn not_wiped_or_neighbours_open() {
    leaves(&[Harm::HardFlash], |work| work.wipe = None);
    leaves(&[Harm::HardFlash], |work| work.neighbours = Shading::Open);
}

#[test]
fn teeth_that_do_not_hold() {
    let moved = [Harm::MovedTooth];
    leaves(&moved, |work| work.tack_sides = vec![0]);
    leaves(&moved, |work| work.tack = Millis::seconds(4));
    leaves(&moved, |work| work.distance = Distance::Far);
    leaves(&moved, |work| work.tip = Tip::Dirty);
    leaves(&moved, |work| work.soiled = true);
    leaves(&moved, |work| work.weak = true);
    leaves(&moved, |work| work.holding = Holding::LetGo);
    leaves(&moved, |work| work.seating = Seating::Proud);
}

#[test]
fn teeth_exchanged() {
    leaves(&[Harm::WrongTooth], |work| {
        work.arrangement = Arrangement::Swapped;
    });
}

#[test]
fn seams() {
    leaves(&[Harm::OpenSeam], |work| work.seal_before_tack = true);
    leaves(&[Harm::OpenSeam], |work| work.seal_sides = vec![0]);
}

#[test]
fn curing() {
    // Posts that are cut over a side without its dose let the base bend as well.
    let soft = [Harm::UnderCured, Harm::Warped];
    leaves(&soft, |work| work.turn = false);
    leaves(&soft, |work| {
        (work.up, work.turn) = (SideUp::TissueSide, false);
    });
    leaves(&soft, |work| work.programme = Programme::Other);
    leaves(&soft, |work| work.interrupted = true);
    leaves(&soft, |work| work.expose = Millis::minutes(7));
    leaves(&[], |work| work.up = SideUp::TissueSide);
}

#[test]
fn bent() {
    let warped = [Harm::Warped];
    leaves(&warped, |work| work.posts_before_cure = true);
    leaves(&warped, |work| work.cool = Millis::seconds(30));
    leaves(&warped, |work| work.steam = true);
    for how in [Strain::Forced, Strain::Flange, Strain::Prised] {
        leaves(&warped, |work| work.lift_off = how);
    }
}

#[test]
fn finishing() {
    leaves(&[Harm::PolishedTissue], |work| {
        work.finish = FinishSide::TissueToo;
    });
    leaves(&[Harm::Scratched], |work| {
        work.grades.retain(|grade| *grade != Grade::Pumice);
    });
    leaves(&[Harm::Scratched], |work| work.grades.push(Grade::Carbide));
}

#[test]
fn alcohol_left_open_at_the_plate_and_waste_in_the_wrong_place() {
    leaves(&[Harm::VapourNearHeat], |work| work.close_alcohol = false);
    for waste in [Waste::Drain, Waste::Bin] {
        leaves(&[Harm::Spoiled], |work| work.old_liquor = waste);
    }
}
