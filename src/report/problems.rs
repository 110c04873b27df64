//! Words for everything that can be wrong with a file, a case card, a line or a move: what it is, and what to do.
//!
//! Problems are data where they are found; here each gets its words. Left out: the problems of use cases, which are worded
//! where they arise from these.

mod meaning;
mod reading;
mod running;

pub use meaning::{check_fault, clash, profile_fault, sign_off_fault, stretches};
pub use reading::{fault, unit_problem};
pub use running::{
    bench_problem, case_problem, line_problem, nonsense, order_problem, plan_fault, replay_problem,
};

use crate::syllabus::read::Place;
use crate::text::{Value, Words};

/// What is wrong, and what to do about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// What happened.
    pub what: String,
    /// What to do, where more can be said than "put it right".
    pub fix: Option<String>,
}

/// Says a message and its `fix`.
pub(super) fn told(words: &Words, id: &str, values: &[(&str, Value)]) -> Told {
    let fix = format!("{id}.fix");
    Told {
        what: words.say(id, values),
        fix: words.knows(&fix).then(|| words.say(&fix, values)),
    }
}

/// The same with advice in the place of its own, where there is any.
pub(super) fn with_fix(mut told: Told, fix: Option<String>) -> Told {
    told.fix = fix.or(told.fix);
    told
}

/// A suggestion as advice.
fn meant(words: &Words, suggestion: Option<&String>) -> Option<String> {
    let name = suggestion?.as_str();
    Some(words.say("problems-meant", &[("name", name.into())]))
}

/// What there is, as advice.
fn known<T: AsRef<str>>(words: &Words, all: &[T]) -> String {
    if all.is_empty() {
        return words.say("problems-known-none", &[]);
    }
    let all: Vec<&str> = all.iter().map(AsRef::as_ref).collect();
    words.say("problems-known", &[("all", all.into())])
}

/// Where something stands, as `file:line:column`.
#[must_use]
pub fn at(files: &[String], place: Place, words: &Words) -> String {
    let file = files
        .get(usize::from(place.file))
        .map_or("", String::as_str);
    words.say(
        "problems-at",
        &[
            ("file", file.into()),
            ("line", place.line.to_string().into()),
            ("column", place.column.to_string().into()),
        ],
    )
}
