//! The case card: what is decided for one case, of everything that a module lets vary.

use std::collections::BTreeMap;
use std::fmt;

use super::module::{CaseChoice, CaseRange, Module};

/// How many combinations of plan-shaping choices are ever enumerated (our default).
pub const MOST_COMBINATIONS: usize = 2_000;

/// The decided value of one case choice.
#[derive(
    Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum CaseValue {
    /// One of the words of the choice.
    Word(String),
    /// A whole number.
    Whole(u16),
}

impl fmt::Display for CaseValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CaseValue::Word(word) => f.write_str(word),
            CaseValue::Whole(number) => write!(f, "{number}"),
        }
    }
}

/// A value for every choice of a module. Prints as `arch=upper,teeth=14`, in the order of the ids.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct CaseCard(BTreeMap<String, CaseValue>);

/// Why a text is no case card of a module. Holds words as they were written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CaseProblem {
    /// An entry is not `choice=value`.
    NoPair(String),
    /// The module has no such choice.
    UnknownChoice {
        /// As written.
        found: String,
        /// The choices of the module.
        known: Vec<String>,
    },
    /// The same choice is decided twice.
    Twice(String),
    /// The choice has no such word.
    UnknownWord {
        /// Which choice.
        choice: String,
        /// As written.
        found: String,
        /// Its words.
        known: Vec<String>,
    },
    /// The value is no whole number from `from` to `to`.
    OutOfRange {
        /// Which choice.
        choice: String,
        /// As written.
        found: String,
        /// The least.
        from: u16,
        /// The greatest.
        to: u16,
    },
    /// A choice is not decided.
    Missing(String),
}

impl CaseCard {
    /// Decides every choice of a module, in the order written: `pick` is told how many values there are and names one, from 0.
    #[must_use]
    pub fn picked(module: &Module, mut pick: impl FnMut(usize) -> usize) -> CaseCard {
        let picked = module.case.iter().filter_map(|choice| {
            let at = pick(values_of(&choice.range));
            Some((choice.id.value.clone(), nth(&choice.range, at)?))
        });
        CaseCard(picked.collect())
    }

    /// Reads `teeth=14,wash=orbital`; every choice of the module must be decided once.
    ///
    /// # Errors
    /// The first entry that does not fit, or the first choice that is missing.
    pub fn parse(text: &str, module: &Module) -> Result<CaseCard, CaseProblem> {
        let card = CaseCard::parse_over(text, module, CaseCard(BTreeMap::new()))?;
        let mut choices = module.case.iter();
        match choices.find(|choice| card.get(&choice.id.value).is_none()) {
            Some(missing) => Err(CaseProblem::Missing(missing.id.value.clone())),
            None => Ok(card),
        }
    }

    /// Holds that a card that was not read by [`CaseCard::parse`] is one of a module.
    ///
    /// # Errors
    /// As for [`CaseCard::parse`].
    pub fn fits(&self, module: &Module) -> Result<(), CaseProblem> {
        let read = CaseCard::parse(&self.to_string(), module)?;
        let differs = self
            .iter()
            .find(|(choice, value)| read.get(choice) != Some(*value));
        match differs {
            Some((choice, value)) => Err(CaseProblem::NoPair(format!("{choice}={value}"))),
            None if read.0.len() == self.0.len() => Ok(()),
            None => Err(CaseProblem::NoPair(self.to_string())),
        }
    }

    /// Reads `teeth=14,wash=orbital` over a card that decides the rest.
    ///
    /// # Errors
    /// The first entry that does not fit.
    pub fn parse_over(
        text: &str,
        module: &Module,
        mut over: CaseCard,
    ) -> Result<CaseCard, CaseProblem> {
        let mut card = BTreeMap::new();
        for entry in text.split(',').map(str::trim).filter(|one| !one.is_empty()) {
            let (name, value) = entry
                .split_once('=')
                .map(|(name, value)| (name.trim(), value.trim()))
                .ok_or_else(|| CaseProblem::NoPair(entry.to_owned()))?;
            let choice = module
                .case
                .iter()
                .find(|choice| choice.id.value == name)
                .ok_or_else(|| CaseProblem::UnknownChoice {
                    found: name.to_owned(),
                    known: module.case.iter().map(|one| one.id.value.clone()).collect(),
                })?;
            if card
                .insert(name.to_owned(), value_of(choice, value)?)
                .is_some()
            {
                return Err(CaseProblem::Twice(name.to_owned()));
            }
        }
        over.0.extend(card);
        Ok(over)
    }

