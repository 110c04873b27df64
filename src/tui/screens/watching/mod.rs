//! A real case that is watched: the rows of the workflow with their clocks, what is known of the row that is chosen, and the end.
//!
//! Several runs can be open; one is shown. Every tap is kept before the screen shows it. Left out: what the clock and the order mean, which `app` says;
//! and who may sign, which is asked when it is signed.

pub mod begin;
mod draw;
mod ended;
mod handing_on;
mod keys;
mod typing;

use crate::app::System;
use crate::app::watching::problems::{tap_failure, watch_problem};
use crate::app::watching::telling::Telling;
use crate::app::watching::{Mark, OpenRun, Reading, Row, RowAsked, Watch, open_runs};
use crate::record::entry::{Judgement, Seen};
use crate::record::scope::Text;
use crate::standing::Reading as Counting;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame};
use crate::tui::list::{Choice, Scroll};
use crate::tui::screen::{Desk, Hint, Leaving, Notice, Screen, Turn};
use crate::units::PersonCode;
use typing::Asked;

/// The list of rows, for clicks.
const ROWS: u8 = 1;
/// The two judgements, for clicks.
const JUDGEMENTS: u8 = 2;

/// The judgements in the order in which they are offered.
const OFFERED: [Judgement; 2] = [Judgement::Acceptable, Judgement::NotAcceptable];

/// One of the runs that are open.
struct Opened<S: System> {
    watch: Watch<S>,
    /// Who is watched, with the code.
    person: String,
    /// The row that is chosen.
    choice: Choice,
}

/// A real case that is watched.
pub struct Watching<S: System> {
    open: Vec<Opened<S>>,
    /// Which of them is shown.
    at: usize,
    /// What the clocks said when something last happened.
    now: Reading,
    /// What was acknowledged last.
    just: String,
    /// Why what is seen in the run shown could not be signed as things stand, or would not count.
    doubt: Option<String>,
    /// What a sign-off asks of the runs of whoever is watched in the run shown.
    asked: Option<RowAsked>,
    /// How far what is known of the row has been scrolled.
    scroll: Scroll,
    over: Over,
    /// Whether the run shown is over and could only be signed with a reason by now.
    is_late: bool,
    /// Why it is signed late, if somebody said so.
    reason: Option<Text>,
    /// Whether it has been handed on to be signed.
    signing: bool,
}

/// What lies over the rows.
enum Over {
    Nothing,
    /// Something is typed; the second says why it was not taken.
    Typing(Asked, Field, Vec<String>),
    /// The judgement of the whole is asked for.
    Judging(Choice, Scroll),
    /// What the clock and the order say.
    Clock(Scroll),
}

/// What the two clocks say: that of the laboratory, which the demonstration has its own of, and the machine's count.
pub(super) fn reading<S: System>(desk: &mut Desk<S>) -> Reading {
    let at = match desk.office() {
        Some((house, _)) => house.laboratory.now(),
        None => desk.system.now(),
    };
    Reading {
        at,
        elapsed: desk.system.elapsed(),
    }
}

impl<S: System> Watching<S> {
    /// Shows a run, with others that are open to go to and fro between.
    #[must_use]
    pub fn new(watch: Watch<S>, others: Vec<Watch<S>>, desk: &mut Desk<S>) -> Watching<S> {
        let now = reading(desk);
        let mut open = Vec::new();
        for watch in std::iter::once(watch).chain(others) {
            let code = watch.run().head().person;
            let person = match desk.office() {
                Some((house, words)) => house.told(words, |telling| telling.person(code)),
                None => code.to_string(),
            };
            let choice = Choice {
                at: last_tapped(&watch),
            };
            open.push(Opened {
                watch,
                person,
                choice,
            });
        }
        let mut watching = Watching {
            open,
            at: 0,
            now,
            just: String::new(),
            doubt: None,
            asked: None,
            scroll: Scroll::default(),
            over: Over::Nothing,
            is_late: false,
            reason: None,
            signing: false,
        };
        watching.greet(desk);
        watching
    }

