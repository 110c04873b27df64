//! How codes, stamps, words and scopes are spelled in the lines of a bench run: as they stand in entries.

use std::fmt::Display;
use std::str::FromStr;

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::record::scope::{Edition, Id, Scope};
use crate::units::Digest;

/// What prints as it is read.
pub(super) mod text {
    use super::*;

    pub(in super::super) fn serialize<T: Display, S: Serializer>(
        value: &T,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.collect_str(value)
    }

    pub(in super::super) fn deserialize<'de, T: FromStr, D: Deserializer<'de>>(
        from: D,
    ) -> Result<T, D::Error> {
        let text = String::deserialize(from)?;
        text.parse()
            .map_err(|_| D::Error::custom(format_args!("`{text}` cannot stand there")))
    }
}

macro_rules! by_word {
    ($($name:ident: $type:ident;)*) => {$(
        /// One of the words that entries know.
        pub(super) mod $name {
            use super::*;
            use crate::record::entry::$type;

            pub(in super::super) fn serialize<S: Serializer>(value: &$type, to: S) -> Result<S::Ok, S::Error> {
                value.word().serialize(to)
            }

            pub(in super::super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<$type, D::Error> {
                let word = String::deserialize(from)?;
                let found = $type::ALL.iter().copied().find(|one| one.word() == word);
                found.ok_or_else(|| D::Error::custom(format_args!("`{word}` cannot stand there")))
            }
        }
    )*};
}

by_word! {
    seen: Seen;
    judgement: Judgement;
    method: Method;
}

/// A scope, member by member.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Scope", rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct SpelledScope {
    #[serde(with = "text")]
    workflow: Id,
    #[serde(with = "text")]
    profile: Id,
    #[serde(with = "text")]
    wash: Id,
    #[serde(with = "text")]
    cure: Id,
}

/// An edition, member by member.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Edition", rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct SpelledEdition {
    revision: u32,
    #[serde(with = "text")]
    digest: Digest,
}
