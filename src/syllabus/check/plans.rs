//! Every plan of a module: whether it compiles, whether its times agree, and what it comes to.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use super::{CaseSummary, CheckFault, ClashLink, ClashReason, Found, caps, note, reach};
use crate::syllabus::case::{CaseCard, combinations_of};
use crate::syllabus::module::{CaseRange, Module, RepeatOver, TimeRule};
use crate::syllabus::plan::{Because, Plan, PlanFault, Stretch, TaskKeeping};
use crate::syllabus::read::Place;

/// The most tasks of a plan and the most cells of its aspects (our default, like the limits below).
const MOST_PLACES: usize = 2_000;

/// How much work one plan may be, counted in cells looked at and pairs of tasks linked.
const MOST_WORK: usize = 20_000_000;

/// How many times a plan is tried again after something that keeps it from being made was told and left out.
const MOST_REPAIRS: usize = 20;

/// How much work all plans together may be.
const MOST_WORK_TOGETHER: usize = 100_000_000;

/// Compiles every combination of case choices that shape the plan, and notes what is wrong once for all of them.
pub(super) fn check(module: &Module, found: &mut Found) -> Vec<CaseSummary> {
    let Some(work) = work_of(module, found) else {
        return Vec::new();
    };
    let of = combinations_of(module);
    let cards = CaseCard::combinations(module);
    let affordable = (MOST_WORK_TOGETHER / work.max(1)).max(1);
    let mut told = BTreeSet::new();
    let mut compiled = 0;
    let mut cases = Vec::new();
    for card in cards.take(affordable) {
        compiled += 1;
        let mut of_card = Vec::new();
        if let Some(summary) = check_card(module, &card, &mut of_card) {
            cases.push(summary);
        }
        // The same place and kind of problem comes back with almost every card.
        found.extend(
            of_card
                .into_iter()
                .filter(|it| told.insert((it.at, it.what.word()))),
        );
    }
    if compiled < of {
        let what = CheckFault::TooManyCards { compiled, of };
        note(found, module.identity.id.at, what);
    }
    cases
}

fn check_card(module: &Module, card: &CaseCard, found: &mut Found) -> Option<CaseSummary> {
    let mut module = Cow::Borrowed(module);
    let plan = compiled(&mut module, card, found)?;
    let as_written = matches!(module, Cow::Borrowed(_));
    let module = &*module;
    if let Err(chain) = plan.spans(&[]) {
        let at = place_of(&chain, &plan, module);
        let chain = explained(&chain, &plan, module);
        let card = card.to_string();
        note(found, at, CheckFault::Clash { card, chain });
    } else if let Err(chain) = on_target(&plan) {
        let at = place_of(&chain, &plan, module);
        let chain = explained(&chain, &plan, module);
        let card = card.to_string();
        note(found, at, CheckFault::TargetsClash { card, chain });
    }
    caps::check(module, &plan, found);
    reach::check(module, &plan, found);
    if !as_written {
        return None;
    }
    let totals = plan.totals();
    let labels = totals.chain.iter().map(|&it| plan.tasks[it].label.clone());
    Some(CaseSummary {
        card: card.to_string(),
        tasks: plan.tasks.len(),
        required: plan.tasks.iter().filter(|it| it.required).count(),
        hands_on: totals.hands_on,
        longest_chain: totals.longest_chain,
        least: totals.least,
        greatest: totals.greatest,
        critical_path: labels.collect(),
    })
}

/// The plan of a module for a card.
///
/// A circle is cut and a window that is no window is left out, each after the complaint, so that what else is wrong can be
/// told as well.
fn compiled(module: &mut Cow<'_, Module>, card: &CaseCard, found: &mut Found) -> Option<Plan> {
    for _ in 0..MOST_REPAIRS {
        let problems = match Plan::compile(module, card) {
            Ok(plan) => return Some(plan),
            Err(problems) => problems,
        };
        let mut repaired = false;
        for mut problem in problems {
            let what = match problem.what {
                PlanFault::Circle(labels) => {
                    let (labels, at) = from_the_first_step(labels, module);
                    problem.at = at.unwrap_or(problem.at);
                    repaired |= cut(module.to_mut(), &labels);
                    CheckFault::Circle { labels }
                }
                PlanFault::Window { step } => {
                    let untimed = module.to_mut().steps.iter_mut();
                    for written in untimed.filter(|it| it.id.value == step) {
                        written.keeping = None;
                        repaired = true;
                    }
                    CheckFault::WindowOrder {
                        step,
                        card: card.to_string(),
                    }
                }
                PlanFault::Repeat(repeat) => CheckFault::RepeatUnresolved { repeat },
                PlanFault::TooManyTasks(_) => CheckFault::TooLarge {
                    name: module.identity.id.value.clone(),
                    most: MOST_PLACES,
                },
                // Names that stand for nothing have been told and taken out.
                PlanFault::Unknown { .. } => continue,
            };
            note(found, problem.at, what);
        }
        if !repaired {
            return None;
        }
    }
    None
}

