//! Plans with exclusive choices and repetitions, aligned by writing them out.
//!
//! An element of the order is a step, a choice between sequences of steps, or a sequence that may be repeated. Every
//! combination of branches and numbers of repetitions that could matter for a trace is written out as plain steps, and the
//! cheapest alignment wins; of equally cheap ones the first combination. A choice between single steps that cost the same is
//! one step with several labels and multiplies nothing.
//!
//! Left out: choices inside choices. A plan that the workflow compiler makes has plain steps only and goes to
//! [`align`](super::align) directly.

use super::{Alignment, EventCost, Pair, TaskCost, align_pairs, fitness, width};
use crate::syllabus::order::{Order, OrderProblem};
use std::collections::BTreeSet;

/// At most this many combinations are written out for one trace.
pub const COMBINATIONS_MOST: usize = 2_000;

/// One step: what it is called and what it costs to leave it out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The label of the events that count as this step.
    pub label: String,
    /// The cost if it is missing, and the preference among equally cheap alignments.
    pub cost: TaskCost,
}

/// One element of the order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Element {
    /// A step, required or optional.
    Step(Step),
    /// Exactly one of several sequences.
    Choice(Vec<Vec<Step>>),
    /// A sequence done a number of times in a row.
    Repeat {
        /// The sequence.
        body: Vec<Step>,
        /// How many times at least.
        min: usize,
        /// How many times at most. `None`: any number.
        max: Option<usize>,
    },
}

/// Why elements and edges are no model, or a trace cannot be aligned with it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ModelProblem {
    /// The edges are no order of the elements.
    Order(OrderProblem),
    /// Two elements that may come in either order share a label, so that an event could be either. Finding the better is no
    /// minimum cut any more (in general it is NP-hard).
    SameLabel {
        /// The two elements, rising.
        elements: (usize, usize),
        /// The label.
        label: String,
    },
    /// The element is a choice without branches, or a repetition without a body or with fewer times at most than at least.
    Empty(usize),
    /// More than [`COMBINATIONS_MOST`] combinations would have to be written out.
    TooManyCombinations,
}

/// A strict partial order over elements in which it is never open what an event could be.
#[derive(Clone, Debug)]
pub struct Model {
    elements: Vec<Element>,
    order: Order,
}

/// An event of a trace by its label.
#[derive(Clone, Copy, Debug)]
pub struct LabelledEvent<'a> {
    /// What was done.
    pub label: &'a str,
    /// The cost if the event is struck.
    pub insert: u32,
}

/// A step written out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrittenStep<'a> {
    /// The labels that count as this step: several where single steps exclude each other.
    pub labels: Vec<&'a str>,
    /// The cost if it is missing.
    pub cost: TaskCost,
}

/// The cheapest alignment, with the way of writing the model out that it belongs to.
#[derive(Clone, Debug)]
pub struct ModelAlignment<'a> {
    /// The alignment. Its tasks are places in `steps`.
    pub alignment: Alignment,
    /// The written-out steps.
    pub steps: Vec<WrittenStep<'a>>,
    /// The order of the written-out steps.
    pub order: Order,
    /// The share explained, as [`fitness`] defines it.
    pub fitness: f64,
}

impl Element {
    fn labels(&self) -> BTreeSet<&str> {
        let steps: Vec<&Step> = match self {
            Element::Step(step) => vec![step],
            Element::Choice(branches) => branches.iter().flatten().collect(),
            Element::Repeat { body, .. } => body.iter().collect(),
        };
        steps.iter().map(|step| step.label.as_str()).collect()
    }

