//! How values become members of an entry and come back. Nothing here derives: the stored form is written down, name by name.

use super::canonical::{Given, Json, Map, Value, Whole};
use super::seal::Seal;
use super::signature::{KeyId, PublicKey, Signature};
use crate::units::{Day, Digest, PersonCode, Stamp};

/// What is wrong with a member of an entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MemberFault {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: MemberFaultKind,
}

/// What can be wrong with a member.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MemberFaultKind {
    /// It is missing.
    Missing,
    /// Its value is none that may stand there.
    Wrong,
    /// Nothing of that name may stand there.
    Unknown,
}

impl MemberFault {
    pub(super) fn new(name: &str, kind: MemberFaultKind) -> MemberFault {
        MemberFault {
            name: name.to_owned(),
            kind,
        }
    }
}

/// A value that can stand in an entry.
pub(super) trait Member: Sized {
    /// The value as it is stored.
    fn to_value(&self) -> Value;
    /// Reads the stored value; none where it is not exactly what would be written.
    fn from_value(value: Json<'_>) -> Option<Self>;

    /// The words that may stand there, where it is one of a list of words; else none.
    fn words() -> &'static [&'static str] {
        &[]
    }

    /// Puts the value under its name.
    fn put(&self, name: &'static str, to: &mut Map<'static>) {
        to.insert(name, self.to_value());
    }

    /// Takes the value out from under its name.
    ///
    /// # Errors
    ///
    /// The member is missing or cannot be read.
    fn take(name: &str, from: &mut Given<'_>) -> Result<Self, MemberFault> {
        let value = from.take(name);
        let value = value.ok_or_else(|| MemberFault::new(name, MemberFaultKind::Missing))?;
        Self::from_value(value).ok_or_else(|| MemberFault::new(name, MemberFaultKind::Wrong))
    }
}

/// What is not there is left out.
impl<T: Member> Member for Option<T> {
    fn to_value(&self) -> Value {
        self.as_ref().map_or(Value::Null, Member::to_value)
    }

    fn from_value(value: Json<'_>) -> Option<Self> {
        T::from_value(value).map(Some)
    }

    fn words() -> &'static [&'static str] {
        T::words()
    }

    fn put(&self, name: &'static str, to: &mut Map<'static>) {
        if let Some(value) = self {
            value.put(name, to);
        }
    }

    fn take(name: &str, from: &mut Given<'_>) -> Result<Self, MemberFault> {
        let Some(value) = from.take(name) else {
            return Ok(None);
        };
        let read = T::from_value(value).map(Some);
        read.ok_or_else(|| MemberFault::new(name, MemberFaultKind::Wrong))
    }
}

impl<T: Member> Member for Vec<T> {
    fn to_value(&self) -> Value {
        Value::List(self.iter().map(Member::to_value).collect())
    }

    fn from_value(value: Json<'_>) -> Option<Self> {
        match value {
            Json::List(items) => items.into_iter().map(T::from_value).collect(),
            _ => None,
        }
    }
}

impl Member for Value {
    fn to_value(&self) -> Value {
        self.clone()
    }

    fn from_value(value: Json<'_>) -> Option<Value> {
        Some(value.into_owned())
    }
}

impl Member for bool {
    fn to_value(&self) -> Value {
        Value::Flag(*self)
    }

    fn from_value(value: Json<'_>) -> Option<bool> {
        match value {
            Json::Flag(flag) => Some(flag),
            _ => None,
        }
    }
}

macro_rules! whole_members {
    ($($type:ty),*) => {$(
        impl Member for $type {
            fn to_value(&self) -> Value {
                // Numbers of a strand end long before 2^53.
                i64::try_from(*self).ok().and_then(Whole::new).map_or(Value::Null, Value::Whole)
            }

            fn from_value(value: Json<'_>) -> Option<$type> {
                match value {
                    Json::Whole(number) => number.get().try_into().ok(),
                    _ => None,
                }
            }
        }
    )*};
}

macro_rules! text_members {
    ($($type:ty),*) => {$(
        impl Member for $type {
            fn to_value(&self) -> Value {
                Value::Text(self.to_string().into())
            }

            fn from_value(value: Json<'_>) -> Option<$type> {
                match value {
                    Json::Text(text) => text.parse().ok(),
                    _ => None,
                }
            }
        }
    )*};
}

whole_members!(u16, u32, u64);
// Each is read from nothing but what it is written as: whatever reads leniently would make two texts of one entry.
text_members!(Day, Stamp, Digest, Seal, PublicKey, Signature, PersonCode);
text_members!(super::scope::Id, super::scope::Text);

impl Member for KeyId {
    fn to_value(&self) -> Value {
        self.0.to_value()
    }

    fn from_value(value: Json<'_>) -> Option<KeyId> {
        Digest::from_value(value).map(KeyId)
    }
}

/// Several members that are read and written together.
pub(super) trait Members: Sized {
    /// Puts every member under its name.
    fn write(&self, to: &mut Map<'static>);
    /// Takes every member out from under its name.
    ///
    /// # Errors
    ///
    /// The first member that is missing or cannot be read.
    fn read(from: &mut Given<'_>) -> Result<Self, MemberFault>;
    /// The words that may stand under a name, where it is one of a list of words.
    fn words_of(name: &str) -> &'static [&'static str];
}

/// The words that may stand under a name, by the type of what has such members.
pub(super) fn words_of<T: Members>(_: &T, name: &str) -> &'static [&'static str] {
    T::words_of(name)
}

