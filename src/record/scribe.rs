//! For tests: writes entries as the program will, with keys that grow from small numbers.

use std::collections::BTreeMap;

use super::authority::Staff;
use super::entry::{
    Content, Countersigned, Entry, Founded, Frame, Granted, Joined, KeyIssued, Noted, Signed,
    Signing, ToSign,
};
use super::scope::{Authority, Id, Scope};
use super::seal::Seal;
use super::signature::SecretKey;
use super::strand::{Head, Strands};
use crate::units::{Digest, PersonCode, Stamp};

pub(crate) fn id(text: &str) -> Id {
    text.parse().unwrap()
}

pub(crate) fn stamp(text: &str) -> Stamp {
    text.parse().unwrap()
}

pub(crate) fn digest(text: &str) -> Digest {
    Digest::of(&[text.as_bytes()])
}

/// The code of the person with this number.
pub(crate) fn person(number: u8) -> PersonCode {
    PersonCode::from_random([number, 1, 2, 3, 4])
}

pub(crate) fn scope() -> Scope {
    scope_of("stock-teeth")
}

pub(crate) fn scope_of(workflow: &str) -> Scope {
    Scope {
        workflow: id(workflow),
        profile: id("common-practice"),
        wash: id("ultrasonic"),
        cure: id("two-sides"),
    }
}

pub(crate) fn key(number: u8) -> SecretKey {
    SecretKey::from_seed(&[number + 1; 32])
}

#[derive(Clone, Debug)]
pub(crate) struct Scribe {
    pub(crate) entries: Vec<Entry>,
    pub(crate) staff: Staff,
    heads: BTreeMap<Id, Head>,
    now: Stamp,
    strand: Id,
    reason: Option<&'static str>,
}

impl Scribe {
    /// A record that person 0 founded at this time.
    pub(crate) fn founded(now: &str) -> Scribe {
        let mut scribe = Scribe {
            entries: Vec::new(),
            staff: Staff::new(),
            heads: BTreeMap::new(),
            now: stamp(now),
            strand: id("front"),
            reason: Some("as agreed"),
        };
        scribe.sign(
            0,
            Founded {
                person: person(0),
                key: key(0).public(),
                laboratory: digest("laboratory"),
            },
        );
        scribe
    }

    pub(crate) fn at(&mut self, now: &str) -> &mut Scribe {
        self.at_stamp(stamp(now))
    }

    pub(crate) fn at_stamp(&mut self, now: Stamp) -> &mut Scribe {
        self.now = now;
        self
    }

    pub(crate) fn on_strand(&mut self, strand: &str) -> &mut Scribe {
        self.strand = id(strand);
        self
    }

    pub(crate) fn giving_reason(&mut self, reason: Option<&'static str>) -> &mut Scribe {
        self.reason = reason;
        self
    }

    /// Has a person join, with a key and these authorities.
    pub(crate) fn join(&mut self, number: u8, authorities: &[Authority]) -> &mut Scribe {
        let code = person(number);
        let name = digest(&format!("name of {code}"));
        self.sign(0, Joined { person: code, name });
        let key = key(number).public();
        self.sign(0, KeyIssued { person: code, key });
        for authority in authorities {
            self.grant(number, *authority, None);
        }
        self
    }

    pub(crate) fn grant(&mut self, number: u8, authority: Authority, workflow: Option<Id>) -> Seal {
        let granted = Granted {
            person: person(number),
            authority,
            workflow,
        };
        self.sign(0, granted)
    }

    fn frame(&self, happened: Stamp) -> Frame {
        Frame {
            strand: self.strand.clone(),
            number: 0,
            previous: Seal::NONE,
            happened,
            recorded: self.now,
            clock_set_back: None,
            enterer: None,
            workstation: id("front-desk"),
            program: "0.1.0".parse().unwrap(),
            reason: self.reason.map(|reason| reason.parse().unwrap()),
        }
        .after(self.heads.get(&self.strand))
    }

    /// An entry that the person would sign now, not yet written.
    pub(crate) fn draft(&self, by: u8, happened: Stamp, fact: impl Into<Signed>) -> Entry {
        let fact = fact.into();
        let right = fact.kind().right();
        let signing = Signing {
            by: person(by),
            key: key(by).public().id(),
            name: digest(&format!("name of {}", person(by))),
            meaning: fact.kind().meanings()[0],
            under: self.staff.grant(person(by), right.any_of, right.workflow),
            declaration: digest("I stand by this."),
        };
        self.draft_as(by, happened, fact, signing)
    }

    pub(crate) fn draft_as(
        &self,
        by: u8,
        happened: Stamp,
        fact: impl Into<Signed>,
        signing: Signing,
    ) -> Entry {
        let to_sign = ToSign::new(self.frame(happened), fact, signing);
        let signature = key(by).sign(&to_sign.bytes());
        to_sign.signed(signature).unwrap()
    }

    /// Writes an entry down, whoever may have had the right to.
    pub(crate) fn write(&mut self, entry: Entry) -> Seal {
        self.heads
            .insert(entry.frame().strand.clone(), entry.head());
        if self.staff.check(&entry).is_ok() {
            self.staff.learn(&entry);
        }
        let seal = entry.seal();
        self.entries.push(entry);
        seal
    }

    pub(crate) fn sign(&mut self, by: u8, fact: impl Into<Signed>) -> Seal {
        self.sign_late(by, self.now, fact)
    }

    pub(crate) fn sign_late(&mut self, by: u8, happened: Stamp, fact: impl Into<Signed>) -> Seal {
        let entry = self.draft(by, happened, fact);
        self.write(entry)
    }

    /// The draft of a second signature.
    pub(crate) fn second(&self, by: u8, target: Seal) -> Entry {
        let now = self.now;
        let fact = Countersigned { target };
        let mut signing = self
            .draft(by, now, fact.clone())
            .signed()
            .unwrap()
            .1
            .clone();
        let target = self
            .entries
            .iter()
            .find(|entry| entry.seal() == target)
            .unwrap();
        let any_of = target.kind().seconds();
        signing.under = self.staff.grant(person(by), any_of, None);
        self.draft_as(by, now, fact, signing)
    }

    pub(crate) fn now(&self) -> Stamp {
        self.now
    }

    pub(crate) fn note(&mut self, fact: impl Into<Noted>) -> Seal {
        let entry = Entry::noted(self.frame(self.now), fact).unwrap();
        self.write(entry)
    }

    pub(crate) fn strands(&self) -> Strands {
        let mut strands = Strands::new();
        for entry in &self.entries {
            let strand = strands.entry(entry.frame().strand.clone()).or_default();
            strand.push(entry.bytes());
        }
        strands
    }

    pub(crate) fn heads(&self) -> Vec<(Id, u64, Seal)> {
        let head = |(strand, head): (&Id, &Head)| (strand.clone(), head.number, head.seal);
        self.heads.iter().map(head).collect()
    }
}

/// The same entry with another signature.
pub(crate) fn signed_otherwise(entry: &Entry, by: u8) -> Entry {
    let Content::Signed { fact, signing, .. } = entry.content() else {
        panic!("nobody signed it");
    };
    let to_sign = ToSign::new(entry.frame().clone(), fact.clone(), signing.clone());
    let signature = key(by).sign(&to_sign.bytes());
    to_sign.signed(signature).unwrap()
}

/// Small numbers that look random and are the same every time.
#[derive(Debug)]
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn below(&mut self, end: usize) -> usize {
        // The step of SplitMix64 (Steele, Lea, Flood 2014).
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((mixed ^ (mixed >> 31)) % end as u64).unwrap()
    }
}
