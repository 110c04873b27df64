//! Washing: `baths.json` against `bench::physics::wash`, one immersion at a time as on the bench.
//!
//! The model is ours, computed a second way: this guards against slips, not against a wrong model.

use super::solved::{self, Solver, number, number_or_zero, numbers};
use super::{Loaded, Origin, Report, cases, own_cases, settle};
use drybench::bench::physics::wash::{Bath, Carried, Pair, Routine, immerse};
use serde_json::{Value, json};

const SOLVERS: &[(&str, Solver)] = &[("two_stage", two_stage)];
/// The bench has no rinse with running liquid.
const NOT_OWED: &[&str] = &["continuous_rinse"];
/// Slack of the answers where a concentration is compared with a limit.
const SLACK: f64 = 1e-9;

pub(super) fn check(loaded: &Loaded) -> Report {
    solved::check(loaded, SOLVERS, NOT_OWED, Origin::CrossComputed)
}

fn two_stage(case: &Value) -> Option<Value> {
    let model = &case["model"];
    let loads = numbers(model, "loads")?;
    let limit = number(model, "limit_1")?;
    let rotate_every = usize::try_from(model["rotate_every"].as_u64()?).ok()?;
    let routine = Routine {
        volume_ml: number(model, "volume")?,
        drag_out_ml: number(model, "drag_out")?,
        removed_1: number(model, "f1")?,
        removed_2: number(model, "f2")?,
        load_g: *loads.first()?,
    };
    let bath = |resin_g| Bath {
        resin_g,
        volume_ml: routine.volume_ml,
    };
    let mut pair = Pair {
        first: bath(number_or_zero(model, "start_1")?),
        second: bath(number_or_zero(model, "start_2")?),
    };
    let mut jobs = Vec::new();
    let mut first_over = None;
    let (mut parts_out, mut lost_ml) = (0.0, 0.0);
    let (mut discarded, mut discarded_g, mut discarded_ml, mut fresh_ml) = (0_u32, 0.0, 0.0, 0.0);
    for (at, &load) in loads.iter().enumerate() {
        let part = Carried::from_print(load);
        let one = immerse(pair.first, part, routine.removed_1, routine.drag_out_ml);
        let two = immerse(
            pair.second,
            one.part,
            routine.removed_2,
            routine.drag_out_ml,
        );
        let over = one.concentration > limit + SLACK;
        if over && first_over.is_none() {
            first_over = Some(at + 1);
        }
        jobs.push(json!({
            "job": at + 1,
            "c1": one.concentration,
            "c2": two.concentration,
            "residue_on_parts": two.part.residue_g(),
            "first_bath_over_limit": over,
        }));
        parts_out += two.part.residue_g();
        lost_ml += one.liquid_lost_ml + two.liquid_lost_ml;
        pair = Pair {
            first: one.bath,
            second: two.bath,
        };
        if rotate_every > 0 && (at + 1) % rotate_every == 0 {
            let (waste, next) = pair.rotated(routine.volume_ml);
            discarded += 1;
            discarded_g += waste.resin_g;
            discarded_ml += waste.volume_ml;
            fresh_ml += next.second.volume_ml;
            pair = next;
        }
    }
    let (steady_c1, steady_c2) = routine.steady_with_rotation();
    Some(json!({
        "jobs": jobs,
        "first_job_over_limit": first_over,
        "totals": {
            "resin_in": loads.iter().sum::<f64>(),
            "resin_on_parts_out": parts_out,
            "resin_in_discarded_baths": discarded_g,
            "resin_left_in_baths": pair.first.resin_g + pair.second.resin_g,
            "baths_discarded": discarded,
            "discarded_volume": discarded_ml,
            "fresh_liquid_used_after_first_fill": fresh_ml + lost_ml,
        },
        "steady_c1": steady_c1,
        "steady_c2": steady_c2,
        "jobs_before_limit": routine.jobs_before_limit(limit),
    }))
}

#[test]
fn baths_agree() {
    let loaded = cases("baths");
    settle(&loaded, &check(&loaded));
}

#[test]
fn baths_notice_slips() {
    solved::assert_notices_slips(&own_cases("baths"), check, NOT_OWED);
}
