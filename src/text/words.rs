//! One language with its fallbacks, ready to say sentences by name.

use fluent::concurrent::FluentBundle;
use fluent::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use super::display_safe;
use super::number::NumberFormat;
use super::value::Value;
use crate::shipped;
use crate::units::Millis;

/// The language that every text is written in first and that all others fall back to.
pub const SOURCE_LANGUAGE: &str = "en-US";

/// The words of one language. What it lacks is said in the next language of its chain.
pub struct Words {
    chain: Vec<Language>,
    format: NumberFormat,
}

struct Language {
    tag: String,
    bundle: FluentBundle<FluentResource>,
}

/// A sentence with what went wrong while saying it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spoken {
    /// The sentence; the name in brackets if there is no such sentence.
    pub text: String,
    /// Missing messages and arguments, for tests.
    pub faults: Vec<String>,
}

impl Words {
    /// Opens the shipped words of a language. An unknown or malformed tag gives the source language.
    #[must_use]
    pub fn shipped(tag: &str) -> Words {
        Words::new(tag, shipped::locales())
    }

    /// Opens a language from pairs of path (`locales/TAG/place.ftl`) and text.
    ///
    /// The chain is the tag, its language without a region, and the source language. Broken entries of a file are left
    /// out, the good ones stay.
    #[must_use]
    pub fn new(tag: &str, files: &[(&str, &str)]) -> Words {
        let mut tags = vec![SOURCE_LANGUAGE.to_owned()];
        if let Ok(wanted) = tag.parse::<LanguageIdentifier>() {
            tags.insert(0, wanted.language.to_string());
            tags.insert(0, wanted.to_string());
        }
        let mut chain: Vec<Language> = Vec::new();
        for tag in tags {
            if chain.iter().any(|known| known.tag == tag) {
                continue;
            }
            chain.extend(Language::open(tag, files));
        }
        let mut words = Words {
            chain,
            format: NumberFormat::default(),
        };
        words.format = words.number_format();
        for language in &mut words.chain {
            language.add_decimals(&words.format);
        }
        words
    }

    /// Returns the tag of the language that is asked first.
    #[must_use]
    pub fn language(&self) -> &str {
        self.chain
            .first()
            .map_or(SOURCE_LANGUAGE, |language| &language.tag)
    }

    /// Returns how this language writes numbers.
    #[must_use]
    pub fn numbers(&self) -> &NumberFormat {
        &self.format
    }

    /// Says a message (`debrief-clean`) or one of its attributes (`cli-rehearse.seed`).
    ///
    /// Never fails: a message that is nowhere in the chain is said as its name in brackets, so that it can be reported.
    #[must_use]
    pub fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.look_up(id, values).text
    }

    /// Says a message and lists what was missing.
    #[must_use]
    pub fn look_up(&self, id: &str, values: &[(&str, Value)]) -> Spoken {
        let mut faults = Vec::new();
        let args: FluentArgs<'_> = values
            .iter()
            .map(|(name, value)| ((*name).to_owned(), self.argument(value)))
            .collect();
        let (message, attribute) = match id.split_once('.') {
            Some((message, attribute)) => (message, Some(attribute)),
            None => (id, None),
        };
        for Language { bundle, .. } in &self.chain {
            let Some(found) = bundle.get_message(message) else {
                continue;
            };
            let pattern = match attribute {
                Some(name) => found.get_attribute(name).map(|found| found.value()),
                None => found.value(),
            };
            let Some(pattern) = pattern else { continue };
            let mut errors = Vec::new();
            let text = bundle
                .format_pattern(pattern, Some(&args), &mut errors)
                .into_owned();
            faults.extend(errors.iter().map(|error| format!("{id}: {error}")));
            return Spoken { text, faults };
        }
        faults.push(format!("{id}: no such message"));
        Spoken {
            text: format!("[{id}]"),
            faults,
        }
    }

    /// Tells whether some language of the chain has this message or attribute.
    #[must_use]
    pub fn knows(&self, id: &str) -> bool {
        let (message, attribute) = match id.split_once('.') {
            Some((message, attribute)) => (message, Some(attribute)),
            None => (id, None),
        };
        self.chain.iter().any(|language| {
            language
                .bundle
                .get_message(message)
                .is_some_and(|found| match attribute {
                    Some(name) => found.get_attribute(name).is_some(),
                    None => found.value().is_some(),
                })
        })
    }

    /// Writes a value as the language writes it, for a place where it stands alone.
    #[must_use]
    pub fn write(&self, value: &Value) -> String {
        match value {
            Value::Text(text) => display_safe(text),
            Value::Count(count) => self.format.decimal(*count, 0),
            Value::Time(time) => self.duration(*time),
            Value::Chance(chance) => self.say(
                "units-chance",
                &[("hits", chance.hits.into()), ("of", chance.of.into())],
            ),
            Value::Measure {
                number,
                places,
                unit,
            } => self.numbered(unit.message(), self.format.decimal(*number, *places)),
            Value::List(items) => self.list(items),
        }
    }

    /// Turns a value into what a sentence takes; only a bare count stays a number, for the choice of plural forms.
    fn argument(&self, value: &Value) -> FluentValue<'static> {
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
            let larger = self.numbered(id, self.format.decimal(whole, 0));
            if millis % scale == 0 {
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
            self.numbered("units-milliseconds", self.format.decimal(number, 0))
        } else {
            self.numbered("units-seconds", self.format.decimal(number, 3))
        }
    }

    /// Joins from the end, so that each language decides how a pair, a start, a middle and an end look.
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

    fn number_format(&self) -> NumberFormat {
        let plain = NumberFormat::default();
        NumberFormat {
            decimal_sign: self.say("units-decimal-sign", &[]),
            group_sign: self.say("units-group-sign", &[]),
            grouped_from: self
                .say("units-grouped-from", &[])
                .parse()
                .unwrap_or(plain.grouped_from),
        }
    }
}

