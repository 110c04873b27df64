//! What a form asks, and what was answered: rows of values to choose from, texts, times and passphrases.

use crate::app::laboratory::Moment;
use crate::people::Passphrase;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::hidden::Hidden;
use crate::units::Stamp;

/// A value that can be chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Offer {
    /// What is read from it.
    pub(super) value: String,
    /// What is shown.
    pub(super) shown: String,
}

impl Offer {
    /// A value with what is shown for it.
    pub(super) fn new(value: &(impl ToString + ?Sized), shown: impl Into<String>) -> Offer {
        Offer {
            value: value.to_string(),
            shown: shown.into(),
        }
    }
}

/// How a row is answered.
pub(super) enum Way {
    /// One of several values; typing narrows them down.
    One {
        offers: Vec<Offer>,
        at: usize,
        sought: Field,
    },
    /// Any of several values.
    Several {
        offers: Vec<(Offer, bool)>,
        at: usize,
    },
    /// A text.
    Text(Field),
    /// A passphrase, unseen.
    Hidden(Hidden),
}

/// One row.
pub(super) struct Row {
    /// Its message, whose part `about` explains it; answers are looked up by it.
    pub(super) id: &'static str,
    pub(super) way: Way,
    /// Why what was answered will not do.
    pub(super) wrong: Option<String>,
}

impl Row {
    fn new(id: &'static str, way: Way) -> Row {
        Row {
            id,
            way,
            wrong: None,
        }
    }

    /// One of several values, of which the one that is wanted is chosen, else the first.
    pub(super) fn one(id: &'static str, offers: Vec<Offer>, wanted: Option<&str>) -> Row {
        let at = wanted.and_then(|wanted| offers.iter().position(|one| one.value == wanted));
        let sought = Field::default();
        let at = at.unwrap_or(0);
        Row::new(id, Way::One { offers, at, sought })
    }

    /// Any of several values, chosen to begin with.
    pub(super) fn several(id: &'static str, offers: Vec<Offer>) -> Row {
        let offers = offers.into_iter().map(|one| (one, true)).collect();
        Row::new(id, Way::Several { offers, at: 0 })
    }

    /// A text, with what stands there to begin with.
    pub(super) fn text(id: &'static str, begins: &str) -> Row {
        let mut field = Field::default();
        begins.chars().for_each(|c| field.typed(c));
        Row::new(id, Way::Text(field))
    }

    /// A passphrase.
    pub(super) fn hidden(id: &'static str) -> Row {
        Row::new(id, Way::Hidden(Hidden::new()))
    }

    /// Takes a command. Returns whether it changed something.
    pub(super) fn handle(&mut self, command: Command) -> bool {
        let changed = match &mut self.way {
            Way::One { offers, at, sought } => choose(offers, at, sought, command),
            Way::Several { offers, at } => {
                let count = offers.len();
                match command {
                    _ if count == 0 => false,
                    Command::Left => {
                        *at = (*at + count - 1) % count;
                        true
                    }
                    Command::Right => {
                        *at = (*at + 1) % count;
                        true
                    }
                    Command::Type(' ') => {
                        offers[*at].1 = !offers[*at].1;
                        true
                    }
                    _ => false,
                }
            }
            Way::Text(field) => match command {
                Command::Type(c) => {
                    field.typed(c);
                    true
                }
                Command::Erase => {
                    field.erase();
                    true
                }
                _ => false,
            },
            Way::Hidden(field) => match command {
                Command::Type(c) => {
                    field.typed(c);
                    true
                }
                Command::Erase => {
                    field.erase();
                    true
                }
                _ => false,
            },
        };
        if changed {
            self.wrong = None;
        }
        changed
    }
}

/// The places of the values that hold every word that was typed.
pub(super) fn fitting(offers: &[Offer], sought: &str) -> Vec<usize> {
    let sought = sought.to_lowercase();
    let words: Vec<&str> = sought.split_whitespace().collect();
    let fits = |one: &Offer| {
        let shown = one.shown.to_lowercase();
        words.iter().all(|word| shown.contains(word))
    };
    let all = offers.iter().enumerate().filter(|(_, one)| fits(one));
    all.map(|(at, _)| at).collect()
}

fn choose(offers: &[Offer], at: &mut usize, sought: &mut Field, command: Command) -> bool {
    match command {
        // Once something is typed, a blank stands between two words of it.
        Command::Type(' ') if !sought.text.is_empty() => sought.typed(' '),
        Command::Left | Command::Right | Command::Type(' ') => {
            let fits = fitting(offers, &sought.text);
            let count = fits.len();
            if count == 0 {
                return false;
            }
            let step = if command == Command::Left {
                count - 1
            } else {
                1
            };
            let next = match fits.iter().position(|one| one == at) {
                Some(there) => (there + step) % count,
                None => 0,
            };
            *at = fits[next];
        }
        Command::Type(c) => {
            sought.typed(c);
            // What does not narrow down is not taken.
            match fitting(offers, &sought.text).first() {
                Some(first) => *at = *first,
                None => sought.erase(),
            }
        }
        Command::Erase => sought.erase(),
        _ => return false,
    }
    true
}

