//! One entry in full: what it says, how it came about, who signed it, what it names, what was said about it later.

use super::facts::{Facts, Titles};
use super::lines::{Line, reason};
use super::preview::declaration;
use super::said::said;
use super::telling::{Telling, as_put_right, fingerprint, id_of, is_alone_now, time_to_the_second};
use super::terms;
use crate::record::entry::{Content, Entry, Frame, Signed, Signing};
use crate::record::seal::Seal;
use crate::report::{Block, Item};
use crate::standing::Ledger;
use crate::text::Value;
use crate::units::Digest;

/// What the report of one entry tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OneEntry<'a> {
    pub(super) alone: bool,
    pub(super) line: Line<'a>,
    /// Assessments that were there and that a sign-off does not name.
    pub(super) left_out: Vec<Seal>,
    /// Entries that rest on it: besides second signatures, corrections and voids.
    pub(super) named_by: Vec<&'a Entry>,
}

/// Gathers everything about an entry that is known now. None where it is not here, or nobody had the right to make it.
#[must_use]
pub fn entry<'a>(ledger: &'a Ledger, seal: &Seal) -> Option<OneEntry<'a>> {
    let entry = ledger.get(seal)?;
    let view = as_put_right(ledger);
    let named_by = ledger.entries().iter().filter(|other| {
        let about = matches!(
            other.signed(),
            Some((
                Signed::Countersigned(_) | Signed::Corrected(_) | Signed::Voided(_),
                _
            ))
        );
        !about && other.kind().refers().contains(seal)
    });
    Some(OneEntry {
        alone: is_alone_now(ledger),
        left_out: view.left_out(entry),
        line: Line::of(entry, ledger, view),
        named_by: named_by.collect(),
    })
}

/// What is known of an entry besides the record.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Beside {
    /// The titles of the steps that it names.
    pub titles: Titles,
    /// What is kept beside it, told.
    pub told: Vec<Block>,
}

/// How one entry has to do with another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Link {
    /// The entry names it.
    Names,
    /// The entry was signed under the right that was given in it.
    Under,
    /// It signs, corrects or voids the entry.
    Amends,
    /// It names the entry.
    NamedBy,
}

impl Link {
    /// The message that says so.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Link::Names => "files-link-names",
            Link::Under => "files-link-under",
            Link::Amends => "files-link-amends",
            Link::NamedBy => "files-link-named-by",
        }
    }
}

impl OneEntry<'_> {
    /// The entries that this one has to do with, each once, those that are here.
    #[must_use]
    pub fn links(&self, ledger: &Ledger) -> Vec<(Link, Seal)> {
        let entry = self.line.entry;
        let names = entry.kind().refers().into_iter();
        let under = entry.signed().and_then(|(_, signing)| signing.under);
        let seconds = self.line.seconds.iter().map(|one| one.seal());
        let amendments = self.line.amendments.iter().map(|one| one.entry.seal());
        let named_by = self.named_by.iter().map(|one| one.seal());
        let all = names
            .map(|seal| (Link::Names, seal))
            .chain(seconds.chain(amendments).map(|seal| (Link::Amends, seal)))
            .chain(named_by.map(|seal| (Link::NamedBy, seal)))
            .chain(under.map(|seal| (Link::Under, seal)));
        let mut links: Vec<(Link, Seal)> = Vec::new();
        for (link, seal) in all {
            let known = links.iter().any(|(_, known)| *known == seal);
            if !known && ledger.get(&seal).is_some() {
                links.push((link, seal));
            }
        }
        links
    }

    /// The entry for people, what matters most of it first.
    #[must_use]
    pub fn blocks(&self, beside: Beside, telling: &Telling<'_>) -> Vec<Block> {
        let entry = self.line.entry;
        let title = [("entry", id_of(entry).into())];
        let mut blocks = vec![Block::heading(1, telling.say("record-one-title", &title))];
        blocks.extend(telling.notice(self.alone));
        if self.line.void {
            blocks.push(Block::Paragraph(telling.say("record-one-void", &[])));
        }
        blocks.push(Block::Paragraph(self.line.said(telling)));
        let left_out = self
            .left_out
            .iter()
            .filter_map(|seal| telling.ledger.get(seal));
        let left_out = left_out.map(|other| named(other, telling)).collect();
        let mut later = self.line.later(telling);
        later.extend(self.named_by.iter().map(|other| named(other, telling)));
        if later.is_empty() {
            later.push(Item::new(telling.say("record-one-no-later", &[])));
        }
        blocks.extend(part("record-one-later", later, telling));
        let facts = Facts::of(entry).titled(&beside.titles, telling.words);
        blocks.extend(part("record-one-facts", telling.items(&facts.0), telling));
        blocks.extend(part("record-one-left-out", left_out, telling));
        blocks.extend(beside.told);
        blocks.extend(part("record-one-names", names(entry, telling), telling));
        blocks.extend(part("record-one-origin", self.origin(telling), telling));
        blocks.extend(part(
            "record-one-signature",
            signature(entry, telling),
            telling,
        ));
        blocks.extend(part("record-one-seals", seals(entry, telling), telling));
        blocks
    }

    fn origin(&self, telling: &Telling<'_>) -> Vec<Item> {
        let mut items = frame(self.line.entry.frame(), telling);
        items.extend(self.line.origin(telling));
        items
    }
}

