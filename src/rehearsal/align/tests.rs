//! Small cases by hand, and random ones against a search that shares nothing with the minimum cut.

use super::*;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

fn required(count: usize) -> Vec<TaskCost> {
    vec![
        TaskCost {
            skip: 1,
            critical_bonus: 0
        };
        count
    ]
}

fn trace(tasks: &[usize]) -> Vec<EventCost> {
    tasks
        .iter()
        .map(|&task| EventCost {
            task: Some(task),
            insert: 1,
        })
        .collect()
}

fn chain(count: usize) -> Order {
    let edges: Vec<(usize, usize)> = (1..count).map(|task| (task - 1, task)).collect();
    Order::new(count, &edges).unwrap()
}

#[test]
fn a_task_done_at_the_wrong_point_is_missing_and_struck() {
    let alignment = align(&required(4), &chain(4), &trace(&[1, 2, 0, 3]));
    assert_eq!(alignment.cost, 2);
    assert_eq!(alignment.matched, [Some(1), Some(2), None, Some(3)]);
    assert_eq!(alignment.missing, [0]);
    assert_eq!(alignment.struck, [2]);
}

#[test]
fn of_two_swapped_tasks_the_critical_one_stays() {
    let order = chain(2);
    for critical in 0..2 {
        let mut tasks = required(2);
        tasks[critical].critical_bonus = 1;
        let alignment = align(&tasks, &order, &trace(&[1, 0]));
        assert_eq!(alignment.cost, 2);
        assert_eq!(alignment.missing, [1 - critical]);
    }
}

#[test]
fn a_bonus_never_makes_an_alignment_dearer() {
    let mut tasks = required(3);
    tasks[0].critical_bonus = u32::MAX;
    let alignment = align(&tasks, &chain(3), &trace(&[1, 2, 0]));
    assert_eq!((alignment.cost, alignment.missing), (2, vec![0]));
}

#[test]
fn a_task_done_twice_counts_once() {
    let alignment = align(&required(2), &chain(2), &trace(&[0, 0, 1]));
    assert_eq!(alignment.cost, 1);
    assert_eq!(alignment.struck.len(), 1);
    assert!(alignment.missing.is_empty());
}

#[test]
fn a_foreign_act_is_struck_and_an_optional_task_is_not_missed() {
    let mut tasks = required(2);
    tasks[0].skip = 0;
    let mut events = trace(&[1]);
    events.push(EventCost {
        task: None,
        insert: 3,
    });
    let alignment = align(&tasks, &chain(2), &events);
    assert_eq!(alignment.cost, 3);
    assert_eq!(alignment.struck, [1]);
    assert!(alignment.missing.is_empty());
}

#[test]
fn inversions_look_at_the_first_time_only() {
    let order = chain(3);
    let events = [Some(2), None, Some(1), Some(2), Some(0), Some(0)];
    assert_eq!(inversions(&order, &events), [(0, 1), (0, 2), (1, 2)]);
    assert_eq!(inversions(&order, &[Some(0), Some(2), Some(0)]), []);
}

#[test]
fn width_counts_what_may_be_done_in_any_order() {
    assert_eq!(width(&chain(5)), 1);
    assert_eq!(width(&Order::new(5, &[]).unwrap()), 5);
    assert_eq!(
        width(&Order::new(4, &[(0, 1), (0, 2), (1, 3), (2, 3)]).unwrap()),
        2
    );
}

#[test]
fn fitness_of_nothing_asked_and_nothing_done_is_whole() {
    assert_eq!(fitness(0, 0, 0).to_bits(), 1.0_f64.to_bits());
    assert_eq!(fitness(4, 5, 5).to_bits(), 0.6_f64.to_bits());
}

/// A plan and a trace, small enough for the search.
#[derive(Clone, Debug)]
struct Small {
    tasks: Vec<TaskCost>,
    order: Order,
    events: Vec<EventCost>,
}

fn small() -> impl Strategy<Value = Small> {
    (1_usize..7).prop_flat_map(|count| {
        let task = (0_u32..3, 0_u32..3).prop_map(|(skip, critical_bonus)| TaskCost {
            skip,
            critical_bonus,
        });
        let event = (0..=count, 0_u32..3).prop_map(move |(task, insert)| EventCost {
            task: (task < count).then_some(task),
            insert,
        });
        (
            prop::collection::vec(task, count),
            prop::collection::vec((0..count, 0..count), 0..10),
            prop::collection::vec(event, 0..8),
        )
            .prop_map(move |(tasks, raw, events)| {
                let edges: Vec<_> = raw.into_iter().filter(|(one, other)| one < other).collect();
                let order = Order::new(count, &edges).unwrap();
                Small {
                    tasks,
                    order,
                    events,
                }
            })
    })
}

/// What an alignment is judged by: cost, then the bonus lost, then the matches lost. Less is better.
type Judged = (u64, i64, i64);

