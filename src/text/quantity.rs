//! Writes values the way a language writes them: spans of time, numbers with units, lists.
//!
//! Which words and signs that takes stands in the language's `units.ftl`; here is only the order of the questions.

use fluent::FluentValue;

use super::display_safe;
use super::value::Value;
use super::words::Words;
use crate::units::Millis;

impl Words {
    /// Writes a value as the language writes it, for a place where it stands alone.
    #[must_use]
    pub fn write(&self, value: &Value) -> String {
        match value {
            Value::Text(text) => display_safe(text),
            Value::Count(count) => self.numbers().decimal(*count, 0),
            Value::Time(time) => self.duration(*time),
            Value::Chance(chance) => self.say(
                "units-chance",
                &[("hits", chance.hits.into()), ("of", chance.of.into())],
            ),
            Value::Measure {
                number,
                places,
                unit,
            } => self.numbered(unit.message(), self.numbers().decimal(*number, *places)),
            Value::List(items) => self.list(items),
            Value::Either(items) => self.either(items),
        }
    }

    /// Turns a value into what a sentence takes; only a bare count stays a number, for the choice of plural forms.
    pub(super) fn argument(&self, value: &Value) -> FluentValue<'static> {
        match value {
            Value::Count(count) => FluentValue::from(*count),
            other => FluentValue::from(self.write(other)),
        }
    }

    fn numbered(&self, id: &str, number: String) -> String {
        self.say(id, &[("number", Value::Text(number))])
    }

    fn duration(&self, time: Millis) -> String {
        if time < Millis::ZERO {
            let span = self.magnitude(time.0.unsigned_abs());
            return self.say("units-negative", &[("span", span.into())]);
        }
        self.magnitude(time.0.unsigned_abs())
    }

    /// Says the largest unit and, behind it, the rest.
    fn magnitude(&self, millis: u64) -> String {
        for (scale, id) in [(3_600_000, "units-hours"), (60_000, "units-minutes")] {
            if millis < scale {
                continue;
            }
            let whole = i64::try_from(millis / scale).unwrap_or(i64::MAX);
            let larger = self.numbered(id, self.numbers().decimal(whole, 0));
            if millis.is_multiple_of(scale) {
                return larger;
            }
            let smaller = self.magnitude(millis % scale);
            return self.say(
                "units-pair",
                &[("larger", larger.into()), ("smaller", smaller.into())],
            );
        }
        let number = i64::try_from(millis).unwrap_or(i64::MAX);
        if 0 < millis && millis < 1000 {
            self.numbered("units-milliseconds", self.numbers().decimal(number, 0))
        } else {
            self.numbered("units-seconds", self.numbers().decimal(number, 3))
        }
    }

    /// Joins from the end, so that each language decides how a pair, a start, a middle and an end look.
    /// Joins things of which any will do.
    fn either(&self, items: &[String]) -> String {
        let items = items.iter().map(|item| display_safe(item));
        let joined = items.reduce(|first, rest| {
            self.say(
                "units-either",
                &[("first", first.into()), ("rest", rest.into())],
            )
        });
        joined.unwrap_or_else(|| self.say("units-list-none", &[]))
    }

    fn list(&self, items: &[Value]) -> String {
        let join = |id: &str, first: &Value, rest: String| {
            self.say(
                id,
                &[("first", self.write(first).into()), ("rest", rest.into())],
            )
        };
        match items {
            [] => self.say("units-list-none", &[]),
            [only] => self.write(only),
            [first, second] => join("units-list-two", first, self.write(second)),
            [first, middle @ .., before_last, last] => {
                let mut rest = join("units-list-end", before_last, self.write(last));
                for item in middle.iter().rev() {
                    rest = join("units-list-middle", item, rest);
                }
                join("units-list-start", first, rest)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Chance, MilliCelsius, Ppm};

    #[test]
    fn quantities_are_written_with_their_units() {
        let words = Words::shipped("en-US");
        for (value, text) in [
            (Millis(110_000).into(), "1 min 50 s"),
            (Millis(3_900_000).into(), "1 h 5 min"),
            (Millis(3_661_500).into(), "1 h 1 min 1.5 s"),
            (Millis(350).into(), "350 ms"),
            (Millis(10_500).into(), "10.5 s"),
            (Millis(0).into(), "0 s"),
            (Millis(-5000).into(), "-5 s"),
            (MilliCelsius(40_000).into(), "40 °C"),
            (Ppm(65_000).into(), "6.5 %"),
            (Chance { hits: 1, of: 6 }.into(), "1 in 6"),
            (Value::Count(12_345), "12,345"),
        ] {
            let value: Value = value;
            assert_eq!(words.write(&value), text);
        }
    }

    #[test]
    fn lists_are_joined_by_the_language() {
        let words = Words::shipped("en-US");
        let list = |items: &[&str]| words.write(&Value::from(items.to_vec()));
        assert_eq!(list(&[]), "none");
        assert_eq!(list(&["a"]), "a");
        assert_eq!(list(&["a", "b"]), "a and b");
        assert_eq!(list(&["a", "b", "c"]), "a, b and c");
        assert_eq!(list(&["a", "b", "c", "d"]), "a, b, c and d");
        let either = |items: &[&str]| {
            let items = items.iter().map(|&item| item.to_owned());
            words.write(&Value::Either(items.collect()))
        };
        assert_eq!(either(&["a"]), "a");
        assert_eq!(either(&["a", "b", "c"]), "a or b or c");
    }
}
