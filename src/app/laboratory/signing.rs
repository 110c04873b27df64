//! From a fact to a stored entry: drafted, shown, signed, appended.
//!
//! A draft has passed every rule and waits for two things that only its signer has: the will to sign what is shown, and the passphrase. Then it is
//! made again at that moment, so that an entry is dated when it was signed and not when it was drafted.

use std::sync::Arc;

use super::numbers::Departure;
use super::place::{Keeping, KeyProblem, Place};
use super::problem::Problem;
use super::{Laboratory, PROGRAM, fixed};
use crate::people::{Passphrase, delay};
use crate::record::authority::AuthorityFault;
use crate::record::entry::{
    Content, Entry, Frame, Granted, Noted, PassphraseRefused, Signed, Signing, ToSign,
};
use crate::record::log::{Appended, Trouble, WhyNot};
use crate::record::scope::{Authority, Id, Meaning, Text};
use crate::record::seal::Seal;
use crate::record::signature::{KeyId, SecretKey, Signature};
use crate::report::record::Titles;
use crate::standing::{
    Refusal, admit, could_sign_instead, grant_for, holders, lacking, lacking_assessors,
};
use crate::units::{Digest, PersonCode, Stamp};

/// How often an entry is made again when others write at the same time. Our default.
const TRIES: usize = 20;

/// A document that an entry names by its digest. It is kept beside the record once the entry is signed, and not before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Document {
    content: Arc<[u8]>,
    digest: Digest,
}

impl Document {
    /// A document with this content.
    #[must_use]
    pub fn new(content: Vec<u8>) -> Document {
        Document {
            digest: Digest::of(&[&content]),
            content: content.into(),
        }
    }

    /// Its digest, as the entry names it.
    #[must_use]
    pub fn digest(&self) -> Digest {
        self.digest
    }
}

/// What somebody wants to sign.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deed {
    /// The fact.
    pub fact: Signed,
    /// When it happened; the moment of signing where it is left out.
    pub happened: Option<Stamp>,
    /// Why.
    pub reason: Option<Text>,
    /// What the signature means; the first that the kind allows where it is left out.
    pub meaning: Option<Meaning>,
    /// What it names that is not kept beside the record yet.
    pub document: Option<Document>,
}

impl Deed {
    /// What is done at this moment, without a reason.
    #[must_use]
    pub fn now(fact: impl Into<Signed>) -> Deed {
        Deed {
            fact: fact.into(),
            happened: None,
            reason: None,
            meaning: None,
            document: None,
        }
    }

    /// The deeds that give a person several rights in a workflow, or in all: a grant is of one.
    #[must_use]
    pub fn grants(
        person: PersonCode,
        authorities: Vec<Authority>,
        workflow: Option<&Id>,
        reason: Option<&Text>,
    ) -> Vec<Deed> {
        let grant = |authority| {
            let granted = Granted {
                person,
                authority,
                workflow: workflow.cloned(),
            };
            Deed::now(granted).because(reason.cloned())
        };
        authorities.into_iter().map(grant).collect()
    }

    /// The same with a reason.
    #[must_use]
    pub fn because(self, reason: Option<Text>) -> Deed {
        Deed { reason, ..self }
    }

    /// The same with the document that it names.
    #[must_use]
    pub fn with(self, document: Option<Document>) -> Deed {
        Deed { document, ..self }
    }

    /// The same at another time.
    #[must_use]
    pub fn at(self, happened: Option<Stamp>) -> Deed {
        Deed { happened, ..self }
    }

    /// The same with another meaning.
    #[must_use]
    pub fn meaning(self, meaning: Meaning) -> Deed {
        Deed {
            meaning: Some(meaning),
            ..self
        }
    }
}

/// An entry that has passed every rule and waits for its signature.
#[derive(Clone, Debug)]
pub struct Draft {
    by: PersonCode,
    deed: Deed,
    declaration: String,
    entry: Entry,
    departures: Vec<Departure>,
    titles: Titles,
}

impl Draft {
    /// Who is to sign.
    #[must_use]
    pub fn by(&self) -> PersonCode {
        self.by
    }

    /// The entry as it will read, with a signature that is none yet.
    #[must_use]
    pub fn entry(&self) -> &Entry {
        &self.entry
    }

