//! From the bytes of a module file to typed values, with every complaint at its place.

mod nearest;

pub use nearest::nearest;
