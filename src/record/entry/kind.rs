//! What the record has to know about every kind of entry.

use crate::record::scope::{Authority, Id, Meaning, Scope};
use crate::record::seal::Seal;
use crate::units::{Digest, PersonCode};

/// What an entry is about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Subject<'a> {
    /// Whom it is about.
    pub person: Option<PersonCode>,
    /// Which workflow.
    pub workflow: Option<&'a Id>,
    /// Which scope.
    pub scope: Option<&'a Scope>,
}

impl<'a> Subject<'a> {
    pub(super) fn person(person: PersonCode) -> Subject<'a> {
        Subject {
            person: Some(person),
            ..Subject::default()
        }
    }

    pub(super) fn workflow(person: PersonCode, workflow: &'a Id) -> Subject<'a> {
        Subject {
            workflow: Some(workflow),
            ..Subject::person(person)
        }
    }

    pub(super) fn scope(person: PersonCode, scope: &'a Scope) -> Subject<'a> {
        Subject {
            scope: Some(scope),
            ..Subject::workflow(person, &scope.workflow)
        }
    }
}

/// Whether an entry can be put right by another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amending {
    /// Never: another entry of its kind says what holds from then on.
    Never,
    /// It can be corrected and voided.
    Free,
    /// It can be corrected and voided; that counts when a second person has signed it.
    Critical,
    /// It can be voided; that counts when a second person has signed it.
    VoidOnly,
}

/// A kind of entry.
pub trait Kind {
    /// What the entry is about.
    fn subject(&self) -> Subject<'_>;

    /// The entries that it names.
    fn refers(&self) -> Vec<Seal> {
        Vec::new()
    }

    /// The documents that it names, each by the member that does, with its digest.
    fn documents(&self) -> Vec<(&'static str, Digest)> {
        Vec::new()
    }

    /// Whether a reason must be given.
    fn needs_reason(&self) -> bool {
        false
    }

    /// What entitles a second person to sign it too.
    fn seconds(&self) -> &'static [Authority] {
        &[Authority::Approve, Authority::Quality, Authority::Own]
    }

    /// Whether it can be put right by another entry.
    fn amending(&self) -> Amending {
        Amending::Never
    }
}

/// A kind that somebody answers for.
pub trait SignedKind: Kind {
    /// Who may sign it.
    fn right(&self) -> Right<'_>;

    /// What a signature under it can mean.
    fn meanings(&self) -> &'static [Meaning];
}

/// Who may sign an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Right<'a> {
    /// Whoever has one of these; everybody who is here where it is empty.
    pub any_of: &'static [Authority],
    /// The authority has to reach this workflow.
    pub workflow: Option<&'a Id>,
    /// What the signer has to do with the person that the entry is about.
    pub person: PersonRule,
}

/// What a signer has to do with the person that the entry is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PersonRule {
    /// Nothing.
    Anyone,
    /// The signer is that person.
    Only(PersonCode),
    /// The signer is somebody else.
    Not(PersonCode),
    /// That person needs no authority.
    OrSelf(PersonCode),
    /// Whoever signed that entry needs no authority.
    OrAuthorOf(Seal),
}

impl<'a> Right<'a> {
    pub(super) fn of(any_of: &'static [Authority]) -> Right<'a> {
        Right {
            any_of,
            workflow: None,
            person: PersonRule::Anyone,
        }
    }

    pub(super) fn within(self, workflow: &'a Id) -> Right<'a> {
        Right {
            workflow: Some(workflow),
            ..self
        }
    }

    pub(super) fn only(self, person: PersonCode) -> Right<'a> {
        Right {
            person: PersonRule::Only(person),
            ..self
        }
    }

    pub(super) fn not(self, person: PersonCode) -> Right<'a> {
        Right {
            person: PersonRule::Not(person),
            ..self
        }
    }
}
