//! Writes numbers with the decimal sign and the grouping of a language, exactly: from integers, never through a float.

/// How a language writes numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NumberFormat {
    /// Between the whole part and the fraction.
    pub decimal_sign: String,
    /// Between groups of three digits.
    pub group_sign: String,
    /// How many digits a whole part needs before it is grouped at all.
    pub grouped_from: usize,
}

impl Default for NumberFormat {
    /// The format of the record and of everything no language was chosen for: a point, no grouping.
    fn default() -> Self {
        NumberFormat {
            decimal_sign: ".".to_owned(),
            group_sign: String::new(),
            grouped_from: usize::MAX,
        }
    }
}

impl NumberFormat {
    /// Writes `value` ÷ 10^`places` without trailing zeros.
    #[must_use]
    pub fn decimal(&self, value: i64, places: u8) -> String {
        let places = usize::from(places);
        let digits = format!("{:0>width$}", value.unsigned_abs(), width = places + 1);
        let (whole, fraction) = digits.split_at(digits.len() - places);
        self.joined(value < 0, whole, fraction.trim_end_matches('0'))
    }

    /// Writes a number that arrives as plain text (`-1234.50`), or `None` if it is none.
    #[must_use]
    pub fn rewritten(&self, plain: &str) -> Option<String> {
        let (negative, digits) = match plain.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, plain),
        };
        let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
        let only_digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
        (!whole.is_empty() && only_digits(whole) && only_digits(fraction))
            .then(|| self.joined(negative, whole, fraction))
    }

    fn joined(&self, negative: bool, whole: &str, fraction: &str) -> String {
        let mut text = String::new();
        let is_nothing = |digits: &str| digits.bytes().all(|b| b == b'0');
        // A rounded "-0" would claim a direction that is not there.
        if negative && !(is_nothing(whole) && is_nothing(fraction)) {
            text.push('-');
        }
        for (at, digit) in whole.chars().enumerate() {
            let left = whole.len() - at;
            if at > 0 && left.is_multiple_of(3) && whole.len() >= self.grouped_from {
                text.push_str(&self.group_sign);
            }
            text.push(digit);
        }
        if !fraction.is_empty() {
            text.push_str(&self.decimal_sign);
            text.push_str(fraction);
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn format(decimal_sign: &str, group_sign: &str, grouped_from: usize) -> NumberFormat {
        NumberFormat {
            decimal_sign: decimal_sign.to_owned(),
            group_sign: group_sign.to_owned(),
            grouped_from,
        }
    }

    #[test]
    fn signs_follow_the_language() {
        let english = format(".", ",", 4);
        let german = format(",", ".", 4);
        let spanish = format(",", ".", 5);
        assert_eq!(english.decimal(123_456_750, 2), "1,234,567.5");
        assert_eq!(german.decimal(123_456_750, 2), "1.234.567,5");
        assert_eq!(spanish.decimal(1234, 0), "1234");
        assert_eq!(spanish.decimal(12_345, 0), "12.345");
    }

    #[test]
    fn small_and_extreme_numbers_are_whole() {
        let plain = NumberFormat::default();
        for (value, places, text) in [
            (0, 0, "0"),
            (0, 3, "0"),
            (170, 3, "0.17"),
            (-5, 3, "-0.005"),
            (40_000, 3, "40"),
            (i64::MIN, 0, "-9223372036854775808"),
        ] {
            assert_eq!(plain.decimal(value, places), text);
        }
    }

    #[test]
    fn plain_text_is_rewritten_or_refused() {
        let german = format(",", ".", 4);
        assert_eq!(
            german.rewritten("1234567.50").as_deref(),
            Some("1.234.567,50")
        );
        assert_eq!(german.rewritten("-0.00").as_deref(), Some("0,00"));
        for text in ["", "-", ".5", "NaN", "inf", "1e9"] {
            assert_eq!(german.rewritten(text), None, "{text}");
        }
    }
}
