//! The rules of the register: which code stands for whom, under which names, until they are erased.
//!
//! The record holds codes and commitments; names stand here and nowhere else. A commitment is a digest of a random salt and the name, so that
//! the record shows later which name was printed, as long as the register keeps both, and shows nothing once they are erased. Codes
//! outlive their people: an erased person's code is never issued again. Beside it: which new passphrases are refused. Left out: where the register
//! is kept, and random bytes, which are arguments.

mod name;
mod passphrase;

use std::collections::BTreeMap;

use crate::units::{Digest, Instant, PersonCode};

pub use name::{Name, NameProblem, Salt};
pub use passphrase::{Passphrase, PassphraseProblem, delay};

/// A name as it was from some time on.
#[derive(Clone, PartialEq, Eq)]
pub struct NameVersion {
    /// The name as it is printed.
    pub name: Name,
    /// Random bytes of this version alone.
    pub salt: Salt,
    /// From when.
    pub since: Instant,
}

impl NameVersion {
    /// What the record holds in the place of the name.
    #[must_use]
    pub fn commitment(&self) -> Digest {
        self.name.commitment(&self.salt)
    }
}

/// What the register holds under a code.
#[derive(Clone, PartialEq, Eq)]
enum Row {
    /// Names, the oldest first; never empty.
    Named(Vec<NameVersion>),
    /// Names and salts are gone.
    Erased,
}

/// Codes with what stands behind them.
#[derive(Clone, Default, PartialEq, Eq)]
pub struct Register {
    rows: BTreeMap<PersonCode, Row>,
}

/// Why the register did not change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RegisterFault {
    /// None of the codes that were drawn is free. Draw again.
    NoFreeCode,
    /// The code was never issued.
    UnknownCode(PersonCode),
    /// The person's names are erased.
    Erased(PersonCode),
    /// The salt was used before. A salt that is used twice shows that two names are the same.
    SaltUsed,
    /// The new name begins before the one it replaces.
    BeforeLast,
    /// The code is in the register already.
    CodeTaken(PersonCode),
}

/// What the register says of a code.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Known<'a> {
    /// The name at that time.
    Name(&'a Name),
    /// An erased person.
    Erased,
    /// Nobody.
    Nobody,
}

impl<'a> Known<'a> {
    /// The name as it is printed, where one is known.
    #[must_use]
    pub fn printed(self) -> Option<&'a str> {
        match self {
            Known::Name(name) => Some(name.as_str()),
            Known::Erased | Known::Nobody => None,
        }
    }
}

impl Register {
    /// An empty register.
    #[must_use]
    pub fn new() -> Register {
        Register::default()
    }

    /// Gives a new person the first code of these draws that was never issued, neither here nor in the record.
    ///
    /// # Errors
    ///
    /// No draw is free, or the salt was used before.
    pub fn issue(
        &mut self,
        draws: &[[u8; 5]],
        in_record: &dyn Fn(PersonCode) -> bool,
        first: NameVersion,
    ) -> Result<PersonCode, RegisterFault> {
        self.check_salt(&first.salt)?;
        let codes = draws.iter().map(|draw| PersonCode::from_random(*draw));
        let mut free = codes.filter(|code| !self.rows.contains_key(code) && !in_record(*code));
        let code = free.next().ok_or(RegisterFault::NoFreeCode)?;
        self.rows.insert(code, Row::Named(vec![first]));
        Ok(code)
    }

    /// Puts in what is stored under a code, when the register is read from where it is kept. No names are an erased person.
    ///
    /// # Errors
    ///
    /// The code is there already, a salt was used before, or names are out of order.
    pub fn restore(
        &mut self,
        code: PersonCode,
        names: Vec<NameVersion>,
    ) -> Result<(), RegisterFault> {
        if self.rows.contains_key(&code) {
            return Err(RegisterFault::CodeTaken(code));
        }
        let mut names = names.into_iter();
        let Some(first) = names.next() else {
            self.rows.insert(code, Row::Erased);
            return Ok(());
        };
        self.check_salt(&first.salt)?;
        self.rows.insert(code, Row::Named(vec![first]));
        names.try_for_each(|name| self.rename(code, name))
    }

    /// Gives a person a new name from some time on. Earlier names stay: what was signed under them was printed so.
    ///
    /// # Errors
    ///
    /// The person is unknown or erased, the salt was used before, or the name begins before the last one.
    pub fn rename(&mut self, code: PersonCode, next: NameVersion) -> Result<(), RegisterFault> {
        self.check_salt(&next.salt)?;
        match self.rows.get_mut(&code) {
            None => Err(RegisterFault::UnknownCode(code)),
            Some(Row::Erased) => Err(RegisterFault::Erased(code)),
            Some(Row::Named(names)) => {
                if names.last().is_some_and(|last| next.since < last.since) {
                    return Err(RegisterFault::BeforeLast);
                }
                names.push(next);
                Ok(())
            }
        }
    }

    /// Forgets a person's names and salts. The code stays taken.
    ///
    /// # Errors
    ///
    /// The person is unknown or erased already.
    pub fn erase(&mut self, code: PersonCode) -> Result<(), RegisterFault> {
        match self.rows.get_mut(&code) {
            None => Err(RegisterFault::UnknownCode(code)),
            Some(Row::Erased) => Err(RegisterFault::Erased(code)),
            Some(row) => {
                *row = Row::Erased;
                Ok(())
            }
        }
    }

    /// The person's name at a time; the first name for times before it.
    #[must_use]
    pub fn name(&self, code: PersonCode, at: Instant) -> Known<'_> {
        match self.rows.get(&code) {
            None => Known::Nobody,
            Some(Row::Erased) => Known::Erased,
            Some(Row::Named(names)) => {
                let then = names.iter().rev().find(|name| name.since <= at);
                let then = then.or_else(|| names.first());
                then.map_or(Known::Erased, |name| Known::Name(&name.name))
            }
        }
    }

    /// What the record holds in the place of the person's name at a time; none where no name is known.
    #[must_use]
    pub fn commitment(&self, code: PersonCode, at: Instant) -> Option<Digest> {
        match self.rows.get(&code) {
            Some(Row::Named(names)) => {
                let then = names.iter().rev().find(|name| name.since <= at);
                then.or_else(|| names.first()).map(NameVersion::commitment)
            }
            Some(Row::Erased) | None => None,
        }
    }

    /// The name that a commitment in the record stands for, if it is one of this person's.
    #[must_use]
    pub fn committed(&self, code: PersonCode, commitment: &Digest) -> Known<'_> {
        match self.rows.get(&code) {
            Some(Row::Erased) => Known::Erased,
            Some(Row::Named(names)) => {
                let meant = names.iter().find(|name| name.commitment() == *commitment);
                meant.map_or(Known::Nobody, |name| Known::Name(&name.name))
            }
            None => Known::Nobody,
        }
    }

    /// What is to be stored: every code with its names; none for erased people.
    pub fn rows(&self) -> impl Iterator<Item = (PersonCode, &[NameVersion])> {
        self.rows.iter().map(|(code, row)| match row {
            Row::Named(names) => (*code, names.as_slice()),
            Row::Erased => (*code, [].as_slice()),
        })
    }

    fn check_salt(&self, salt: &Salt) -> Result<(), RegisterFault> {
        let mut names = self.rows().flat_map(|(_, names)| names);
        if names.any(|name| name.salt == *salt) {
            Err(RegisterFault::SaltUsed)
        } else {
            Ok(())
        }
    }
}

#[cfg(test)]
mod tests;
