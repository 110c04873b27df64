//! Decimal numbers of the files as whole ticks, so that the checks of times compare exactly.

use serde_json::Value;

/// Ticks in one unit of the files.
pub(crate) const TICKS: i64 = 1_000_000;

/// The number as ticks, or `None` if it is no number or a tick is too coarse for it.
pub(crate) fn ticks(value: &Value) -> Option<i64> {
    let text = value.as_number()?.to_string();
    let (sign, digits) = match text.strip_prefix('-') {
        Some(digits) => (-1, digits),
        None => (1, text.as_str()),
    };
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
    let fraction = fraction.trim_end_matches('0');
    if fraction.len() > 6 {
        return None;
    }
    let whole: i64 = whole.parse().ok()?;
    let fraction: i64 = format!("{fraction:0<6}").parse().ok()?;
    Some(sign * (whole.checked_mul(TICKS)? + fraction))
}

/// The number as ticks, where `null` is no bound. Panics where [`ticks`] has no answer.
pub(crate) fn bound(value: &Value) -> Option<i64> {
    (!value.is_null()).then(|| ticks(value).expect("a tick is fine enough for the number"))
}

/// Ticks in the unit of the files.
pub(crate) fn units(ticks: i64) -> f64 {
    ticks as f64 / TICKS as f64
}

#[test]
fn decimals_become_whole_ticks() {
    for (text, want) in [
        ("7", Some(7_000_000)),
        ("-7.6", Some(-7_600_000)),
        ("0.001", Some(1_000)),
        ("0.0000001", None),
        ("null", None),
    ] {
        let value: Value = serde_json::from_str(text).unwrap();
        assert_eq!(ticks(&value), want, "{text}");
    }
}
