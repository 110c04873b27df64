//! Rules of the kind "at least 5 and at most 9 after that", all in force together: a simple temporal network.
//!
//! Event 0 is the origin, at time 0. Times are whole ticks (milliseconds, wherever the program uses this), so a rule that is
//! met exactly is met. Definitions after Dechter, Meiri, Pearl 1991, Artificial Intelligence 49:61-95: every rule is two
//! edges of a graph, the rules agree exactly if no circle of edges is negative, and shortest ways are the windows.
//!
//! A window holds for one event at a time: choosing a time for one narrows the others. Left out: rules with "or".

pub mod critical_path;

/// No limit may be further from zero than this: 2^44 ticks, some 557 years of milliseconds. It keeps all sums exact.
pub const LIMIT_MOST: i64 = 1 << 44;

/// At most this many events stand in one network.
pub const EVENTS_MOST: usize = 1 << 16;

/// `least ≤ time(to) − time(from) ≤ most`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TimeRule {
    /// The event counted from.
    pub from: usize,
    /// The event counted to.
    pub to: usize,
    /// The least time between, in ticks, if there is one. May be negative.
    pub least: Option<i64>,
    /// The most time between, in ticks, if there is one.
    pub most: Option<i64>,
}

/// Why a rule cannot be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TimingProblem {
    /// The rule names an event that does not exist.
    NoSuchEvent(usize),
    /// A limit is beyond [`LIMIT_MOST`].
    TooLarge,
}

/// What makes an event wait or hurry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// The least time of the rule with this number.
    Least(usize),
    /// The most time of the rule with this number.
    Most(usize),
    /// This event has happened and its time cannot change.
    Happened(usize),
}

/// One link of a clash: `time(to) − time(from)` is at most `most`, because of `reason`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// The event counted from.
    pub from: usize,
    /// The event counted to.
    pub to: usize,
    /// The most time between, in ticks. A least time is a negative most time the other way.
    pub most: i64,
    /// The rule or event behind it.
    pub reason: Reason,
}

/// Rules that cannot all be kept: a circle of links, each from where the one before ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clash {
    /// The links, in order round the circle.
    pub links: Vec<Link>,
    /// By how many ticks the circle is too short. Above zero.
    pub short_by: i64,
}

/// When an event can happen, in ticks after the origin. `None`: no bound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Window {
    /// The earliest time.
    pub earliest: Option<i64>,
    /// The latest time.
    pub latest: Option<i64>,
}

/// A stated rule that an observed schedule broke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Violation {
    /// The number of the rule, as given to [`Network::add`].
    pub rule: usize,
    /// By how many ticks: above zero is too long, below zero too short.
    pub excess: i64,
}

/// Events and the rules between them.
#[derive(Clone, Debug)]
pub struct Network {
    events: usize,
    rules: Vec<(usize, TimeRule)>,
    links: Vec<Link>,
}

impl Network {
    /// Makes a network of `events` events, the origin included, without rules.
    ///
    /// # Panics
    /// If there are no events at all or more than [`EVENTS_MOST`].
    #[must_use]
    pub fn new(events: usize) -> Network {
        assert!(
            (1..=EVENTS_MOST).contains(&events),
            "a network has an origin and a bounded number of events"
        );
        Network {
            events,
            rules: Vec::new(),
            links: Vec::new(),
        }
    }

    /// How many events there are, the origin included.
    #[must_use]
    pub fn events(&self) -> usize {
        self.events
    }

    /// Adds a rule under a number of the caller's. Several rules between the same events are all in force.
    ///
    /// # Errors
    /// [`TimingProblem`] if an event does not exist or a limit is too large. Nothing is added then.
    pub fn add(&mut self, number: usize, rule: TimeRule) -> Result<(), TimingProblem> {
        for event in [rule.from, rule.to] {
            if event >= self.events {
                return Err(TimingProblem::NoSuchEvent(event));
            }
        }
        if [rule.least, rule.most]
            .into_iter()
            .flatten()
            .any(|limit| !(-LIMIT_MOST..=LIMIT_MOST).contains(&limit))
        {
            return Err(TimingProblem::TooLarge);
        }
        if let Some(most) = rule.most {
            self.links.push(Link {
                from: rule.from,
                to: rule.to,
                most,
                reason: Reason::Most(number),
            });
        }
        if let Some(least) = rule.least {
            self.links.push(Link {
                from: rule.to,
                to: rule.from,
                most: -least,
                reason: Reason::Least(number),
            });
        }
        self.rules.push((number, rule));
        Ok(())
    }

    /// Notes that `event` has happened at `time`, in ticks after the origin. What [`Network::windows`] says then holds for the
    /// rest; if it clashes, what was done cannot be finished correctly any more.
    ///
    /// # Errors
    /// [`TimingProblem`] as for a rule.
    pub fn fix(&mut self, event: usize, time: i64) -> Result<(), TimingProblem> {
        if event >= self.events {
            return Err(TimingProblem::NoSuchEvent(event));
        }
        if !(-LIMIT_MOST..=LIMIT_MOST).contains(&time) {
            return Err(TimingProblem::TooLarge);
        }
        for (from, to, most) in [(0, event, time), (event, 0, -time)] {
            self.links.push(Link {
                from,
                to,
                most,
                reason: Reason::Happened(event),
            });
        }
        Ok(())
    }