/// What is wrong with an answer.
pub(super) struct Wrong {
    /// The row.
    pub(super) id: &'static str,
    /// The message that says why.
    pub(super) why: &'static str,
}

/// All answers.
pub(super) struct Answers<'a> {
    pub(super) rows: &'a mut [Row],
    /// Now, in the offset that days are meant in.
    pub(super) now: Stamp,
}

impl Answers<'_> {
    /// The text that was typed, or the value that was chosen; empty where there is none.
    pub(super) fn text(&self, id: &str) -> &str {
        let row = self.rows.iter().find(|row| row.id == id);
        match row.map(|row| &row.way) {
            Some(Way::One { offers, at, .. }) => offers.get(*at).map_or("", |one| &one.value),
            Some(Way::Text(field)) => field.text.trim(),
            _ => "",
        }
    }

    /// A value; none where nothing was answered.
    pub(super) fn value<T: std::str::FromStr>(&self, id: &'static str) -> Result<Option<T>, Wrong> {
        let text = self.text(id);
        if text.is_empty() {
            return Ok(None);
        }
        let read = text.parse();
        read.map(Some).map_err(|_| Wrong {
            id,
            why: "deeds-wrong-value",
        })
    }

    /// A value that has to be there.
    pub(super) fn needed<T: std::str::FromStr>(&self, id: &'static str) -> Result<T, Wrong> {
        let why = "deeds-wrong-missing";
        self.value(id)?.ok_or(Wrong { id, why })
    }

    /// A value among named ones that has to be there.
    pub(super) fn word<T: Copy>(
        &self,
        id: &'static str,
        all: &[T],
        word: fn(T) -> &'static str,
    ) -> Result<T, Wrong> {
        let found = all.iter().find(|one| word(**one) == self.text(id));
        let why = "deeds-wrong-missing";
        found.copied().ok_or(Wrong { id, why })
    }

    /// A time; none where nothing was typed.
    pub(super) fn time(&self, id: &'static str, side: Moment) -> Result<Option<Stamp>, Wrong> {
        let text = self.text(id);
        if text.is_empty() {
            return Ok(None);
        }
        let why = "deeds-wrong-time";
        let read = Moment::read(text, side, self.now);
        read.map(Some).ok_or(Wrong { id, why })
    }

    /// The values that are chosen of several.
    pub(super) fn several<T: std::str::FromStr>(&self, id: &str) -> Vec<T> {
        let row = self.rows.iter().find(|row| row.id == id);
        let Some(Way::Several { offers, .. }) = row.map(|row| &row.way) else {
            return Vec::new();
        };
        let chosen = offers.iter().filter(|(_, chosen)| *chosen);
        chosen
            .filter_map(|(one, _)| one.value.parse().ok())
            .collect()
    }

    /// Takes a passphrase; the row is empty afterwards.
    pub(super) fn passphrase(&mut self, id: &'static str) -> Result<Passphrase, Wrong> {
        let row = self.rows.iter_mut().find(|row| row.id == id);
        match row.map(|row| &mut row.way) {
            Some(Way::Hidden(field)) if !field.is_empty() => Ok(field.take()),
            _ => Err(Wrong {
                id,
                why: "deeds-wrong-missing",
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn people() -> Row {
        let offers = ["Ana Beltz", "Ana Costa", "Ivo Dahl"];
        let offers = offers.map(|one| Offer::new(one, one)).to_vec();
        Row::one("who", offers, None)
    }

    fn text(row: Row) -> String {
        let now = "2026-06-30T12:00:00+02:00".parse().unwrap();
        let rows = &mut [row];
        Answers { rows, now }.text("who").to_owned()
    }

    #[test]
    fn typing_narrows_a_choice_down_and_what_fits_nothing_is_not_taken() {
        let mut row = people();
        for c in "anax".chars() {
            row.handle(Command::Type(c));
        }
        row.handle(Command::Right);
        row.handle(Command::Right);
        assert_eq!(text(row), "Ana Beltz", "only two fit");
        let mut row = people();
        row.handle(Command::Left);
        assert_eq!(text(row), "Ivo Dahl");
        let mut empty = Row::one("who", Vec::new(), None);
        assert!(!empty.handle(Command::Right));
        assert_eq!(text(empty), "");
    }

    #[test]
    fn several_are_chosen_and_left_out_one_by_one() {
        let now = "2026-06-30T12:00:00+02:00".parse().unwrap();
        let mut row = Row::several("what", vec![Offer::new("1", "one"), Offer::new("2", "two")]);
        row.handle(Command::Right);
        row.handle(Command::Type(' '));
        let rows = &mut [row];
        assert_eq!(Answers { rows, now }.several::<u8>("what"), [1]);
    }
}
