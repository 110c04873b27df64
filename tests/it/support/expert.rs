//! An expert at the bench: knows the module by heart, and sees of the bench what anybody sees.
//!
//! It never looks at hidden state: it reads what can be seen, waits for signs as a script does, and answers disturbances as
//! the module teaches.

use std::sync::OnceLock;

use drybench::app::rehearse::{Disturbances, Request, Session, Unresolved};
use drybench::app::shelf::{Shelf, Taken};
use drybench::app::{Journal, NoJournal};
use drybench::rehearsal::action::{Action, Help};
use drybench::rehearsal::line::{self, Line, Move, Time};
use drybench::rehearsal::replay::Replayed;
use drybench::rng::{Seed, Stream};
use drybench::syllabus::module::{Module, ProtectionKind};
use drybench::syllabus::plan::{Plan, TaskIndex, TaskKeeping};
use drybench::units::Millis;

/// How an expert chooses among what may come next.
pub(crate) enum Choice {
    /// In the order written, place by place.
    Written,
    /// At random, in any order that is allowed.
    Any(Box<Stream>),
}

/// An expert with a run in hand.
pub(crate) struct Expert {
    pub(crate) session: Session,
    /// The response that is given to whatever comes up: by index, or none. Without it, the right one.
    answer: Option<Option<usize>>,
    choice: Choice,
    /// What was typed, line by line.
    lines: Vec<String>,
}

/// The groundwork module, read once.
pub(crate) fn wet_resin() -> &'static Taken {
    static TAKEN: OnceLock<Taken> = OnceLock::new();
    TAKEN.get_or_init(|| {
        let taken = Shelf::shipped().take("wet-resin-and-solvent", None);
        taken.unwrap_or_else(|problem| panic!("{problem:#?}"))
    })
}

/// The shipped construction, read once.
pub(crate) fn stock_teeth() -> &'static Taken {
    static TAKEN: OnceLock<Taken> = OnceLock::new();
    TAKEN.get_or_init(|| {
        let taken = Shelf::shipped().take("stock-teeth", None);
        taken.unwrap_or_else(|problem| panic!("{problem:#?}"))
    })
}

/// Starts a run of a module.
pub(crate) fn start(taken: &Taken, case: &str, seed: u32, disturbances: Disturbances) -> Session {
    let request = Request {
        module: "stock-teeth",
        profile: None,
        case,
        seed: Seed(seed),
        help: Help::Unaided,
        disturbances,
    };
    Session::on(taken.clone(), &request).unwrap_or_else(|problem| panic!("{problem:#?}"))
}

impl Expert {
    pub(crate) fn new(session: Session) -> Expert {
        Expert {
            session,
            answer: None,
            choice: Choice::Written,
            lines: Vec::new(),
        }
    }

    pub(crate) fn in_any_order(mut self, seed: u32) -> Expert {
        self.choice = Choice::Any(Box::new(Stream::new(Seed(seed), "order of an expert")));
        self
    }

    /// Answers whatever comes up with this response, or goes on as if nothing were.
    pub(crate) fn answering(mut self, response: Option<usize>) -> Expert {
        self.answer = Some(response);
        self
    }

    fn act(&mut self, action: Action) -> bool {
        if !matches!(action, Action::Do { .. }) {
            self.lines.push(line::written(&action));
        }
        let acted = self
            .session
            .act(action, &mut NoJournal)
            .unwrap_or_else(|problem| panic!("{:?}: {problem:?}", self.lines.last()));
        acted.held_back
    }

    /// Does everything, hands over, and tells what was typed.
    pub(crate) fn script(mut self) -> Vec<String> {
        self.work();
        self.lines
    }

    /// Does everything and hands over.
    pub(crate) fn run(mut self) -> Replayed {
        self.work();
        self.session
            .debrief()
            .unwrap_or_else(|problem| panic!("{problem:?}"))
    }

    fn work(&mut self) {
        let mut guard = 0;
        while let Some(task) = self.next() {
            self.make_ready(task);
            self.protect(task);
            self.do_task(task);
            self.answer();
            guard += 1;
            assert!(guard < 2_000, "the expert never gets done");
        }
        self.act(Action::Finish);
    }

    fn next(&mut self) -> Option<TaskIndex> {
        let on = self.session.prepared().clone();
        let rehearsal = self.session.rehearsal();
        let mut open: Vec<TaskIndex> = rehearsal
            .admissible()
            .into_iter()
            .filter(|&task| on.plan.tasks[task].required)
            .collect();
        open.retain(|&task| self.is_calm(task));
        match &mut self.choice {
            Choice::Written => {
                let phases = phases(&on.module);
                open.into_iter()
                    .min_by_key(|&task| key(&on.plan, &phases, task))
            }
            Choice::Any(stream) => {
                if open.is_empty() {
                    return None;
                }
                let at = stream.between(0, i64::try_from(open.len()).unwrap() - 1);
                Some(open[usize::try_from(at).unwrap()])
            }
        }
    }

