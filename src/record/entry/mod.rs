//! An entry: one fact in the past tense, sealed, chained, and signed where a person answers for it.
//!
//! Stored is the canonical text of `{"body": …, "signature": …}`; kinds that nobody signs have no member `signature`. The body holds the
//! frame (where it stands in its strand, when, who entered it), the fact, and for signed kinds who signs what with which key. The signature
//! is made of the canonical body; the seal of the whole text.

mod amending;
mod assessment;
mod keeping;
mod kind;
mod practice;
mod publishing;
mod read;
mod sign_off;
mod staff;
mod stopping;
mod table;
mod training;

use super::canonical::{JsonFault, Map, Value};
use super::member::{Member, MemberFault, Members, members, written};
use super::scope::{Id, Meaning, Text};
use super::seal::Seal;
use super::signature::{KeyId, Signature};
use super::strand::Head;
use crate::units::{Digest, PersonCode, Stamp};

pub use amending::{Corrected, Countersigned, Voided};
pub use assessment::{
    CaseChecked, Effect, Evaluated, Judgement, Method, Observed, Seen, Stage, StepSeen,
    SupervisedBy,
};
pub use keeping::{
    BackupMade, Found, PackExported, PassphraseRefused, RestoreTested, Restored, TrailReviewed,
};
pub use kind::{Amending, Kind, PersonRule, Right, SignedKind, Subject};
pub use practice::{Drilled, Ending, Help, Rehearsed};
pub use publishing::{
    EffectCheck, Impact, Independence, MethodCount, Needs, PolicySet, RevisionAdopted,
    SignOffProfile, ValidMonths, WorkflowRetired,
};
pub use sign_off::{Basis, Established, HowEstablished, OutsideEvidence, OutsideWay, SignedOff};
pub use staff::{Founded, Granted, Joined, KeyIssued, KeyLost, Left, Revoked};
pub use stopping::{Allowed, CalledIn, Cause, Reinstated, Suspended, Withdrawn};
pub use table::{Noted, Signed};
pub use training::{Assigned, AwarenessAcknowledged, ProtectionShown, Read, Trained};

/// The format of entries that this program writes, and the newest that it reads.
pub const FORMAT: u32 = 1;

/// The longest entry, in bytes. Our default; what is longer is an attachment.
pub const ENTRY_BYTES_MOST: usize = 65_536;

members! {
    /// Where an entry stands and how it came about.
    Frame {
        /// The strand.
        "strand" strand: Id,
        /// The place in the strand, counted from 1.
        "number" number: u64,
        /// The seal of the entry before; zeros in the first.
        "previous" previous: Seal,
        /// When it happened.
        "happened" happened: Stamp,
        /// When it was written down.
        "recorded" recorded: Stamp,
        /// Set where the clock stood earlier than at the entry before.
        "clock-set-back" clock_set_back: Option<bool>,
        /// Who typed it in; left out where the machine did.
        "enterer" enterer: Option<PersonCode>,
        /// At which workstation.
        "workstation" workstation: Id,
        /// With which version of the program.
        "program" program: Text,
        /// Why, where a reason is required.
        "reason" reason: Option<Text>,
    }
}

members! {
    /// Who signs, with which key, and what that means. Part of what is signed.
    Signing {
        /// Who signs.
        "by" by: PersonCode,
        /// The fingerprint of the key.
        "key" key: KeyId,
        /// The commitment to the signer's name as it is printed now.
        "name" name: Digest,
        /// What the signature means.
        "meaning" meaning: Meaning,
        /// The grant that entitles the signer; left out where none is needed.
        "under" under: Option<Seal>,
        /// The digest of the sentence that was shown to the signer.
        "declaration" declaration: Digest,
    }
}

impl Frame {
    /// Puts the frame behind the head of its strand.
    #[must_use]
    pub fn after(self, head: Option<&Head>) -> Frame {
        let earlier = head.is_some_and(|head| self.recorded.instant() < head.recorded.instant());
        Frame {
            number: head.map_or(1, |head| head.number + 1),
            previous: head.map_or(Seal::NONE, |head| head.seal),
            clock_set_back: earlier.then_some(true),
            ..self
        }
    }
}

