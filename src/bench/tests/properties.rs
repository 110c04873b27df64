//! What holds whatever is done, in whatever order and for however long.

use std::sync::{Arc, LazyLock};

use proptest::prelude::*;

use super::lab::{model, name, so};
use crate::bench::{Bench, Doing, Model, Teeth};
use crate::rng::Seed;
use crate::syllabus::operation::{
    Air, Amount, Arrangement, Distance, FinishSide, Grade, Holding, Level, Liquid, Manner,
    Operation, Pick, Placing, Programme, Reach, Rest, Seating, Shading, SideUp, Strain, Tip, Waste,
    Wiping, Word,
};
use crate::units::{Millis, Ppm};

static MODEL: LazyLock<Arc<Model>> = LazyLock::new(|| model(5, true));

fn any<T: Word>(pick: usize) -> Manner<T> {
    so(T::ALL[pick % T::ALL.len()].0)
}

/// Every operation of the vocabulary by number, with manners and names by `pick`.
fn operation(number: usize, pick: usize) -> Operation {
    let part = || name(["base", "teeth"][pick % 2]);
    let bath = |shift: usize| name(["bath-one", "bath-two"][(pick + shift) % 2]);
    let (plate, vessel, light, unit) = (name("plate"), name("vessel"), name("lamp"), name("unit"));
    match number {
        0 => Operation::FillBath {
            bath: bath(0),
            with: any::<Liquid>(pick / 2),
        },
        1 => Operation::PlaceBaths {
            first: bath(0),
            second: bath(pick / 2),
            how: any::<Placing>(pick / 4),
        },
        2 => Operation::LoadBath {
            bath: bath(0),
            load: Ppm(i64::try_from(pick).unwrap() * 10_000 - 20_000),
        },
        3 => Operation::Drain { part: part() },
        4 => Operation::Strain {
            part: part(),
            how: any::<Strain>(pick),
        },
        5 => Operation::Immerse {
            part: part(),
            bath: bath(pick / 2),
            air: any::<Air>(pick / 4),
        },
        6 => Operation::Brush {
            part: part(),
            reach: any::<Reach>(pick / 2),
        },
        7 => Operation::HandDown {
            from: bath(0),
            to: bath(pick / 2),
            old: any::<Waste>(pick / 4),
        },
        8 => Operation::CloseAlcohol,
        9 => Operation::Dry {
            part: part(),
            with: name("air"),
        },
        10 => Operation::Arrange {
            how: any::<Arrangement>(pick),
        },
        11 => Operation::TryIn,
        12 => Operation::Lift,
        13 => Operation::SwitchOn { plate },
        14 => Operation::SwitchOff { plate },
        15 => Operation::Charge {
            vessel,
            level: any::<Level>(pick),
            rest: any::<Rest>(pick / 2),
        },
        16 => Operation::Warm { vessel, plate },
        17 => Operation::Unload { vessel },
        18 => Operation::Pick {
            product: name("resin"),
            bottle: any::<Pick>(pick),
        },
        19 => Operation::Fill {
            at: name("bonding"),
            amount: any::<Amount>(pick),
        },
        20 => Operation::Seat {
            how: any::<Seating>(pick),
        },
        21 => Operation::Wipe {
            how: any::<Wiping>(pick),
        },
        22 => Operation::Tack {
            light,
            distance: any::<Distance>(pick),
            tip: any::<Tip>(pick / 2),
            neighbours: any::<Shading>(pick / 3),
            tooth: any::<Holding>(pick / 5),
        },
        23 => Operation::DirtyTip { light },
        24 => Operation::WeakLight { light },
        25 => Operation::RestoreLight { light },
        26 => Operation::Seal,
        27 => Operation::LoadUnit {
            unit,
            part: part(),
            up: any::<SideUp>(pick / 2),
            programme: any::<Programme>(pick / 4),
        },
        28 => Operation::Expose { unit },
        29 => Operation::Interrupt { unit },
        30 => Operation::Cool { unit },
        31 => Operation::Turn { unit },
        32 => Operation::CutPosts { part: part() },
        33 => Operation::Abrade {
            part: part(),
            with: any::<Grade>(pick / 2),
            side: any::<FinishSide>(pick / 3),
        },
        34 => Operation::Steam { part: part() },
        35 => Operation::Illuminate { part: part() },
        _ => Operation::Discard {
            to: any::<Waste>(pick),
        },
    }
}

