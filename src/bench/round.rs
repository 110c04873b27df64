//! The one door from the closed forms back to whole units.

use crate::units::Ppm;

/// The nearest whole number, halves away from zero; no number counts as 0, and what does not fit stops at ±10^15.
#[expect(
    clippy::cast_possible_truncation,
    reason = "rounded and clamped far inside the range before"
)]
pub(super) fn whole(value: f64) -> i64 {
    if value.is_nan() {
        return 0;
    }
    libm::round(value).clamp(-1e15, 1e15) as i64
}

/// A whole number for the closed forms, exact up to 2^53.
pub(super) fn real(value: i64) -> f64 {
    value as f64
}

/// A share for the closed forms, 1 for all.
pub(super) fn share(part: Ppm) -> f64 {
    real(part.0) / 1e6
}

/// A share of `whole`, rounded down; both at most 10^12.
pub(super) fn of(part: Ppm, whole: i64) -> i64 {
    whole.saturating_mul(part.0) / 1_000_000
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_never_surprises() {
        assert_eq!(whole(2.5), 3);
        assert_eq!(whole(-2.5), -3);
        assert_eq!(whole(f64::NAN), 0);
        assert_eq!(whole(f64::INFINITY), 1_000_000_000_000_000);
        assert_eq!(of(Ppm(250_000), 10), 2);
        assert!((share(Ppm(500_000)) - 0.5).abs() < f64::EPSILON);
    }
}
