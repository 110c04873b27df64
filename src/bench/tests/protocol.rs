//! The work on one denture as it should be done, with one knob for each thing that people do otherwise.

use std::sync::Arc;

use super::lab::{Hand, name, so};
use crate::bench::{Bench, Model};
use crate::syllabus::module::GaugeKind;
use crate::syllabus::operation::{
    Air, Amount, Arrangement, Distance, FinishSide, Grade, Holding, Level, Liquid, Operation, Pick,
    Placing, Programme, Reach, Rest, Seating, Shading, SideUp, Strain, Tip, Waste, Wiping,
};
use crate::units::Millis;

/// Where in the allowed windows the times are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Edge {
    Least,
    Target,
    Most,
}

/// How the work is done. [`Protocol::clean`] is right in everything.
#[derive(Clone, Debug)]
pub(super) struct Protocol {
    pub(super) drain: bool,
    pub(super) lift_off: Strain,
    pub(super) first: Liquid,
    pub(super) second: Liquid,
    pub(super) placing: Placing,
    pub(super) air: Air,
    pub(super) wash: [Option<Millis>; 2],
    pub(super) brushes: [Option<Reach>; 2],
    pub(super) old_liquor: Waste,
    /// `None`: until it looks dry.
    pub(super) dry_for: Option<Millis>,
    pub(super) arrangement: Arrangement,
    pub(super) close_alcohol: bool,
    pub(super) plate_on: bool,
    pub(super) prime: bool,
    pub(super) level: Level,
    pub(super) rest: Rest,
    /// From the moment at which the strip turns.
    pub(super) lifted: Millis,
    pub(super) teeth_dry: bool,
    pub(super) bottle: Pick,
    pub(super) group: u16,
    pub(super) amount: Amount,
    pub(super) seating: Seating,
    pub(super) seats_after: Millis,
    pub(super) wipe: Option<Wiping>,
    pub(super) tack: Millis,
    pub(super) tack_sides: Vec<u8>,
    pub(super) distance: Distance,
    pub(super) tip: Tip,
    pub(super) neighbours: Shading,
    pub(super) holding: Holding,
    pub(super) soiled: bool,
    pub(super) weak: bool,
    pub(super) seal_before_tack: bool,
    pub(super) seal_sides: Vec<u8>,
    pub(super) up: SideUp,
    pub(super) programme: Programme,
    pub(super) expose: Millis,
    pub(super) interrupted: bool,
    pub(super) cool: Millis,
    pub(super) turn: bool,
    pub(super) posts_before_cure: bool,
    pub(super) grades: Vec<Grade>,
    pub(super) finish: FinishSide,
    pub(super) steam: bool,
    pub(super) lit_after_wash: bool,
}

impl Protocol {
    /// Everything right, with times at one edge of what is allowed.
    pub(super) fn clean(orbital: bool, edge: Edge) -> Protocol {
        let pick = |least, target, most| match edge {
            Edge::Least => Millis::seconds(least),
            Edge::Target => Millis::seconds(target),
            Edge::Most => Millis::seconds(most),
        };
        let wash = if orbital {
            [pick(170, 180, 190), pick(110, 120, 130)]
        } else {
            [pick(110, 120, 130), pick(50, 60, 70)]
        };
        Protocol {
            drain: true,
            lift_off: Strain::Gentle,
            first: Liquid::OnceUsed,
            second: Liquid::Fresh,
            placing: Placing::AsMarked,
            air: Air::Out,
            wash: wash.map(Some),
            brushes: [Some(Reach::Inside); 2],
            old_liquor: Waste::Collected,
            dry_for: None,
            arrangement: Arrangement::InOrder,
            close_alcohol: true,
            plate_on: true,
            prime: true,
            level: Level::Covered,
            rest: Rest::Seated,
            lifted: pick(0, 8, 20),
            teeth_dry: true,
            bottle: Pick::Matching,
            group: 2,
            amount: Amount::Bead,
            seating: Seating::Home,
            seats_after: Millis::ZERO,
            wipe: Some(Wiping::Dry),
            tack: pick(8, 10, 15),
            tack_sides: vec![0, 1],
            distance: Distance::Close,
            tip: Tip::Clean,
            neighbours: Shading::Shaded,
            holding: Holding::Held,
            soiled: false,
            weak: false,
            seal_before_tack: false,
            seal_sides: vec![0, 1],
            up: SideUp::ToothSide,
            programme: Programme::Named,
            expose: pick(600, 600, 660),
            interrupted: false,
            cool: pick(180, 180, 900),
            turn: true,
            posts_before_cure: false,
            grades: vec![
                Grade::Carbide,
                Grade::Rubber,
                Grade::Bristle,
                Grade::Pumice,
                Grade::Polish,
            ],
            finish: FinishSide::Outer,
            steam: false,
            lit_after_wash: false,
        }
    }

