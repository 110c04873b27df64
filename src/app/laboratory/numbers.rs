//! The numbers of a sign-off that a laboratory may set when it adopts a revision, and where what it adopted departs from the module's text.

use super::{Laboratory, Place};
use crate::record::entry::{Entry, SignOffProfile, Signed};
use crate::report::{Block, Item};
use crate::syllabus::module::SignOff;
use crate::text::Words;

/// A number of a sign-off that may be set when a revision is adopted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Number {
    /// Observed runs that were passed.
    Observed,
    /// By so many assessors.
    Assessors,
    /// The last of them clean, so many in a row.
    CleanInARow,
    /// Supervised cases that were found acceptable.
    SupervisedCases,
    /// For how many months sign-offs hold: the first, then later ones; the last repeats.
    ValidMonths,
}

impl Number {
    /// All, in the order in which they are asked for.
    pub const ALL: [Number; 5] = [
        Number::Observed,
        Number::Assessors,
        Number::CleanInARow,
        Number::SupervisedCases,
        Number::ValidMonths,
    ];

    /// Its own word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Number::Observed => "observed",
            Number::Assessors => "assessors",
            Number::CleanInARow => "clean-in-a-row",
            Number::SupervisedCases => "supervised-cases",
            Number::ValidMonths => "valid-months",
        }
    }

    /// What a module asks for: one number, or several months.
    #[must_use]
    pub fn of(self, asked: &SignOff) -> Vec<u16> {
        let (observed, assessors, in_a_row) = asked.observed;
        match self {
            Number::Observed => vec![observed],
            Number::Assessors => vec![assessors],
            Number::CleanInARow => vec![in_a_row],
            Number::SupervisedCases => vec![asked.supervised_cases],
            Number::ValidMonths => asked.valid_months.clone(),
        }
    }

    /// What an adopted revision asks for.
    #[must_use]
    pub fn adopted(self, profile: &SignOffProfile) -> Vec<u16> {
        let first = &profile.first;
        match self {
            Number::Observed => vec![first.observed],
            Number::Assessors => vec![first.assessors],
            Number::CleanInARow => vec![first.clean_in_a_row],
            Number::SupervisedCases => vec![first.supervised_cases],
            Number::ValidMonths => profile.valid_months.all().to_vec(),
        }
    }

    /// Numbers as they are typed: `2`, or `6, 12, 12` for months.
    #[must_use]
    pub fn written(numbers: &[u16]) -> String {
        let each: Vec<String> = numbers.iter().map(ToString::to_string).collect();
        each.join(", ")
    }

    /// Reads what [`Number::written`] writes; none where it is no such number.
    #[must_use]
    pub fn read(self, text: &str) -> Option<Vec<u16>> {
        let each = text.split([',', ' ']).filter(|part| !part.is_empty());
        let numbers: Vec<u16> = each.map(|part| part.parse().ok()).collect::<Option<_>>()?;
        let fits = match self {
            Number::ValidMonths => !numbers.is_empty(),
            _ => numbers.len() == 1,
        };
        fits.then_some(numbers)
    }
}

/// The numbers that a laboratory sets in the place of those of the module; what is left out stays as the module says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OwnNumbers(Vec<(Number, Vec<u16>)>);

impl OwnNumbers {
    /// The same with one number set.
    #[must_use]
    pub fn with(mut self, number: Number, set: Vec<u16>) -> OwnNumbers {
        self.0.retain(|(one, _)| *one != number);
        self.0.push((number, set));
        self
    }

    /// What a module asks for, with these numbers in it.
    #[must_use]
    pub(super) fn over(&self, asked: &SignOff) -> SignOff {
        let mut asked = asked.clone();
        for (number, set) in &self.0 {
            let one = set.first().copied().unwrap_or_default();
            match number {
                Number::Observed => asked.observed.0 = one,
                Number::Assessors => asked.observed.1 = one,
                Number::CleanInARow => asked.observed.2 = one,
                Number::SupervisedCases => asked.supervised_cases = one,
                Number::ValidMonths => asked.valid_months.clone_from(set),
            }
        }
        asked
    }
}

