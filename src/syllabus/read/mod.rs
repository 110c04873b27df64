//! From the bytes of a module file to typed values, with every complaint at its place.

mod build;
mod fault;
mod nearest;
mod problem;
mod syntax;
mod tree;

pub use fault::{Fault, Feature, Form, Kind, Shape, SyntaxFault};
pub use nearest::nearest;
pub use problem::{MOST_PROBLEMS, Place, Problem, Problems, Report, Spot};
pub use tree::{Key, MOST_BYTES, MOST_DEPTH, MOST_NODES, Node, Value, parse};
