//! What is typed while somebody is watched: a value, a remark, a lot, a danger.

use super::{Over, Watching};
use crate::app::System;
use crate::app::watching::problems::tap_failure;
use crate::app::watching::{Mark, TEXT_MOST, TapFailure, TapProblem};
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::screen::{Desk, Turn};

/// The letters that do something beside the rows.
const KEYS: &str = "dpnovrlwuxcf";

/// What is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    /// A value that was read, of the row that is chosen.
    Value,
    /// The same, after it was asked whether that is what was read.
    ValueAgain,
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
            Asked::Value | Asked::ValueAgain => "watching-ask-value",
            Asked::Remark => "watching-ask-remark",
            Asked::RemarkOnAll => "watching-ask-remark-on-all",
            Asked::Lot => "watching-ask-lot",
            Asked::Danger => "watching-ask-danger",
            Asked::Reason => "watching-ask-reason",
        }
    }

    /// The message that stands over what is typed.
    pub(super) fn title(self) -> &'static str {
        match self {
            Asked::Danger => "watching-note-danger",
            _ => "watching-note",
        }
    }

    /// The message that says what Enter does.
    pub(super) fn key(self) -> &'static str {
        match self {
            Asked::Danger => "watching-key-note-danger",
            _ => "watching-key-note",
        }
    }

    /// Whether a value is typed.
    pub(super) fn is_value(self) -> bool {
        matches!(self, Asked::Value | Asked::ValueAgain)
    }

    /// What is asked once the text is another one: whether it was meant is asked of each anew.
    fn changed(self) -> Asked {
        match self {
            Asked::ValueAgain => Asked::Value,
            asked => asked,
        }
    }
}

/// The letter that a value is, where it is one of the keys beside the rows: it may have been meant for them.
fn stray(value: &str) -> Option<char> {
    let mut letters = value.chars();
    let letter = letters.next().filter(|_| letters.next().is_none())?;
    let is_key = KEYS.contains(letter.to_ascii_lowercase());
    is_key.then_some(letter)
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
        let before = asked;
        let asked = match command {
            Command::Type(c) => {
                field.typed_up_to(c, TEXT_MOST);
                asked.changed()
            }
            Command::Erase => {
                field.erase();
                asked.changed()
            }
            Command::Back => return Turn::Stay,
            Command::Take => return self.typed(asked, field, desk),
            _ => asked,
        };
        // What was asked about is no longer what stands there.
        let wrong = if before == asked { wrong } else { Vec::new() };
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
        if let Some(letter) = stray(&text).filter(|_| asked == Asked::Value) {
            let letter = [("letter", letter.to_string().into())];
            let again = vec![desk.say("watching-ask-value-again", &letter)];
            self.over = Over::Typing(Asked::ValueAgain, field, again);
            return Turn::Stay;
        }
        let row = self.row().map(|row| row.id.clone()).unwrap_or_default();
        let mark = match asked {
            Asked::Value | Asked::ValueAgain => Mark::Value { row, text },
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
