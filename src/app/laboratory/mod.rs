//! The laboratory's record in use: who does what to it, by which rules, under whose signature.
//!
//! One file for each group of use cases. What is shown is worked out anew from the entries each time; nothing that follows from them is kept.

mod adopting;
mod amending;
mod attending;
mod beside;
mod deeds;
mod entitled;
mod founding;
mod invented;
mod looking;
mod memory;
mod moment;
mod moving;
mod numbers;
mod observing;
mod place;
mod practising;
mod problem;
mod showing;
mod signing;
mod staffing;
mod watched;
pub mod worded;

use std::collections::BTreeMap;

use crate::people::Register;
use crate::record::entry::Entry;
use crate::record::log::Trouble;
use crate::record::scope::{Id, Text};
use crate::record::seal::Seal;
use crate::record::strand::Head;
use crate::standing::{Doubt, Ledger, Reading, View};
use crate::text::Sought;
use crate::units::{Instant, PersonCode, Stamp};

pub use adopting::{Adoption, edition_of, profile_of};
pub use amending::typed_value;
pub use attending::{Attendance, IDLE_MOST};
pub use deeds::{NO_UNIT, Wanted};
pub use entitled::rights;
pub use founding::{Founding, Owner, check_first};
pub use invented::{demonstration_keys, demonstration_seed};
pub use looking::{Checking, verify};
pub use memory::{Dice, MemoryPlace};
pub use moment::{Calendar, Moment};
pub use numbers::{Departure, Number, OwnNumbers, told_departures};
pub(super) use observing::every_step;
pub use observing::{Entered, Sheet, SheetProblem, blank};
pub use place::{CopyProblem, Keeping, KeyProblem, Place, Title, folder};
pub use problem::Problem;
pub use showing::{shown, shown_all};
pub use signing::{Deed, Document, Done, Draft};
pub use staffing::NewKey;

/// The version of the program, as it stands in every entry.
const PROGRAM: &str = env!("CARGO_PKG_VERSION");

/// A laboratory's record, open.
pub struct Laboratory<P: Place> {
    place: P,
    ledger: Ledger,
    heads: BTreeMap<Id, Head>,
    workstation: Id,
    /// The first strand whose newest entries are missing, with the number of the first.
    cut_off: Option<(Id, u64)>,
}

impl<P: Place> Laboratory<P> {
    /// Opens the record that is kept here.
    ///
    /// Chains and remembered heads are looked at on the way: what rests on something broken is not shown. Signatures are for `verify`.
    ///
    /// # Errors
    ///
    /// There is none, or it cannot be read.
    pub fn open(place: P) -> Result<Laboratory<P>, Problem> {
        let title = place.title()?.ok_or(Problem::NotOpened)?;
        let mut laboratory = Laboratory {
            place,
            ledger: Ledger::new(),
            heads: BTreeMap::new(),
            workstation: title.workstation,
            cut_off: None,
        };
        laboratory.read_all()?;
        if laboratory.heads.is_empty() {
            return Err(Problem::NotOpened);
        }
        Ok(laboratory)
    }

    /// Where it is kept.
    pub fn place(&self) -> &P {
        &self.place
    }

    /// Where it is kept, to change it.
    pub fn place_mut(&mut self) -> &mut P {
        &mut self.place
    }

    /// Ends the use of it.
    pub fn into_place(self) -> P {
        self.place
    }

    /// The entries by what they are about.
    #[must_use]
    pub fn ledger(&self) -> &Ledger {
        &self.ledger
    }

