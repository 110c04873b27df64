//! Closed forms of bench physics in `f64`: the bench calls them and rounds the answers to whole units.
//!
//! These are teaching models with order-of-magnitude parameters: no process limit can be derived from them.
//! Exponentials and logarithms come from `libm`, so that every platform gives the same bits.
//! Left out: parameters (module data), integer units (`units`) and any text for people.

pub mod air;
mod decay;
pub mod drying;
pub mod heating;
pub mod light;
pub mod strip;
pub mod wash;

/// A small vessel on a hot plate that tests of heating and of the strip warm up. The numbers are our own.
#[cfg(test)]
const VESSEL: heating::Lump = heating::Lump {
    heat_capacity: 1130.0,
    g_plate: 2.5,
    t_plate: 90.0,
    g_air: 0.35,
    t_air: 22.0,
    power: 0.0,
    g_evap: 0.0,
    p_evap: 0.0,
};

#[cfg(test)]
#[track_caller]
fn assert_close(got: f64, want: f64, tolerance: f64) {
    assert!(
        (got - want).abs() <= tolerance,
        "got {got}, want {want} within {tolerance}"
    );
}