    /// The card with one value set; nothing is checked. For building cards by hand.
    #[must_use]
    pub fn with(mut self, choice: &str, value: CaseValue) -> CaseCard {
        self.0.insert(choice.to_owned(), value);
        self
    }

    /// The value of a choice.
    #[must_use]
    pub fn get(&self, choice: &str) -> Option<&CaseValue> {
        self.0.get(choice)
    }

    /// The value of a whole-number choice.
    #[must_use]
    pub fn whole(&self, choice: &str) -> Option<u16> {
        match self.get(choice) {
            Some(CaseValue::Whole(number)) => Some(*number),
            _ => None,
        }
    }

    /// Whether a choice has this value, as written in a module's `when`.
    #[must_use]
    pub fn matches(&self, choice: &str, value: &str) -> bool {
        match self.get(choice) {
            Some(CaseValue::Word(word)) => word == value,
            Some(CaseValue::Whole(number)) => value.parse() == Ok(*number),
            None => false,
        }
    }

    /// Every choice with its value, in the order of the ids.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &CaseValue)> {
        self.0.iter().map(|(name, value)| (name.as_str(), value))
    }

    /// One card per combination of the choices that shape the plan, at most [`MOST_COMBINATIONS`].
    ///
    /// Every other choice has its first value. The last choice written varies fastest.
    pub fn combinations(module: &Module) -> impl Iterator<Item = CaseCard> + '_ {
        (0..combinations_of(module).min(MOST_COMBINATIONS)).map(|number| {
            let mut rest = number;
            let mut card = BTreeMap::new();
            for choice in module.case.iter().rev() {
                let mut at = 0;
                if choice.shapes_plan {
                    let count = values_of(&choice.range).max(1);
                    at = rest % count;
                    rest /= count;
                }
                if let Some(value) = nth(&choice.range, at) {
                    card.insert(choice.id.value.clone(), value);
                }
            }
            CaseCard(card)
        })
    }
}

impl fmt::Display for CaseCard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, (name, value)) in self.0.iter().enumerate() {
            let comma = if at == 0 { "" } else { "," };
            write!(f, "{comma}{name}={value}")?;
        }
        Ok(())
    }
}

/// How many combinations of plan-shaping choices a module has, also above [`MOST_COMBINATIONS`].
#[must_use]
pub fn combinations_of(module: &Module) -> usize {
    module
        .case
        .iter()
        .filter(|choice| choice.shapes_plan)
        .map(|choice| values_of(&choice.range).max(1))
        .fold(1, usize::saturating_mul)
}

/// How many values a choice has.
#[must_use]
pub fn values_of(range: &CaseRange) -> usize {
    match range {
        CaseRange::OneOf(words) => words.len(),
        CaseRange::Whole { from, to } => {
            usize::from(*to) + 1 - usize::from(*from).min(usize::from(*to) + 1)
        }
    }
}

fn nth(range: &CaseRange, at: usize) -> Option<CaseValue> {
    match range {
        CaseRange::OneOf(words) => words
            .get(at)
            .map(|word| CaseValue::Word(word.value.clone())),
        CaseRange::Whole { from, to } => u16::try_from(at)
            .ok()
            .and_then(|at| from.checked_add(at))
            .filter(|number| number <= to)
            .map(CaseValue::Whole),
    }
}

