//! How long a project takes at least, and which activities it waits for.
//!
//! Forward and backward pass after Kelley and Walker 1959 (from memory). Left out: uncertain durations.

use super::LIMIT_MOST;
use crate::syllabus::order::{Order, OrderProblem};

/// Why there is no critical path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CriticalPathProblem {
    /// The activities wait for each other, or an edge names one that does not exist.
    Order(OrderProblem),
    /// A duration is negative or beyond [`LIMIT_MOST`]. Holds the activity.
    Duration(usize),
}

/// When an activity can and must happen, in ticks after the start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Activity {
    /// The earliest start.
    pub earliest_start: i64,
    /// The earliest end.
    pub earliest_end: i64,
    /// The latest start that delays nothing.
    pub latest_start: i64,
    /// The latest end that delays nothing.
    pub latest_end: i64,
    /// How much it can be late without making the project late.
    pub total_float: i64,
    /// How much it can be late without making any other activity late. A last activity's counts to the end of the project.
    pub free_float: i64,
}

impl Activity {
    /// Whether the project is late as soon as this activity is.
    #[must_use]
    pub fn is_critical(&self) -> bool {
        self.total_float == 0
    }
}

/// A project that has been gone through forwards and backwards.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CriticalPath {
    /// The least time in which everything can be done, in ticks, if nobody has to wait for hands.
    pub length: i64,
    /// Every activity, as numbered by the caller.
    pub activities: Vec<Activity>,
    first: Vec<usize>,
    following: Vec<Vec<usize>>,
}

impl CriticalPath {
    /// Goes through activities with these durations (ticks) and edges `(first, then)`.
    ///
    /// # Errors
    /// [`CriticalPathProblem`] if the edges are no order or a duration is negative or too large.
    pub fn new(
        durations: &[i64],
        edges: &[(usize, usize)],
    ) -> Result<CriticalPath, CriticalPathProblem> {
        if let Some(activity) = durations
            .iter()
            .position(|duration| !(0..=LIMIT_MOST).contains(duration))
        {
            return Err(CriticalPathProblem::Duration(activity));
        }
        let order = Order::new(durations.len(), edges).map_err(CriticalPathProblem::Order)?;
        let mut following = vec![Vec::new(); durations.len()];
        let mut waits = vec![false; durations.len()];
        for &(first, then) in edges {
            following[first].push(then);
            waits[then] = true;
        }
        for list in &mut following {
            list.sort_unstable();
            list.dedup();
        }
        let mut start = vec![0; durations.len()];
        for &activity in order.line() {
            for &then in &following[activity] {
                start[then] = start[then].max(start[activity] + durations[activity]);
            }
        }
        let ends = start
            .iter()
            .zip(durations)
            .map(|(start, duration)| start + duration);
        let length = ends.max().unwrap_or_default();
        let mut latest_end = vec![length; durations.len()];
        let mut next_start = vec![length; durations.len()];
        for &activity in order.line().iter().rev() {
            for &then in &following[activity] {
                latest_end[activity] = latest_end[activity].min(latest_end[then] - durations[then]);
                next_start[activity] = next_start[activity].min(start[then]);
            }
        }
        let activities = (0..durations.len())
            .map(|activity| {
                let earliest_end = start[activity] + durations[activity];
                let latest_start = latest_end[activity] - durations[activity];
                Activity {
                    earliest_start: start[activity],
                    earliest_end,
                    latest_start,
                    latest_end: latest_end[activity],
                    total_float: latest_start - start[activity],
                    free_float: next_start[activity] - earliest_end,
                }
            })
            .collect();
        Ok(CriticalPath {
            length,
            activities,
            first: (0..durations.len())
                .filter(|&activity| !waits[activity])
                .collect(),
            following,
        })
    }