    /// The titles of the steps that it names, from the text that is kept of its edition.
    #[must_use]
    pub fn titles(&self) -> &Titles {
        &self.titles
    }

    /// Where the revision that it adopts, or approves of, departs from the module's text.
    #[must_use]
    pub fn departures(&self) -> &[Departure] {
        &self.departures
    }
}

/// An entry that is stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Done {
    /// The entry.
    pub entry: Entry,
    /// Why the remembered heads lag behind it, where they do. The next entry brings them up.
    pub lagging: Option<Trouble>,
}

impl<P: Place> Laboratory<P> {
    /// Drafts what a person wants to sign, and asks every rule. `declaration` is the sentence that the person stands by.
    ///
    /// # Errors
    ///
    /// A rule speaks against it, or the person cannot sign.
    pub fn draft(
        &mut self,
        by: PersonCode,
        deed: Deed,
        declaration: impl Into<String>,
    ) -> Result<Draft, Problem> {
        self.refresh()?;
        let declaration = declaration.into();
        let to_sign = self.to_sign(by, &deed, &declaration)?;
        let entry = to_sign.signed(Signature::NONE)?;
        admit(&self.ledger, &entry).map_err(|why| self.refused(why, &entry))?;
        Ok(Draft {
            by,
            deed,
            declaration,
            departures: self.departures(&entry),
            titles: self.step_titles(&entry),
            entry,
        })
    }

    /// A refusal with who could do it instead, or what else has to be done first and by whom.
    fn refused(&self, why: Refusal, entry: &Entry) -> Problem {
        let (lacking, too_few) = match &why {
            Refusal::Missing(needs) => (
                lacking(&self.ledger, entry, needs),
                lacking_assessors(&self.ledger, entry, needs),
            ),
            _ => (Vec::new(), None),
        };
        let instead = could_sign_instead(&self.ledger, entry);
        let holders = match &why {
            Refusal::Authority(AuthorityFault::NoGrant(any_of)) if instead.is_empty() => {
                Some(Box::new(holders(&self.ledger, entry, any_of)))
            }
            _ => None,
        };
        if lacking.is_empty() && instead.is_empty() && holders.is_none() {
            return Problem::Refused(why);
        }
        Problem::RefusedTo {
            why,
            instead,
            holders,
            lacking,
            too_few,
        }
    }

    /// Signs a draft and stores it. When this returns, the entry survives a kill and a power cut.
    ///
    /// # Errors
    ///
    /// The passphrase is another, a rule has come to speak against it, or it cannot be stored.
    pub fn sign(&mut self, draft: &Draft, passphrase: &Passphrase) -> Result<Done, Problem> {
        let key = self.unlock(draft.by, passphrase)?;
        self.sign_with(draft, &key)
    }

    /// Signs several drafts of one person with one passphrase, one after the other. Returns those that were stored, and why it did not go on where it
    /// did not: what is stored stays.
    ///
    /// # Errors
    ///
    /// Nothing was signed: the passphrase is another.
    pub fn sign_all(
        &mut self,
        drafts: &[Draft],
        passphrase: &Passphrase,
    ) -> Result<(Vec<Done>, Option<Problem>), Problem> {
        let mut done = Vec::new();
        let Some(first) = drafts.first() else {
            return Ok((done, None));
        };
        let key = self.unlock(first.by, passphrase)?;
        for draft in drafts {
            match self.sign_with(draft, &key) {
                Ok(one) => done.push(one),
                Err(problem) if done.is_empty() => return Err(problem),
                Err(problem) => return Ok((done, Some(problem))),
            }
        }
        Ok((done, None))
    }

    /// Drafts and signs in one go: for what has been shown already.
    ///
    /// # Errors
    ///
    /// As [`Laboratory::draft`] and [`Laboratory::sign`].
    pub fn do_it(
        &mut self,
        by: PersonCode,
        passphrase: &Passphrase,
        deed: Deed,
        declaration: &str,
    ) -> Result<Done, Problem> {
        let draft = self.draft(by, deed, declaration)?;
        self.sign(&draft, passphrase)
    }

