//! Stages: steps that several modules share, with what one module changes of them.
//!
//! Changes are made on the tree, so that a changed step is read like any other and every complaint points into the file
//! where the faulty text stands. Maps are merged key by key; lists and texts take the place of what was there, and so does
//! another way of keeping time. Left out: whether a stage names only what it expects, which is a matter of meaning.

use std::collections::BTreeMap;

use super::super::problem::{Problems, excerpt};
use super::super::tree::parse_file;
use super::super::{Fault, Key, MapReader, Node, Place, Value, list_of, name, nearest, text};
use super::steps::step;
use super::terms::{named, names};
use super::{Library, StageUse};
use crate::syllabus::module::{After, Name, Repeat, RepeatOver, Step};

/// A step as it will be read, and the stage it belongs to.
pub(super) struct FlowStep {
    /// Its map.
    pub(super) node: Node,
    /// The index of its stage among those used.
    pub(super) stage: Option<usize>,
}

/// What the flow of a module comes to.
#[derive(Default)]
pub(super) struct Flow {
    /// The steps in order, stages merged.
    pub(super) steps: Vec<FlowStep>,
    /// The stages.
    pub(super) stages: Vec<StageUse>,
    /// The steps that were dropped, by id: stage, repeats, what they came after.
    pub(super) dropped: BTreeMap<String, Dropped>,
}

/// A step that was dropped, as far as the order needs it.
pub(super) struct Dropped {
    stage: usize,
    each: Vec<Name>,
    after: Vec<After>,
}

/// What a module changes of a stage.
struct Changes {
    adjust: Vec<(Name, Node)>,
    replace: Vec<(Name, Node)>,
    add: Vec<Node>,
    drop: Vec<Name>,
}

/// A decoder that keeps the tree as it is.
fn kept(node: &Node, _: &mut Problems) -> Option<Node> {
    Some(node.clone())
}

/// Takes in one use of a stage.
pub(super) fn take(
    node: &Node,
    library: &Library<'_>,
    files: &mut Vec<String>,
    flow: &mut Flow,
    problems: &mut Problems,
) -> Option<()> {
    let mut map = MapReader::open(node, problems)?;
    let used = map.required("use", name);
    let lent = map.or("expects", Vec::new(), names);
    let changes = Changes {
        adjust: map.or("adjust", Vec::new(), named(kept)),
        replace: map.or("replace", Vec::new(), named(kept)),
        add: map.list("add", kept),
        drop: map.or("drop", Vec::new(), names),
    };
    map.finish();
    let used = used?;
    if flow.stages.iter().any(|it| it.id.value == used.value) {
        return problems.refuse(used.at, Fault::StageTwice);
    }
    let Some((file, bytes)) = library.stage(&used.value) else {
        let known = library.ids();
        let suggestion = nearest(&used.value, known).map(str::to_owned);
        let found = excerpt(&used.value);
        return problems.refuse(used.at, Fault::UnknownStage { found, suggestion });
    };
    // Each stage is used once and the tree of the module is bounded, so the files can be counted.
    let index = u16::try_from(files.len()).ok()?;
    files.push(file.to_owned());
    let root = parse_file(bytes, index, problems)?;
    let StageFile {
        title,
        expects,
        steps,
    } = stage_file(&root, &used, problems)?;
    let stage = flow.stages.len();
    flow.stages.push(StageUse {
        id: used,
        title,
        file: index,
        expects,
        lent,
    });
    let steps = changes.apply(steps, stage, flow, problems);
    flow.steps.extend(steps.into_iter().map(|node| FlowStep {
        node,
        stage: Some(stage),
    }));
    Some(())
}

/// The file of a stage, read as far as its steps.
struct StageFile {
    title: String,
    expects: Vec<Name>,
    steps: Vec<Node>,
}

