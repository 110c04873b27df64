//! What the rows of several deeds share: people, scopes, workflows, entries, words, and how a problem is told.

use std::path::PathBuf;
use std::str::FromStr;

use super::About;
use crate::app::System;
use crate::app::laboratory::{Keeping, Place as _, Problem};
use crate::record::entry::Entry;
use crate::record::scope::{Id, Scope, Text};
use crate::record::seal::Seal;
use crate::report::record::id_of;
use crate::text::Words;
use crate::tui::screen::{Desk, Notice};
use crate::tui::screens::laboratory::answers::{Answers, Offer, Row, Wrong};
use crate::tui::screens::laboratory::form::Not;
use crate::units::{Digest, PersonCode};

pub(super) const PERSON: &str = "deeds-row-person";
pub(super) const WHOM: &str = "deeds-row-whom";
pub(super) const WORKFLOW: &str = "deeds-row-workflow";
pub(super) const REVISION: &str = "deeds-row-revision";
pub(super) const HAPPENED: &str = "deeds-row-happened";
pub(super) const REASON: &str = "deeds-row-reason";
pub(super) const ENTRY: &str = "deeds-row-entry";
pub(super) const PROOF: &str = "deeds-row-proof";
pub(super) const EVIDENCE: &str = "deeds-row-evidence";

/// The largest document that is kept as a proof, in bytes. Our default.
const PROOF_BYTES_MOST: u64 = 32 * 1024 * 1024;

/// A person with a scope.
pub(super) struct Whom {
    pub(super) person: PersonCode,
    pub(super) scope: Scope,
}

impl Whom {
    fn written(person: PersonCode, scope: &Scope) -> String {
        let Scope {
            workflow,
            profile,
            wash,
            cure,
        } = scope;
        format!("{person} {workflow} {profile} {wash} {cure}")
    }
}

impl FromStr for Whom {
    type Err = ();

    fn from_str(text: &str) -> Result<Whom, ()> {
        let parts: Vec<&str> = text.split(' ').collect();
        let [person, workflow, profile, wash, cure] = parts.as_slice() else {
            return Err(());
        };
        let id = |text: &str| text.parse::<Id>().map_err(|_| ());
        Ok(Whom {
            person: person.parse().map_err(|_| ())?,
            scope: Scope {
                workflow: id(workflow)?,
                profile: id(profile)?,
                wash: id(wash)?,
                cure: id(cure)?,
            },
        })
    }
}

/// Everybody who is here, by name; the one that is known to be meant is chosen.
pub(super) fn person<S: System>(
    id: &'static str,
    wanted: Option<PersonCode>,
    desk: &mut Desk<S>,
) -> Row {
    let mut offers = desk.office().map_or_else(Vec::new, |(house, words)| {
        let people: Vec<PersonCode> = house.laboratory.people().collect();
        house.told(words, |telling| {
            let shown = people
                .iter()
                .map(|one| Offer::new(one, telling.person(*one)));
            shown.collect::<Vec<Offer>>()
        })
    });
    offers.sort_by(|one, other| one.shown.cmp(&other.shown));
    let wanted = wanted.map(|one| one.to_string());
    Row::one(id, offers, wanted.as_deref())
}

/// Whom and for what: every scope of everybody who is here.
pub(super) fn whom<S: System>(about: &About, desk: &mut Desk<S>) -> Row {
    let mut offers = desk.office().map_or_else(Vec::new, |(house, words)| {
        let asked = house.today();
        let view = house.laboratory.view(asked.at.instant(), asked.reading);
        let people = house.laboratory.people();
        let pairs: Vec<(PersonCode, Scope)> = people
            .flat_map(|one| {
                view.scopes(one, None)
                    .into_iter()
                    .map(move |scope| (one, scope))
            })
            .collect();
        house.told(words, |telling| {
            let shown = pairs.iter().map(|(person, scope)| {
                let values = [
                    ("person", telling.person(*person).into()),
                    ("scope", telling.scope(scope).into()),
                ];
                let shown = words.say("deeds-whom", &values);
                Offer::new(&Whom::written(*person, scope), shown)
            });
            shown.collect::<Vec<Offer>>()
        })
    });
    offers.sort_by(|one, other| one.shown.cmp(&other.shown));
    let known = about.person.zip(about.scope.as_ref());
    let wanted = known.map(|(person, scope)| Whom::written(person, scope));
    let of = |one: &&Offer| {
        let person = about.person.map(|one| one.to_string());
        person.is_some_and(|person| one.value.starts_with(&person))
    };
    let wanted = wanted.or_else(|| offers.iter().find(of).map(|one| one.value.clone()));
    Row::one(WHOM, offers, wanted.as_deref())
}

