//! What every report of the record needs to be told: words, names, entries by seal, times as people write them.

use crate::record::entry::Entry;
use crate::record::scope::{Edition, Scope};
use crate::record::seal::Seal;
use crate::report::Block;
use crate::standing::{Ledger, Reading, View};
use crate::text::{Value, Words, display_safe};
use crate::units::{Digest, Instant, Offset, PersonCode, Stamp};

/// How many hexadecimal digits of a seal or a digest tell two apart on a page.
const FINGERPRINT: usize = 12;

/// In which words and with which names a report is told.
#[derive(Clone, Copy)]
pub struct Telling<'a> {
    /// Entries that are named by their seal are looked up here.
    pub ledger: &'a Ledger,
    /// The words of a language.
    pub words: &'a Words,
    /// The name of a person as it is printed; [`erased`] for people whose names are gone.
    pub names: &'a dyn Fn(PersonCode) -> String,
}

/// The instant that a report is about, and which entries count for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AsOf {
    /// The instant, with the offset that it is printed in.
    pub at: Stamp,
    /// Which entries count.
    pub reading: Reading,
}

impl AsOf {
    /// The entries as they count then.
    #[must_use]
    pub fn view(self, ledger: &Ledger) -> View<'_> {
        View::new(ledger, self.at.instant(), self.reading)
    }

    /// Both in a few words, for the head of a screen.
    #[must_use]
    pub fn short(self, words: &Words) -> String {
        let mut values = vec![("at", time(self.at).into())];
        let id = match self.reading {
            Reading::AsNowKnown => "files-as-of.now-known",
            Reading::AsRecordedThen => "files-as-of.recorded-then",
            Reading::AsRecordedBy(by) => {
                values.push(("by", time(by).into()));
                "files-as-of.recorded-by"
            }
        };
        words.say(id, &values)
    }
}

/// The word of a reading, for machines.
pub(super) fn reading_word(reading: Reading) -> &'static str {
    match reading {
        Reading::AsNowKnown => "as-now-known",
        Reading::AsRecordedThen => "as-recorded-then",
        Reading::AsRecordedBy(_) => "as-recorded-by",
    }
}

/// What is printed for a person whose name is erased.
#[must_use]
pub fn erased(person: PersonCode, words: &Words) -> String {
    words.say(
        "record-erased",
        &[("code", person.to_string().as_str().into())],
    )
}

/// Where an entry stands: `front/12`.
#[must_use]
pub fn id_of(entry: &Entry) -> String {
    let frame = entry.frame();
    format!("{}/{}", frame.strand, frame.number)
}

/// The beginning of a digest, enough to tell two apart on a page.
#[must_use]
pub fn fingerprint(digest: &Digest) -> String {
    digest.to_string().chars().take(FINGERPRINT).collect()
}

/// A time to the minute with its offset: `2026-03-03 09:10 +01:00`.
#[must_use]
pub fn time(stamp: Stamp) -> String {
    // A stamp prints in ASCII as `2026-03-03T09:10:00+01:00`.
    let text = stamp.to_string();
    format!("{} {} {}", &text[..10], &text[11..16], &text[19..])
}

/// The same to the second.
pub(super) fn time_to_the_second(stamp: Stamp) -> String {
    let text = stamp.to_string();
    format!("{} {} {}", &text[..10], &text[11..19], &text[19..])
}

/// An instant in an offset; in UTC where the offset has no such day.
pub(super) fn stamped(at: Instant, offset: Offset) -> Option<Stamp> {
    Stamp::new(at, offset).or_else(|| Stamp::new(at, Offset::UTC))
}

impl Telling<'_> {
    pub(super) fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.words.say(id, values)
    }

    pub(super) fn heading(&self, level: u8, id: &str) -> Block {
        Block::heading(level, self.say(id, &[]))
    }

    /// A person's name as it is printed, without the code.
    #[must_use]
    pub fn name(&self, person: PersonCode) -> String {
        display_safe(&(self.names)(person)).trim().to_owned()
    }

    /// A person by name and code.
    #[must_use]
    pub fn person(&self, person: PersonCode) -> String {
        let (name, code) = (self.name(person), person.to_string());
        if name.is_empty() {
            return code;
        }
        // An erased person's code stands in the place of the name.
        if name == erased(person, self.words) {
            return name;
        }
        let values = [("name", name.into()), ("code", code.into())];
        self.say("record-person", &values)
    }

    /// An entry by its place and a fingerprint of its seal; the fingerprint alone where it is not here.
    #[must_use]
    pub fn entry(&self, seal: &Seal) -> String {
        let seal_shown = ("seal", fingerprint(&seal.0).into());
        match self.ledger.get(seal) {
            Some(entry) => {
                let values = [("entry", id_of(entry).into()), seal_shown];
                self.say("record-entry", &values)
            }
            None => self.say("record-entry-unknown", &[seal_shown]),
        }
    }

    /// An instant in an offset.
    pub(super) fn at(&self, at: Instant, offset: Offset) -> String {
        stamped(at, offset).map_or_else(|| self.say("record-nothing", &[]), time)
    }

    /// A scope on one line.
    #[must_use]
    pub fn scope(&self, scope: &Scope) -> String {
        let values = [
            ("workflow", scope.workflow.to_string().into()),
            ("profile", scope.profile.to_string().into()),
            ("wash", scope.wash.to_string().into()),
            ("cure", scope.cure.to_string().into()),
        ];
        self.say("record-scope", &values)
    }

    /// An edition on one line.
    #[must_use]
    pub fn edition(&self, edition: &Edition) -> String {
        let revision = ("revision", edition.revision.to_string().into());
        self.say("record-edition", &[revision])
    }

    /// The instant that a report is about and how entries were read, as every report prints them.
    pub(super) fn as_of(&self, asked: AsOf) -> Block {
        let reading = match asked.reading {
            Reading::AsNowKnown => self.say("record-reading.as-now-known", &[]),
            Reading::AsRecordedThen => self.say("record-reading.as-recorded-then", &[]),
            Reading::AsRecordedBy(by) => {
                self.say("files-reading-recorded-by", &[("by", time(by).into())])
            }
        };
        let values = [("at", time(asked.at).into()), ("reading", reading.into())];
        Block::Paragraph(self.say("record-as-of", &values))
    }

    /// What has to stand on every report of a laboratory in which nobody can assess independently.
    pub(super) fn notice(&self, alone: bool) -> Option<Block> {
        alone.then(|| Block::Caution(self.say("record-no-independent-assessor", &[])))
    }
}

/// Everything that is known now, whenever it holds: entries with all that was put right.
pub(super) fn as_put_right(ledger: &Ledger) -> View<'_> {
    View::new(ledger, Instant::from_epoch(i64::MAX), Reading::AsNowKnown)
}

/// Whether the newest policy says that nobody can assess independently.
pub(super) fn is_alone_now(ledger: &Ledger) -> bool {
    as_put_right(ledger).policy().is_alone()
}