/// What an entry says, and who answers for it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[expect(clippy::large_enum_variant, reason = "nearly all entries are signed")]
pub enum Content {
    /// The machine noted it.
    Noted(Noted),
    /// Somebody signed it.
    Signed {
        /// The fact.
        fact: Signed,
        /// Who signed.
        signing: Signing,
        /// The signature over the canonical body.
        signature: Signature,
    },
}

/// One entry of the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    frame: Frame,
    content: Content,
    seal: Seal,
}

/// Why bytes are no entry, or an entry cannot be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EntryFault {
    /// The bytes are no JSON without fractions.
    Json(JsonFault),
    /// They are more than an entry may have.
    TooLong,
    /// They are not the canonical text of what they say.
    NotCanonical,
    /// A newer program wrote the entry. Holds its format.
    Newer(u32),
    /// There is no such kind. Holds its word.
    UnknownKind(String),
    /// A member is missing, wrong or unknown.
    Member(MemberFault),
    /// A kind that somebody answers for is not signed.
    Unsigned,
    /// A kind that nobody answers for is signed.
    NeedlesslySigned,
    /// The signature cannot mean that.
    Meaning(Meaning),
    /// The kind needs a reason and there is none.
    NoReason,
}

impl From<MemberFault> for EntryFault {
    fn from(fault: MemberFault) -> EntryFault {
        EntryFault::Member(fault)
    }
}

impl Entry {
    /// Makes an entry that nobody signs.
    ///
    /// # Errors
    ///
    /// The kind needs a reason, or the entry is too long.
    pub fn noted(frame: Frame, fact: impl Into<Noted>) -> Result<Entry, EntryFault> {
        Entry::made(frame, Content::Noted(fact.into()))
    }

    fn made(frame: Frame, content: Content) -> Result<Entry, EntryFault> {
        check(&frame, &content)?;
        let bytes = stored(&frame, &content);
        if bytes.len() > ENTRY_BYTES_MOST {
            return Err(EntryFault::TooLong);
        }
        let seal = Seal::of(&bytes);
        Ok(Entry {
            frame,
            content,
            seal,
        })
    }

    /// Where the entry stands and how it came about.
    #[must_use]
    pub fn frame(&self) -> &Frame {
        &self.frame
    }

    /// What it says.
    #[must_use]
    pub fn content(&self) -> &Content {
        &self.content
    }

    /// Its seal.
    #[must_use]
    pub fn seal(&self) -> Seal {
        self.seal
    }

    /// The bytes that are stored.
    #[must_use]
    pub fn bytes(&self) -> Vec<u8> {
        stored(&self.frame, &self.content)
    }

    /// The bytes that are signed; none for kinds that nobody signs.
    #[must_use]
    pub fn signed_bytes(&self) -> Option<Vec<u8>> {
        match &self.content {
            Content::Noted(_) => None,
            Content::Signed { fact, signing, .. } => Some(
                signed_body(&self.frame, fact, signing)
                    .canonical()
                    .into_bytes(),
            ),
        }
    }

    /// The word of its kind.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match &self.content {
            Content::Noted(fact) => fact.word(),
            Content::Signed { fact, .. } => fact.word(),
        }
    }

    /// What the record has to know about its kind.
    #[must_use]
    pub fn kind(&self) -> &dyn Kind {
        self.content.kind()
    }

    /// The signed fact and who signed it; none for kinds that nobody signs.
    #[must_use]
    pub fn signed(&self) -> Option<(&Signed, &Signing)> {
        match &self.content {
            Content::Noted(_) => None,
            Content::Signed { fact, signing, .. } => Some((fact, signing)),
        }
    }

    /// Who acted: the signer, or the person that a machine's note is about.
    #[must_use]
    pub fn actor(&self) -> Option<PersonCode> {
        match &self.content {
            Content::Noted(fact) => fact.kind().subject().person,
            Content::Signed { signing, .. } => Some(signing.by),
        }
    }

    /// The head of its strand once the entry is stored.
    #[must_use]
    pub fn head(&self) -> Head {
        Head {
            number: self.frame.number,
            seal: self.seal,
            recorded: self.frame.recorded,
        }
    }
}

impl Content {
    /// What the record has to know about the kind.
    #[must_use]
    pub fn kind(&self) -> &dyn Kind {
        match self {
            Content::Noted(fact) => fact.kind(),
            Content::Signed { fact, .. } => fact.kind(),
        }
    }

