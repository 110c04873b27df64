//! Decoders for single texts: free text, names, words of a fixed list, whole numbers and quantities.

use std::fmt;
use std::ops::RangeInclusive;
use std::str::FromStr;

use super::decode::spot;
use super::fault::{Fault, Form, Kind, Shape};
use super::nearest::nearest;
use super::problem::{Problems, Spot, excerpt};
use super::tree::{Node, Value};
use crate::units;

/// The words possible in one place and what they stand for.
pub type Words<T> = [(&'static str, T)];

/// The text of a scalar, or a complaint about another shape.
pub(super) fn raw<'t>(node: &'t Node, problems: &mut Problems) -> Option<&'t str> {
    match &node.value {
        Value::Scalar { text, .. } => Some(text),
        _ => problems.refuse(
            node.at,
            Fault::WrongShape {
                found: node.shape(),
                expected: &[Shape::Scalar],
            },
        ),
    }
}

/// Reads a text for people. White space around it is dropped, and something must be left.
pub fn text(node: &Node, problems: &mut Problems) -> Option<String> {
    let text = raw(node, problems)?.trim();
    if text.is_empty() {
        return problems.refuse(node.at, Fault::Nothing);
    }
    Some(text.to_owned())
}

/// Reads a text of a form of its own, for example a date.
pub fn formed<T>(
    expected: Form,
    make: impl Fn(&str) -> Option<T>,
) -> impl Fn(&Node, &mut Problems) -> Option<T> {
    move |node, problems| {
        let text = raw(node, problems)?;
        let made = make(text);
        if made.is_none() {
            let found = excerpt(text);
            problems.add(node.at, Fault::WrongForm { found, expected });
        }
        made
    }
}

/// Reads a name such as `first-wash`, with its place. Names stand in records and on command lines, so they are kept plain.
pub fn name(node: &Node, problems: &mut Problems) -> Option<Spot<String>> {
    spot(formed(Form::Name, |text| {
        is_name(text).then(|| text.to_owned())
    }))(node, problems)
}

/// Whether a text is letters and digits in groups joined by single hyphens, starting with a letter.
fn is_name(text: &str) -> bool {
    text.len() <= 64
        && text.starts_with(|c: char| c.is_ascii_alphabetic())
        && text.split('-').all(|group| {
            !group.is_empty() && group.bytes().all(|byte| byte.is_ascii_alphanumeric())
        })
}

/// Reads one word of a fixed list.
pub fn word<T: Clone>(words: &Words<T>) -> impl Fn(&Node, &mut Problems) -> Option<T> + '_ {
    move |node, problems| {
        let text = raw(node, problems)?;
        match words.iter().find(|(known, _)| *known == text) {
            Some((_, value)) => Some(value.clone()),
            None => problems.refuse(node.at, unknown_word(text, words.iter().map(|it| it.0))),
        }
    }
}

/// The complaint about a word that is not one of `known`.
pub(super) fn unknown_word(found: &str, known: impl Iterator<Item = &'static str>) -> Fault {
    let known: Vec<&'static str> = known.collect();
    Fault::UnknownWord {
        found: excerpt(found),
        suggestion: nearest(found, known.iter().copied()).map(str::to_owned),
        known,
    }
}

/// Reads `yes` or `no`, and nothing that merely looks like it.
pub fn yes_no(node: &Node, problems: &mut Problems) -> Option<bool> {
    word(&[("yes", true), ("no", false)])(node, problems)
}

/// Reads a whole number within limits.
pub fn whole<T>(limits: RangeInclusive<T>) -> impl Fn(&Node, &mut Problems) -> Option<T>
where
    T: FromStr + PartialOrd + fmt::Display,
{
    move |node, problems| {
        let text = raw(node, problems)?;
        let digits = text.strip_prefix('-').unwrap_or(text);
        let found = excerpt(text);
        if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
            let expected = Form::WholeNumber;
            return problems.refuse(node.at, Fault::WrongForm { found, expected });
        }
        // Digits that make no number of this type are outside its limits all the more.
        match text.parse() {
            Ok(number) if limits.contains(&number) => Some(number),
            _ => problems.refuse(node.at, out_of_range(found, &limits)),
        }
    }
}

fn out_of_range<T: fmt::Display>(found: String, limits: &RangeInclusive<T>) -> Fault {
    Fault::OutOfRange {
        found,
        least: limits.start().to_string(),
        most: limits.end().to_string(),
    }
}

/// A type of [`crate::units`] that a module can state.
pub trait Quantity: FromStr<Err = units::UnitProblem> {
    /// What kind of quantity it is.
    const KIND: Kind;
}

macro_rules! quantities {
    ($($unit:ident is $kind:ident),+ $(,)?) => {
        $(impl Quantity for units::$unit {
            const KIND: Kind = Kind::$kind;
        })+
    };
}

quantities! {
    Millis is Duration,
    MilliCelsius is Temperature,
    Micrometers is Length,
    Microliters is Volume,
    Micrograms is Mass,
    Irradiance is Irradiance,
    Dose is Dose,
    Ppm is Share,
    PerSecond is Rate,
    Chance is Chance,
}

/// Reads a quantity as people write it: `2 min`, `40 °C`, `1 in 6`.
pub fn quantity<T: Quantity>(node: &Node, problems: &mut Problems) -> Option<T> {
    let text = raw(node, problems)?;
    match text.parse() {
        Ok(value) => Some(value),
        Err(why) => problems.refuse(
            node.at,
            Fault::NoQuantity {
                found: excerpt(text),
                kind: T::KIND,
                why,
            },
        ),
    }
}

/// Reads a quantity within limits.
pub fn within<T>(limits: RangeInclusive<T>) -> impl Fn(&Node, &mut Problems) -> Option<T>
where
    T: Quantity + PartialOrd + fmt::Display,
{
    move |node, problems| {
        let value: T = quantity(node, problems)?;
        if limits.contains(&value) {
            return Some(value);
        }
        problems.refuse(node.at, out_of_range(value.to_string(), &limits))
    }
}