fn stage_file(root: &Node, used: &Name, problems: &mut Problems) -> Option<StageFile> {
    let mut map = MapReader::open(root, problems)?;
    let head = map.required("stage", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let id = map.required("id", name);
        let title = map.required("title", text);
        let expects = map.or("expects", Vec::new(), names);
        map.finish();
        let id = id?;
        if id.value != used.value {
            let fault = Fault::StageNamedOtherwise {
                found: id.value,
                expected: used.value.clone(),
            };
            problems.add(id.at, fault);
        }
        Some((title?, expects))
    });
    let steps = map.some("steps", kept);
    map.finish();
    let (title, expects) = head?;
    Some(StageFile {
        title,
        expects,
        steps: steps?,
    })
}

impl Changes {
    fn apply(
        self,
        steps: Vec<Node>,
        stage: usize,
        flow: &mut Flow,
        problems: &mut Problems,
    ) -> Vec<Node> {
        let ids: Vec<String> = steps.iter().filter_map(id_of).map(str::to_owned).collect();
        let of_change = self.adjust.iter().chain(&self.replace).map(|it| &it.0);
        for name in of_change.chain(&self.drop) {
            if !ids.contains(&name.value) {
                let suggestion = nearest(&name.value, ids.iter().map(String::as_str));
                let fault = Fault::UnknownStageStep {
                    found: excerpt(&name.value),
                    suggestion: suggestion.map(str::to_owned),
                };
                problems.add(name.at, fault);
            }
        }
        let mut kept = Vec::with_capacity(steps.len() + self.add.len());
        for mut node in steps {
            let id = id_of(&node).unwrap_or_default().to_owned();
            if self.drop.iter().any(|it| it.value == id) {
                // What is wrong with a step that nobody does is told where it is done.
                if let Some(read) = step(&node, &mut Problems::new()) {
                    let (each, after) = (read.each, read.after);
                    flow.dropped.insert(id, Dropped { stage, each, after });
                }
                continue;
            }
            if let Some((name, new)) = self.replace.iter().find(|it| it.0.value == id) {
                node = with_id(new, name, problems);
            }
            if let Some((_, part)) = self.adjust.iter().find(|it| it.0.value == id) {
                refuse_id(part, problems);
                merge(&mut node, part, "");
            }
            kept.push(node);
        }
        kept.extend(self.add);
        kept
    }
}

/// The id of a step that has not been read yet.
fn id_of(node: &Node) -> Option<&str> {
    let Value::Map(entries) = &node.value else {
        return None;
    };
    let (_, id) = entries.iter().find(|(key, _)| key.text == "id")?;
    match &id.value {
        Value::Scalar { text, .. } => Some(text),
        _ => None,
    }
}

/// A changed step has its id from its key; a second one could only contradict it.
fn refuse_id(node: &Node, problems: &mut Problems) {
    let Value::Map(entries) = &node.value else {
        return;
    };
    for (key, _) in entries.iter().filter(|(key, _)| key.text == "id") {
        let fault = Fault::UnknownKey {
            found: key.text.clone(),
            suggestion: None,
            known: Vec::new(),
        };
        problems.add(key.at, fault);
    }
}

fn with_id(node: &Node, name: &Name, problems: &mut Problems) -> Node {
    refuse_id(node, problems);
    let mut node = node.clone();
    if let Value::Map(entries) = &mut node.value {
        let key = Key {
            text: "id".to_owned(),
            at: name.at,
        };
        let value = Value::Scalar {
            text: name.value.clone(),
            quoted: false,
        };
        entries.retain(|(key, _)| key.text != "id");
        entries.insert(0, (key, Node { value, at: name.at }));
    }
    node
}

