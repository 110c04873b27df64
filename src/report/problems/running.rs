//! Words for what keeps a case from being prepared and a move from being made.

use super::{Told, known, told, unit_problem, with_fix};
use crate::bench::{BenchProblem, Wrong};
use crate::rehearsal::drive::Nonsense;
use crate::rehearsal::line::LineProblem;
use crate::rehearsal::replay::ReplayProblem;
use crate::syllabus::case::CaseProblem;
use crate::syllabus::order::OrderProblem;
use crate::syllabus::plan::PlanFault;
use crate::text::{Value, Words};

/// Words why a module gives no plan.
#[must_use]
pub fn plan_fault(fault: &PlanFault, words: &Words) -> Told {
    match fault {
        PlanFault::Unknown {
            name, known: all, ..
        } => {
            let it = told(
                words,
                "problems-plan-unknown",
                &[("name", name.as_str().into())],
            );
            with_fix(it, Some(known(words, all)))
        }
        PlanFault::Repeat(repeat) => told(
            words,
            "problems-plan-repeat",
            &[("repeat", repeat.as_str().into())],
        ),
        PlanFault::Circle(labels) => told(
            words,
            "problems-plan-circle",
            &[("chain", labels.clone().into())],
        ),
        PlanFault::Window { step } => told(
            words,
            "problems-plan-window",
            &[("step", step.as_str().into())],
        ),
        PlanFault::TooManyTasks(count) => told(
            words,
            "problems-plan-too-many-tasks",
            &[("count", (*count).into())],
        ),
    }
}

/// Words why tasks have no order. `name` gives the label of a task.
#[must_use]
pub fn order_problem(
    problem: &OrderProblem,
    name: &dyn Fn(usize) -> String,
    words: &Words,
) -> Told {
    match problem {
        OrderProblem::Circle(tasks) => {
            let labels: Vec<String> = tasks.iter().map(|&task| name(task)).collect();
            told(words, "problems-plan-circle", &[("chain", labels.into())])
        }
        OrderProblem::NoSuchTask(task) => {
            let number = [("number", task.to_string().into())];
            told(words, "problems-order-no-such-task", &number)
        }
    }
}

/// Words why a module gives no bench.
#[must_use]
pub fn bench_problem(problem: &BenchProblem, words: &Words) -> Told {
    let id = match problem.wrong {
        Wrong::StationKind => "problems-bench-station-kind",
        Wrong::NumberName => "problems-bench-number-name",
        Wrong::NumberText => "problems-bench-number-text",
        Wrong::NumberRange => "problems-bench-number-range",
        Wrong::Station => "problems-bench-station",
        Wrong::Part => "problems-bench-part",
        Wrong::Product => "problems-bench-product",
        Wrong::Way => "problems-bench-way",
        Wrong::WayOption => "problems-bench-way-option",
        Wrong::GaugeValues => "problems-bench-gauge-values",
        Wrong::GaugeOf => "problems-bench-gauge-of",
    };
    let it = told(words, id, &[("found", problem.found.as_str().into())]);
    let fix = match problem.wrong {
        Wrong::NumberText => {
            words.say("problems-such-as", &[("all", problem.known.clone().into())])
        }
        Wrong::NumberRange => {
            words.say("problems-between", &[("all", problem.known.clone().into())])
        }
        Wrong::GaugeValues => words.say(
            "problems-in-order",
            &[("all", problem.known.clone().into())],
        ),
        _ => known(words, &problem.known),
    };
    with_fix(it, Some(fix))
}

