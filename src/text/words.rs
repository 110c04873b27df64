//! One language with its fallbacks, ready to say sentences by name.

use fluent::concurrent::FluentBundle;
use fluent::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use super::number::NumberFormat;
use super::value::Value;
use crate::shipped;

/// The language that every text is written in first and that all others fall back to.
pub const SOURCE_LANGUAGE: &str = "en-US";

/// The words of one language. What it lacks is said in the next language of its chain.
pub struct Words {
    chain: Vec<Language>,
    format: NumberFormat,
    is_on_screens: bool,
}

/// What the name of a part ends with that is said on screens in the place of another: `.on-screens` of a message, `.fix-on-screens` of its part `.fix`.
const ON_SCREENS: &str = "on-screens";

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
            is_on_screens: false,
        };
        words.format = words.number_format();
        for language in &mut words.chain {
            language.add_decimals(&words.format);
        }
        words
    }

    /// The same words for people at the screens: what has words of its own for them is said in those. Plain lines name commands, screens name what is
    /// on them.
    #[must_use]
    pub fn on_screens(self) -> Words {
        Words {
            is_on_screens: true,
            ..self
        }
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

    /// Says the part of a message that a word chooses: `laboratory-role` and `owner`.
    #[must_use]
    pub fn part(&self, message: &str, word: &str) -> String {
        self.say(&format!("{message}.{word}"), &[])
    }

    /// Says a message and lists what was missing.
    #[must_use]
    pub fn look_up(&self, id: &str, values: &[(&str, Value)]) -> Spoken {
        if self.is_on_screens {
            let own = match id.split_once('.') {
                Some(_) => format!("{id}-{ON_SCREENS}"),
                None => format!("{id}.{ON_SCREENS}"),
            };
            if self.knows(&own) {
                return self.look_up_in_any(&own, values);
            }
        }
        self.look_up_in_any(id, values)
    }

    fn look_up_in_any(&self, id: &str, values: &[(&str, Value)]) -> Spoken {
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
    fn screens_have_words_of_their_own_where_there_are_some() {
        let text = "units-decimal-sign = .\nunits-group-sign = ,\nunits-grouped-from = 4\n\
            debrief-both = Everywhere\n    .fix = Type it\n    .fix-on-screens = Press { $key }\n\
            debrief-own = In lines\n    .on-screens = On screens\n    .fix = The same\n";
        let open = || Words::new("en-US", &[("locales/en-US/debrief.ftl", text)]);
        let key = [("key", "s".into())];
        for (id, in_lines, on_screens) in [
            ("debrief-both", "Everywhere", "Everywhere"),
            ("debrief-both.fix", "Type it", "Press s"),
            ("debrief-own", "In lines", "On screens"),
            ("debrief-own.fix", "The same", "The same"),
            ("debrief-gone", "[debrief-gone]", "[debrief-gone]"),
        ] {
            assert_eq!(open().say(id, &key), in_lines);
            assert_eq!(open().on_screens().say(id, &key), on_screens);
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
}