/// Lays one tree over another. Both are at most as deep as a file can be.
fn merge(under: &mut Node, over: &Node, key: &str) {
    let (Value::Map(old), Value::Map(new)) = (&mut under.value, &over.value) else {
        *under = over.clone();
        return;
    };
    let tag = |entries: &[(Key, Node)]| entries.first().map(|(key, _)| key.text.clone());
    if key == "kept-by" && tag(old) != tag(new) {
        *under = over.clone();
        return;
    }
    for (key, node) in new {
        match old.iter_mut().find(|(it, _)| it.text == key.text) {
            Some((_, there)) => merge(there, node, &key.text),
            None => old.push((key.clone(), node.clone())),
        }
    }
}

/// Lets the steps that came after a dropped one come after what that one came after.
///
/// The link over a dropped step asks for all places unless the dropped step was done place by place as well: one that was
/// done once for everything held everything back.
pub(super) fn bridge(
    steps: &mut [Step],
    of_stage: &[Option<usize>],
    flow: &Flow,
    repeats: &[Repeat],
) {
    if flow.dropped.is_empty() {
        return;
    }
    for (step, stage) in steps.iter_mut().zip(of_stage) {
        let mut bridged: Vec<After> = Vec::new();
        let mut open: Vec<After> = std::mem::take(&mut step.after);
        open.reverse();
        let mut seen = Vec::new();
        while let Some(link) = open.pop() {
            let over = flow.dropped.get(&link.step.value);
            let Some(gone) = over.filter(|it| Some(it.stage) == *stage) else {
                match bridged
                    .iter_mut()
                    .find(|it| it.step.value == link.step.value)
                {
                    Some(there) => there.all |= link.all,
                    None => bridged.push(link),
                }
                continue;
            };
            if seen.contains(&(link.step.value.clone(), link.all)) {
                continue;
            }
            seen.push((link.step.value.clone(), link.all));
            let apart = step.each.iter().any(|here| {
                let here = base(&here.value, repeats);
                gone.each
                    .iter()
                    .any(|there| base(&there.value, repeats) == here)
            });
            for before in gone.after.iter().rev() {
                open.push(After {
                    step: before.step.clone(),
                    all: link.all || before.all || !apart,
                });
            }
        }
        step.after = bridged;
    }
}

/// The repeat that a repeat counts in.
fn base<'r>(id: &'r str, repeats: &'r [Repeat]) -> &'r str {
    let mut id = id;
    // Each turn goes to another repeat, or round a circle that is complained about later.
    for _ in 0..=repeats.len() {
        match repeats
            .iter()
            .find(|it| it.id.value == id)
            .map(|it| &it.over)
        {
            Some(RepeatOver::GroupsOf { what, .. }) => id = &what.value,
            _ => break,
        }
    }
    id
}

/// The links of a step as they would be written.
pub(super) fn written(after: &[After], at: Place) -> Node {
    let scalar = |name: &Name| Node {
        value: Value::Scalar {
            text: name.value.clone(),
            quoted: false,
        },
        at: name.at,
    };
    let items = after.iter().map(|link| match link.all {
        false => scalar(&link.step),
        true => {
            let key = Key {
                text: "all".to_owned(),
                at: link.step.at,
            };
            Node {
                value: Value::Map(vec![(key, scalar(&link.step))]),
                at: link.step.at,
            }
        }
    });
    Node {
        value: Value::List(items.collect()),
        at,
    }
}

/// Reads the items of a flow and takes the stages in.
pub(super) fn flow(
    node: &Node,
    library: &Library<'_>,
    files: &mut Vec<String>,
    problems: &mut Problems,
) -> Option<Flow> {
    let items = list_of(super::super::variant(&[
        ("step", |node, _| Some((true, node.clone()))),
        ("stage", |node, _| Some((false, node.clone()))),
    ]))(node, problems)?;
    if items.is_empty() && matches!(&node.value, Value::List(items) if items.is_empty()) {
        return problems.refuse(node.at, Fault::Nothing);
    }
    let mut flow = Flow::default();
    for (is_step, node) in items {
        if is_step {
            flow.steps.push(FlowStep { node, stage: None });
        } else {
            take(&node, library, files, &mut flow, problems);
        }
    }
    Some(flow)
}
