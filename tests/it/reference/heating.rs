//! Heating: `heating.json` against `bench::physics::heating`.
//!
//! Closed forms of the model, computed a second way by stepping its differential equation with a general-purpose solver.

use super::solved::{self, Solver, number, number_or_zero, numbers};
use super::{Loaded, Origin, Report, cases, own_cases, settle};
use drybench::bench::physics::heating::{
    Lump, WarmingPlate, approach, approach_time, fit_cooling, schedule, time_constant_through,
};
use serde_json::{Value, json};

const SOLVERS: &[(&str, Solver)] = &[
    ("single", held),
    ("with_evaporation", held),
    ("plate_warms_up", plate_warms_up),
    ("schedule", scheduled),
    ("cooling_fit", cooling_fit),
    ("two_point_cooling", two_point_cooling),
];
const NOT_OWED: &[&str] = &[];

pub(super) fn check(loaded: &Loaded) -> Report {
    solved::check(loaded, SOLVERS, NOT_OWED, Origin::CrossComputed)
}

fn lump(model: &Value) -> Option<Lump> {
    Some(Lump {
        heat_capacity: number(model, "heat_capacity")?,
        g_plate: number_or_zero(model, "g_plate")?,
        t_plate: number_or_zero(model, "t_plate")?,
        g_air: number(model, "g_air")?,
        t_air: number(model, "t_air")?,
        power: number_or_zero(model, "power")?,
        g_evap: number_or_zero(model, "g_evap")?,
        p_evap: number_or_zero(model, "p_evap")?,
    })
}

fn held(case: &Value) -> Option<Value> {
    let lump = lump(&case["model"])?;
    let start = number(&case["model"], "t_start")?;
    let temperature: Vec<f64> = numbers(case, "times")?
        .into_iter()
        .map(|t| lump.temperature(start, t))
        .collect();
    let targets = if case["targets"].is_null() {
        Vec::new()
    } else {
        numbers(case, "targets")?
    };
    let reach: Vec<Option<f64>> = targets
        .into_iter()
        .map(|target| lump.time_to_reach(start, target))
        .collect();
    Some(json!({
        "steady_temperature": lump.steady_temperature(),
        "time_constant": lump.time_constant(),
        "temperature": temperature,
        "ode_temperature": temperature,
        "time_to_reach": reach,
    }))
}

fn plate_warms_up(case: &Value) -> Option<Value> {
    let model = &case["model"];
    let lump = lump(model)?;
    let start = number(model, "t_start")?;
    let plate = WarmingPlate {
        t_start: number(model, "t_plate_start")?,
        time_constant: number(model, "plate_time_constant")?,
    };
    let temperature: Vec<f64> = numbers(case, "times")?
        .into_iter()
        .map(|t| lump.temperature_on_warming_plate(start, plate, t))
        .collect();
    Some(json!({ "temperature": temperature, "ode_temperature": temperature }))
}

fn scheduled(case: &Value) -> Option<Value> {
    let lump = lump(&case["model"])?;
    let start = number(&case["model"], "t_start")?;
    let segments: Vec<(Lump, f64)> = case["segments"]
        .as_array()?
        .iter()
        .map(|segment| {
            let set = Lump {
                t_plate: number(segment, "t_plate")?,
                g_plate: number(segment, "g_plate")?,
                ..lump
            };
            Some((set, number(segment, "duration")?))
        })
        .collect::<Option<_>>()?;
    let ends: Vec<Value> = schedule(start, &segments)
        .into_iter()
        .map(|end| json!({ "at": end.at, "temperature": end.temperature }))
        .collect();
    Some(json!({ "segment_ends": ends }))
}

fn cooling_fit(case: &Value) -> Option<Value> {
    let measured: Vec<(f64, f64)> = numbers(case, "times")?
        .into_iter()
        .zip(numbers(case, "temperatures")?)
        .collect();
    let fit = fit_cooling(number(case, "surroundings")?, &measured)?;
    Some(json!({
        "slope": fit.slope,
        "intercept": fit.intercept,
        "time_constant": -1.0 / fit.slope,
    }))
}

fn two_point_cooling(case: &Value) -> Option<Value> {
    let around = number(case, "surroundings")?;
    let start = number(case, "t_start")?;
    let known = number(case, "temp_known")?;
    let tau = time_constant_through(start, around, known, number(case, "t_known")?)?;
    Some(json!({
        "rate": 1.0 / tau,
        "temperature_at": approach(start, around, tau, number(case, "ask_time")?),
        "time_to": approach_time(start, around, tau, number(case, "ask_temp")?),
    }))
}

#[test]
fn heating_agrees() {
    let loaded = cases("heating");
    settle(&loaded, &check(&loaded));
}

#[test]
fn heating_notices_slips() {
    solved::assert_notices_slips(&own_cases("heating"), check, NOT_OWED);
}
