//! What the state of the bench amounts to if the run ends now: harms that can still be put right until then, and the figures.

use super::Bench;
use super::log::Log;
use super::outcome::{Figures, Measure, Outcome};
use super::stations::{room, vessel};
use super::tooth::Collar;
use crate::syllabus::module::{Harm, PartKind};

/// The outcome of a run that ends now.
pub(super) fn outcome(bench: &Bench) -> Outcome {
    let mut log = bench.log.clone();
    let figures = figures(bench);
    residue(bench, &mut log);
    primer(bench, &mut log);
    seams(bench, &mut log);
    cure_and_surface(bench, &mut log);
    if let Some((_, numbers)) = bench.model.all::<room::Numbers>().next() {
        let (found, limit) = (figures.air.highest_15_min, numbers.short_term_limit);
        if found > limit {
            let measure = Measure::Vapour { found, limit };
            log.harm(Harm::VapourPeak, None, None, bench.clock, Some(measure));
        }
    }
    Outcome {
        harms: log.gathered(),
        figures,
    }
}

fn figures(bench: &Bench) -> Figures {
    let vessels = bench.model.all::<vessel::Numbers>();
    let rooms = bench.model.all::<room::Numbers>();
    Figures {
        vessel: vessels
            .filter_map(|(at, _)| Some((at, bench.state::<vessel::Numbers>(at)?)))
            .flat_map(|(at, state)| state.samples(at))
            .collect(),
        residue: bench.log.residue.clone(),
        tooth_dose: bench.teeth.iter().map(|tooth| tooth.dose).collect(),
        body_dose: bench
            .parts
            .iter()
            .enumerate()
            .filter(|(_, part)| part.kind == PartKind::Body)
            .map(|(index, part)| (index, part.dose))
            .collect(),
        air: rooms
            .filter_map(|(at, numbers)| Some(bench.state::<room::Numbers>(at)?.figures(numbers)))
            .next()
            .unwrap_or_default(),
    }
}

/// A veil and gel show on a dry part; a socket that was filled has been judged where the tooth was seated.
fn residue(bench: &Bench, log: &mut Log) {
    let numbers = &bench.model.bath;
    for part in &bench.parts {
        if part.areas.is_empty() || !part.is_dry(bench.model.air_line.dry_below) {
            continue;
        }
        let share = |found, limit| Some(Measure::Share { found, limit });
        let found = part.highest_residue();
        if found > numbers.veil_above {
            let measure = share(found, numbers.veil_above);
            log.harm(Harm::Veil, None, None, part.last_dried, measure);
        }
        for (index, tooth) in bench.teeth.iter().enumerate() {
            let Some(socket) = part.socket(index) else {
                continue;
            };
            if tooth.amount.is_none() && socket.lumps() > numbers.gel_above {
                let measure = share(socket.lumps(), numbers.gel_above);
                log.harm(Harm::SocketGel, Some(index), None, part.last_dried, measure);
            }
        }
    }
}

/// Teeth that were primed and not bonded yet are judged as they lie there.
fn primer(bench: &Bench, log: &mut Log) {
    for (index, tooth) in bench.teeth.iter().enumerate() {
        let waiting = tooth.primed && tooth.vessel.is_none() && tooth.amount.is_none();
        if waiting && tooth.primed_at < bench.model.vessel.least {
            let measure = bench.weak_primer(index);
            log.harm(Harm::WeakPrimer, Some(index), None, bench.clock, measure);
        }
    }
}

/// A collar without sealer shows once curing is through; one that was sealed too early shows at once.
fn seams(bench: &Bench, log: &mut Log) {
    for (index, tooth) in bench.teeth.iter().enumerate() {
        for (side, collar) in (0..).zip(tooth.collars) {
            let open = match collar {
                Collar::Sealed => false,
                Collar::Early => true,
                Collar::Open => bench.exposed && bench.model.seals,
            };
            if open {
                log.harm(Harm::OpenSeam, Some(index), Some(side), bench.clock, None);
            }
        }
    }
}

/// A side of a body without its dose counts once curing or finishing has begun. Teeth of another make need none.
fn cure_and_surface(bench: &Bench, log: &mut Log) {
    let limit = bench.model.unit.least_dose;
    for part in &bench.parts {
        let begun = [part.last_lit, part.posts_cut, part.surface.last];
        let begun = begun.into_iter().flatten().max();
        if let Some(at) = begun.filter(|_| part.kind == PartKind::Body) {
            for (side, found) in (0..).zip(part.dose) {
                if found < limit {
                    let measure = Measure::Dose { found, limit };
                    log.harm(Harm::UnderCured, None, Some(side), at, Some(measure));
                }
            }
        }
        if let Some(at) = part.surface.last.filter(|_| part.surface.scratched()) {
            log.harm(Harm::Scratched, None, None, at, None);
        }
    }
}
