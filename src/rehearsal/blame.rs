//! Which findings are roots, and what followed from them.
//!
//! A finding is a root or nests under one; only roots count. Nothing here looks at names of steps: what links findings is
//! the order of the plan, what tasks make and need, and which consequences the module says an error leads to.

use super::align::Alignment;
use super::finding::{Finding, Found, Words};
use super::trace::{Event, What};
use crate::bench::HarmAt;
use crate::syllabus::module::{GaugeKind, Harm, Module, Never, Severity};
use crate::syllabus::plan::{Make, Plan, TaskIndex, TaskKeeping};
use crate::units::Millis;

/// A finding before it is known what it followed from.
#[derive(Clone, Debug)]
pub(super) struct Raw {
    pub(super) finding: Finding,
    /// The event it was found at.
    event: Option<usize>,
    /// The raw finding it followed from.
    parent: Option<usize>,
}

impl Raw {
    pub(super) fn new(finding: Finding, event: Option<usize>) -> Raw {
        Raw {
            finding,
            event,
            parent: None,
        }
    }
}

/// Gathers raw findings of the same kind, links what followed to what it followed from, and returns the roots.
pub(super) fn roots(
    module: &Module,
    plan: &Plan,
    trace: &[Event],
    alignment: &Alignment,
    raw: Vec<Raw>,
    harms: &[HarmAt],
) -> Vec<Finding> {
    let mut blame = Blame {
        module,
        plan,
        all: gather(plan, raw),
    };
    // Only the number of events matters here: the alignment has been turned into findings already.
    debug_assert!(alignment.matched.len() <= trace.len());
    blame.link_skips();
    blame.link_order();
    blame.link_crowds();
    blame.link_times();
    blame.link_protection();
    blame.link_needs();
    blame.link_refusals(trace);
    blame.link_signs();
    blame.add_harms(harms);
    blame.tree()
}

/// Joins findings that are the same rule about the same step at several places.
fn gather(plan: &Plan, raw: Vec<Raw>) -> Vec<Raw> {
    let mut all: Vec<Raw> = Vec::new();
    for one in raw {
        let same = all
            .iter_mut()
            .find(|other| same_kind(plan, &other.finding, &one.finding));
        let Some(other) = same else {
            all.push(one);
            continue;
        };
        let kept = &mut other.finding;
        for task in one.finding.tasks {
            if !kept.tasks.contains(&task) {
                kept.tasks.push(task);
            }
        }
        kept.tasks.sort_unstable();
        if one.finding.severity > kept.severity {
            kept.severity = one.finding.severity;
            kept.words = one.finding.words;
        }
        for lead in one.finding.leads_to {
            if !kept.leads_to.contains(&lead) {
                kept.leads_to.push(lead);
            }
        }
        if one.finding.at < kept.at {
            kept.at = one.finding.at;
            other.event = one.event;
        }
        worsen(&mut kept.what, one.finding.what);
    }
    all
}

/// Whether two findings are the same rule about the same step.
fn same_kind(plan: &Plan, one: &Finding, other: &Finding) -> bool {
    let step = |finding: &Finding| finding.tasks.first().map(|&task| plan.tasks[task].step);
    let same_step = step(one) == step(other);
    match (&one.what, &other.what) {
        (Found::Skipped, Found::Skipped)
        | (Found::Again, Found::Again)
        | (Found::Long { .. }, Found::Long { .. })
        | (Found::BeforeSign { .. }, Found::BeforeSign { .. })
        | (Found::AfterSign { .. }, Found::AfterSign { .. })
        | (Found::NotYetRight, Found::NotYetRight) => same_step,
        (
            Found::Misplaced {
                early: one_early, ..
            },
            Found::Misplaced {
                early: other_early, ..
            },
        ) => same_step && one_early == other_early,
        (
            Found::Short {
                right_for: one_for, ..
            },
            Found::Short {
                right_for: other_for,
                ..
            },
        ) => same_step && one_for == other_for,
        (
            Found::Unready { aspect: one_aspect },
            Found::Unready {
                aspect: other_aspect,
            },
        ) => same_step && one_aspect == other_aspect,
        (
            Found::WrongWay {
                way: one_way,
                option: one_option,
            },
            Found::WrongWay {
                way: other_way,
                option: other_option,
            },
        ) => same_step && one_way == other_way && one_option == other_option,
        (Found::TooEarly { .. }, Found::TooEarly { .. })
        | (Found::Gap { .. }, Found::Gap { .. }) => one.words == other.words,
        (
            Found::Crowded { rule: one_rule, .. },
            Found::Crowded {
                rule: other_rule, ..
            },
        ) => one_rule == other_rule,
        (Found::Forbidden { rule: one_rule }, Found::Forbidden { rule: other_rule }) => {
            one_rule == other_rule
        }
        _ => false,
    }
}