/// Takes the link out by which the first task of a circle waits for the last one.
fn cut(module: &mut Module, labels: &[String]) -> bool {
    let id = |label: &String| label.split('@').next().unwrap_or_default().to_owned();
    let (Some(first), Some(last)) = (labels.first().map(id), labels.last().map(id)) else {
        return false;
    };
    let mut steps = module.steps.iter_mut();
    let Some(step) = steps.find(|it| it.id.value == first) else {
        return false;
    };
    let before = step.after.len();
    step.after.retain(|it| it.step.value != last);
    step.after.len() < before
}

/// Turns a circle so that it begins with the step that was written first, and says where that stands.
fn from_the_first_step(mut labels: Vec<String>, module: &Module) -> (Vec<String>, Option<Place>) {
    let step_of = |label: &String| {
        let id = label.split('@').next().unwrap_or_default();
        module.steps.iter().position(|it| it.id.value == id)
    };
    let first = (0..labels.len()).min_by_key(|&it| step_of(&labels[it]));
    labels.rotate_left(first.unwrap_or(0));
    let step = labels.first().and_then(step_of);
    (labels, step.map(|it| module.steps[it].id.at))
}

/// Whether the rules agree when every window is met exactly.
fn on_target(plan: &Plan) -> Result<(), Vec<Stretch>> {
    let mut exact = plan.clone();
    for task in &mut exact.tasks {
        if let Some(TaskKeeping::Timer(window) | TaskKeeping::Count(window)) = &mut task.keeping {
            window.least = window.target;
            window.most = window.target;
        }
    }
    exact.spans(&[]).map(|_| ())
}

/// Where a clash is shown: at its first gap, or else at its first task.
fn place_of(chain: &[Stretch], plan: &Plan, module: &Module) -> Place {
    let gap = chain.iter().find_map(|it| match it.because {
        Because::Gap(gap) => Some(gap_place(plan, gap, module)),
        _ => None,
    });
    let task = chain.first().map(|it| match it.because {
        Because::Duration(task) | Because::Order(task, _) | Because::Done(task) => task,
        Because::Gap(gap) => plan.gaps[gap].from,
    });
    let of_task = task.map(|it| module.steps[plan.tasks[it].step].id.at);
    gap.or(of_task).unwrap_or(module.identity.id.at)
}

fn gap_place(plan: &Plan, gap: usize, module: &Module) -> Place {
    match &module.time_rules[plan.gaps[gap].rule] {
        TimeRule::Gap { from, .. } => from.step.at,
        TimeRule::Cap { over, .. } => over.first().map_or(module.identity.id.at, |it| it.at),
    }
}

fn explained(chain: &[Stretch], plan: &Plan, module: &Module) -> Vec<ClashLink> {
    let label = |task: usize| plan.tasks[task].label.clone();
    chain
        .iter()
        .map(|it| ClashLink {
            because: match it.because {
                Because::Duration(task) | Because::Done(task) => ClashReason::Duration(label(task)),
                Because::Order(first, then) => ClashReason::Order(label(first), label(then)),
                Because::Gap(gap) => ClashReason::Gap {
                    at: gap_place(plan, gap, module),
                    from: label(plan.gaps[gap].from),
                    to: label(plan.gaps[gap].to),
                },
            },
            time: it.time,
            at_most: it.at_most,
        })
        .collect()
}

