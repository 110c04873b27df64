//! How long it takes to align what was done with the plan.

use divan::{Bencher, black_box};
use drybench::rehearsal::align::{EventCost, TaskCost, align};
use drybench::syllabus::order::Order;

/// A plan in the shape of a real one: a preparation one task after the other, then `pairs` pairs of teeth in any order with
/// `per_pair` tasks each, then a finish one after the other, `ends` tasks before and as many after.
struct Plan {
    tasks: Vec<TaskCost>,
    order: Order,
}

fn plan(pairs: usize, per_pair: usize, ends: usize) -> Plan {
    let count = 2 * ends + pairs * per_pair;
    let finish = count - ends;
    let mut edges: Vec<(usize, usize)> = (1..ends).map(|task| (task - 1, task)).collect();
    edges.extend((finish + 1..count).map(|task| (task - 1, task)));
    for pair in 0..pairs {
        let first = ends + pair * per_pair;
        edges.push((ends - 1, first));
        edges.extend((first + 1..first + per_pair).map(|task| (task - 1, task)));
        edges.push((first + per_pair - 1, finish));
    }
    let tasks = (0..count)
        .map(|task| TaskCost {
            // Some tasks are optional and some are critical, as in a real plan.
            skip: u32::from(task % 11 != 5),
            critical_bonus: u32::from(task % 4 == 0),
        })
        .collect();
    Plan {
        tasks,
        order: Order::new(count, &edges).expect("edges lead forwards"),
    }
}

/// All tasks in turn, with some moved from one place to another.
fn trace(count: usize, moves: &[(usize, usize)]) -> Vec<EventCost> {
    let mut done: Vec<usize> = (0..count).collect();
    for &(from, to) in moves {
        let task = done.remove(from);
        done.insert(to, task);
    }
    events(&done)
}

fn events(done: &[usize]) -> Vec<EventCost> {
    done.iter()
        .map(|&task| EventCost {
            task: Some(task),
            insert: 1,
        })
        .collect()
}

fn aligned(bencher: Bencher<'_, '_>, plan: &Plan, events: &[EventCost]) {
    bencher.bench_local(|| {
        align(
            black_box(&plan.tasks),
            black_box(&plan.order),
            black_box(events),
        )
    });
}

/// Makes sure that the trace is the one meant before time is spent on it.
fn expect_cost(plan: &Plan, events: &[EventCost], cost: u64) {
    assert_eq!(align(&plan.tasks, &plan.order, events).cost, cost);
}

#[divan::bench(name = "alignment of a 60-task trace")]
fn of_60_tasks(bencher: Bencher<'_, '_>) {
    let plan = plan(7, 6, 9);
    let events = trace(60, &[(3, 20), (40, 12), (57, 30)]);
    expect_cost(&plan, &events, 6);
    aligned(bencher, &plan, &events);
}

#[divan::bench(name = "alignment of a 60-task trace without a mistake")]
fn of_60_tasks_without_a_mistake(bencher: Bencher<'_, '_>) {
    let plan = plan(7, 6, 9);
    let events = trace(60, &[]);
    expect_cost(&plan, &events, 0);
    aligned(bencher, &plan, &events);
}

#[divan::bench(name = "alignment of a 130-task trace")]
fn of_130_tasks(bencher: Bencher<'_, '_>) {
    let plan = plan(14, 8, 9);
    let events = trace(130, &[(3, 40), (90, 80), (125, 60)]);
    expect_cost(&plan, &events, 6);
    aligned(bencher, &plan, &events);
}

#[divan::bench(name = "alignment of a 130-task trace backwards")]
fn of_130_tasks_backwards(bencher: Bencher<'_, '_>) {
    let plan = plan(14, 8, 9);
    let done: Vec<usize> = (0..130).rev().collect();
    aligned(bencher, &plan, &events(&done));
}
