//! Quantities as integers with names: durations, temperatures, lengths, volumes, light, shares.
//!
//! Also what several rooms name alike: days and instants, the code of a person, the digest of a text.
//!
//! Everything that a run stores is one of these, so that the same run gives the same bytes on every machine.
//! Each type parses what people write (`2 min`, `40 °C`, `0.17 mm`) and prints it back.
//! Left out: arithmetic on floating-point numbers, which belongs to `bench::physics`.

mod code;
mod day;
mod digest;
mod instant;

use std::fmt;
use std::str::FromStr;

pub use code::{CodeProblem, PersonCode};
pub use day::{Day, NoSuchDay};
pub use digest::{Digest, NoHex, from_hex, hex, write_hex};
pub use instant::{Instant, NoSuchInstant, Offset, Stamp};

/// Why a text is no quantity of the wanted type.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum UnitProblem {
    /// There is no number at the start.
    NoNumber,
    /// There is a number without a unit. Holds the units that would do.
    NoUnit(&'static str),
    /// The unit is not one of this quantity. Holds what was found and the units that would do.
    UnknownUnit {
        /// The unit as written.
        found: String,
        /// The units this quantity knows, separated by commas.
        known: &'static str,
    },
    /// The number has more digits than the quantity keeps (for example a tenth of a millisecond).
    TooFine,
    /// The number does not fit.
    TooLarge,
}

/// One unit of a quantity: its spellings and how many base units it holds.
type Unit = (&'static [&'static str], i64);

/// Reads a decimal number and scales it by `scale`, exactly.
fn scaled(number: &str, scale: i64) -> Result<i64, UnitProblem> {
    let (sign, digits) = match number.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (-1_i128, rest),
        None => (1, number),
    };
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
    if whole.is_empty() || fraction.len() > 12 || whole.len() > 18 {
        return Err(if whole.is_empty() {
            UnitProblem::NoNumber
        } else {
            UnitProblem::TooLarge
        });
    }
    let parse = |text: &str| -> Result<i128, UnitProblem> {
        if text.is_empty() {
            Ok(0)
        } else if text.bytes().all(|b| b.is_ascii_digit()) {
            text.parse().map_err(|_| UnitProblem::TooLarge)
        } else {
            Err(UnitProblem::NoNumber)
        }
    };
    let power = 10_i128.pow(u32::try_from(fraction.len()).map_err(|_| UnitProblem::TooLarge)?);
    let numerator = (parse(whole)? * power + parse(fraction)?) * i128::from(scale);
    if numerator % power != 0 {
        return Err(UnitProblem::TooFine);
    }
    i64::try_from(sign * numerator / power).map_err(|_| UnitProblem::TooLarge)
}

/// Splits `12.5 mW/cm²` into its number and its unit.
fn split(text: &str) -> Result<(&str, &str), UnitProblem> {
    let text = text.trim();
    let end = text
        .char_indices()
        .find(|&(at, c)| {
            !(c.is_ascii_digit() || c == '.' || (at == 0 && (c == '-' || c == '\u{2212}')))
        })
        .map_or(text.len(), |(at, _)| at);
    let (number, unit) = text.split_at(end);
    if number.is_empty() || !number.bytes().any(|b| b.is_ascii_digit()) {
        return Err(UnitProblem::NoNumber);
    }
    Ok((number, unit.trim()))
}

/// Reads one number with one unit of `units`.
fn quantity(text: &str, units: &[Unit], known: &'static str) -> Result<i64, UnitProblem> {
    let (number, unit) = split(text)?;
    if unit.is_empty() {
        return Err(UnitProblem::NoUnit(known));
    }
    let Some((_, scale)) = units.iter().find(|(names, _)| names.contains(&unit)) else {
        return Err(UnitProblem::UnknownUnit {
            found: unit.to_owned(),
            known,
        });
    };
    scaled(number, *scale)
}