/// Keeps the worse measure of two findings of the same kind.
fn worsen(kept: &mut Found, other: Found) {
    match (kept, other) {
        (Found::Short { was, .. }, Found::Short { was: other, .. }) => *was = (*was).min(other),
        (Found::Long { was, .. }, Found::Long { was: other, .. }) => *was = (*was).max(other),
        (Found::BeforeSign { by }, Found::BeforeSign { by: other }) => {
            *by = match (*by, other) {
                (Some(one), Some(other)) => Some(one.max(other)),
                _ => None,
            };
        }
        (Found::AfterSign { by, .. }, Found::AfterSign { by: other, .. }) => *by = (*by).max(other),
        (Found::TooEarly { until }, Found::TooEarly { until: other }) => {
            until.extend(other);
            until.sort_unstable();
            until.dedup();
        }
        (Found::Crowded { cells, .. }, Found::Crowded { cells: other, .. })
            if other.len() > cells.len() =>
        {
            *cells = other;
        }
        (
            Found::Gap { was, gap },
            Found::Gap {
                was: other,
                gap: other_gap,
            },
        ) if other > *was => {
            *was = other;
            *gap = other_gap;
        }
        _ => {}
    }
}

struct Blame<'b> {
    module: &'b Module,
    plan: &'b Plan,
    all: Vec<Raw>,
}