    /// Takes a kept run up, with every other run that can be taken up; says why not where it cannot.
    pub fn take_up(path: &std::path::Path, desk: &mut Desk<S>) -> Turn<S> {
        let now = reading(desk);
        let watch = match Watch::take_up(&desk.system, &desk.shelf, path, now) {
            Ok(watch) => watch,
            Err(problem) => {
                return Turn::Tell(Notice::new(watch_problem(&problem, &desk.words)));
            }
        };
        let others = other_runs(watch.run().head().observer, Some(path), desk);
        Turn::Open(Box::new(Watching::new(watch, others, desk)))
    }

    /// What is said before the first tap: what was lost by a power cut, and whether this could be signed at all.
    fn greet(&mut self, desk: &mut Desk<S>) {
        let Some(opened) = self.open.get(self.at) else {
            return;
        };
        let (watch, words) = (&opened.watch, &desk.words);
        let taps = watch.run().marks().len();
        let mut said = if taps > 0 {
            vec![words.say("watching-resumed", &[("count", taps.into())])]
        } else {
            vec![words.say("watching-nothing-yet", &[])]
        };
        if watch.torn() {
            said.push(words.say("watching-torn", &[]));
        }
        self.just = said.join(" ");
        let other = other_edition(opened, desk);
        let (run, card) = (watch.run(), watch.card());
        let refused = desk.office().and_then(|(house, words)| {
            let problem = house.laboratory.may_watch(run, card).err()?;
            Some(house.problem(&problem, words).texts.join(" "))
        });
        let refused = refused.map(|why| {
            let note = desk.say("watching-could-not-sign", &[]);
            format!("{why} {note}")
        });
        let doubts: Vec<String> = refused.into_iter().chain(other).collect();
        self.doubt = (!doubts.is_empty()).then(|| doubts.join(" "));
        let asked = desk.office();
        self.asked = asked.and_then(|(house, _)| house.laboratory.row_asked(run.head()));
        self.look_whether_late(desk);
    }

    fn look_whether_late(&mut self, desk: &mut Desk<S>) {
        let Some(opened) = self.open.get(self.at) else {
            return;
        };
        let (run, card) = (opened.watch.run(), opened.watch.card());
        self.is_late = desk
            .office()
            .is_some_and(|(house, _)| house.laboratory.is_late(run, card));
    }

    /// Whether it has to be said why the run is signed so late, or was said.
    fn asks_for_reason(&self) -> bool {
        self.is_late || self.reason.is_some()
    }

    fn opened(&self) -> Option<&Opened<S>> {
        self.open.get(self.at)
    }

