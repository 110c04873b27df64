//! What a workflow is done on and with: case, repeats, parts, bench, shelf, protection.

use super::super::problem::Problems;
use super::super::scalar::unknown_word;
use super::super::{
    Fault, MapReader, Node, Spot, Value, Words, list_of, name, scalar_or, text, whole, word, yes_no,
};
use super::terms::{condition, duration, miss_of, named, names, origin, pair, value, when};
use crate::syllabus::module::{
    Aspect, AspectValue, CaseChoice, CaseRange, Gauge, GaugeKind, Guard, Name, Origin, Part,
    PartKind, Product, ProtectionItem, ProtectionKind, Repeat, RepeatOver, Station, StationNumber,
};
use crate::units::Millis;

/// The greatest number that a whole-number choice may have: no part has more places.
const MOST_WHOLE: u16 = 999;

/// Reads what varies from case to case.
pub(super) fn case(node: &Node, problems: &mut Problems) -> Option<Vec<CaseChoice>> {
    let choices = named(|node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let title = map.required("title", text);
        let range = match map.one_of(&["one-of", "whole"]) {
            Some("one-of") => map.some("one-of", value).map(CaseRange::OneOf),
            Some(_) => map.required("whole", |node, problems| {
                let mut map = MapReader::open(node, problems)?;
                let from = map.required("from", whole(0..=MOST_WHOLE));
                let least = from.unwrap_or(0);
                let to = map.required("to", whole(least..=MOST_WHOLE));
                map.finish();
                Some(CaseRange::Whole {
                    from: from?,
                    to: to?,
                })
            }),
            None => {
                // Both keys are known here, whatever is wrong with their number.
                map.node("one-of");
                map.node("whole");
                None
            }
        };
        let shapes_plan = map.or("shapes-plan", false, yes_no);
        map.finish();
        Some((title?, range?, shapes_plan))
    })(node, problems)?;
    Some(
        choices
            .into_iter()
            .map(|(id, (title, range, shapes_plan))| CaseChoice {
                id,
                title,
                range,
                shapes_plan,
            })
            .collect(),
    )
}

/// Reads what steps are repeated over.
pub(super) fn repeats(node: &Node, problems: &mut Problems) -> Option<Vec<Repeat>> {
    let repeats = named(super::super::variant(&[
        ("up-to", |node, problems| {
            Some(RepeatOver::UpTo(name(node, problems)?))
        }),
        ("groups-of", |node, problems| {
            let mut map = MapReader::open(node, problems)?;
            let what = map.required("what", name);
            let size = map.required("size", whole(1..=MOST_WHOLE));
            map.finish();
            Some(RepeatOver::GroupsOf {
                what: what?,
                size: size?,
            })
        }),
        ("each-of", |node, problems| {
            Some(RepeatOver::EachOf(list_of(name)(node, problems)?))
        }),
    ]))(node, problems)?;
    Some(
        repeats
            .into_iter()
            .map(|(id, over)| Repeat { id, over })
            .collect(),
    )
}

const PART_KINDS: &Words<PartKind> = &[
    ("body", PartKind::Body),
    ("teeth", PartKind::Teeth),
    ("joints", PartKind::Joints),
];

/// Reads the parts and their aspects.
pub(super) fn parts(node: &Node, problems: &mut Problems) -> Option<(Vec<Part>, Vec<Aspect>)> {
    let read = named(|node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let title = map.required("title", text);
        let kind = map.required("kind", word(PART_KINDS));
        let aspects = map.or("aspects", Vec::new(), named(aspect));
        map.finish();
        Some((title?, kind?, aspects))
    })(node, problems)?;
    let (mut parts, mut aspects) = (Vec::new(), Vec::new());
    for (id, (title, kind, of_part)) in read {
        aspects.extend(of_part.into_iter().map(|(aspect, read)| Aspect {
            id: aspect,
            part: id.clone(),
            ..read
        }));
        parts.push(Part { id, title, kind });
    }
    Some((parts, aspects))
}

/// Reads an aspect; its id and part are put in by the caller, who has them.
fn aspect(node: &Node, problems: &mut Problems) -> Option<Aspect> {
    let mut map = MapReader::open(node, problems)?;
    let nobody = Spot {
        value: String::new(),
        at: map.at(),
    };
    let title = map.required("title", text);
    let per = map.or("per", Vec::new(), names);
    let seen = map.or("seen", false, yes_no);
    let decided_by = map.optional("shows", gauge);
    let values = map.required("values", |node, problems| {
        if matches!(&node.value, Value::Map(entries) if entries.is_empty()) {
            return problems.refuse(node.at, Fault::Nothing);
        }
        named(text)(node, problems)
    });
    map.finish();
    Some(Aspect {
        id: nobody.clone(),
        part: nobody,
        title: title?,
        values: values?
            .into_iter()
            .map(|(id, looks)| AspectValue { id, looks })
            .collect(),
        per,
        decided_by,
        seen,
    })
}

