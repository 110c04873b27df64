//! Who is here, with which keys, entitled to what: derived from the record itself, when an entry is appended and again when it is verified.
//!
//! Entries are learnt in the order that [`next`] gives: each strand in its own order, strands merged by record time, and an entry that
//! names another after that one. What a strand's clock says cannot change who was entitled: a grant holds for what comes after it.

mod fault;

use std::collections::{BTreeMap, HashMap};

use crate::record::entry::Content;
use crate::record::entry::{Entry, KeyIssued, Kind as _, PersonRule, Right, Signed, Signing};
use crate::record::scope::{Authority, Id, Meaning};
use crate::record::seal::Seal;
use crate::record::signature::{KeyId, PublicKey};
use crate::units::PersonCode;

pub use fault::AuthorityFault;

#[derive(Clone, Debug)]
struct Grant {
    person: PersonCode,
    authority: Authority,
    workflow: Option<Id>,
    ended: bool,
}

#[derive(Clone, Debug)]
struct Key {
    person: PersonCode,
    public: PublicKey,
    ended: bool,
    /// Set while it waits for a second person.
    waits: bool,
    /// How many keys were issued before it.
    before: usize,
}

/// A key that waits for a second person: whoever issues keys could otherwise sign as anybody, with a key of their own making.
#[derive(Clone, Debug)]
struct Waiting {
    key: KeyId,
    issuer: PersonCode,
    seconds: &'static [Authority],
}

/// What the entries learnt so far say about people.
#[derive(Clone, Debug, Default)]
pub struct Staff {
    founded: bool,
    here: BTreeMap<PersonCode, bool>,
    grants: BTreeMap<Seal, Grant>,
    keys: BTreeMap<KeyId, Key>,
    /// Keys that wait for a second person, by the entry that issued them.
    waiting: BTreeMap<Seal, Waiting>,
    /// Every entry so far, by half of its seal, with who signed it. 16 bytes are enough: nobody can make a second entry that shares them.
    entries: HashMap<u128, Option<PersonCode>>,
}

fn half(seal: &Seal) -> u128 {
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&seal.0.0[..16]);
    u128::from_be_bytes(bytes)
}

impl Staff {
    /// Nobody yet.
    #[must_use]
    pub fn new() -> Staff {
        Staff::default()
    }

    /// Tells whether an entry with this seal has been learnt.
    #[must_use]
    pub fn knows(&self, seal: &Seal) -> bool {
        self.entries.contains_key(&half(seal))
    }

    /// Tells whether the person is here.
    #[must_use]
    pub fn is_here(&self, person: PersonCode) -> bool {
        self.here.get(&person).copied().unwrap_or(false)
    }

