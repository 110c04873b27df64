//! The lines of a rehearsal: asked for, read, done, answered; from a person, a pipe or a script.

use super::Level;
use crate::app::System;
use crate::app::keep::Keeper;
use crate::app::rehearse::{ActProblem, Session, Unresolved};
use crate::cli::failure::Failure;
use crate::cli::out::Out;
use crate::rehearsal::action::Action;
use crate::rehearsal::drive::{Nonsense, Seen, options};
use crate::rehearsal::line::{self, Line, Move, Question, Time};
use crate::report::Running;
use crate::report::problems::{self, Told};
use crate::syllabus::plan::TaskKeeping;
use crate::text::Words;
use crate::text::wrap::wrap_behind;
use crate::units::Millis;

/// How wide lines are.
pub(super) const WIDTH: usize = 80;

/// How far a watched sign is followed at one look.
const LOOK: Millis = Millis::seconds(15);

/// What ends a dialog.
pub(super) enum Left {
    /// The run was handed over or given up.
    Over,
    /// The lines ended before.
    LinesEnded,
    /// A line of a script was not understood, or made no sense; it has been told.
    BadLine,
}

/// Where lines come from.
pub(super) enum Lines {
    /// From whoever types or pipes.
    Input,
    /// From a script: what is left of it, with the number of the next line.
    Script(std::vec::IntoIter<String>, usize),
}

/// One dialog.
pub(super) struct Dialog<'d, S: System> {
    pub(super) session: &'d mut Session,
    pub(super) keeper: Keeper<S>,
    pub(super) level: Level,
    pub(super) lines: Lines,
    pub(super) system: &'d S,
    pub(super) words: &'d Words,
    pub(super) out: &'d mut Out,
    /// Whether nothing but the debrief is printed.
    pub(super) quiet: bool,
    /// The steps that a guide has named, the latest last.
    pub(super) guided: Vec<usize>,
}

