//! Canonical JSON: one text for one value (RFC 8785), for integers and strings only.
//!
//! What is signed and sealed is this text, so anybody can make it again with other tools. RFC 8785 writes numbers as ECMAScript
//! does, in floating point; entries hold whole numbers within ±(2^53 − 1) only (RFC 7493, section 2.2), where that is plain
//! decimal. Anything else is refused, on reading and on writing: nothing is rounded.

mod read;
mod write;

use std::borrow::Cow;
use std::cmp::Ordering;

pub(super) use read::parse_noting;
pub use read::{JsonFault, JsonFaultKind, parse};

/// The largest whole number whose neighbours are exact in floating point too: 2^53 − 1 (RFC 7493, section 2.2).
const LARGEST: i64 = (1 << 53) - 1;

/// A JSON value without fractions that stands by itself.
pub type Value = Json<'static>;

/// A JSON value without fractions, with the texts of whatever it was read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Json<'a> {
    /// `null`. No entry holds one: what is absent is left out.
    Null,
    /// `true` or `false`.
    Flag(bool),
    /// A whole number.
    Whole(Whole),
    /// A text.
    Text(Cow<'a, str>),
    /// Values in their order.
    List(Vec<Json<'a>>),
    /// Members by name.
    Map(Map<'a>),
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

impl Json<'_> {
    /// The canonical text.
    #[must_use]
    pub fn canonical(&self) -> String {
        let mut text = String::new();
        write::value(self, &mut text);
        text
    }

    /// The same with texts of its own.
    #[must_use]
    pub fn into_owned(self) -> Value {
        match self {
            Json::Null => Json::Null,
            Json::Flag(flag) => Json::Flag(flag),
            Json::Whole(number) => Json::Whole(number),
            Json::Text(text) => Json::Text(text.into_owned().into()),
            Json::List(items) => Json::List(items.into_iter().map(Json::into_owned).collect()),
            Json::Map(Map(members)) => {
                let own = |(name, value): (Cow<'_, str>, Json<'_>)| {
                    (name.into_owned().into(), value.into_owned())
                };
                Json::Map(Map(members.into_iter().map(own).collect()))
            }
        }
    }
}

/// The members of a JSON object, ordered by the UTF-16 code units of their names (RFC 8785, section 3.2.3).
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Map<'a>(Vec<(Cow<'a, str>, Json<'a>)>);

/// For so many members there is room at once.
const MEMBERS: usize = 16;

/// Where a member came to stand.
enum Added {
    /// Behind all others.
    Behind,
    /// Before another.
    Between,
    /// In the place of one of that name.
    Twice,
}

impl<'a> Map<'a> {
    /// A map without members.
    #[must_use]
    pub fn new() -> Map<'a> {
        Map::default()
    }

    /// Puts a member in. Returns the value that stood under that name before.
    pub fn insert(&mut self, name: impl Into<Cow<'a, str>>, value: Json<'a>) -> Option<Json<'a>> {
        let name = name.into();
        match self.place(&name) {
            Ok(at) => Some(std::mem::replace(&mut self.0[at].1, value)),
            Err(at) => {
                self.0.insert(at, (name, value));
                None
            }
        }
    }

    /// Adds a member that is not there yet.
    fn add(&mut self, name: Cow<'a, str>, value: Json<'a>) -> Added {
        let behind = match self.0.last() {
            None => {
                self.0.reserve(MEMBERS);
                true
            }
            Some((last, _)) => by_units(last, &name) == Ordering::Less,
        };
        if behind {
            self.0.push((name, value));
            return Added::Behind;
        }
        match self.insert(name, value) {
            None => Added::Between,
            Some(_) => Added::Twice,
        }
    }

    /// Takes a member out.
    pub fn remove(&mut self, name: &str) -> Option<Json<'a>> {
        self.find(name).map(|at| self.0.remove(at).1)
    }

    /// The members to be taken out one by one.
    pub(super) fn given(self) -> Given<'a> {
        Given(self.0)
    }

    /// Looks at a member.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Json<'a>> {
        self.find(name).map(|at| &self.0[at].1)
    }

    /// The members in their order.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Json<'a>)> {
        self.0.iter().map(|(name, value)| (name.as_ref(), value))
    }

    /// Where a member is. Maps are small: looking at each is faster than halving.
    fn find(&self, name: &str) -> Option<usize> {
        self.0.iter().position(|(known, _)| known == name)
    }

    /// Where a member is, or where it would have to stand.
    fn place(&self, name: &str) -> Result<usize, usize> {
        self.0.binary_search_by(|(known, _)| by_units(known, name))
    }
}

/// Members on their way out of a map, in no order any more: taking one moves no others.
pub(super) struct Given<'a>(Vec<(Cow<'a, str>, Json<'a>)>);

impl<'a> Given<'a> {
    /// Takes a member out.
    pub(super) fn take(&mut self, name: &str) -> Option<Json<'a>> {
        let at = self.0.iter().position(|(known, _)| known == name)?;
        Some(self.0.swap_remove(at).1)
    }

    /// The name of a member that nobody has taken. Where there are several, the first in the order of a map.
    pub(super) fn left(&self) -> Option<&str> {
        let names = self.0.iter().map(|(name, _)| name.as_ref());
        names.min_by(|one, other| by_units(one, other))
    }
}

/// Orders names as RFC 8785 does. Where they differ in ASCII, bytes and code units order alike.
fn by_units(one: &str, other: &str) -> Ordering {
    let differ = |(one, other): &(u8, u8)| one != other;
    match one.bytes().zip(other.bytes()).find(differ) {
        None => one.len().cmp(&other.len()),
        Some((one, other)) if one.is_ascii() && other.is_ascii() => one.cmp(&other),
        Some(_) => one.encode_utf16().cmp(other.encode_utf16()),
    }
}

#[cfg(test)]
mod tests;
