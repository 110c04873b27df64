//! The laboratory that lies open under the screens.
//!
//! Screens ask it when something happens and keep what they show as values of their own; nothing of it is read while a picture is made.

use std::collections::BTreeMap;

use super::screen::Notice;
use crate::app::demonstration::{Role, known_passphrase, known_role};
use crate::app::laboratory::worded;
use crate::app::laboratory::{Laboratory, Place, Problem};
use crate::record::seal::Seal;
use crate::report::record::{AsOf, Telling};
use crate::standing::Reading;
use crate::text::Words;
use crate::units::PersonCode;

/// An open laboratory at the screens.
pub struct House<P: Place> {
    /// The record in use.
    pub laboratory: Laboratory<P>,
    names: BTreeMap<PersonCode, String>,
    name: String,
    is_demonstration: bool,
    /// The entry that a screen over this one has just had signed, until it is taken note of.
    signed: Option<Seal>,
}

impl<P: Place> House<P> {
    /// Goes on with a laboratory.
    ///
    /// # Errors
    /// The names of its people or its own cannot be read.
    pub fn of(laboratory: Laboratory<P>, words: &Words) -> Result<House<P>, Problem> {
        let mut laboratory = laboratory;
        laboratory.keep_its_time();
        let title = laboratory.place().title()?;
        let mut house = House {
            is_demonstration: laboratory.is_demonstration(),
            name: title.map_or_else(String::new, |title| title.name.as_str().to_owned()),
            names: BTreeMap::new(),
            laboratory,
            signed: None,
        };
        house.learn_names(words)?;
        Ok(house)
    }

    /// Looks names up again after the register has changed.
    ///
    /// # Errors
    /// They cannot be read.
    pub fn learn_names(&mut self, words: &Words) -> Result<(), Problem> {
        self.names = self.laboratory.printed_names(words)?;
        Ok(())
    }

    /// What the laboratory is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Whether everything in it is invented.
    #[must_use]
    pub fn is_demonstration(&self) -> bool {
        self.is_demonstration
    }

    /// Remembers that an entry was signed, for the screen underneath.
    pub fn note_signed(&mut self, seal: Seal) {
        self.signed = Some(seal);
    }

    /// The entry that was signed on a screen over this one, once.
    pub fn take_signed(&mut self) -> Option<Seal> {
        self.signed.take()
    }

    /// Now, and everything that is known now.
    pub fn today(&self) -> AsOf {
        AsOf {
            at: self.laboratory.now(),
            reading: Reading::AsNowKnown,
        }
    }

    /// The name of a person as it is printed.
    #[must_use]
    pub fn name_of(&self, code: PersonCode) -> String {
        self.names.get(&code).cloned().unwrap_or_default()
    }

    /// The passphrase of a person of the demonstration, which everybody knows; none in any other laboratory.
    #[must_use]
    pub fn open_passphrase(&self, code: PersonCode) -> Option<&'static str> {
        if !self.is_demonstration {
            return None;
        }
        known_passphrase(self.names.get(&code)?)
    }

    /// What a person of the demonstration does there; none in any other laboratory.
    #[must_use]
    pub fn open_role(&self, code: PersonCode) -> Option<Role> {
        if !self.is_demonstration {
            return None;
        }
        known_role(self.names.get(&code)?)
    }

    /// Says something with names and entries at hand.
    pub fn told<T>(&self, words: &Words, say: impl FnOnce(&Telling<'_>) -> T) -> T {
        let names = |code| self.name_of(code);
        say(&Telling {
            ledger: self.laboratory.ledger(),
            words,
            names: &names,
        })
    }

    /// A problem in words: what happened, what was kept, what to do.
    #[must_use]
    pub fn problem(&self, problem: &Problem, words: &Words) -> Notice {
        let told = self.told(words, |telling| worded::problem(problem, telling));
        Notice::told(told)
    }
}