    /// Says something about the run that is shown.
    fn told<T>(
        &self,
        desk: &Desk<S>,
        say: impl FnOnce(&Telling<'_>, &Opened<S>) -> T,
    ) -> Option<T> {
        let opened = self.opened()?;
        let run = opened.watch.run();
        let telling = Telling {
            run,
            card: opened.watch.card(),
            words: &desk.words,
            now: run.now(self.now),
        };
        Some(say(&telling, opened))
    }

    fn row(&self) -> Option<&Row> {
        let opened = self.opened()?;
        opened.watch.card().rows.get(opened.choice.at)
    }

    fn is_over(&self) -> bool {
        self.opened()
            .is_some_and(|opened| opened.watch.run().ended().is_some())
    }

    /// Keeps a tap and acknowledges it; tells why not where it is not kept. Returns whether it was.
    fn tap(&mut self, mark: Mark, desk: &mut Desk<S>) -> Result<(), Notice> {
        self.now = reading(desk);
        self.keep(mark, desk)
    }

    /// The same, with what the clocks said last.
    fn keep(&mut self, mark: Mark, desk: &mut Desk<S>) -> Result<(), Notice> {
        let Some(opened) = self.open.get_mut(self.at) else {
            return Ok(());
        };
        match opened.watch.tap(mark, self.now) {
            Ok(()) => {
                let said = self.told(desk, |telling, _| telling.acknowledged());
                self.just = said.unwrap_or_default();
                Ok(())
            }
            Err(failure) => Err(Notice::new(tap_failure(&failure, &desk.words))),
        }
    }

    fn tapped(&mut self, mark: Mark, desk: &mut Desk<S>) -> Turn<S> {
        match self.tap(mark, desk) {
            Ok(()) => Turn::Stay,
            Err(notice) => Turn::Tell(notice),
        }
    }

    /// Starts the row that is chosen, or stops it where it runs.
    fn start_or_stop(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let Some(row) = self.row().cloned() else {
            return Turn::Stay;
        };
        let runs = self.told(desk, |telling, _| telling.is_running(&row));
        let row = row.id;
        self.tapped(
            if runs == Some(true) {
                Mark::Stop { row }
            } else {
                Mark::Start { row }
            },
            desk,
        )
    }

    /// Says how the chosen row went, and stops its clock with that.
    fn see(&mut self, seen: Seen, desk: &mut Desk<S>) -> Turn<S> {
        let Some(opened) = self.opened() else {
            return Turn::Stay;
        };
        let Some(row) = self.row().map(|row| row.id.clone()) else {
            return Turn::Stay;
        };
        let mark = Mark::Seen { row, seen };
        let (run, card) = (opened.watch.run(), opened.watch.card());
        let first = run.tapped_first(card, &mark);
        // Both taps are of one moment.
        self.now = reading(desk);
        let kept = first.map_or(Ok(()), |first| self.keep(first, desk));
        match kept.and_then(|()| self.keep(mark, desk)) {
            Ok(()) => Turn::Stay,
            Err(notice) => Turn::Tell(notice),
        }
    }

    /// Begins to type something.
    fn ask(&mut self, asked: Asked) -> Turn<S> {
        self.over = Over::Typing(asked, Field::default(), Vec::new());
        Turn::Stay
    }

    fn next_run(&mut self, desk: &mut Desk<S>) {
        if self.open.len() > 1 {
            self.at = (self.at + 1) % self.open.len();
            self.scroll = Scroll::default();
            self.reason = None;
            self.greet(desk);
        }
    }

    /// Goes to the first row of the stage before or after.
    fn next_stage(&mut self, forward: bool) {
        let Some(opened) = self.open.get_mut(self.at) else {
            return;
        };
        let card = opened.watch.card();
        let stage = |row: usize| card.module().steps.get(row).map(|step| &step.stage);
        let starts: Vec<usize> = (0..card.rows.len())
            .filter(|&row| row == 0 || stage(row) != stage(row - 1))
            .collect();
        let at = opened.choice.at;
        let found = if forward {
            starts.into_iter().find(|&row| row > at)
        } else {
            starts.into_iter().rev().find(|&row| row < at)
        };
        if let Some(row) = found {
            opened.choice.at = row;
            self.scroll = Scroll::default();
        }
    }

    fn on_rows(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let seen = |letter| match letter {
            'd' => Some(Seen::Done),
            'p' => Some(Seen::Prompted),
            'n' => Some(Seen::NotDone),
            'o' => Some(Seen::NotSeen),
            _ => None,
        };
        match command {
            Command::Up | Command::Down | Command::First | Command::Last => {
                if let Some(opened) = self.open.get_mut(self.at) {
                    let rows = opened.watch.card().rows.len();
                    opened.choice.moved(command, rows, rows);
                }
                self.scroll = Scroll::default();
            }
            Command::PageUp | Command::PageDown => {
                let area = self.text_area(desk);
                let lines = self.text(area.wide, desk).len();
                self.scroll.moved(command, lines, area.tall);
            }
            Command::Left => self.next_stage(false),
            Command::Right => self.next_stage(true),
            Command::Take | Command::Type(' ') => return self.start_or_stop(desk),
            Command::Pick(ROWS, row) => {
                let Some(opened) = self.open.get_mut(self.at) else {
                    return Turn::Stay;
                };
                if opened.choice.at == row {
                    return self.start_or_stop(desk);
                }
                opened.choice.at = row.min(opened.watch.card().rows.len().saturating_sub(1));
                self.scroll = Scroll::default();
            }
            Command::Type('v') => return self.ask(Asked::Value),
            Command::Type('r') => return self.ask(Asked::Remark),
            Command::Type('w') => return self.ask(Asked::RemarkOnAll),
            Command::Type('l') => return self.ask(Asked::Lot),
            Command::Type('!') => return self.ask(Asked::Danger),
            Command::Type('u') => return self.tapped(Mark::Undo, desk),
            Command::Type('x') => return self.drop_shown(desk),
            Command::Type('c') => self.over = Over::Clock(Scroll::default()),
            Command::Type('f') => self.over = Over::Judging(Choice::NONE, Scroll::default()),
            Command::Type(letter) => {
                if let Some(seen) = seen(letter) {
                    return self.see(seen, desk);
                }
            }
            Command::Next => self.next_run(desk),
            Command::Back => return self.leave(desk),
            _ => {}
        }
        Turn::Stay
    }

    /// Closes; what was tapped is kept, and it is said where.
    fn leave(&self, desk: &Desk<S>) -> Turn<S> {
        let texts = self.open.iter().map(|opened| {
            let path = opened.watch.path().to_string_lossy().replace('\\', "/");
            let values = [
                ("person", opened.person.as_str().into()),
                ("path", path.into()),
            ];
            let id = if opened.watch.run().is_empty() {
                "watching-left-empty"
            } else {
                "watching-left"
            };
            desk.say(id, &values)
        });
        Turn::CloseWith(Notice::new(texts.collect()))
    }
}

/// The row that was tapped last of what stands, so that a case is taken up where it was left; the first where none was.
fn last_tapped<S: System>(watch: &Watch<S>) -> usize {
    let mut taps = watch.run().standing().rev();
    let row = taps.find_map(|marked| marked.mark.row());
    let mut rows = watch.card().rows.iter();
    row.and_then(|id| rows.position(|row| row.id == id))
        .unwrap_or(0)
}

/// That the laboratory works by another revision than the one on the shelf, by which the run is watched: it does not count there.
fn other_edition<S: System>(opened: &Opened<S>, desk: &mut Desk<S>) -> Option<String> {
    let head = opened.watch.run().head();
    let (scope, edition) = (head.scope.clone(), head.edition.clone());
    let (house, words) = desk.office()?;
    let now = house.laboratory.now().instant();
    let view = house.laboratory.view(now, Counting::AsNowKnown);
    let held = view
        .edition(&scope.workflow)
        .filter(|held| *held != edition)?;
    let values = [
        ("held", held.revision.to_string().into()),
        ("watched", edition.revision.to_string().into()),
    ];
    Some(words.say("watching-adopted-edition", &values))
}

/// Every open run of an observer that can be taken up now, but one.
pub(super) fn other_runs<S: System>(
    observer: PersonCode,
    but: Option<&std::path::Path>,
    desk: &mut Desk<S>,
) -> Vec<Watch<S>> {
    let now = reading(desk);
    let Ok(open) = open_runs(&desk.system, desk.data.as_deref()) else {
        return Vec::new();
    };
    let is_other =
        |one: &&OpenRun| one.run.head().observer == observer && Some(one.path.as_path()) != but;
    let others = open.runs.iter().filter(is_other);
    others
        .filter_map(|one| Watch::take_up(&desk.system, &desk.shelf, &one.path, now).ok())
        .collect()
}

impl<S: System> Screen<S> for Watching<S> {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        self.now = reading(desk);
        let turn = match std::mem::replace(&mut self.over, Over::Nothing) {
            Over::Nothing if self.is_over() => self.on_ended(command, desk),
            Over::Nothing => self.on_rows(command, desk),
            Over::Typing(asked, field, wrong) => self.on_typing(asked, field, wrong, command, desk),
            Over::Judging(choice, scroll) => self.on_judging(choice, scroll, command, desk),
            Over::Clock(scroll) => self.on_clock(scroll, command, desk),
        };
        self.look_whether_late(desk);
        turn
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        self.draw_all(frame, area, desk);
    }

    fn title(&self, desk: &Desk<S>) -> String {
        self.bar(desk)
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        self.keys(desk)
    }

    fn about(&self) -> &'static str {
        "watching-about"
    }

    fn is_typing(&self) -> bool {
        matches!(self.over, Over::Typing(..))
    }

    fn is_live(&self) -> bool {
        !self.is_over()
    }

    fn is_watched(&self) -> bool {
        !self.is_over()
    }

    fn leaving(&self) -> Leaving {
        match self.opened() {
            Some(opened) => Leaving::Kept(opened.watch.path().to_owned()),
            None => Leaving::Fine,
        }
    }

    fn farewell(&self) -> &'static str {
        "watching-farewell"
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.now = reading(desk);
        self.look_whether_late(desk);
        if !std::mem::replace(&mut self.signing, false) {
            return Turn::Stay;
        }
        let seal = desk.office().and_then(|(house, _)| house.take_signed());
        match seal {
            Some(seal) => self.signed(seal, desk),
            None => Turn::Stay,
        }
    }
}
