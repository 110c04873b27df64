//! The numbers of a sign-off that a laboratory may set when it adopts a revision, and where what it adopted departs from the module's text.

use super::{Laboratory, Place};
use crate::record::entry::{Entry, SignOffProfile, Signed};
use crate::report::{Block, Item};
use crate::syllabus::module::{AGAIN, SignOff};
use crate::text::Words;

/// A number of a sign-off that may be set when a revision is adopted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Number {
    /// Clean unaided rehearsals before supervised work.
    CleanRehearsals,
    /// On so many different days.
    CleanDays,
    /// Supervised cases that were found acceptable.
    SupervisedCases,
    /// Observed runs that were passed.
    Observed,
    /// By so many assessors.
    Assessors,
    /// The last of them clean, so many in a row.
    CleanInARow,
    /// For how many months sign-offs hold: the first, then later ones; the last repeats.
    ValidMonths,
    /// Observed runs of a renewal.
    RenewalObserved,
    /// By so many assessors.
    RenewalAssessors,
    /// The last of them clean, so many in a row.
    RenewalCleanInARow,
    /// Between which days after a sign-off it is asked whether training worked; 0: it is not asked.
    EffectCheckDays,
}

impl Number {
    /// All, in the order in which they are asked for: as somebody meets them on the way to a sign-off and after it.
    pub const ALL: [Number; 11] = [
        Number::CleanRehearsals,
        Number::CleanDays,
        Number::SupervisedCases,
        Number::Observed,
        Number::Assessors,
        Number::CleanInARow,
        Number::ValidMonths,
        Number::RenewalObserved,
        Number::RenewalAssessors,
        Number::RenewalCleanInARow,
        Number::EffectCheckDays,
    ];

    /// Its own word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Number::CleanRehearsals => "clean-rehearsals",
            Number::CleanDays => "clean-days",
            Number::SupervisedCases => "supervised-cases",
            Number::Observed => "observed",
            Number::Assessors => "assessors",
            Number::CleanInARow => "clean-in-a-row",
            Number::ValidMonths => "valid-months",
            Number::RenewalObserved => "renewal-observed",
            Number::RenewalAssessors => "renewal-assessors",
            Number::RenewalCleanInARow => "renewal-clean-in-a-row",
            Number::EffectCheckDays => "effect-check-days",
        }
    }

    /// An example of how it is typed.
    #[must_use]
    pub fn example(self) -> &'static str {
        match self {
            Number::ValidMonths => "6,12,12",
            Number::EffectCheckDays => "30,90",
            _ => "2",
        }
    }

    /// What a module asks for: one number, several months, or the days of a window.
    #[must_use]
    pub fn of(self, asked: &SignOff) -> Vec<u16> {
        let (observed, assessors, in_a_row) = asked.observed;
        let (observed_again, assessors_again, in_a_row_again) = asked.again;
        match self {
            Number::CleanRehearsals => vec![asked.clean_unaided.0],
            Number::CleanDays => vec![asked.clean_unaided.1],
            Number::SupervisedCases => vec![asked.supervised_cases],
            Number::Observed => vec![observed],
            Number::Assessors => vec![assessors],
            Number::CleanInARow => vec![in_a_row],
            Number::ValidMonths => asked.valid_months.clone(),
            Number::RenewalObserved => vec![observed_again],
            Number::RenewalAssessors => vec![assessors_again],
            Number::RenewalCleanInARow => vec![in_a_row_again],
            Number::EffectCheckDays => window(asked.effect_check_days),
        }
    }

    /// Whether a module says anything of it; where it does not, [`Number::of`] is our default.
    #[must_use]
    pub fn is_said(self, asked: &SignOff) -> bool {
        match self {
            Number::RenewalObserved | Number::RenewalAssessors | Number::RenewalCleanInARow => {
                false
            }
            Number::EffectCheckDays => asked.effect_check_days.is_some(),
            _ => true,
        }
    }

    /// What an adopted revision asks for.
    #[must_use]
    pub fn adopted(self, profile: &SignOffProfile) -> Vec<u16> {
        let (first, again) = (&profile.first, &profile.again);
        match self {
            Number::CleanRehearsals => vec![first.clean_runs],
            Number::CleanDays => vec![first.clean_days],
            Number::SupervisedCases => vec![first.supervised_cases],
            Number::Observed => vec![first.observed],
            Number::Assessors => vec![first.assessors],
            Number::CleanInARow => vec![first.clean_in_a_row],
            Number::ValidMonths => profile.valid_months.all().to_vec(),
            Number::RenewalObserved => vec![again.observed],
            Number::RenewalAssessors => vec![again.assessors],
            Number::RenewalCleanInARow => vec![again.clean_in_a_row],
            Number::EffectCheckDays => {
                let check = profile.effect_check.as_ref();
                window(check.map(|check| (check.from_days, check.to_days)))
            }
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
            Number::EffectCheckDays => numbers.len() == 2 || numbers == [0],
            _ => numbers.len() == 1,
        };
        fits.then_some(numbers)
    }

    /// What is asked for where a module says nothing of it; none where every module does. Our defaults.
    fn by_default(self) -> Option<Vec<u16>> {
        let (observed, assessors, in_a_row) = AGAIN;
        match self {
            Number::RenewalObserved => Some(vec![observed]),
            Number::RenewalAssessors => Some(vec![assessors]),
            Number::RenewalCleanInARow => Some(vec![in_a_row]),
            Number::EffectCheckDays => Some(window(None)),
            _ => None,
        }
    }

    /// Whether two ways of writing it say the same.
    fn is_same(self, one: &[u16], other: &[u16]) -> bool {
        match self {
            Number::ValidMonths => repeating(one) == repeating(other),
            _ => one == other,
        }
    }
}