    /// The same with a key that is open already.
    pub(super) fn sign_with(&mut self, draft: &Draft, key: &SecretKey) -> Result<Done, Problem> {
        // What was shown to the signer is kept beside the record, so that it can be shown again.
        self.place
            .attach(draft.declaration.as_bytes(), Keeping::Kept)?;
        if let Some(document) = &draft.deed.document {
            self.place.attach(&document.content, Keeping::Erasable)?;
        }
        let mut last = WhyNot::OutOfLine;
        for _ in 0..TRIES {
            self.refresh()?;
            let to_sign = self.to_sign(draft.by, &draft.deed, &draft.declaration)?;
            let signature = key.sign(&to_sign.bytes());
            let entry = to_sign.signed(signature)?;
            admit(&self.ledger, &entry)?;
            // A key file that holds another key would sign what nobody could verify.
            if !self.ledger.staff().signature_holds(&entry) {
                return Err(Problem::Key(KeyProblem::OtherKey));
            }
            match self.append(entry)? {
                Ok(done) => return Ok(done),
                Err(why) => last = why,
            }
        }
        Err(Problem::NotStored(last))
    }

    /// Notes what the machine knows by itself.
    ///
    /// # Errors
    ///
    /// A rule speaks against it, or it cannot be stored.
    pub fn note(
        &mut self,
        fact: impl Into<Noted>,
        happened: Option<Stamp>,
        enterer: Option<PersonCode>,
    ) -> Result<Done, Problem> {
        let fact = fact.into();
        let mut last = WhyNot::OutOfLine;
        for _ in 0..TRIES {
            self.refresh()?;
            if let Some((strand, number)) = &self.cut_off {
                return Err(Problem::CutOff(strand.clone(), *number));
            }
            let frame = Frame {
                enterer,
                ..self.frame(happened, None)?
            };
            let entry = Entry::noted(frame, fact.clone())?;
            admit(&self.ledger, &entry)?;
            match self.append(entry)? {
                Ok(done) => return Ok(done),
                Err(why) => last = why,
            }
        }
        Err(Problem::NotStored(last))
    }

    /// Stores an entry. The inner error says that another came first and it has to be made again.
    pub(super) fn append(&mut self, entry: Entry) -> Result<Result<Done, WhyNot>, Problem> {
        let strand = entry.frame().strand.clone();
        let expected = self.heads.get(&strand).copied();
        match self.place.log_mut().append(expected.as_ref(), &entry) {
            Appended::Stored => Ok(Ok(self.stored(entry))),
            Appended::NotStored(why @ WhyNot::HeadMoved(_)) => Ok(Err(why)),
            Appended::NotStored(why) => Err(Problem::NotStored(why)),
            Appended::Unknown => {
                let seal = entry.seal();
                match self.refresh() {
                    Ok(()) if self.ledger.get(&seal).is_some() => Ok(Ok(self.stored(entry))),
                    _ => Err(Problem::Unknown(seal)),
                }
            }
        }
    }

    fn stored(&mut self, entry: Entry) -> Done {
        let strand = entry.frame().strand.clone();
        if self
            .heads
            .get(&strand)
            .is_none_or(|head| head.number < entry.frame().number)
        {
            self.heads.insert(strand, entry.head());
        }
        self.ledger.add(entry.clone());
        let restored = matches!(entry.signed(), Some((Signed::Restored(_), _)));
        let followed = if restored {
            self.place.renew()
        } else {
            self.place.follow()
        };
        if restored && followed.is_ok() {
            self.cut_off = None;
        }
        Done {
            entry,
            lagging: followed.err(),
        }
    }

    /// Whether a person's key opens with this passphrase: who signs in has shown who they are.
    ///
    /// # Errors
    ///
    /// It does not, or the next try has to wait.
    pub fn sign_in(&mut self, person: PersonCode, passphrase: &Passphrase) -> Result<(), Problem> {
        self.refresh()?;
        self.unlock(person, passphrase).map(drop)
    }

    /// Opens a person's key. A refusal is recorded, and the next try waits the longer the more there were.
    pub(super) fn unlock(
        &mut self,
        person: PersonCode,
        passphrase: &Passphrase,
    ) -> Result<SecretKey, Problem> {
        let id = self.key_of(person)?;
        let (times, last) = self.refusals(person);
        if let Some(last) = last {
            let wait = i64::from(delay(times));
            let passed = self.now().instant().since_epoch() - last.instant().since_epoch();
            // A clock that was set back has not let any time pass.
            let left = wait - passed.clamp(0, wait);
            if left > 0 {
                let seconds = u32::try_from(left).unwrap_or(u32::MAX);
                return Err(Problem::Wait { seconds });
            }
        }
        match self.place.key(id, passphrase) {
            Ok(key) => Ok(key),
            Err(KeyProblem::Refused) => {
                let times = times.saturating_add(1);
                self.note(PassphraseRefused { person, times }, None, None)?;
                Err(Problem::Passphrase { times })
            }
            Err(problem) => Err(problem.into()),
        }
    }