/// A number that was adopted otherwise than the module's text has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Departure {
    /// Which number.
    pub number: Number,
    /// What the text asks for.
    pub text: Vec<u16>,
    /// What was adopted.
    pub adopted: Vec<u16>,
}

impl<P: Place> Laboratory<P> {
    /// Where an adopted revision departs from the module's text that is kept beside the record; empty where the entry adopts none, and where the text
    /// is not here or says nothing of sign-offs.
    #[must_use]
    pub fn departures(&self, entry: &Entry) -> Vec<Departure> {
        let second = match entry.signed() {
            Some((Signed::Countersigned(second), _)) => self.ledger.get(&second.target),
            _ => None,
        };
        let Some((Signed::RevisionAdopted(fact), _)) = second.unwrap_or(entry).signed() else {
            return Vec::new();
        };
        let text = self.place.attached(&fact.edition.digest);
        let text = text.ok().flatten().unwrap_or_default();
        let all = Number::ALL.into_iter().filter_map(|number| {
            let text = in_text(number, &text)?;
            let adopted = number.adopted(&fact.profile);
            (repeating(&text) != repeating(&adopted)).then_some(Departure {
                number,
                text,
                adopted,
            })
        });
        all.collect()
    }
}

/// A number as the kept text of a module has it, in which every number is a text.
fn in_text(number: Number, text: &[u8]) -> Option<Vec<u16>> {
    let text: serde_json::Value = serde_json::from_slice(text).ok()?;
    let asked = &text["module"]["sign-off"];
    let found = match number {
        Number::Observed => &asked["observed"]["runs"],
        Number::Assessors => &asked["observed"]["assessors"],
        Number::CleanInARow => &asked["observed"]["last-clean-in-a-row"],
        Number::SupervisedCases => &asked["supervised"]["cases"],
        Number::ValidMonths => &asked["valid-months"],
    };
    let one = |value: &serde_json::Value| value.as_str()?.parse().ok();
    match found {
        serde_json::Value::Array(several) => several.iter().map(one).collect(),
        single => Some(vec![one(single)?]),
    }
}

/// Months without those that only repeat the one before them at the end.
fn repeating(numbers: &[u16]) -> &[u16] {
    let mut numbers = numbers;
    while let [.., one, last] = numbers
        && one == last
    {
        numbers = &numbers[..numbers.len() - 1];
    }
    numbers
}

/// Tells where an adopted revision departs from the module's text; nothing where it does not.
#[must_use]
pub fn told_departures(departures: &[Departure], words: &Words) -> Vec<Block> {
    if departures.is_empty() {
        return Vec::new();
    }
    let items = departures.iter().map(|one| {
        let values = [
            ("name", words.part("deeds-field", one.number.word()).into()),
            ("text", Number::written(&one.text).into()),
            ("adopted", Number::written(&one.adopted).into()),
        ];
        Item::new(words.say("laboratory-departs", &values))
    });
    vec![
        Block::heading(2, words.say("laboratory-departs-title", &[])),
        Block::Items(items.collect()),
        Block::Paragraph(words.say("laboratory-departs-why", &[])),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_that_only_repeat_the_last_say_the_same() {
        assert_eq!(repeating(&[6, 12, 12]), repeating(&[6, 12]));
        assert_ne!(repeating(&[6, 12]), repeating(&[6, 6]));
        assert_eq!(repeating(&[0]), [0]);
    }

    #[test]
    fn numbers_are_read_as_they_are_written() {
        assert_eq!(Number::ValidMonths.read("6, 12,12"), Some(vec![6, 12, 12]));
        assert_eq!(
            Number::ValidMonths.read(&Number::written(&[6, 12])),
            Some(vec![6, 12])
        );
        assert_eq!(Number::Observed.read(" 3 "), Some(vec![3]));
        for (number, text) in [
            (Number::Observed, "3, 4"),
            (Number::Observed, ""),
            (Number::Observed, "three"),
            (Number::ValidMonths, ""),
            (Number::ValidMonths, "6, -1"),
        ] {
            assert_eq!(number.read(text), None, "{number:?} {text:?}");
        }
    }
}
