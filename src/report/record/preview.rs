//! What a signer is shown before the passphrase: the sentence that the signature stands for, the name, the meaning, what is signed and
//! what it changes.

use super::entry::{frame_and_reason, signing_items};
use super::facts::{Facts, Titles};
use super::said::of_kind;
use super::scopes::{InScope, in_scope, with_runs};
use super::standings::{circumstances, standing_told};
use super::telling::{AsOf, Telling};
use super::terms::{self, term};
use super::worth::worth;
use crate::record::entry::{Frame, Signed, Signing};
use crate::record::scope::Meaning;
use crate::report::{Block, Item};
use crate::standing::{Ledger, Reading};
use crate::text::Words;
use crate::units::PersonCode;

/// What is about to be signed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ToBeSigned<'a> {
    /// Where the entry will stand.
    pub frame: &'a Frame,
    /// What it says.
    pub fact: &'a Signed,
    /// Who signs, and what that means.
    pub signing: &'a Signing,
    /// The titles of steps by their ids, as far as they are known.
    pub titles: &'a Titles,
}

/// What a signer is told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preview<'a> {
    pub(super) of: ToBeSigned<'a>,
    pub(super) asked: AsOf,
    pub(super) alone: bool,
    /// Where the person stands that it is about, where it is about a scope.
    pub(super) before: Option<(PersonCode, InScope)>,
}

/// The sentence that a signature with this meaning stands for. The digest of its UTF-8 bytes goes into the entry.
#[must_use]
pub fn declaration(meaning: Meaning, words: &Words) -> String {
    term("record-declaration", meaning.word(), words)
}

/// Gathers what a signer is told, as things stand at the time of recording.
#[must_use]
pub fn preview<'a>(ledger: &Ledger, of: ToBeSigned<'a>) -> Preview<'a> {
    let asked = AsOf {
        at: of.frame.recorded,
        reading: Reading::AsNowKnown,
    };
    let view = asked.view(ledger);
    let subject = of.fact.kind().subject();
    let before = subject.person.zip(subject.scope).map(|(person, scope)| {
        let before = with_runs(view, person, in_scope(view, person, scope.clone()));
        (person, before)
    });
    Preview {
        of,
        asked,
        alone: view.policy().is_alone(),
        before,
    }
}

impl Preview<'_> {
    /// What is shown before the passphrase is asked for.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        let ToBeSigned {
            frame,
            fact,
            signing,
            titles,
        } = self.of;
        let facts = Facts::to_sign(frame, fact, signing).titled(titles, telling.words);
        let meaning = terms::meaning(signing.meaning, telling.words);
        let who = [
            ("person", telling.person(signing.by).into()),
            ("meaning", meaning.into()),
        ];
        let mut blocks = vec![telling.heading(1, "record-preview-title")];
        blocks.extend(telling.notice(self.alone));
        blocks.push(Block::Paragraph(telling.say("record-preview-who", &who)));
        blocks.push(Block::Paragraph(declaration(
            signing.meaning,
            telling.words,
        )));
        blocks.push(telling.heading(2, "record-preview-what"));
        let signed = Some((fact, signing));
        let sentence = of_kind(fact.word(), &facts, signed, telling);
        blocks.push(Block::Paragraph(sentence));
        blocks.push(Block::Items(telling.items(&facts.0)));
        let named = fact.kind().refers();
        let named = named.iter().filter_map(|seal| telling.ledger.get(seal));
        let named: Vec<Item> = named
            .map(|entry| super::entry::named(entry, telling))
            .collect();
        if !named.is_empty() {
            blocks.push(telling.heading(2, "record-preview-named"));
            blocks.push(Block::Items(named));
        }
        blocks.push(telling.heading(2, "record-preview-changes"));
        let changes = term("record-changes", fact.word(), telling.words);
        blocks.push(Block::Paragraph(changes));
        if let Some((person, before)) = &self.before {
            blocks.extend(self.stands(*person, before, telling));
            if let (Signed::SignedOff(_), Some(runs)) = (fact, before.runs) {
                blocks.push(telling.heading(3, "deeds-worth-title"));
                blocks.push(Block::Paragraph(worth(runs, telling)));
                blocks.push(Block::Paragraph(telling.say("deeds-worth-decides", &[])));
            }
        }
        blocks.push(Block::Paragraph(telling.say("record-preview-stays", &[])));
        blocks.push(telling.heading(2, "record-preview-with-it"));
        let mut items = frame_and_reason(frame, telling);
        items.extend(signing_items(signing, telling));
        blocks.push(Block::Items(items));
        blocks
    }

    /// Where the person stands now.
    fn stands(&self, person: PersonCode, before: &InScope, telling: &Telling<'_>) -> Vec<Block> {
        let values = [
            ("person", telling.person(person).into()),
            ("scope", telling.scope(&before.scope).into()),
        ];
        let told = standing_told(
            &before.standing,
            before.ground.as_ref(),
            before.supervision.as_ref(),
            telling,
        );
        let mut blocks = vec![
            Block::heading(3, telling.say("record-preview-stands", &values)),
            telling.as_of(self.asked),
            Block::Paragraph(told),
        ];
        let under = circumstances(before, telling);
        if !under.is_empty() {
            blocks.push(Block::Items(under));
        }
        blocks
    }
}
