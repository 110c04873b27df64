//! What was wrong with an event, as far as it can be told at once.

use super::Running;
use crate::rehearsal::trace::{Sign, What};
use crate::report::caution;
use crate::report::wording::to_the_second;
use crate::syllabus::module::Never;
use crate::syllabus::plan::{TaskIndex, TaskKeeping};
use crate::text::Value;
use crate::units::Millis;

/// How many steps that should have come first are named at once.
const EARLIER_MOST: usize = 3;

impl Running<'_> {
    /// What was wrong with the events of one move, as far as it can be told at once; each thing once.
    pub(super) fn notices(&self, numbers: std::ops::Range<usize>) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        let mut earlier: Vec<TaskIndex> = Vec::new();
        for number in numbers.clone() {
            for one in self.passed_by(number) {
                if !earlier.contains(&one) {
                    earlier.push(one);
                }
            }
            for line in self.bare_of(number) {
                if !lines.contains(&line) {
                    lines.push(line);
                }
            }
        }
        if !earlier.is_empty() {
            let missing = ("missing", self.names.steps(&earlier, EARLIER_MOST).into());
            lines.push(self.say("rehearsal-notice-early", &[missing]));
        }
        for line in numbers.flat_map(|number| self.notices_of(number)) {
            if !lines.contains(&line) {
                lines.push(line);
            }
        }
        lines
    }

    /// What should have come before an event and did not, unless it was told before.
    fn passed_by(&self, number: usize) -> Vec<TaskIndex> {
        let plan = self.names.plan;
        let Some(task) = self.rehearsal.trace()[number].task() else {
            return Vec::new();
        };
        let before = plan.order.predecessors(task);
        before
            .filter(|&one| plan.tasks[one].required && !self.done_before(one, number))
            .filter(|&one| !self.passed_before(one, number))
            .collect()
    }

    /// Which protection was missing.
    fn bare_of(&self, number: usize) -> Vec<String> {
        let mut lines = Vec::new();
        for &(guard, _) in &self.rehearsal.trace()[number].bare {
            let written = &self.names.module.guards[guard];
            let text = ("text", Value::from(written.miss.text.as_str()));
            lines.push(self.say("rehearsal-notice", &[text]));
            lines.push(caution::guard_here(&self.names, written));
        }
        lines
    }

    fn notices_of(&self, number: usize) -> Vec<String> {
        let event = &self.rehearsal.trace()[number];
        let plan = self.names.plan;
        let mut lines = Vec::new();
        if let What::Act(rule) = event.what
            && let Never::Act(act) = &self.names.module.never[rule]
        {
            let text = ("text", Value::from(act.miss.text.as_str()));
            lines.push(self.say("rehearsal-notice", &[text]));
        }
        let disturbances = &self.names.module.disturbances;
        let miss = match event.what {
            What::Answered(one, response) => disturbances[one].responses[response].wrong.as_ref(),
            What::CarriedOn(one) => disturbances[one].carry_on.as_ref(),
            _ => None,
        };
        if let Some(miss) = miss {
            let text = ("text", Value::from(miss.text.as_str()));
            lines.push(self.say("rehearsal-notice", &[text]));
        }
        let What::Task {
            task,
            options,
            timed,
        } = &event.what
        else {
            return lines;
        };
        let step = self.names.step(*task);
        for &need in &event.unmet {
            let state = self.names.cells(&plan.tasks[*task].needs[need]);
            lines.push(self.say("rehearsal-notice-need", &[("state", state.into())]));
        }
        for (way, &option) in step.ways.iter().zip(options) {
            if let Some(miss) = &way.options[option].wrong {
                lines.push(self.say("rehearsal-notice", &[("text", miss.text.as_str().into())]));
            }
        }
        lines.extend(self.time_notice(*task, *timed, event.sign));
        for (rule, _) in &event.crowded {
            if let Never::MoreThan { miss, .. } =
                &self.names.module.never[plan.more_than[*rule].rule]
            {
                lines.push(self.say("rehearsal-notice", &[("text", miss.text.as_str().into())]));
            }
        }
        lines
    }

    /// Whether a task had been passed by already, so that it was told then.
    fn passed_before(&self, task: TaskIndex, event: usize) -> bool {
        let mut earlier = self.rehearsal.trace()[..event].iter();
        earlier.any(|one| {
            one.task()
                .is_some_and(|then| self.names.plan.order.precedes(task, then))
        })
    }

    fn done_before(&self, task: TaskIndex, event: usize) -> bool {
        let earlier = &self.rehearsal.trace()[..event];
        earlier.iter().any(|one| one.task() == Some(task))
    }

    fn time_notice(&self, task: TaskIndex, timed: Option<Millis>, sign: Sign) -> Option<String> {
        let was = timed?;
        match self.names.plan.tasks[task].keeping.as_ref()? {
            TaskKeeping::Timer(window) | TaskKeeping::Count(window) => {
                if window.least <= was && was <= window.most {
                    return None;
                }
                Some(self.say(
                    "rehearsal-notice-time",
                    &[
                        ("was", was.into()),
                        ("least", window.least.into()),
                        ("most", window.most.into()),
                    ],
                ))
            }
            TaskKeeping::Watch { within, .. } => match sign {
                Sign::After(at) if was < at => Some(self.say("rehearsal-notice-before-sign", &[])),
                Sign::Never => Some(self.say("rehearsal-notice-before-sign", &[])),
                Sign::After(at) if was - at > *within => Some(self.say(
                    "rehearsal-notice-after-sign",
                    &[("by", to_the_second(was - at).into())],
                )),
                _ => None,
            },
            TaskKeeping::Judge { .. } => matches!(sign, Sign::NotShown | Sign::Never)
                .then(|| self.say("rehearsal-notice-not-yet", &[])),
        }
    }
}
