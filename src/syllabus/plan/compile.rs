//! From a module and a case card to a plan.

use std::collections::BTreeMap;

use super::{
    AnyCell, Before, Cap, CellCondition, Gap, Make, MoreThan, Plan, PlanAct, PlanAspect, PlanGuard,
    Task, TaskIndex, TaskKeeping, Window,
};
use crate::syllabus::case::CaseCard;
use crate::syllabus::module::{
    After, Condition, Keeping, Module, Moment, Name, Never, Step, TimeRule, TimeWindow,
};
use crate::syllabus::order::{Order, OrderProblem};
use crate::syllabus::place::{self, Dimension, Place};
use crate::syllabus::read;

/// Why a module gives no plan for a case card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanProblem {
    /// Where in the module.
    pub at: read::Place,
    /// What is wrong.
    pub what: PlanFault,
}

/// What is wrong with a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PlanFault {
    /// A name that stands for nothing of its kind.
    Unknown {
        /// The kind of thing looked for: `step`, `aspect`, `value`, `repeat`, `station`, `protection item`, `choice`.
        kind: &'static str,
        /// The name as written.
        name: String,
        /// The names that exist.
        known: Vec<String>,
    },
    /// A repeat that cannot be resolved for this case card.
    Repeat(String),
    /// Tasks that each come before the next, and the last before the first.
    Circle(Vec<String>),
    /// A window whose limits are the wrong way round after the case card's changes.
    Window {
        /// Of which step.
        step: String,
    },
    /// More tasks than a plan may have.
    TooManyTasks(usize),
}

/// The most tasks that a plan may have (our default).
const TASKS_MOST: usize = 2_000;

impl Plan {
    /// Compiles a module for a case card.
    ///
    /// # Errors
    /// Every reference that stands for nothing, the circle if the order has one, and windows whose limits clash.
    pub fn compile(module: &Module, card: &CaseCard) -> Result<Plan, Vec<PlanProblem>> {
        let dimensions = place::dimensions(module, card).map_err(|problem| {
            let id = &module.repeats[problem.repeat].id;
            vec![PlanProblem {
                at: id.at,
                what: PlanFault::Repeat(id.value.clone()),
            }]
        })?;
        let mut compiler = Compiler {
            module,
            card,
            aspects: Vec::new(),
            dimensions,
            problems: Vec::new(),
        };
        let plan = compiler.plan();
        match plan {
            Some(plan) if compiler.problems.is_empty() => Ok(plan),
            _ => Err(compiler.problems),
        }
    }
}

struct Compiler<'m> {
    module: &'m Module,
    card: &'m CaseCard,
    dimensions: Vec<Dimension>,
    aspects: Vec<PlanAspect>,
    problems: Vec<PlanProblem>,
}

