//! The demonstration: an invented laboratory over eighteen months, made through the use cases by a generator that gives the same bytes every time.
//!
//! Nobody in it exists. Its passphrases are shown to whoever opens it and its keys are known to everybody, so other laboratories refuse them. Every
//! entry passed every rule when it was made. Left out: runs at the simulated bench; what is attached to a rehearsal says that there was none.

mod acts;
mod calendar;
mod cast;
mod keeping;
mod learning;
mod opening;
mod routine;
mod story;
mod telling;

use std::cell::RefCell;

use super::fault::Fault;
use super::laboratory::{Dice, Laboratory, MemoryPlace, Problem};
use super::shelf::{Shelf, ShelfProblem, Taken};
use crate::people::{Name, Passphrase};
use crate::rng::{Seed, Stream};
use crate::text::Words;
use crate::units::{PersonCode, Stamp};

pub use cast::Role;
use cast::{CAST, GONE, Work};
pub use opening::{no_demonstration, throw_away, write_into};
use telling::{Telling, passphrase};

/// Everything in the demonstration is drawn from this. Any number would do.
const SEED: Seed = Seed(412);

/// The demonstration, open, with its clock set to [`Demonstration::today`].
pub struct Demonstration {
    /// The laboratory.
    pub laboratory: Laboratory<MemoryPlace>,
    /// Everybody who ever worked there, in the order of joining; the owner first.
    pub people: Vec<Invented>,
    /// The instant that is now in the demonstration: 30 June 2026, the end of the working day, in central European summer time.
    pub today: Stamp,
}

/// A person of the demonstration, and how to sign in as that person.
pub struct Invented {
    /// The code.
    pub code: PersonCode,
    /// The name as it is printed.
    pub name: Name,
    /// What the person does there.
    pub role: Role,
    /// The passphrase, which everybody knows.
    pub passphrase: Passphrase,
    /// Whether the person has left: then nobody can sign in with it.
    pub left: bool,
}

/// Why there is no demonstration: the machine refused, or the shipped texts are not those that the story was written for.
#[derive(Clone, Debug)]
pub enum NoDemonstration {
    /// A module is not on the shelf.
    Shelf(ShelfProblem),
    /// A use case refused.
    Problem(Problem),
    /// The machine refused a folder.
    Fault(Fault),
}

impl From<Problem> for NoDemonstration {
    fn from(problem: Problem) -> NoDemonstration {
        NoDemonstration::Problem(problem)
    }
}

/// The text by which the stock teeth were worked before the one on the shelf: the same under the number before, with a caution that it is invented.
fn earlier(shelf: &Shelf, words: &Words) -> Result<Taken, NoDemonstration> {
    let id = Work::Teeth.module();
    let now = shelf
        .take(id, None)
        .map_err(NoDemonstration::Shelf)?
        .module
        .identity
        .revision;
    let not_that = || NoDemonstration::Problem(Problem::BadModule(id.to_owned()));
    let path = shelf.path(id).ok_or_else(not_that)?;
    let text = shelf.file(path).and_then(|it| std::str::from_utf8(it).ok());
    let text = text.ok_or_else(not_that)?;
    let said = serde_json::Value::from(words.say("demonstration-revision", &[]));
    let before = text
        .replacen(
            &format!("revision: {now}"),
            &format!("revision: {}", now - 1),
            1,
        )
        .replacen("cautions:\n", &format!("cautions:\n  - {said}\n"), 1);
    let mut other = shelf.clone();
    other.lay("modules/constructions/earlier.yaml", before.into_bytes());
    other.take(id, None).map_err(NoDemonstration::Shelf)
}

/// Makes the demonstration from the shipped modules, in a language: the same bytes every time.
///
/// # Errors
///
/// The shipped texts are not those that the story was written for.
pub fn demonstration(words: &Words) -> Result<Demonstration, NoDemonstration> {
    let shelf = Shelf::shipped();
    let take = |work: Work| -> Result<Taken, NoDemonstration> {
        let taken = shelf.take(work.module(), None);
        taken.map_err(NoDemonstration::Shelf)
    };
    let taken = [take(Work::Wet)?, take(Work::Teeth)?];
    let opening = calendar::at(calendar::day(calendar::FIRST), 8 * 60);
    let place = MemoryPlace::demonstration(opening, dice());
    let hours = Stream::new(SEED, "demonstration hours");
    let earlier = earlier(&shelf, words)?;
    let mut telling = Telling::begin(place, words, &taken, &earlier, hours)?;
    for planned in story::story() {
        telling.perform(&planned)?;
    }
    let mut people = Vec::new();
    for (who, part) in CAST.iter().enumerate() {
        people.push(Invented {
            code: telling.code(who),
            name: part.name.parse().map_err(Problem::Name)?,
            role: part.role,
            passphrase: passphrase(who),
            left: who == GONE,
        });
    }
    let today = calendar::at(calendar::day(calendar::TODAY), 17 * 60);
    let laboratory = telling.laboratory;
    laboratory.place().set(today);
    Ok(Demonstration {
        laboratory,
        people,
        today,
    })
}

/// The passphrase of a person of the demonstration by the name that is printed there. Everybody knows it.
#[must_use]
pub fn known_passphrase(name: &str) -> Option<&'static str> {
    known(name).map(|part| part.passphrase)
}

/// What a person of the demonstration does there, by the name that is printed.
#[must_use]
pub fn known_role(name: &str) -> Option<Role> {
    known(name).map(|part| part.role)
}

fn known(name: &str) -> Option<&'static cast::Part> {
    CAST.iter().find(|part| part.name == name)
}

/// Salts and codes. Keys are not drawn: [`MemoryPlace::demonstration`] hands out those that everybody knows.
fn dice() -> Dice {
    let stream = RefCell::new(Stream::new(SEED, "demonstration dice"));
    Box::new(move |bytes| {
        for byte in bytes {
            *byte = u8::try_from(stream.borrow_mut().between(0, 255)).unwrap_or(0);
        }
    })
}

#[cfg(test)]
mod tests;
