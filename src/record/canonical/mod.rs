//! Canonical JSON: one text for one value (RFC 8785), for integers and strings only.
//!
//! What is signed and sealed is this text, so anybody can make it again with other tools. RFC 8785 writes numbers as ECMAScript
//! does, in floating point; entries hold whole numbers within ±(2^53 − 1) only (RFC 7493, section 2.2), where that is plain
//! decimal. Anything else is refused, on reading and on writing: nothing is rounded.

mod read;
mod write;

use std::cmp::Ordering;

pub use read::{JsonFault, JsonFaultKind, parse};

/// The largest whole number whose neighbours are exact in floating point too: 2^53 − 1 (RFC 7493, section 2.2).
const LARGEST: i64 = (1 << 53) - 1;

/// A JSON value without fractions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// `null`. No entry holds one: what is absent is left out.
    Null,
    /// `true` or `false`.
    Flag(bool),
    /// A whole number.
    Whole(Whole),
    /// A text.
    Text(String),
    /// Values in their order.
    List(Vec<Value>),
    /// Members by name.
    Map(Map),
}

/// A whole number within ±(2^53 − 1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Whole(i64);

impl Whole {
    /// Returns the number, if it is one that every JSON reader keeps exactly.
    #[must_use]
    pub fn new(number: i64) -> Option<Whole> {
        (-LARGEST..=LARGEST)
            .contains(&number)
            .then_some(Whole(number))
    }

    /// The number.
    #[must_use]
    pub fn get(self) -> i64 {
        self.0
    }
}

impl Value {
    /// The canonical text.
    #[must_use]
    pub fn canonical(&self) -> String {
        let mut text = String::new();
        write::value(self, &mut text);
        text
    }
}

/// The members of a JSON object, ordered by the UTF-16 code units of their names (RFC 8785, section 3.2.3).
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Map(Vec<(String, Value)>);

impl Map {
    /// A map without members.
    #[must_use]
    pub fn new() -> Map {
        Map::default()
    }

    /// Puts a member in. Returns the value that stood under that name before.
    pub fn insert(&mut self, name: &str, value: Value) -> Option<Value> {
        match self.find(name) {
            Ok(at) => Some(std::mem::replace(&mut self.0[at].1, value)),
            Err(at) => {
                self.0.insert(at, (name.to_owned(), value));
                None
            }
        }
    }

    /// Takes a member out.
    pub fn remove(&mut self, name: &str) -> Option<Value> {
        self.find(name).ok().map(|at| self.0.remove(at).1)
    }

    /// Looks at a member.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Value> {
        self.find(name).ok().map(|at| &self.0[at].1)
    }

    /// The members in their order.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Value)> {
        self.0.iter().map(|(name, value)| (name.as_str(), value))
    }

    fn find(&self, name: &str) -> Result<usize, usize> {
        self.0.binary_search_by(|(known, _)| by_units(known, name))
    }
}

/// Orders names as RFC 8785 does. Where both are ASCII, bytes and code units order alike.
fn by_units(one: &str, other: &str) -> Ordering {
    if one.is_ascii() && other.is_ascii() {
        one.cmp(other)
    } else {
        one.encode_utf16().cmp(other.encode_utf16())
    }
}

#[cfg(test)]
mod tests;