    /// The sequences that this element can stand for, as far as they can matter for the trace.
    fn ways<'a>(&'a self, events: &[LabelledEvent<'_>]) -> Vec<Vec<WrittenStep<'a>>> {
        match self {
            Element::Step(step) => vec![written(std::slice::from_ref(step))],
            Element::Choice(branches) => one_step(branches).map_or_else(
                || branches.iter().map(|branch| written(branch)).collect(),
                |step| vec![vec![step]],
            ),
            Element::Repeat { body, min, max } => {
                let labels = self.labels();
                let events = events
                    .iter()
                    .filter(|event| labels.contains(event.label))
                    .count();
                // One more copy than there are events for could only be missing.
                let most = max.unwrap_or(usize::MAX).min(events.max(*min));
                (*min..=most)
                    .map(|times| (0..times).flat_map(|_| written(body)).collect())
                    .collect()
            }
        }
    }

    /// What doing nothing of this element costs.
    fn doing_nothing(&self) -> u64 {
        let sum = |steps: &[Step]| steps.iter().map(|step| u64::from(step.cost.skip)).sum();
        match self {
            Element::Step(step) => u64::from(step.cost.skip),
            Element::Choice(branches) => branches
                .iter()
                .map(|branch| sum(branch))
                .min()
                .unwrap_or_default(),
            Element::Repeat { body, min, .. } => {
                sum(body) * u64::try_from(*min).unwrap_or(u64::MAX)
            }
        }
    }

    /// Whether some way of writing the element out holds a step.
    fn can_happen(&self) -> bool {
        match self {
            Element::Step(_) => true,
            Element::Choice(branches) => branches.iter().any(|branch| !branch.is_empty()),
            Element::Repeat { max, .. } => *max != Some(0),
        }
    }
}

/// The steps of a sequence, each with its one label.
fn written(steps: &[Step]) -> Vec<WrittenStep<'_>> {
    steps
        .iter()
        .map(|step| WrittenStep {
            labels: vec![&step.label],
            cost: step.cost,
        })
        .collect()
}

/// The one step that a choice amounts to if all its branches are single steps of equal cost.
fn one_step(branches: &[Vec<Step>]) -> Option<WrittenStep<'_>> {
    let singles: Vec<&Step> = branches
        .iter()
        .map(|branch| match branch.as_slice() {
            [step] => Some(step),
            _ => None,
        })
        .collect::<Option<_>>()?;
    let cost = singles.first()?.cost;
    singles
        .iter()
        .all(|step| step.cost == cost)
        .then(|| WrittenStep {
            labels: singles.iter().map(|step| step.label.as_str()).collect(),
            cost,
        })
}

impl Model {
    /// Joins elements and edges `(first, then)` between them into a model.
    ///
    /// # Errors
    /// [`ModelProblem`] if the edges are no order, a choice or repetition is empty, or elements that may come in either
    /// order share a label.
    pub fn new(elements: Vec<Element>, edges: &[(usize, usize)]) -> Result<Model, ModelProblem> {
        let order = Order::new(elements.len(), edges).map_err(ModelProblem::Order)?;
        for (at, element) in elements.iter().enumerate() {
            let empty = match element {
                Element::Step(_) => false,
                Element::Choice(branches) => branches.is_empty(),
                Element::Repeat { body, min, max } => {
                    body.is_empty() || max.is_some_and(|max| max < *min)
                }
            };
            if empty {
                return Err(ModelProblem::Empty(at));
            }
            for (earlier, other) in elements[..at].iter().enumerate() {
                if order.comparable(earlier, at) {
                    continue;
                }
                if let Some(label) = element.labels().intersection(&other.labels()).next() {
                    return Err(ModelProblem::SameLabel {
                        elements: (earlier, at),
                        label: (*label).to_owned(),
                    });
                }
            }
        }
        Ok(Model { elements, order })
    }

    /// The cost of the trace in which nothing was done.
    #[must_use]
    pub fn doing_nothing(&self) -> u64 {
        self.elements.iter().map(Element::doing_nothing).sum()
    }

    /// The most steps of which none must come before another, over all ways of writing the model out.
    #[must_use]
    pub fn width(&self) -> usize {
        // Steps of one element follow each other, so an antichain takes at most one from each.
        let happening: Vec<usize> = (0..self.elements.len())
            .filter(|&at| self.elements[at].can_happen())
            .collect();
        let edges: Vec<(usize, usize)> = (0..happening.len())
            .flat_map(|low| (0..happening.len()).map(move |high| (low, high)))
            .filter(|&(low, high)| self.order.precedes(happening[low], happening[high]))
            .collect();
        Order::new(happening.len(), &edges).map_or(0, |order| width(&order))
    }

