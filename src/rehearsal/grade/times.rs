//! Timed parts against windows and signs; gaps and caps.

use super::Grader;
use crate::rehearsal::finding::{Found, Words};
use crate::rehearsal::trace::{Event, Sign, What};
use crate::syllabus::case::CaseValue;
use crate::syllabus::module::{CaseRange, Keeping, Severity, Tier, TimeRule};
use crate::syllabus::plan::{TaskIndex, TaskKeeping, Window, window_for};
use crate::units::Millis;

impl Grader<'_> {
    /// Timed parts against windows and signs.
    pub(super) fn times(&mut self) {
        let plan = self.plan;
        for (index, event) in self.trace.iter().enumerate() {
            let What::Task {
                task,
                timed: Some(was),
                ..
            } = event.what
            else {
                continue;
            };
            let number = plan.tasks[task].step;
            let errors = self.step(task).errors.clone();
            let add =
                |grader: &mut Self, found, tier: Option<usize>, tiers: &[Tier], short: bool| {
                    let words = match (tier, short) {
                        (Some(tier), true) => Words::Short(number, tier),
                        (Some(tier), false) => Words::Long(number, tier),
                        (None, _) => Words::None,
                    };
                    let miss = tier.map(|tier| &tiers[tier].miss);
                    grader.add(found, miss, Severity::Minor, words, Some(index), vec![task]);
                };
            match &plan.tasks[task].keeping {
                Some(TaskKeeping::Timer(window) | TaskKeeping::Count(window)) => {
                    let window = *window;
                    if was < window.least {
                        let tier = tier(&errors.short, |limit| was < limit);
                        let right_for = self.right_for(task, was);
                        let found = Found::Short {
                            was,
                            window,
                            right_for,
                        };
                        add(self, found, tier, &errors.short, true);
                    } else if was > window.most {
                        let tier = tier(&errors.long, |limit| was > limit);
                        add(self, Found::Long { was, window }, tier, &errors.long, false);
                    }
                }
                Some(TaskKeeping::Watch { within, .. }) => match event.sign {
                    Sign::After(sign) if was < sign => {
                        let by = sign - was;
                        let tier = tier(&errors.short, |limit| by > limit);
                        add(
                            self,
                            Found::BeforeSign { by: Some(by) },
                            tier,
                            &errors.short,
                            true,
                        );
                    }
                    Sign::Never => {
                        let tier = tier(&errors.short, |_| true);
                        add(
                            self,
                            Found::BeforeSign { by: None },
                            tier,
                            &errors.short,
                            true,
                        );
                    }
                    Sign::After(sign) if was - sign > *within => {
                        let by = was - sign;
                        let tier = tier(&errors.long, |limit| by > limit);
                        let within = *within;
                        add(
                            self,
                            Found::AfterSign { by, within },
                            tier,
                            &errors.long,
                            false,
                        );
                    }
                    _ => {}
                },
                Some(TaskKeeping::Judge { .. }) => {
                    let found = match event.sign {
                        Sign::NotShown => Found::NotYetRight,
                        // However long it had gone on: something before it was not right.
                        Sign::Never => Found::BeforeSign { by: None },
                        _ => continue,
                    };
                    if self.stood(task, index) {
                        let tier = tier(&errors.short, |_| true);
                        add(self, found, tier, &errors.short, true);
                    }
                }
                None => {}
            }
        }
    }

    /// Whether a judged task was left as it was at this event: not taken up again before anything that had to wait for it.
    pub(super) fn stood(&self, task: TaskIndex, event: usize) -> bool {
        let later = self.trace[event + 1..].iter().filter_map(Event::task);
        for one in later {
            if one == task {
                return false;
            }
            if self.plan.order.precedes(task, one) {
                return true;
            }
        }
        true
    }

    /// The case choice and value for which a time that is wrong here would have been right.
    pub(super) fn right_for(&self, task: TaskIndex, was: Millis) -> Option<(usize, usize)> {
        let (Keeping::Timer(written) | Keeping::Count(written)) =
            self.step(task).keeping.as_ref()?
        else {
            return None;
        };
        for (index, choice) in self.module.case.iter().enumerate() {
            let CaseRange::OneOf(values) = &choice.range else {
                continue;
            };
            for (value, name) in values.iter().enumerate() {
                if self.plan.card.matches(&choice.id.value, &name.value) {
                    continue;
                }
                let other = self
                    .plan
                    .card
                    .clone()
                    .with(&choice.id.value, CaseValue::Word(name.value.clone()));
                let Window { least, most, .. } = window_for(written, &other);
                if least <= was && was <= most {
                    return Some((index, value));
                }
            }
        }
        None
    }

    pub(super) fn gaps(&mut self) {
        for (index, gap) in self.plan.gaps.iter().enumerate() {
            let (Some(from), Some(to)) = (self.last_before(gap.from, gap.to), self.firsts[gap.to])
            else {
                continue;
            };
            let moment = |event: usize, end: bool| {
                if end {
                    self.trace[event].end
                } else {
                    self.trace[event].start
                }
            };
            let was = moment(to, gap.to_end) - moment(from, gap.from_end);
            let broken = gap.most.is_some_and(|most| was > most)
                || gap.least.is_some_and(|least| was < least);
            if broken && let TimeRule::Gap { miss, .. } = &self.module.time_rules[gap.rule] {
                let found = Found::Gap { gap: index, was };
                let tasks = vec![gap.from, gap.to];
                self.add(
                    found,
                    Some(miss),
                    miss.severity,
                    Words::TimeRule(gap.rule),
                    Some(to),
                    tasks,
                );
            }
        }
    }

    /// The last time a task was done before another was first done.
    pub(super) fn last_before(&self, task: TaskIndex, then: TaskIndex) -> Option<usize> {
        let until = self.firsts[then]?;
        (0..until)
            .rev()
            .find(|&index| self.trace[index].task() == Some(task))
    }

    pub(super) fn caps(&mut self) {
        for (index, cap) in self.plan.caps.iter().enumerate() {
            let most = cap
                .when_done
                .iter()
                .filter(|(task, _)| self.firsts[*task].is_some())
                .map(|&(_, most)| most)
                .fold(cap.most, Millis::max);
            let mut sum = Millis::ZERO;
            let mut over = None;
            for (at, event) in self.trace.iter().enumerate() {
                if let What::Task {
                    task,
                    timed: Some(timed),
                    ..
                } = event.what
                    && cap.over.contains(&task)
                {
                    sum += timed;
                    if sum > most && over.is_none() {
                        over = Some(at);
                    }
                }
            }
            if let (Some(at), TimeRule::Cap { miss, .. }) =
                (over, &self.module.time_rules[cap.rule])
            {
                let found = Found::Cap {
                    cap: index,
                    was: sum,
                    most,
                };
                let words = Words::TimeRule(cap.rule);
                self.add(
                    found,
                    Some(miss),
                    miss.severity,
                    words,
                    Some(at),
                    cap.over.clone(),
                );
            }
        }
    }

    /// Timed parts inside their window or ended by their sign, of all timed parts.
    pub(super) fn in_time(&self) -> (usize, usize) {
        let timed = self
            .trace
            .iter()
            .filter(|event| matches!(event.what, What::Task { timed: Some(_), .. }))
            .count();
        let missed = self.raw.iter().filter(|raw| {
            matches!(
                raw.finding.what,
                Found::Short { .. }
                    | Found::Long { .. }
                    | Found::BeforeSign { .. }
                    | Found::AfterSign { .. }
                    | Found::NotYetRight
            )
        });
        (timed - missed.count().min(timed), timed)
    }
}

/// The gravest tier whose limit was passed; tiers without a limit are the window itself.
pub(super) fn tier(tiers: &[Tier], passed: impl Fn(Millis) -> bool) -> Option<usize> {
    (0..tiers.len())
        .filter(|&index| tiers[index].limit.is_none_or(&passed))
        .max_by_key(|&index| (tiers[index].miss.severity, index))
}
