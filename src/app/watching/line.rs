//! The lines of a bench run in plain mode: `start first-wash`, `done first-wash`, `end acceptable`.
//!
//! A line names rows by the ids of their steps. A text goes to the end of the line as it is, so that a lot number may hold any sign.

use super::mark::Mark;
use crate::record::entry::{Judgement, Seen};

/// One line, read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// Nothing, or a comment.
    Blank,
    /// A tap.
    Tap(Mark),
    /// How everything stands.
    Look,
    /// A row with its limits, reasons and protection.
    About(String),
    /// What the clock and the order say.
    Clock,
    /// What can be typed.
    Help,
    /// Signs a run that is over.
    Sign,
    /// Leaves, and keeps the run.
    Quit,
}

/// Why a line cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineProblem {
    /// No line begins so.
    Unknown(String),
    /// The word needs the id of a step.
    NeedsRow(String),
    /// The word needs a text.
    NeedsText(String),
    /// There is more than the line can have.
    TooMuch(String),
    /// It is no judgement. Holds what was found.
    NoJudgement(String),
}

/// Reads one line.
///
/// # Errors
/// [`LineProblem`] when it is none.
pub fn parse(line: &str) -> Result<Line, LineProblem> {
    let line = line.trim();
    if line.is_empty() || line.starts_with('#') {
        return Ok(Line::Blank);
    }
    let (word, rest) = split(line);
    let row = || match split(rest) {
        ("", _) => Err(LineProblem::NeedsRow(word.to_owned())),
        (row, "") => Ok(row.to_owned()),
        (_, more) => Err(LineProblem::TooMuch(more.to_owned())),
    };
    let alone = |line| match rest {
        "" => Ok(line),
        more => Err(LineProblem::TooMuch(more.to_owned())),
    };
    let text = |text: &str| match text {
        "" => Err(LineProblem::NeedsText(word.to_owned())),
        text => Ok(text.to_owned()),
    };
    let row_and_text = || match split(rest) {
        ("", _) => Err(LineProblem::NeedsRow(word.to_owned())),
        (row, said) => Ok((row.to_owned(), text(said)?)),
    };
    let seen = |seen| Ok(Line::Tap(Mark::Seen { row: row()?, seen }));
    match word {
        "start" => Ok(Line::Tap(Mark::Start { row: row()? })),
        "stop" => Ok(Line::Tap(Mark::Stop { row: row()? })),
        "done" => seen(Seen::Done),
        "prompted" => seen(Seen::Prompted),
        "not-done" => seen(Seen::NotDone),
        "not-seen" => seen(Seen::NotSeen),
        "value" => {
            let (row, text) = row_and_text()?;
            Ok(Line::Tap(Mark::Value { row, text }))
        }
        "remark-on" => {
            let (row, text) = row_and_text()?;
            let row = Some(row);
            Ok(Line::Tap(Mark::Remark { row, text }))
        }
        "remark" => {
            let text = text(rest)?;
            Ok(Line::Tap(Mark::Remark { row: None, text }))
        }
        "lot" => Ok(Line::Tap(Mark::Lot { text: text(rest)? })),
        "danger" => Ok(Line::Tap(Mark::Danger { text: text(rest)? })),
        "end" => {
            let found = Judgement::ALL.iter().find(|one| one.word() == rest);
            let judgement = found.ok_or_else(|| LineProblem::NoJudgement(rest.to_owned()))?;
            let judgement = *judgement;
            Ok(Line::Tap(Mark::End { judgement }))
        }
        "undo" => alone(Line::Tap(Mark::Undo)),
        "drop" => alone(Line::Tap(Mark::Dropped)),
        "look" => alone(Line::Look),
        "about" => Ok(Line::About(row()?)),
        "clock" => alone(Line::Clock),
        "help" => alone(Line::Help),
        "sign" => alone(Line::Sign),
        "quit" => alone(Line::Quit),
        _ => Err(LineProblem::Unknown(word.to_owned())),
    }
}

fn split(line: &str) -> (&str, &str) {
    let (first, rest) = line.split_once(char::is_whitespace).unwrap_or((line, ""));
    (first, rest.trim())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_read() {
        let row = || "tack".to_owned();
        for (line, read) in [
            ("", Line::Blank),
            ("  # a comment", Line::Blank),
            ("start tack", Line::Tap(Mark::Start { row: row() })),
            (
                "  prompted   tack ",
                Line::Tap(Mark::Seen {
                    row: row(),
                    seen: Seen::Prompted,
                }),
            ),
            (
                "value tack 9.5 s, by the lamp",
                Line::Tap(Mark::Value {
                    row: row(),
                    text: "9.5 s, by the lamp".to_owned(),
                }),
            ),
            (
                "lot resin # 12",
                Line::Tap(Mark::Lot {
                    text: "resin # 12".to_owned(),
                }),
            ),
            (
                "end not-acceptable",
                Line::Tap(Mark::End {
                    judgement: Judgement::NotAcceptable,
                }),
            ),
            ("undo", Line::Tap(Mark::Undo)),
            ("drop", Line::Tap(Mark::Dropped)),
            ("quit", Line::Quit),
        ] {
            assert_eq!(parse(line), Ok(read), "{line}");
        }
    }

    #[test]
    fn what_is_no_line_is_told() {
        for (line, problem) in [
            ("begin tack", LineProblem::Unknown("begin".to_owned())),
            ("start", LineProblem::NeedsRow("start".to_owned())),
            ("start tack 5-6", LineProblem::TooMuch("5-6".to_owned())),
            ("value tack", LineProblem::NeedsText("value".to_owned())),
            ("remark", LineProblem::NeedsText("remark".to_owned())),
            ("end fine", LineProblem::NoJudgement("fine".to_owned())),
            ("end", LineProblem::NoJudgement(String::new())),
            ("undo two", LineProblem::TooMuch("two".to_owned())),
        ] {
            assert_eq!(parse(line), Err(problem), "{line}");
        }
    }
}
