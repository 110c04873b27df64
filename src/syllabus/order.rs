//! A strict partial order over numbered tasks, transitively closed.
//!
//! Left out: what the tasks are. Closing the order first is what keeps it when an optional task is skipped: if `a` comes
//! before `b` and `b` before `c`, then `a` comes before `c` whether or not `b` happens.

/// Why a list of edges is no order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OrderProblem {
    /// The tasks wait for each other. Each comes before the next one, and the last before the first.
    Circle(Vec<usize>),
    /// An edge names a task that does not exist.
    NoSuchTask(usize),
}

/// Which tasks come before which.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    tasks: usize,
    /// Words per row.
    words: usize,
    /// One row of bits per task: the tasks that come after it.
    after: Vec<u64>,
    /// One row of bits per task: the tasks that come before it.
    before: Vec<u64>,
    /// One order in which everything could be done.
    line: Vec<usize>,
}

impl Order {
    /// Builds the order of `tasks` tasks from pairs `(first, then)` and closes it transitively.
    ///
    /// # Errors
    /// [`OrderProblem`] if an edge names a task that does not exist, or if tasks wait for each other.
    pub fn new(tasks: usize, edges: &[(usize, usize)]) -> Result<Order, OrderProblem> {
        let mut following = vec![Vec::new(); tasks];
        let mut waiting = vec![0_usize; tasks];
        for &(first, then) in edges {
            for task in [first, then] {
                if task >= tasks {
                    return Err(OrderProblem::NoSuchTask(task));
                }
            }
            following[first].push(then);
            waiting[then] += 1;
        }
        // The smallest ready task first, so that equal input gives an equal line.
        let mut ready: std::collections::BTreeSet<usize> =
            (0..tasks).filter(|&task| waiting[task] == 0).collect();
        let mut line = Vec::with_capacity(tasks);
        while let Some(task) = ready.pop_first() {
            line.push(task);
            for &then in &following[task] {
                waiting[then] -= 1;
                if waiting[then] == 0 {
                    ready.insert(then);
                }
            }
        }
        if line.len() < tasks {
            return Err(OrderProblem::Circle(circle(&following, &waiting)));
        }
        let words = tasks.div_ceil(64);
        let mut order = Order {
            tasks,
            words,
            after: vec![0; tasks * words],
            before: vec![0; tasks * words],
            line,
        };
        order.close(&following);
        Ok(order)
    }

    /// Fills the rows: what comes after a task is what follows it and all that comes after those.
    fn close(&mut self, following: &[Vec<usize>]) {
        for &task in self.line.iter().rev() {
            for &then in &following[task] {
                self.after[task * self.words + then / 64] |= 1 << (then % 64);
                for word in 0..self.words {
                    let more = self.after[then * self.words + word];
                    self.after[task * self.words + word] |= more;
                }
            }
        }
        for task in 0..self.tasks {
            for then in bits(&self.after[task * self.words..(task + 1) * self.words]) {
                self.before[then * self.words + task / 64] |= 1 << (task % 64);
            }
        }
    }

    /// How many tasks are ordered.
    #[must_use]
    pub fn len(&self) -> usize {
        self.tasks
    }

    /// Whether there is no task at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.tasks == 0
    }

    /// Whether `first` must come before `then`, directly or through others. A task does not precede itself.
    #[must_use]
    pub fn precedes(&self, first: usize, then: usize) -> bool {
        self.after[first * self.words + then / 64] >> (then % 64) & 1 == 1
    }

    /// Whether one of two different tasks must come before the other.
    #[must_use]
    pub fn comparable(&self, one: usize, other: usize) -> bool {
        self.precedes(one, other) || self.precedes(other, one)
    }

    /// All tasks that must come after `task`, in rising order.
    pub fn successors(&self, task: usize) -> impl Iterator<Item = usize> + '_ {
        bits(self.after_row(task))
    }

    /// All tasks that must come before `task`, in rising order.
    pub fn predecessors(&self, task: usize) -> impl Iterator<Item = usize> + '_ {
        bits(&self.before[task * self.words..(task + 1) * self.words])
    }

    /// One order in which all tasks could be done: always the smallest task that is ready.
    #[must_use]
    pub fn line(&self) -> &[usize] {
        &self.line
    }

    /// The tasks after `task` as bits, 64 to a word, task 0 lowest in the first word.
    #[must_use]
    pub fn after_row(&self, task: usize) -> &[u64] {
        &self.after[task * self.words..(task + 1) * self.words]
    }
}

