//! What lies over the bench for a moment: something that has come up, leaving, handing over, waiting, looking, finding.

use super::Sitting;
use crate::app::System;
use crate::text::display_safe;
use crate::tui::field::Field;
use crate::tui::list::{Choice, Scroll};
use crate::tui::screen::{Desk, Notice};

/// What lies over the bench.
#[derive(Clone, Debug)]
pub(super) enum Over {
    /// Nothing.
    Nothing,
    /// A question with a few answers.
    Ask(Ask),
    /// How long to wait: what has been typed, the sign that is waited for when nothing is typed, and what was wrong before.
    Wait(Field, Choice, Option<Notice>),
    /// Everything that can be seen.
    Look(Scroll),
    /// Looking for something that can be done, by its words.
    Find(Field, Choice),
}

/// A question with a few answers.
#[derive(Clone, Debug)]
pub(super) struct Ask {
    /// What has to be read first.
    pub(super) texts: Vec<String>,
    /// The answers in words.
    pub(super) answers: Vec<(Answer, String)>,
    /// The answer that Enter would give.
    pub(super) choice: Choice,
}

/// An answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Answer {
    /// This response to what has come up, by id.
    Respond(String),
    /// Goes on as if nothing were, or stays where one is.
    Stay,
    /// Leaves; the run is kept and can be gone on with.
    Leave,
    /// Hands the work over.
    HandOver,
    /// Gives the run up.
    GiveUp,
}

impl<S: System> Sitting<S> {
    /// What has come up, with the answers that are offered.
    pub(super) fn ask_disturbance(&self, desk: &Desk<S>) -> Option<Ask> {
        let rehearsal = self.session.rehearsal();
        let open = rehearsal.open_disturbance()?;
        let disturbance = &rehearsal.module().disturbances[open];
        let responses = disturbance.responses.iter();
        let mut answers: Vec<(Answer, String)> = responses
            .map(|one| {
                (
                    Answer::Respond(one.id.value.clone()),
                    display_safe(&one.title),
                )
            })
            .collect();
        // Sorted by title, so that where an answer stands does not tell whether it is right.
        answers.sort_by(|one, other| one.1.cmp(&other.1));
        answers.push((Answer::Stay, desk.say("screens-sitting-go-on", &[])));
        Some(Ask {
            texts: vec![
                display_safe(&disturbance.seen),
                desk.say("screens-sitting-came-up", &[]),
            ],
            answers,
            choice: Choice::NONE,
        })
    }

    /// Whether to leave.
    pub(super) fn ask_leave(&self, desk: &Desk<S>) -> Ask {
        let say = |id: &str| desk.say(id, &[]);
        let (text, leave) = if self.keeper.path().is_some() {
            ("screens-sitting-leave-kept", "screens-sitting-leave")
        } else {
            ("screens-sitting-leave-unkept", "screens-sitting-leave-lose")
        };
        Ask {
            texts: vec![say(text)],
            answers: vec![
                (Answer::Stay, say("screens-sitting-stay")),
                (Answer::Leave, say(leave)),
            ],
            choice: Choice::default(),
        }
    }

    /// Whether to hand the work over or to give it up.
    pub(super) fn ask_end(&self, answer: Answer, desk: &Desk<S>) -> Ask {
        let say = |id: &str| desk.say(id, &[]);
        let (text, end) = if answer == Answer::HandOver {
            ("screens-sitting-finish-sure", "screens-sitting-finish")
        } else {
            ("screens-sitting-abandon-sure", "screens-sitting-abandon")
        };
        Ask {
            texts: vec![say(text)],
            answers: vec![
                (answer, say(end)),
                (Answer::Stay, say("screens-sitting-stay")),
            ],
            choice: Choice::default(),
        }
    }

    /// What can be done and has these words in its title: group, row and title.
    pub(super) fn found(&self, sought: &str) -> Vec<(usize, usize, String)> {
        let sought = sought.trim().to_lowercase();
        let groups = self.groups.iter().enumerate();
        let all = groups.flat_map(|(group, one)| {
            let moves = one.moves.iter().enumerate();
            moves.map(move |(row, (_, title))| (group, row, title.clone()))
        });
        let words: Vec<&str> = sought.split_whitespace().collect();
        let holds = |title: &str| {
            let title = title.to_lowercase();
            words.iter().all(|word| title.contains(word))
        };
        all.filter(|(_, _, title)| holds(title)).collect()
    }
}
