//! People come and go: codes, names, keys, authority.

use super::founding::{draws, random};
use super::place::Place;
use super::problem::Problem;
use super::signing::{Deed, Done, Draft};
use super::{Laboratory, demonstration_keys};
use crate::people::{Name, NameVersion, Passphrase, Salt};
use crate::record::authority::AuthorityFault;
use crate::record::entry::{
    Content, Countersigned, Granted, Joined, KeyIssued, KeyLost, Left, Revoked, Signed,
};
use crate::record::scope::{Authority, Id, Meaning, Text};
use crate::record::seal::Seal;
use crate::record::signature::SecretKey;
use crate::standing::Refusal;
use crate::units::PersonCode;

/// A key that waits to be issued. Nothing is kept of it until it is.
pub struct NewKey {
    key: SecretKey,
    passphrase: Passphrase,
    person: PersonCode,
}

impl<P: Place> Laboratory<P> {
    /// Has a person join: a code that was never issued, and a name that only the register knows.
    ///
    /// # Errors
    ///
    /// A rule speaks against it, the passphrase is another, or something cannot be kept. A code that was drawn by then is used by nobody.
    pub fn join(
        &mut self,
        by: PersonCode,
        passphrase: &Passphrase,
        name: Name,
        reason: Option<Text>,
        declaration: &str,
    ) -> Result<(PersonCode, Done), Problem> {
        self.refresh()?;
        let first = NameVersion {
            name,
            salt: Salt(random(&self.place)?),
            since: self.now().instant(),
        };
        let commitment = first.commitment();
        let mut register = self.place.register()?;
        let staff = self.ledger.staff();
        let person = register.issue(&draws(&self.place)?, &|code| staff.was_here(code), first)?;
        let joined = Joined {
            person,
            name: commitment,
        };
        let draft = self.draft(by, Deed::now(joined).because(reason), declaration)?;
        // The register first: a name without an entry harms nobody, an entry without a name could never be read.
        let key = self.unlock(by, passphrase)?;
        self.place.keep_register(&register)?;
        let done = self.sign_with(&draft, &key)?;
        Ok((person, done))
    }

    /// Prints another name for a person from now on. Earlier signatures keep the name that they were printed with.
    ///
    /// # Errors
    ///
    /// Who asks may not, the person is unknown or erased, or the register cannot be written.
    pub fn rename(
        &mut self,
        by: PersonCode,
        passphrase: &Passphrase,
        person: PersonCode,
        name: Name,
    ) -> Result<(), Problem> {
        self.check_keeper(by, passphrase)?;
        let next = NameVersion {
            name,
            salt: Salt(random(&self.place)?),
            since: self.now().instant(),
        };
        let mut register = self.place.register()?;
        register.rename(person, next)?;
        Ok(self.place.keep_register(&register)?)
    }

    /// Forgets a person's names for good. What they did stays in the record under their code.
    ///
    /// # Errors
    ///
    /// Who asks may not, the person is still here, unknown or erased already, or the register cannot be written.
    pub fn erase(
        &mut self,
        by: PersonCode,
        passphrase: &Passphrase,
        person: PersonCode,
    ) -> Result<(), Problem> {
        self.check_keeper(by, passphrase)?;
        if self.ledger.staff().is_here(person) {
            return Err(Problem::StillHere(person));
        }
        let mut register = self.place.register()?;
        register.erase(person)?;
        Ok(self.place.keep_register(&register)?)
    }

    /// Drafts that a person left: keys, authority and sign-offs end.
    ///
    /// # Errors
    ///
    /// As [`Laboratory::draft`].
    pub fn leave(
        &mut self,
        by: PersonCode,
        person: PersonCode,
        reason: Option<Text>,
        declaration: &str,
    ) -> Result<Draft, Problem> {
        self.draft(by, Deed::now(Left { person }).because(reason), declaration)
    }

    /// Drafts that a person may do something from now on.
    ///
    /// # Errors
    ///
    /// As [`Laboratory::draft`].
    pub fn grant(
        &mut self,
        by: PersonCode,
        person: PersonCode,
        authority: Authority,
        workflow: Option<Id>,
        declaration: &str,
    ) -> Result<Draft, Problem> {
        let granted = Granted {
            person,
            authority,
            workflow,
        };
        self.draft(by, Deed::now(granted), declaration)
    }

    /// Drafts that a person may no longer do something. All grants of it that hold are named one by one, the first first.
    ///
    /// # Errors
    ///
    /// As [`Laboratory::draft`]; there is no such grant.
    pub fn revoke(
        &mut self,
        by: PersonCode,
        person: PersonCode,
        authority: Authority,
        workflow: Option<&Id>,
        reason: Option<Text>,
        declaration: &str,
    ) -> Result<Draft, Problem> {
        self.refresh()?;
        let mut grants = self.ledger.staff().grants_of(person);
        let grant = grants
            .find(|(_, held, of)| *held == authority && (workflow.is_none() || *of == workflow))
            .map(|(seal, ..)| seal);
        drop(grants);
        let grant = grant.ok_or(Problem::NoSuchGrant(person, authority))?;
        self.draft(
            by,
            Deed::now(Revoked { person, grant }).because(reason),
            declaration,
        )
    }