    /// The entries as they count at an instant.
    #[must_use]
    pub fn view(&self, at: Instant, reading: Reading) -> View<'_> {
        View::new(&self.ledger, at, reading)
    }

    /// Now, by the clock of the machine.
    pub fn now(&self) -> Stamp {
        self.place.now()
    }

    /// The strand that is written here.
    #[must_use]
    pub fn workstation(&self) -> &Id {
        &self.workstation
    }

    /// Takes in what others have written since.
    ///
    /// # Errors
    ///
    /// The record cannot be read.
    pub fn refresh(&mut self) -> Result<(), Problem> {
        let strands = self.place.log().strands()?;
        let mut moved = Vec::new();
        for strand in strands {
            let head = self.place.log().head(&strand)?;
            if head.as_ref() != self.heads.get(&strand) {
                moved.push(strand);
            }
        }
        match moved.as_slice() {
            [] => Ok(()),
            [own] if *own == self.workstation => {
                let own = own.clone();
                let known = self.heads.get(&own).map_or(0, |head| head.number);
                for entry in self.read(&own, known + 1)? {
                    self.heads.insert(own.clone(), entry.head());
                    self.ledger.add(entry);
                }
                Ok(())
            }
            // Rights are judged in one order over all strands.
            _ => self.read_all(),
        }
    }

    fn read_all(&mut self) -> Result<(), Problem> {
        self.heads.clear();
        let mut all = Vec::new();
        let mut doubts = Vec::new();
        for strand in self.place.log().strands()? {
            let mut last: Option<Head> = None;
            let mut broken: Option<Doubt> = None;
            for bytes in self.place.log().entries(&strand, 1) {
                let bytes = bytes?;
                let (number, seal) =
                    last.map_or((1, Seal::NONE), |head| (head.number + 1, head.seal));
                let doubt = |hidden_since| Doubt {
                    strand: strand.clone(),
                    number,
                    hidden_since,
                };
                match Entry::read(&bytes) {
                    Ok(entry) => {
                        let frame = entry.frame();
                        if (frame.number, frame.previous) != (number, seal) {
                            broken.get_or_insert(doubt(None));
                        }
                        last = Some(entry.head());
                        all.push(entry);
                    }
                    Err(crate::record::entry::EntryFault::Newer(format)) => {
                        return Err(Trouble::Newer(format).into());
                    }
                    Err(_) => {
                        let since = last.map(|head| head.recorded.instant());
                        broken.get_or_insert(doubt(Some(since.unwrap_or(Instant::from_epoch(0)))));
                    }
                }
            }
            doubts.extend(broken);
            if let Some(head) = last {
                self.heads.insert(strand, head);
            }
        }
        self.cut_off = None;
        for (strand, number, seal) in self.place.heads()? {
            let there = self.heads.get(&strand);
            let length = there.map_or(0, |head| head.number);
            let same = all.iter().any(|entry: &Entry| {
                entry.frame().strand == strand
                    && entry.frame().number == number
                    && entry.seal() == seal
            });
            if !same {
                let from = number.min(length + 1);
                let since = there.map_or(Instant::from_epoch(0), |head| head.recorded.instant());
                doubts.push(Doubt {
                    strand: strand.clone(),
                    number: from,
                    hidden_since: Some(since),
                });
                self.cut_off.get_or_insert((strand, from));
            }
        }
        self.ledger = Ledger::collect(all);
        doubts
            .into_iter()
            .for_each(|doubt| self.ledger.doubt(doubt));
        Ok(())
    }

    fn read(&self, strand: &Id, from: u64) -> Result<Vec<Entry>, Problem> {
        let entries = self.place.log().entries(strand, from);
        entries
            .map(|bytes| Entry::read(&bytes?).map_err(|_| Trouble::Damaged.into()))
            .collect()
    }

    /// Finds an entry by `STRAND/NUMBER`, by a number of this workstation's strand, or by the first digits of its seal.
    ///
    /// # Errors
    ///
    /// There is none, or there are several.
    pub fn find(&self, wanted: &str) -> Result<&Entry, Problem> {
        let none = || Problem::NoSuchEntry(wanted.to_owned());
        let (strand, number) = match wanted.rsplit_once('/') {
            Some((strand, number)) => (strand.to_owned(), number),
            None => (self.workstation.to_string(), wanted),
        };
        let mut entries = self.ledger.entries().iter();
        if let Ok(number) = number.parse::<u64>() {
            let there = entries.find(|entry| {
                entry.frame().number == number && entry.frame().strand.to_string() == strand
            });
            if let Some(there) = there {
                return Ok(there);
            }
        }
        // Fewer digits could be a mistyped number.
        if wanted.len() < 8 {
            return Err(none());
        }
        let mut found = self
            .ledger
            .entries()
            .iter()
            .filter(|entry| entry.seal().to_string().starts_with(wanted));
        let first = found.next().ok_or_else(none)?;
        if found.next().is_some() {
            return Err(Problem::SeveralEntries(wanted.to_owned()));
        }
        Ok(first)
    }

    /// The names of people.
    ///
    /// # Errors
    ///
    /// The register cannot be read.
    pub fn register(&self) -> Result<Register, Problem> {
        Ok(self.place.register()?)
    }

    /// Everybody of this record who is here now, with the code.
    pub fn people(&self) -> impl Iterator<Item = PersonCode> + '_ {
        self.ledger.staff().people()
    }

    /// The person that somebody means: a code, or the only one whose name begins so or holds the word.
    ///
    /// # Errors
    ///
    /// Nobody or several are meant.
    pub fn person(&self, wanted: &str) -> Result<PersonCode, PersonProblem> {
        if let Ok(code) = wanted.parse() {
            return Ok(code);
        }
        let register = self.place.register().map_err(PersonProblem::Trouble)?;
        let now = self.now().instant();
        let asked = Sought::new(wanted);
        let meant: Vec<PersonCode> = self
            .people()
            .filter(|code| {
                let name = register.name(*code, now).printed();
                name.is_some_and(|name| asked.is_in(name))
            })
            .collect();
        match meant.as_slice() {
            [one] => Ok(*one),
            [] => Err(PersonProblem::Nobody),
            several => Err(PersonProblem::Several(several.len())),
        }
    }
}

/// Why it is not clear who is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PersonProblem {
    /// Nobody.
    Nobody,
    /// So many.
    Several(usize),
    /// The register cannot be read.
    Trouble(Trouble),
}

/// A text of the program that is known to fit into an entry.
fn fixed(text: &str) -> Result<Text, Problem> {
    text.parse()
        .map_err(|_| Problem::BadModule(text.to_owned()))
}

#[cfg(test)]
mod tests;