/// The days of a window; 0 where there is none.
fn window(days: Option<(u16, u16)>) -> Vec<u16> {
    days.map_or_else(|| vec![0], |(from, to)| vec![from, to])
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
                Number::CleanRehearsals => asked.clean_unaided.0 = one,
                Number::CleanDays => asked.clean_unaided.1 = one,
                Number::SupervisedCases => asked.supervised_cases = one,
                Number::Observed => asked.observed.0 = one,
                Number::Assessors => asked.observed.1 = one,
                Number::CleanInARow => asked.observed.2 = one,
                Number::ValidMonths => asked.valid_months.clone_from(set),
                Number::RenewalObserved => asked.again.0 = one,
                Number::RenewalAssessors => asked.again.1 = one,
                Number::RenewalCleanInARow => asked.again.2 = one,
                Number::EffectCheckDays => {
                    asked.effect_check_days = match set[..] {
                        [from, to] => Some((from, to)),
                        _ => None,
                    };
                }
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
    /// What the text asks for; none where it says nothing of it, and our default is meant.
    pub text: Option<Vec<u16>>,
    /// What was adopted.
    pub adopted: Vec<u16>,
}

impl<P: Place> Laboratory<P> {
    /// Where an adopted revision departs from the module's text that is kept beside the record, and from our defaults where that says nothing; empty
    /// where the entry adopts none, and where the text is not here or says nothing of sign-offs.
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
        let Ok(text) = serde_json::from_slice::<serde_json::Value>(&text) else {
            return Vec::new();
        };
        let asked = &text["module"]["sign-off"];
        if !asked.is_object() {
            return Vec::new();
        }
        let all = Number::ALL.into_iter().filter_map(|number| {
            let text = in_text(number, asked);
            let adopted = number.adopted(&fact.profile);
            let meant = text.clone().or_else(|| number.by_default())?;
            (!number.is_same(&meant, &adopted)).then_some(Departure {
                number,
                text,
                adopted,
            })
        });
        all.collect()
    }
}

