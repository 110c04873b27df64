//! What a guide says: the move that it would make now, what is missing for it, and why and how it is done.

use super::Running;
use crate::rehearsal::trace::{Sign, What};
use crate::syllabus::place::spelled;
use crate::syllabus::plan::TaskIndex;

/// The move that a guide would make now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suggested {
    /// The step, by index in the module.
    pub step: usize,
    /// Its places as they are typed: empty for a step done once, else `all`, `1-2`, `1-2 facial`.
    pub at: String,
    /// The tasks that it does; at least one.
    pub tasks: Vec<TaskIndex>,
    /// Why it is its turn.
    pub turn: Turn,
}

/// Why it is a move's turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// It is next in the order of the work.
    InOrder,
    /// It was ended before it looked right, and can be made again.
    OnceMore,
    /// It was passed by, and everything that is left comes out of its order now.
    PassedBy,
}

/// What a guide says on a screen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Guidance {
    /// What comes next.
    pub next: String,
    /// What has to be put on, started or waited for before.
    pub missing: Vec<String>,
    /// Limits, right ways, reason and what good looks like.
    pub how: Vec<String>,
    /// The sign that only time will bring, when nothing else is missing but protection.
    pub wait: Option<String>,
    /// The move itself; none when every step has been done.
    pub suggested: Option<Suggested>,
}

/// Something that a task needs of the bench and that is not there.
struct NotYet {
    /// The sign of it, as it is waited for: `plate-state-ready`.
    sign: String,
    /// Whether time alone brings it within an hour.
    comes: bool,
    /// What is told of it.
    said: String,
}

