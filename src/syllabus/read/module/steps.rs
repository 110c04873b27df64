//! One step, how its time is kept, and what happens when it goes wrong.

use super::super::problem::Problems;
use super::super::{
    Fault, MapReader, Node, Value, Variant, list_of, name, one_or_more, scalar_or, text, variant,
    yes_no,
};
use super::operations::operation;
use super::terms::{condition, correction, duration, miss, miss_of, named, origin, when};
use crate::syllabus::module::{
    After, Keeping, Step, StepErrors, Tier, TimeChange, TimeWindow, Way, WayOption,
};
use crate::units::Millis;

/// Reads a step. The stage it came from is put in by whoever knows it.
pub(super) fn step(node: &Node, problems: &mut Problems) -> Option<Step> {
    let mut map = MapReader::open(node, problems)?;
    let id = map.required("id", name);
    let title = map.required("title", text);
    let at = map.required("at", name);
    let each = map.list("each", name);
    let after = map.list("after", after);
    let needs = map.list("needs", condition);
    let makes = map.list("makes", condition);
    let refused_if = map.list("refused-if", condition);
    let optional = map.or("optional", false, yes_no);
    let attended = map.or("attended", true, yes_no);
    let again = map.or("again", false, yes_no);
    let takes = map.or("takes", Millis::ZERO, duration);
    let keeping = map.optional("kept-by", variant(KEPT_BY));
    let ways = map.or("ways", Vec::new(), named(way));
    let does = map.list("does", operation);
    let critical = map.or("critical", false, yes_no);
    let goes_with = map.optional("goes-with", name);
    let why = map.or("why", String::new(), text);
    let good = map.or("good", String::new(), text);
    let tools = map.list("tools", text);
    let hazards = map.list("hazards", name);
    let errors = map.or("errors", StepErrors::default(), errors);
    let origin = map.optional("origin", origin);
    map.finish();
    Some(Step {
        id: id?,
        title: title?,
        stage: None,
        at: at?,
        each,
        after,
        needs,
        makes,
        refused_if,
        optional,
        attended,
        again,
        takes,
        keeping,
        ways: ways
            .into_iter()
            .map(|(id, (title, options))| Way { id, title, options })
            .collect(),
        does,
        critical,
        goes_with,
        why,
        good,
        tools,
        hazards,
        errors,
        origin,
    })
}

/// Reads `wipe` or `{ all: wipe }`.
fn after(node: &Node, problems: &mut Problems) -> Option<After> {
    let one = |node: &Node, problems: &mut Problems| {
        let step = name(node, problems)?;
        Some(After { step, all: false })
    };
    let all = |node: &Node, problems: &mut Problems| {
        let mut map = MapReader::open(node, problems)?;
        let step = map.required("all", name);
        map.finish();
        Some(After {
            step: step?,
            all: true,
        })
    };
    scalar_or(one, all)(node, problems)
}

const KEPT_BY: &[Variant<Keeping>] = &[
    ("timer", |node, problems| {
        Some(Keeping::Timer(window(node, problems)?))
    }),
    ("count", |node, problems| {
        Some(Keeping::Count(window(node, problems)?))
    }),
    ("watch", watch),
    ("judge", judge),
];

fn watch(node: &Node, problems: &mut Problems) -> Option<Keeping> {
    let mut map = MapReader::open(node, problems)?;
    let sign = map.required("sign", condition);
    let within = map.required("within", duration);
    let expect = map.optional("expect", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let from = map.required("from", duration);
        let to = map.required("to", duration);
        map.finish();
        Some((from?, to?))
    });
    map.finish();
    Some(Keeping::Watch {
        sign: sign?,
        within: within?,
        expect,
    })
}

fn judge(node: &Node, problems: &mut Problems) -> Option<Keeping> {
    let mut map = MapReader::open(node, problems)?;
    let until = map.some("until", condition);
    let portion = map.required("portion", duration);
    map.finish();
    Some(Keeping::Judge {
        until: until?,
        portion: portion?,
    })
}

fn window(node: &Node, problems: &mut Problems) -> Option<TimeWindow> {
    let mut map = MapReader::open(node, problems)?;
    let limits = limits(&mut map);
    let changes = map.list("changes", change);
    let origin = map.optional("origin", origin);
    map.finish();
    let (target, least, most) = limits?;
    Some(TimeWindow {
        target,
        least,
        most,
        changes,
        origin,
    })
}

/// Reads target, least and most from a map that may hold more.
pub(in crate::syllabus) fn limits(map: &mut MapReader<'_, '_>) -> Option<(Millis, Millis, Millis)> {
    let target = map.required("target", duration);
    let least = map.required("least", duration);
    let most = map.required("most", duration);
    Some((target?, least?, most?))
}

/// Reads what a case card changes of a window.
pub(in crate::syllabus) fn change(node: &Node, problems: &mut Problems) -> Option<TimeChange> {
    let mut map = MapReader::open(node, problems)?;
    let when = map.required("when", when);
    let kind = map.one_of(&["add", "replace"]);
    let add = map.optional("add", correction);
    let replace = map.optional("replace", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let limits = limits(&mut map);
        map.finish();
        limits
    });
    map.finish();
    kind?;
    let (choice, value) = when?;
    Some(TimeChange {
        choice,
        value,
        add,
        replace,
    })
}

fn way(node: &Node, problems: &mut Problems) -> Option<(String, Vec<WayOption>)> {
    let mut map = MapReader::open(node, problems)?;
    let title = map.required("title", text);
    let options = map.required("options", |node, problems| {
        if matches!(&node.value, Value::Map(entries) if entries.is_empty()) {
            return problems.refuse(node.at, Fault::Nothing);
        }
        named(option)(node, problems)
    });
    map.finish();
    let options = options?.into_iter();
    Some((
        title?,
        options
            .map(|(id, (title, wrong))| WayOption { id, title, wrong })
            .collect(),
    ))
}

fn option(
    node: &Node,
    problems: &mut Problems,
) -> Option<(String, Option<crate::syllabus::module::Miss>)> {
    let mut map = MapReader::open(node, problems)?;
    let title = map.required("title", text);
    let wrong = map.optional("wrong", miss);
    map.finish();
    Some((title?, wrong))
}

fn errors(node: &Node, problems: &mut Problems) -> Option<StepErrors> {
    let mut map = MapReader::open(node, problems)?;
    let skipped = map.optional("skipped", miss);
    let short = map.or("short", Vec::new(), tiers);
    let long = map.or("long", Vec::new(), tiers);
    let unready = map.optional("unready", miss);
    let misplaced = map.optional("misplaced", miss);
    map.finish();
    Some(StepErrors {
        skipped,
        short,
        long,
        unready,
        misplaced,
    })
}

fn tiers(node: &Node, problems: &mut Problems) -> Option<Vec<Tier>> {
    one_or_more(|node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let limit = map.optional("limit", duration);
        let miss = miss_of(&mut map);
        map.finish();
        Some(Tier { limit, miss: miss? })
    })(node, problems)
}

/// Reads a list of operations.
pub(super) fn operations(
    node: &Node,
    problems: &mut Problems,
) -> Option<Vec<crate::syllabus::operation::Operation>> {
    list_of(operation)(node, problems)
}
