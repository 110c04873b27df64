//! Why a use case of the laboratory did not do what was asked.

use super::place::KeyProblem;
use crate::people::{NameProblem, PassphraseProblem, RegisterFault};
use crate::record::entry::EntryFault;
use crate::record::log::{Trouble, WhyNot};
use crate::record::scope::{Authority, Id};
use crate::record::seal::Seal;
use crate::standing::{Holders, Need, Refusal, TooFew};
use crate::syllabus::module::SignOffFault;
use crate::units::PersonCode;

/// Why a use case of the laboratory did not do what was asked. Nothing was recorded, but where it is said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Problem {
    /// A rule speaks against it.
    Refused(Refusal),
    /// A rule speaks against it, and somebody else could sign it or do what is missing.
    RefusedTo {
        /// The rule.
        why: Refusal,
        /// Who could sign it as things stand.
        instead: Vec<PersonCode>,
        /// Who has the right that is missing, and who could give it, where nobody could sign it as things stand.
        holders: Option<Box<Holders>>,
        /// What is missing, each with who could do it.
        lacking: Vec<(Need, Vec<PersonCode>)>,
        /// That it takes more assessors than there are.
        too_few: Option<TooFew>,
    },
    /// It makes no entry.
    Entry(EntryFault),
    /// Something that is kept cannot be read or written.
    Trouble(Trouble),
    /// The entry was not stored.
    NotStored(WhyNot),
    /// Nobody can tell whether the entry was stored. Looking again tells: it has this seal.
    Unknown(Seal),
    /// There is no record here yet.
    NotOpened,
    /// There is a record here already.
    OpenedAlready,
    /// The record lost entries, from this number on. A restore has to be declared before anything is written.
    CutOff(Id, u64),
    /// Nobody here has this code.
    NoSuchPerson(PersonCode),
    /// The person is still here: names are erased after somebody has left.
    StillHere(PersonCode),
    /// The person has no such grant.
    NoSuchGrant(PersonCode, Authority),
    /// The person has no key that holds.
    NoKey(PersonCode),
    /// The person has not signed yet that the signature is theirs.
    NotAccepted(PersonCode),
    /// The private key cannot be had.
    Key(KeyProblem),
    /// The passphrase is another.
    Passphrase {
        /// How many times in a row.
        times: u16,
    },
    /// After so many refusals, the next try has to wait for so many seconds.
    Wait {
        /// How many seconds.
        seconds: u32,
    },
    /// The new passphrase is none that may be used.
    WeakPassphrase(PassphraseProblem),
    /// The register does not allow it.
    Register(RegisterFault),
    /// The name is none that can be printed.
    Name(NameProblem),
    /// The key belongs to the demonstration, where everybody knows its passphrase.
    DemonstrationKey,
    /// No revision of the workflow is adopted.
    NothingAdopted(Id),
    /// That revision is not adopted. Holds those that are.
    NoSuchRevision(Id, u32, Vec<u32>),
    /// The person has several scopes in the workflow, or none: it has to be said which.
    WhichScope(Id, usize),
    /// There is no such entry.
    NoSuchEntry(String),
    /// Several entries begin with these digits.
    SeveralEntries(String),
    /// The module does not say what a sign-off asks for.
    NoProfile(String),
    /// What a sign-off is to ask for contradicts itself.
    Asks(SignOffFault),
    /// What the module asks for cannot stand in an entry. Holds the word at fault.
    BadModule(String),
}

impl From<Refusal> for Problem {
    fn from(refusal: Refusal) -> Problem {
        Problem::Refused(refusal)
    }
}

impl From<Trouble> for Problem {
    fn from(trouble: Trouble) -> Problem {
        Problem::Trouble(trouble)
    }
}

impl From<EntryFault> for Problem {
    fn from(fault: EntryFault) -> Problem {
        Problem::Entry(fault)
    }
}

impl From<RegisterFault> for Problem {
    fn from(fault: RegisterFault) -> Problem {
        Problem::Register(fault)
    }
}

impl From<KeyProblem> for Problem {
    fn from(problem: KeyProblem) -> Problem {
        match problem {
            KeyProblem::Trouble(trouble) => Problem::Trouble(trouble),
            problem => Problem::Key(problem),
        }
    }
}