/// Reads `{ film: base }`.
fn gauge(node: &Node, problems: &mut Problems) -> Option<Gauge> {
    let (kind, node) = pair(node, problems)?;
    let of = name(node, problems);
    let found = GaugeKind::ALL.iter().find(|it| it.word() == kind.value);
    let Some(&known) = found else {
        let words = GaugeKind::ALL.iter().map(|it| it.word());
        return problems.refuse(kind.at, unknown_word(&kind.value, words));
    };
    Some(Gauge {
        kind: known,
        of: of?,
    })
}

/// Reads the stations. A number without an origin has the module's.
pub(super) fn bench(
    node: &Node,
    problems: &mut Problems,
    of_module: &Origin,
) -> Option<Vec<Station>> {
    let stations = named(|node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let title = map.required("title", text);
        let kind = map.required("kind", name);
        let numbers = map.or("numbers", Vec::new(), |node, problems| {
            numbers(node, problems, of_module)
        });
        map.finish();
        Some((title?, kind?, numbers))
    })(node, problems)?;
    Some(
        stations
            .into_iter()
            .map(|(id, (title, kind, numbers))| Station {
                id,
                title,
                kind,
                numbers,
            })
            .collect(),
    )
}

/// Reads the numbers of one station.
pub(in crate::syllabus) fn numbers(
    node: &Node,
    problems: &mut Problems,
    of_module: &Origin,
) -> Option<Vec<StationNumber>> {
    let bare = |node: &Node, problems: &mut Problems| {
        Some((number(node, problems)?, Vec::new(), of_module.clone()))
    };
    let full = |node: &Node, problems: &mut Problems| {
        let mut map = MapReader::open(node, problems)?;
        let value = map.required("value", number);
        let origin = map.or("origin", of_module.clone(), origin);
        let changes = map.list("changes", |node, problems| {
            let mut map = MapReader::open(node, problems)?;
            let when = map.required("when", when);
            let value = map.required("value", number);
            map.finish();
            let (choice, word) = when?;
            Some((choice, word, value?))
        });
        map.finish();
        Some((value?, changes, origin))
    };
    let read = named(scalar_or(bare, full))(node, problems)?;
    Some(
        read.into_iter()
            .map(|(name, (text, changes, origin))| StationNumber {
                name,
                text,
                changes,
                origin,
            })
            .collect(),
    )
}

/// Reads a number as text with its place.
fn number(node: &Node, problems: &mut Problems) -> Option<Name> {
    Some(Spot {
        value: text(node, problems)?,
        at: node.at,
    })
}

/// Reads the products.
pub(super) fn shelf(node: &Node, problems: &mut Problems) -> Option<Vec<Product>> {
    let products = named(|node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let title = map.required("title", text);
        map.finish();
        title
    })(node, problems)?;
    Some(
        products
            .into_iter()
            .map(|(id, title)| Product { id, title })
            .collect(),
    )
}

const PROTECTION_KINDS: &Words<ProtectionKind> = &[
    ("worn", ProtectionKind::Worn),
    ("running", ProtectionKind::Running),
];

/// Reads what can be worn or running, and when it must be.
pub(super) fn protection(
    node: &Node,
    problems: &mut Problems,
) -> Option<(Vec<ProtectionItem>, Vec<Guard>)> {
    let mut map = MapReader::open(node, problems)?;
    let items = map.or(
        "items",
        Vec::new(),
        named(|node, problems| {
            let mut map = MapReader::open(node, problems)?;
            let title = map.required("title", text);
            let kind = map.required("kind", word(PROTECTION_KINDS));
            let change_every = map.optional("change-every", duration);
            map.finish();
            Some((title?, kind?, change_every))
        }),
    );
    let rules = map.list("rules", guard);
    map.finish();
    let items = items
        .into_iter()
        .map(|(id, (title, kind, change_every))| ProtectionItem {
            id,
            title,
            kind,
            change_every,
        });
    Some((items.collect(), rules))
}

fn guard(node: &Node, problems: &mut Problems) -> Option<Guard> {
    let mut map = MapReader::open(node, problems)?;
    let item = map.required("item", name);
    let holds_while = map.list("while", condition);
    let during = map.or("during", Vec::new(), names);
    let hazard = map.required("hazard", name);
    let grace = map.or("grace", Millis::ZERO, duration);
    let miss = miss_of(&mut map);
    map.finish();
    Some(Guard {
        item: item?,
        holds_while,
        during,
        hazard: hazard?,
        miss: miss?,
        grace,
    })
}
