//! Whether what a task needs can be there when it is done.
//!
//! A value can be there if it is the initial one or made by a task that may come before, and no required task in between
//! always undoes it. Aspects that the bench decides are left out: physics brings them about.

use super::{CheckFault, Found, note};
use crate::syllabus::module::Module;
use crate::syllabus::plan::{CellCondition, Make, Plan, TaskIndex};

/// The initial value, or a task that makes the value.
#[derive(Clone, Copy)]
enum Maker<'p> {
    Start,
    Task(TaskIndex, &'p Make),
}

pub(super) fn check(module: &Module, plan: &Plan, found: &mut Found) {
    let mut of_cell: Vec<Vec<(TaskIndex, &Make)>> = vec![Vec::new(); plan.cell_count()];
    for (index, task) in plan.tasks.iter().enumerate() {
        for make in &task.makes {
            of_cell[plan.aspects[make.aspect].first_cell + make.cell].push((index, make));
        }
    }
    for (index, task) in plan.tasks.iter().enumerate() {
        for (need, written) in task.needs.iter().zip(&module.steps[task.step].needs) {
            if plan.aspects[need.aspect].gauge.is_some() {
                continue;
            }
            if let Some(what) = problem(module, plan, &of_cell, index, need) {
                note(found, written.aspect.at, what);
            }
        }
    }
}

/// What keeps a need from being met, of the first cell where something does.
fn problem(
    module: &Module,
    plan: &Plan,
    of_cell: &[Vec<(TaskIndex, &Make)>],
    task: TaskIndex,
    need: &CellCondition,
) -> Option<CheckFault> {
    let aspect = &plan.aspects[need.aspect];
    for &cell in &need.cells {
        let makes = &of_cell[aspect.first_cell + cell];
        let mut makers: Vec<Maker<'_>> = Vec::new();
        if need.allows(0) {
            makers.push(Maker::Start);
        }
        let fitting = makes.iter().filter(|(_, make)| need.allows(make.value));
        makers.extend(fitting.map(|&(maker, make)| Maker::Task(maker, make)));
        if makers.is_empty() {
            let values = aspect.values.iter().enumerate();
            return Some(CheckFault::NobodyMakes {
                step: module.steps[plan.tasks[task].step].id.value.clone(),
                aspect: aspect.id.clone(),
                values: values
                    .filter(|(value, _)| need.allows(*value))
                    .map(|(_, id)| id.clone())
                    .collect(),
            });
        }
        let early: Vec<Maker<'_>> = makers
            .iter()
            .copied()
            .filter(|maker| can_come_before(plan, *maker, task))
            .collect();
        let label = |task: TaskIndex| plan.tasks[task].label.clone();
        if early.is_empty() {
            let late = makers.iter().filter_map(|maker| match maker {
                Maker::Start => None,
                Maker::Task(maker, _) => Some(label(*maker)),
            });
            return Some(CheckFault::MadeTooLate {
                card: plan.card.to_string(),
                task: label(task),
                aspect: aspect.id.clone(),
                makers: late.collect(),
            });
        }
        let undone_by = |maker: Maker<'_>| {
            let mut wrong = makes.iter().filter(|(_, make)| !need.allows(make.value));
            wrong
                .find(|(other, make)| always_between(plan, maker, *other, make, task))
                .map(|it| it.0)
        };
        let undone: Vec<Option<TaskIndex>> = early.iter().map(|maker| undone_by(*maker)).collect();
        if let Some(by) = undone.iter().copied().collect::<Option<Vec<_>>>() {
            let by = by.first().copied()?;
            return Some(CheckFault::Undone {
                card: plan.card.to_string(),
                task: label(task),
                aspect: aspect.id.clone(),
                by: label(by),
            });
        }
    }
    None
}

/// Whether a value may have been made before a task starts.
fn can_come_before(plan: &Plan, maker: Maker<'_>, task: TaskIndex) -> bool {
    match maker {
        Maker::Start => true,
        Maker::Task(maker, make) => {
            let mut all = std::iter::once(&maker).chain(&make.with);
            all.all(|&it| it != task && !plan.order.precedes(task, it))
        }
    }
}

/// Whether a required task makes something else for certain after the value was made and before the task.
fn always_between(
    plan: &Plan,
    maker: Maker<'_>,
    other: TaskIndex,
    make: &Make,
    task: TaskIndex,
) -> bool {
    let mut all = std::iter::once(&other).chain(&make.with);
    all.all(|&it| {
        let after_maker = match maker {
            Maker::Start => true,
            Maker::Task(maker, _) => plan.order.precedes(maker, it),
        };
        plan.tasks[it].required && after_maker && plan.order.precedes(it, task)
    })
}
