//! Builds the tree of a file from the events of the parser.
//!
//! Deserialising into values would turn `no` and `1.10` into something else and would hide anchors and tags.
//! Anchors, aliases and tags are refused, which leaves an alias bomb nothing to expand.

use std::collections::BTreeMap;

use serde_yaml::granit_parser::{Event, Marker, Parser, ScalarStyle, ScanError, Span, options};

use super::fault::{Fault, Feature, SyntaxFault};
use super::problem::{Place, Problem, excerpt};
use super::syntax;
use super::tree::{Key, MOST_DEPTH, MOST_NODES, Node, Value, place_after};

/// A list or map whose end has not been seen.
struct Open {
    at: Place,
    flow: bool,
    parts: Parts,
}

enum Parts {
    List(Vec<Node>),
    Map {
        entries: Vec<(Key, Node)>,
        key: Option<Key>,
    },
}

/// Builds the tree. Returns it with the keys that stood twice.
pub(super) fn tree_of(text: &str) -> Result<(Node, Vec<Problem>), Problem> {
    let options = options! {
        disallow_directives: true,
        emit_anchor_events: true,
        emit_comments: false,
        flow_nesting_limit: MOST_DEPTH,
        block_nesting_limit: MOST_DEPTH,
    };
    let mut builder = Builder::new(text);
    for next in Parser::new_from_str_with_options(text, options) {
        let (event, span) = next.map_err(|fault| builder.syntax_problem(&fault))?;
        builder.take(event, span)?;
    }
    let root = builder.root.unwrap_or(Node {
        value: Value::Empty,
        at: place_after("", 0),
    });
    Ok((root, builder.duplicates))
}

struct Builder<'t> {
    text: &'t str,
    open: Vec<Open>,
    root: Option<Node>,
    documents: usize,
    nodes: usize,
    duplicates: Vec<Problem>,
}