impl<S: System> Dialog<'_, S> {
    /// Runs until the run is over or the lines end.
    pub(super) fn run(&mut self) -> Result<Left, Failure> {
        let mut held: Option<Move> = None;
        let mut changed = true;
        while !self.session.rehearsal().is_over() {
            if std::mem::replace(&mut changed, true) {
                self.guide()?;
            }
            let Some(text) = self.next_line(None)? else {
                return Ok(Left::LinesEnded);
            };
            let read = match line::parse(&text) {
                Ok(read) => read,
                Err(problem) => {
                    let told = problems::line_problem(&problem, self.words);
                    if self.refuse(&text, &told)? {
                        return Ok(Left::BadLine);
                    }
                    continue;
                }
            };
            // A script cannot know that a move was held back: it is made before the next line, unless that line answers.
            let answers = match &read {
                Line::Action(action) => !matches!(action, Action::Finish | Action::Abandon),
                Line::Move(typed) => held.as_ref() == Some(typed),
                Line::Blank | Line::Ask(_) | Line::WaitUntil { .. } => true,
            };
            let answered = matches!(read, Line::Action(Action::Respond { .. }));
            if let Some(typed) = held.take_if(|_| !answers) {
                self.make(&text, &typed)?;
            } else if matches!(read, Line::Move(_)) {
                held = None;
            }
            let held_back = match read {
                Line::Blank => {
                    changed = false;
                    None
                }
                Line::Ask(question) => {
                    self.answer(&question)?;
                    None
                }
                Line::WaitUntil { sign, plus } => {
                    let made = match self.session.wait_until(&sign, plus) {
                        Ok(action) => self.act(&text, action)?,
                        Err(problem) => self.unmade(&text, &problem)?,
                    };
                    match made {
                        Made::Done | Made::HeldBack => None,
                        Made::Refused => return Ok(Left::BadLine),
                    }
                }
                Line::Action(action) => match self.act(&text, action)? {
                    Made::Done | Made::HeldBack => None,
                    Made::Refused => return Ok(Left::BadLine),
                },
                Line::Move(typed) => match self.make(&text, &typed)? {
                    Made::Done => None,
                    Made::HeldBack => Some(typed),
                    Made::Refused => return Ok(Left::BadLine),
                },
            };
            if let Some(typed) = held_back {
                held = self.is_script().then_some(typed);
            } else if answered && let Some(typed) = held.take() {
                self.make(&text, &typed)?;
            }
        }
        Ok(Left::Over)
    }

    fn is_script(&self) -> bool {
        matches!(self.lines, Lines::Script(..))
    }

    /// The next line; `question` is asked in the place of the clock.
    fn next_line(&mut self, question: Option<&str>) -> Result<Option<String>, Failure> {
        let prompt = match question {
            Some(question) => question.to_owned(),
            None => Running::new(self.session.rehearsal(), self.words).prompt(),
        };
        match &mut self.lines {
            Lines::Script(lines, number) => {
                let Some(line) = lines.next() else {
                    return Ok(None);
                };
                *number += 1;
                let echoed = line.split('#').next().unwrap_or_default().trim().to_owned();
                if !echoed.is_empty() {
                    self.print(&format!("{prompt} {echoed}"))?;
                }
                Ok(Some(line))
            }
            Lines::Input => {
                if !self.quiet {
                    self.out.ask(&format!("{prompt} "))?;
                }
                let line = self.system.read_line()?;
                if !self.system.person_types() && !self.quiet {
                    // What is piped in does not show by itself.
                    self.out.line(line.as_deref().unwrap_or_default())?;
                }
                Ok(line)
            }
        }
    }

    /// Prints a line of the run, wrapped.
    pub(super) fn print(&mut self, text: &str) -> Result<(), Failure> {
        if self.quiet {
            return Ok(());
        }
        for line in wrap_behind("", text, WIDTH) {
            self.out.line(&line)?;
        }
        Ok(())
    }

    fn print_all(&mut self, lines: &[String], indent: &str) -> Result<(), Failure> {
        if self.quiet {
            return Ok(());
        }
        for text in lines {
            for line in wrap_behind(indent, text, WIDTH) {
                self.out.line(&line)?;
            }
        }
        Ok(())
    }

    /// Tells a problem. Returns whether the dialog has to end, because nobody is there to type it again.
    fn refuse(&mut self, text: &str, told: &Told) -> Result<bool, Failure> {
        if let Lines::Script(_, number) = &self.lines {
            let at = self.words.say(
                "rehearsal-line",
                &[("number", (*number).into()), ("text", text.into())],
            );
            self.out.message(&at)?;
        }
        self.out.message(&told.what)?;
        if let Some(fix) = &told.fix {
            self.out.message(fix)?;
        }
        Ok(self.is_script())
    }

    fn guide(&mut self) -> Result<(), Failure> {
        if self.level != Level::Guided || self.is_script() {
            return Ok(());
        }
        let running = Running::new(self.session.rehearsal(), self.words);
        let (step, lines) = running.guide(&self.guided);
        if let Some(step) = step.filter(|step| self.guided.last() != Some(step)) {
            self.guided.push(step);
        }
        self.print_all(&lines, "  ")
    }

    fn answer(&mut self, question: &Question) -> Result<(), Failure> {
        let running = Running::new(self.session.rehearsal(), self.words);
        let lines = match question {
            Question::Help => running.help(),
            Question::Moves => running.moves(),
            // Without help, what comes next is for the learner to know.
            Question::Next | Question::Why(_) if self.level == Level::Unaided => {
                vec![self.words.say("rehearsal-no-help", &[])]
            }
            Question::Next => running.next(),
            Question::Why(step) => running.why(step).unwrap_or_else(|| self.no_such(step)),
            Question::Ways(step) => running.ways(step).unwrap_or_else(|| self.no_such(step)),
        };
        self.print_all(&lines, "  ")
    }

    /// That there is no such step.
    fn no_such(&self, step: &str) -> Vec<String> {
        let told = problems::nonsense(&Nonsense::NoSuchMove(step.to_owned()), self.words);
        std::iter::once(told.what).chain(told.fix).collect()
    }

    /// Makes a move, asking for its time where none was typed.
    fn make(&mut self, text: &str, typed: &Move) -> Result<Made, Failure> {
        let typed = match self.ask_time(typed)? {
            Some(typed) => typed,
            None => typed.clone(),
        };
        match self.session.resolve(&typed) {
            Ok(action) => self.act(text, action),
            Err(problem) => self.unmade(text, &problem),
        }
    }

    /// Tells why a move or a wait was not made.
    fn unmade(&mut self, text: &str, problem: &Unresolved) -> Result<Made, Failure> {
        let told = match problem {
            Unresolved::Nonsense(nonsense) => problems::nonsense(nonsense, self.words),
            other => self.unresolved(other),
        };
        Ok(if self.refuse(text, &told)? {
            Made::Refused
        } else {
            Made::Done
        })
    }

    fn unresolved(&self, problem: &Unresolved) -> Told {
        let (what, fix) = match problem {
            Unresolved::NoSuchSign { found, known } => {
                let known = ("known", known.clone().into());
                (
                    self.words.say(
                        "rehearsal-no-such-sign",
                        &[("found", found.as_str().into())],
                    ),
                    Some(self.words.say("rehearsal-no-such-sign-fix", &[known])),
                )
            }
            Unresolved::SignNeverShows => (
                self.words.say("rehearsal-sign-never", &[]),
                Some(self.words.say("rehearsal-sign-never-fix", &[])),
            ),
            Unresolved::BeforeItBegins | Unresolved::Nonsense(_) => {
                (self.words.say("rehearsal-before-it-begins", &[]), None)
            }
        };
        Told { what, fix }
    }

    /// A timed step without a time is timed here: typed, counted, watched or judged. `None` when there is nothing to ask.
    fn ask_time(&mut self, typed: &Move) -> Result<Option<Move>, Failure> {
        if typed.time != Time::Unsaid || self.is_script() {
            return Ok(None);
        }
        let on = self.session.prepared().clone();
        let step = on
            .module
            .steps
            .iter()
            .position(|step| step.id.value == typed.what);
        let Some(step) = step.filter(|&step| on.module.steps[step].keeping.is_some()) else {
            return Ok(None);
        };
        let Ok(tasks) = self.session.rehearsal().select(step, &typed.at) else {
            return Ok(None);
        };
        let (Some(&task), Ok(chosen)) =
            (tasks.first(), options(&on.module.steps[step], &typed.ways))
        else {
            return Ok(None);
        };
        let time = match &on.plan.tasks[task].keeping {
            None => return Ok(None),
            Some(TaskKeeping::Timer(_)) => self.type_time()?,
            Some(TaskKeeping::Count(_)) => self.count()?,
            Some(TaskKeeping::Watch { .. }) => {
                self.look_until(task, &chosen, LOOK, "rehearsal-watch-how")?
            }
            Some(TaskKeeping::Judge { portion, .. }) => {
                self.look_until(task, &chosen, *portion, "rehearsal-judge-how")?
            }
        };
        Ok(time.map(|time| Move {
            time: Time::For(time),
            ..typed.clone()
        }))
    }

    fn type_time(&mut self) -> Result<Option<Millis>, Failure> {
        let question = self.words.say("rehearsal-ask-how-long", &[]);
        for _ in 0..3 {
            let Some(text) = self.next_line(Some(&question))? else {
                return Ok(None);
            };
            match text.parse::<Millis>() {
                Ok(time) => return Ok(Some(time)),
                Err(why) => {
                    let what = problems::unit_problem(&why, self.words);
                    self.out.message(&what)?;
                }
            }
        }
        Ok(None)
    }

    /// Real seconds between two lines, by the clock that never goes back.
    fn count(&mut self) -> Result<Option<Millis>, Failure> {
        let question = self.words.say("rehearsal-count-start", &[]);
        if self.next_line(Some(&question))?.is_none() {
            return Ok(None);
        }
        let start = self.system.elapsed();
        let question = self.words.say("rehearsal-counting", &[]);
        if self.next_line(Some(&question))?.is_none() {
            return Ok(None);
        }
        let counted = self.system.elapsed() - start;
        if self.level != Level::Unaided {
            let told = self
                .words
                .say("rehearsal-counted", &[("time", counted.into())]);
            self.print(&told)?;
        }
        Ok(Some(counted))
    }

    /// Goes on by portions until the learner says stop, showing what can be seen after each.
    fn look_until(
        &mut self,
        task: usize,
        chosen: &[usize],
        portion: Millis,
        how: &str,
    ) -> Result<Option<Millis>, Failure> {
        let how = self.words.say(how, &[("portion", portion.into())]);
        self.print(&how)?;
        let mut time = Millis::ZERO;
        let mut before: Vec<Seen> = self.session.rehearsal().readings();
        loop {
            let question = self.words.say("rehearsal-so-far", &[("time", time.into())]);
            let Some(text) = self.next_line(Some(&question))? else {
                return Ok(None);
            };
            if text.trim() == "stop" {
                return Ok(Some(time));
            }
            time += portion;
            let after = self.session.rehearsal().after(task, chosen, time);
            let seen = Running::new(&after, self.words).seen(Some(&before));
            before = after.readings();
            self.print_all(&seen, "  ")?;
        }
    }

    /// Does an action, keeps it, and tells what came of it.
    fn act(&mut self, text: &str, action: Action) -> Result<Made, Failure> {
        let look = action == Action::Look;
        let before = self.session.rehearsal().readings();
        let acted = match self.session.act(action, &mut self.keeper) {
            Ok(acted) => acted,
            Err(ActProblem::Nonsense(nonsense)) => {
                let told = problems::nonsense(&nonsense, self.words);
                return Ok(if self.refuse(text, &told)? {
                    Made::Refused
                } else {
                    Made::Done
                });
            }
            Err(ActProblem::Journal(fault)) => return Err(fault.into()),
            Err(ActProblem::Unwritable(why)) => {
                return Err(Failure::NotWritten(std::io::Error::other(why)));
            }
        };
        let running = Running::new(self.session.rehearsal(), self.words);
        let mut lines = running.events(acted.events.clone(), self.level != Level::Unaided);
        if look {
            lines.extend(running.look());
        } else {
            lines.extend(running.seen(Some(&before)));
        }
        if acted.held_back {
            lines.push(self.words.say("rehearsal-held-back", &[]));
        }
        self.print_all(&lines, "  ")?;
        Ok(if acted.held_back {
            Made::HeldBack
        } else {
            Made::Done
        })
    }
}

/// What became of a line.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Made {
    /// It was done, or told to somebody who can type again.
    Done,
    /// A disturbance held it back.
    HeldBack,
    /// It made no sense and nobody can type again.
    Refused,
}
