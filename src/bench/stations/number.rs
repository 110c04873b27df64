//! Reading the numbers of a station: name, unit, default, least and most, and what the case card changes.

use std::fmt;
use std::str::FromStr;

use super::super::model::{BenchProblem, Wrong};
use crate::syllabus::case::CaseCard;
use crate::syllabus::module::{Name, Station};
use crate::units::{
    Dose, Irradiance, MassRate, Micrograms, Microliters, MilliCelsius, Millis, PerHour, PerSecond,
    Ppm, UnitProblem,
};

/// A whole number without a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::bench) struct Count(pub(in crate::bench) i64);

impl FromStr for Count {
    type Err = UnitProblem;

    fn from_str(text: &str) -> Result<Count, UnitProblem> {
        let text = text.trim();
        if text.is_empty() || !text.bytes().all(|byte| byte.is_ascii_digit()) {
            return Err(UnitProblem::NoNumber);
        }
        text.parse().map(Count).map_err(|_| UnitProblem::TooLarge)
    }
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// A quantity that a station can have: a whole number of base units.
pub(super) trait Quantity: Copy + fmt::Display + FromStr<Err = UnitProblem> {
    /// So many base units.
    fn of(base: i64) -> Self;
    /// How many base units.
    fn base(self) -> i64;
}

macro_rules! quantities {
    ($($name:ident),+) => {
        $(impl Quantity for $name {
            fn of(base: i64) -> Self { $name(base) }
            fn base(self) -> i64 { self.0 }
        })+
    };
}

quantities!(
    Count,
    Dose,
    Irradiance,
    MassRate,
    Micrograms,
    Microliters,
    MilliCelsius,
    Millis,
    PerHour,
    PerSecond,
    Ppm
);

/// Reads the numbers of one station for one case card, collecting what does not fit.
pub(super) struct Reader<'a> {
    pub(super) station: &'a Station,
    pub(super) card: &'a CaseCard,
    pub(super) problems: &'a mut Vec<BenchProblem>,
}

impl Reader<'_> {
    /// Reports numbers that are none of these (fields, written with underscores).
    pub(super) fn known(&mut self, fields: &[&str]) {
        for number in &self.station.numbers {
            let name = number.name.value.as_str();
            if !fields.iter().any(|field| same(field, name)) {
                self.problems.push(BenchProblem {
                    at: number.name.at,
                    wrong: Wrong::NumberName,
                    found: name.to_owned(),
                    known: fields.iter().map(|field| field.replace('_', "-")).collect(),
                });
            }
        }
    }

    /// One number: as written, as changed by the case card (the last change that matches), or the default.
    ///
    /// Changes for other case cards are read as well, so that their faults show.
    pub(super) fn number<T: Quantity>(
        &mut self,
        field: &str,
        default: i64,
        least: i64,
        most: i64,
    ) -> T {
        let default = T::of(default);
        let station = self.station;
        let Some(number) = station
            .numbers
            .iter()
            .find(|number| same(field, &number.name.value))
        else {
            return default;
        };
        let range = (T::of(least), T::of(most));
        let mut chosen = self.text(&number.text, default, range);
        for (choice, value, text) in &number.changes {
            let changed = self.text(text, default, range);
            if self.card.matches(&choice.value, &value.value) {
                chosen = changed;
            }
        }
        chosen
    }

    fn text<T: Quantity>(&mut self, text: &Name, default: T, (least, most): (T, T)) -> T {
        let (wrong, known) = match text.value.parse::<T>() {
            Ok(value) if (least.base()..=most.base()).contains(&value.base()) => return value,
            Ok(_) => (
                Wrong::NumberRange,
                vec![least.to_string(), most.to_string()],
            ),
            Err(_) => (Wrong::NumberText, vec![default.to_string()]),
        };
        self.problems.push(BenchProblem {
            at: text.at,
            wrong,
            found: text.value.clone(),
            known,
        });
        default
    }
}

/// Whether a field is meant by a name (`carry_over`, `carry-over`).
fn same(field: &str, name: &str) -> bool {
    field.len() == name.len()
        && field
            .bytes()
            .zip(name.bytes())
            .all(|(a, b)| a == b && b != b'_' || a == b'_' && b == b'-')
}

/// The numbers of a station kind: each with its unit, default, least and most in base units.
macro_rules! numbers {
    ($($(#[$doc:meta])* $field:ident: $type:ident = $default:literal, $least:literal to $most:literal;)*) => {
        /// The numbers of this kind of station.
        #[derive(Clone, Debug, PartialEq)]
        pub(in crate::bench) struct Numbers {
            $($(#[$doc])* pub(in crate::bench) $field: $type,)*
        }

        impl Default for Numbers {
            fn default() -> Numbers {
                Numbers { $($field: $type($default),)* }
            }
        }

        impl Numbers {
            /// Reads them for one case card.
            pub(super) fn read(reader: &mut crate::bench::stations::number::Reader<'_>) -> Numbers {
                reader.known(&[$(stringify!($field)),*]);
                Numbers { $($field: reader.number(stringify!($field), $default, $least, $most),)* }
            }
        }
    };
}

pub(super) use numbers;