    /// The stored value of one member of the fact; none where nothing stands there.
    #[must_use]
    pub fn member(&self, name: &str) -> Option<Value> {
        let mut members = match self {
            Content::Noted(fact) => fact.members(),
            Content::Signed { fact, .. } => fact.members(),
        };
        members.remove(name)
    }

    /// The words that may stand in a member of the fact, where it is one of a list of words; else none.
    #[must_use]
    pub fn words_of(&self, name: &str) -> &'static [&'static str] {
        match self {
            Content::Noted(fact) => fact.words_of(name),
            Content::Signed { fact, .. } => fact.words_of(name),
        }
    }

    /// The names of the members of the fact, in their order.
    #[must_use]
    pub fn member_names(&self) -> Vec<String> {
        let members = match self {
            Content::Noted(fact) => fact.members(),
            Content::Signed { fact, .. } => fact.members(),
        };
        members.iter().map(|(name, _)| name.to_string()).collect()
    }

    /// The same with another value for one member of the fact.
    ///
    /// # Errors
    ///
    /// There is no such member, or the value is none that may stand there.
    pub fn with(&self, name: &str, value: Option<Value>) -> Result<Content, MemberFault> {
        let change = |mut members: Map<'static>| {
            match value {
                Some(value) => drop(members.insert(name.to_owned(), value)),
                None => drop(members.remove(name)),
            }
            members
        };
        let unknown = || MemberFault::new(name, super::member::MemberFaultKind::Unknown);
        Ok(match self {
            Content::Noted(fact) => {
                let read = Noted::read(fact.word(), change(fact.members()).given());
                Content::Noted(read.ok_or_else(unknown)??)
            }
            Content::Signed {
                fact,
                signing,
                signature,
            } => {
                let read = Signed::read(fact.word(), change(fact.members()).given());
                Content::Signed {
                    fact: read.ok_or_else(unknown)??,
                    signing: signing.clone(),
                    signature: *signature,
                }
            }
        })
    }
}

/// An entry that waits for its signature.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToSign {
    frame: Frame,
    fact: Signed,
    signing: Signing,
}

impl ToSign {
    /// Puts together what is to be signed.
    #[must_use]
    pub fn new(frame: Frame, fact: impl Into<Signed>, signing: Signing) -> ToSign {
        ToSign {
            frame,
            fact: fact.into(),
            signing,
        }
    }

    /// The bytes to sign.
    #[must_use]
    pub fn bytes(&self) -> Vec<u8> {
        let body = signed_body(&self.frame, &self.fact, &self.signing);
        body.canonical().into_bytes()
    }

    /// Makes the entry with a signature over the bytes. Does not verify it.
    ///
    /// # Errors
    ///
    /// The kind needs a reason, its signature cannot mean that, or the entry is too long.
    pub fn signed(self, signature: Signature) -> Result<Entry, EntryFault> {
        let content = Content::Signed {
            fact: self.fact,
            signing: self.signing,
            signature,
        };
        Entry::made(self.frame, content)
    }
}

fn check(frame: &Frame, content: &Content) -> Result<(), EntryFault> {
    if content.kind().needs_reason() && frame.reason.is_none() {
        return Err(EntryFault::NoReason);
    }
    match content {
        Content::Signed { fact, signing, .. }
            if !fact.kind().meanings().contains(&signing.meaning) =>
        {
            Err(EntryFault::Meaning(signing.meaning))
        }
        _ => Ok(()),
    }
}

fn body(frame: &Frame, word: &'static str, fact: Map<'static>) -> Map<'static> {
    let mut body = Map::new();
    frame.write(&mut body);
    FORMAT.put("format", &mut body);
    body.insert("kind", Value::Text(word.into()));
    body.insert("fact", Value::Map(fact));
    body
}

fn signed_body(frame: &Frame, fact: &Signed, signing: &Signing) -> Value {
    let mut body = body(frame, fact.word(), fact.members());
    body.insert("signing", Value::Map(written(signing)));
    Value::Map(body)
}

fn stored(frame: &Frame, content: &Content) -> Vec<u8> {
    let mut whole = Map::new();
    match content {
        Content::Noted(fact) => {
            let body = body(frame, fact.word(), fact.members());
            whole.insert("body", Value::Map(body));
        }
        Content::Signed {
            fact,
            signing,
            signature,
        } => {
            whole.insert("body", signed_body(frame, fact, signing));
            signature.put("signature", &mut whole);
        }
    }
    Value::Map(whole).canonical().into_bytes()
}