impl Language {
    /// Gathers the files of one tag; `None` if there are none.
    fn open(tag: String, files: &[(&str, &str)]) -> Option<Language> {
        let folder = format!("locales/{tag}/");
        let identifier = tag.parse::<LanguageIdentifier>().ok()?;
        let mut bundle = FluentBundle::new_concurrent(vec![identifier]);
        // The marks that would isolate arguments stay visible in files, pages and pipes; `display_safe` does their work.
        bundle.set_use_isolating(false);
        let mut found = false;
        for (_, text) in files.iter().filter(|(path, _)| path.starts_with(&folder)) {
            found = true;
            let resource = match FluentResource::try_new((*text).to_owned()) {
                Ok(whole) => whole,
                Err((good_part, _)) => good_part,
            };
            bundle.add_resource_overriding(resource);
        }
        found.then_some(Language { tag, bundle })
    }

    /// Adds `DEC($n, digits: 2)`: a number with the signs of the language. The built-in one neither groups nor localises.
    fn add_decimals(&mut self, format: &NumberFormat) {
        let format = format.clone();
        let added = self.bundle.add_function("DEC", move |positional, named| {
            let Some(FluentValue::Number(number)) = positional.first() else {
                return FluentValue::Error;
            };
            let digits = match named.get("digits") {
                Some(FluentValue::Number(digits)) => digits.as_string().parse::<usize>().ok(),
                _ => None,
            };
            let plain = match digits {
                Some(digits) => format!("{:.*}", digits.min(12), number.value),
                None => number.value.to_string(),
            };
            format
                .rewritten(&plain)
                .map_or(FluentValue::Error, FluentValue::from)
        });
        debug_assert!(added.is_ok(), "a new bundle has no function of this name");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Chance, MilliCelsius, Ppm};

    const SOURCE: &str = "units-decimal-sign = .\nunits-group-sign = ,\nunits-grouped-from = 4\n\
        debrief-only-here = Only in the source\n\
        debrief-runs = { $count ->\n    [one] { DEC($count) } run\n   *[other] { DEC($count) } runs\n}\n\
        debrief-share = { DEC($count, digits: 2) }\n";
    const GERMAN: &str = "units-decimal-sign = { \",\" }\nunits-group-sign = .\nunits-grouped-from = 4\n\
        debrief-runs = { $count ->\n    [one] { DEC($count) } Lauf\n   *[other] { DEC($count) } Läufe\n}\n\
        debrief-share = { DEC($count, digits: 2) }\n";
    const AUSTRIAN: &str = "debrief-share = Österreich\n";

    fn words(tag: &str) -> Words {
        Words::new(
            tag,
            &[
                ("locales/de/debrief.ftl", GERMAN),
                ("locales/de-AT/debrief.ftl", AUSTRIAN),
                ("locales/en-US/debrief.ftl", SOURCE),
            ],
        )
    }

    #[test]
    fn the_chain_goes_from_region_to_language_to_source() {
        let austrian = words("de-AT");
        assert_eq!(austrian.language(), "de-AT");
        assert_eq!(austrian.say("debrief-share", &[]), "Österreich");
        assert_eq!(
            austrian.say("debrief-runs", &[("count", 2.into_value())]),
            "2 Läufe"
        );
        assert_eq!(austrian.say("debrief-only-here", &[]), "Only in the source");
        for strange in ["", "xx", "no tag at all", "en"] {
            assert_eq!(words(strange).language(), SOURCE_LANGUAGE, "{strange}");
        }
    }

    /// Makes literals short in tests.
    trait IntoValue {
        fn into_value(self) -> Value;
    }

    impl IntoValue for i64 {
        fn into_value(self) -> Value {
            Value::Count(self)
        }
    }

    #[test]
    fn numbers_and_plurals_follow_the_language() {
        let count = |n: i64| [("count", n.into_value())];
        assert_eq!(
            words("de").say("debrief-runs", &count(1_234_567)),
            "1.234.567 Läufe"
        );
        assert_eq!(words("de").say("debrief-runs", &count(1)), "1 Lauf");
        assert_eq!(words("de").say("debrief-share", &count(7)), "7,00");
        assert_eq!(
            words("en-US").say("debrief-runs", &count(1234)),
            "1,234 runs"
        );
    }

    #[test]
    fn what_is_missing_is_legible_and_listed() {
        let missing = words("de").look_up("debrief-nowhere", &[]);
        assert_eq!(missing.text, "[debrief-nowhere]");
        assert_eq!(missing.faults.len(), 1);
        let no_argument = words("de").look_up("debrief-runs", &[]);
        assert!(!no_argument.faults.is_empty());
    }

    #[test]
    fn a_broken_entry_costs_only_itself() {
        let broken = "debrief-bad = { $oops\n\ndebrief-good = Good\n";
        let words = Words::new("en-US", &[("locales/en-US/debrief.ftl", broken)]);
        assert_eq!(words.say("debrief-good", &[]), "Good");
        assert_eq!(words.say("debrief-bad", &[]), "[debrief-bad]");
    }

    #[test]
    fn texts_come_in_harmless_and_without_marks_of_isolation() {
        let words = Words::new(
            "en-US",
            &[("locales/en-US/debrief.ftl", "debrief-name = <{ $name }>\n")],
        );
        let said = words.say("debrief-name", &[("name", "a\u{1b}[2J\u{202E}b\nc".into())]);
        assert_eq!(said, "<a\u{FFFD}[2Jb c>");
    }

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
    }
}