    /// Whether a task may be taken up now without letting something that is under way spoil: a gap that runs, resin that gels.
    fn is_calm(&self, task: TaskIndex) -> bool {
        let on = self.session.prepared();
        let rehearsal = self.session.rehearsal();
        let plan = &on.plan;
        let runs = |gap: &drybench::syllabus::plan::Gap| {
            gap.most.is_some() && rehearsal.is_done(gap.from) && !rehearsal.is_done(gap.to)
        };
        let waits = plan
            .gaps
            .iter()
            .filter(|gap| runs(gap))
            .all(|gap| task == gap.to || plan.order.precedes(task, gap.to));
        // Nothing new is filled while two are open, and nothing else is begun while resin is wet.
        let wet: Vec<TaskIndex> = plan
            .more_than
            .iter()
            .flat_map(|rule| {
                (0..plan.aspects[rule.of.aspect].cells.len()).map(move |cell| (rule, cell))
            })
            .filter(|(rule, cell)| {
                let value = rehearsal.value(rule.of.aspect, *cell);
                rule.of.allowed & (1 << value) != 0
            })
            .flat_map(|(rule, cell)| {
                let cell = &plan.aspects[rule.of.aspect].cells[cell];
                let makers = (0..plan.tasks.len()).filter(move |&one| {
                    plan.tasks[one].place.overlaps(cell)
                        && !plan.tasks[one].place.0.is_empty()
                        && plan.tasks[one]
                            .makes
                            .iter()
                            .any(|make| make.aspect == rule.of.aspect)
                });
                makers.collect::<Vec<_>>()
            })
            .collect();
        let group = |task: TaskIndex| {
            plan.tasks[task]
                .place
                .0
                .first()
                .map(|one| (one.low - 1) / 2)
        };
        let bonding = wet.is_empty()
            || wet
                .iter()
                .any(|&one| group(one) == group(task) && !plan.tasks[task].place.0.is_empty());
        waits && bonding
    }

    /// Puts on and switches on what the module asks for at this station, and changes what is worn too long.
    fn protect(&mut self, task: TaskIndex) {
        let on = self.session.prepared().clone();
        let step = &on.module.steps[on.plan.tasks[task].step];
        let station = on
            .module
            .stations
            .iter()
            .position(|one| one.id.value == step.at.value);
        for guard in &on.plan.guards {
            let here =
                guard.during.is_empty() || station.is_some_and(|at| guard.during.contains(&at));
            if !here {
                continue;
            }
            let item = &on.module.protection_items[guard.item];
            let worn = self.session.rehearsal().worn();
            let since = worn
                .iter()
                .find(|(one, _)| *one == guard.item)
                .map(|(_, time)| *time);
            let soon = item.change_every.map(|every| every - Millis::minutes(13));
            let fresh = since.is_some_and(|since| soon.is_none_or(|soon| since < soon));
            if !fresh {
                let item = item.id.value.clone();
                self.act(match on.module.protection_items[guard.item].kind {
                    ProtectionKind::Worn => Action::Wear { item },
                    ProtectionKind::Running => Action::Start { item },
                });
            }
        }
    }

    /// Waits for what can be seen to become ready (a plate).
    fn make_ready(&mut self, task: TaskIndex) {
        let on = self.session.prepared().clone();
        for need in &on.plan.tasks[task].needs {
            if on.plan.aspects[need.aspect].gauge.is_none() {
                continue;
            }
            let mut waited = false;
            for _ in 0..60 {
                let rehearsal = self.session.rehearsal();
                let seen = rehearsal.readings();
                let met = seen
                    .iter()
                    .filter(|one| one.aspect == need.aspect)
                    .filter(|one| one.cells.iter().any(|cell| need.cells.contains(cell)))
                    .all(|one| need.allows(one.value));
                if met {
                    if waited {
                        // A little longer, so that the wait still does when something before it was quicker.
                        self.act(Action::Wait {
                            time: Millis::minutes(2),
                        });
                    }
                    break;
                }
                waited = true;
                self.act(Action::Wait {
                    time: Millis::seconds(30),
                });
            }
        }
    }

