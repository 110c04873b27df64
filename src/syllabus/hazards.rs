//! The shared list of hazards: what can hurt people, and what is done about it.

use super::module::{Name, Origin};
use super::read::module::{Refused, key_name, origin};
use super::read::{Fault, MapReader, Node, Problems, Report, Shape, Value, read, text};

/// One hazard.
#[derive(Clone, Debug)]
pub struct Hazard {
    /// Its id, as modules name it.
    pub id: Name,
    /// Its title.
    pub title: String,
    /// The classes it belongs to, in words.
    pub classes: Vec<String>,
    /// What is done so that nothing happens.
    pub precautions: Vec<String>,
    /// What is done when something happened.
    pub first_aid: Vec<String>,
    /// Where this comes from.
    pub origin: Origin,
}

/// Reads the list of hazards. `name` is the name of the file.
///
/// # Errors
/// One fault of syntax, or all faults of structure.
pub fn hazards(name: &str, bytes: &[u8]) -> Result<Vec<Hazard>, Refused> {
    list(name, bytes, "hazards", hazard)
}

fn hazard(id: Name, node: &Node, problems: &mut Problems) -> Option<Hazard> {
    let mut map = MapReader::open(node, problems)?;
    let title = map.required("title", text);
    let classes = map.list("classes", text);
    let precautions = map.list("precautions", text);
    let first_aid = map.list("first-aid", text);
    let origin = map.required("origin", origin);
    map.finish();
    Some(Hazard {
        id,
        title: title?,
        classes,
        precautions,
        first_aid,
        origin: origin?,
    })
}

/// Reads a file of one map from ids to entries.
pub(super) fn list<T>(
    name: &str,
    bytes: &[u8],
    key: &'static str,
    entry: impl Fn(Name, &Node, &mut Problems) -> Option<T>,
) -> Result<Vec<T>, Refused> {
    let entries = |node: &Node, problems: &mut Problems| {
        let Value::Map(entries) = &node.value else {
            let found = node.shape();
            let expected = &[Shape::Map];
            return problems.refuse(node.at, Fault::WrongShape { found, expected });
        };
        let read = entries.iter().filter_map(|(key, node)| {
            let id = key_name(key, problems)?;
            entry(id, node, problems)
        });
        Some(read.collect())
    };
    read(bytes, |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let list = map.required(key, entries);
        map.finish();
        list
    })
    .map_err(|report| refused(name, report))
}

pub(super) fn refused(name: &str, report: Report) -> Refused {
    Refused {
        files: vec![name.to_owned()],
        report,
    }
}