impl Blame<'_> {
    /// The raw findings of a kind, in order.
    fn find(&self, matches: impl Fn(&Finding) -> bool) -> Vec<usize> {
        (0..self.all.len())
            .filter(|&index| matches(&self.all[index].finding))
            .collect()
    }

    /// Links one finding under another, unless that would close a circle.
    fn link(&mut self, child: usize, parent: usize) {
        if self.root_of(parent) != child && child != parent && self.all[child].parent.is_none() {
            self.all[child].parent = Some(parent);
        }
    }

    fn root_of(&self, mut index: usize) -> usize {
        while let Some(parent) = self.all[index].parent {
            index = parent;
        }
        index
    }

    fn step_of(&self, index: usize) -> Option<usize> {
        self.all[index]
            .finding
            .tasks
            .first()
            .map(|&task| self.plan.tasks[task].step)
    }

    /// What was left out together with the step it is pointless without is one omission.
    fn link_skips(&mut self) {
        let skips = self.find(|one| one.what == Found::Skipped);
        for &child in &skips {
            let Some(leader) = self
                .step_of(child)
                .and_then(|step| self.module.steps[step].goes_with.as_ref())
            else {
                continue;
            };
            let parent = skips.iter().copied().find(|&other| {
                self.step_of(other)
                    .is_some_and(|step| self.module.steps[step].id.value == leader.value)
            });
            if let Some(parent) = parent {
                self.link(child, parent);
            }
        }
    }

    /// A hazard rule on order explains that its tasks were out of order; leaving one out explains the hazard rule.
    fn link_order(&mut self) {
        let hazards = self.find(|one| matches!(one.what, Found::TooEarly { .. }));
        let skips = self.find(|one| one.what == Found::Skipped);
        let misplaced = self.find(|one| matches!(one.what, Found::Misplaced { .. }));
        for &hazard in &hazards {
            let Found::TooEarly { until } = self.all[hazard].finding.what.clone() else {
                continue;
            };
            let acts = self.all[hazard].finding.tasks.clone();
            let skipped = |task: &TaskIndex| {
                skips
                    .iter()
                    .copied()
                    .find(|&skip| self.all[skip].finding.tasks.contains(task))
            };
            // All that it had to wait for was left out: that is the mistake, unless it came too early for other tasks as well.
            let early = misplaced.iter().any(|&moved| {
                let one = &self.all[moved].finding;
                matches!(one.what, Found::Misplaced { early: true, .. })
                    && one.tasks.iter().any(|task| acts.contains(task))
            });
            if !early
                && until.iter().all(|task| skipped(task).is_some())
                && let Some(skip) = until.first().and_then(skipped)
            {
                self.link(hazard, skip);
            }
            for &moved in &misplaced {
                let tasks = &self.all[moved].finding.tasks;
                let Found::Misplaced { against, .. } = self.all[moved].finding.what else {
                    continue;
                };
                let involved = tasks
                    .iter()
                    .all(|task| acts.contains(task) || until.contains(task))
                    || (tasks.iter().any(|task| acts.contains(task)) && until.contains(&against));
                if involved {
                    self.link(moved, hazard);
                }
            }
        }
    }

    /// Places that could not leave a state because a task was left out are not crowded by a second mistake.
    fn link_crowds(&mut self) {
        for crowd in self.find(|one| matches!(one.what, Found::Crowded { stuck: true, .. })) {
            let Found::Crowded { rule, cells, .. } = self.all[crowd].finding.what.clone() else {
                continue;
            };
            let rule = &self.plan.more_than[rule];
            let skip = self.find(|one| {
                one.what == Found::Skipped
                    && one.tasks.iter().any(|&task| {
                        cells
                            .iter()
                            .any(|&cell| rule.is_left_by(self.plan, task, cell))
                    })
            });
            if let Some(&skip) = skip.first() {
                self.link(crowd, skip);
            }
        }
    }

    /// Caps follow from long or repeated times, gaps from disorder, and the same slip of a table made twice is one slip.
    fn link_times(&mut self) {
        for cap in self.find(|one| matches!(one.what, Found::Cap { .. })) {
            let tasks = self.all[cap].finding.tasks.clone();
            let cause = self.find(|one| {
                matches!(one.what, Found::Long { .. } | Found::Again)
                    && one.tasks.iter().any(|task| tasks.contains(task))
            });
            if let Some(&cause) = cause.first() {
                self.link(cap, cause);
            }
        }
        for gap in self.find(|one| matches!(one.what, Found::Gap { .. })) {
            let tasks = self.all[gap].finding.tasks.clone();
            let cause = self.find(|one| {
                matches!(one.what, Found::Misplaced { .. } | Found::TooEarly { .. })
                    && one.tasks.iter().any(|task| tasks.contains(task))
            });
            if let Some(&cause) = cause.first() {
                self.link(gap, cause);
            }
        }
        // Gloves that would still have been good without somebody being late are no second mistake.
        for stale in self.find(|one| matches!(one.what, Found::Stale { .. })) {
            let Found::Stale { by, .. } = self.all[stale].finding.what else {
                continue;
            };
            let at = self.all[stale].finding.at;
            let causes = self.find(|one| one.at <= at && self.excess(one) > Millis::ZERO);
            let lost: Millis = causes
                .iter()
                .map(|&one| self.excess(&self.all[one].finding))
                .sum();
            let cause = causes
                .into_iter()
                .max_by_key(|&one| (self.excess(&self.all[one].finding), std::cmp::Reverse(one)));
            if let Some(cause) = cause.filter(|_| lost >= by) {
                self.link(stale, cause);
            }
        }
        let slips = self.find(|one| {
            matches!(
                one.what,
                Found::Short {
                    right_for: Some(_),
                    ..
                }
            )
        });
        for (at, &slip) in slips.iter().enumerate() {
            let right_for = |index: usize| match self.all[index].finding.what {
                Found::Short { right_for, .. } => right_for,
                _ => None,
            };
            let first = slips[..at]
                .iter()
                .copied()
                .find(|&one| right_for(one) == right_for(slip));
            if let Some(first) = first {
                let first = self.root_of(first);
                self.link(slip, first);
            }
        }
    }

    /// How much longer something took than it should have.
    fn excess(&self, finding: &Finding) -> Millis {
        match finding.what {
            Found::Long { was, window } => was - window.target,
            Found::AfterSign { by, .. } => by,
            Found::Forbidden { rule } => match &self.module.never[rule] {
                Never::Act(act) => act.takes,
                _ => Millis::ZERO,
            },
            Found::WrongResponse {
                disturbance,
                response,
            } => self.module.disturbances[disturbance].responses[response].takes,
            _ => Millis::ZERO,
        }
    }

    /// Going without one item is one mistake, however many hazards it protects from: the gravest stands.
    fn link_protection(&mut self) {
        let missing = self.find(|one| matches!(one.what, Found::Unprotected { .. }));
        let item = |blame: &Self, index: usize| match blame.all[index].finding.what {
            Found::Unprotected { guard, .. } => Some(blame.plan.guards[guard].item),
            _ => None,
        };
        for &child in &missing {
            let gravest = missing
                .iter()
                .copied()
                .filter(|&one| item(self, one) == item(self, child))
                .max_by_key(|&one| {
                    let time = match self.all[one].finding.what {
                        Found::Unprotected { time, .. } => time,
                        _ => Millis::ZERO,
                    };
                    (self.all[one].finding.severity, time, std::cmp::Reverse(one))
                });
            if let Some(gravest) = gravest {
                self.link(child, gravest);
            }
        }
        // A disturbance that took protection away and was not answered explains the time without it.
        for &child in &missing {
            let Some(item) = item(self, child) else {
                continue;
            };
            let id = &self.module.protection_items[item].id.value;
            let cause = self.find(|one| {
                let (Found::WrongResponse { disturbance, .. } | Found::CarriedOn { disturbance }) =
                    one.what
                else {
                    return false;
                };
                let taken = &self.module.disturbances[disturbance].takes_off;
                taken.iter().any(|name| name.value == *id) && one.at <= self.all[child].finding.at
            });
            if let Some(&cause) = cause.first() {
                self.link(child, cause);
            }
        }
    }

    /// A need that failed follows from whatever went wrong with the tasks that should have made it true.
    fn link_needs(&mut self) {
        let mut unready = self.find(|one| matches!(one.what, Found::Unready { .. }));
        unready.sort_by_key(|&index| (self.all[index].event, index));
        for child in unready {
            let Found::Unready { aspect } = self.all[child].finding.what else {
                continue;
            };
            let tasks = self.all[child].finding.tasks.clone();
            let mut parent = tasks.iter().find_map(|&task| self.own(task, child));
            if parent.is_none() {
                parent = tasks
                    .iter()
                    .find_map(|&task| self.maker(task, aspect, child));
            }
            if parent.is_none() {
                parent = self.by_gauge(aspect, child);
            }
            if let Some(parent) = parent {
                self.link(child, parent);
            }
        }
    }

    /// A finding that a task was out of order or done again: that explains its own needs.
    fn own(&self, task: TaskIndex, child: usize) -> Option<usize> {
        (0..self.all.len()).find(|&index| {
            let one = &self.all[index].finding;
            let disorder = matches!(
                one.what,
                Found::Misplaced { early: true, .. } | Found::TooEarly { .. } | Found::Again
            );
            index != child && disorder && one.tasks.contains(&task)
        })
    }

    /// What went wrong with a task that makes a value of this aspect before the given one.
    fn maker(&self, task: TaskIndex, aspect: usize, child: usize) -> Option<usize> {
        let needs = self.plan.tasks[task]
            .needs
            .iter()
            .filter(|need| need.aspect == aspect);
        let cells: Vec<usize> = needs.flat_map(|need| need.cells.iter().copied()).collect();
        let mut makers: Vec<TaskIndex> = (0..self.plan.tasks.len())
            .filter(|&other| {
                self.plan.order.precedes(other, task)
                    && self.plan.tasks[other].makes.iter().any(|make| {
                        make.aspect == aspect && (cells.is_empty() || cells.contains(&make.cell))
                    })
            })
            .collect();
        // The latest maker first: it is the one that was relied on.
        makers.sort_by(|&one, &other| {
            let order = &self.plan.order;
            if order.precedes(one, other) {
                std::cmp::Ordering::Greater
            } else if order.precedes(other, one) {
                std::cmp::Ordering::Less
            } else {
                one.cmp(&other)
            }
        });
        for &maker in &makers {
            let found = (0..self.all.len()).find(|&index| {
                index != child
                    && self.root_of(index) != child
                    && explains(&self.all[index].finding)
                    && self.all[index].finding.tasks.contains(&maker)
            });
            if found.is_some() {
                return found;
            }
            // A hazard rule that names the maker as what was not waited for.
            let waited = (0..self.all.len()).find(|&index| match &self.all[index].finding.what {
                Found::TooEarly { until } => until.contains(&maker),
                _ => false,
            });
            if waited.is_some() {
                return waited;
            }
        }
        None
    }

    /// What was tried and refused was not forgotten: it follows from whatever left the bench in that state.
    fn link_refusals(&mut self, trace: &[Event]) {
        for child in self.find(|one| one.what == Found::Skipped) {
            let tasks = self.all[child].finding.tasks.clone();
            let refused = trace.iter().filter_map(|event| match event.what {
                What::Refused(task, condition) if tasks.contains(&task) => Some((task, condition)),
                _ => None,
            });
            let parent = refused.into_iter().find_map(|(task, condition)| {
                let condition = &self.plan.tasks[task].refused_if[condition];
                self.made_by(task, child, |make| {
                    make.aspect == condition.aspect
                        && condition.cells.contains(&make.cell)
                        && !condition.allows(make.value)
                })
            });
            if let Some(parent) = parent {
                self.link(child, parent);
            }
        }
    }

    /// A sign that could not come follows from the task having been unready, or from what should have brought it about.
    fn link_signs(&mut self) {
        let never = |one: &Finding| matches!(one.what, Found::BeforeSign { by: None });
        for child in self.find(never) {
            let tasks = self.all[child].finding.tasks.clone();
            let unready = self.find(|one| {
                matches!(one.what, Found::Unready { .. })
                    && one.tasks.iter().any(|task| tasks.contains(task))
            });
            let parent = unready.first().copied().or_else(|| {
                tasks.iter().find_map(|&task| {
                    let signs = match &self.plan.tasks[task].keeping {
                        Some(TaskKeeping::Watch { sign, .. }) => std::slice::from_ref(sign),
                        Some(TaskKeeping::Judge { until, .. }) => until.as_slice(),
                        _ => &[],
                    };
                    let sign = |make: &Make| {
                        signs.iter().any(|sign| {
                            sign.aspect == make.aspect && sign.cells.contains(&make.cell)
                        })
                    };
                    self.left_out(task, child, sign)
                })
            });
            if let Some(parent) = parent {
                self.link(child, parent);
            }
        }
    }

    /// A finding that explains why a task before this one did not make what it should have.
    fn made_by(
        &self,
        task: TaskIndex,
        child: usize,
        makes: impl Fn(&Make) -> bool,
    ) -> Option<usize> {
        (0..self.plan.tasks.len())
            .filter(|&other| self.plan.order.precedes(other, task))
            .filter(|&other| self.plan.tasks[other].makes.iter().any(&makes))
            .find_map(|maker| {
                (0..self.all.len()).find(|&index| {
                    index != child
                        && self.root_of(index) != child
                        && explains(&self.all[index].finding)
                        && self.all[index].finding.tasks.contains(&maker)
                })
            })
    }

    /// The same where the task before was not done at all.
    fn left_out(
        &self,
        task: TaskIndex,
        child: usize,
        makes: impl Fn(&Make) -> bool,
    ) -> Option<usize> {
        let found = self.made_by(task, child, makes)?;
        (self.all[found].finding.what == Found::Skipped).then_some(found)
    }

    /// A finding that leads to a consequence which shows in this aspect, when the bench decides it: an error that made it so
    /// first, then going on over it at an earlier task.
    fn by_gauge(&self, aspect: usize, child: usize) -> Option<usize> {
        let gauge = self.plan.aspects[aspect].gauge.as_ref()?;
        let harms = harms_of(gauge.kind);
        let shows = |consequence: &usize| {
            let mut shows = self.module.consequences[*consequence].shows.iter();
            shows.any(|harm| harms.contains(&harm.value))
        };
        let unready = |index: usize| matches!(self.all[index].finding.what, Found::Unready { .. });
        let leads = |index: usize| {
            let one = &self.all[index].finding;
            index != child && one.at <= self.all[child].finding.at && one.leads_to.iter().any(shows)
        };
        let all = 0..self.all.len();
        all.clone()
            .find(|&index| leads(index) && !unready(index))
            .or_else(|| all.clone().find(|&index| leads(index)))
    }

    /// What the bench ended with, under the errors that lead to it; unexplained harms stand for themselves.
    fn add_harms(&mut self, harms: &[HarmAt]) {
        for harm in harms {
            let shows: Vec<usize> = (0..self.module.consequences.len())
                .filter(|&index| {
                    let consequence = &self.module.consequences[index];
                    consequence.shows.iter().any(|one| one.value == harm.harm)
                })
                .collect();
            let cause = self.cause(&shows, harm);
            let consequence = cause
                .and_then(|cause| {
                    let leads_to = &self.all[cause].finding.leads_to;
                    shows.iter().copied().find(|one| leads_to.contains(one))
                })
                .or_else(|| shows.first().copied());
            let severity = consequence.map_or(Severity::Major, |index| {
                self.module.consequences[index].severity
            });
            let finding = Finding {
                what: Found::Harm {
                    harm: harm.harm,
                    consequence,
                    teeth: harm.teeth.clone(),
                },
                severity,
                at: harm.at,
                tasks: Vec::new(),
                leads_to: consequence.into_iter().collect(),
                words: consequence.map_or(Words::None, Words::Consequence),
                follow_ons: Vec::new(),
            };
            self.all.push(Raw {
                finding,
                event: None,
                parent: cause,
            });
        }
    }

    /// The error that leads to one of these consequences: one at the same teeth first, then one that stands for itself, then
    /// the gravest, then the earliest.
    fn cause(&self, shows: &[usize], harm: &HarmAt) -> Option<usize> {
        (0..self.all.len())
            .filter(|&index| {
                let one = &self.all[index].finding;
                !matches!(one.what, Found::Harm { .. })
                    && one.leads_to.iter().any(|lead| shows.contains(lead))
            })
            .min_by_key(|&index| {
                let one = &self.all[index].finding;
                let elsewhere = !harm.teeth.is_empty() && !self.touches(one, &harm.teeth);
                let nested = self.all[index].parent.is_some();
                (
                    elsewhere,
                    nested,
                    std::cmp::Reverse(one.severity),
                    one.at,
                    index,
                )
            })
    }

    fn touches(&self, finding: &Finding, teeth: &[u16]) -> bool {
        finding.tasks.is_empty()
            || finding.tasks.iter().any(|&task| {
                let mut counted = self.plan.tasks[task]
                    .place
                    .0
                    .iter()
                    .filter(|one| self.plan.dimensions[one.base].names.is_empty());
                counted.next().is_none_or(|one| {
                    teeth
                        .iter()
                        .any(|tooth| one.low <= *tooth && *tooth <= one.high)
                })
            })
    }

    /// The roots with everything nested, the gravest first.
    fn tree(mut self) -> Vec<Finding> {
        // Children stand after their parents or before; each is moved once its own children have been.
        let mut depth: Vec<(usize, usize)> = (0..self.all.len())
            .map(|index| {
                let mut steps = 0;
                let mut at = index;
                while let Some(parent) = self.all[at].parent {
                    at = parent;
                    steps += 1;
                }
                (steps, index)
            })
            .collect();
        depth.sort_unstable_by_key(|&(steps, index)| (std::cmp::Reverse(steps), index));
        let mut roots = Vec::new();
        for (_, index) in depth {
            let mut finding = self.all[index].finding.clone();
            finding.follow_ons.sort_by_key(|one| one.at);
            match self.all[index].parent {
                Some(parent) => self.all[parent].finding.follow_ons.push(finding),
                None => roots.push(finding),
            }
        }
        roots.sort_by_key(|root| (std::cmp::Reverse(root.worst()), root.at));
        roots
    }
}

