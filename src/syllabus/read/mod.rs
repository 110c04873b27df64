//! From the bytes of a module file to typed values, with every complaint at its place.
//!
//! Reading goes in two steps: [`parse`] makes a tree that knows where everything stands and keeps text as text,
//! then small decoders take the tree apart and collect whatever does not fit.
//! Left out: what a module means. References, orders and times are checked later, on the decoded module.
//!
//! ```
//! use drybench::syllabus::read::{MapReader, Node, Problems, Spot, name, quantity, read, whole};
//! use drybench::units::Millis;
//!
//! struct Tack {
//!     id: Spot<String>,
//!     after: Vec<Spot<String>>,
//!     hold: Option<Millis>,
//!     sides: u8,
//! }
//!
//! fn tack(node: &Node, problems: &mut Problems) -> Option<Tack> {
//!     let mut map = MapReader::open(node, problems)?;
//!     let id = map.required("id", name);
//!     let after = map.list("after", name);
//!     let hold = map.optional("hold", quantity);
//!     let sides = map.or("sides", 2, whole(1..=2));
//!     map.finish();
//!     Some(Tack { id: id?, after, hold, sides })
//! }
//!
//! let tack = read(b"{ id: tack, after: [wipe], hold: 10 s }", tack).map_err(|it| it.problems)?;
//! assert_eq!((tack.id.value.as_str(), tack.id.at.column), ("tack", 7));
//! assert_eq!((tack.after.len(), tack.hold, tack.sides), (1, Some(Millis::seconds(10)), 2));
//! # Ok::<(), Vec<drybench::syllabus::read::Problem>>(())
//! ```

mod build;
mod decode;
#[cfg(test)]
mod example;
mod fault;
mod map;
pub mod module;
mod nearest;
mod problem;
mod scalar;
mod syntax;
mod tree;

pub use decode::{Variant, list_of, one_or_more, read, scalar_or, spot, variant, word_or_variant};
pub use fault::{Fault, Feature, Form, Kind, Shape, SyntaxFault};
pub use map::{MapReader, entries};
pub use nearest::nearest;
pub use problem::{MOST_PROBLEMS, Place, Problem, Problems, Report, Spot};
pub use scalar::{Quantity, Words, formed, name, quantity, text, whole, within, word, yes_no};
pub use tree::{Key, MOST_BYTES, MOST_DEPTH, MOST_NODES, Node, Value, parse};
