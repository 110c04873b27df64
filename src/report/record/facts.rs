//! The members of an entry in words, by the names that they are stored under.
//!
//! Read from the canonical text, so that a member of a kind that comes later is shown as it is stored and none is passed over.

use super::telling::{Telling, time};
use super::terms::{term, vocabulary};
use crate::record::canonical::{Map, Value, parse};
use crate::record::entry::{Entry, Frame, Signed, Signing, ToSign};
use crate::report::Item;
use crate::text::{Value as Arg, Words, display_safe};

/// The titles of the steps of a workflow by their ids.
pub type Titles = std::collections::BTreeMap<String, String>;

/// The facts of an entry by the names that they are stored under.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Facts(pub(super) Map<'static>);

impl Facts {
    pub(super) fn of(entry: &Entry) -> Facts {
        Facts::inside(&entry.bytes(), true)
    }

    pub(super) fn to_sign(frame: &Frame, fact: &Signed, signing: &Signing) -> Facts {
        let to_sign = ToSign::new(frame.clone(), fact.clone(), signing.clone());
        Facts::inside(&to_sign.bytes(), false)
    }

    fn inside(bytes: &[u8], whole: bool) -> Facts {
        let mut body = parse(bytes).ok();
        if whole {
            body = body.and_then(|value| taken(value, "body"));
        }
        match body.and_then(|value| taken(value, "fact")) {
            Some(Value::Map(fact)) => Facts(fact),
            // Nothing that this program writes comes here.
            _ => Facts(Map::new()),
        }
    }

    /// The same with the titles of steps before their ids, where they are known.
    pub(super) fn titled(mut self, titles: &Titles, words: &Words) -> Facts {
        let steps = self.0.remove("steps").map(|steps| match steps {
            Value::List(steps) => Value::List(
                steps
                    .into_iter()
                    .map(|step| with_title(step, titles, words))
                    .collect(),
            ),
            other => other,
        });
        if let Some(steps) = steps {
            self.0.insert("steps".to_owned(), steps);
        }
        self
    }

    /// The same with another value for one member.
    pub(super) fn put_right(&mut self, member: &str, new: Option<&Value>) {
        match new {
            Some(value) => drop(self.0.insert(member.to_owned(), value.clone())),
            None => drop(self.0.remove(member)),
        }
    }
}

fn with_title(step: Value, titles: &Titles, words: &Words) -> Value {
    let Value::Map(mut map) = step else {
        return step;
    };
    if let Some(Value::Text(id)) = map.get("step")
        && let Some(title) = titles.get(id.as_ref())
    {
        let values = [
            ("title", title.as_str().into()),
            ("step", id.as_ref().into()),
        ];
        let titled = words.say("record-step-titled", &values);
        map.insert("step".to_owned(), Value::Text(titled.into()));
    }
    Value::Map(map)
}

fn taken(value: Value, member: &str) -> Option<Value> {
    match value {
        Value::Map(mut map) => map.remove(member),
        _ => None,
    }
}

