//! What the record holds and how it was found, for machines: one entry, a list of entries, the result of a verification.

use super::FORMAT;
use super::entry::{EntryJson, EntryRefJson, line, named, this};
use crate::record::entry::EntryFault;
use crate::record::verify::{Bad, Fault, Limit};
use crate::report::record::entries::EntryList;
use crate::report::record::entry::OneEntry;
use crate::report::record::telling::is_alone_now;
use crate::report::record::verified::Verified;
use crate::standing::Ledger;

json! {
    /// One entry in full.
    OneEntryJson {
        /// `drybench-entry`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// Whether the newest policy says that nobody can assess independently.
        no_independent_assessor: bool,
        /// The entry.
        entry: EntryJson,
        /// The entries that it names.
        names: Vec<EntryRefJson>,
        /// Other entries that name it, besides second signatures, corrections and voids.
        named_by: Vec<EntryRefJson>,
    }
    /// The list of entries.
    EntryListJson {
        /// `drybench-entries`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// Whether the newest policy says that nobody can assess independently.
        no_independent_assessor: bool,
        /// The entries.
        entries: Vec<ListedJson>,
    }
    /// One line of the list.
    ListedJson {
        /// Which entry.
        entry: EntryRefJson,
        /// The word of its kind.
        kind: &'static str,
        /// When it happened.
        happened: String,
        /// When it was written down.
        recorded: String,
        /// The code of whom it is about.
        person: Option<String>,
        /// The workflow that it is about.
        workflow: Option<String>,
        /// The code of who signed it.
        by: Option<String>,
        /// Whether it is void.
        void: bool,
    }
    /// What verification found.
    VerifiedJson {
        /// `drybench-verification`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// Whether the newest policy says that nobody can assess independently.
        no_independent_assessor: bool,
        /// How many signatures were verified.
        signatures: u64,
        /// How many faults were found.
        faults: u64,
        /// Strand by strand.
        strands: Vec<StrandJson>,
        /// The faults, by strand and number; fewer than were found where not all were kept.
        bad: Vec<BadJson>,
        /// What cannot be shown.
        limits: Vec<LimitJson>,
    }
    /// What was checked of a strand.
    StrandJson {
        /// The strand.
        strand: String,
        /// How many entries there are.
        entries: u64,
        /// The root over them.
        root: String,
        /// Number and seal of the last one in its place.
        last: Option<(u64, String)>,
        /// The first number at which something is wrong.
        first_bad: Option<u64>,
    }
    /// A fault and where it is.
    BadJson {
        /// The strand.
        strand: String,
        /// The number in it.
        number: u64,
        /// The word of what is wrong.
        fault: &'static str,
        /// The number that the fault names: the last missing one, that of the remembered head, that of a misplaced entry.
        other: Option<u64>,
        /// Whether a newer program wrote it.
        newer: bool,
    }
    /// What cannot be shown.
    LimitJson {
        /// Its word.
        limit: &'static str,
        /// The strand.
        strand: Option<String>,
        /// The number up to which entries are lost.
        number: Option<u64>,
    }
}

impl OneEntry<'_> {
    /// The entry for machines.
    #[must_use]
    pub fn json(&self, ledger: &Ledger) -> OneEntryJson {
        let names = self.line.entry.kind().refers().into_iter();
        OneEntryJson {
            kind: "drybench-entry",
            format: FORMAT,
            no_independent_assessor: self.alone,
            entry: line(&self.line, ledger),
            names: names.map(|seal| named(&seal, ledger)).collect(),
            named_by: self.named_by.iter().map(|entry| this(entry)).collect(),
        }
    }
}

impl EntryList<'_> {
    /// The list for machines.
    #[must_use]
    pub fn json(&self) -> EntryListJson {
        let entries = self.listed.iter().map(|one| {
            let entry = one.entry;
            let subject = entry.kind().subject();
            ListedJson {
                entry: this(entry),
                kind: entry.word(),
                happened: entry.frame().happened.to_string(),
                recorded: entry.frame().recorded.to_string(),
                person: subject.person.map(|person| person.to_string()),
                workflow: subject.workflow.map(ToString::to_string),
                by: entry.signed().map(|(_, signing)| signing.by.to_string()),
                void: one.void,
            }
        });
        EntryListJson {
            kind: "drybench-entries",
            format: FORMAT,
            no_independent_assessor: self.alone,
            entries: entries.collect(),
        }
    }
}

impl Verified {
    /// The result for machines.
    #[must_use]
    pub fn json(&self, ledger: &Ledger) -> VerifiedJson {
        let strands = self.checked.strands.iter().map(|one| StrandJson {
            strand: one.strand.to_string(),
            entries: one.entries,
            root: one.root.digest.to_string(),
            last: one.last.map(|(number, seal)| (number, seal.to_string())),
            first_bad: one.first_bad,
        });
        VerifiedJson {
            kind: "drybench-verification",
            format: FORMAT,
            no_independent_assessor: is_alone_now(ledger),
            signatures: self.checked.signatures,
            faults: self.checked.faults,
            strands: strands.collect(),
            bad: self.bad.iter().map(bad).collect(),
            limits: self.checked.limits.iter().map(limit).collect(),
        }
    }
}

fn bad(bad: &Bad) -> BadJson {
    let (fault, other) = match &bad.fault {
        Fault::Unreadable(_) => ("unreadable", None),
        Fault::Missing(until) => ("missing", Some(*until)),
        Fault::Misplaced(_, number) => ("misplaced", Some(*number)),
        Fault::PreviousDiffers => ("previous-differs", None),
        Fault::Altered => ("altered", None),
        Fault::Signature => ("signature", None),
        Fault::Authority(_) => ("authority", None),
        Fault::ClockWentBack => ("clock-went-back", None),
        Fault::DatedAhead => ("dated-ahead", None),
        Fault::CutOff(number) => ("cut-off", Some(*number)),
        Fault::HeadDiffers => ("head-differs", None),
        Fault::CheckpointDiffers => ("checkpoint-differs", None),
    };
    BadJson {
        strand: bad.strand.to_string(),
        number: bad.number,
        fault,
        other,
        newer: matches!(bad.fault, Fault::Unreadable(EntryFault::Newer(_))),
    }
}

fn limit(limit: &Limit) -> LimitJson {
    let (word, strand, number) = match limit {
        Limit::NoHead(strand) => ("no-head", Some(strand), None),
        Limit::NoCheckpoint(strand) => ("no-checkpoint", Some(strand), None),
        Limit::Restored(strand, number) => ("restored", Some(strand), Some(*number)),
        Limit::UntrueButEntered => ("untrue-but-entered", None, None),
        Limit::ClockOfMachine => ("clock-of-machine", None, None),
    };
    LimitJson {
        limit: word,
        strand: strand.map(ToString::to_string),
        number,
    }
}