/// Words why a text is no case card.
#[must_use]
pub fn case_problem(problem: &CaseProblem, words: &Words) -> Told {
    let found = |text: &str| [("found", Value::from(text))];
    match problem {
        CaseProblem::NoPair(text) => told(words, "problems-case-no-pair", &found(text)),
        CaseProblem::UnknownChoice {
            found: text,
            known: all,
        } => with_fix(
            told(words, "problems-case-unknown-choice", &found(text)),
            Some(known(words, all)),
        ),
        CaseProblem::Twice(choice) => told(words, "problems-case-twice", &found(choice)),
        CaseProblem::UnknownWord {
            choice,
            found: text,
            known: all,
        } => {
            let values = [
                ("choice", choice.as_str().into()),
                ("found", text.as_str().into()),
            ];
            with_fix(
                told(words, "problems-case-unknown-word", &values),
                Some(known(words, all)),
            )
        }
        CaseProblem::OutOfRange {
            choice,
            found: text,
            from,
            to,
        } => told(
            words,
            "problems-case-out-of-range",
            &[
                ("choice", choice.as_str().into()),
                ("found", text.as_str().into()),
                ("from", u32::from(*from).into()),
                ("to", u32::from(*to).into()),
            ],
        ),
        CaseProblem::Missing(choice) => told(words, "problems-case-missing", &found(choice)),
    }
}

/// Words why a line cannot be read.
#[must_use]
pub fn line_problem(problem: &LineProblem, words: &Words) -> Told {
    let found = |text: &str| [("found", Value::from(text))];
    match problem {
        LineProblem::NeedsOneWord(word) => {
            told(words, "rehearsal-line-needs-one-word", &found(word))
        }
        LineProblem::Time { found: text, why } => with_fix(
            told(words, "rehearsal-line-time", &found(text)),
            Some(unit_problem(why, words)),
        ),
        LineProblem::Way(text) => told(words, "rehearsal-line-way", &found(text)),
        LineProblem::TooMuch(text) => told(words, "rehearsal-line-too-much", &found(text)),
    }
}

/// Words why a move makes no sense. Nothing has changed.
#[must_use]
pub fn nonsense(problem: &Nonsense, words: &Words) -> Told {
    let found = |text: &str| [("found", Value::from(text))];
    let among = |id: &str, text: &str, all: &[String]| {
        with_fix(told(words, id, &found(text)), Some(known(words, all)))
    };
    match problem {
        Nonsense::NoSuchMove(text) => told(words, "rehearsal-no-such-move", &found(text)),
        Nonsense::NoSuchPlace {
            found: text,
            places,
        } => among("rehearsal-no-such-place", text, places),
        Nonsense::WhereTo(places) => with_fix(
            told(words, "rehearsal-where-to", &[]),
            Some(known(words, places)),
        ),
        Nonsense::HowLong => told(words, "rehearsal-how-long", &[]),
        Nonsense::NotTimed => told(words, "rehearsal-not-timed", &[]),
        Nonsense::TimeOutOfRange => told(words, "rehearsal-time-out-of-range", &[]),
        Nonsense::NoSuchWay { found: text, ways } => among("rehearsal-no-such-way", text, ways),
        Nonsense::NoSuchOption {
            found: text,
            options,
        } => among("rehearsal-no-such-option", text, options),
        Nonsense::NoSuchItem { found: text, items } => among("rehearsal-no-such-item", text, items),
        Nonsense::NothingToAnswer => told(words, "rehearsal-nothing-to-answer", &[]),
        Nonsense::NoSuchResponse {
            found: text,
            responses,
        } => among("rehearsal-no-such-response", text, responses),
        Nonsense::Over => told(words, "rehearsal-over", &[]),
    }
}

/// Words why a saved run cannot be replayed.
#[must_use]
pub fn replay_problem(problem: &ReplayProblem, words: &Words) -> Told {
    match problem {
        ReplayProblem::NoSuchDisturbance(id) => told(
            words,
            "problems-replay-no-such-disturbance",
            &[("found", id.as_str().into())],
        ),
        ReplayProblem::Action(number, why) => {
            let why = nonsense(why, words).what;
            let values = [("number", number.to_string().into()), ("why", why.into())];
            told(words, "problems-replay-action", &values)
        }
    }
}