impl<'t> Builder<'t> {
    fn new(text: &'t str) -> Builder<'t> {
        Builder {
            text,
            open: Vec::new(),
            root: None,
            documents: 0,
            nodes: 0,
            duplicates: Vec::new(),
        }
    }

    /// Takes in one event.
    fn take(&mut self, event: Event<'_>, span: Span) -> Result<(), Problem> {
        let at = self.place(span);
        let refuse = |what| Err(Problem { at, what });
        if let Some(tag) = span.tag_span() {
            return Err(Problem {
                at: self.place(tag),
                what: Fault::NotUsed(Feature::Tag),
            });
        }
        match event {
            Event::Scalar(written, style, ..) => self.scalar(&written, style, at),
            Event::SequenceStart(..) => self.start(at, Parts::List(Vec::new())),
            Event::MappingStart(..) => self.start(
                at,
                Parts::Map {
                    entries: Vec::new(),
                    key: None,
                },
            ),
            Event::SequenceEnd | Event::MappingEnd => self.end(at),
            Event::Anchor(..) => refuse(Fault::NotUsed(Feature::Anchor)),
            Event::Alias(_) | Event::UnresolvedAlias(_) => refuse(Fault::NotUsed(Feature::Alias)),
            Event::DocumentStart(..) => {
                self.documents += 1;
                if self.documents > 1 {
                    return refuse(Fault::NotUsed(Feature::SecondDocument));
                }
                Ok(())
            }
            _ => Ok(()),
        }
    }

    /// The place and meaning of what the parser cannot read.
    fn syntax_problem(&self, fault: &ScanError) -> Problem {
        let marker = *fault.marker();
        let mut at = self.point(marker);
        let what = syntax::fault(fault.kind());
        // The parser points behind the tabs; the author should be shown the first of them.
        if what == Fault::Syntax(SyntaxFault::Tab) {
            let before = &self.text[..at.start];
            let tabs = before.len() - before.trim_end_matches('\t').len();
            let column = marker.col() + 1 - tabs;
            at = Place::point(at.start - tabs, marker.line(), column);
        }
        Problem { at, what }
    }

    fn scalar(&mut self, written: &str, style: ScalarStyle, at: Place) -> Result<(), Problem> {
        let quoted = style != ScalarStyle::Plain;
        // A quoted text can name a control character that does not stand in the file.
        let control = |c: char| c.is_control() && !matches!(c, '\n' | '\t');
        if let Some(found) = written.chars().find(|&c| control(c)) {
            return Err(Problem {
                at,
                what: Fault::ControlCharacter(found),
            });
        }
        // The parser tells of nothing as if `~` had been written; only the file knows the difference.
        let nothing = !quoted && self.text.get(at.start..at.end) != Some(written) && written == "~";
        let value = if nothing || (!quoted && written.is_empty()) {
            Value::Empty
        } else {
            Value::Scalar {
                text: written.to_owned(),
                quoted,
            }
        };
        self.put(Node { value, at })
    }

    fn start(&mut self, at: Place, parts: Parts) -> Result<(), Problem> {
        self.refuse_as_key(at)?;
        if self.open.len() == MOST_DEPTH {
            return Err(Problem {
                at,
                what: Fault::TooDeep { most: MOST_DEPTH },
            });
        }
        let flow = at.end > at.start && matches!(self.text.as_bytes()[at.start], b'[' | b'{');
        self.open.push(Open { at, flow, parts });
        Ok(())
    }

    fn end(&mut self, at: Place) -> Result<(), Problem> {
        let Some(Open {
            at: start,
            flow,
            parts,
        }) = self.open.pop()
        else {
            return Ok(());
        };
        let (value, inside) = match parts {
            Parts::List(items) => {
                let inside = items.last().map(|it| it.at.end);
                (Value::List(items), inside)
            }
            Parts::Map { entries, .. } => {
                let inside = entries.last().map(|(_, it)| it.at.end);
                (Value::Map(self.without_duplicates(entries)), inside)
            }
        };
        // The end of an indented list or map is only noticed further down.
        let end = if flow { Some(at.end) } else { inside };
        let at = Place {
            end: end.unwrap_or(start.end).max(start.start),
            ..start
        };
        self.put(Node { value, at })
    }

    /// Puts a finished value where it belongs.
    fn put(&mut self, node: Node) -> Result<(), Problem> {
        self.nodes += 1;
        if self.nodes > MOST_NODES {
            return Err(Problem {
                at: node.at,
                what: Fault::TooMany { most: MOST_NODES },
            });
        }
        match self.open.last_mut().map(|open| &mut open.parts) {
            None => self.root = Some(node),
            Some(Parts::List(items)) => items.push(node),
            Some(Parts::Map { entries, key }) => match (key.take(), node) {
                (Some(key), node) => entries.push((key, node)),
                (None, Node { value, at }) => {
                    let Value::Scalar { text, quoted } = value else {
                        return Err(Problem {
                            at,
                            what: Fault::KeyIsNoText,
                        });
                    };
                    if text == "<<" && !quoted {
                        return Err(Problem {
                            at,
                            what: Fault::NotUsed(Feature::MergeKey),
                        });
                    }
                    *key = Some(Key { text, at });
                }
            },
        }
        Ok(())
    }

    /// Refuses a list or map that starts where a key is due.
    fn refuse_as_key(&self, at: Place) -> Result<(), Problem> {
        match self.open.last().map(|open| &open.parts) {
            Some(Parts::Map { key: None, .. }) => Err(Problem {
                at,
                what: Fault::KeyIsNoText,
            }),
            _ => Ok(()),
        }
    }

    /// Keeps the first entry of each key and notes the others.
    fn without_duplicates(&mut self, entries: Vec<(Key, Node)>) -> Vec<(Key, Node)> {
        let mut first = BTreeMap::new();
        let mut kept = Vec::with_capacity(entries.len());
        for (key, node) in entries {
            match first.get(&key.text) {
                None => {
                    first.insert(key.text.clone(), key.at);
                    kept.push((key, node));
                }
                Some(&first) => self.duplicates.push(Problem {
                    at: key.at,
                    what: Fault::DuplicateKey {
                        key: excerpt(&key.text),
                        first,
                    },
                }),
            }
        }
        kept
    }

    fn place(&self, span: Span) -> Place {
        let at = self.point(span.start);
        let end = span.end.byte_offset().unwrap_or(at.start);
        Place {
            end: end.clamp(at.start, self.text.len()),
            ..at
        }
    }

    fn point(&self, marker: Marker) -> Place {
        let start = marker.byte_offset().unwrap_or(self.text.len());
        let start = start.min(self.text.len());
        Place::point(start, marker.line(), marker.col() + 1)
    }
}
