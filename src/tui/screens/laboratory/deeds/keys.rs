//! Keys are issued, accepted, lost; passphrases change. What is typed does not show.

use super::offers::{PERSON, REASON, ask, here, person, reason, why};
use super::{About, to_sign};
use crate::app::System;
use crate::app::laboratory::{Deed, Done};
use crate::people::Passphrase;
use crate::record::entry::KeyLost;
use crate::record::scope::Meaning;
use crate::report::record::{declaration, id_of};
use crate::tui::screen::{Desk, Notice, Turn};
use crate::tui::screens::laboratory::answers::{Answers, Row, Wrong};
use crate::tui::screens::laboratory::form::Not;

const OWN_PASSPHRASE: &str = "deeds-row-own-passphrase";
const OLD: &str = "deeds-row-passphrase";
const NEW: &str = "deeds-row-new-passphrase";
const AGAIN: &str = "deeds-row-again";

/// A passphrase that was typed twice.
fn chosen(answers: &mut Answers<'_>) -> Result<Passphrase, Wrong> {
    let first = answers.passphrase(NEW)?;
    let again = answers.passphrase(AGAIN)?;
    if first.bytes() == again.bytes() {
        Ok(first)
    } else {
        Err(Wrong {
            id: NEW,
            why: "deeds-wrong-differ",
        })
    }
}

/// Says which entries something has become, and notes the last for the screen underneath.
fn done<S: System>(all: &[Done], more: Option<String>, desk: &mut Desk<S>) -> Turn<S> {
    let mut texts = Vec::new();
    if let Some((house, words)) = desk.office() {
        for one in all {
            texts.push(words.say("deeds-done", &[("entry", id_of(&one.entry).into())]));
            house.note_signed(one.entry.seal());
        }
    }
    texts.extend(more);
    Turn::CloseWith(Notice::new(texts))
}

pub(super) fn issue_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        person(PERSON, about.person, desk),
        Row::text(REASON, ""),
        Row::hidden(OWN_PASSPHRASE),
        Row::hidden(NEW),
        Row::hidden(AGAIN),
    ]
}

pub(super) fn issue<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let by = here(desk)?;
    let person = answers.needed(PERSON)?;
    let identity = answers.needed(REASON)?;
    let own = answers.passphrase(OWN_PASSPHRASE)?;
    let passphrase = chosen(answers)?;
    let sentence = declaration(Meaning::Approved, &desk.words);
    let accountability = desk.say("laboratory-accountability", &[]);
    let (issued, accepted) = ask(desk, |laboratory| {
        let new = laboratory.new_key(person, passphrase)?;
        let issued = laboratory.issue_key(by, &own, &new, identity, &sentence)?;
        Ok((
            issued,
            laboratory.accept_key(person, new.passphrase(), &accountability),
        ))
    })?;
    Ok(match accepted {
        Ok(accepted) => done(&[issued, accepted], None, desk),
        // A key in the place of an earlier one takes a second person first.
        Err(_) => {
            let then = desk.say("deeds-key-then", &[]);
            done(&[issued], Some(then), desk)
        }
    })
}

pub(super) fn accept_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let own = about.person.or(desk.person());
    vec![person(PERSON, own, desk), Row::hidden(OLD)]
}

pub(super) fn accept<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let person = answers.needed(PERSON)?;
    let passphrase = answers.passphrase(OLD)?;
    let accountability = desk.say("laboratory-accountability", &[]);
    let accepted = ask(desk, |laboratory| {
        laboratory.accept_key(person, &passphrase, &accountability)
    })?;
    Ok(done(&[accepted], None, desk))
}

pub(super) fn lose_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![person(PERSON, about.person, desk), reason()]
}

pub(super) fn lose<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let person = answers.needed(PERSON)?;
    let key = ask(desk, |laboratory| laboratory.key_of(person))?;
    let deed = Deed::now(KeyLost { person, key });
    to_sign(deed.because(why(answers)?), desk)
}

pub(super) fn passphrase_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let own = about.person.or(desk.person());
    vec![
        person(PERSON, own, desk),
        Row::hidden(OLD),
        Row::hidden(NEW),
        Row::hidden(AGAIN),
    ]
}

pub(super) fn passphrase<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let person = answers.needed(PERSON)?;
    let old = answers.passphrase(OLD)?;
    let new = chosen(answers)?;
    ask(desk, |laboratory| {
        laboratory.change_passphrase(person, &old, &new)
    })?;
    let changed = desk.say("laboratory-passphrase-changed", &[]);
    Ok(Turn::CloseWith(Notice::new(vec![changed])))
}
