//! What somebody means by a value that is typed for a member of an entry.

use crate::record::canonical::{Value, parse};

/// A value as it is typed: a number, a list or a map where it reads as one, else a text.
#[must_use]
pub fn typed_value(text: &str) -> Value {
    match parse(text.as_bytes()) {
        Ok(value @ (Value::Whole(_) | Value::List(_) | Value::Map(_) | Value::Flag(_))) => value,
        _ => Value::Text(text.to_owned().into()),
    }
}
