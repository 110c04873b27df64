//! What a sentence may take in: texts, counts, quantities, lists. Each is written the way the language writes it.

use crate::units::{
    Chance, Dose, Irradiance, Micrograms, Microliters, Micrometers, MilliCelsius, Millis,
    PerSecond, Ppm,
};

/// An argument of a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// A text of any origin; it is made safe to show and set on one line.
    Text(String),
    /// A whole number. Plural forms are chosen by it; `DEC($n)` in a sentence groups its digits.
    Count(i64),
    /// A span of time.
    Time(Millis),
    /// A chance such as one in six.
    Chance(Chance),
    /// A number with a unit.
    Measure {
        /// The number, times ten to the power of `places`.
        number: i64,
        /// How many of its digits stand behind the decimal sign.
        places: u8,
        /// The message that puts the unit to the number.
        unit: Unit,
    },
    /// Several things, joined as the language joins a list.
    List(Vec<Value>),
    /// Several things of which any will do, joined as the language joins a choice.
    Either(Vec<String>),
}

/// Several things of which any will do.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Either(pub Vec<String>);

impl From<Either> for Value {
    fn from(either: Either) -> Value {
        Value::Either(either.0)
    }
}

/// The units that numbers come in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// °C
    Celsius,
    /// mm
    Millimeters,
    /// mL
    Milliliters,
    /// g
    Grams,
    /// mW/cm²
    Irradiance,
    /// J/cm²
    Dose,
    /// %
    Percent,
    /// 1/s
    PerSecond,
}

impl Unit {
    /// The message that words a number with this unit.
    pub(super) fn message(self) -> &'static str {
        match self {
            Unit::Celsius => "units-celsius",
            Unit::Millimeters => "units-millimeters",
            Unit::Milliliters => "units-milliliters",
            Unit::Grams => "units-grams",
            Unit::Irradiance => "units-irradiance",
            Unit::Dose => "units-dose",
            Unit::Percent => "units-percent",
            Unit::PerSecond => "units-per-second",
        }
    }
}

impl From<&str> for Value {
    fn from(text: &str) -> Value {
        Value::Text(text.to_owned())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Value {
        Value::Text(text)
    }
}

impl From<i64> for Value {
    fn from(count: i64) -> Value {
        Value::Count(count)
    }
}

impl From<u32> for Value {
    fn from(count: u32) -> Value {
        Value::Count(i64::from(count))
    }
}

impl From<usize> for Value {
    /// A count beyond what 64 bits with a sign hold is shown as the largest one.
    fn from(count: usize) -> Value {
        Value::Count(i64::try_from(count).unwrap_or(i64::MAX))
    }
}

impl From<Millis> for Value {
    fn from(time: Millis) -> Value {
        Value::Time(time)
    }
}

impl From<Chance> for Value {
    fn from(chance: Chance) -> Value {
        Value::Chance(chance)
    }
}

impl<T: Into<Value>> From<Vec<T>> for Value {
    fn from(items: Vec<T>) -> Value {
        Value::List(items.into_iter().map(Into::into).collect())
    }
}

macro_rules! measures {
    ($($quantity:ident: $places:literal $unit:ident;)+) => {
        $(impl From<$quantity> for Value {
            fn from(quantity: $quantity) -> Value {
                Value::Measure { number: quantity.0, places: $places, unit: Unit::$unit }
            }
        })+
    };
}

measures! {
    MilliCelsius: 3 Celsius;
    Micrometers: 3 Millimeters;
    Microliters: 3 Milliliters;
    Micrograms: 6 Grams;
    Irradiance: 3 Irradiance;
    Dose: 6 Dose;
    Ppm: 4 Percent;
    PerSecond: 6 PerSecond;
}
