//! Entries for machines, with what was said about them later.

use super::{facts, value};
use crate::record::entry::{Entry, Signed, Signing};
use crate::record::seal::Seal;
use crate::report::record::facts::Facts;
use crate::report::record::lines::Line;
use crate::standing::{Amendment, Force, Ledger};

json! {
    /// An entry by its seal, with its place where it is here.
    EntryRefJson {
        /// The strand.
        strand: Option<String>,
        /// The number in it.
        number: Option<u64>,
        /// The seal.
        seal: String,
    }
    /// Who signed, and what that means.
    SigningJson {
        /// The code of who signed.
        by: String,
        /// What the signature means.
        meaning: &'static str,
        /// The grant.
        under: Option<EntryRefJson>,
        /// The fingerprint of the key.
        key: String,
        /// The commitment to the name.
        name: String,
        /// The digest of the sentence that was shown.
        declaration: String,
    }
    /// A correction or a void.
    AmendedJson {
        /// The entry that amends.
        entry: EntryRefJson,
        /// `corrected` or `voided`.
        kind: &'static str,
        /// Whether it counts.
        counts: bool,
        /// When.
        happened: String,
        /// The code of who did.
        by: Option<String>,
        /// The member, for a correction.
        member: Option<String>,
        /// The value that stood there.
        old: Option<serde_json::Value>,
        /// The value that stands there now.
        new: Option<serde_json::Value>,
        /// Why.
        reason: Option<String>,
    }
    /// A second signature.
    SecondJson {
        /// Its entry.
        entry: EntryRefJson,
        /// When.
        happened: String,
        /// The code of who signed.
        by: Option<String>,
        /// What it means.
        meaning: Option<&'static str>,
    }
    /// An entry with what was said about it later.
    EntryJson {
        /// Which one.
        entry: EntryRefJson,
        /// The word of its kind.
        kind: &'static str,
        /// When it happened.
        happened: String,
        /// When it was written down.
        recorded: String,
        /// By how many seconds it is late, where the policy of that time calls it late.
        late_seconds: Option<i64>,
        /// The code of who typed it in.
        enterer: Option<String>,
        /// At which workstation.
        workstation: String,
        /// With which version of the program.
        program: String,
        /// Whether the clock stood earlier than at the entry before.
        clock_set_back: bool,
        /// Why it was made.
        reason: Option<String>,
        /// The facts as they were written.
        fact: serde_json::Value,
        /// The facts as they read once put right.
        reads: serde_json::Value,
        /// Who signed; none for what the program noted.
        signing: Option<SigningJson>,
        /// The seal of the entry before; zeros for the first.
        previous: String,
        /// Whether it is void.
        void: bool,
        /// Corrections and voids.
        amendments: Vec<AmendedJson>,
        /// Second signatures.
        seconds: Vec<SecondJson>,
    }
}

/// An entry that is named by its seal.
pub(super) fn named(seal: &Seal, ledger: &Ledger) -> EntryRefJson {
    let frame = ledger.get(seal).map(Entry::frame);
    EntryRefJson {
        strand: frame.map(|frame| frame.strand.to_string()),
        number: frame.map(|frame| frame.number),
        seal: seal.to_string(),
    }
}

pub(super) fn this(entry: &Entry) -> EntryRefJson {
    EntryRefJson {
        strand: Some(entry.frame().strand.to_string()),
        number: Some(entry.frame().number),
        seal: entry.seal().to_string(),
    }
}

pub(super) fn signing(of: &Signing, ledger: &Ledger) -> SigningJson {
    SigningJson {
        by: of.by.to_string(),
        meaning: of.meaning.word(),
        under: of.under.map(|seal| named(&seal, ledger)),
        key: of.key.0.to_string(),
        name: of.name.to_string(),
        declaration: of.declaration.to_string(),
    }
}

pub(super) fn line(of: &Line<'_>, ledger: &Ledger) -> EntryJson {
    let entry = of.entry;
    let frame = entry.frame();
    EntryJson {
        entry: this(entry),
        kind: entry.word(),
        happened: frame.happened.to_string(),
        recorded: frame.recorded.to_string(),
        late_seconds: of.late_seconds,
        enterer: frame.enterer.map(|person| person.to_string()),
        workstation: frame.workstation.to_string(),
        program: frame.program.to_string(),
        clock_set_back: frame.clock_set_back == Some(true),
        reason: frame.reason.as_ref().map(ToString::to_string),
        fact: facts(&Facts::of(entry).0),
        reads: facts(&of.facts.0),
        signing: entry.signed().map(|(_, one)| signing(one, ledger)),
        previous: frame.previous.to_string(),
        void: of.void,
        amendments: of.amendments.iter().map(amended).collect(),
        seconds: of
            .seconds
            .iter()
            .map(|second| signed_second(second))
            .collect(),
    }
}

fn amended(amendment: &Amendment<'_>) -> AmendedJson {
    let entry = amendment.entry;
    let signed = entry.signed();
    let corrected = match signed {
        Some((Signed::Corrected(fact), _)) => Some(fact),
        _ => None,
    };
    AmendedJson {
        entry: this(entry),
        kind: entry.word(),
        counts: amendment.force == Force::Counts,
        happened: entry.frame().happened.to_string(),
        by: signed.map(|(_, signing)| signing.by.to_string()),
        member: corrected.map(|fact| fact.member.to_string()),
        old: corrected.and_then(|fact| fact.old.as_ref().map(value)),
        new: corrected.and_then(|fact| fact.new.as_ref().map(value)),
        reason: entry.frame().reason.as_ref().map(ToString::to_string),
    }
}

fn signed_second(entry: &Entry) -> SecondJson {
    let signed = entry.signed();
    SecondJson {
        entry: this(entry),
        happened: entry.frame().happened.to_string(),
        by: signed.map(|(_, signing)| signing.by.to_string()),
        meaning: signed.map(|(_, signing)| signing.meaning.word()),
    }
}