/// The best there is, found over every set of finished tasks and every number of events looked at.
fn searched(small: &Small) -> Judged {
    let count = small.tasks.len();
    let mut best = vec![vec![None::<Judged>; small.events.len() + 1]; 1 << count];
    best[0][0] = Some((0, 0, 0));
    for finished in 0_usize..1 << count {
        for seen in 0..=small.events.len() {
            let Some(here) = best[finished][seen] else {
                continue;
            };
            let mut moves: Vec<(usize, usize, Judged)> = Vec::new();
            if let Some(event) = small.events.get(seen) {
                moves.push((finished, seen + 1, (u64::from(event.insert), 0, 0)));
            }
            for task in 0..count {
                let ready = finished >> task & 1 == 0
                    && small
                        .order
                        .predecessors(task)
                        .all(|first| finished >> first & 1 == 1);
                if !ready {
                    continue;
                }
                let then = finished | 1 << task;
                moves.push((then, seen, (u64::from(small.tasks[task].skip), 0, 0)));
                if small
                    .events
                    .get(seen)
                    .is_some_and(|event| event.task == Some(task))
                {
                    let bonus = i64::from(small.tasks[task].critical_bonus);
                    moves.push((then, seen + 1, (0, -bonus, -1)));
                }
            }
            for (finished, seen, (cost, bonus, count)) in moves {
                let judged = (here.0 + cost, here.1 + bonus, here.2 + count);
                let place = &mut best[finished][seen];
                *place = Some(place.map_or(judged, |other| other.min(judged)));
            }
        }
    }
    best[(1 << count) - 1][small.events.len()].expect("striking and skipping everything is allowed")
}

fn judged(small: &Small, alignment: &Alignment) -> Judged {
    let kept: Vec<usize> = alignment.matched.iter().flatten().copied().collect();
    let bonus: i64 = kept
        .iter()
        .map(|&task| i64::from(small.tasks[task].critical_bonus))
        .sum();
    (alignment.cost, -bonus, -i64::try_from(kept.len()).unwrap())
}

proptest! {
    // A fixed seed and no memory of failures: equal code gives an equal result.
    #![proptest_config(ProptestConfig { rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_explanation_is_cheaper_and_none_as_cheap_is_preferred(small in small()) {
        let alignment = align(&small.tasks, &small.order, &small.events);
        prop_assert_eq!(judged(&small, &alignment), searched(&small));
    }

    #[test]
    fn what_stays_matched_could_have_been_done(small in small()) {
        let alignment = align(&small.tasks, &small.order, &small.events);
        let kept: Vec<usize> = alignment.matched.iter().flatten().copied().collect();
        for (at, &task) in kept.iter().enumerate() {
            for &later in &kept[at + 1..] {
                prop_assert!(later != task && !small.order.precedes(later, task));
            }
        }
        let mut cost = 0;
        for (event, matched) in small.events.iter().zip(&alignment.matched) {
            match matched {
                Some(task) => prop_assert_eq!(event.task, Some(*task)),
                None => cost += u64::from(event.insert),
            }
        }
        for (task, costs) in small.tasks.iter().enumerate() {
            if !kept.contains(&task) {
                cost += u64::from(costs.skip);
            }
        }
        prop_assert_eq!(alignment.cost, cost);
    }

    #[test]
    fn every_allowed_order_costs_nothing(small in small(), picks in prop::collection::vec(0_usize..100, 6)) {
        let mut rest: Vec<usize> = (0..small.tasks.len()).collect();
        let mut done = Vec::new();
        for pick in picks {
            let ready: Vec<usize> = rest
                .iter()
                .copied()
                .filter(|&task| small.order.predecessors(task).all(|first| done.contains(&first)))
                .collect();
            if let Some(&task) = ready.get(pick % ready.len().max(1)) {
                rest.retain(|&other| other != task);
                done.push(task);
            }
        }
        prop_assert!(rest.is_empty());
        let alignment = align(&small.tasks, &small.order, &trace(&done));
        prop_assert_eq!(alignment.cost, 0);
        prop_assert_eq!(alignment.matched, done.into_iter().map(Some).collect::<Vec<_>>());
    }

    #[test]
    fn renaming_the_tasks_renames_the_answer(small in small(), turn in 0_usize..7) {
        let count = small.tasks.len();
        let renamed = |task: usize| (task + turn) % count;
        let mut tasks = small.tasks.clone();
        for (task, cost) in small.tasks.iter().enumerate() {
            tasks[renamed(task)] = *cost;
        }
        let edges: Vec<(usize, usize)> = (0..count)
            .flat_map(|low| small.order.successors(low).map(move |high| (low, high)))
            .map(|(low, high)| (renamed(low), renamed(high)))
            .collect();
        let order = Order::new(count, &edges).unwrap();
        let events: Vec<EventCost> = small
            .events
            .iter()
            .map(|event| EventCost { task: event.task.map(renamed), ..*event })
            .collect();
        let before = align(&small.tasks, &small.order, &small.events);
        let after = align(&tasks, &order, &events);
        prop_assert_eq!(before.cost, after.cost);
        let moved: Vec<_> = before.matched.iter().map(|task| task.map(renamed)).collect();
        prop_assert_eq!(moved, after.matched);
    }

    #[test]
    fn inversions_are_all_there(small in small()) {
        let events: Vec<Option<usize>> = small.events.iter().map(|event| event.task).collect();
        let first = |task: usize| events.iter().position(|&event| event == Some(task));
        let mut want = Vec::new();
        for one in 0..small.tasks.len() {
            for other in small.order.successors(one) {
                if let (Some(at), Some(before)) = (first(one), first(other)) && at > before {
                    want.push((one, other));
                }
            }
        }
        prop_assert_eq!(inversions(&small.order, &events), want);
    }
}
