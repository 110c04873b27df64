//! Decoders made of decoders: lists, places, and the ways in which a value may be one of several things.
//!
//! A decoder is a function from a node to a value. It notes what is wrong and then returns nothing;
//! its caller goes on with the neighbours, so that the author is told everything at once.

use super::fault::{Fault, Shape};
use super::problem::{Problems, Report, Spot};
use super::scalar::{Words, unknown_word};
use super::tree::{Node, Value, parse};

/// One tag of a one-key map such as `step: {…}`, and the decoder of what it holds.
pub type Variant<T> = (&'static str, fn(&Node, &mut Problems) -> Option<T>);

/// Reads a whole file.
///
/// # Errors
/// One fault of syntax, or all faults of structure.
pub fn read<T>(
    bytes: &[u8],
    decode: impl FnOnce(&Node, &mut Problems) -> Option<T>,
) -> Result<T, Report> {
    let mut problems = Problems::new();
    let Some(root) = parse(bytes, &mut problems) else {
        return Err(problems.report());
    };
    match decode(&root, &mut problems) {
        Some(value) if problems.is_empty() => Ok(value),
        read => {
            // Nobody should be told that a file is wrong without being told something about it.
            if read.is_none() && problems.is_empty() {
                problems.add(root.at, Fault::Refused);
            }
            Err(problems.report())
        }
    }
}

/// Keeps the place of what is read.
pub fn spot<T>(
    decode: impl Fn(&Node, &mut Problems) -> Option<T>,
) -> impl Fn(&Node, &mut Problems) -> Option<Spot<T>> {
    move |node, problems| {
        let value = decode(node, problems)?;
        Some(Spot { value, at: node.at })
    }
}

/// Reads a list. Items that are wrong are left out after the complaint.
pub fn list_of<T>(
    decode: impl Fn(&Node, &mut Problems) -> Option<T>,
) -> impl Fn(&Node, &mut Problems) -> Option<Vec<T>> {
    move |node, problems| match &node.value {
        Value::List(items) => {
            let read = items.iter().filter_map(|item| decode(item, problems));
            Some(read.collect())
        }
        _ => wrong_shape(node, problems, &[Shape::List]),
    }
}

/// Reads a list, or a single item without its brackets.
pub fn one_or_more<T>(
    decode: impl Fn(&Node, &mut Problems) -> Option<T>,
) -> impl Fn(&Node, &mut Problems) -> Option<Vec<T>> {
    move |node, problems| match &node.value {
        Value::List(items) if items.is_empty() => problems.refuse(node.at, Fault::Nothing),
        Value::List(items) => {
            let read = items.iter().filter_map(|item| decode(item, problems));
            Some(read.collect())
        }
        _ => Some(vec![decode(node, problems)?]),
    }
}

/// Reads a text with one decoder and a map or list with the other.
pub fn scalar_or<T>(
    scalar: impl Fn(&Node, &mut Problems) -> Option<T>,
    other: impl Fn(&Node, &mut Problems) -> Option<T>,
) -> impl Fn(&Node, &mut Problems) -> Option<T> {
    move |node, problems| match node.shape() {
        Shape::Scalar => scalar(node, problems),
        Shape::Empty => wrong_shape(node, problems, &[Shape::Scalar, Shape::Map]),
        Shape::List | Shape::Map => other(node, problems),
    }
}

/// Reads a map of one key, which says what the rest is: `step: {…}`.
pub fn variant<T>(variants: &[Variant<T>]) -> impl Fn(&Node, &mut Problems) -> Option<T> + '_ {
    move |node, problems| tagged(&[], variants, node, problems)
}

/// Reads a word that stands alone, or a map of one key: `timer` or `watch: {…}`.
pub fn word_or_variant<'w, T: Clone>(
    words: &'w Words<T>,
    variants: &'w [Variant<T>],
) -> impl Fn(&Node, &mut Problems) -> Option<T> + 'w {
    move |node, problems| {
        let Value::Scalar { text, .. } = &node.value else {
            let alone: Vec<&'static str> = words.iter().map(|it| it.0).collect();
            return tagged(&alone, variants, node, problems);
        };
        if let Some((_, value)) = words.iter().find(|(known, _)| known == text) {
            return Some(value.clone());
        }
        let known = words.iter().map(|it| it.0);
        let fault = match variants.iter().find(|(known, _)| known == text) {
            Some(&(word, _)) => Fault::WordNeedsMore { word },
            None => unknown_word(text, known.chain(variants.iter().map(|it| it.0))),
        };
        problems.refuse(node.at, fault)
    }
}

/// Reads a map of one key. The words `alone` are known too, but take nothing.
fn tagged<T>(
    alone: &[&'static str],
    variants: &[Variant<T>],
    node: &Node,
    problems: &mut Problems,
) -> Option<T> {
    let known = alone.iter().copied().chain(variants.iter().map(|it| it.0));
    let Value::Map(entries) = &node.value else {
        let expected: &[Shape] = match alone {
            [] => &[Shape::Map],
            _ => &[Shape::Scalar, Shape::Map],
        };
        return wrong_shape(node, problems, expected);
    };
    let [(key, body)] = &entries[..] else {
        let fault = Fault::OneKeyOf {
            known: known.collect(),
            found: entries.len(),
        };
        return problems.refuse(node.at, fault);
    };
    if let Some((_, decode)) = variants.iter().find(|(tag, _)| *tag == key.text) {
        return decode(body, problems);
    }
    let fault = match alone.iter().find(|word| **word == key.text) {
        Some(word) => Fault::WordStandsAlone { word },
        None => unknown_word(&key.text, known),
    };
    problems.refuse(key.at, fault)
}

fn wrong_shape<T>(node: &Node, problems: &mut Problems, expected: &'static [Shape]) -> Option<T> {
    let found = node.shape();
    problems.refuse(node.at, Fault::WrongShape { found, expected })
}
