//! What follows from what because something was not there: needs, refusals, signs that could not come.

use super::Blame;
use crate::rehearsal::finding::{Finding, Found};
use crate::rehearsal::trace::{Event, What};
use crate::syllabus::module::{GaugeKind, Harm};
use crate::syllabus::plan::{Make, TaskIndex, TaskKeeping};

impl Blame<'_> {
    /// A need that failed follows from whatever went wrong with the tasks that should have made it true.
    pub(super) fn link_needs(&mut self) {
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
                parent = self.moved_maker(&tasks, aspect);
            }
            if parent.is_none() {
                parent = self.by_gauge(aspect, child);
            }
            if let Some(parent) = parent {
                self.link(child, parent);
            }
        }
    }

    /// A finding that a task was out of order, done again, or waited for in vain: that explains its own needs.
    pub(super) fn own(&self, task: TaskIndex, child: usize) -> Option<usize> {
        (0..self.all.len()).find(|&index| {
            let one = &self.all[index].finding;
            let disorder = match &one.what {
                Found::Misplaced { .. } | Found::Again => one.tasks.contains(&task),
                Found::TooEarly { until } => one.tasks.contains(&task) || until.contains(&task),
                _ => false,
            };
            index != child && disorder
        })
    }

    /// A task that was done out of its order and made the aspect something else than these tasks needed.
    fn moved_maker(&self, tasks: &[TaskIndex], aspect: usize) -> Option<usize> {
        let needs = tasks.iter().flat_map(|&task| &self.plan.tasks[task].needs);
        let needed: Vec<_> = needs.filter(|need| need.aspect == aspect).collect();
        (0..self.all.len()).find(|&index| {
            let one = &self.all[index].finding;
            matches!(one.what, Found::Misplaced { .. } | Found::TooEarly { .. })
                && one.tasks.iter().any(|&moved| {
                    self.plan.tasks[moved].makes.iter().any(|make| {
                        needed.iter().any(|need| {
                            need.aspect == make.aspect
                                && need.cells.contains(&make.cell)
                                && !need.allows(make.value)
                        })
                    })
                })
        })
    }

    /// What went wrong with a task that makes a value of this aspect before the given one.
    pub(super) fn maker(&self, task: TaskIndex, aspect: usize, child: usize) -> Option<usize> {
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
            // A finding on order that names the maker as what was not waited for, or was crossed.
            let waited = (0..self.all.len()).find(|&index| match &self.all[index].finding.what {
                Found::TooEarly { until } => until.contains(&maker),
                Found::Misplaced { against, .. } => *against == maker,
                _ => false,
            });
            if waited.is_some() {
                return waited;
            }
        }
        None
    }

    /// What was tried and refused was not forgotten: it follows from whatever left the bench in that state.
    pub(super) fn link_refusals(&mut self, trace: &[Event]) {
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
    pub(super) fn link_signs(&mut self) {
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
    pub(super) fn made_by(
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
    pub(super) fn left_out(
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
    pub(super) fn by_gauge(&self, aspect: usize, child: usize) -> Option<usize> {
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