/// The numbers of the bits that are set, rising.
fn bits(row: &[u64]) -> impl Iterator<Item = usize> + '_ {
    row.iter().enumerate().flat_map(|(at, &word)| {
        let mut rest = word;
        std::iter::from_fn(move || {
            let bit = (rest != 0).then(|| rest.trailing_zeros())?;
            rest &= rest - 1;
            Some(at * 64 + usize::try_from(bit).ok()?)
        })
    })
}

/// One circle among the tasks that still wait. Each of them waits for another one, so walking back must return.
fn circle(following: &[Vec<usize>], waiting: &[usize]) -> Vec<usize> {
    let mut awaited = vec![None; waiting.len()];
    for (task, then) in following.iter().enumerate() {
        for &then in then {
            if waiting[task] > 0 && awaited[then].is_none() {
                awaited[then] = Some(task);
            }
        }
    }
    let mut seen_at = vec![None; waiting.len()];
    let mut walk = Vec::new();
    let mut here = waiting.iter().position(|&count| count > 0);
    while let Some(task) = here {
        if let Some(start) = seen_at[task] {
            walk.drain(..start);
            break;
        }
        seen_at[task] = Some(walk.len());
        walk.push(task);
        here = awaited[task];
    }
    walk.reverse();
    walk
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    #[test]
    fn order_passes_through_a_task_between() {
        let order = Order::new(3, &[(0, 1), (1, 2)]).unwrap();
        assert!(order.precedes(0, 2));
        assert!(!order.precedes(2, 0));
        assert!(!order.precedes(1, 1));
        assert_eq!(order.successors(0).collect::<Vec<_>>(), [1, 2]);
        assert_eq!(order.predecessors(2).collect::<Vec<_>>(), [0, 1]);
    }

    #[test]
    fn tasks_that_wait_for_each_other_are_named_in_order() {
        let edges = [(0, 1), (1, 2), (2, 3), (3, 1), (3, 4)];
        let Err(OrderProblem::Circle(circle)) = Order::new(5, &edges) else {
            panic!("a circle was taken for an order");
        };
        let mut sorted = circle.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, [1, 2, 3]);
        for (at, &task) in circle.iter().enumerate() {
            let next = circle[(at + 1) % circle.len()];
            assert!(
                edges.contains(&(task, next)),
                "{task} to {next} is no edge of {circle:?}"
            );
        }
        assert_eq!(Order::new(1, &[(0, 0)]), Err(OrderProblem::Circle(vec![0])));
    }

    #[test]
    fn an_edge_to_nowhere_is_refused() {
        assert_eq!(Order::new(2, &[(0, 2)]), Err(OrderProblem::NoSuchTask(2)));
    }

    proptest! {
        // A fixed seed and no memory of failures: equal code gives an equal result.
        #![proptest_config(ProptestConfig { rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn closing_agrees_with_walking_the_edges(
            tasks in 1_usize..90,
            raw in prop::collection::vec((0_usize..90, 0_usize..90), 0..120),
        ) {
            let edges: Vec<(usize, usize)> = raw
                .iter()
                .map(|&(one, other)| (one % tasks, other % tasks))
                .filter(|(one, other)| one < other)
                .collect();
            let order = Order::new(tasks, &edges).unwrap();
            for start in 0..tasks {
                let mut reached = vec![false; tasks];
                let mut open = vec![start];
                while let Some(task) = open.pop() {
                    for &(first, then) in &edges {
                        if first == task && !reached[then] {
                            reached[then] = true;
                            open.push(then);
                        }
                    }
                }
                for (then, &reached) in reached.iter().enumerate() {
                    prop_assert_eq!(order.precedes(start, then), reached);
                    prop_assert_eq!(order.predecessors(then).any(|first| first == start), reached);
                }
            }
            for (at, &task) in order.line().iter().enumerate() {
                prop_assert!(order.line()[..at].iter().all(|&earlier| !order.precedes(task, earlier)));
            }
        }
    }
}
