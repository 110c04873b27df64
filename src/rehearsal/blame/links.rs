//! What follows from what by order, time, crowding and protection.

use super::Blame;
use crate::rehearsal::finding::{Finding, Found};
use crate::syllabus::module::Never;
use crate::syllabus::plan::TaskIndex;
use crate::units::Millis;

impl Blame<'_> {
    /// What was left out together with the step it is pointless without is one omission.
    pub(super) fn link_skips(&mut self) {
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
    pub(super) fn link_order(&mut self) {
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
    pub(super) fn link_crowds(&mut self) {
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
    pub(super) fn link_times(&mut self) {
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
    pub(super) fn excess(&self, finding: &Finding) -> Millis {
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
    pub(super) fn link_protection(&mut self) {
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
}