/// A part of the report; nothing where it holds nothing.
fn part(id: &str, items: Vec<Item>, telling: &Telling<'_>) -> Vec<Block> {
    if items.is_empty() {
        return Vec::new();
    }
    vec![telling.heading(2, id), Block::Items(items)]
}

/// Where an entry stands and how it came about, without its reason.
pub(super) fn frame(frame: &Frame, telling: &Telling<'_>) -> Vec<Item> {
    let say = |id: &str, name: &'static str, value: String| {
        Item::new(telling.say(id, &[(name, value.into())]))
    };
    let happened = time_to_the_second(frame.happened);
    let recorded = time_to_the_second(frame.recorded);
    let mut items = vec![
        say("record-frame-happened", "at", happened),
        say("record-frame-recorded", "at", recorded),
    ];
    if frame.clock_set_back == Some(true) {
        items.push(Item::new(telling.say("record-frame-clock-set-back", &[])));
    }
    items.push(match frame.enterer {
        Some(person) => say("record-frame-enterer", "person", telling.person(person)),
        None => Item::new(telling.say("record-frame-machine", &[])),
    });
    items.push(say(
        "record-frame-workstation",
        "workstation",
        frame.workstation.to_string(),
    ));
    items.push(say(
        "record-frame-program",
        "program",
        frame.program.to_string(),
    ));
    items
}

/// The same with the reason.
pub(super) fn frame_and_reason(of: &Frame, telling: &Telling<'_>) -> Vec<Item> {
    let mut items = frame(of, telling);
    items.extend(reason(of, telling));
    items
}

fn signature(entry: &Entry, telling: &Telling<'_>) -> Vec<Item> {
    match entry.content() {
        Content::Noted(_) => vec![Item::new(telling.say("record-signing-none", &[]))],
        Content::Signed { signing, .. } => signing_items(signing, telling),
    }
}

/// Who signs with which meaning, under which right, with which key.
pub(super) fn signing_items(signing: &Signing, telling: &Telling<'_>) -> Vec<Item> {
    let say = |id: &str, values: &[(&str, Value)]| Item::new(telling.say(id, values));
    let meaning = terms::meaning(signing.meaning, telling.words);
    let mut items = vec![
        say(
            "record-signing-by",
            &[("person", telling.person(signing.by).into())],
        ),
        say("record-signing-meaning", &[("meaning", meaning.into())]),
    ];
    let sentence = declaration(signing.meaning, telling.words);
    items.push(
        if Digest::of(&[sentence.as_bytes()]) == signing.declaration {
            let sentence = [("sentence", sentence.into())];
            say("record-signing-declaration", &sentence)
        } else {
            let digest = [("digest", fingerprint(&signing.declaration).into())];
            say("record-signing-other-declaration", &digest)
        },
    );
    items.push(match &signing.under {
        Some(grant) => {
            let said = telling.ledger.get(grant);
            let said = said.map_or_else(String::new, |grant| self::said(grant, telling));
            let values = [
                ("entry", telling.entry(grant).into()),
                ("said", said.into()),
            ];
            say("record-signing-under", &values)
        }
        None => say("record-signing-under-nothing", &[]),
    });
    let key = [("key", signing.key.0.to_string().into())];
    items.push(say("record-signing-key", &key));
    let name = [("name", signing.name.to_string().into())];
    items.push(say("record-signing-name", &name));
    items
}

fn seals(entry: &Entry, telling: &Telling<'_>) -> Vec<Item> {
    let seal = [("seal", entry.seal().to_string().into())];
    let previous = entry.frame().previous;
    vec![
        Item::new(telling.say("record-seal", &seal)),
        Item::new(if previous == Seal::NONE {
            telling.say("record-seal-first", &[])
        } else {
            let previous = [("seal", previous.to_string().into())];
            telling.say("record-seal-previous", &previous)
        }),
    ]
}

fn names(entry: &Entry, telling: &Telling<'_>) -> Vec<Item> {
    let refers = entry.kind().refers().into_iter();
    refers
        .map(|seal| match telling.ledger.get(&seal) {
            Some(named) => self::named(named, telling),
            None => Item::new(telling.entry(&seal)),
        })
        .collect()
}

/// Another entry in one sentence as it was written, with what was put right since or waits to be.
pub(super) fn named(entry: &Entry, telling: &Telling<'_>) -> Item {
    let values = [
        ("entry", telling.entry(&entry.seal()).into()),
        ("said", said(entry, telling).into()),
    ];
    let line = Line::of(entry, telling.ledger, as_put_right(telling.ledger));
    Item::new(telling.say("record-one-named", &values)).with(line.amended(telling))
}
