//! The lines of a bench run: asked for, read, kept, acknowledged.

use super::reading;
use crate::app::System;
use crate::app::watching::line::{self, Line};
use crate::app::watching::problems::{line_problem, tap_failure};
use crate::app::watching::telling::{self, Telling};
use crate::app::watching::{Mark, Row, TapFailure, Watch};
use crate::cli::failure::Failure;
use crate::cli::files;
use crate::cli::office::Office;
use crate::cli::out::Out;
use crate::report::clock;
use crate::report::record::{judgement, method};
use crate::text::wrap::wrap_behind;
use crate::text::{Caution, Value};

/// How wide lines are.
const WIDTH: usize = 80;

/// What ended a dialog.
pub(super) enum Left<S: System> {
    /// The run is over and waits for its signature.
    Over(Box<Watch<S>>),
    /// Somebody left.
    Quit,
    /// No more lines come.
    LinesEnded,
}

/// One dialog.
pub(super) struct Dialog<'d, 'o, S: System> {
    watch: Watch<S>,
    office: &'d mut Office<'o, S>,
    out: &'d mut Out,
    /// Whether nothing but the answer is printed.
    quiet: bool,
}

impl<'d, 'o, S: System> Dialog<'d, 'o, S> {
    pub(super) fn new(
        watch: Watch<S>,
        office: &'d mut Office<'o, S>,
        out: &'d mut Out,
    ) -> Dialog<'d, 'o, S> {
        Dialog {
            quiet: office.matches.get_flag("json"),
            watch,
            office,
            out,
        }
    }

