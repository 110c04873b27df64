//! Every sentence that people read outside modules, looked up by name in the language they chose.
//!
//! `Words` holds one language with its fallbacks; `Value` is what a sentence may take in; `display_safe` makes a text of
//! unknown origin harmless, `cell_safe` makes it fit the cells of a screen; `wrap` fits lines to columns. A language is a folder
//! of Fluent files below `locales/`: number and list formats stand there too, so that a new language needs no code.
//! Left out: screens, printing, and finding out which language somebody wants.

mod caution;
mod cell_safe;
#[cfg(test)]
#[path = "../../tests/it/support/dangerous.rs"]
pub(crate) mod dangerous;
mod display_safe;
mod number;
mod quantity;
mod sought;
mod value;
mod words;
pub mod wrap;

pub use caution::Caution;
pub use cell_safe::cell_safe;
pub use display_safe::{display_safe, display_safe_lines};
pub use number::NumberFormat;
pub use sought::Sought;
pub use value::{Either, Value};
pub use words::{SOURCE_LANGUAGE, Spoken, Words};
