//! The sign-off: a named, authorised person declares another competent.

use super::{Amending, Kind, PersonRule, Right, SignedKind, Subject};
use crate::record::canonical::{Json, Map, Value};
use crate::record::member::{Member, inner_members, members, words};
use crate::record::scope::{Authority, Edition, Meaning, Scope};
use crate::record::seal::Seal;
use crate::units::{Digest, PersonCode, Stamp};

members! {
    /// A person was signed off for a scope. Signing off again renews it.
    SignedOff {
        /// Who.
        "person" person: PersonCode,
        /// For what.
        "scope" scope: Scope,
        /// On which edition.
        "edition" edition: Edition,
        /// From when. Never before the signature.
        "valid-from" valid_from: Stamp,
        /// On what ground.
        "basis" basis: Basis,
    }
}

/// The ground of a sign-off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Basis {
    /// What assessors of this laboratory saw. Holds the entries that were looked at.
    Evidence(Vec<Seal>),
    /// There is nobody yet who could assess.
    FirstAssessor(Established),
    /// There is nobody in the laboratory but the owner.
    Outside(OutsideEvidence),
}

words! {
    /// How the competence of a first assessor was established.
    HowEstablished {
        /// Training outside the laboratory.
        "external-training" ExternalTraining,
        /// Work on the validation of the process.
        "validation-work" ValidationWork,
        /// Training by the maker of equipment or material.
        "maker-training" MakerTraining,
    }
}

inner_members! {
    /// How a first assessor came to be one.
    Established {
        /// In which way.
        "how" how: HowEstablished,
        /// The digest of the document that shows it.
        "proof" proof: Digest,
    }
}

words! {
    /// What somebody from outside did.
    OutsideWay {
        /// Watched the work.
        "observation" Observation,
        /// Judged pieces.
        "blind-sample" BlindSample,
    }
}

inner_members! {
    /// What somebody from outside saw.
    OutsideEvidence {
        /// In which way.
        "way" way: OutsideWay,
        /// The commitment to the outside assessor's name.
        "assessor" assessor: Digest,
        /// The digest of the document that shows it.
        "proof" proof: Digest,
    }
}

impl Member for Basis {
    fn to_value(&self) -> Value {
        let (word, value) = match self {
            Basis::Evidence(seals) => ("evidence", seals.to_value()),
            Basis::FirstAssessor(how) => ("first-assessor", how.to_value()),
            Basis::Outside(evidence) => ("outside", evidence.to_value()),
        };
        let mut map = Map::new();
        map.insert(word, value);
        Value::Map(map)
    }

    fn from_value(value: Json<'_>) -> Option<Basis> {
        let Json::Map(map) = value else {
            return None;
        };
        let mut members = map.given();
        let read = if let Some(value) = members.take("evidence") {
            Basis::Evidence(Member::from_value(value)?)
        } else if let Some(value) = members.take("first-assessor") {
            Basis::FirstAssessor(Member::from_value(value)?)
        } else {
            Basis::Outside(Member::from_value(members.take("outside")?)?)
        };
        members.left().is_none().then_some(read)
    }
}

impl Kind for SignedOff {
    fn subject(&self) -> Subject<'_> {
        Subject::scope(self.person, &self.scope)
    }

    fn refers(&self) -> Vec<Seal> {
        match &self.basis {
            Basis::Evidence(seals) => seals.clone(),
            Basis::FirstAssessor(_) | Basis::Outside(_) => Vec::new(),
        }
    }

    fn documents(&self) -> Vec<(&'static str, Digest)> {
        match &self.basis {
            Basis::Evidence(_) => Vec::new(),
            Basis::FirstAssessor(how) => vec![("proof", how.proof)],
            Basis::Outside(evidence) => vec![("proof", evidence.proof)],
        }
    }

    fn amending(&self) -> Amending {
        Amending::VoidOnly
    }
}

impl SignedKind for SignedOff {
    fn right(&self) -> Right<'_> {
        let right = Right::of(&[Authority::Approve]).within(&self.scope.workflow);
        match self.basis {
            // Only a policy opens this path, which `standing` knows.
            Basis::Outside(_) => Right {
                person: PersonRule::Anyone,
                ..right
            },
            Basis::Evidence(_) | Basis::FirstAssessor(_) => right.not(self.person),
        }
    }

    fn meanings(&self) -> &'static [Meaning] {
        &[Meaning::Approved]
    }
}