impl Compiler<'_> {
    fn plan(&mut self) -> Option<Plan> {
        self.aspects = self.aspects();
        let mut tasks: Vec<Task> = Vec::new();
        let mut tasks_of_step: Vec<Vec<TaskIndex>> = Vec::new();
        for (index, step) in self.module.steps.iter().enumerate() {
            let first = tasks.len();
            tasks.extend(self.tasks(index, step));
            tasks_of_step.push((first..tasks.len()).collect());
            if tasks.len() > TASKS_MOST {
                return self.refuse(&step.id, PlanFault::TooManyTasks(tasks.len()));
            }
        }
        for step in &tasks_of_step {
            link_makes(&mut tasks, step);
        }
        let direct = self.direct(&tasks, &tasks_of_step);
        let edges: Vec<(usize, usize)> = direct
            .iter()
            .enumerate()
            .flat_map(|(then, firsts)| firsts.iter().map(move |&first| (first, then)))
            .collect();
        let order = match Order::new(tasks.len(), &edges) {
            Ok(order) => order,
            Err(OrderProblem::Circle(circle)) => {
                let labels = circle
                    .iter()
                    .map(|&task| tasks[task].label.clone())
                    .collect();
                let at = circle.first().map_or(0, |&task| tasks[task].step);
                return self.refuse(&self.module.steps[at].id, PlanFault::Circle(labels));
            }
            // Edges are made from the tasks themselves.
            Err(OrderProblem::NoSuchTask(_)) => return None,
        };
        let (gaps, caps) = self.time_rules(&tasks, &tasks_of_step);
        let guards = self.guards();
        let (more_than, before, acts) = self.never(&tasks, &tasks_of_step);
        Some(Plan {
            card: self.card.clone(),
            dimensions: self.dimensions.clone(),
            aspects: std::mem::take(&mut self.aspects),
            tasks,
            tasks_of_step,
            order,
            direct,
            gaps,
            caps,
            guards,
            more_than,
            before,
            acts,
        })
    }

    fn refuse<T>(&mut self, name: &Name, what: PlanFault) -> Option<T> {
        self.problems.push(PlanProblem { at: name.at, what });
        None
    }

    /// Finds a name in a list, or reports it.
    fn find(
        &mut self,
        kind: &'static str,
        name: &Name,
        known: impl Iterator<Item = String> + Clone,
    ) -> Option<usize> {
        if let Some(index) = known.clone().position(|one| one == name.value) {
            return Some(index);
        }
        self.problems.push(PlanProblem {
            at: name.at,
            what: PlanFault::Unknown {
                kind,
                name: name.value.clone(),
                known: known.collect(),
            },
        });
        None
    }

    fn step(&mut self, name: &Name) -> Option<usize> {
        let module = self.module;
        self.find(
            "step",
            name,
            module.steps.iter().map(|step| step.id.value.clone()),
        )
    }

    fn repeats(&mut self, names: &[Name]) -> Vec<usize> {
        let ids: Vec<String> = self.dimensions.iter().map(|one| one.id.clone()).collect();
        names
            .iter()
            .filter_map(|name| self.find("repeat", name, ids.iter().cloned()))
            .collect()
    }

    fn aspects(&mut self) -> Vec<PlanAspect> {
        let mut first_cell = 0;
        let module = self.module;
        module
            .aspects
            .iter()
            .map(|aspect| {
                let per = self.repeats(&aspect.per);
                let cells = place::places(&per, &self.dimensions);
                let compiled = PlanAspect {
                    id: aspect.id.value.clone(),
                    values: aspect
                        .values
                        .iter()
                        .map(|one| one.id.value.clone())
                        .collect(),
                    first_cell,
                    gauge: aspect.decided_by.clone(),
                    cells,
                };
                first_cell += compiled.cells.len();
                compiled
            })
            .collect()
    }

    /// The aspect and the allowed values of a condition.
    fn condition(&mut self, condition: &Condition) -> Option<AnyCell> {
        let ids: Vec<String> = self.aspects.iter().map(|one| one.id.clone()).collect();
        let aspect = self.find("aspect", &condition.aspect, ids.iter().cloned())?;
        let values = self.aspects[aspect].values.clone();
        let mut allowed = 0_u32;
        for value in &condition.values {
            allowed |= 1 << self.find("value", value, values.iter().cloned())?.min(31);
        }
        if condition.negated {
            allowed = !allowed;
        }
        Some(AnyCell { aspect, allowed })
    }

    fn conditions(&mut self, written: &[Condition], place: &Place) -> Vec<CellCondition> {
        written
            .iter()
            .filter_map(|one| {
                let AnyCell { aspect, allowed } = self.condition(one)?;
                Some(CellCondition {
                    aspect,
                    cells: self.cells(aspect, place),
                    allowed,
                })
            })
            .collect()
    }

    /// The cells of an aspect that a place touches.
    fn cells(&self, aspect: usize, place: &Place) -> Vec<usize> {
        let cells = self.aspects[aspect].cells.iter().enumerate();
        cells
            .filter(|(_, cell)| cell.overlaps(place))
            .map(|(index, _)| index)
            .collect()
    }

    fn tasks(&mut self, index: usize, step: &Step) -> Vec<Task> {
        let each = self.repeats(&step.each);
        let stations: Vec<String> = self
            .module
            .stations
            .iter()
            .map(|one| one.id.value.clone())
            .collect();
        self.find("station", &step.at, stations.iter().cloned());
        place::places(&each, &self.dimensions)
            .into_iter()
            .map(|place| {
                let spelled = place::spelled(&place, &self.dimensions);
                let label = if spelled.is_empty() {
                    step.id.value.clone()
                } else {
                    format!("{}@{spelled}", step.id.value)
                };
                Task {
                    label,
                    step: index,
                    required: !step.optional,
                    critical: step.critical,
                    again: step.again,
                    attended: step.attended,
                    takes: step.takes,
                    keeping: self.keeping(step, &place),
                    needs: self.conditions(&step.needs, &place),
                    refused_if: self.conditions(&step.refused_if, &place),
                    makes: self.makes(&step.makes, &place),
                    place,
                }
            })
            .collect()
    }

    fn makes(&mut self, written: &[Condition], place: &Place) -> Vec<Make> {
        let mut makes = Vec::new();
        for one in written {
            let Some(AnyCell { aspect, allowed }) = self.condition(one) else {
                continue;
            };
            let value = allowed.trailing_zeros() as usize;
            for cell in self.cells(aspect, place) {
                makes.push(Make {
                    aspect,
                    cell,
                    value,
                    with: Vec::new(),
                });
            }
        }
        makes
    }

    fn keeping(&mut self, step: &Step, place: &Place) -> Option<TaskKeeping> {
        Some(match step.keeping.as_ref()? {
            Keeping::Timer(window) => TaskKeeping::Timer(self.window(step, window)?),
            Keeping::Count(window) => TaskKeeping::Count(self.window(step, window)?),
            Keeping::Watch {
                sign,
                within,
                expect,
            } => TaskKeeping::Watch {
                sign: self.conditions(std::slice::from_ref(sign), place).pop()?,
                within: *within,
                expect: *expect,
            },
            Keeping::Judge { until, portion } => TaskKeeping::Judge {
                until: self.conditions(until, place),
                portion: *portion,
            },
        })
    }

    fn window(&mut self, step: &Step, written: &TimeWindow) -> Option<Window> {
        let window = window_for(written, self.card);
        let in_order = crate::units::Millis::ZERO <= window.least
            && window.least <= window.target
            && window.target <= window.most;
        if !in_order {
            return self.refuse(
                &step.id,
                PlanFault::Window {
                    step: step.id.value.clone(),
                },
            );
        }
        Some(window)
    }

    /// The direct predecessors of every task.
    fn direct(&mut self, tasks: &[Task], of_step: &[Vec<TaskIndex>]) -> Vec<Vec<TaskIndex>> {
        let module = self.module;
        let mut direct = vec![Vec::new(); tasks.len()];
        for (index, step) in module.steps.iter().enumerate() {
            for After { step: before, all } in &step.after {
                let Some(before) = self.step(before) else {
                    continue;
                };
                for &then in &of_step[index] {
                    let firsts = of_step[before].iter().copied();
                    direct[then].extend(
                        firsts.filter(|&first| {
                            *all || tasks[first].place.overlaps(&tasks[then].place)
                        }),
                    );
                }
            }
        }
        direct
    }

    fn time_rules(&mut self, tasks: &[Task], of_step: &[Vec<TaskIndex>]) -> (Vec<Gap>, Vec<Cap>) {
        let module = self.module;
        let (mut gaps, mut caps) = (Vec::new(), Vec::new());
        for (rule, written) in module.time_rules.iter().enumerate() {
            match written {
                TimeRule::Gap {
                    from,
                    to,
                    least,
                    most,
                    ..
                } => {
                    let (Some(first), Some(then)) = (self.step(&from.step), self.step(&to.step))
                    else {
                        continue;
                    };
                    for &one in &of_step[first] {
                        for &other in &of_step[then] {
                            if tasks[one].place.overlaps(&tasks[other].place) {
                                gaps.push(gap(rule, (one, from), (other, to), *least, *most));
                            }
                        }
                    }
                }
                TimeRule::Cap {
                    over,
                    most,
                    when_done,
                    changes,
                    ..
                } => {
                    let change = changes
                        .iter()
                        .find(|one| self.card.matches(&one.choice.value, &one.value.value));
                    let (most, when_done) =
                        change.map_or((most, when_done), |one| (&one.most, &one.when_done));
                    let steps: Vec<usize> =
                        over.iter().filter_map(|name| self.step(name)).collect();
                    let raised = when_done
                        .iter()
                        .filter_map(|(name, cap)| Some((self.step(name)?, *cap)))
                        .flat_map(|(step, cap)| of_step[step].iter().map(move |&task| (task, cap)))
                        .collect();
                    caps.push(Cap {
                        rule,
                        over: steps
                            .iter()
                            .flat_map(|&step| of_step[step].iter().copied())
                            .collect(),
                        most: *most,
                        when_done: raised,
                    });
                }
            }
        }
        (gaps, caps)
    }

    fn guards(&mut self) -> Vec<PlanGuard> {
        let module = self.module;
        let items = module
            .protection_items
            .iter()
            .map(|one| one.id.value.clone());
        let stations = module.stations.iter().map(|one| one.id.value.clone());
        module
            .guards
            .iter()
            .filter_map(|guard| {
                Some(PlanGuard {
                    item: self.find("protection item", &guard.item, items.clone())?,
                    holds_while: guard
                        .holds_while
                        .iter()
                        .filter_map(|one| self.condition(one))
                        .collect(),
                    during: guard
                        .during
                        .iter()
                        .filter_map(|name| self.find("station", name, stations.clone()))
                        .collect(),
                })
            })
            .collect()
    }

    fn never(
        &mut self,
        tasks: &[Task],
        of_step: &[Vec<TaskIndex>],
    ) -> (Vec<MoreThan>, Vec<Before>, Vec<PlanAct>) {
        let module = self.module;
        let (mut counts, mut befores, mut acts) = (Vec::new(), Vec::new(), Vec::new());
        for (rule, written) in module.never.iter().enumerate() {
            match written {
                Never::MoreThan { count, of, .. } => {
                    if let Some(of) = self.condition(of) {
                        counts.push(MoreThan {
                            rule,
                            count: usize::from(*count),
                            of,
                        });
                    }
                }
                Never::Before {
                    act, until, all, ..
                } => {
                    let (Some(act), Some(until)) = (self.step(act), self.step(until)) else {
                        continue;
                    };
                    for &one in &of_step[act] {
                        let until = of_step[until].iter().copied();
                        befores.push(Before {
                            rule,
                            act: one,
                            until: until
                                .filter(|&other| {
                                    *all || tasks[other].place.overlaps(&tasks[one].place)
                                })
                                .collect(),
                        });
                    }
                }
                Never::Act(act) => {
                    let makes = self.makes(&act.makes, &Place::default());
                    acts.push(PlanAct {
                        rule,
                        makes: makes
                            .iter()
                            .map(|one| (one.aspect, one.cell, one.value))
                            .collect(),
                    });
                }
            }
        }
        (counts, befores, acts)
    }
}

