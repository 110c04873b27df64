//! What sits at the other end: a terminal or not, which language it is set to, and whether colours are wanted.

use std::env;
use std::ffi::OsStr;
use std::io::{self, IsTerminal as _};

use crate::app::Colours;

/// Tells whether a person can type answers.
#[must_use]
pub fn input_is_terminal() -> bool {
    io::stdin().is_terminal()
}

/// Tells whether a person sees what is printed.
#[must_use]
pub fn output_is_terminal() -> bool {
    io::stdout().is_terminal()
}

/// Returns the language the environment asks for, as a tag (`de-AT`), if it asks for one.
#[must_use]
pub fn preferred_language() -> Option<String> {
    ["LC_ALL", "LC_MESSAGES", "LANG"]
        .into_iter()
        .filter_map(|name| env::var(name).ok())
        .find(|value| !value.is_empty())
        .and_then(|value| tag_of(&value))
}

/// Returns what the environment asks for: no colours where `NO_COLOR` is set and not empty (no-color.org).
#[must_use]
pub fn colours() -> Colours {
    colours_of(env::var_os("NO_COLOR").as_deref())
}

fn colours_of(no_color: Option<&OsStr>) -> Colours {
    if no_color.is_some_and(|value| !value.is_empty()) {
        Colours::None
    } else {
        Colours::Full
    }
}

/// Reads `de_AT.UTF-8@euro` as `de-AT`; `C` and `POSIX` name no language.
fn tag_of(locale: &str) -> Option<String> {
    let name = locale.split(['.', '@']).next().unwrap_or_default();
    (!matches!(name, "" | "C" | "POSIX")).then(|| name.replace('_', "-"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_are_left_out_where_the_variable_holds_anything() {
        for (value, colours) in [
            (None, Colours::Full),
            (Some(""), Colours::Full),
            (Some("1"), Colours::None),
            (Some("0"), Colours::None),
        ] {
            assert_eq!(colours_of(value.map(OsStr::new)), colours, "{value:?}");
        }
    }

    #[test]
    fn locale_names_become_tags() {
        for (locale, tag) in [
            ("de_AT.UTF-8@euro", Some("de-AT")),
            ("es", Some("es")),
            ("C.UTF-8", None),
            ("POSIX", None),
            ("", None),
        ] {
            assert_eq!(tag_of(locale).as_deref(), tag, "{locale}");
        }
    }
}
