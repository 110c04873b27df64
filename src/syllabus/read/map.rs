//! Takes a map of the file apart, key by key, and tells of every key that nobody asked for.

use super::decode::list_of;
use super::fault::{Fault, Shape};
use super::nearest::nearest;
use super::problem::{Place, Problems, Spot, excerpt};
use super::tree::{Key, Node, Value};

/// One map that is being read.
///
/// Ask for every key first, then call [`MapReader::finish`]; only then use `?` on what was asked for,
/// so that one missing key does not hide the unknown ones.
pub struct MapReader<'t, 'p> {
    at: Place,
    entries: &'t [(Key, Node)],
    asked: Vec<&'static str>,
    problems: &'p mut Problems,
}

/// The entries of a map, or a complaint about another shape.
fn entries_of<'t>(node: &'t Node, problems: &mut Problems) -> Option<&'t [(Key, Node)]> {
    match &node.value {
        Value::Map(entries) => Some(entries),
        _ => problems.refuse(
            node.at,
            Fault::WrongShape {
                found: node.shape(),
                expected: &[Shape::Map],
            },
        ),
    }
}

impl<'t, 'p> MapReader<'t, 'p> {
    /// Starts to read a map.
    pub fn open(node: &'t Node, problems: &'p mut Problems) -> Option<MapReader<'t, 'p>> {
        Some(MapReader {
            at: node.at,
            entries: entries_of(node, problems)?,
            asked: Vec::new(),
            problems,
        })
    }

    /// Where the map stands.
    #[must_use]
    pub fn at(&self) -> Place {
        self.at
    }

    /// The collector, for what the map as a whole gets wrong.
    pub fn problems(&mut self) -> &mut Problems {
        self.problems
    }

    /// Returns the node of a key as it is; the key counts as asked for.
    pub fn node(&mut self, key: &'static str) -> Option<&'t Node> {
        if !self.asked.contains(&key) {
            self.asked.push(key);
        }
        let entry = self.entries.iter().find(|(it, _)| it.text == key);
        entry.map(|(_, node)| node)
    }

    /// Reads a key that must be there.
    pub fn required<T>(
        &mut self,
        key: &'static str,
        decode: impl FnOnce(&Node, &mut Problems) -> Option<T>,
    ) -> Option<T> {
        match self.node(key) {
            Some(node) => decode(node, self.problems),
            None => self.problems.refuse(self.at, Fault::MissingKey { key }),
        }
    }

    /// Reads a key that may be left out.
    pub fn optional<T>(
        &mut self,
        key: &'static str,
        decode: impl FnOnce(&Node, &mut Problems) -> Option<T>,
    ) -> Option<T> {
        let node = self.node(key)?;
        decode(node, self.problems)
    }

    /// Reads a key that means `otherwise` where it is left out.
    pub fn or<T>(
        &mut self,
        key: &'static str,
        otherwise: T,
        decode: impl FnOnce(&Node, &mut Problems) -> Option<T>,
    ) -> T {
        self.optional(key, decode).unwrap_or(otherwise)
    }

    /// Reads a list that is empty where it is left out.
    pub fn list<T>(
        &mut self,
        key: &'static str,
        decode: impl Fn(&Node, &mut Problems) -> Option<T>,
    ) -> Vec<T> {
        self.optional(key, list_of(decode)).unwrap_or_default()
    }

    /// Reads a list that must be there with at least one item.
    pub fn some<T>(
        &mut self,
        key: &'static str,
        decode: impl Fn(&Node, &mut Problems) -> Option<T>,
    ) -> Option<Vec<T>> {
        self.required(key, |node, problems| {
            if matches!(&node.value, Value::List(items) if items.is_empty()) {
                return problems.refuse(node.at, Fault::Nothing);
            }
            list_of(decode)(node, problems)
        })
    }

    /// Reads a map whose keys the author chooses; it is empty where it is left out.
    pub fn entries<T>(
        &mut self,
        key: &'static str,
        decode: impl Fn(&Node, &mut Problems) -> Option<T>,
    ) -> Vec<(Spot<String>, T)> {
        self.optional(key, entries(decode)).unwrap_or_default()
    }

    /// Demands that exactly one of these keys is there, and returns it.
    pub fn one_of(&mut self, keys: &[&'static str]) -> Option<&'static str> {
        let is_there = |key: &&&'static str| self.entries.iter().any(|(it, _)| it.text == **key);
        let there: Vec<&'static str> = keys.iter().filter(is_there).copied().collect();
        match there[..] {
            [key] => Some(key),
            _ => self.problems.refuse(
                self.at,
                Fault::OneKeyOf {
                    known: keys.to_vec(),
                    found: there.len(),
                },
            ),
        }
    }

    /// Tells of every key that was not asked for.
    pub fn finish(self) {
        let MapReader {
            entries,
            asked,
            problems,
            ..
        } = self;
        // A key that is there already was not meant a second time.
        let absent = |name: &&str| entries.iter().all(|(it, _)| it.text != *name);
        let open: Vec<&'static str> = asked.iter().copied().filter(absent).collect();
        for (key, _) in entries {
            if asked.iter().any(|known| *known == key.text) {
                continue;
            }
            let suggestion = nearest(&key.text, open.iter().copied());
            problems.add(
                key.at,
                Fault::UnknownKey {
                    found: excerpt(&key.text),
                    suggestion: suggestion.map(str::to_owned),
                    known: asked.clone(),
                },
            );
        }
    }
}

/// Reads a map whose keys the author chooses. The keys are kept as written: a name may have to be one of another list.
pub fn entries<T>(
    decode: impl Fn(&Node, &mut Problems) -> Option<T>,
) -> impl Fn(&Node, &mut Problems) -> Option<Vec<(Spot<String>, T)>> {
    move |node, problems| {
        let mut read = Vec::new();
        for (key, node) in entries_of(node, problems)? {
            if let Some(value) = decode(node, problems) {
                let name = Spot {
                    value: key.text.clone(),
                    at: key.at,
                };
                read.push((name, value));
            }
        }
        Some(read)
    }
}
