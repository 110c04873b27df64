//! The tree of a module file: texts, lists and maps, each with its place.
//!
//! A scalar is the text that was written, after quotation marks and folded lines are undone:
//! `no`, `1.10`, `0o7` and `~` never turn into anything else by themselves.
//! Size, encoding and control characters are looked at first, so that no later step meets a surprise.

use super::build::tree_of;
use super::fault::{Fault, Shape};
use super::problem::{Place, Problem, Problems};

/// Files with more bytes are refused unread. Whoever reads a file needs no more than one byte above this.
pub const MOST_BYTES: usize = 2 * 1024 * 1024;
/// How deep lists and maps may stand in each other.
pub const MOST_DEPTH: usize = 64;
/// How many texts, lists, maps and empty places a file may have.
pub const MOST_NODES: usize = 100_000;

/// A value at its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// What stands there.
    pub value: Value,
    /// Where.
    pub at: Place,
}

/// What can stand in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// A text, number or word.
    Scalar {
        /// The text as written.
        text: String,
        /// Whether it stood in quotation marks or as a `|` or `>` text.
        quoted: bool,
    },
    /// A list.
    List(Vec<Node>),
    /// A map in the order of the file. No two keys are equal.
    Map(Vec<(Key, Node)>),
    /// Nothing, as after the colon of `key:`.
    Empty,
}

/// The key of one entry of a map.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Key {
    /// The key.
    pub text: String,
    /// Where it stands.
    pub at: Place,
}

impl Node {
    /// The shape of the value.
    #[must_use]
    pub fn shape(&self) -> Shape {
        match self.value {
            Value::Scalar { .. } => Shape::Scalar,
            Value::List(_) => Shape::List,
            Value::Map(_) => Shape::Map,
            Value::Empty => Shape::Empty,
        }
    }
}

/// Reads a file as far as a tree.
///
/// One fault of syntax ends the reading: it alone is noted and there is no tree.
/// Keys that stand twice are noted one by one, and the first of them stays.
pub fn parse(bytes: &[u8], problems: &mut Problems) -> Option<Node> {
    match text_of(bytes).and_then(tree_of) {
        Ok((root, duplicates)) => {
            for Problem { at, what } in duplicates {
                problems.add(at, what);
            }
            Some(root)
        }
        Err(problem) => problems.refuse(problem.at, problem.what),
    }
}

/// Reads one of several files that belong together: everything in its tree and every problem is marked with the file.
pub(super) fn parse_file(bytes: &[u8], file: u16, problems: &mut Problems) -> Option<Node> {
    let mut own = Problems::new();
    let root = parse(bytes, &mut own);
    problems.take_over(own, file);
    let mut root = root?;
    mark(&mut root, file);
    Some(root)
}

/// Marks a tree with its file. It is at most [`MOST_DEPTH`] deep.
fn mark(node: &mut Node, file: u16) {
    node.at.file = file;
    match &mut node.value {
        Value::List(items) => items.iter_mut().for_each(|item| mark(item, file)),
        Value::Map(entries) => {
            for (key, node) in entries {
                key.at.file = file;
                mark(node, file);
            }
        }
        Value::Scalar { .. } | Value::Empty => {}
    }
}

/// The place of the characters from `start` to `end`, which follow the valid text `before`.
pub(super) fn place_after(before: &str, end: usize) -> Place {
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    let line = 1 + before.bytes().filter(|&byte| byte == b'\n').count();
    let column = 1 + before[line_start..].chars().count();
    Place {
        end,
        ..Place::point(before.len(), line, column)
    }
}

/// Refuses what is too large, no UTF-8, or could act on a terminal.
fn text_of(bytes: &[u8]) -> Result<&str, Problem> {
    if bytes.len() > MOST_BYTES {
        return Err(Problem {
            at: place_after("", 0),
            what: Fault::TooLarge { most: MOST_BYTES },
        });
    }
    let text = std::str::from_utf8(bytes).map_err(|fault| {
        let good = fault.valid_up_to();
        let before = std::str::from_utf8(&bytes[..good]).unwrap_or_default();
        Problem {
            at: place_after(before, good + 1),
            what: Fault::NotUtf8 { byte: bytes[good] },
        }
    })?;
    let control = |c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t');
    if let Some((start, found)) = text.char_indices().find(|&(_, c)| control(c)) {
        return Err(Problem {
            at: place_after(&text[..start], start + found.len_utf8()),
            what: Fault::ControlCharacter(found),
        });
    }
    Ok(text)
}

#[cfg(test)]
mod tests;