    /// Makes a key for a person under a passphrase that the person has just chosen. It is kept once it is issued.
    ///
    /// # Errors
    ///
    /// The person is not here, or the passphrase is too weak.
    pub fn new_key(&self, person: PersonCode, passphrase: Passphrase) -> Result<NewKey, Problem> {
        if !self.ledger.staff().is_here(person) {
            return Err(Problem::NoSuchPerson(person));
        }
        self.check_new(person, &passphrase)?;
        let key = SecretKey::from_seed(&self.place.key_seed()?);
        Ok(NewKey {
            key,
            passphrase,
            person,
        })
    }

    /// Issues a key. `identity` says how it was made sure who the person is.
    ///
    /// # Errors
    ///
    /// As [`Laboratory::sign`]; the key cannot be kept.
    pub fn issue_key(
        &mut self,
        by: PersonCode,
        passphrase: &Passphrase,
        new: &NewKey,
        identity: Text,
        declaration: &str,
    ) -> Result<Done, Problem> {
        let public = new.key.public();
        if demonstration_keys().contains(&public.id()) && !self.is_demonstration() {
            return Err(Problem::DemonstrationKey);
        }
        let issued = KeyIssued {
            person: new.person,
            key: public,
        };
        let draft = self.draft(by, Deed::now(issued).because(Some(identity)), declaration)?;
        let key = self.unlock(by, passphrase)?;
        // A key that nobody was given harms nobody; a key that is issued and lost would have to be replaced.
        self.place.keep_key(&new.key, &new.passphrase)?;
        self.sign_with(&draft, &key)
    }

    /// Has a person sign that what is signed with their key binds them. Nothing else can be signed before.
    ///
    /// # Errors
    ///
    /// As [`Laboratory::sign`]; the person has no key, or it waits for a second person.
    pub fn accept_key(
        &mut self,
        person: PersonCode,
        passphrase: &Passphrase,
        accountability: &str,
    ) -> Result<Done, Problem> {
        self.refresh()?;
        // The key that still holds does not open with the new passphrase, and trying would write down a refusal that nobody earned.
        if let Some(id) = self.ledger.staff().waiting_key_of(person) {
            return Err(Refusal::Authority(AuthorityFault::KeyNotSeconded(id)).into());
        }
        let target = self.key_entry(person)?;
        let deed = Deed::now(Countersigned { target }).meaning(Meaning::Acknowledged);
        self.do_it(person, passphrase, deed, accountability)
    }

    /// The entry that issued the key which a person has now.
    ///
    /// # Errors
    ///
    /// The person has none.
    pub fn key_entry(&self, person: PersonCode) -> Result<Seal, Problem> {
        let key = self.key_of(person)?;
        let mut entries = self.ledger.entries().iter();
        let issued = entries.find_map(|entry| match entry.content() {
            Content::Signed {
                fact: Signed::KeyIssued(issued),
                ..
            } if issued.key.id() == key => Some(entry.seal()),
            Content::Signed {
                fact: Signed::Founded(founded),
                ..
            } if founded.key.id() == key => Some(entry.seal()),
            _ => None,
        });
        issued.ok_or(Problem::NoKey(person))
    }

    /// Drafts that a person's key is lost: nothing can be signed with it from now on.
    ///
    /// # Errors
    ///
    /// As [`Laboratory::draft`]; the person has none.
    pub fn lose_key(
        &mut self,
        by: PersonCode,
        person: PersonCode,
        reason: Option<Text>,
        declaration: &str,
    ) -> Result<Draft, Problem> {
        self.refresh()?;
        let key = self.key_of(person)?;
        self.draft(
            by,
            Deed::now(KeyLost { person, key }).because(reason),
            declaration,
        )
    }

    /// Keeps a person's key under another passphrase.
    ///
    /// # Errors
    ///
    /// The old passphrase is another, or the new one too weak.
    pub fn change_passphrase(
        &mut self,
        person: PersonCode,
        old: &Passphrase,
        new: &Passphrase,
    ) -> Result<(), Problem> {
        self.refresh()?;
        drop(self.unlock(person, old)?);
        self.check_new(person, new)?;
        let id = self.key_of(person)?;
        Ok(self.place.change_passphrase(id, old, new)?)
    }

    /// Refuses a new passphrase that is weak, or mainly the person's name or code.
    ///
    /// # Errors
    ///
    /// [`Problem::WeakPassphrase`], or the register cannot be read.
    pub fn check_new(&self, person: PersonCode, passphrase: &Passphrase) -> Result<(), Problem> {
        let register = self.place.register()?;
        let name = register.name(person, self.now().instant()).printed();
        let code = person.to_string();
        let names: Vec<&str> = name.into_iter().chain([code.as_str()]).collect();
        passphrase
            .check_new(&names)
            .map_err(Problem::WeakPassphrase)
    }

    /// Makes sure that a person is here, is who they say, and may enter people: what changes the register alone is signed by nobody.
    fn check_keeper(&mut self, by: PersonCode, passphrase: &Passphrase) -> Result<(), Problem> {
        self.sign_in(by, passphrase)?;
        let staff = self.ledger.staff();
        match staff.grant(by, REGISTER, None) {
            Some(_) => Ok(()),
            None => Err(Refusal::Authority(AuthorityFault::NoGrant(REGISTER)).into()),
        }
    }
}

/// Who may change the register.
const REGISTER: &[Authority] = &[Authority::Administer, Authority::Own];

impl NewKey {
    /// The passphrase that the person has chosen.
    #[must_use]
    pub fn passphrase(&self) -> &Passphrase {
        &self.passphrase
    }
}