/// Reads members and refuses any that is left over.
pub(super) fn read_all<T: Members>(mut from: Given<'_>) -> Result<T, MemberFault> {
    let read = T::read(&mut from)?;
    match from.left() {
        Some(name) => Err(MemberFault::new(name, MemberFaultKind::Unknown)),
        None => Ok(read),
    }
}

/// Writes members into a map of their own.
pub(super) fn written<T: Members>(members: &T) -> Map<'static> {
    let mut map = Map::new();
    members.write(&mut map);
    map
}

/// Declares a struct by its members: the name each is stored under, then the field.
macro_rules! members {
    ($(#[$doc:meta])* $name:ident { $($(#[$field_doc:meta])* $key:literal $field:ident: $type:ty,)* }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub struct $name {
            $($(#[$field_doc])* pub $field: $type,)*
        }

        impl $crate::record::member::Members for $name {
            fn write(&self, to: &mut $crate::record::canonical::Map<'static>) {
                $($crate::record::member::Member::put(&self.$field, $key, to);)*
            }

            fn read(
                from: &mut $crate::record::canonical::Given<'_>,
            ) -> Result<Self, $crate::record::member::MemberFault> {
                Ok($name {
                    $($field: $crate::record::member::Member::take($key, from)?,)*
                })
            }

            fn words_of(name: &str) -> &'static [&'static str] {
                match name {
                    $($key => <$type as $crate::record::member::Member>::words(),)*
                    _ => &[],
                }
            }
        }
    };
}

/// Declares a struct that stands inside an entry as a map of its own.
macro_rules! inner_members {
    ($(#[$doc:meta])* $name:ident { $($inside:tt)* }) => {
        $crate::record::member::members! { $(#[$doc])* $name { $($inside)* } }

        impl $crate::record::member::Member for $name {
            fn to_value(&self) -> $crate::record::canonical::Value {
                $crate::record::canonical::Json::Map($crate::record::member::written(self))
            }

            fn from_value(value: $crate::record::canonical::Json<'_>) -> Option<Self> {
                match value {
                    $crate::record::canonical::Json::Map(map) => {
                        $crate::record::member::read_all(map.given()).ok()
                    }
                    _ => None,
                }
            }
        }
    };
}

/// Declares an enum by the words that its values are stored as.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$word_doc:meta])* $word:literal $variant:ident,)* }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$word_doc])* $variant,)*
        }

        impl $name {
            /// Every value.
            pub const ALL: &[$name] = &[$($name::$variant),*];

            /// The word that the value is stored as.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self {
                    $($name::$variant => $word,)*
                }
            }
        }

        impl $crate::record::member::Member for $name {
            fn to_value(&self) -> $crate::record::canonical::Value {
                $crate::record::canonical::Json::Text(self.word().into())
            }

            fn from_value(value: $crate::record::canonical::Json<'_>) -> Option<Self> {
                match value {
                    $crate::record::canonical::Json::Text(text) => {
                        $name::ALL.iter().copied().find(|one| one.word() == text)
                    }
                    _ => None,
                }
            }

            fn words() -> &'static [&'static str] {
                &[$($word),*]
            }
        }
    };
}

pub(super) use {inner_members, members, words};

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::record::scope::{Id, Text};

    /// Whatever is read from a text is written as that text.
    fn is_exact<T: Member>(text: &str) -> bool {
        let read = T::from_value(Json::Text(text.into()));
        read.is_none_or(|read| read.to_value() == Value::Text(text.to_owned().into()))
    }

    fn all_are_exact(text: &str) -> bool {
        is_exact::<Day>(text)
            && is_exact::<Stamp>(text)
            && is_exact::<Digest>(text)
            && is_exact::<Seal>(text)
            && is_exact::<PublicKey>(text)
            && is_exact::<Signature>(text)
            && is_exact::<PersonCode>(text)
            && is_exact::<Id>(text)
            && is_exact::<Text>(text)
    }

    proptest! {
        #[test]
        fn one_value_has_one_text(
            hex in "[0-9a-fA-F]{64}",
            long in "[0-9a-f]{128}",
            stamp in "[12][0-9]{3}-[01][0-9]-[0-3][0-9][Tt ][0-2][0-9]:[0-6][0-9]:[0-6][0-9][+-][01][0-9]:[0-6][0-9]",
            code in "[Pp]-?[0-9A-Za-z]{6}",
            id in "[ a-zA-Z0-9-]{0,8}",
            words in "[ -~\u{9}\u{a0}\u{e9}\u{200b}]{0,8}",
        ) {
            for text in [&id, &words, &hex, &hex.to_lowercase(), &long, &stamp, &stamp[..10].to_owned(), &code] {
                prop_assert!(all_are_exact(text), "{}", text);
            }
        }
    }

    #[test]
    fn what_is_nearly_written_so_is_not_read() {
        let hex = "a".repeat(64);
        assert!(Digest::from_value(Json::Text(hex.as_str().into())).is_some());
        for text in [
            hex.to_uppercase(),
            format!(" {hex}"),
            format!("{hex} "),
            format!("+{hex}"),
        ] {
            assert!(Digest::from_value(Json::Text(text.into())).is_none());
        }
        for text in [
            "2026-03-03T09:10:00Z",
            "2026-03-03t09:10:00+01:00",
            "2026-03-03T09:10:00.0+01:00",
            "2026-03-03T09:10:00-00:00",
        ] {
            assert!(Stamp::from_value(Json::Text(text.into())).is_none());
        }
    }
}
