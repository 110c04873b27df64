//! What lies beside an entry: the documents that it names, as far as they are still there.

use serde::Deserialize;

use super::numbers::told_departures;
use super::{Laboratory, Place};
use crate::app::watching::{BenchRun, afterwards};
use crate::record::entry::{Entry, Signed};
use crate::record::log::Trouble;
use crate::rehearsal::run::Run;
use crate::report::record::{Beside, Titles, trouble};
use crate::report::{Block, Item};
use crate::text::{Words, display_safe};
use crate::units::Digest;

/// So many lines of a text are told. Our default.
const LINES: usize = 40;

/// A document that an entry names.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Document {
    /// The member of the entry that names it.
    member: &'static str,
    /// Its digest.
    digest: Digest,
    /// What is there.
    found: Found,
}

/// What is there of a document.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Found {
    /// The taps of somebody who watched a real case.
    Watched(Box<BenchRun>),
    /// A rehearsal that can be repeated.
    Rehearsal(Box<Run>),
    /// A text, line by line.
    Text(Vec<String>),
    /// Something else. Holds how many bytes it has.
    Other(usize),
    /// It was erased, or never came here.
    Gone,
    /// It cannot be read, or is not what the entry names.
    Trouble(Trouble),
}

impl<P: Place> Laboratory<P> {
    /// The documents that an entry names.
    fn beside(&self, entry: &Entry) -> Vec<Document> {
        let named = entry.kind().documents().into_iter();
        let look = |(member, digest): (&'static str, Digest)| Document {
            member,
            digest,
            found: match self.place.attached(&digest) {
                Ok(Some(bytes)) => found(bytes),
                Ok(None) => Found::Gone,
                Err(trouble) => Found::Trouble(trouble),
            },
        };
        named.map(look).collect()
    }

    /// Everything that is known of an entry besides the record, told.
    #[must_use]
    pub fn told_beside(&self, entry: &Entry, words: &Words) -> Beside {
        let titles = self.step_titles(entry);
        let mut told = told_departures(&self.departures(entry), words);
        told.extend(documents_told(&self.beside(entry), &titles, words));
        Beside { titles, told }
    }

    /// The titles of the steps that an observed run names, from the text that was kept when its edition was adopted. None of a text that is gone
    /// or that says nothing of steps.
    pub(super) fn step_titles(&self, entry: &Entry) -> Titles {
        let Some((Signed::Observed(seen), _)) = entry.signed() else {
            return Titles::new();
        };
        let kept = self.place.attached(&seen.edition.digest);
        let text = kept.ok().flatten().unwrap_or_default();
        let kept: Option<KeptText> = serde_json::from_slice(&text).ok();
        let steps = kept.map_or_else(Vec::new, |kept| kept.module.flow);
        let titled = steps.into_iter();
        titled.map(|step| (step.id, step.title)).collect()
    }
}

/// What is looked for in the kept text of a module.
#[derive(Deserialize)]
struct KeptText {
    module: KeptModule,
}

#[derive(Deserialize)]
struct KeptModule {
    flow: Vec<KeptStep>,
}

#[derive(Deserialize)]
struct KeptStep {
    id: String,
    title: String,
}

fn found(bytes: Vec<u8>) -> Found {
    let text = match String::from_utf8(bytes) {
        Ok(text) => text,
        Err(other) => return Found::Other(other.as_bytes().len()),
    };
    if let Ok(run) = serde_json::from_str(&text) {
        return Found::Rehearsal(Box::new(run));
    }
    let lines: Vec<&str> = text.lines().collect();
    match BenchRun::read(&lines) {
        Ok(run) => Found::Watched(Box::new(run)),
        Err(_) => Found::Text(lines.into_iter().map(str::to_owned).collect()),
    }
}

/// Tells what lies beside an entry, the steps with their titles; nothing where it names no documents.
fn documents_told(documents: &[Document], titles: &Titles, words: &Words) -> Vec<Block> {
    if documents.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::heading(2, words.say("record-beside", &[]))];
    for document in documents {
        let title = words.part("record-beside-of", document.member);
        let items = match &document.found {
            Found::Watched(run) => afterwards::told(run, titles, words),
            Found::Rehearsal(run) => rehearsal(run, words),
            Found::Text(lines) => texts(lines, words),
            Found::Other(bytes) => {
                vec![words.say("record-beside-other", &[("bytes", (*bytes).into())])]
            }
            Found::Gone => vec![words.say("record-beside-gone", &[])],
            Found::Trouble(why) => vec![trouble(*why, words).what],
        };
        let under = items.into_iter().map(Item::new).collect();
        blocks.push(Block::Items(vec![Item::new(title).with(under)]));
    }
    blocks
}

fn rehearsal(run: &Run, words: &Words) -> Vec<String> {
    let values = [
        ("module", display_safe(&run.module).into()),
        ("revision", run.revision.into()),
        ("seed", run.seed.0.to_string().into()),
        ("actions", run.actions.len().into()),
    ];
    vec![words.say("record-beside-rehearsal", &values)]
}

fn texts(lines: &[String], words: &Words) -> Vec<String> {
    let told = lines.iter().take(LINES);
    let mut told: Vec<String> = told.map(|line| display_safe(line)).collect();
    let more = lines.len().saturating_sub(LINES);
    if more > 0 {
        told.push(words.say("record-beside-more", &[("count", more.into())]));
    }
    told
}