    fn do_task(&mut self, task: TaskIndex) {
        let on = self.session.prepared().clone();
        let planned = &on.plan.tasks[task];
        let step = &on.module.steps[planned.step];
        let time = match &planned.keeping {
            None => Time::Unsaid,
            Some(TaskKeeping::Timer(window) | TaskKeeping::Count(window)) => {
                Time::For(window.target)
            }
            Some(TaskKeeping::Watch { .. }) => Time::Until {
                sign: "sign".into(),
                plus: Millis::seconds(4),
            },
            Some(TaskKeeping::Judge { .. }) => Time::Until {
                sign: "sign".into(),
                plus: Millis::ZERO,
            },
        };
        let at = planned
            .label
            .split_once('@')
            .map_or("", |(_, place)| place)
            .to_owned();
        let mut typed = Move {
            what: step.id.value.clone(),
            at,
            ways: Vec::new(),
            time,
        };
        for _ in 0..3 {
            let action = self
                .session
                .resolve(&typed)
                .unwrap_or_else(|problem| panic!("{}: {problem:?}", planned.label));
            self.lines.push(written(&typed));
            if !self.act(action) {
                return;
            }
            self.answer();
        }
        typed.time = Time::Unsaid;
        panic!("{} was held back again and again", planned.label);
    }

    /// Answers what has come up as the module teaches.
    fn answer(&mut self) {
        let Some(disturbance) = self.session.rehearsal().open_disturbance() else {
            return;
        };
        let on = self.session.prepared().clone();
        let responses = &on.module.disturbances[disturbance].responses;
        let chosen = match self.answer {
            None => responses.iter().position(|one| one.wrong.is_none()),
            Some(chosen) => chosen,
        };
        if let Some(chosen) = chosen {
            self.act(Action::Respond {
                response: responses[chosen].id.value.clone(),
            });
        }
    }
}

/// Steps one after the other that are repeated over places belong together: they are done place by place.
fn phases(module: &Module) -> Vec<usize> {
    let mut phase = 0;
    let mut last_repeated = false;
    module
        .steps
        .iter()
        .map(|step| {
            let repeated = !step.each.is_empty();
            if !(repeated && last_repeated) {
                phase += 1;
            }
            last_repeated = repeated;
            phase
        })
        .collect()
}

fn key(plan: &Plan, phases: &[usize], task: TaskIndex) -> (usize, u16, usize, TaskIndex) {
    let planned = &plan.tasks[task];
    let low = planned.place.0.first().map_or(0, |one| one.low);
    (phases[planned.step], low, planned.step, task)
}

/// A move as it would be typed.
fn written(typed: &Move) -> String {
    let time = match &typed.time {
        Time::Unsaid => String::new(),
        Time::For(time) => format!(" for {time}"),
        Time::Until { sign, plus } => format!(" until {sign} + {plus}"),
    };
    format!("{} {}{time}", typed.what, typed.at)
        .replace("  ", " ")
        .trim()
        .to_owned()
}

/// Types lines into a run and hands over what came of it.
pub(crate) fn type_in(session: Session, lines: &[String]) -> Replayed {
    typed(session, lines)
        .debrief()
        .unwrap_or_else(|problem| panic!("{problem:?}"))
}

/// Types lines into a run.
pub(crate) fn typed(session: Session, lines: &[String]) -> Session {
    typed_and_kept(session, lines, &mut NoJournal)
}

/// Types lines into a run that is kept in a journal.
pub(crate) fn typed_and_kept<J>(mut session: Session, lines: &[String], journal: &mut J) -> Session
where
    J: Journal<Failure: std::fmt::Debug>,
{
    for text in lines {
        let action = match line::parse(text) {
            Ok(Line::Move(typed)) => {
                resolved(&session, typed).unwrap_or_else(|problem| panic!("{text}: {problem:?}"))
            }
            Ok(Line::Action(action)) => action,
            Ok(Line::WaitUntil { sign, plus }) => session
                .wait_until(&sign, plus)
                .unwrap_or_else(|problem| panic!("{text}: {problem:?}")),
            Ok(Line::Blank) => continue,
            other => panic!("{text}: {other:?}"),
        };
        session
            .act(action, journal)
            .unwrap_or_else(|problem| panic!("{text}: {problem:?}"));
    }
    session
}

/// A move with its time found out; where a sign never shows, as somebody who gives up waiting for it.
fn resolved(session: &Session, mut typed: Move) -> Result<Action, Unresolved> {
    match session.resolve(&typed) {
        Err(Unresolved::SignNeverShows) => {
            typed.time = Time::For(Millis::minutes(5));
            session.resolve(&typed)
        }
        other => other,
    }
}