#[derive(Clone, Debug)]
struct Move {
    number: usize,
    pick: usize,
    teeth: Option<(u16, u16)>,
    side: Option<u8>,
    handling: i64,
    timed: i64,
}

fn time() -> impl Strategy<Value = i64> {
    prop_oneof![
        4 => 0_i64..1_200_000,
        2 => Just(0),
        1 => -5_000_i64..0,
        1 => Just(i64::MAX),
    ]
}

fn moves() -> impl Strategy<Value = Vec<Move>> {
    let place = proptest::option::of((0_u16..9, 0_u16..9));
    let side = proptest::option::of(0_u8..4);
    let one = (0_usize..37, 0_usize..60, place, side, time(), time()).prop_map(
        |(number, pick, teeth, side, handling, timed)| Move {
            number,
            pick,
            teeth,
            side,
            handling,
            timed,
        },
    );
    proptest::collection::vec(one, 0..60)
}

fn perform(bench: &mut Bench, one: &Move) {
    let doing = Doing {
        teeth: one.teeth.map(|(first, last)| Teeth { first, last }),
        side: one.side,
        ways: &[],
        handling: Millis(one.handling),
        timed: Millis(one.timed),
    };
    bench.perform(&[operation(one.number, one.pick)], &doing);
}

/// Shares that can only be taken from are in range; what can be added to is at least not negative.
fn in_range(bench: &Bench) {
    let share = |share: Ppm| (0..=1_000_000).contains(&share.0);
    for part in &bench.parts {
        assert!(share(part.film) && share(part.socket_film) && share(part.drops));
        assert!(part.film_resin.0 >= 0 && part.film_liquid.0 >= 0);
        assert!(part.dose.iter().all(|dose| dose.0 >= 0));
        for area in &part.areas {
            assert!(share(area.gel) && share(area.set), "{area:?}");
            assert!(area.free.0 >= 0);
        }
    }
    for tooth in &bench.teeth {
        assert!(share(tooth.primer_film));
        assert!(tooth.dose.iter().all(|dose| dose.0 >= 0));
    }
}

proptest! {
    #[test]
    fn any_work_ends_in_a_state_that_makes_sense(seed in 0_u32..1_000, moves in moves()) {
        let mut bench = Bench::new(&MODEL, Seed(seed));
        let mut again = Bench::new(&MODEL, Seed(seed));
        for one in &moves {
            let before = bench.clock();
            perform(&mut bench, one);
            prop_assert!(bench.clock() >= before);
            in_range(&bench);
            perform(&mut again, one);
        }
        prop_assert_eq!(&bench, &again);
        prop_assert_eq!(&bench, &bench.clone());
        let outcome = bench.outcome();
        prop_assert_eq!(&outcome, &again.outcome());
        for harm in &outcome.harms {
            prop_assert!(harm.at <= bench.clock());
            prop_assert!(harm.teeth.is_sorted() && harm.teeth.iter().all(|tooth| (1..=5).contains(tooth)));
        }
    }

    #[test]
    fn a_wait_cut_in_two_is_the_same_wait(a in 0_i64..600_000, b in 0_i64..600_000) {
        let mut once = Bench::new(&MODEL, Seed(1));
        let open = Move { number: 0, pick: 0, teeth: None, side: None, handling: 60_000, timed: 0 };
        perform(&mut once, &open);
        let mut twice = once.clone();
        once.wait(Millis(a + b));
        twice.wait(Millis(a));
        twice.wait(Millis(b));
        prop_assert_eq!(once, twice);
    }

    #[test]
    fn a_wash_never_adds_gel_and_a_longer_one_leaves_less(seconds in 1_i64..300, more in 1_i64..300) {
        let left = |seconds| {
            let mut bench = Bench::new(&MODEL, Seed(4));
            let one = Move { number: 5, pick: 0, teeth: None, side: None, handling: 0, timed: seconds * 1_000 };
            perform(&mut bench, &one);
            bench.parts[0].areas.iter().map(|area| (area.free.0, area.gel.0)).collect::<Vec<_>>()
        };
        for ((free_long, gel_long), (free, gel)) in left(seconds + more).into_iter().zip(left(seconds)) {
            prop_assert!(free_long <= free && gel_long == gel);
        }
    }
}

#[test]
fn seeds_differ() {
    let bench = |seed| Bench::new(&MODEL, Seed(seed));
    assert_ne!(bench(1), bench(2));
}