/// Workflows that the record knows.
pub(super) fn workflow<S: System>(about: &About, desk: &mut Desk<S>) -> Row {
    let known = desk.office().map(|(house, _)| house.laboratory.workflows());
    let offers = known.unwrap_or_default().into_iter();
    let offers = offers.map(|id| Offer::new(&id, id.to_string()));
    let wanted = about
        .workflow
        .as_ref()
        .or(about.scope.as_ref().map(|one| &one.workflow));
    let wanted = wanted.map(ToString::to_string);
    Row::one(WORKFLOW, offers.collect(), wanted.as_deref())
}

/// An entry, by its place or seal.
pub(super) fn entry<S: System>(about: &About, desk: &mut Desk<S>) -> Row {
    let known = about.entry.and_then(|seal| {
        let (house, _) = desk.office()?;
        house.laboratory.ledger().get(&seal).map(id_of)
    });
    Row::text(ENTRY, &known.unwrap_or_default())
}

/// Named values with their words.
pub(super) fn words<T: Copy>(
    id: &'static str,
    all: &[T],
    word: fn(T) -> &'static str,
    says: fn(T, &Words) -> String,
    words: &Words,
) -> Row {
    let offers = all
        .iter()
        .map(|one| Offer::new(word(*one), says(*one, words)));
    Row::one(id, offers.collect(), None)
}

pub(super) fn reason() -> Row {
    Row::text(REASON, "")
}

pub(super) fn happened() -> Row {
    Row::text(HAPPENED, "")
}

pub(super) fn revision() -> Row {
    Row::text(REVISION, "")
}

/// The reason that was typed.
pub(super) fn why(answers: &Answers<'_>) -> Result<Option<Text>, Wrong> {
    answers.value(REASON)
}

/// What is said where no laboratory is open or nobody is signed in.
pub(super) fn nobody<S: System>(desk: &Desk<S>) -> Not {
    Not::Told(Notice::new(vec![desk.say("screens-signing-nobody", &[])]))
}

/// Who is signed in.
pub(super) fn here<S: System>(desk: &Desk<S>) -> Result<PersonCode, Not> {
    desk.person().ok_or_else(|| nobody(desk))
}

/// Asks the laboratory something, and words its problem.
pub(super) fn ask<S: System, T>(
    desk: &mut Desk<S>,
    what: impl FnOnce(&mut crate::app::laboratory::Laboratory<S::Place>) -> Result<T, Problem>,
) -> Result<T, Not> {
    let Some((house, words)) = desk.office() else {
        return Err(nobody(desk));
    };
    let answered = what(&mut house.laboratory);
    answered.map_err(|problem| Not::Told(house.problem(&problem, words)))
}

/// The entry that was named.
pub(super) fn found<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<Entry, Not> {
    let named = answers.text(ENTRY).to_owned();
    if named.is_empty() {
        return Err(Wrong {
            id: ENTRY,
            why: "deeds-wrong-missing",
        }
        .into());
    }
    ask(desk, |laboratory| laboratory.find(&named).cloned())
}

/// Keeps the document whose path was typed, and says its digest; none where none was typed.
pub(super) fn proof<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Option<Digest>, Not> {
    let path = answers.text(PROOF);
    if path.is_empty() {
        return Ok(None);
    }
    let content = desk.system.read(&PathBuf::from(path), PROOF_BYTES_MOST);
    let content = content.map_err(|fault| {
        Not::Told(Notice::new(crate::app::complain::machine(
            &fault,
            &desk.words,
        )))
    })?;
    let kept = ask(desk, |laboratory| {
        let place = laboratory.place_mut();
        Ok(place.attach(&content, Keeping::Erasable)?)
    });
    kept.map(Some)
}

/// A seal as the value of a row.
pub(super) fn sealed(value: &str) -> Option<Seal> {
    value.parse().ok().map(Seal)
}
