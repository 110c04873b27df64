//! From text to a module.

/// Where something stands in a file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Line, from 1.
    pub line: u32,
    /// Column in characters, from 1.
    pub column: u32,
}

/// A value and where it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot<T> {
    /// The value.
    pub value: T,
    /// Where it was written.
    pub at: Place,
}
