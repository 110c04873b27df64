//! What stands in many places of a module: origins, misses, conditions, cases, durations.

use super::super::problem::Problems;
use super::super::scalar::{raw, unknown_word};
use super::super::tree::{Key, Node, Value};
use super::super::{
    Fault, Form, MapReader, Shape, Spot, Words, list_of, name, quantity, scalar_or, text, within,
    word,
};
use crate::syllabus::module::{Condition, Miss, Name, Origin, Severity};
use crate::syllabus::operation::{Manner, Word};
use crate::units::Millis;

/// No step, limit or correction of a limit is longer: sums over a whole plan stay far from the end of the numbers.
const LONGEST: Millis = Millis(7 * 24 * 60 * 60 * 1000);

const SEVERITIES: &Words<Severity> = &[
    ("minor", Severity::Minor),
    ("major", Severity::Major),
    ("critical", Severity::Critical),
];

/// Reads a span of time, nothing at least.
pub(in crate::syllabus) fn duration(node: &Node, problems: &mut Problems) -> Option<Millis> {
    within(Millis::ZERO..=LONGEST)(node, problems)
}

/// Reads a correction of a span of time, which may be negative.
pub(super) fn correction(node: &Node, problems: &mut Problems) -> Option<Millis> {
    within(Millis(-LONGEST.0)..=LONGEST)(node, problems)
}

/// Reads how much a finding weighs.
pub(super) fn severity(node: &Node, problems: &mut Problems) -> Option<Severity> {
    word(SEVERITIES)(node, problems)
}

/// Reads one of the marks of origin; anything that could be a name is the id of a source.
pub(in crate::syllabus) fn origin(node: &Node, problems: &mut Problems) -> Option<Origin> {
    let written = raw(node, problems)?.trim();
    Some(match written {
        "common practice, no source" => Origin::CommonPractice,
        "from memory" => Origin::FromMemory,
        "our default" => Origin::OurDefault,
        _ => match written.strip_prefix("calculated from ") {
            Some(from) if !from.trim().is_empty() => Origin::Calculated(from.trim().to_owned()),
            _ if written.contains(char::is_whitespace) || written.is_empty() => {
                let found = super::super::problem::excerpt(written);
                let expected = Form::Origin;
                return problems.refuse(node.at, Fault::WrongForm { found, expected });
            }
            _ => Origin::Source(name(node, problems)?),
        },
    })
}

/// Reads a list of names, or one name without its brackets.
pub(in crate::syllabus) fn names(node: &Node, problems: &mut Problems) -> Option<Vec<Name>> {
    match node.value {
        Value::Scalar { .. } => Some(vec![name(node, problems)?]),
        _ => list_of(name)(node, problems),
    }
}

/// Reads the words of a choice or condition: any text without white space, numbers as well.
pub(super) fn value(node: &Node, problems: &mut Problems) -> Option<Name> {
    let written = text(node, problems)?;
    if written.contains(char::is_whitespace) {
        return name(node, problems);
    }
    Some(Spot {
        value: written,
        at: node.at,
    })
}

/// The key of an entry as a new name.
pub(in crate::syllabus) fn key_name(key: &Key, problems: &mut Problems) -> Option<Name> {
    let node = Node {
        value: Value::Scalar {
            text: key.text.clone(),
            quoted: false,
        },
        at: key.at,
    };
    name(&node, problems)
}

/// Reads a map whose keys are new names.
pub(in crate::syllabus) fn named<T>(
    decode: impl Fn(&Node, &mut Problems) -> Option<T>,
) -> impl Fn(&Node, &mut Problems) -> Option<Vec<(Name, T)>> {
    move |node, problems| {
        let Value::Map(entries) = &node.value else {
            let found = node.shape();
            let expected = &[Shape::Map];
            return problems.refuse(node.at, Fault::WrongShape { found, expected });
        };
        let mut read = Vec::new();
        for (key, node) in entries {
            let name = key_name(key, problems);
            let value = decode(node, problems);
            if let (Some(name), Some(value)) = (name, value) {
                read.push((name, value));
            }
        }
        Some(read)
    }
}