/// Whether a finding about a task can explain that what the task makes was not there.
fn explains(finding: &Finding) -> bool {
    match finding.what {
        Found::Skipped
        | Found::Misplaced { .. }
        | Found::TooEarly { .. }
        | Found::Short { .. }
        | Found::Long { .. }
        | Found::BeforeSign { .. }
        | Found::AfterSign { .. }
        | Found::NotYetRight
        | Found::WrongWay { .. }
        | Found::Unready { .. }
        | Found::Again => true,
        Found::Gap { .. }
        | Found::Cap { .. }
        | Found::Crowded { .. }
        | Found::Forbidden { .. }
        | Found::Unprotected { .. }
        | Found::Stale { .. }
        | Found::WrongResponse { .. }
        | Found::CarriedOn { .. }
        | Found::Harm { .. } => false,
    }
}

/// The harms whose errors show in a gauge while the work still goes on.
fn harms_of(kind: GaugeKind) -> &'static [Harm] {
    match kind {
        GaugeKind::Veil => &[Harm::Veil, Harm::LockedVeil, Harm::SocketGel],
        GaugeKind::Cure => &[Harm::UnderCured],
        GaugeKind::Hold => &[Harm::MovedTooth],
        GaugeKind::Drops
        | GaugeKind::Film
        | GaugeKind::Plate
        | GaugeKind::Strip
        | GaugeKind::Primer
        | GaugeKind::Heat => &[],
    }
}
