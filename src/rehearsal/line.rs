//! The lines of plain mode, which are also the lines of scripts: `fill 5-6 amount=bead`, `first-wash for 2 min`.
//!
//! A line names things by their ids, never by number. Left out: whether what it names exists, which the driver finds out.

use super::action::Action;
use crate::units::{Millis, UnitProblem};

/// One line, read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// Nothing, or a comment.
    Blank,
    /// A step or a forbidden act; its time may still have to be found out.
    Move(Move),
    /// Any other action.
    Action(Action),
    /// A wait until something can be seen, and so much longer; its time still has to be found out.
    WaitUntil {
        /// The sign: aspect and value (`plate-state-ready`).
        sign: String,
        /// How much longer.
        plus: Millis,
    },
    /// A question that changes nothing.
    Ask(Question),
}

/// A step or forbidden act as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Move {
    /// The id of the step or act.
    pub what: String,
    /// The places as typed.
    pub at: String,
    /// Ways chosen.
    pub ways: Vec<(String, String)>,
    /// How long.
    pub time: Time,
}

/// How long a move is to last.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Time {
    /// Nothing was said.
    Unsaid,
    /// So long.
    For(Millis),
    /// Until a sign shows, and so much longer (or, below zero, less long).
    Until {
        /// The sign: `sign`, or aspect and value (`strip-turned`).
        sign: String,
        /// How much longer.
        plus: Millis,
    },
}

/// A question of plain mode.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Question {
    /// What can be typed.
    Help,
    /// What steps and acts there are.
    Moves,
    /// What may come next.
    Next,
    /// Why a step is done, and its limits.
    Why(String),
    /// In which manners a step can be done.
    Ways(String),
}

/// Why a line cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineProblem {
    /// The word needs one more: an item, a response, a step.
    NeedsOneWord(String),
    /// The time cannot be read.
    Time {
        /// What was written.
        found: String,
        /// Why.
        why: UnitProblem,
    },
    /// A way was written without an option, or an option without a way.
    Way(String),
    /// There are more words than the line can have.
    TooMuch(String),
}

/// Reads one line.
///
/// # Errors
/// [`LineProblem`] when the line is no line of plain mode.
pub fn parse(line: &str) -> Result<Line, LineProblem> {
    let line = line.split('#').next().unwrap_or_default().trim();
    let words: Vec<&str> = line.split_whitespace().collect();
    let Some((&first, rest)) = words.split_first() else {
        return Ok(Line::Blank);
    };
    let alone = |action| match rest.first() {
        None => Ok(Line::Action(action)),
        Some(extra) => Err(LineProblem::TooMuch((*extra).to_owned())),
    };
    let one = || match rest {
        [] => Err(LineProblem::NeedsOneWord(first.to_owned())),
        [one] => Ok((*one).to_owned()),
        [_, extra, ..] => Err(LineProblem::TooMuch((*extra).to_owned())),
    };
    match first {
        "finish" => alone(Action::Finish),
        "abandon" => alone(Action::Abandon),
        "look" => alone(Action::Look),
        "wear" => Ok(Line::Action(Action::Wear { item: one()? })),
        "take-off" => Ok(Line::Action(Action::TakeOff { item: one()? })),
        "run" => Ok(Line::Action(Action::Start { item: one()? })),
        "stop" => Ok(Line::Action(Action::Stop { item: one()? })),
        "respond" => Ok(Line::Action(Action::Respond { response: one()? })),
        "wait" if rest.first() == Some(&"until") => match until_sign(&rest[1..])? {
            Time::Until { sign, plus } => Ok(Line::WaitUntil { sign, plus }),
            Time::Unsaid | Time::For(_) => Err(LineProblem::NeedsOneWord(first.to_owned())),
        },
        "wait" => Ok(Line::Action(Action::Wait {
            time: time(&rest.join(" "))?,
        })),
        "help" => Ok(Line::Ask(Question::Help)),
        "moves" => Ok(Line::Ask(Question::Moves)),
        "next" => Ok(Line::Ask(Question::Next)),
        "why" => Ok(Line::Ask(Question::Why(one()?))),
        "ways" => Ok(Line::Ask(Question::Ways(one()?))),
        _ => step(first, rest).map(Line::Move),
    }
}

fn step(what: &str, rest: &[&str]) -> Result<Move, LineProblem> {
    let ends = rest
        .iter()
        .position(|word| matches!(*word, "for" | "until"))
        .unwrap_or(rest.len());
    let (said, timing) = rest.split_at(ends);
    let mut places = Vec::new();
    let mut ways = Vec::new();
    for word in said {
        match word.split_once('=') {
            None => places.push(*word),
            Some((way, option)) if !way.is_empty() && !option.is_empty() => {
                ways.push((way.to_owned(), option.to_owned()));
            }
            Some(_) => return Err(LineProblem::Way((*word).to_owned())),
        }
    }
    let time = match timing.split_first() {
        None => Time::Unsaid,
        Some((&"for", duration)) => Time::For(time(&duration.join(" "))?),
        Some((_, until)) => until_sign(until)?,
    };
    Ok(Move {
        what: what.to_owned(),
        at: places.join("/"),
        ways,
        time,
    })
}

