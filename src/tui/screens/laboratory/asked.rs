//! The day that is asked about and the reading, with the keys that change them. Both stand in the heading of every screen that shows a day.

use crate::app::System;
use crate::app::laboratory::{Calendar, Moment};
use crate::report::record::AsOf;
use crate::standing::Reading;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key};
use crate::units::{Day, Stamp};

/// Which day is being typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Typed {
    /// The day that is asked about.
    On,
    /// The day by which entries had been written down.
    RecordedBy,
}

/// What became of a command.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Taken {
    /// It was none about the day.
    No,
    /// It was, and the day is the same.
    Yes,
    /// Another day or another reading is asked about.
    Changed,
}

/// A day and a reading.
#[derive(Clone, Debug)]
pub(super) struct Asked {
    as_of: AsOf,
    now: Stamp,
    calendar: Calendar,
    typing: Option<(Typed, Field)>,
    /// Whether what was typed is no day.
    is_wrong: bool,
}

impl Asked {
    /// A day in the calendar of the laboratory; `now` is the time of today.
    pub(super) fn of(as_of: AsOf, now: Stamp, calendar: Calendar) -> Asked {
        let mut asked = Asked {
            as_of,
            now,
            calendar,
            typing: None,
            is_wrong: false,
        };
        // A day that somebody chose is meant to its end, so an earlier time of today is one that was now a while ago.
        if as_of.at.day() == now.day() && as_of.at.instant() < now.instant() {
            asked.as_of.at = now;
        }
        asked
    }

    /// Takes up the time and the days of the laboratory again, after something may have been signed: what was asked as of now is asked as of the new now.
    pub(super) fn renew<S: System>(&mut self, desk: &mut Desk<S>) {
        let Some((house, _)) = desk.office() else {
            return;
        };
        let now = house.laboratory.now();
        if self.as_of.at == self.now {
            self.as_of.at = now;
        }
        self.now = now;
        self.calendar = house.laboratory.calendar();
    }

    pub(super) fn as_of(&self) -> AsOf {
        self.as_of
    }

    pub(super) fn is_typing(&self) -> bool {
        self.typing.is_some()
    }

    /// The last instant of a day, in the offset of that day.
    fn end_of(&self, day: Day) -> Option<Stamp> {
        self.calendar.end(day, Moment::Ends)
    }

    fn go_to(&mut self, day: Option<Day>) -> Taken {
        let at = day.and_then(|day| self.end_of(day));
        match at {
            Some(at) if at != self.as_of.at => {
                self.as_of.at = at;
                Taken::Changed
            }
            _ => Taken::Yes,
        }
    }

    pub(super) fn handle(&mut self, command: Command) -> Taken {
        if self.typing.is_some() {
            return self.typed(command);
        }
        let day = self.as_of.at.day();
        let days = |by: i64| Day::from_epoch(day.since_epoch() + by);
        match command {
            Command::Type('[') => self.go_to(days(-1)),
            Command::Type(']') => self.go_to(days(1)),
            Command::Type('{') => self.go_to(Some(day.minus_months(1))),
            Command::Type('}') => self.go_to(Some(day.plus_months(1))),
            Command::Type('t') if self.as_of.at != self.now => {
                self.as_of.at = self.now;
                Taken::Changed
            }
            Command::Type('r') => {
                self.as_of.reading = match self.as_of.reading {
                    Reading::AsNowKnown => Reading::AsRecordedThen,
                    Reading::AsRecordedThen | Reading::AsRecordedBy(_) => Reading::AsNowKnown,
                };
                Taken::Changed
            }
            Command::Type('d') => self.ask(Typed::On),
            Command::Type('b') => self.ask(Typed::RecordedBy),
            _ => Taken::No,
        }
    }

    fn ask(&mut self, which: Typed) -> Taken {
        self.typing = Some((which, Field::default()));
        self.is_wrong = false;
        Taken::Yes
    }

    fn typed(&mut self, command: Command) -> Taken {
        let Some((which, field)) = &mut self.typing else {
            return Taken::No;
        };
        match command {
            Command::Type(c) => field.typed(c),
            Command::Erase => field.erase(),
            Command::Back => self.typing = None,
            Command::Take => {
                let (which, day) = (*which, field.text.trim().parse::<Day>());
                let at = day.ok().and_then(|day| self.end_of(day));
                let Some(at) = at else {
                    self.is_wrong = true;
                    return Taken::Yes;
                };
                self.typing = None;
                match which {
                    Typed::On => self.as_of.at = at,
                    Typed::RecordedBy => {
                        self.as_of.reading = Reading::AsRecordedBy(at);
                    }
                }
                return Taken::Changed;
            }
            _ => {}
        }
        Taken::Yes
    }

    /// The heading: the day with its offset, and the reading.
    pub(super) fn heading<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<prose::Line> {
        let mut text = self.as_of.short(&desk.words);
        if self.as_of.at.instant() > self.now.instant() {
            text = desk.say("files-as-of-ahead", &[("as-of", text.into())]);
        }
        prose::wrapped(Role::Strong, &text, wide)
    }

    /// The question for a day, where one is being typed.
    pub(super) fn draw<S: System>(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let Some((which, field)) = &self.typing else {
            return;
        };
        let question = match which {
            Typed::On => "files-ask-day",
            Typed::RecordedBy => "files-ask-recorded-by",
        };
        let wrong = if self.is_wrong {
            desk.say("files-ask-no-day", &[])
        } else {
            String::new()
        };
        let text = format!(" {} {}  {wrong}", desk.say(question, &[]), field.shown());
        last_row(frame, area, &text);
    }

    /// The keys that change the day.
    pub(super) fn hints<S: System>(&self, desk: &Desk<S>) -> Vec<Hint> {
        if self.is_typing() {
            return vec![
                desk.hint(Key::Enter, "files-key-this-day"),
                desk.hint(Key::Esc, "screens-key-back"),
            ];
        }
        let mut hints = vec![
            desk.hint(Key::Letter('d'), "files-key-day"),
            desk.hint(Key::Letter('r'), "files-key-reading"),
            desk.hint(Key::Letter('['), "files-key-day-before"),
            desk.hint(Key::Letter(']'), "files-key-day-after"),
            desk.hint(Key::Letter('{'), "files-key-month-before"),
            desk.hint(Key::Letter('}'), "files-key-month-after"),
            desk.hint(Key::Letter('b'), "files-key-recorded-by"),
        ];
        if self.as_of.at != self.now {
            hints.push(desk.hint(Key::Letter('t'), "files-key-today"));
        }
        hints
    }
}

/// Puts a question into the last row of an area.
pub(super) fn last_row(frame: &mut Frame, area: Area, text: &str) {
    let last = Area {
        y: area.y + area.tall.saturating_sub(1),
        tall: area.tall.min(1),
        ..area
    };
    frame.put_row(last, 0, Role::Field, text);
}