impl Telling<'_> {
    /// The name of a member as people read it.
    pub(super) fn member(&self, name: &str) -> String {
        term("record-member", name, self.words)
    }

    /// The value of a member on one line.
    pub(super) fn value(&self, member: &str, value: &Value) -> String {
        match value {
            Value::Null => self.say("record-nothing", &[]),
            Value::Flag(true) => self.say("record-flag.yes", &[]),
            Value::Flag(false) => self.say("record-flag.no", &[]),
            Value::Whole(number) => self.say("record-number", &[("number", number.get().into())]),
            Value::Text(text) => self.text(member, text),
            Value::List(items) => {
                let items = items.iter().map(|item| self.value(member, item));
                let items: Vec<String> = items.collect();
                self.say("record-list", &[("items", items.into())])
            }
            Value::Map(map) => self.map(member, map),
        }
    }

    /// The value of a member; none stands there where it is left out.
    pub(super) fn value_or_nothing(&self, member: &str, value: Option<&Value>) -> String {
        let nothing = || self.say("record-nothing", &[]);
        value.map_or_else(nothing, |value| self.value(member, value))
    }

    fn text(&self, member: &str, text: &str) -> String {
        if let Some(message) = vocabulary(member) {
            return term(message, text, self.words);
        }
        match member {
            "person" => text.parse().map(|person| self.person(person)).ok(),
            "from" | "until" | "valid-from" | "effective" => text.parse().map(time).ok(),
            "target" | "grant" | "suspension" | "evidence" | "lost-seal" => {
                text.parse().map(|seal| self.entry(&seal)).ok()
            }
            "member" => Some(self.member(text)),
            _ => None,
        }
        .unwrap_or_else(|| display_safe(text))
    }

    fn map(&self, member: &str, map: &Map<'static>) -> String {
        let inside = |name: &str| self.value_or_nothing(name, map.get(name)).into();
        match member {
            "scope" => self.say(
                "record-scope",
                &[
                    ("workflow", inside("workflow")),
                    ("profile", inside("profile")),
                    ("wash", inside("wash")),
                    ("cure", inside("cure")),
                ],
            ),
            "edition" => self.say("record-edition", &[("revision", inside("revision"))]),
            "steps" => {
                let critical = match map.get("critical") {
                    Some(Value::Flag(true)) => "record-step.critical",
                    _ => "record-step.other",
                };
                let values = [("step", inside("step")), ("seen", inside("seen"))];
                self.say(critical, &values)
            }
            "others" => {
                let values = [("method", inside("method")), ("count", inside("count"))];
                self.say("record-method-count", &values)
            }
            "basis" => self.basis(map),
            _ => {
                let each = map.iter().map(|(name, value)| self.labelled(name, value));
                let each: Vec<String> = each.collect();
                self.say("record-list", &[("items", each.into())])
            }
        }
    }

    /// The ground of a sign-off: one member, which says which ground it is.
    fn basis(&self, map: &Map<'static>) -> String {
        let each = map.iter().map(|(name, value)| {
            let which = term("record-basis", name, self.words);
            let value = self.value(name, value);
            let values = [("name", which.into()), ("value", value.into())];
            self.say("record-labelled", &values)
        });
        let each: Vec<String> = each.collect();
        self.say("record-list", &[("items", each.into())])
    }

    fn labelled(&self, name: &str, value: &Value) -> String {
        let values = [
            ("name", self.member(name).into()),
            ("value", self.value(name, value).into()),
        ];
        self.say("record-labelled", &values)
    }

    /// One member with its value; what is long stands under it.
    fn item(&self, name: &str, value: &Value) -> Item {
        let children: Vec<Item> = match (name, value) {
            ("scope", Value::Map(map)) => self.items(map),
            ("edition", Value::Map(map)) => self.items(map),
            ("basis", Value::Map(map)) => map
                .iter()
                .flat_map(|(name, value)| {
                    let which = term("record-basis", name, self.words);
                    let under = match value {
                        Value::List(items) => items
                            .iter()
                            .map(|item| Item::new(self.value(name, item)))
                            .collect(),
                        Value::Map(map) => self.items(map),
                        other => vec![Item::new(self.value(name, other))],
                    };
                    [Item::new(which).with(under)]
                })
                .collect(),
            ("steps" | "others" | "evidence", Value::List(items)) if !items.is_empty() => items
                .iter()
                .map(|item| Item::new(self.value(name, item)))
                .collect(),
            ("profile" | "first" | "again" | "effect-check", Value::Map(map)) => self.items(map),
            _ => return Item::new(self.labelled(name, value)),
        };
        // A revision holds under this name what a sign-off asks for, a scope the process profile.
        let label = match (name, value) {
            ("profile", Value::Map(_)) => self.member("sign-off-profile"),
            _ => self.member(name),
        };
        let head = [("name", label.into())];
        Item::new(self.say("record-label", &head)).with(children)
    }

    /// Every member with its value.
    pub(super) fn items(&self, facts: &Map<'static>) -> Vec<Item> {
        let each = facts.iter();
        each.map(|(name, value)| self.item(name, value)).collect()
    }

    /// Every member as what a sentence takes in, by its stored name.
    pub(super) fn arguments<'b>(&self, facts: &'b Map<'static>) -> Vec<(&'b str, Arg)> {
        let each = facts.iter().map(|(name, value)| {
            let worded = match value {
                Value::Whole(number) => Arg::Count(number.get()),
                other => self.value(name, other).into(),
            };
            (name, worded)
        });
        let mut all: Vec<(&str, Arg)> = each.collect();
        // What may be left out is said all the same.
        for (name, id) in [
            ("workflow", "record-every-workflow"),
            ("old", "record-nothing"),
            ("new", "record-nothing"),
        ] {
            if facts.get(name).is_none() {
                all.push((name, self.say(id, &[]).into()));
            }
        }
        all
    }
}