    /// Does the work on a bench of `teeth` teeth.
    pub(super) fn run(&self, model: &Arc<Model>, seed: u32, teeth: u16) -> Bench {
        let mut hand = Hand::new(model, seed);
        self.wash(&mut hand);
        hand.does(
            &[Operation::Arrange {
                how: so(self.arrangement),
            }],
            Millis::minutes(2),
        );
        for tooth in 1..=teeth {
            let place = Some((tooth, tooth));
            hand.at(
                &[Operation::TryIn],
                place,
                None,
                Millis::seconds(15),
                Millis::ZERO,
            );
        }
        if self.close_alcohol {
            hand.does(&[Operation::CloseAlcohol], Millis::seconds(30));
        }
        self.prime(&mut hand);
        self.bond(&mut hand, teeth);
        self.cure(&mut hand);
        self.finish(&mut hand);
        hand.bench
    }

    fn wash(&self, hand: &mut Hand) {
        let (base, one, two) = (name("base"), name("bath-one"), name("bath-two"));
        let fills = [
            Operation::FillBath {
                bath: one.clone(),
                with: so(self.first),
            },
            Operation::FillBath {
                bath: two.clone(),
                with: so(self.second),
            },
            Operation::PlaceBaths {
                first: one.clone(),
                second: two.clone(),
                how: so(self.placing),
            },
        ];
        hand.does(&fills, Millis::seconds(105));
        if self.drain {
            let drain = Operation::Drain { part: base.clone() };
            hand.timed(&[drain], Millis::seconds(20), Millis::minutes(7));
        }
        let strain = Operation::Strain {
            part: base.clone(),
            how: so(self.lift_off),
        };
        hand.does(&[strain], Millis::seconds(40));
        for (bath, (time, brush)) in [&one, &two]
            .into_iter()
            .zip(self.wash.iter().zip(self.brushes))
        {
            if let Some(time) = time {
                let immerse = Operation::Immerse {
                    part: base.clone(),
                    bath: bath.clone(),
                    air: so(self.air),
                };
                hand.timed(&[immerse], Millis::seconds(20), *time);
            }
            if let Some(reach) = brush {
                let brush = Operation::Brush {
                    part: base.clone(),
                    reach: so(reach),
                };
                hand.does(&[brush], Millis::seconds(90));
            }
        }
        let hand_down = Operation::HandDown {
            from: two,
            to: one,
            old: so(self.old_liquor),
        };
        hand.does(&[hand_down], Millis::seconds(60));
        self.dry(hand);
        if self.lit_after_wash {
            hand.does(&[Operation::Illuminate { part: base }], Millis::minutes(1));
        }
    }

    fn dry(&self, hand: &mut Hand) {
        let dry = [Operation::Dry {
            part: name("base"),
            with: name("air"),
        }];
        match self.dry_for {
            Some(time) => hand.timed(&dry, Millis::seconds(10), time),
            None => {
                for _ in 0..20 {
                    if hand.bench.read(GaugeKind::Film, "base", None) == Some(2) {
                        break;
                    }
                    hand.timed(&dry, Millis::seconds(10), Millis::minutes(1));
                }
            }
        }
    }

    fn prime(&self, hand: &mut Hand) {
        let (vessel, plate, teeth) = (name("vessel"), name("plate"), name("teeth"));
        if self.plate_on {
            let on = Operation::SwitchOn {
                plate: plate.clone(),
            };
            hand.does(&[on], Millis::seconds(5));
            hand.bench.wait(Millis::minutes(11));
        }
        if !self.prime {
            return;
        }
        let charge = Operation::Charge {
            vessel: vessel.clone(),
            level: so(self.level),
            rest: so(self.rest),
        };
        hand.does(&[charge], Millis::minutes(2));
        let warm = [Operation::Warm {
            vessel: vessel.clone(),
            plate: plate.clone(),
        }];
        let doing = crate::bench::Doing {
            handling: Millis::seconds(10),
            ..crate::bench::Doing::default()
        };
        let turned = |bench: &Bench| bench.read(GaugeKind::Strip, "vessel", None) == Some(1);
        let sign = hand
            .bench
            .time_until(&warm, &doing, turned, Millis::minutes(10));
        let time = sign.unwrap_or(Millis::minutes(5)) + self.lifted;
        hand.timed(&warm, Millis::seconds(10), time);
        hand.does(&[Operation::Unload { vessel }], Millis::seconds(60));
        if self.teeth_dry {
            let dry = Operation::Dry {
                part: teeth,
                with: name("air"),
            };
            hand.timed(&[dry], Millis::seconds(5), Millis::minutes(4));
        }
        hand.does(&[Operation::SwitchOff { plate }], Millis::seconds(5));
    }

