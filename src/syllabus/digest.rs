//! The canonical text of a module and its digest: one value for one content.
//!
//! The canonical text is JSON without white space over the tree of the module with its stages merged. Comments, layout,
//! quotation marks and the order of keys whose order means nothing leave it as it is; any other change of a text, number or
//! word changes it, also one that means the same (`2 min` for `120 s`), so that equal digests are always equal contents.

use std::fmt::Write as _;

use sha2::{Digest as _, Sha256};

use super::hazards::Hazard;
use super::module::{Module, Name, Origin};
use super::read::{Key, Node, Value};

/// Maps whose order an author chooses and a person or a draw of cases sees.
const IN_ORDER: &[&str] = &[
    "case",
    "repeats",
    "parts",
    "aspects",
    "values",
    "bench",
    "shelf",
    "items",
    "ways",
    "options",
    "responses",
];

/// The digest of a module and of the hazards it names, as 64 hexadecimal digits.
///
/// Hazards that are not in the list are left out; the check tells of them.
#[must_use]
pub fn digest(canonical: &str, module: &Module, hazards: &[Hazard]) -> String {
    hex(&digested(canonical, module, hazards))
}

/// The digest of a tree without one member of its map, as 64 hexadecimal digits.
pub(super) fn digest_without(root: &Node, left_out: &str) -> String {
    let mut text = String::new();
    if let Value::Map(entries) = &root.value {
        let entries = entries.iter().filter(|(key, _)| key.text != left_out);
        map(
            entries.map(|(key, node)| (key, node)).collect(),
            false,
            &mut text,
        );
    }
    hex(&text)
}

fn hex(text: &str) -> String {
    let mut hex = String::with_capacity(64);
    for byte in Sha256::digest(text.as_bytes()) {
        // Writing to a string cannot fail.
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}

/// The text that the digest is made of: the canonical module, and the hazards it names, quoted.
#[must_use]
pub fn digested(canonical: &str, module: &Module, hazards: &[Hazard]) -> String {
    let mut text = format!("{{\"module\":{canonical},\"hazards\":{{");
    let mut first = true;
    let named: std::collections::BTreeSet<&str> =
        hazards_of(module).map(|name| name.value.as_str()).collect();
    for id in named {
        if let Some(hazard) = hazards.iter().find(|it| it.id.value == id) {
            if !std::mem::replace(&mut first, false) {
                text.push(',');
            }
            quote(hazard, &mut text);
        }
    }
    text.push_str("}}");
    text
}

/// Every hazard that a module names.
pub(super) fn hazards_of(module: &Module) -> impl Iterator<Item = &Name> {
    let of_steps = module.steps.iter().flat_map(|step| &step.hazards);
    let of_guards = module.guards.iter().map(|guard| &guard.hazard);
    module
        .identity
        .hazards
        .iter()
        .chain(of_steps)
        .chain(of_guards)
}

/// The canonical text of a module's tree, with these steps in the place of its flow.
pub(super) fn canonical(root: &Node, steps: &[Node]) -> String {
    let mut text = String::new();
    let Value::Map(entries) = &root.value else {
        return text;
    };
    let flow = Node {
        value: Value::List(steps.to_vec()),
        at: root.at,
    };
    let entries: Vec<(&Key, &Node)> = entries
        .iter()
        .map(|(key, node)| (key, if key.text == "flow" { &flow } else { node }))
        .collect();
    map(entries, false, &mut text);
    text
}

fn map(mut entries: Vec<(&Key, &Node)>, in_order: bool, text: &mut String) {
    if !in_order {
        entries.sort_by(|one, other| one.0.text.cmp(&other.0.text));
    }
    text.push('{');
    for (at, (key, node)) in entries.into_iter().enumerate() {
        if at > 0 {
            text.push(',');
        }
        string(&key.text, text);
        text.push(':');
        tree(node, IN_ORDER.contains(&key.text.as_str()), text);
    }
    text.push('}');
}

fn tree(node: &Node, in_order: bool, text: &mut String) {
    match &node.value {
        Value::Scalar { text: written, .. } => string(written.trim(), text),
        Value::List(items) => {
            text.push('[');
            for (at, item) in items.iter().enumerate() {
                if at > 0 {
                    text.push(',');
                }
                tree(item, false, text);
            }
            text.push(']');
        }
        Value::Map(entries) => {
            let entries = entries.iter().map(|(key, node)| (key, node)).collect();
            map(entries, in_order, text);
        }
        Value::Empty => text.push_str("null"),
    }
}

fn quote(hazard: &Hazard, text: &mut String) {
    string(&hazard.id.value, text);
    text.push_str(":{\"title\":");
    string(&hazard.title, text);
    for (key, list) in [
        ("classes", &hazard.classes),
        ("precautions", &hazard.precautions),
        ("first-aid", &hazard.first_aid),
    ] {
        text.push(',');
        string(key, text);
        text.push_str(":[");
        for (at, item) in list.iter().enumerate() {
            if at > 0 {
                text.push(',');
            }
            string(item, text);
        }
        text.push(']');
    }
    text.push_str(",\"origin\":");
    string(&spelled(&hazard.origin), text);
    text.push('}');
}

fn spelled(origin: &Origin) -> String {
    match origin {
        Origin::Source(id) => id.value.clone(),
        Origin::CommonPractice => "common practice, no source".to_owned(),
        Origin::FromMemory => "from memory".to_owned(),
        Origin::Calculated(from) => format!("calculated from {from}"),
        Origin::OurDefault => "our default".to_owned(),
    }
}

/// Writes a text as a JSON string. Files hold no control characters but line ends and tabs.
fn string(written: &str, text: &mut String) {
    text.push('"');
    for c in written.chars() {
        match c {
            '"' => text.push_str("\\\""),
            '\\' => text.push_str("\\\\"),
            '\n' => text.push_str("\\n"),
            '\r' => text.push_str("\\r"),
            '\t' => text.push_str("\\t"),
            c => text.push(c),
        }
    }
    text.push('"');
}

#[cfg(test)]
mod tests;