/// Reads a map of exactly one entry, whose key is the author's.
pub(super) fn pair<'t>(node: &'t Node, problems: &mut Problems) -> Option<(Name, &'t Node)> {
    let Value::Map(entries) = &node.value else {
        let found = node.shape();
        let expected = &[Shape::Map];
        return problems.refuse(node.at, Fault::WrongShape { found, expected });
    };
    let [(key, node)] = &entries[..] else {
        let (known, found) = (Vec::new(), entries.len());
        return problems.refuse(node.at, Fault::OneKeyOf { known, found });
    };
    Some((key_name(key, problems)?, node))
}

/// Reads `{ wash: orbital }`.
pub(super) fn when(node: &Node, problems: &mut Problems) -> Option<(Name, Name)> {
    let (choice, node) = pair(node, problems)?;
    Some((choice, value(node, problems)?))
}

/// Reads `{ film: dry }`, `{ film: [wet-solvent, dry] }` or `{ film: not dry }`.
pub(super) fn condition(node: &Node, problems: &mut Problems) -> Option<Condition> {
    let (aspect, node) = pair(node, problems)?;
    if let Value::Scalar { text, .. } = &node.value
        && let Some(rest) = text.trim().strip_prefix("not ")
    {
        let inner = Node {
            value: Value::Scalar {
                text: rest.trim().to_owned(),
                quoted: false,
            },
            at: node.at,
        };
        return Some(Condition {
            aspect,
            values: vec![name(&inner, problems)?],
            negated: true,
        });
    }
    if matches!(&node.value, Value::List(items) if items.is_empty()) {
        return problems.refuse(node.at, Fault::Nothing);
    }
    let values = names(node, problems)?;
    // A list of which nothing could be read has been complained about.
    (!values.is_empty()).then_some(Condition {
        aspect,
        values,
        negated: false,
    })
}

/// Reads what a miss means from a map that may hold more.
pub(super) fn miss_of(map: &mut MapReader<'_, '_>) -> Option<Miss> {
    let severity = map.required("severity", severity);
    let leads_to = map.or("leads-to", Vec::new(), names);
    let text = map.or("text", String::new(), text);
    Some(Miss {
        severity: severity?,
        leads_to,
        text,
    })
}

/// Reads what a miss means.
pub(super) fn miss(node: &Node, problems: &mut Problems) -> Option<Miss> {
    let mut map = MapReader::open(node, problems)?;
    let miss = miss_of(&mut map);
    map.finish();
    miss
}

/// Reads a manner: a word of the vocabulary, or `{ as: WAY }`.
pub(super) fn manner<T: Word>(node: &Node, problems: &mut Problems) -> Option<Manner<T>> {
    let fixed = |node: &Node, problems: &mut Problems| {
        let written = raw(node, problems)?;
        match T::of(written) {
            Some(word) => Some(Manner::Fixed(word)),
            None => {
                let known = T::ALL.iter().map(|(_, spelling)| *spelling);
                problems.refuse(node.at, unknown_word(written, known))
            }
        }
    };
    let chosen = |node: &Node, problems: &mut Problems| {
        let mut map = MapReader::open(node, problems)?;
        let way = map.required("as", name);
        map.finish();
        Some(Manner::AsWay(way?))
    };
    scalar_or(fixed, chosen)(node, problems)
}

/// Reads a share of a whole, at most all of it.
pub(super) fn share(node: &Node, problems: &mut Problems) -> Option<crate::units::Ppm> {
    let share = quantity(node, problems)?;
    let (least, most) = (crate::units::Ppm(0), crate::units::Ppm(1_000_000));
    if (least..=most).contains(&share) {
        return Some(share);
    }
    let out = Fault::OutOfRange {
        found: share.to_string(),
        least: least.to_string(),
        most: most.to_string(),
    };
    problems.refuse(node.at, out)
}
