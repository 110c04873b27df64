//! Alignments of traces with partially ordered models.

use super::{
    Loaded, Origin, Report, cases, check_each, notices_altered_answers, own_cases, settle,
};
use drybench::rehearsal::align::model::{
    Element, LabelledEvent, Model, ModelAlignment, ModelProblem, Step,
};
use drybench::rehearsal::align::{EventCost, TaskCost, align, inversions, width};
use drybench::syllabus::order::Order;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// Families of cases. Those of `same-label` are refused by the program: see [`ModelProblem::SameLabel`].
const FAMILIES: &[&str] = &[
    "published",
    "edge",
    "small",
    "medium",
    "large",
    "choice",
    "repeat",
    "weighted",
    "same-label",
];

/// Pairs `(first, then)` of elements.
type Edges = Vec<(usize, usize)>;

fn text(value: &Value) -> String {
    value.as_str().expect("a label is text").to_owned()
}

fn small(value: &Value) -> u32 {
    u32::try_from(value.as_u64().expect("a cost is a whole number")).expect("a cost is small")
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn step(value: &Value) -> Step {
    Step {
        label: text(&value["label"]),
        cost: TaskCost {
            skip: small(&value["skip_cost"]),
            critical_bonus: 0,
        },
    }
}

fn sequence(value: &Value) -> Vec<Step> {
    list(value).iter().map(step).collect()
}

/// The elements and edges of a case, or the kind of element that is not known.
fn model(case: &Value) -> Result<(Vec<Element>, Edges), String> {
    let mut number = BTreeMap::new();
    let mut elements = Vec::new();
    let count = |value: &Value| usize::try_from(value.as_u64().expect("a count")).expect("small");
    for element in list(&case["model"]["elements"]) {
        number.insert(text(&element["id"]), elements.len());
        elements.push(match element["kind"].as_str() {
            Some("step") => Element::Step(step(element)),
            Some("choice") => {
                Element::Choice(list(&element["branches"]).iter().map(sequence).collect())
            }
            Some("repeat") => Element::Repeat {
                body: sequence(&element["body"]),
                min: count(&element["min"]),
                max: (!element["max"].is_null()).then(|| count(&element["max"])),
            },
            other => return Err(format!("element {other:?}")),
        });
    }
    let edges = list(&case["model"]["edges"])
        .iter()
        .map(|edge| (number[&text(&edge[0])], number[&text(&edge[1])]))
        .collect();
    Ok((elements, edges))
}

/// What is wrong with an explanation on the face of it, apart from its cost being the least.
fn fault(aligned: &ModelAlignment<'_>, events: &[LabelledEvent<'_>]) -> Option<&'static str> {
    let alignment = &aligned.alignment;
    let mut done: Vec<usize> = Vec::new();
    let mut cost = 0;
    for (event, matched) in events.iter().zip(&alignment.matched) {
        let Some(task) = *matched else {
            cost += u64::from(event.insert);
            continue;
        };
        if !aligned.steps[task].labels.contains(&event.label) {
            return Some("an event counts as a step with another label");
        }
        if done
            .iter()
            .any(|&earlier| earlier == task || aligned.order.precedes(task, earlier))
        {
            return Some("the matched steps are out of order");
        }
        done.push(task);
    }
    for (task, step) in aligned.steps.iter().enumerate() {
        if !done.contains(&task) {
            cost += u64::from(step.cost.skip);
        }
    }
    (cost != alignment.cost).then_some("the cost is not what is struck and missing")
}