    /// Everybody who is here.
    pub fn people(&self) -> impl Iterator<Item = PersonCode> + '_ {
        let here = self.here.iter().filter(|(_, here)| **here);
        here.map(|(person, _)| *person)
    }

    /// Tells whether the code was ever given to anybody here.
    #[must_use]
    pub fn was_here(&self, person: PersonCode) -> bool {
        self.here.contains_key(&person)
    }

    /// The key that the person signs with now: the newest that may be used. Where there is none, the newest that waits for a second person.
    #[must_use]
    pub fn key_of(&self, person: PersonCode) -> Option<KeyId> {
        let newest = self.keys_of(person);
        let newest = newest.max_by_key(|(_, key)| (!key.waits, key.before));
        newest.map(|(id, _)| *id)
    }

    /// The newest key of the person, where it waits for a second person.
    #[must_use]
    pub fn waiting_key_of(&self, person: PersonCode) -> Option<KeyId> {
        let newest = self.keys_of(person).max_by_key(|(_, key)| key.before);
        newest.filter(|(_, key)| key.waits).map(|(id, _)| *id)
    }

    /// The keys of a person that have not ended.
    fn keys_of(&self, person: PersonCode) -> impl Iterator<Item = (&KeyId, &Key)> {
        let keys = self.keys.iter();
        keys.filter(move |(_, key)| key.person == person && !key.ended)
    }

    /// What the person is entitled to now: grant, authority, and the workflow where it is for one only.
    pub fn grants_of(
        &self,
        person: PersonCode,
    ) -> impl Iterator<Item = (Seal, Authority, Option<&Id>)> + '_ {
        let own = move |(_, grant): &(&Seal, &Grant)| grant.person == person && !grant.ended;
        self.grants
            .iter()
            .filter(own)
            .map(|(seal, grant)| (*seal, grant.authority, grant.workflow.as_ref()))
    }

    /// A grant by which the person may do one of these things in a workflow.
    #[must_use]
    pub fn grant(
        &self,
        person: PersonCode,
        any_of: &[Authority],
        workflow: Option<&Id>,
    ) -> Option<Seal> {
        let fits = |grant: &Grant| grant.person == person && grant.serves(any_of, workflow);
        let found = self
            .grants
            .iter()
            .find(|(_, grant)| !grant.ended && fits(grant));
        found.map(|(seal, _)| *seal)
    }

    /// Tells whether a grant holds and is one of these authorities, for this workflow or for every one.
    #[must_use]
    pub fn serves(&self, grant: Option<Seal>, any_of: &[Authority], workflow: Option<&Id>) -> bool {
        let grant = grant.and_then(|grant| self.grants.get(&grant));
        grant.is_some_and(|grant| !grant.ended && grant.serves(any_of, workflow))
    }

    /// Tells whether an entry's signature is that of the key it names. Nothing is said about who may sign.
    #[must_use]
    pub fn signature_holds(&self, entry: &Entry) -> bool {
        let (
            Content::Signed {
                signing,
                signature,
                fact,
            },
            Some(bytes),
        ) = (entry.content(), entry.signed_bytes())
        else {
            return true;
        };
        let key = self.key_for(fact, signing);
        key.is_some_and(|key| key.verifies(&bytes, signature))
    }

    /// The key that an entry's signature names; none for one that was never issued.
    pub(super) fn key_for(&self, fact: &Signed, signing: &Signing) -> Option<PublicKey> {
        match fact {
            Signed::Founded(founded) if !self.founded => {
                (founded.key.id() == signing.key).then_some(founded.key)
            }
            _ => self.keys.get(&signing.key).map(|key| key.public),
        }
    }

    /// Tells whether an entry may be made by whoever made it, as things stand.
    ///
    /// # Errors
    ///
    /// The first rule of who may do what that speaks against it.
    pub fn check(&self, entry: &Entry) -> Result<(), AuthorityFault> {
        for seal in entry.kind().refers() {
            if !self.knows(&seal) {
                return Err(AuthorityFault::RefersToNothing(seal));
            }
        }
        let Some((fact, signing)) = entry.signed() else {
            let subject = entry.kind().subject().person;
            let mut named = subject.into_iter().chain(entry.frame().enterer);
            return named.try_for_each(|person| self.check_known(person));
        };
        if let Signed::Founded(founded) = fact {
            return if self.founded {
                Err(AuthorityFault::FoundedAgain)
            } else if signing.by != founded.person {
                Err(AuthorityFault::OnlyThePerson)
            } else if signing.key != founded.key.id() {
                Err(AuthorityFault::UnknownKey(signing.key))
            } else {
                Ok(())
            };
        }
        if !self.founded {
            return Err(AuthorityFault::NotFounded);
        }
        self.check_signer(signing)?;
        self.check_right(&fact.kind().right(), signing)?;
        self.check_people(fact)
    }

    fn check_known(&self, person: PersonCode) -> Result<(), AuthorityFault> {
        if self.here.contains_key(&person) {
            Ok(())
        } else {
            Err(AuthorityFault::UnknownPerson(person))
        }
    }

    fn check_here(&self, person: PersonCode) -> Result<(), AuthorityFault> {
        self.check_known(person)?;
        if self.is_here(person) {
            Ok(())
        } else {
            Err(AuthorityFault::NotHere(person))
        }
    }

    fn check_signer(&self, signing: &Signing) -> Result<(), AuthorityFault> {
        self.check_here(signing.by)?;
        let id = signing.key;
        let key = self.keys.get(&id).ok_or(AuthorityFault::UnknownKey(id))?;
        if key.person != signing.by {
            return Err(AuthorityFault::KeyOfAnother(id));
        }
        if key.ended {
            return Err(AuthorityFault::KeyEnded(id));
        }
        if key.waits {
            return Err(AuthorityFault::KeyNotSeconded(id));
        }
        Ok(())
    }

    fn check_right(&self, right: &Right<'_>, signing: &Signing) -> Result<(), AuthorityFault> {
        let free = match right.person {
            PersonRule::Anyone => false,
            PersonRule::Only(person) if person != signing.by => {
                return Err(AuthorityFault::OnlyThePerson);
            }
            PersonRule::Not(person) if person == signing.by => {
                return Err(AuthorityFault::NotThePerson);
            }
            PersonRule::Only(_) | PersonRule::Not(_) => false,
            PersonRule::OrSelf(person) => person == signing.by,
            PersonRule::OrAuthorOf(seal) => {
                self.entries.get(&half(&seal)) == Some(&Some(signing.by))
            }
        };
        let Some(seal) = signing.under else {
            return if free || right.any_of.is_empty() {
                Ok(())
            } else {
                Err(AuthorityFault::NoGrant(right.any_of))
            };
        };
        let grant = self
            .grants
            .get(&seal)
            .ok_or(AuthorityFault::UnknownGrant(seal))?;
        if grant.person != signing.by {
            return Err(AuthorityFault::GrantOfAnother(seal));
        }
        if grant.ended {
            return Err(AuthorityFault::GrantEnded(seal));
        }
        if !free && !right.any_of.is_empty() && !grant.serves(right.any_of, right.workflow) {
            return Err(AuthorityFault::GrantTooNarrow(seal));
        }
        Ok(())
    }

    /// What must be true of the people that an entry is about.
    fn check_people(&self, fact: &Signed) -> Result<(), AuthorityFault> {
        match fact {
            Signed::Joined(joined) if self.is_here(joined.person) => {
                Err(AuthorityFault::HereAlready(joined.person))
            }
            Signed::Joined(joined) if self.here.contains_key(&joined.person) => {
                Err(AuthorityFault::CodeUsed(joined.person))
            }
            Signed::Joined(_) => Ok(()),
            Signed::Left(left) if self.owns_alone(|_, grant| grant.person == left.person) => {
                Err(AuthorityFault::LastOwner(left.person))
            }
            Signed::KeyIssued(issued) if self.keys.contains_key(&issued.key.id()) => {
                Err(AuthorityFault::KeyAgain(issued.key.id()))
            }
            Signed::KeyLost(lost) => match self.keys.get(&lost.key) {
                None => Err(AuthorityFault::UnknownKey(lost.key)),
                Some(key) if key.person != lost.person => {
                    Err(AuthorityFault::KeyOfAnother(lost.key))
                }
                Some(_) => Ok(()),
            },
            Signed::Revoked(revoked) => match self.grants.get(&revoked.grant) {
                None => Err(AuthorityFault::UnknownGrant(revoked.grant)),
                Some(grant) if grant.person != revoked.person => {
                    Err(AuthorityFault::GrantOfAnother(revoked.grant))
                }
                Some(_) if self.owns_alone(|seal, _| *seal == revoked.grant) => {
                    Err(AuthorityFault::LastOwnGrant(revoked.grant))
                }
                Some(_) => Ok(()),
            },
            Signed::Left(_) | Signed::Granted(_) | Signed::KeyIssued(_) | Signed::Assigned(_) => {
                let subject = fact.kind().subject().person;
                subject.map_or(Ok(()), |person| self.check_here(person))
            }
            // Late entries may be about people who have left since.
            _ => {
                let subject = fact.kind().subject().person;
                subject.map_or(Ok(()), |person| self.check_known(person))
            }
        }
    }

    /// Tells whether some grants, and no others, make somebody the owner of the record.
    fn owns_alone(&self, some: impl Fn(&Seal, &Grant) -> bool) -> bool {
        let owning = |grant: &Grant| {
            !grant.ended && grant.authority == Authority::Own && grant.workflow.is_none()
        };
        let mut all = self.grants.iter().filter(|(_, grant)| owning(grant));
        let mut any = false;
        all.all(|(seal, grant)| {
            any = true;
            some(seal, grant)
        }) && any
    }

    /// Learns an entry that has been checked.
    pub fn learn(&mut self, entry: &Entry) {
        let signed = entry.signed();
        let author = signed.map(|(_, signing)| signing.by);
        self.entries.insert(half(&entry.seal()), author);
        match signed.map(|(fact, _)| fact) {
            Some(Signed::Founded(founded)) => {
                self.founded = true;
                self.here.insert(founded.person, true);
                let issued = KeyIssued {
                    person: founded.person,
                    key: founded.key,
                };
                self.issue(&issued, false);
                let grant = Grant {
                    person: founded.person,
                    authority: Authority::Own,
                    workflow: None,
                    ended: false,
                };
                self.grants.insert(entry.seal(), grant);
            }
            Some(Signed::Joined(joined)) => {
                self.here.insert(joined.person, true);
            }
            Some(Signed::Left(left)) => {
                self.here.insert(left.person, false);
                let grants = self
                    .grants
                    .values_mut()
                    .filter(|grant| grant.person == left.person);
                grants.for_each(|grant| grant.ended = true);
                let keys = self
                    .keys
                    .values_mut()
                    .filter(|key| key.person == left.person);
                keys.for_each(|key| key.ended = true);
            }
            Some(Signed::Granted(granted)) => {
                let grant = Grant {
                    person: granted.person,
                    authority: granted.authority,
                    workflow: granted.workflow.clone(),
                    ended: false,
                };
                self.grants.insert(entry.seal(), grant);
            }
            Some(Signed::Revoked(revoked)) => {
                if let Some(grant) = self.grants.get_mut(&revoked.grant) {
                    grant.ended = true;
                }
            }
            Some(Signed::KeyIssued(issued)) => {
                let had_one = self.keys.values().any(|key| key.person == issued.person);
                self.issue(issued, had_one);
                if let (true, Some(issuer)) = (had_one, author) {
                    let waiting = Waiting {
                        key: issued.key.id(),
                        issuer,
                        seconds: issued.seconds(),
                    };
                    self.waiting.insert(entry.seal(), waiting);
                }
            }
            Some(Signed::Countersigned(second)) => {
                if let Some((_, signing)) = signed {
                    self.second(&second.target, signing);
                }
            }
            Some(Signed::KeyLost(lost)) => {
                if let Some(key) = self.keys.get_mut(&lost.key) {
                    key.ended = true;
                }
            }
            _ => {}
        }
    }

    fn issue(&mut self, issued: &KeyIssued, waits: bool) {
        let key = Key {
            person: issued.person,
            public: issued.key,
            ended: false,
            waits,
            before: self.keys.len(),
        };
        self.keys.insert(issued.key.id(), key);
    }

    /// Lets a key be used, if the entry that issued it was approved by another person who is entitled to.
    fn second(&mut self, target: &Seal, signing: &Signing) {
        let Some(waiting) = self.waiting.get(target) else {
            return;
        };
        let id = waiting.key;
        let owner = self.keys.get(&id).map(|key| key.person);
        let counts = signing.meaning == Meaning::Approved
            && signing.by != waiting.issuer
            && Some(signing.by) != owner
            && self.serves(signing.under, waiting.seconds, None);
        if counts {
            self.waiting.remove(target);
            if let Some(key) = self.keys.get_mut(&id) {
                key.waits = false;
            }
        }
    }

    /// Tells whether everything that an entry names has been learnt.
    fn is_ready_for(&self, entry: &Entry) -> bool {
        let known = entry.kind().refers().iter().all(|seal| self.knows(seal));
        known
            && entry.signed().is_none_or(|(fact, signing)| {
                matches!(fact, Signed::Founded(_))
                    || self.keys.get(&signing.key).is_some_and(|key| !key.waits)
                        && signing.under.is_none_or(|seal| self.knows(&seal))
            })
    }
}

impl Grant {
    fn serves(&self, any_of: &[Authority], workflow: Option<&Id>) -> bool {
        any_of.contains(&self.authority)
            && (self.workflow.is_none() || self.workflow.as_ref() == workflow)
    }
}

/// Which of the next entries of several strands comes first: the earliest recorded of those that name nothing unknown, or, where all wait
/// for something, the earliest recorded. Ties go by the name of the strand.
#[must_use]
pub fn next<'a>(
    staff: &Staff,
    candidates: impl Iterator<Item = (usize, &'a Entry)>,
) -> Option<usize> {
    let order = |(_, entry): &(usize, &'a Entry)| {
        let frame = entry.frame();
        (
            !staff.is_ready_for(entry),
            frame.recorded.instant(),
            frame.strand.clone(),
        )
    };
    candidates.min_by_key(order).map(|(at, _)| at)
}

#[cfg(test)]
mod tests;