fn value_of(choice: &CaseChoice, text: &str) -> Result<CaseValue, CaseProblem> {
    match &choice.range {
        CaseRange::OneOf(words) => words
            .iter()
            .find(|word| word.value == text)
            .map(|word| CaseValue::Word(word.value.clone()))
            .ok_or_else(|| CaseProblem::UnknownWord {
                choice: choice.id.value.clone(),
                found: text.to_owned(),
                known: words.iter().map(|word| word.value.clone()).collect(),
            }),
        CaseRange::Whole { from, to } => text
            .parse()
            .ok()
            .filter(|number| (*from..=*to).contains(number))
            .map(CaseValue::Whole)
            .ok_or_else(|| CaseProblem::OutOfRange {
                choice: choice.id.value.clone(),
                found: text.to_owned(),
                from: *from,
                to: *to,
            }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syllabus::module::fixture::{empty, name};

    fn module() -> Module {
        let choice = |id: &str, range, shapes_plan| CaseChoice {
            id: name(id),
            title: String::new(),
            range,
            shapes_plan,
        };
        Module {
            case: vec![
                choice(
                    "wash",
                    CaseRange::OneOf(vec![name("ultrasonic"), name("orbital")]),
                    true,
                ),
                choice("teeth", CaseRange::Whole { from: 6, to: 14 }, true),
                choice(
                    "arch",
                    CaseRange::OneOf(vec![name("upper"), name("lower")]),
                    false,
                ),
            ],
            ..empty("small")
        }
    }

    #[test]
    fn a_card_is_read_and_printed_back() {
        let card = CaseCard::parse("wash=orbital, teeth=14,arch=lower", &module()).unwrap();
        assert_eq!(card.to_string(), "arch=lower,teeth=14,wash=orbital");
        assert_eq!(
            CaseCard::parse(&card.to_string(), &module()),
            Ok(card.clone())
        );
        assert_eq!(card.whole("teeth"), Some(14));
        assert!(card.matches("wash", "orbital") && card.matches("teeth", "14"));
        assert!(!card.matches("wash", "ultrasonic") && !card.matches("base", "14"));
    }

    #[test]
    fn what_does_not_fit_says_why() {
        let read = |text: &str| CaseCard::parse(text, &module()).unwrap_err();
        assert_eq!(read("wash"), CaseProblem::NoPair("wash".to_owned()));
        assert!(
            matches!(read("tooth=3"), CaseProblem::UnknownChoice { known, .. } if known.len() == 3)
        );
        assert!(
            matches!(read("wash=round"), CaseProblem::UnknownWord { known, .. } if known == ["ultrasonic", "orbital"])
        );
        for text in ["teeth=5", "teeth=15", "teeth=many"] {
            assert!(matches!(
                read(text),
                CaseProblem::OutOfRange {
                    from: 6,
                    to: 14,
                    ..
                }
            ));
        }
        assert_eq!(
            read("wash=orbital,wash=orbital"),
            CaseProblem::Twice("wash".to_owned())
        );
        assert_eq!(
            read("wash=orbital,teeth=6"),
            CaseProblem::Missing("arch".to_owned())
        );
    }

    #[test]
    fn combinations_are_all_different_and_complete() {
        let module = module();
        let cards: Vec<String> = CaseCard::combinations(&module)
            .map(|card| card.to_string())
            .collect();
        assert_eq!(cards.len(), 18);
        assert_eq!(cards.len(), combinations_of(&module));
        let different: std::collections::BTreeSet<&String> = cards.iter().collect();
        assert_eq!(different.len(), 18);
        assert!(
            cards
                .iter()
                .all(|card| CaseCard::parse(card, &module).is_ok())
        );
    }

    #[test]
    fn every_value_can_be_picked() {
        let module = module();
        let picked: std::collections::BTreeSet<String> = (0..400)
            .map(|mut number| {
                CaseCard::picked(&module, |values| {
                    let at = number % values;
                    number /= values;
                    at
                })
                .to_string()
            })
            .collect();
        assert_eq!(picked.len(), 36);
    }
}
