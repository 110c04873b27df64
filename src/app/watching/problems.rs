//! Problems of a bench run in words: what happened, what was kept, what to do.

use super::keep::{TapFailure, WatchProblem};
use super::line::LineProblem;
use super::run::{RunProblem, TapProblem};
use crate::app::complain;
use crate::report::problems::Told;
use crate::text::{Value, Words};

/// Why a tap is not taken.
#[must_use]
pub fn tap_problem(problem: &TapProblem, words: &Words) -> Told {
    let told = |id: &str, values: &[(&str, Value)]| Told {
        what: words.say(id, values),
        fix: Some(words.say(&format!("{id}.fix"), values)),
    };
    let row = |found: &String| [("row", Value::from(found.as_str()))];
    match problem {
        TapProblem::NoSuchRow(found) => told("watching-no-such-row", &row(found)),
        TapProblem::Runs(found) => told("watching-runs-already", &row(found)),
        TapProblem::DoesNotRun(found) => told("watching-does-not-run", &row(found)),
        TapProblem::Empty => told("watching-empty", &[]),
        TapProblem::TooLong(most) => told("watching-too-long", &[("most", (*most).into())]),
        TapProblem::Control => told("watching-control", &[]),
        TapProblem::Over => told("watching-over", &[]),
        TapProblem::NothingToUndo => told("watching-nothing-to-undo", &[]),
        TapProblem::NotOver => told("watching-not-over", &[]),
        TapProblem::Signed => told("watching-signed-already", &[]),
        TapProblem::Stands => told("watching-stands", &[]),
        TapProblem::Dropped => told("watching-dropped-already", &[]),
    }
}

/// Why a line is none.
#[must_use]
pub fn line_problem(problem: &LineProblem, words: &Words) -> String {
    let say = |id: &str, found: &str| words.say(id, &[("found", found.into())]);
    match problem {
        LineProblem::Unknown(found) => say("watching-line.unknown", found),
        LineProblem::NeedsRow(found) => say("watching-line.needs-row", found),
        LineProblem::NeedsText(found) => say("watching-line.needs-text", found),
        LineProblem::TooMuch(found) => say("watching-line.too-much", found),
        LineProblem::NoJudgement(found) => say("watching-line.no-judgement", found),
    }
}

/// Why a tap was not kept.
#[must_use]
pub fn tap_failure(failure: &TapFailure, words: &Words) -> Vec<String> {
    match failure {
        TapFailure::Tap(problem) => {
            let told = tap_problem(problem, words);
            std::iter::once(told.what).chain(told.fix).collect()
        }
        TapFailure::Journal(fault) => {
            let mut lines = vec![words.say("watching-tap-lost", &[])];
            lines.extend(complain::machine(fault, words));
            lines
        }
        TapFailure::Unwritable(why) => {
            vec![words.say("watching-unwritable", &[("why", why.as_str().into())])]
        }
    }
}

/// Why a run cannot be begun or taken up.
#[must_use]
pub fn watch_problem(problem: &WatchProblem, words: &Words) -> Vec<String> {
    let path = |path: &std::path::Path| {
        let shown = path.to_string_lossy().replace('\\', "/");
        ("path", Value::from(shown))
    };
    match problem {
        WatchProblem::Machine(fault) => complain::machine(fault, words),
        WatchProblem::Unwritable(why) => {
            vec![words.say("watching-unwritable", &[("why", why.as_str().into())])]
        }
        WatchProblem::NoNameLeft => vec![words.say("watching-no-name-left", &[])],
        WatchProblem::Nothing(file) => vec![words.say("watching-nothing-kept", &[path(file)])],
        WatchProblem::Damaged(file, why) => {
            let (line, why) = match why {
                RunProblem::Line(line, why) => (*line, why.clone()),
                RunProblem::Senseless(line, why) => (*line, tap_problem(why, words).what),
                RunProblem::Newer(format) => {
                    let format = ("format", format.to_string().into());
                    return vec![words.say("watching-newer", &[path(file), format])];
                }
            };
            let values = [path(file), ("line", line.into()), ("why", why.into())];
            vec![
                words.say("watching-damaged", &values),
                words.say("watching-damaged.fix", &values),
            ]
        }
        WatchProblem::Workflow(file, why) => {
            let mut lines = vec![words.say("watching-no-workflow", &[path(file)])];
            let all = complain::start(why, words);
            lines.extend(all.iter().flat_map(|one| one.lines(words)));
            lines
        }
        WatchProblem::OtherEdition(file, kept, shelf) => {
            let values = [
                path(file),
                ("kept", kept.to_string().into()),
                ("shelf", shelf.to_string().into()),
            ];
            vec![words.say("watching-other-edition", &values)]
        }
    }
}