    /// The chains of activities that together take as long as the project, in rising order, at most `most` of them: there can
    /// be very many.
    #[must_use]
    pub fn paths(&self, most: usize) -> Vec<Vec<usize>> {
        let critical = |activity: usize| self.activities[activity].is_critical();
        let mut open: Vec<Vec<usize>> = self
            .first
            .iter()
            .rev()
            .filter(|&&activity| critical(activity))
            .map(|&activity| vec![activity])
            .collect();
        let mut found = Vec::new();
        while let Some(path) = open.pop() {
            if found.len() == most {
                break;
            }
            let Some(&last) = path.last() else { continue };
            if self.following[last].is_empty() {
                found.push(path);
                continue;
            }
            let end = self.activities[last].earliest_end;
            for &then in self.following[last].iter().rev() {
                if critical(then) && self.activities[then].earliest_start == end {
                    let mut longer = path.clone();
                    longer.push(then);
                    open.push(longer);
                }
            }
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    #[test]
    fn the_longest_chain_decides() {
        let project = CriticalPath::new(&[3, 1, 2, 4], &[(0, 2), (1, 2), (1, 3)]).unwrap();
        assert_eq!(project.length, 5);
        let floats: Vec<_> = project
            .activities
            .iter()
            .map(|activity| (activity.total_float, activity.free_float))
            .collect();
        assert_eq!(floats, [(0, 0), (0, 0), (0, 0), (0, 0)]);
        assert_eq!(project.paths(9), [vec![0, 2], vec![1, 3]]);
        assert_eq!(project.paths(1), [vec![0, 2]]);
    }

    #[test]
    fn an_activity_beside_the_longest_chain_has_time_to_spare() {
        let project = CriticalPath::new(&[5, 1, 1, 1], &[(0, 3), (1, 2), (2, 3)]).unwrap();
        let spare = |at: usize| {
            let activity = project.activities[at];
            (activity.total_float, activity.free_float)
        };
        assert_eq!((spare(1), spare(2)), ((3, 0), (3, 3)));
        assert_eq!(project.paths(9), [vec![0, 3]]);
    }

    #[test]
    fn what_has_no_end_is_refused() {
        assert!(matches!(
            CriticalPath::new(&[1, 1], &[(0, 1), (1, 0)]),
            Err(CriticalPathProblem::Order(OrderProblem::Circle(_)))
        ));
        assert_eq!(
            CriticalPath::new(&[1, -1], &[]),
            Err(CriticalPathProblem::Duration(1))
        );
    }

    proptest! {
        // A fixed seed and no memory of failures: equal code gives an equal result.
        #![proptest_config(ProptestConfig { rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn it_is_the_network_with_its_end_at_the_least_time(
            durations in prop::collection::vec(0_i64..9, 1..8),
            raw in prop::collection::vec((0_usize..8, 0_usize..8), 0..14),
        ) {
            let count = durations.len();
            let edges: Vec<(usize, usize)> = raw
                .iter()
                .map(|&(one, other)| (one % count, other % count))
                .filter(|(one, other)| one < other)
                .collect();
            let project = CriticalPath::new(&durations, &edges).unwrap();
            // Event 1 + i is the start of activity i, and the last event is the end of the project.
            let mut network = crate::syllabus::timing::Network::new(count + 2);
            let mut after = |from: usize, to: usize, least: i64| {
                let rule = crate::syllabus::timing::TimeRule { from, to, least: Some(least), most: None };
                network.add(0, rule).unwrap();
            };
            for (activity, &duration) in durations.iter().enumerate() {
                after(0, 1 + activity, 0);
                after(1 + activity, count + 1, duration);
            }
            for &(first, then) in &edges {
                after(1 + first, 1 + then, durations[first]);
            }
            prop_assert_eq!(network.windows().unwrap()[count + 1].earliest, Some(project.length));
            network.fix(count + 1, project.length).unwrap();
            let windows = network.windows().unwrap();
            for (activity, times) in project.activities.iter().enumerate() {
                prop_assert_eq!(windows[1 + activity].earliest, Some(times.earliest_start));
                prop_assert_eq!(windows[1 + activity].latest, Some(times.latest_start));
            }
            let paths = project.paths(usize::MAX);
            prop_assert!(!paths.is_empty());
            for path in paths {
                prop_assert_eq!(path.iter().map(|&activity| durations[activity]).sum::<i64>(), project.length);
            }
        }
    }
}