    /// How many times in a row a person's passphrase was refused since the person last signed, and when the last time was.
    fn refusals(&self, person: PersonCode) -> (u16, Option<Stamp>) {
        let mut found = (0, None);
        for entry in self.ledger.entries() {
            match entry.content() {
                Content::Noted(Noted::PassphraseRefused(refused)) if refused.person == person => {
                    found = (refused.times, Some(entry.frame().recorded));
                }
                Content::Signed { signing, .. } if signing.by == person => found = (0, None),
                _ => {}
            }
        }
        found
    }

    /// The key that a person signs with now.
    ///
    /// # Errors
    ///
    /// The person is not here or has none.
    pub fn key_of(&self, person: PersonCode) -> Result<KeyId, Problem> {
        let staff = self.ledger.staff();
        if !staff.is_here(person) {
            return Err(Problem::NoSuchPerson(person));
        }
        staff.key_of(person).ok_or(Problem::NoKey(person))
    }

    /// The commitment to a person's name as it is printed now.
    fn printed_name(&self, person: PersonCode, at: Stamp) -> Result<Digest, Problem> {
        let register = self.place.register()?;
        register
            .commitment(person, at.instant())
            .ok_or(Problem::NoSuchPerson(person))
    }

    pub(super) fn frame(
        &self,
        happened: Option<Stamp>,
        reason: Option<Text>,
    ) -> Result<Frame, Problem> {
        let recorded = self.now();
        let frame = Frame {
            strand: self.workstation.clone(),
            number: 0,
            previous: Seal::NONE,
            happened: happened.unwrap_or(recorded),
            recorded,
            clock_set_back: None,
            enterer: None,
            workstation: self.workstation.clone(),
            program: fixed(PROGRAM)?,
            reason,
        };
        Ok(frame.after(self.heads.get(&self.workstation)))
    }

    fn to_sign(&self, by: PersonCode, deed: &Deed, declaration: &str) -> Result<ToSign, Problem> {
        self.check_whole(&deed.fact)?;
        let key = self.key_of(by)?;
        self.check_accepted(by, &deed.fact)?;
        let frame = Frame {
            enterer: Some(by),
            ..self.frame(deed.happened, deed.reason.clone())?
        };
        let fact = begun(&deed.fact, frame.recorded);
        let under = grant_for(&self.ledger, by, &fact);
        let meanings = fact.kind().meanings();
        let meaning = deed.meaning.or_else(|| meanings.first().copied());
        let signing = Signing {
            by,
            key,
            name: self.printed_name(by, frame.recorded)?,
            meaning: meaning.unwrap_or(Meaning::Authored),
            under,
            declaration: Digest::of(&[declaration.as_bytes()]),
        };
        Ok(ToSign::new(frame, fact, signing))
    }

    /// Refuses to write behind an end that was cut off: only a declared restore leads on.
    fn check_whole(&self, fact: &Signed) -> Result<(), Problem> {
        match &self.cut_off {
            Some((strand, number)) if !matches!(fact, Signed::Restored(_)) => {
                Err(Problem::CutOff(strand.clone(), *number))
            }
            _ => Ok(()),
        }
    }

    /// Whoever signs has signed first that their signature binds them.
    fn check_accepted(&self, by: PersonCode, fact: &Signed) -> Result<(), Problem> {
        if matches!(fact, Signed::Countersigned(_)) || self.has_accepted(by) {
            Ok(())
        } else {
            Err(Problem::NotAccepted(by))
        }
    }
}

/// A fact as it is at the moment of its signature: a sign-off never begins before it (rule R2).
fn begun(fact: &Signed, now: Stamp) -> Signed {
    match fact {
        Signed::SignedOff(signed) if signed.valid_from.instant() < now.instant() => {
            let mut signed = signed.clone();
            signed.valid_from = now;
            signed.into()
        }
        fact => fact.clone(),
    }
}
