//! People come and go, and are entitled to things.

use super::offers::{PERSON, WORKFLOW, ask, here, person, reason, sealed, why, words};
use super::{About, to_sign};
use crate::app::System;
use crate::app::laboratory::Deed;
use crate::people::Name;
use crate::record::entry::{Granted, Left, Revoked};
use crate::record::scope::{Authority, Meaning};
use crate::report::record::{authority, declaration, id_of};
use crate::tui::screen::{Desk, Notice, Turn};
use crate::tui::screens::laboratory::answers::{Answers, Offer, Row, Wrong};
use crate::tui::screens::laboratory::form::Not;
use crate::units::PersonCode;

const NAME: &str = "deeds-row-name";
const AUTHORITY: &str = "deeds-row-authority";
const GRANT: &str = "deeds-row-grant";
const OWN_PASSPHRASE: &str = "deeds-row-own-passphrase";

pub(super) fn join_rows<S: System>(_about: &About, _desk: &mut Desk<S>) -> Vec<Row> {
    vec![Row::text(NAME, ""), reason(), Row::hidden(OWN_PASSPHRASE)]
}

pub(super) fn join<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let by = here(desk)?;
    let name: Name = answers.needed(NAME)?;
    let reason = why(answers)?;
    let passphrase = answers.passphrase(OWN_PASSPHRASE)?;
    let sentence = declaration(Meaning::Authored, &desk.words);
    let (code, done) = ask(desk, |laboratory| {
        laboratory.join(by, &passphrase, name, reason, &sentence)
    })?;
    let mut texts = Vec::new();
    if let Some((house, words)) = desk.office() {
        // The name shows by its code where the register cannot be read just now.
        let _kept_as_they_are = house.learn_names(words);
        let who = house.told(words, |telling| telling.person(code));
        let values = [("person", who.into()), ("code", code.to_string().into())];
        texts.push(words.say("laboratory-joined", &values));
        texts.push(words.say("deeds-done", &[("entry", id_of(&done.entry).into())]));
        house.note_signed(done.entry.seal());
    }
    Ok(Turn::CloseWith(Notice::new(texts)))
}

pub(super) fn grant_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let every = desk.say("record-every-workflow", &[]);
    let known = desk.office().map(|(house, _)| house.laboratory.workflows());
    let own = known.unwrap_or_default().into_iter();
    let own = own.map(|id| Offer::new(&id, id.to_string()));
    let offers = std::iter::once(Offer::new("", every)).chain(own);
    let wanted = about.workflow.as_ref().map(ToString::to_string);
    vec![
        person(PERSON, about.person, desk),
        words(
            AUTHORITY,
            Authority::ALL,
            Authority::word,
            authority,
            &desk.words,
        ),
        Row::one(WORKFLOW, offers.collect(), wanted.as_deref()),
        reason(),
    ]
}

pub(super) fn grant<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let fact = Granted {
        person: answers.needed(PERSON)?,
        authority: answers.word(AUTHORITY, Authority::ALL, Authority::word)?,
        workflow: answers.value(WORKFLOW)?,
    };
    to_sign(Deed::now(fact).because(why(answers)?), desk)
}

pub(super) fn revoke_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let offers = desk.office().map_or_else(Vec::new, |(house, words)| {
        let ledger = house.laboratory.ledger();
        let mut offers = Vec::new();
        let people = house.laboratory.people();
        for one in people.filter(|one| about.person.is_none_or(|wanted| wanted == *one)) {
            let who = house.told(words, |telling| telling.person(one));
            for (seal, held, workflow) in ledger.staff().grants_of(one) {
                let every = || words.say("record-every-workflow", &[]);
                let values = [
                    ("person", who.as_str().into()),
                    ("authority", authority(held, words).into()),
                    (
                        "workflow",
                        workflow.map_or_else(every, ToString::to_string).into(),
                    ),
                ];
                offers.push(Offer::new(&seal, words.say("deeds-held", &values)));
            }
        }
        offers
    });
    let mut offers = offers;
    offers.sort_by(|one, other| one.shown.cmp(&other.shown));
    vec![Row::one(GRANT, offers, None), reason()]
}

pub(super) fn revoke<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let missing = || Wrong {
        id: GRANT,
        why: "deeds-wrong-missing",
    };
    let grant = sealed(answers.text(GRANT)).ok_or_else(missing)?;
    let person = desk.office().and_then(|(house, _)| {
        let entry = house.laboratory.ledger().get(&grant)?;
        entry.kind().subject().person
    });
    let person: PersonCode = person.ok_or_else(missing)?;
    let deed = Deed::now(Revoked { person, grant });
    to_sign(deed.because(why(answers)?), desk)
}

pub(super) fn leave_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![person(PERSON, about.person, desk), reason()]
}

pub(super) fn leave<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let person = answers.needed(PERSON)?;
    to_sign(Deed::now(Left { person }).because(why(answers)?), desk)
}