/// The window of a step for a case card: replaced first, then added to.
#[must_use]
pub fn window_for(written: &TimeWindow, card: &CaseCard) -> Window {
    let mut window = Window {
        target: written.target,
        least: written.least,
        most: written.most,
    };
    let applies = |choice: &Name, value: &Name| card.matches(&choice.value, &value.value);
    for change in written
        .changes
        .iter()
        .filter(|one| applies(&one.choice, &one.value))
    {
        if let Some((target, least, most)) = change.replace {
            window = Window {
                target,
                least,
                most,
            };
        }
        if let Some(add) = change.add {
            window.target += add;
            window.least += add;
            window.most += add;
        }
    }
    window
}

fn gap(
    rule: usize,
    (from, from_moment): (TaskIndex, &Moment),
    (to, to_moment): (TaskIndex, &Moment),
    least: Option<crate::units::Millis>,
    most: Option<crate::units::Millis>,
) -> Gap {
    Gap {
        rule,
        from,
        from_end: from_moment.end,
        to,
        to_end: to_moment.end,
        least,
        most,
    }
}

/// Tells each made value which other tasks of the step share its cell: it is true when all of them are done.
fn link_makes(tasks: &mut [Task], step: &[TaskIndex]) {
    let mut makers: BTreeMap<(usize, usize, usize), Vec<TaskIndex>> = BTreeMap::new();
    for &task in step {
        for make in &tasks[task].makes {
            makers
                .entry((make.aspect, make.cell, make.value))
                .or_default()
                .push(task);
        }
    }
    for &task in step {
        for make in &mut tasks[task].makes {
            if let Some(all) = makers.get(&(make.aspect, make.cell, make.value)) {
                make.with = all.iter().copied().filter(|&other| other != task).collect();
            }
        }
    }
}