/// Prints `value / scale` without trailing zeros.
fn decimal(f: &mut fmt::Formatter<'_>, value: i64, scale: i64, unit: &str) -> fmt::Result {
    let sign = if value < 0 { "-" } else { "" };
    let whole = value.unsigned_abs() / scale.unsigned_abs();
    let mut rest = value.unsigned_abs() % scale.unsigned_abs();
    if rest == 0 {
        return write!(f, "{sign}{whole}{unit}");
    }
    let mut digits = String::new();
    let mut place = scale.unsigned_abs() / 10;
    while rest > 0 && place > 0 {
        digits.push(char::from(b'0' + u8::try_from(rest / place).unwrap_or(0)));
        rest %= place;
        place /= 10;
    }
    write!(f, "{sign}{whole}.{digits}{unit}")
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $base:literal, [$(([$($spelling:literal),+], $scale:literal)),+], $known:literal, print $print_scale:literal $print_unit:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub i64);

        impl FromStr for $name {
            type Err = UnitProblem;

            fn from_str(text: &str) -> Result<Self, UnitProblem> {
                quantity(text, &[$((&[$($spelling),+], $scale)),+], $known).map(Self)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                decimal(f, self.0, $print_scale, $print_unit)
            }
        }
    };
}

quantity! {
    /// A temperature in thousandths of a degree Celsius.
    MilliCelsius, "m°C", [(["°C", "C"], 1000)], "°C", print 1000 " °C"
}
quantity! {
    /// A length in micrometres.
    Micrometers, "µm", [(["µm", "um", "μm"], 1), (["mm"], 1000), (["cm"], 10_000), (["m"], 1_000_000)], "µm, mm, cm, m", print 1000 " mm"
}
quantity! {
    /// A volume in microlitres.
    Microliters, "µL", [(["µL", "uL", "μL"], 1), (["mL", "ml"], 1000), (["L", "l"], 1_000_000), (["m³", "m3"], 1_000_000_000)], "mL, L, m³", print 1000 " mL"
}
quantity! {
    /// A mass in micrograms.
    Micrograms, "µg", [(["µg", "ug", "μg"], 1), (["mg"], 1000), (["g"], 1_000_000)], "mg, g", print 1_000_000 " g"
}
quantity! {
    /// Light arriving on a surface, in microwatts per square centimetre.
    Irradiance, "µW/cm²", [(["µW/cm²", "uW/cm2", "μW/cm²"], 1), (["mW/cm²", "mW/cm2"], 1000)], "mW/cm²", print 1000 " mW/cm²"
}
quantity! {
    /// Light received by a surface, in microjoules per square centimetre.
    Dose, "µJ/cm²", [(["µJ/cm²", "uJ/cm2"], 1), (["mJ/cm²", "mJ/cm2"], 1000), (["J/cm²", "J/cm2"], 1_000_000)], "mJ/cm², J/cm²", print 1_000_000 " J/cm²"
}
quantity! {
    /// A share of a whole, in parts per million.
    Ppm, "ppm", [(["%"], 10_000), (["‰"], 1000), (["ppm"], 1)], "%, ‰, ppm", print 10_000 " %"
}
quantity! {
    /// A rate of removal or drying, in millionths per second.
    PerSecond, "1/s", [(["/s", "per s"], 1_000_000), (["/min", "per min"], 16_666)], "/s, /min", print 1_000_000 " /s"
}

quantity! {
    /// How often the air of a room is changed, in thousandths per hour.
    PerHour, "1/h", [(["/h", "per h"], 1000)], "/h", print 1000 " /h"
}
quantity! {
    /// How fast something evaporates, in micrograms per minute.
    MassRate, "µg/min", [(["mg/min"], 1000), (["g/min"], 1_000_000)], "mg/min, g/min", print 1_000_000 " g/min"
}

/// A span of time or an instant since the start of a run, in milliseconds.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    serde::Serialize,
    serde::Deserialize,
)]
#[serde(transparent)]
pub struct Millis(pub i64);

impl Millis {
    /// No time at all.
    pub const ZERO: Millis = Millis(0);

    /// The given number of whole seconds.
    #[must_use]
    pub const fn seconds(seconds: i64) -> Millis {
        Millis(seconds * 1000)
    }

    /// The given number of whole minutes.
    #[must_use]
    pub const fn minutes(minutes: i64) -> Millis {
        Millis(minutes * 60_000)
    }

