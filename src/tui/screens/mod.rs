//! The screens, one file each: what it holds, what commands do, how it is drawn.

pub mod debriefing;
pub mod laboratory;
pub mod reading;
pub mod setup;
pub mod sitting;
pub mod start;
pub mod waiting;
pub mod watching;

use std::sync::Arc;

use super::screen::Notice;
use crate::app::complain;
use crate::app::keep::KeepProblem;
use crate::app::rehearse::StartProblem;
use crate::app::shelf::Taken;
use crate::text::Words;

/// A module as screens hand it to each other.
pub type Module = Arc<Taken>;

/// Why a run cannot be started or taken up.
pub(in crate::tui) fn not_started(problem: &StartProblem, words: &Words) -> Notice {
    let all = complain::start(problem, words);
    Notice::new(all.iter().flat_map(|one| one.lines(words)).collect())
}

/// Why a run is not kept.
fn not_kept(problem: &KeepProblem, words: &Words) -> Notice {
    Notice::new(match problem {
        KeepProblem::Machine(fault) => complain::machine(fault, words),
        KeepProblem::Unwritable(why) => {
            vec![words.say("screens-not-kept", &[("why", why.as_str().into())])]
        }
        KeepProblem::NoNameLeft => vec![words.say("screens-no-name-left", &[])],
        KeepProblem::Damaged(path, problem) => {
            let path = path.to_string_lossy().into_owned();
            let mut texts = vec![words.say("screens-damaged", &[("path", path.into())])];
            texts.extend(not_started(problem, words).texts);
            texts
        }
    })
}