/// A number as the kept text of a module has it, in which every number is a text; none where it says nothing of it.
fn in_text(number: Number, asked: &serde_json::Value) -> Option<Vec<u16>> {
    let rehearsed = &asked["clean-unaided"];
    let observed = &asked["observed"];
    let one = |value: &serde_json::Value| value.as_str()?.parse().ok();
    let single = |value: &serde_json::Value| Some(vec![one(value)?]);
    match number {
        Number::CleanRehearsals => single(&rehearsed["runs"]),
        Number::CleanDays => single(&rehearsed["on-days"]),
        Number::SupervisedCases => single(&asked["supervised"]["cases"]),
        Number::Observed => single(&observed["runs"]),
        Number::Assessors => single(&observed["assessors"]),
        Number::CleanInARow => single(&observed["last-clean-in-a-row"]),
        Number::ValidMonths => match &asked["valid-months"] {
            serde_json::Value::Array(several) => several.iter().map(one).collect(),
            value => single(value),
        },
        Number::RenewalObserved | Number::RenewalAssessors | Number::RenewalCleanInARow => None,
        Number::EffectCheckDays => {
            let check = &asked["effect-check"];
            Some(vec![one(&check["from-days"])?, one(&check["to-days"])?])
        }
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
        let shown = |numbers: &[u16]| match (one.number, numbers) {
            (Number::EffectCheckDays, [0]) => words.say("laboratory-departs-never", &[]),
            _ => Number::written(numbers),
        };
        let meant = one.text.clone().or_else(|| one.number.by_default());
        let values = [
            ("name", words.part("deeds-field", one.number.word()).into()),
            ("text", shown(&meant.unwrap_or_default()).into()),
            ("adopted", shown(&one.adopted).into()),
        ];
        let id = match one.text {
            Some(_) => "laboratory-departs",
            None => "laboratory-departs-from-default",
        };
        Item::new(words.say(id, &values))
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
        assert_eq!(Number::EffectCheckDays.read("30, 90"), Some(vec![30, 90]));
        assert_eq!(Number::EffectCheckDays.read("0"), Some(vec![0]));
        for (number, text) in [
            (Number::Observed, "3, 4"),
            (Number::Observed, ""),
            (Number::Observed, "three"),
            (Number::ValidMonths, ""),
            (Number::ValidMonths, "6, -1"),
            (Number::EffectCheckDays, ""),
            (Number::EffectCheckDays, "30"),
            (Number::EffectCheckDays, "30, 60, 90"),
        ] {
            assert_eq!(number.read(text), None, "{number:?} {text:?}");
        }
    }

    #[test]
    fn each_number_is_set_where_it_is_read_and_nowhere_else() {
        let asked = SignOff {
            clean_unaided: (3, 3),
            supervised_cases: 3,
            observed: (3, 3, 3),
            again: (3, 3, 3),
            valid_months: vec![3],
            effect_check_days: Some((3, 4)),
        };
        for number in Number::ALL {
            let set = number.read(number.example()).unwrap();
            let over = OwnNumbers::default().with(number, set.clone()).over(&asked);
            for other in Number::ALL {
                let expected = if other == number {
                    set.clone()
                } else {
                    other.of(&asked)
                };
                assert_eq!(other.of(&over), expected, "{number:?} {other:?}");
            }
        }
        let off = OwnNumbers::default().with(Number::EffectCheckDays, vec![0]);
        assert_eq!(off.over(&asked).effect_check_days, None);
    }

    #[test]
    fn what_no_module_says_has_a_default_and_it_is_what_a_module_is_read_with() {
        let asked = SignOff {
            clean_unaided: (3, 3),
            supervised_cases: 3,
            observed: (3, 3, 3),
            again: AGAIN,
            valid_months: vec![3],
            effect_check_days: None,
        };
        for number in Number::ALL {
            let default = number.by_default();
            assert_eq!(default.is_none(), number.is_said(&asked), "{number:?}");
            if let Some(default) = default {
                assert_eq!(default, number.of(&asked), "{number:?}");
            }
        }
    }
}
