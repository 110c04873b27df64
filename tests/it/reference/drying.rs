//! Drying: `drying.json` against `bench::physics::drying`.

use super::solved::{self, Solver, number, numbers};
use super::{Loaded, Origin, Report, cases, own_cases, settle};
use drybench::bench::physics::drying::{ExponentialFilm, TwoPeriodFilm};
use serde_json::{Value, json};

const SOLVERS: &[(&str, Solver)] = &[
    ("exponential", exponential),
    ("constant_then_falling", constant_then_falling),
];
const NOT_OWED: &[&str] = &[];

pub(super) fn check(loaded: &Loaded) -> Report {
    solved::check(loaded, SOLVERS, NOT_OWED, Origin::CrossComputed)
}

fn exponential(case: &Value) -> Option<Value> {
    let film = ExponentialFilm {
        start: number(case, "start")?,
        equilibrium: number(case, "equilibrium")?,
        rate_per_s: number(case, "rate_per_s")?,
    };
    let moisture: Vec<f64> = numbers(case, "times_s")?
        .into_iter()
        .map(|t| film.moisture(t))
        .collect();
    Some(json!({
        "moisture": moisture,
        "seconds_to_dry": film.seconds_to_dry(number(case, "dry_at")?),
    }))
}

fn constant_then_falling(case: &Value) -> Option<Value> {
    let film = TwoPeriodFilm {
        start: number(case, "start")?,
        critical: number(case, "critical")?,
        equilibrium: number(case, "equilibrium")?,
        rate: number(case, "rate")?,
        dry_mass_per_area: number(case, "dry_mass_per_area")?,
    };
    let moisture: Vec<f64> = numbers(case, "times")?
        .into_iter()
        .map(|t| film.moisture(t))
        .collect();
    Some(json!({
        "end_of_constant_period": film.end_of_constant_period(),
        "moisture": moisture,
        "time_to_dry": film.time_to_dry(number(case, "dry_at")?),
    }))
}

#[test]
fn drying_agrees() {
    let loaded = cases("drying");
    settle(&loaded, &check(&loaded));
}

#[test]
fn drying_notices_slips() {
    solved::assert_notices_slips(&own_cases("drying"), check, NOT_OWED);
}