fn until_sign(words: &[&str]) -> Result<Time, LineProblem> {
    let Some((sign, rest)) = words.split_first() else {
        return Err(LineProblem::NeedsOneWord("until".to_owned()));
    };
    let plus = match rest.split_first() {
        None => Millis::ZERO,
        Some((&"+", more)) => time(&more.join(" "))?,
        Some((&"-", less)) => -time(&less.join(" "))?,
        Some((extra, _)) => return Err(LineProblem::TooMuch((*extra).to_owned())),
    };
    Ok(Time::Until {
        sign: (*sign).to_owned(),
        plus,
    })
}

fn time(text: &str) -> Result<Millis, LineProblem> {
    text.parse().map_err(|why| LineProblem::Time {
        found: text.to_owned(),
        why,
    })
}

/// Writes an action as the line that would make it.
#[must_use]
pub fn written(action: &Action) -> String {
    match action {
        Action::Do {
            what,
            at,
            ways,
            timed,
        } => {
            let mut line = what.clone();
            if !at.is_empty() {
                line.push(' ');
                line.push_str(at);
            }
            for (way, option) in ways {
                line.push(' ');
                line.push_str(way);
                line.push('=');
                line.push_str(option);
            }
            if let Some(timed) = timed {
                line.push_str(&format!(" for {timed}"));
            }
            line
        }
        Action::Wear { item } => format!("wear {item}"),
        Action::TakeOff { item } => format!("take-off {item}"),
        Action::Start { item } => format!("run {item}"),
        Action::Stop { item } => format!("stop {item}"),
        Action::Look => "look".to_owned(),
        Action::Wait { time } => format!("wait {time}"),
        Action::Respond { response } => format!("respond {response}"),
        Action::Finish => "finish".to_owned(),
        Action::Abandon => "abandon".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn moved(line: &str) -> Move {
        match parse(line) {
            Ok(Line::Move(one)) => one,
            other => panic!("{line}: {other:?}"),
        }
    }

    #[test]
    fn a_move_has_places_ways_and_time() {
        let one = moved("tack 5-6 facial distance=far for 10 s  # close enough");
        assert_eq!((one.what.as_str(), one.at.as_str()), ("tack", "5-6/facial"));
        assert_eq!(one.ways, [("distance".to_owned(), "far".to_owned())]);
        assert_eq!(one.time, Time::For(Millis::seconds(10)));
    }

    #[test]
    fn a_sign_may_be_waited_for() {
        let time = moved("warm-primer until strip-turned + 5 s").time;
        let plus = Millis::seconds(5);
        assert_eq!(
            time,
            Time::Until {
                sign: "strip-turned".into(),
                plus
            }
        );
        let plus = Millis::minutes(-1);
        assert_eq!(
            moved("warm-primer until sign - 1 min").time,
            Time::Until {
                sign: "sign".into(),
                plus
            }
        );
    }

    #[test]
    fn a_wait_may_end_at_what_can_be_seen() {
        let plus = Millis::seconds(30);
        let sign = "plate-state-ready".to_owned();
        assert_eq!(
            parse("wait until plate-state-ready + 30 s"),
            Ok(Line::WaitUntil { sign, plus })
        );
        assert_eq!(
            parse("wait until"),
            Err(LineProblem::NeedsOneWord("until".into()))
        );
    }

    #[test]
    fn comments_and_blank_lines_are_nothing() {
        assert_eq!(parse("   # only a thought"), Ok(Line::Blank));
        assert_eq!(parse(""), Ok(Line::Blank));
    }

    #[test]
    fn what_is_no_line_says_why() {
        assert_eq!(parse("wear"), Err(LineProblem::NeedsOneWord("wear".into())));
        assert_eq!(parse("finish now"), Err(LineProblem::TooMuch("now".into())));
        assert!(matches!(
            parse("wait a while"),
            Err(LineProblem::Time { .. })
        ));
        assert!(matches!(
            parse("first-wash for ever"),
            Err(LineProblem::Time { .. })
        ));
        assert_eq!(parse("fill 5 =much"), Err(LineProblem::Way("=much".into())));
    }

    proptest::proptest! {
        #[test]
        fn no_line_makes_reading_panic(line in ".{0,60}") {
            let _ = parse(&line).is_ok();
        }

        #[test]
        fn what_is_written_reads_back(seconds in 0_i64..5000, tooth in 1_u16..15) {
            let action = Action::Do {
                what: "fill".into(),
                at: tooth.to_string(),
                ways: vec![("amount".into(), "bead".into())],
                timed: Some(Millis(seconds * 250)),
            };
            let read = moved(&written(&action));
            proptest::prop_assert_eq!(read.time, Time::For(Millis(seconds * 250)));
            proptest::prop_assert_eq!(read.at, tooth.to_string());
        }
    }
}