    /// The span in seconds, for the closed forms of `bench::physics`.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "a run is far shorter than 2^53 ms"
    )]
    pub fn as_seconds(self) -> f64 {
        self.0 as f64 / 1000.0
    }

    /// The larger of the span and nothing.
    #[must_use]
    pub fn at_least_zero(self) -> Millis {
        Millis(self.0.max(0))
    }
}

impl std::ops::Add for Millis {
    type Output = Millis;
    fn add(self, other: Millis) -> Millis {
        Millis(self.0 + other.0)
    }
}

impl std::ops::AddAssign for Millis {
    fn add_assign(&mut self, other: Millis) {
        self.0 += other.0;
    }
}

impl std::ops::Sub for Millis {
    type Output = Millis;
    fn sub(self, other: Millis) -> Millis {
        Millis(self.0 - other.0)
    }
}

impl std::ops::Neg for Millis {
    type Output = Millis;
    fn neg(self) -> Millis {
        Millis(-self.0)
    }
}

impl std::iter::Sum for Millis {
    fn sum<I: Iterator<Item = Millis>>(all: I) -> Millis {
        Millis(all.map(|one| one.0).sum())
    }
}

const TIME_UNITS: &str = "ms, s, min, h, days";

/// Scale of one spelling of a unit of time, in milliseconds.
fn time_scale(unit: &str) -> Option<i64> {
    Some(match unit {
        "ms" => 1,
        "s" | "sec" | "second" | "seconds" => 1000,
        "min" | "minute" | "minutes" => 60_000,
        "h" | "hour" | "hours" => 3_600_000,
        "day" | "days" | "d" => 86_400_000,
        _ => return None,
    })
}

impl FromStr for Millis {
    type Err = UnitProblem;

    /// Accepts `90 s`, `2 min`, `1 min 30 s`, `2:00` (minutes and seconds) and `1.5 min`.
    fn from_str(text: &str) -> Result<Millis, UnitProblem> {
        let text = text.trim();
        if let Some((minutes, seconds)) = text.split_once(':') {
            if seconds.len() != 2 {
                return Err(UnitProblem::NoNumber);
            }
            let seconds = scaled(seconds, 1000)?;
            if seconds >= 60_000 {
                return Err(UnitProblem::TooLarge);
            }
            let minutes = scaled(minutes, 60_000)?;
            return minutes
                .checked_add(seconds)
                .map(Millis)
                .ok_or(UnitProblem::TooLarge);
        }
        let mut rest = text;
        let mut total = 0_i64;
        let mut last_scale = i64::MAX;
        loop {
            let (number, after) = split(rest)?;
            if after.is_empty() {
                return Err(UnitProblem::NoUnit(TIME_UNITS));
            }
            let end = after
                .find(|c: char| c.is_whitespace() || c.is_ascii_digit())
                .unwrap_or(after.len());
            let (unit, next) = after.split_at(end);
            let unknown = || UnitProblem::UnknownUnit {
                found: unit.to_owned(),
                known: TIME_UNITS,
            };
            let scale = time_scale(unit).ok_or_else(unknown)?;
            if scale >= last_scale {
                return Err(unknown());
            }
            last_scale = scale;
            total = total
                .checked_add(scaled(number, scale)?)
                .ok_or(UnitProblem::TooLarge)?;
            rest = next.trim_start();
            if rest.is_empty() {
                return Ok(Millis(total));
            }
        }
    }
}

impl fmt::Display for Millis {
    /// Prints `350 ms`, `10 s`, `2 min`, `1 min 50 s`, `1 h 5 min`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let mut rest = self.0.unsigned_abs();
        if rest == 0 {
            return write!(f, "0 s");
        }
        write!(f, "{sign}")?;
        let mut first = true;
        for (scale, unit) in [(3_600_000, "h"), (60_000, "min")] {
            if rest >= scale {
                let gap = if first { "" } else { " " };
                write!(f, "{gap}{} {unit}", rest / scale)?;
                rest %= scale;
                first = false;
            }
        }
        if rest == 0 {
            return Ok(());
        }
        let gap = if first { "" } else { " " };
        if first && rest < 1000 {
            return write!(f, "{rest} ms");
        }
        write!(f, "{gap}")?;
        let seconds = i64::try_from(rest).unwrap_or(i64::MAX);
        decimal(f, seconds, 1000, " s")
    }
}