/// How much work the largest plan is; `None`, and a problem, if it is too much.
///
/// A plan is unrolled before it can be counted, so this has to be known beforehand.
fn work_of(module: &Module, found: &mut Found) -> Option<usize> {
    let places = |each: &[crate::syllabus::module::Name]| {
        let counts = each.iter().map(|it| count_of(module, &it.value));
        counts.fold(1, usize::saturating_mul)
    };
    let mut too_large = |name: &crate::syllabus::module::Name, most| {
        let what = CheckFault::TooLarge {
            name: name.value.clone(),
            most,
        };
        note(found, name.at, what);
        None
    };
    let mut cells = 0_usize;
    for aspect in &module.aspects {
        cells = cells.saturating_add(places(&aspect.per));
        if cells > MOST_PLACES {
            return too_large(&aspect.id, MOST_PLACES);
        }
    }
    let cells_of = |aspect: &str| {
        let known = module.aspects.iter().find(|it| it.id.value == aspect);
        known.map_or(0, |it| places(&it.per))
    };
    let (mut tasks, mut work) = (0_usize, 0_usize);
    let (mut needs, mut makes) = (
        BTreeMap::<&str, usize>::new(),
        BTreeMap::<&str, usize>::new(),
    );
    for step in &module.steps {
        let of_step = places(&step.each);
        tasks = tasks.saturating_add(of_step);
        if tasks > MOST_PLACES {
            return too_large(&step.id, MOST_PLACES);
        }
        let conditions = step.needs.iter().chain(&step.makes).chain(&step.refused_if);
        let names = module.aspects.len();
        let looked_at: usize = conditions
            .map(|it| cells_of(&it.aspect.value) + names)
            .sum();
        work = work.saturating_add(of_step.saturating_mul(looked_at + 1));
        work = work.saturating_add(step.after.len().saturating_mul(module.steps.len()));
        for need in &step.needs {
            *needs.entry(&need.aspect.value).or_default() += of_step;
        }
        for make in &step.makes {
            *makes.entry(&make.aspect.value).or_default() += of_step;
        }
        if work > MOST_WORK {
            return too_large(&step.id, MOST_PLACES);
        }
    }
    for (aspect, needed) in needs {
        // Each maker of a cell is held against each other one.
        let made = makes.get(aspect).copied().unwrap_or(0);
        let pairs = made.saturating_mul(made) / cells_of(aspect).max(1);
        work = work.saturating_add(pairs.saturating_mul(needed));
    }
    if work > MOST_WORK {
        return too_large(&module.identity.id, MOST_PLACES);
    }
    let tasks_of = |step: &str| {
        let known = module.steps.iter().find(|it| it.id.value == step);
        known.map_or(0, |it| places(&it.each))
    };
    for rule in &module.time_rules {
        let (pairs, name) = match rule {
            TimeRule::Gap { from, to, .. } => (
                tasks_of(&from.step.value).saturating_mul(tasks_of(&to.step.value)),
                Some(&from.step),
            ),
            TimeRule::Cap { over, .. } => (
                over.iter().map(|it| tasks_of(&it.value)).sum(),
                over.first(),
            ),
        };
        work = work.saturating_add(pairs);
        if let Some(name) = name.filter(|_| work > MOST_WORK) {
            return too_large(name, MOST_PLACES);
        }
    }
    // Each pair of tasks is linked at most once.
    Some(work.saturating_add(tasks.saturating_mul(tasks)))
}

/// How many places a repeat has at most.
fn count_of(module: &Module, repeat: &str) -> usize {
    // Groupings name earlier repeats, so this comes to an end.
    let Some(index) = module.repeats.iter().position(|it| it.id.value == repeat) else {
        return 1;
    };
    match &module.repeats[index].over {
        RepeatOver::UpTo(choice) => {
            let known = module.case.iter().find(|it| it.id.value == choice.value);
            known.map_or(1, |it| match it.range {
                CaseRange::Whole { to, .. } => usize::from(to),
                CaseRange::OneOf(_) => 1,
            })
        }
        RepeatOver::EachOf(names) => names.len(),
        RepeatOver::GroupsOf { what, size } => {
            let mut earlier = module.repeats.iter().take(index);
            if earlier.any(|it| it.id.value == what.value) {
                count_of(module, &what.value).div_ceil(usize::from((*size).max(1)))
            } else {
                1
            }
        }
    }
}