/// The same case through [`align`], for a model of plain steps whose labels all differ.
fn plainly(
    elements: &[Element],
    edges: &[(usize, usize)],
    events: &[LabelledEvent<'_>],
) -> Option<Value> {
    let mut tasks = Vec::new();
    let mut number = BTreeMap::new();
    for element in elements {
        let Element::Step(step) = element else {
            return None;
        };
        if number.insert(step.label.as_str(), tasks.len()).is_some() {
            return None;
        }
        tasks.push(step.cost);
    }
    let order = Order::new(tasks.len(), edges).expect("the model took the same edges");
    let costs: Vec<EventCost> = events
        .iter()
        .map(|event| EventCost {
            task: number.get(event.label).copied(),
            insert: event.insert,
        })
        .collect();
    let done: Vec<Option<usize>> = costs.iter().map(|event| event.task).collect();
    let label = |task: usize| {
        number
            .iter()
            .find(|&(_, &at)| at == task)
            .map(|(label, _)| *label)
    };
    let mut pairs: Vec<_> = inversions(&order, &done)
        .into_iter()
        .map(|(first, then)| (label(first), label(then)))
        .collect();
    pairs.sort_unstable();
    Some(json!({
        "cost": align(&tasks, &order, &costs).cost,
        "inversions": pairs,
        "width": width(&order),
    }))
}

fn check_case(loaded: &Loaded, case: &Value, report: &mut Report) {
    let expected = &case["expected"];
    report.expects_only(
        case,
        &[
            "cost",
            "empty_trace_cost",
            "fitness",
            "inversions",
            "unambiguous_labels",
            "width",
            "one_optimal_matching",
            "confirmed_by",
        ],
    );
    let family = case["family"].as_str().unwrap_or_default();
    if !FAMILIES.contains(&family) {
        report.unknown(case, family);
        return;
    }
    let (elements, edges) = match model(case) {
        Ok(model) => model,
        Err(kind) => {
            report.unknown(case, &kind);
            return;
        }
    };
    let labels: Vec<String> = list(&case["trace"]).iter().map(text).collect();
    let insert = |label: &str| match &case["model"]["insert_cost"][label] {
        Value::Null => 1,
        stated => small(stated),
    };
    let events: Vec<LabelledEvent<'_>> = labels
        .iter()
        .map(|label| LabelledEvent {
            label,
            insert: insert(label),
        })
        .collect();
    let model = match Model::new(elements.clone(), &edges) {
        Ok(model) => model,
        Err(ModelProblem::SameLabel { .. }) => {
            // Refusing is right exactly where an event could be either of two steps.
            if expected["unambiguous_labels"] != json!(false) {
                report.differs(
                    case,
                    "unambiguous_labels",
                    false,
                    &expected["unambiguous_labels"],
                );
            }
            report.tally.not_owed("same-label");
            return;
        }
        Err(problem) => {
            report.differs(case, "model", problem, "a model");
            return;
        }
    };
    let aligned = match model.align(&events) {
        Ok(aligned) => aligned,
        Err(problem) => {
            report.differs(case, "alignment", problem, "an alignment");
            return;
        }
    };
    report.tally.checked(case, Origin::Library);
    if let Some(fault) = fault(&aligned, &events) {
        report.differs(case, "alignment", fault, "a valid alignment");
    }
    for (what, got) in [
        ("cost", json!(aligned.alignment.cost)),
        ("empty_trace_cost", json!(model.doing_nothing())),
        ("inversions", json!(model.inversions(&events))),
        ("unambiguous_labels", json!(true)),
        ("width", json!(model.width())),
    ] {
        if got != expected[what] {
            report.differs(case, what, got, &expected[what]);
        }
    }
    if !loaded.agrees_with(Some(aligned.fitness), &expected["fitness"]) {
        report.differs(case, "fitness", aligned.fitness, &expected["fitness"]);
    }
    if let Some(plain) = plainly(&elements, &edges, &events) {
        for what in ["cost", "inversions", "width"] {
            if plain[what] != expected[what] {
                report.differs(case, what, &plain[what], &expected[what]);
            }
        }
    }
}

pub(super) fn check(loaded: &Loaded) -> Report {
    check_each(loaded, check_case)
}

#[test]
fn alignments_cost_what_they_cost_elsewhere() {
    let loaded = cases("alignments");
    settle(&loaded, &check(&loaded));
}

#[test]
fn altered_alignments_are_noticed() {
    // Of several matchings that cost the same any one will do, and who confirmed it is for information.
    let not_checked = ["one_optimal_matching", "confirmed_by"];
    notices_altered_answers(&own_cases("alignments"), check, &not_checked);
}

#[test]
fn an_unknown_family_or_element_is_named() {
    let loaded = own_cases("alignments");
    for (place, name) in [("/family", "nested"), ("/model/elements/0/kind", "loop")] {
        let mut one = Loaded {
            cases: vec![loaded.cases[0].clone()],
            ..loaded.clone()
        };
        *one.cases[0].pointer_mut(place).expect("every case has it") = json!(name);
        let mismatches = check(&one).mismatches;
        assert!(
            mismatches.iter().any(|line| line.contains(name)),
            "{mismatches:?}"
        );
    }
}
