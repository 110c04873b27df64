//! Air and light: `exposure.json` against `bench::physics::air` and `bench::physics::light`.

use super::solved::{self, Solver, number, number_or_zero, numbers};
use super::{Loaded, Origin, Report, cases, own_cases, settle};
use drybench::bench::physics::air::{
    Antoine, CONVENTIONAL_MOLAR_VOLUME_L, Room, STANDARD_MMHG, Source, Stretch, average_8_h,
    evaporation_g_min, highest_15_min_average, mg_m3_from_ppm, mixture_sum, molar_volume_l,
    saturation_g_m3, saturation_ppm,
};
use drybench::bench::physics::light::{Lamp, cure_depth, dose_at_depth, permissible_seconds};
use serde_json::{Value, json};

const SOLVERS: &[(&str, Solver)] = &[
    ("ppm_to_mg", ppm_to_mg),
    ("twa", averages),
    ("mixture", mixture),
    ("room", room),
    ("vapour", vapour),
    ("open_bath", open_bath),
    ("light_dose", light_dose),
    ("uv_time", uv_time),
];
const NOT_OWED: &[&str] = &[];

pub(super) fn check(loaded: &Loaded) -> Report {
    solved::check(loaded, SOLVERS, NOT_OWED, Origin::CrossComputed)
}

fn ppm_to_mg(case: &Value) -> Option<Value> {
    let ppm = number(case, "ppm")?;
    let mass = number(case, "molar_mass")?;
    let volume = molar_volume_l(number(case, "temperature_c")?, number(case, "pressure_pa")?);
    Some(json!({
        "molar_volume_l": volume,
        "mg_per_m3": mg_m3_from_ppm(ppm, mass, volume),
        "mg_per_m3_conventional": mg_m3_from_ppm(ppm, mass, CONVENTIONAL_MOLAR_VOLUME_L),
    }))
}

fn averages(case: &Value) -> Option<Value> {
    let stretches: Vec<Stretch> = case["segments"]
        .as_array()?
        .iter()
        .map(|segment| {
            Some(Stretch {
                minutes: number(segment, "minutes")?,
                level: number(segment, "ppm")?,
            })
        })
        .collect::<Option<_>>()?;
    let average = average_8_h(&stretches);
    let fraction = mixture_sum(&[(average, number(case, "limit_twa")?)]);
    Some(json!({
        "twa_8h": average,
        "max_15_min": highest_15_min_average(&stretches),
        "max_level": stretches.iter().map(|one| one.level).fold(0.0, f64::max),
        "twa_fraction_of_limit": fraction,
    }))
}

fn mixture(case: &Value) -> Option<Value> {
    let components: Vec<(f64, f64)> = case["components"]
        .as_array()?
        .iter()
        .map(|one| Some((number(one, "level")?, number(one, "limit")?)))
        .collect::<Option<_>>()?;
    Some(json!({ "sum_of_fractions": mixture_sum(&components) }))
}

fn room(case: &Value) -> Option<Value> {
    let room = Room {
        volume_m3: number(case, "volume_m3")?,
        flow_m3_min: number(case, "flow_m3_min")?,
    };
    let start = number(case, "start_mg_m3")?;
    let source = Source {
        mg_min: number(case, "source_mg_min")?,
        off_min: number(case, "source_off_min")?,
    };
    let times = numbers(case, "times_min")?;
    let last = *times.last()?;
    let levels: Vec<f64> = times
        .into_iter()
        .map(|t| room.level_with(start, source, t))
        .collect();
    Some(json!({
        "mg_m3": levels,
        "steady_mg_m3": room.steady_mg_m3(source.mg_min),
        "average_to_last_time": room.exposure_with(start, source, last) / last,
    }))
}

fn vapour_pressure(case: &Value) -> Option<f64> {
    let constants = numbers(case, "antoine_mmhg_c")?;
    let &[a, b, c] = constants.as_slice() else {
        return None;
    };
    Some(Antoine { a, b, c }.vapour_pressure_mmhg(number(case, "temperature_c")?))
}

fn vapour(case: &Value) -> Option<Value> {
    let pressure = vapour_pressure(case)?;
    Some(json!({
        "vapour_pressure_mmhg": pressure,
        "saturation_ppm": saturation_ppm(pressure, STANDARD_MMHG),
    }))
}

fn open_bath(case: &Value) -> Option<Value> {
    let surface = saturation_g_m3(
        vapour_pressure(case)?,
        number(case, "molar_mass")?,
        number(case, "temperature_c")?,
    );
    let rate = evaporation_g_min(
        number(case, "area_cm2")?,
        number(case, "transfer_cm_s")?,
        surface,
    );
    Some(json!({
        "surface_g_m3": surface,
        "rate_g_min": rate,
        "lost_g": rate * number(case, "minutes")?,
    }))
}

fn light_dose(case: &Value) -> Option<Value> {
    let model = &case["model"];
    let lamp = Lamp {
        irradiance_mw_cm2: number(model, "irradiance_mw_cm2")?,
        lamp_factor: number(model, "lamp_factor")?,
        reference_distance: number(model, "reference_distance")?,
        distance: number(model, "distance")?,
        window_transmission: number(model, "window_transmission")?,
        rise_s: number_or_zero(model, "rise_s")?,
    };
    let passes = numbers(model, "passes_s")?;
    let each: Vec<f64> = passes.iter().map(|&pass| lamp.dose_mj_cm2(pass)).collect();
    let dose = lamp.dose_of_passes_mj_cm2(&passes);
    let mut answer = json!({
        "plateau_mw_cm2": lamp.plateau_mw_cm2(),
        "dose_per_pass_mj_cm2": each,
        "dose_mj_cm2": dose,
        "dose_j_cm2": dose / 1000.0,
        "single_pass_seconds_for_target": lamp.seconds_for(number(model, "target_mj_cm2")?),
    });
    if !model["penetration_depth_mm"].is_null() {
        let penetration = number(model, "penetration_depth_mm")?;
        let critical = number(model, "critical_mj_cm2")?;
        answer["cure_depth_mm"] = json!(cure_depth(dose, critical, penetration));
        answer["dose_at_2mm_mj_cm2"] = json!(dose_at_depth(dose, 2.0, penetration));
    }
    Some(answer)
}

fn uv_time(case: &Value) -> Option<Value> {
    let seconds = permissible_seconds(
        number(case, "limit_mj_cm2")?,
        number(case, "irradiance_uw_cm2")?,
    );
    Some(json!({ "seconds": seconds }))
}

#[test]
fn exposure_agrees() {
    let loaded = cases("exposure");
    settle(&loaded, &check(&loaded));
}

#[test]
fn exposure_notices_slips() {
    solved::assert_notices_slips(&own_cases("exposure"), check, NOT_OWED);
}