/// A chance as people say it: `1 in 6`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chance {
    /// How many of…
    pub hits: u32,
    /// …how many. Never zero.
    pub of: u32,
}

impl FromStr for Chance {
    type Err = UnitProblem;

    fn from_str(text: &str) -> Result<Chance, UnitProblem> {
        let (hits, of) = text
            .split_once(" in ")
            .ok_or(UnitProblem::NoUnit("1 in 6"))?;
        let number = |part: &str| {
            part.trim()
                .parse::<u32>()
                .map_err(|_| UnitProblem::NoNumber)
        };
        let chance = Chance {
            hits: number(hits)?,
            of: number(of)?,
        };
        if chance.of == 0 || chance.hits > chance.of {
            return Err(UnitProblem::TooLarge);
        }
        Ok(chance)
    }
}

impl fmt::Display for Chance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} in {}", self.hits, self.of)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn millis(text: &str) -> Result<Millis, UnitProblem> {
        text.parse()
    }

    #[test]
    fn durations_are_read_as_people_write_them() {
        for (text, expected) in [
            ("2 min", 120_000),
            ("2min", 120_000),
            ("110 s", 110_000),
            ("1 min 50 s", 110_000),
            ("2:00", 120_000),
            ("1:05", 65_000),
            ("0.5 s", 500),
            ("1.5 min", 90_000),
            ("350 ms", 350),
            ("1 h 5 min", 3_900_000),
        ] {
            assert_eq!(millis(text), Ok(Millis(expected)), "{text}");
        }
    }

    #[test]
    fn what_is_no_duration_says_why() {
        assert_eq!(millis("120"), Err(UnitProblem::NoUnit(TIME_UNITS)));
        assert_eq!(millis("soon"), Err(UnitProblem::NoNumber));
        assert_eq!(millis("0.0001 s"), Err(UnitProblem::TooFine));
        assert_eq!(millis("1:75"), Err(UnitProblem::TooLarge));
        assert_eq!(millis("99999999999999999999 h"), Err(UnitProblem::TooLarge));
        assert!(matches!(
            millis("2 minuets"),
            Err(UnitProblem::UnknownUnit { .. })
        ));
        assert!(matches!(
            millis("5 s 2 min"),
            Err(UnitProblem::UnknownUnit { .. })
        ));
    }

    #[test]
    fn quantities_round_trip() {
        for text in ["40 °C", "-3.5 °C"] {
            assert_eq!(
                text.parse::<MilliCelsius>().map(|q| q.to_string()),
                Ok(text.to_owned())
            );
        }
        assert_eq!("0.17 mm".parse::<Micrometers>(), Ok(Micrometers(170)));
        assert_eq!(
            "1000 mW/cm²".parse::<Irradiance>(),
            Ok(Irradiance(1_000_000))
        );
        assert_eq!("6 %".parse::<Ppm>(), Ok(Ppm(60_000)));
        assert_eq!(Ppm(65_000).to_string(), "6.5 %");
        assert_eq!("1 in 6".parse::<Chance>(), Ok(Chance { hits: 1, of: 6 }));
        assert!("7 in 6".parse::<Chance>().is_err());
    }

    #[test]
    fn durations_print_shortly() {
        for (value, text) in [
            (0, "0 s"),
            (350, "350 ms"),
            (10_000, "10 s"),
            (10_500, "10.5 s"),
            (110_000, "1 min 50 s"),
            (120_000, "2 min"),
            (3_900_000, "1 h 5 min"),
            (-5_000, "-5 s"),
        ] {
            assert_eq!(Millis(value).to_string(), text);
        }
    }

    proptest::proptest! {
        #[test]
        fn every_duration_round_trips(value in -10_000_000_i64..100_000_000) {
            let printed = Millis(value).to_string();
            let expected = Millis(value);
            if value >= 0 {
                proptest::prop_assert_eq!(printed.parse::<Millis>(), Ok(expected));
            }
        }

        #[test]
        fn no_text_makes_reading_panic(text in ".{0,40}") {
            drop(text.parse::<Millis>());
            drop(text.parse::<Ppm>());
            drop(text.parse::<Chance>());
        }
    }
}