    /// Sorted pairs of labels of plain steps that were done the wrong way round: the first must come before the second, and
    /// its first time is after the second's first time.
    #[must_use]
    pub fn inversions<'a>(&'a self, events: &[LabelledEvent<'_>]) -> Vec<(&'a str, &'a str)> {
        let first = |label: &str| events.iter().position(|event| event.label == label);
        let mut found = BTreeSet::new();
        for (low, element) in self.elements.iter().enumerate() {
            let Element::Step(step) = element else {
                continue;
            };
            let Some(at) = first(&step.label) else {
                continue;
            };
            for high in self.order.successors(low) {
                let Element::Step(then) = &self.elements[high] else {
                    continue;
                };
                if then.label != step.label && first(&then.label).is_some_and(|before| before < at)
                {
                    found.insert((step.label.as_str(), then.label.as_str()));
                }
            }
        }
        found.into_iter().collect()
    }

    /// Aligns a trace with the model.
    ///
    /// # Errors
    /// [`ModelProblem::TooManyCombinations`] if the choices and repetitions multiply beyond [`COMBINATIONS_MOST`].
    pub fn align(&self, events: &[LabelledEvent<'_>]) -> Result<ModelAlignment<'_>, ModelProblem> {
        let ways: Vec<Vec<Vec<WrittenStep<'_>>>> = self
            .elements
            .iter()
            .map(|element| element.ways(events))
            .collect();
        let combinations = ways
            .iter()
            .try_fold(1_usize, |product, ways| product.checked_mul(ways.len()))
            .filter(|&product| product <= COMBINATIONS_MOST)
            .ok_or(ModelProblem::TooManyCombinations)?;
        let mut best: Option<ModelAlignment<'_>> = None;
        for combination in 0..combinations {
            let mut rest = combination;
            let mut chosen: Vec<&[WrittenStep<'_>]> = Vec::with_capacity(ways.len());
            for ways in &ways {
                chosen.push(&ways[rest % ways.len()]);
                rest /= ways.len();
            }
            let one = self.align_written(&chosen, events)?;
            if best
                .as_ref()
                .is_none_or(|best| one.alignment.cost < best.alignment.cost)
            {
                best = Some(one);
            }
        }
        // Every element has at least one way, so there is a combination, and the first one always wins over none.
        best.ok_or(ModelProblem::TooManyCombinations)
    }

    /// Aligns a trace with one way of writing the model out.
    fn align_written<'a>(
        &'a self,
        chosen: &[&[WrittenStep<'a>]],
        events: &[LabelledEvent<'_>],
    ) -> Result<ModelAlignment<'a>, ModelProblem> {
        let mut start = Vec::with_capacity(chosen.len());
        let mut steps: Vec<WrittenStep<'a>> = Vec::new();
        let mut edges = Vec::new();
        for sequence in chosen {
            start.push(steps.len());
            for step in *sequence {
                if steps.len() > start[start.len() - 1] {
                    edges.push((steps.len() - 1, steps.len()));
                }
                steps.push(step.clone());
            }
        }
        for low in 0..chosen.len() {
            // All pairs of the closed order, so that an element that was written out as nothing still passes it on.
            for high in self.order.successors(low) {
                if !chosen[low].is_empty() && !chosen[high].is_empty() {
                    edges.push((start[low] + chosen[low].len() - 1, start[high]));
                }
            }
        }
        let order = Order::new(steps.len(), &edges).map_err(ModelProblem::Order)?;
        let costs: Vec<TaskCost> = steps.iter().map(|step| step.cost).collect();
        let inserts: Vec<EventCost> = events
            .iter()
            .map(|event| EventCost {
                task: None,
                insert: event.insert,
            })
            .collect();
        let pairs: Vec<Pair> = events
            .iter()
            .enumerate()
            .flat_map(|(event, done)| {
                steps
                    .iter()
                    .enumerate()
                    .filter(move |(_, step)| step.labels.contains(&done.label))
                    .map(move |(task, _)| Pair { task, event })
            })
            .collect();
        let alignment = align_pairs(&costs, &order, &inserts, &pairs);
        let all_inserts = events.iter().map(|event| u64::from(event.insert)).sum();
        Ok(ModelAlignment {
            fitness: fitness(alignment.cost, all_inserts, self.doing_nothing()),
            alignment,
            steps,
            order,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(label: &str) -> Step {
        Step {
            label: label.to_owned(),
            cost: TaskCost {
                skip: 1,
                critical_bonus: 0,
            },
        }
    }

    fn events<'a>(labels: &[&'a str]) -> Vec<LabelledEvent<'a>> {
        labels
            .iter()
            .map(|label| LabelledEvent { label, insert: 1 })
            .collect()
    }

    fn cost(model: &Model, labels: &[&str]) -> u64 {
        model.align(&events(labels)).unwrap().alignment.cost
    }

    #[test]
    fn exactly_one_branch_is_asked_for() {
        let choice = Element::Choice(vec![vec![step("short")], vec![step("long"), step("rest")]]);
        let model = Model::new(vec![choice, Element::Step(step("end"))], &[(0, 1)]).unwrap();
        assert_eq!(cost(&model, &["short", "end"]), 0);
        assert_eq!(cost(&model, &["long", "rest", "end"]), 0);
        assert_eq!(cost(&model, &["long", "end"]), 1);
        assert_eq!(cost(&model, &["short", "long", "rest", "end"]), 1);
        assert_eq!(model.doing_nothing(), 2);
    }

    #[test]
    fn single_steps_that_cost_the_same_multiply_nothing() {
        let choices = (0..40)
            .map(|at| {
                Element::Choice(vec![
                    vec![step(&format!("{at}a"))],
                    vec![step(&format!("{at}b"))],
                ])
            })
            .collect();
        let model = Model::new(choices, &[]).unwrap();
        assert_eq!(cost(&model, &["3b", "3a", "7a"]), 39);
    }

    #[test]
    fn branches_that_multiply_too_far_are_refused() {
        let choices = (0..40)
            .map(|at| Element::Choice(vec![vec![step(&format!("{at}"))], vec![]]))
            .collect();
        let model = Model::new(choices, &[]).unwrap();
        assert_eq!(
            model.align(&[]).map(|_| ()),
            Err(ModelProblem::TooManyCombinations)
        );
    }

    #[test]
    fn a_repetition_takes_as_many_times_as_were_done_within_its_bounds() {
        let wash = Element::Repeat {
            body: vec![step("wash"), step("look")],
            min: 1,
            max: Some(2),
        };
        let model = Model::new(vec![wash], &[]).unwrap();
        assert_eq!(cost(&model, &[]), 2);
        assert_eq!(cost(&model, &["wash", "look", "wash", "look"]), 0);
        assert_eq!(cost(&model, &["wash", "wash", "look"]), 1);
        assert_eq!(
            cost(&model, &["wash", "look", "wash", "look", "wash", "look"]),
            2
        );
    }

    #[test]
    fn a_repetition_done_no_time_still_passes_the_order_on() {
        let again = Element::Repeat {
            body: vec![step("again")],
            min: 0,
            max: None,
        };
        let elements = vec![Element::Step(step("a")), again, Element::Step(step("z"))];
        let model = Model::new(elements, &[(0, 1), (1, 2)]).unwrap();
        assert_eq!(cost(&model, &["z", "a"]), 2);
        assert_eq!(model.inversions(&events(&["z", "a"])), [("a", "z")]);
        assert_eq!(model.width(), 1);
    }

    #[test]
    fn the_same_label_is_allowed_along_the_order_only() {
        let elements = vec![Element::Step(step("wash")), Element::Step(step("wash"))];
        let model = Model::new(elements.clone(), &[(0, 1)]).unwrap();
        assert_eq!(cost(&model, &["wash"]), 1);
        assert_eq!(cost(&model, &["wash", "wash"]), 0);
        assert_eq!(
            Model::new(elements, &[]).map(|_| ()),
            Err(ModelProblem::SameLabel {
                elements: (0, 1),
                label: "wash".to_owned()
            })
        );
    }

    #[test]
    fn what_can_never_be_done_is_refused() {
        for element in [
            Element::Choice(vec![]),
            Element::Repeat {
                body: vec![],
                min: 0,
                max: None,
            },
            Element::Repeat {
                body: vec![step("a")],
                min: 2,
                max: Some(1),
            },
        ] {
            assert_eq!(
                Model::new(vec![element], &[]).map(|_| ()),
                Err(ModelProblem::Empty(0))
            );
        }
    }
}