impl Running<'_> {
    /// The move that a guide would make now; none when every step has been done.
    #[must_use]
    pub fn suggested(&self) -> Option<Suggested> {
        self.once_more()
            .or_else(|| self.in_order())
            .or_else(|| self.passed_over())
    }

    fn one(&self, task: TaskIndex, turn: Turn) -> Suggested {
        let plan = self.names.plan;
        Suggested {
            step: plan.tasks[task].step,
            at: spelled(&plan.tasks[task].place, &plan.dimensions).replace('/', " "),
            tasks: vec![task],
            turn,
        }
    }

    /// The move that was made last, when it was ended before it looked right and can be made again.
    fn once_more(&self) -> Option<Suggested> {
        let last = self.rehearsal.trace().last()?;
        let What::Task { task, timed, .. } = &last.what else {
            return None;
        };
        let ended_early = match last.sign {
            Sign::NotShown | Sign::Never => true,
            Sign::After(shows) => timed.is_some_and(|timed| timed < shows),
            Sign::None | Sign::Shown => false,
        };
        let can_be_made = ended_early && self.names.step(*task).again;
        can_be_made.then(|| self.one(*task, Turn::OnceMore))
    }

    /// What was passed by: it is out of its order and still has to be done.
    fn passed_over(&self) -> Option<Suggested> {
        let plan = self.names.plan;
        let mut tasks = 0..plan.tasks.len();
        let left =
            tasks.find(|&task| plan.tasks[task].required && !self.rehearsal.is_done(task))?;
        Some(self.one(left, Turn::PassedBy))
    }

    /// The next move in the order written; among steps done place by place, a place that is begun is brought to its end first.
    fn in_order(&self) -> Option<Suggested> {
        let plan = self.names.plan;
        let open = self.rehearsal.admissible();
        let required = || {
            let open = open.iter().copied();
            open.filter(|&task| plan.tasks[task].required)
        };
        let placed = |task: TaskIndex| !plan.tasks[task].place.0.is_empty();
        let low = |task: TaskIndex| plan.tasks[task].place.0.first().map_or(0, |one| one.low);
        let first = required().min_by_key(|&task| (plan.tasks[task].step, task))?;
        let alike = required().filter(|&task| task == first || (placed(first) && placed(task)));
        let task = alike.min_by_key(|&task| (low(task), plan.tasks[task].step, task))?;
        let step = plan.tasks[task].step;
        let place = |task: TaskIndex| spelled(&plan.tasks[task].place, &plan.dimensions);
        let at = if self.goes_in_one(step, &open) {
            "all".to_owned()
        } else {
            match self.go_together(task, &open) {
                Some(last) => format!("{}-{}", place(task), place(last)),
                None => place(task).replace('/', " "),
            }
        };
        let tasks = self.rehearsal.select(step, &at).unwrap_or(vec![task]);
        Some(Suggested {
            step,
            at,
            tasks,
            turn: Turn::InOrder,
        })
    }

    /// That it is this move's turn.
    fn turn(&self, suggested: &Suggested) -> String {
        let step = &self.names.module.steps[suggested.step];
        let typed = if suggested.at.is_empty() {
            step.id.value.clone()
        } else {
            format!("{} {}", step.id.value, suggested.at)
        };
        let values = [
            ("typed", typed.into()),
            ("title", step.title.as_str().into()),
            ("what", self.names.tasks(&suggested.tasks).into()),
        ];
        match suggested.turn {
            Turn::InOrder => self.say("rehearsal-guide", &values),
            Turn::OnceMore => self.say("rehearsal-guide-again", &values),
            Turn::PassedBy => self.say("rehearsal-guide-passed", &values),
        }
    }

    /// The one step that a guide would name now, with its limits and its protection. Its reasons are told once, and nothing of
    /// it twice in a row; `told` holds the steps that were named before, the latest last. Returns the step with the lines.
    #[must_use]
    pub fn guide(&self, told: &[usize]) -> (Option<usize>, Vec<String>) {
        let suggested = self.suggested();
        let (Some(suggested), Some(task)) = (&suggested, first(suggested.as_ref())) else {
            return (None, vec![self.say("rehearsal-nothing-left", &[])]);
        };
        let index = suggested.step;
        let step = &self.names.module.steps[index];
        let mut lines = vec![self.turn(suggested)];
        if told.last() == Some(&index) {
            lines.extend(self.protection(step, task, true));
        } else if told.contains(&index) {
            lines.extend(self.limits(task));
            lines.extend(self.guarded(step, task));
        } else {
            lines.extend(self.reasons(step, task));
        }
        lines.extend(self.not_yet(task).into_iter().map(|one| one.said));
        (Some(index), lines)
    }

    /// The same for a screen: what comes next, what is missing for it, and why and how it is done.
    #[must_use]
    pub fn guidance(&self) -> Guidance {
        let suggested = self.suggested();
        let (Some(one), Some(task)) = (&suggested, first(suggested.as_ref())) else {
            return Guidance {
                next: self.say("rehearsal-nothing-left", &[]),
                ..Guidance::default()
            };
        };
        let step = &self.names.module.steps[one.step];
        let mut missing = self.protection(step, task, true);
        let not_yet = self.not_yet(task);
        let all_come = not_yet.iter().all(|one| one.comes);
        let wait = not_yet.last().filter(|_| all_come);
        let wait = wait.map(|one| one.sign.clone());
        missing.extend(not_yet.into_iter().map(|one| one.said));
        Guidance {
            next: self.turn(one),
            missing,
            how: self.how(step, task),
            wait,
            suggested,
        }
    }

    /// What the bench decides, a task needs, and is not so yet.
    fn not_yet(&self, task: TaskIndex) -> Vec<NotYet> {
        let plan = self.names.plan;
        let needs = plan.tasks[task].needs.iter();
        let missing = needs.filter_map(|need| {
            plan.aspects[need.aspect].gauge.as_ref()?;
            let mut cells = need.cells.iter();
            if cells.all(|&cell| need.allows(self.rehearsal.value(need.aspect, cell))) {
                return None;
            }
            let aspect = &self.names.module.aspects[need.aspect];
            let allowed = (0..aspect.values.len()).filter(|&value| need.allows(value));
            let allowed: Vec<usize> = allowed.collect();
            let will_be = |value: &&usize| self.rehearsal.wait_time(need.aspect, **value).is_some();
            let coming = allowed.iter().find(will_be);
            let shown = *coming.or(allowed.first())?;
            let sign = format!("{}-{}", aspect.id.value, aspect.values[shown].id.value);
            let values = [
                ("sign", sign.as_str().into()),
                ("state", self.names.cells(need).into()),
            ];
            let said = if coming.is_some() {
                self.say("rehearsal-wait-for", &values)
            } else {
                self.say("rehearsal-not-so-yet", &values)
            };
            Some(NotYet {
                sign,
                comes: coming.is_some(),
                said,
            })
        });
        missing.collect()
    }

    /// The last of the places next to each other that a step can be done at together with this one, as many as a rule about how
    /// many there may be at a time lets be open.
    fn go_together(&self, task: TaskIndex, open: &[TaskIndex]) -> Option<TaskIndex> {
        let plan = self.names.plan;
        let most = plan.more_than.iter().filter(|rule| {
            let mut makes = plan.tasks[task].makes.iter();
            makes.any(|make| rule.of.aspect == make.aspect)
        });
        let most = most.map(|rule| rule.count).min()?;
        let one_place = |task: TaskIndex| match plan.tasks[task].place.0.as_slice() {
            [one] if one.low == one.high => Some(one.low),
            _ => None,
        };
        let mut last = task;
        for _ in 1..most {
            let next = one_place(last)? + 1;
            let mut alike = plan.tasks_of_step[plan.tasks[task].step].iter();
            let found = alike.find(|&&one| one_place(one) == Some(next) && open.contains(&one));
            let Some(&found) = found else { break };
            last = found;
        }
        (last != task).then_some(last)
    }

    /// Whether a step at several places can be done at all of them in one move, and no rule counts what it leaves open.
    fn goes_in_one(&self, step: usize, open: &[TaskIndex]) -> bool {
        let plan = self.names.plan;
        let tasks = &plan.tasks_of_step[step];
        let counted = |task: &TaskIndex| {
            plan.tasks[*task].makes.iter().any(|make| {
                let mut rules = plan.more_than.iter();
                rules.any(|rule| rule.of.aspect == make.aspect)
            })
        };
        tasks.len() > 1
            && tasks
                .iter()
                .all(|task| open.contains(task) && !counted(task))
    }
}

/// The first task of a move.
fn first(suggested: Option<&Suggested>) -> Option<TaskIndex> {
    suggested?.tasks.first().copied()
}
