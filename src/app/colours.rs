//! Whether a person wants colours.

/// How much colour a screen may use. Meaning never rests on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colours {
    /// Whatever the screens choose.
    Full,
    /// None at all: the terminal's own two, with bold, underline and reverse.
    None,
}
