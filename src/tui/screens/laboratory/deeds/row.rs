//! A row of a form: what it asks for, what can be chosen, what was answered so far.

use super::fields::{Asked, Source};
use crate::record::scope::{Edition, Id, Scope};
use crate::record::seal::Seal;
use crate::tui::field::Field as Line;
use crate::units::PersonCode;

/// An answer that can be chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Answer {
    Person(PersonCode),
    Scope(Scope),
    Id(Id),
    Edition(Edition),
    Entry(Seal),
    Word(&'static str),
    Name(String),
}

/// A field with what was answered so far.
pub(super) struct Row {
    pub(super) asked: Asked,
    /// What can be chosen, with the words for it.
    pub(super) options: Vec<(Answer, String)>,
    pub(super) chosen: Option<usize>,
    pub(super) line: Line,
    /// What it began with, where something stood there before anybody typed.
    pub(super) began: String,
    /// Whether somebody has typed or erased in it since then.
    is_touched: bool,
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
            began: String::new(),
            is_touched: false,
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
            | Source::OfModule(_)
            | Source::OfPolicy(_)
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

    /// Whether several answers can be taken at once.
    pub(super) fn takes_several(&self) -> bool {
        matches!(self.asked.source, Source::Evidence | Source::SomeOf(_))
    }

    /// Whether one of several is taken.
    pub(super) fn takes(&self, at: usize) -> bool {
        let one = self.options.get(at);
        one.is_some_and(|(answer, _)| !self.left_out.contains(answer))
    }

    /// The words that are taken of several.
    pub(super) fn words(&self) -> Vec<&'static str> {
        let options = self.options.iter().enumerate();
        let words = options.filter_map(|(at, (answer, _))| match answer {
            Answer::Word(word) if self.takes(at) => Some(*word),
            _ => None,
        });
        words.collect()
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

    /// Whether something is left out of what was seen.
    pub(super) fn leaves_out(&self) -> bool {
        matches!(self.asked.source, Source::Evidence) && self.taken() < self.options.len()
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
        } else if matches!(self.asked.source, Source::SomeOf(_)) {
            self.taken() == 0
        } else {
            self.answer().is_none()
        }
    }

    /// Begins with a text, unless another was typed.
    pub(super) fn begin(&mut self, text: String) {
        if text == self.began {
            return;
        }
        if self.line.text == self.began {
            self.line.text.clone_from(&text);
            self.is_touched = false;
        }
        self.began = text;
    }

    /// Whether what it began with still stands there as it was, so that the next character takes its place.
    pub(super) fn gives_way(&self) -> bool {
        !self.is_touched && !self.began.is_empty()
    }

    /// Takes a character. What the row began with gives way to the first.
    pub(super) fn typed(&mut self, c: char) {
        if self.gives_way() {
            self.line.text.clear();
        }
        self.is_touched = true;
        self.line.typed(c);
    }

    /// Takes back the last character, also of what it began with.
    pub(super) fn erase(&mut self) {
        self.is_touched = true;
        self.line.erase();
    }

    /// Takes what can be chosen now, and keeps what was chosen where it still can be.
    pub(super) fn offer(&mut self, options: Vec<(Answer, String)>) {
        let before = self.answer().cloned();
        // Of what was seen all is taken at first, of what could be chosen nothing.
        if matches!(self.asked.source, Source::SomeOf(_)) && self.options.is_empty() {
            let each = options.iter().map(|(answer, _)| answer.clone());
            self.left_out = each.collect();
        }
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
