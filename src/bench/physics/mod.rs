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

#[cfg(test)]
#[track_caller]
fn assert_close(got: f64, want: f64, tolerance: f64) {
    assert!(
        (got - want).abs() <= tolerance,
        "got {got}, want {want} within {tolerance}"
    );
}
