//! What is typed while somebody is watched: a value, a remark, a lot, a danger.

use super::{Over, Watching};
use crate::app::System;
use crate::app::watching::problems::tap_failure;
use crate::app::watching::{Mark, TEXT_MOST, TapFailure, TapProblem};
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::screen::{Desk, Turn};

/// What is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    /// A value that was read, of the row that is chosen.
    Value,
    /// A remark on the row that is chosen.
    Remark,
    /// A remark on the whole.
    RemarkOnAll,
    /// A lot or equipment.
    Lot,
    /// Why the run is stopped.
    Danger,
    /// Why it is signed late.
    Reason,
}

impl Asked {
    /// The message that asks.
    pub(super) fn question(self) -> &'static str {
        match self {
            Asked::Value => "watching-ask-value",
            Asked::Remark => "watching-ask-remark",
            Asked::RemarkOnAll => "watching-ask-remark-on-all",
            Asked::Lot => "watching-ask-lot",
            Asked::Danger => "watching-ask-danger",
            Asked::Reason => "watching-ask-reason",
        }
    }
}

impl<S: System> Watching<S> {
    pub(super) fn on_typing(
        &mut self,
        asked: Asked,
        mut field: Field,
        wrong: Vec<String>,
        command: Command,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        match command {
            Command::Type(c) => field.typed_up_to(c, TEXT_MOST),
            Command::Erase => field.erase(),
            Command::Back => return Turn::Stay,
            Command::Take => return self.typed(asked, field, desk),
            _ => {}
        }
        self.over = Over::Typing(asked, field, wrong);
        Turn::Stay
    }

    fn typed(&mut self, asked: Asked, field: Field, desk: &mut Desk<S>) -> Turn<S> {
        let text = field.text.trim().to_owned();
        if asked == Asked::Reason {
            match text.parse() {
                Ok(reason) => self.reason = Some(reason),
                Err(_) => {
                    let wrong = vec![desk.say("watching-no-reason", &[])];
                    self.over = Over::Typing(asked, field, wrong);
                }
            }
            return Turn::Stay;
        }
        let row = self.row().map(|row| row.id.clone()).unwrap_or_default();
        let mark = match asked {
            Asked::Value => Mark::Value { row, text },
            Asked::Remark => Mark::Remark {
                row: Some(row),
                text,
            },
            Asked::RemarkOnAll => Mark::Remark { row: None, text },
            Asked::Lot => Mark::Lot { text },
            Asked::Danger | Asked::Reason => Mark::Danger { text },
        };
        if mark.text().is_some_and(str::is_empty) {
            let empty = TapFailure::Tap(TapProblem::Empty);
            let wrong = tap_failure(&empty, &desk.words);
            self.over = Over::Typing(asked, field, wrong);
            return Turn::Stay;
        }
        match self.tap(mark, desk) {
            Ok(()) => Turn::Stay,
            Err(notice) => {
                // What was typed is not lost.
                self.over = Over::Typing(asked, field, notice.texts);
                Turn::Stay
            }
        }
    }
}
