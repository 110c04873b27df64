//! Averages of a decaying exponential, safe where the textbook form divides nothing by nothing.

/// `(1 − e^(−x)) / x`: the average of `e^(−u)` for `u` from 0 to `x`. Is 1 at 0.
pub(super) fn mean(x: f64) -> f64 {
    if x.abs() < f64::MIN_POSITIVE {
        1.0
    } else {
        -libm::expm1(-x) / x
    }
}

/// `(x − 1 + e^(−x)) / x²`: what a steady source leaves on average while it decays. Is ½ at 0.
pub(super) fn mean_of_source(x: f64) -> f64 {
    if x.abs() < 0.01 {
        // The series; its next term is below 1e-13.
        0.5 - x / 6.0 + x * x / 24.0 - x * x * x / 120.0 + x * x * x * x / 720.0
    } else {
        (1.0 - mean(x)) / x
    }
}

/// `(e^(−p t) − e^(−r t)) / (r − p)`: what a source decaying at rate `p` leaves in something that relaxes at rate `r`,
/// after `t`. Is `t e^(−r t)` where both rates agree.
pub(super) fn driven(relax: f64, source: f64, t: f64) -> f64 {
    let slow = relax.min(source);
    let apart = (relax - source).abs();
    libm::exp(-slow * t) * t * mean(apart * t)
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    // Own values: limits and direct evaluation of the textbook form.
    #[test]
    fn averages_are_smooth_at_nothing() {
        assert_close(mean(0.0), 1.0, 0.0);
        assert_close(mean(1e-9), 1.0, 1e-9);
        assert_close(mean_of_source(0.0), 0.5, 0.0);
        assert_close(
            mean_of_source(0.009_999_9),
            mean_of_source(0.010_000_1),
            1e-7,
        );
        let x = 0.01_f64;
        assert_close(mean_of_source(x), 0.5 - x / 6.0 + x * x / 24.0, 1e-8);
        assert_close(mean_of_source(2.0), (1.0 + libm::exp(-2.0)) / 4.0, 1e-15);
    }

    #[test]
    fn equal_rates_are_the_limit_of_different_ones() {
        let equal = driven(0.01, 0.01, 50.0);
        assert_close(equal, 50.0 * libm::exp(-0.5), 1e-12);
        assert_close(driven(0.01, 0.010_000_001, 50.0), equal, 1e-5);
        // Neither order of the rates overflows after a long time.
        assert_close(driven(2.0, 0.001, 1e5), 0.0, 1e-12);
        assert_close(driven(0.001, 2.0, 1e5), 0.0, 1e-12);
    }
}