    /// Reads lines until the run is over or somebody leaves.
    pub(super) fn run(mut self) -> Result<Left<S>, Failure> {
        self.open()?;
        loop {
            let Some(text) = self.next_line()? else {
                return Ok(Left::LinesEnded);
            };
            match line::parse(&text) {
                Err(problem) => {
                    let told = line_problem(&problem, self.office.words);
                    self.out.message(&told)?;
                }
                Ok(Line::Blank) => {}
                Ok(Line::Tap(mark)) => {
                    let ends = mark.ends();
                    if self.tap(mark)? && ends {
                        self.before_signing()?;
                        return Ok(Left::Over(Box::new(self.watch)));
                    }
                    if self.watch.run().is_dropped() {
                        return Ok(Left::Quit);
                    }
                }
                Ok(Line::Sign) if self.watch.run().ended().is_some() => {
                    self.before_signing()?;
                    return Ok(Left::Over(Box::new(self.watch)));
                }
                Ok(Line::Sign) => {
                    let problem = TapFailure::Tap(crate::app::watching::TapProblem::NotOver);
                    self.messages(&tap_failure(&problem, self.office.words))?;
                }
                Ok(Line::Look) => self.look()?,
                Ok(Line::About(id)) => self.about(&id)?,
                Ok(Line::Clock) => {
                    let lines = self.told(|telling| telling.said_by_clock());
                    self.print("watching-clock-heading", &lines)?;
                    if let Some(told) = self.told(|telling| telling.never_timed()) {
                        self.with_rows(&told)?;
                    }
                }
                Ok(Line::Help) => {
                    let help = self.say("watching-help", &[]);
                    for line in help.lines().filter(|_| !self.quiet) {
                        self.out.line(&format!("  {line}"))?;
                    }
                }
                Ok(Line::Quit) => {
                    let path = files::shown(self.watch.path());
                    let kept = self.say("watching-quit", &[("path", path.into())]);
                    self.paragraph(&kept)?;
                    return Ok(Left::Quit);
                }
            }
        }
    }

    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.office.words.say(id, values)
    }

    fn told<T>(&self, say: impl FnOnce(&Telling<'_>) -> T) -> T {
        let run = self.watch.run();
        say(&Telling {
            run,
            card: self.watch.card(),
            words: self.office.words,
            now: run.now(reading(self.office)),
        })
    }

    fn paragraph(&mut self, text: &str) -> Result<(), Failure> {
        self.wrapped("", text)
    }

    fn print(&mut self, heading: &str, lines: &[String]) -> Result<(), Failure> {
        if lines.is_empty() {
            return Ok(());
        }
        let heading = self.say(heading, &[]);
        self.paragraph(&heading)?;
        self.indented(lines)
    }

    fn indented(&mut self, lines: &[String]) -> Result<(), Failure> {
        for text in lines {
            self.wrapped("  ", text)?;
        }
        Ok(())
    }

    fn wrapped(&mut self, lead: &str, text: &str) -> Result<(), Failure> {
        if self.quiet {
            return Ok(());
        }
        for line in wrap_behind(lead, text, WIDTH) {
            self.out.line(&line)?;
        }
        Ok(())
    }

    fn messages(&mut self, lines: &[String]) -> Result<(), Failure> {
        for line in lines {
            self.out.message(line)?;
        }
        Ok(())
    }

    fn open(&mut self) -> Result<(), Failure> {
        let head = self.watch.run().head().clone();
        let title = self.watch.card().module().identity.title.clone();
        let values = [
            ("workflow", title.into()),
            ("revision", head.edition.revision.to_string().into()),
            (
                "person",
                self.office
                    .told(|telling| telling.person(head.person))
                    .into(),
            ),
            ("method", method(head.method, self.office.words).into()),
        ];
        let opening = self.say("watching-opening", &values);
        self.paragraph(&opening)?;
        let case = self.told(|telling| telling.case());
        self.paragraph(&case)?;
        let taps = self.watch.run().marks().len();
        if taps > 0 {
            let resumed = self.say("watching-resumed", &[("count", taps.into())]);
            self.paragraph(&resumed)?;
        }
        if self.watch.torn() {
            let torn = self.say("watching-torn", &[]);
            self.paragraph(&torn)?;
        }
        let caution = Caution::OthersComeFirst.say(self.office.words);
        self.paragraph(&caution)?;
        let stop = self.say("watching-stop-danger", &[]);
        self.paragraph(&stop)?;
        let path = files::shown(self.watch.path());
        let kept = self.say("watching-kept", &[("path", path.into())]);
        self.paragraph(&kept)?;
        if let Err(problem) = self
            .office
            .laboratory
            .may_watch(self.watch.run(), self.watch.card())
        {
            let told = self.office.failed(&problem);
            let _the_run_goes_on = told.tell(self.office.words, self.out);
            let note = self.say("watching-could-not-sign", &[]);
            self.out.message(&note)?;
        }
        if let Some(ended) = self.told(|telling| telling.how_it_ended()) {
            self.paragraph(&ended)?;
            let over = self.say("watching-is-over", &[]);
            self.paragraph(&over)?;
        }
        Ok(())
    }

    fn next_line(&mut self) -> Result<Option<String>, Failure> {
        let now = self.watch.run().now(reading(self.office));
        let prompt = self.say("rehearsal-prompt", &[("clock", clock(now).into())]);
        if !self.quiet {
            self.out.ask(&format!("{prompt} "))?;
        }
        let line = self.office.system.read_line()?;
        if !self.office.system.person_types() && !self.quiet {
            // What is piped in does not show by itself.
            self.out.line(line.as_deref().unwrap_or_default())?;
        }
        Ok(line)
    }

    /// Keeps a tap and acknowledges it. Returns whether it was kept.
    fn tap(&mut self, mark: Mark) -> Result<bool, Failure> {
        // Of what is taken back it is told how the row stands then.
        let about = match &mark {
            Mark::Undo => self.watch.run().undoable().map(|back| &back.mark),
            mark => Some(mark),
        };
        let row = about.and_then(Mark::row).map(str::to_owned);
        let (run, card) = (self.watch.run(), self.watch.card());
        let first = run.tapped_first(card, &mark);
        let starts = matches!(mark, Mark::Start { .. });
        let now = reading(self.office);
        let first = first.map_or(Ok(()), |first| self.watch.tap(first, now));
        match first.and_then(|()| self.watch.tap(mark, now)) {
            Ok(()) => {}
            Err(TapFailure::Journal(fault)) => {
                let lost = self.say("watching-tap-lost", &[]);
                self.out.message(&lost)?;
                return Err(fault.into());
            }
            Err(failure) => {
                self.messages(&tap_failure(&failure, self.office.words))?;
                return Ok(false);
            }
        }
        let said = self.told(|telling| {
            let mut said = vec![telling.acknowledged()];
            if let Some(row) = row.as_deref().and_then(|id| telling.card.row(id)) {
                said.push(telling.stands(row));
                if starts {
                    said.extend(telling.limits(row));
                    said.extend(telling.cautions(row));
                }
            }
            said
        });
        self.indented(&said)?;
        Ok(true)
    }

    fn look(&mut self) -> Result<(), Failure> {
        let lines = self.told(|telling| {
            let rows = telling.card.rows.iter();
            let mut lines: Vec<String> = rows.map(|row| line_of(telling, row)).collect();
            lines.extend(telling.noted_of_all());
            lines.push(Caution::OthersComeFirst.say(telling.words));
            lines
        });
        self.indented(&lines)
    }

    fn about(&mut self, id: &str) -> Result<(), Failure> {
        let lines = self.told(|telling| {
            let row = telling.card.row(id)?;
            let mut lines = vec![line_of(telling, row)];
            lines.extend(telling.limits(row));
            lines.extend(telling.times(row));
            lines.extend(telling.noted(row));
            lines.extend(telling.cautions(row));
            let hazards = telling.hazards(row).into_iter();
            lines.extend(hazards.flat_map(|one| one.precautions));
            lines.extend(telling.reasons(row));
            Some(lines)
        });
        match lines {
            Some(lines) => self.indented(&lines),
            None => {
                let problem = crate::app::watching::TapProblem::NoSuchRow(id.to_owned());
                let lines = tap_failure(&TapFailure::Tap(problem), self.office.words);
                self.messages(&lines)
            }
        }
    }

    /// A sentence with the rows that it is about.
    fn with_rows(&mut self, (text, rows): &(String, Vec<String>)) -> Result<(), Failure> {
        self.paragraph(text)?;
        for row in rows {
            self.wrapped("  - ", row)?;
        }
        Ok(())
    }

    /// Everything that has to be known before the signature.
    fn before_signing(&mut self) -> Result<(), Failure> {
        self.wrapped("", "")?;
        let ended = self.told(|telling| telling.how_it_ended());
        if let Some(ended) = ended {
            self.paragraph(&ended)?;
        }
        if let Some(contradiction) = self.told(|telling| telling.contradiction()) {
            self.paragraph(&contradiction)?;
        }
        let asked = self.office.laboratory.row_asked(self.watch.run().head());
        let before = self.told(|telling| telling.before_the_end(asked));
        for told in &before {
            self.with_rows(told)?;
        }
        let clock = self.told(|telling| telling.said_by_clock());
        self.print("watching-clock-heading", &clock)?;
        if let Some(ended) = self.watch.run().ended() {
            let said = judgement(ended.judgement, self.office.words);
            let said = self.say("watching-to-be-signed", &[("judgement", said.into())]);
            self.paragraph(&said)?;
        }
        Ok(())
    }
}

/// A row as a line: its id, whether it is critical, its title and how it stands.
fn line_of(telling: &telling::Telling<'_>, row: &Row) -> String {
    let values = [
        ("id", row.id.as_str().into()),
        ("title", telling.title(row).into()),
        ("stands", telling.stands(row).into()),
        (
            "critical",
            if row.critical { "critical" } else { "other" }.into(),
        ),
    ];
    telling.words.say("watching-row", &values)
}
