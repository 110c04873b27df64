//! The place where teeth are bonded: resin, seating, wiping, sealing.

use super::super::Bench;
use super::super::outcome::Measure;
use super::super::perform::Scene;
use super::super::tooth::Collar;
use super::number::Count;
use crate::rng::Stream;
use crate::syllabus::module::Harm;
use crate::syllabus::operation::{Amount, Pick, Seating, Wiping};
use crate::units::Millis;

super::number::numbers! {
    /// How long open resin stays workable under room light, before the draw of ±10 % (our default).
    gel_time: Millis = 300_000, 1_000 to 86_400_000;
    /// Joints that may be filled and unlit at the same time; with more the resin runs on (common practice, no source).
    holds: Count = 2, 1 to 100;
}

/// What was drawn for the run.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State {
    gel_time: Millis,
}

impl State {
    pub(super) fn start(numbers: &Numbers, stream: &mut Stream) -> State {
        State {
            gel_time: Millis(numbers.gel_time.0 * stream.between(900, 1_100) / 1_000),
        }
    }
}

/// Puts resin into the joints of the place: whatever is wrong with socket, primer or bottle is now under it.
pub(in crate::bench) fn fill(bench: &mut Bench, scene: &Scene<'_>, at: &str, amount: Amount) {
    let Some((_, numbers)) = scene.model.station::<Numbers>(at) else {
        return;
    };
    let now = scene.now();
    for index in scene.teeth() {
        under_the_resin(bench, scene, index);
        let tooth = &mut bench.teeth[index];
        tooth.amount = Some(amount);
        tooth.filled_at = now;
        tooth.seated = false;
        tooth.excess = match amount {
            Amount::Starved => 0,
            Amount::Bead => 1,
            // More than one wipe takes.
            Amount::Flooded => 2,
        };
        let open = bench
            .teeth
            .iter()
            .filter(|one| one.filled_and_unlit())
            .count();
        let limit = usize::try_from(numbers.holds.0).unwrap_or(usize::MAX);
        if open > limit {
            let measure = Measure::Count {
                found: u16::try_from(open).unwrap_or(u16::MAX),
                limit: u16::try_from(limit).unwrap_or(u16::MAX),
            };
            for (index, tooth) in bench.teeth.iter().enumerate() {
                if tooth.filled_and_unlit() && !tooth.seated {
                    bench
                        .log
                        .harm(Harm::GelledSocket, Some(index), None, now, Some(measure));
                }
            }
        }
    }
}

/// Damp or gelled sockets, primer missing, weak or wet, the wrong bottle: judged where the resin goes.
fn under_the_resin(bench: &mut Bench, scene: &Scene<'_>, index: usize) {
    let (model, now) = (scene.model, scene.now());
    let dry_below = model.air_line.dry_below;
    for part in &bench.parts {
        let smeared = part.socket(index).is_some_and(|socket| socket.smeared);
        if !part.is_dry(dry_below) || smeared {
            let measure = (!smeared).then_some(Measure::Share {
                found: part.socket_film.max(part.film),
                limit: dry_below,
            });
            bench
                .log
                .harm(Harm::DampJoint, Some(index), None, now, measure);
        }
    }
    if bench.picked.is_some_and(|bottle| bottle != Pick::Matching) {
        bench
            .log
            .harm(Harm::WrongProduct, Some(index), None, now, None);
    }
    if !model.has_vessel {
        return;
    }
    let tooth = &bench.teeth[index];
    if !tooth.primed {
        bench.log.harm(Harm::NoPrimer, Some(index), None, now, None);
        return;
    }
    if tooth.primer_film > dry_below {
        let measure = Measure::Share {
            found: tooth.primer_film,
            limit: dry_below,
        };
        bench
            .log
            .harm(Harm::WetPrimer, Some(index), None, now, Some(measure));
    }
    if tooth.primed_at < model.vessel.least {
        let measure = bench.weak_primer(index);
        bench
            .log
            .harm(Harm::WeakPrimer, Some(index), None, now, measure);
    }
}

/// Seats the teeth of the place in their resin. Without resin nothing happens.
pub(in crate::bench) fn seat(bench: &mut Bench, scene: &Scene<'_>, how: Seating) {
    let now = scene.now();
    let gel_time = bench
        .first::<Numbers>()
        .map_or(scene.model.bonding.gel_time, |state| state.gel_time);
    let gel_above = scene.model.bath.gel_above;
    for index in scene.teeth() {
        let Some(amount) = bench.teeth[index].amount else {
            continue;
        };
        let gel = bench
            .parts
            .iter()
            .filter_map(|part| part.socket(index))
            .map(super::super::part::Area::lumps)
            .max()
            .filter(|gel| *gel > gel_above);
        let waited = now - bench.teeth[index].filled_at;
        let tooth = &mut bench.teeth[index];
        let late = !tooth.seated && !tooth.lit && waited > gel_time;
        tooth.seated = true;
        tooth.proud = how == Seating::Proud || gel.is_some();
        let log = &mut bench.log;
        if let Some(found) = gel {
            let measure = Measure::Share {
                found,
                limit: gel_above,
            };
            log.harm(Harm::SocketGel, Some(index), None, now, Some(measure));
        }
        if late {
            let measure = Measure::Time {
                found: waited,
                limit: gel_time,
            };
            log.harm(Harm::GelledSocket, Some(index), None, now, Some(measure));
        }
        if amount == Amount::Starved {
            log.harm(Harm::StarvedJoint, Some(index), None, now, None);
        }
        if u16::try_from(index).is_ok_and(|index| bench.misplaced(index)) {
            bench
                .log
                .harm(Harm::WrongTooth, Some(index), None, now, None);
        }
    }
}

/// Wipes the seams of the place. Alcohol at a wet seam gets into the joint and leaves it starved.
pub(in crate::bench) fn wipe(bench: &mut Bench, scene: &Scene<'_>, how: Wiping) {
    let now = scene.now();
    for index in scene.teeth() {
        let tooth = &mut bench.teeth[index];
        tooth.excess = tooth.excess.saturating_sub(1);
        let wet = tooth.filled_and_unlit();
        if wet && how == Wiping::Alcohol {
            bench
                .log
                .harm(Harm::StarvedJoint, Some(index), None, now, None);
        }
    }
}

/// Runs sealer along the collars of one side of the place, or of both.
pub(in crate::bench) fn seal(bench: &mut Bench, scene: &Scene<'_>) {
    bench.push_all(scene);
    let now = scene.now();
    let early = bench.teeth.iter().any(|tooth| !tooth.lit);
    let wrong = bench.picked.is_some_and(|bottle| bottle != Pick::Matching);
    for index in scene.teeth() {
        for side in scene.sides() {
            bench.teeth[index].collars[side] = if early { Collar::Early } else { Collar::Sealed };
        }
        if wrong {
            bench
                .log
                .harm(Harm::WrongProduct, Some(index), None, now, None);
        }
    }
}