    fn bond(&self, hand: &mut Hand, teeth: u16) {
        let lamp = name("lamp");
        hand.does(
            &[Operation::Pick {
                product: name("resin"),
                bottle: so(self.bottle),
            }],
            Millis::seconds(20),
        );
        if self.soiled {
            hand.does(
                &[Operation::DirtyTip {
                    light: lamp.clone(),
                }],
                Millis::ZERO,
            );
        }
        if self.weak {
            hand.does(
                &[Operation::WeakLight {
                    light: lamp.clone(),
                }],
                Millis::ZERO,
            );
        }
        if self.seal_before_tack {
            self.seal(hand);
        }
        let mut first = 1;
        while first <= teeth {
            let last = teeth.min(first + self.group - 1);
            for tooth in first..=last {
                let fill = Operation::Fill {
                    at: name("bonding"),
                    amount: so(self.amount),
                };
                hand.at(
                    &[fill],
                    Some((tooth, tooth)),
                    None,
                    Millis::seconds(15),
                    Millis::ZERO,
                );
            }
            hand.bench.wait(self.seats_after);
            for tooth in first..=last {
                let seat = Operation::Seat {
                    how: so(self.seating),
                };
                hand.at(
                    &[seat],
                    Some((tooth, tooth)),
                    None,
                    Millis::seconds(10),
                    Millis::ZERO,
                );
                if let Some(how) = self.wipe {
                    hand.at(
                        &[Operation::Wipe { how: so(how) }],
                        Some((tooth, tooth)),
                        None,
                        Millis::seconds(10),
                        Millis::ZERO,
                    );
                }
            }
            for side in &self.tack_sides {
                let tack = Operation::Tack {
                    light: lamp.clone(),
                    distance: so(self.distance),
                    tip: so(self.tip),
                    neighbours: so(self.neighbours),
                    tooth: so(self.holding),
                };
                hand.at(
                    &[tack],
                    Some((first, last)),
                    Some(*side),
                    Millis::seconds(5),
                    self.tack,
                );
            }
            first = last + 1;
        }
        if !self.seal_before_tack {
            self.seal(hand);
        }
    }

    fn seal(&self, hand: &mut Hand) {
        for side in &self.seal_sides {
            hand.at(
                &[Operation::Seal],
                None,
                Some(*side),
                Millis::seconds(60),
                Millis::ZERO,
            );
        }
    }

    fn cure(&self, hand: &mut Hand) {
        let (unit, base) = (name("unit"), name("base"));
        if self.posts_before_cure {
            hand.does(
                &[Operation::CutPosts { part: base.clone() }],
                Millis::minutes(1),
            );
        }
        let load = Operation::LoadUnit {
            unit: unit.clone(),
            part: base,
            up: so(self.up),
            programme: so(self.programme),
        };
        hand.does(&[load], Millis::seconds(30));
        for pass in 0..2 {
            if pass == 1 && self.turn {
                hand.does(
                    &[Operation::Turn { unit: unit.clone() }],
                    Millis::seconds(20),
                );
            }
            let expose = Operation::Expose { unit: unit.clone() };
            hand.timed(&[expose], Millis::seconds(5), self.expose);
            if pass == 0 && self.interrupted {
                hand.does(&[Operation::Interrupt { unit: unit.clone() }], Millis::ZERO);
            }
            let cool = Operation::Cool { unit: unit.clone() };
            hand.timed(&[cool], Millis::ZERO, self.cool);
        }
    }

    fn finish(&self, hand: &mut Hand) {
        let base = name("base");
        if !self.posts_before_cure {
            hand.does(
                &[Operation::CutPosts { part: base.clone() }],
                Millis::minutes(1),
            );
        }
        for grade in &self.grades {
            let abrade = Operation::Abrade {
                part: base.clone(),
                with: so(*grade),
                side: so(self.finish),
            };
            hand.does(&[abrade], Millis::minutes(2));
        }
        if self.steam {
            hand.does(&[Operation::Steam { part: base }], Millis::minutes(1));
        }
    }
}
