//! The list of entries, one line each. Which ones is left to whoever asks.

use super::said::said;
use super::telling::{Telling, id_of, is_alone_now, time};
use super::terms;
use crate::record::entry::Entry;
use crate::report::Block;
use crate::standing::{Ledger, Reading, View};
use crate::units::Instant;

/// An entry on one line of a screen: the day when it happened, which it is, what it says.
#[must_use]
pub fn entry_row(entry: &Entry, telling: &Telling<'_>) -> String {
    let end = Instant::from_epoch(i64::MAX);
    let view = View::new(telling.ledger, end, Reading::AsNowKnown);
    let values = [
        ("day", entry.frame().happened.day().to_string().into()),
        ("entry", id_of(entry).into()),
        ("said", said(entry, telling).into()),
    ];
    if view.voids(&entry.seal()) {
        telling.say("files-row-void", &values)
    } else {
        telling.say("files-row", &values)
    }
}

/// One line of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Listed<'a> {
    pub(super) entry: &'a Entry,
    pub(super) void: bool,
}

/// What the list tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EntryList<'a> {
    pub(super) alone: bool,
    pub(super) listed: Vec<Listed<'a>>,
}

/// Gathers a list of entries in the order in which they come.
#[must_use]
pub fn entries<'a>(ledger: &Ledger, list: impl IntoIterator<Item = &'a Entry>) -> EntryList<'a> {
    let end = Instant::from_epoch(i64::MAX);
    let view = View::new(ledger, end, Reading::AsNowKnown);
    let listed = list.into_iter().map(|entry| Listed {
        entry,
        void: view.voids(&entry.seal()),
    });
    EntryList {
        alone: is_alone_now(ledger),
        listed: listed.collect(),
    }
}

impl EntryList<'_> {
    /// The list for people.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        let count = [("count", self.listed.len().into())];
        let mut blocks = vec![
            telling.heading(1, "record-list-title"),
            Block::Paragraph(telling.say("record-list-count", &count)),
        ];
        blocks.extend(telling.notice(self.alone));
        if self.listed.is_empty() {
            return blocks;
        }
        let head = [
            "record-list-entry",
            "record-list-happened",
            "record-list-what",
            "record-list-about",
            "record-list-by",
        ];
        let rows = self.listed.iter().map(|one| row(one, telling));
        blocks.push(Block::Table {
            head: head.iter().map(|id| telling.say(id, &[])).collect(),
            rows: rows.collect(),
        });
        blocks
    }
}

fn row(listed: &Listed<'_>, telling: &Telling<'_>) -> Vec<String> {
    let entry = listed.entry;
    let kind = terms::kind(entry.word(), telling.words);
    let what = if listed.void {
        telling.say("record-list-void", &[("kind", kind.into())])
    } else {
        kind
    };
    let by = entry.signed().map(|(_, signing)| signing.by.to_string());
    vec![
        id_of(entry),
        time(entry.frame().happened),
        what,
        about(entry, telling),
        by.unwrap_or_else(|| telling.say("record-list-machine", &[])),
    ]
}

/// Whom or what an entry is about, as short as can be.
fn about(entry: &Entry, telling: &Telling<'_>) -> String {
    let subject = entry.kind().subject();
    if let Some(person) = subject.person {
        return person.to_string();
    }
    if let Some(workflow) = subject.workflow {
        return workflow.to_string();
    }
    let target = entry.kind().refers().into_iter().next();
    match target.and_then(|seal| telling.ledger.get(&seal)) {
        Some(target) => id_of(target),
        None => telling.say("record-list-nobody", &[]),
    }
}