    /// Finds rules that cannot all be kept, or `None` if everything can. Bellman-Ford: at most events × rules steps.
    #[must_use]
    pub fn clash(&self) -> Option<Clash> {
        // As if from an extra event with a way of length 0 to every other, so that no part is missed.
        let mut distance = vec![0_i64; self.events];
        let mut through: Vec<Option<usize>> = vec![None; self.events];
        let mut moved = None;
        for _ in 0..=self.events {
            moved = None;
            for (at, link) in self.links.iter().enumerate() {
                let way = distance[link.from] + link.most;
                if way < distance[link.to] {
                    distance[link.to] = way;
                    through[link.to] = Some(at);
                    moved = Some(link.to);
                }
            }
            moved?;
        }
        // An event that never moved ends a way without circles, and such a way is settled after as many rounds as it has links.
        const MOVED: &str = "an event that still moves was reached from a circle";
        // Still moving after as many rounds as there are events: going back that often ends on a circle.
        let mut event = moved?;
        for _ in 0..self.events {
            event = self.links[through[event].expect(MOVED)].from;
        }
        let mut links = Vec::new();
        let mut here = event;
        loop {
            let link = self.links[through[here].expect(MOVED)];
            links.push(link);
            here = link.from;
            if here == event {
                break;
            }
        }
        links.reverse();
        let short_by = -links.iter().map(|link| link.most).sum::<i64>();
        Some(Clash { links, short_by })
    }

    /// When each event can happen. All events at their earliest times, where they have one, keep every rule, and so do all
    /// at their latest.
    ///
    /// # Errors
    /// A [`Clash`] if the rules cannot all be kept.
    pub fn windows(&self) -> Result<Vec<Window>, Clash> {
        if let Some(clash) = self.clash() {
            return Err(clash);
        }
        let latest = self.shortest(|link| (link.from, link.to));
        let earliest = self.shortest(|link| (link.to, link.from));
        Ok(earliest
            .into_iter()
            .zip(latest)
            .map(|(earliest, latest)| Window {
                earliest: earliest.map(|way| -way),
                latest,
            })
            .collect())
    }

    /// Shortest ways between the origin and every event, in the direction that `ends` reads the links. Rules must agree.
    fn shortest(&self, ends: impl Fn(&Link) -> (usize, usize)) -> Vec<Option<i64>> {
        let mut distance = vec![None; self.events];
        distance[0] = Some(0);
        let mut moving = true;
        while moving {
            moving = false;
            for link in &self.links {
                let (from, to) = ends(link);
                let Some(before) = distance[from] else {
                    continue;
                };
                let way: i64 = before + link.most;
                if distance[to].is_none_or(|known| way < known) {
                    distance[to] = Some(way);
                    moving = true;
                }
            }
        }
        distance
    }

    /// The tightest bounds between all events (Floyd-Warshall, events³ steps: for checking a module, not for a run).
    ///
    /// # Errors
    /// A [`Clash`] if the rules cannot all be kept.
    pub fn minimal(&self) -> Result<Minimal, Clash> {
        if let Some(clash) = self.clash() {
            return Err(clash);
        }
        let count = self.events;
        let mut most = vec![None; count * count];
        for event in 0..count {
            most[event * count + event] = Some(0);
        }
        let shorten = |place: &mut Option<i64>, way: i64| {
            if place.is_none_or(|known| way < known) {
                *place = Some(way);
            }
        };
        for link in &self.links {
            shorten(&mut most[link.from * count + link.to], link.most);
        }
        for between in 0..count {
            for from in 0..count {
                let Some(first) = most[from * count + between] else {
                    continue;
                };
                for to in 0..count {
                    if let Some(then) = most[between * count + to] {
                        shorten(&mut most[from * count + to], first + then);
                    }
                }
            }
        }
        Ok(Minimal { count, most })
    }

    /// The stated rules that an observed schedule broke, in the order in which they were added. A rule with an event that did
    /// not happen (`None`) is left out. `observed` holds the time of every event in ticks after the origin.
    ///
    /// # Panics
    /// If `observed` is shorter than the number of events.
    #[must_use]
    pub fn violations(&self, observed: &[Option<i64>]) -> Vec<Violation> {
        self.rules
            .iter()
            .filter_map(|&(rule, limits)| {
                let between = observed[limits.to]?.saturating_sub(observed[limits.from]?);
                let over = |most: i64| between.saturating_sub(most);
                let excess = limits
                    .most
                    .map(over)
                    .filter(|&excess| excess > 0)
                    .or_else(|| limits.least.map(over).filter(|&excess| excess < 0))?;
                Some(Violation { rule, excess })
            })
            .collect()
    }
}

/// The tightest bounds between all events that follow from the rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Minimal {
    count: usize,
    most: Vec<Option<i64>>,
}

impl Minimal {
    /// The most time from one event to another in ticks, or `None` if nothing bounds it. The least time is `-most(to, from)`.
    ///
    /// # Panics
    /// If an event does not exist.
    #[must_use]
    pub fn most(&self, from: usize, to: usize) -> Option<i64> {
        assert!(from < self.count && to < self.count, "the event exists");
        self.most[from * self.count + to]
    }
}

#[cfg(test)]
mod tests;
