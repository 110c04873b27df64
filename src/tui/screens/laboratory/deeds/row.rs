//! A field of a form with what was answered so far.

use super::fields::{Answer, Asked, Source};
use crate::record::scope::Id;
use crate::tui::field::Field as Line;

/// A field with what was answered so far.
pub(super) struct Row {
    pub(super) asked: Asked,
    /// What can be chosen, with the words for it.
    pub(super) options: Vec<(Answer, String)>,
    pub(super) chosen: Option<usize>,
    pub(super) line: Line,
    /// What was left out, where all is taken but that.
    left_out: Vec<Answer>,
    /// What somebody named that could not be chosen.
    named: Option<Id>,
    /// Whether it has to be filled in because of what was answered elsewhere.
    pub(super) is_owed: bool,
}

/// What stood in a row at a time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Given {
    answer: Option<Answer>,
    typed: String,
    left_out: Vec<Answer>,
}

impl Row {
    pub(super) fn of(asked: Asked) -> Row {
        Row {
            asked,
            options: Vec::new(),
            chosen: None,
            line: Line::default(),
            left_out: Vec::new(),
            named: None,
            is_owed: false,
        }
    }

    /// Whether it is filled in by typing.
    pub(super) fn is_typed(&self) -> bool {
        match self.asked.source {
            Source::Line
            | Source::Name
            | Source::Begins
            | Source::Ends
            | Source::Number
            | Source::Entry => true,
            Source::Value => self.options.is_empty(),
            _ => false,
        }
    }

    /// Whether it may be left empty. Where one of a list of words stands, one of them has to.
    pub(super) fn may_stay_empty(&self) -> bool {
        let is_word = matches!(self.asked.source, Source::Value) && !self.is_typed();
        self.asked.optional && !is_word && !self.is_owed
    }

    /// Whether all that stands in it is taken, but what is left out.
    pub(super) fn takes_several(&self) -> bool {
        matches!(self.asked.source, Source::Evidence)
    }

    /// Whether one of several is taken.
    pub(super) fn takes(&self, at: usize) -> bool {
        let one = self.options.get(at);
        one.is_some_and(|(answer, _)| !self.left_out.contains(answer))
    }

    /// Whether something else can be named than what can be chosen.
    pub(super) fn takes_names(&self) -> bool {
        matches!(self.asked.source, Source::InScope(_))
    }

    /// Whether typing seeks among what can be chosen.
    pub(super) fn can_be_sought(&self) -> bool {
        !self.options.is_empty() || self.takes_names()
    }

    /// Takes what was named in the place of what can be chosen.
    pub(super) fn name(&mut self, id: Id) {
        self.chosen = Some(self.options.len());
        self.options.push(named(&id));
        self.named = Some(id);
    }

    /// Whether something that could be taken is left out.
    pub(super) fn leaves_out(&self) -> bool {
        self.takes_several() && self.taken() < self.options.len()
    }

    /// How many of several are taken.
    pub(super) fn taken(&self) -> usize {
        (0..self.options.len()).filter(|at| self.takes(*at)).count()
    }

    /// Leaves one of several out, or takes it in again.
    pub(super) fn leave_or_take(&mut self, at: usize) {
        let Some((answer, _)) = self.options.get(at) else {
            return;
        };
        match self.left_out.iter().position(|one| one == answer) {
            Some(found) => drop(self.left_out.remove(found)),
            None => self.left_out.push(answer.clone()),
        }
    }

    pub(super) fn answer(&self) -> Option<&Answer> {
        self.options.get(self.chosen?).map(|(answer, _)| answer)
    }

    /// What was answered, to be compared with what is answered later.
    pub(super) fn given(&self) -> Given {
        Given {
            answer: self.answer().cloned(),
            typed: self.line.text.clone(),
            left_out: self.left_out.clone(),
        }
    }

    /// What stands in the row.
    pub(super) fn shown(&self) -> String {
        if self.is_typed() {
            return self.line.text.clone();
        }
        let chosen = self.chosen.and_then(|at| self.options.get(at));
        chosen.map_or_else(String::new, |(_, shown)| shown.clone())
    }

    pub(super) fn is_empty(&self) -> bool {
        if self.is_typed() {
            self.line.text.trim().is_empty()
        } else {
            self.answer().is_none()
        }
    }

    /// Takes what can be chosen now, and keeps what was chosen where it still can be.
    pub(super) fn offer(&mut self, options: Vec<(Answer, String)>) {
        let before = self.answer().cloned();
        self.options = options;
        let named = self.named.iter().map(named);
        let is_new = |one: &(Answer, String)| !self.options.contains(one);
        let named: Vec<_> = named.filter(is_new).collect();
        self.options.extend(named);
        let same = before.and_then(|before| {
            let mut options = self.options.iter();
            options.position(|(answer, _)| *answer == before)
        });
        let first = match self.asked.source {
            // Which of several people is meant is never guessed; of editions the first is the one that is meant nearly always.
            Source::Edition | Source::NewestEdition => !self.options.is_empty(),
            _ => self.options.len() == 1 && !self.asked.optional,
        };
        self.chosen = same.or_else(|| first.then_some(0));
        let options = &self.options;
        self.left_out
            .retain(|left| options.iter().any(|(answer, _)| answer == left));
    }
}

/// An id as an answer, with the words for it.
pub(super) fn named(id: &Id) -> (Answer, String) {
    (Answer::Id(id.clone()), id.to_string())
}
