//! What is decided about a person: signed off, stopped, let go on, ended, called in.

use super::assessing::edition;
use super::offers::{
    EVIDENCE, HAPPENED, PERSON, PROOF, WHOM, WORKFLOW, Whom, ask, happened, person, proof, reason,
    revision, sealed, whom, why, words, workflow,
};
use super::{About, What, form, to_sign};
use crate::app::System;
use crate::app::laboratory::{Deed, Moment};
use crate::people::Name;
use crate::record::entry::{
    Allowed, Basis, CalledIn, Cause, Established, HowEstablished, OutsideEvidence, OutsideWay,
    Reinstated, SignedOff, Suspended, Withdrawn,
};
use crate::record::seal::Seal;
use crate::report::record::{allowed, cause, how_established, outside_way};
use crate::standing::Standing;
use crate::tui::screen::{Desk, Turn};
use crate::tui::screens::laboratory::answers::{Answers, Offer, Row, Wrong};
use crate::tui::screens::laboratory::form::Not;
use crate::units::Digest;

const FROM: &str = "deeds-row-from";
const ALLOWED: &str = "deeds-row-allowed";
const CAUSE: &str = "deeds-row-cause";
const HOW: &str = "deeds-row-how";
const WAY: &str = "deeds-row-way";
const ASSESSOR: &str = "deeds-row-assessor";
const SUSPENSION: &str = "deeds-row-suspension";

pub(super) fn whom_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![whom(about, desk)]
}

/// The evidence depends on whom it is about, so that is asked first.
pub(super) fn whom_to_sign_off<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let Whom { person, scope } = answers.needed(WHOM)?;
    let about = About {
        person: Some(person),
        scope: Some(scope),
        ..About::default()
    };
    let next = form(What::SignOff, &about, desk);
    next.map(|form| Turn::Replace(Box::new(form)))
        .ok_or_else(|| super::offers::nobody(desk))
}

pub(super) fn sign_off_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let known = about.person.zip(about.scope.as_ref());
    let offers = known.map_or_else(Vec::new, |(person, scope)| {
        desk.office().map_or_else(Vec::new, |(house, words)| {
            let seals = house.laboratory.evidence(person, scope);
            named(&seals, house, words)
        })
    });
    let own = match known {
        Some((person, scope)) => only(person, scope, whom(about, desk)),
        None => whom(about, desk),
    };
    vec![
        own,
        Row::several(EVIDENCE, offers),
        Row::text(FROM, ""),
        revision(),
        reason(),
    ]
}

/// The row with nothing but one person and scope in it, since the evidence beside it is theirs.
fn only(person: crate::units::PersonCode, scope: &crate::record::scope::Scope, row: Row) -> Row {
    use crate::tui::screens::laboratory::answers::Way;
    let Way::One { offers, at, .. } = row.way else {
        return row;
    };
    let fits = |one: &Offer| {
        let read: Result<Whom, ()> = one.value.parse();
        read.is_ok_and(|read| read.person == person && read.scope == *scope)
    };
    let kept = offers.get(at).filter(|one| fits(one)).cloned();
    Row::one(WHOM, kept.into_iter().collect(), None)
}

/// Entries as values, each told in a line.
fn named<P: crate::app::laboratory::Place>(
    seals: &[Seal],
    house: &crate::tui::house::House<P>,
    words: &crate::text::Words,
) -> Vec<Offer> {
    house.told(words, |telling| {
        let told = seals.iter().filter_map(|seal| {
            let entry = telling.ledger.get(seal)?;
            let kind = crate::report::record::kind(entry.word(), words);
            let values = [
                ("kind", kind.into()),
                (
                    "at",
                    crate::report::record::time(entry.frame().happened).into(),
                ),
                ("entry", telling.entry(seal).into()),
            ];
            Some(Offer::new(seal, words.say("deeds-entry", &values)))
        });
        told.collect()
    })
}

fn seals(answers: &Answers<'_>) -> Vec<Seal> {
    let chosen: Vec<Digest> = answers.several(EVIDENCE);
    chosen.into_iter().map(Seal).collect()
}

fn signed_off<S: System>(
    basis: Basis,
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let whom: Whom = answers.needed(WHOM)?;
    let fact = SignedOff {
        edition: edition(&whom, answers, desk)?,
        person: whom.person,
        scope: whom.scope,
        valid_from: answers.time(FROM, Moment::Begins)?.unwrap_or(answers.now),
        basis,
    };
    to_sign(Deed::now(fact).because(why(answers)?), desk)
}

pub(super) fn sign_off<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    signed_off(Basis::Evidence(seals(answers)), answers, desk)
}

pub(super) fn first_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        whom(about, desk),
        words(
            HOW,
            HowEstablished::ALL,
            HowEstablished::word,
            how_established,
            &desk.words,
        ),
        Row::text(PROOF, ""),
        Row::text(FROM, ""),
        revision(),
        reason(),
    ]
}

fn needed_proof<S: System>(answers: &Answers<'_>, desk: &mut Desk<S>) -> Result<Digest, Not> {
    let kept = proof(answers, desk)?;
    Ok(kept.ok_or(Wrong {
        id: PROOF,
        why: "deeds-wrong-missing",
    })?)
}

pub(super) fn first_assessor<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let how = answers.word(HOW, HowEstablished::ALL, HowEstablished::word)?;
    let proof = needed_proof(answers, desk)?;
    signed_off(
        Basis::FirstAssessor(Established { how, proof }),
        answers,
        desk,
    )
}

pub(super) fn outside_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        whom(about, desk),
        words(
            WAY,
            OutsideWay::ALL,
            OutsideWay::word,
            outside_way,
            &desk.words,
        ),
        Row::text(ASSESSOR, ""),
        Row::text(PROOF, ""),
        Row::text(FROM, ""),
        revision(),
        reason(),
    ]
}

pub(super) fn outside<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let way = answers.word(WAY, OutsideWay::ALL, OutsideWay::word)?;
    let name: Name = answers.needed(ASSESSOR)?;
    let proof = needed_proof(answers, desk)?;
    let assessor = ask(desk, |laboratory| laboratory.commit(&name))?;
    let evidence = OutsideEvidence {
        way,
        assessor,
        proof,
    };
    signed_off(Basis::Outside(evidence), answers, desk)
}

pub(super) fn suspend_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        person(PERSON, about.person, desk),
        workflow(about, desk),
        words(ALLOWED, Allowed::ALL, Allowed::word, allowed, &desk.words),
        reason(),
        happened(),
    ]
}

pub(super) fn suspend<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let fact = Suspended {
        person: answers.needed(PERSON)?,
        workflow: answers.needed(WORKFLOW)?,
        allowed: answers.word(ALLOWED, Allowed::ALL, Allowed::word)?,
    };
    let at = answers.time(HAPPENED, Moment::Begins)?;
    to_sign(Deed::now(fact).at(at).because(why(answers)?), desk)
}

/// Suspensions that are open, and the newest assessments that could show that their people can go on.
pub(super) fn reinstate_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    let (mut open, mut seen) = (Vec::new(), Vec::new());
    if let Some((house, words)) = desk.office() {
        let asked = house.today();
        let view = house.laboratory.view(asked.at.instant(), asked.reading);
        for person in house.laboratory.people() {
            if about.person.is_some_and(|one| one != person) {
                continue;
            }
            for scope in view.scopes(person, None) {
                if let Ok(Standing::Suspended { by, .. }) = view.standing(person, &scope) {
                    let values = [
                        (
                            "person",
                            house.told(words, |telling| telling.person(person)).into(),
                        ),
                        ("workflow", scope.workflow.to_string().into()),
                        (
                            "entry",
                            house.told(words, |telling| telling.entry(&by)).into(),
                        ),
                    ];
                    open.push(Offer::new(&by, words.say("deeds-suspension", &values)));
                    seen.extend(house.laboratory.evidence(person, &scope));
                }
            }
        }
        open.dedup();
        seen.reverse();
        seen = named(&seen, house, words)
            .iter()
            .filter_map(|one| sealed(&one.value))
            .collect();
    }
    let offers = desk
        .office()
        .map_or_else(Vec::new, |(house, words)| named(&seen, house, words));
    vec![
        Row::one(
            SUSPENSION,
            open,
            about.entry.map(|one| one.to_string()).as_deref(),
        ),
        Row::several(EVIDENCE, offers),
        Row::text(PROOF, ""),
        reason(),
    ]
}

pub(super) fn reinstate<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let missing = || Wrong {
        id: SUSPENSION,
        why: "deeds-wrong-missing",
    };
    let suspension = sealed(answers.text(SUSPENSION)).ok_or_else(missing)?;
    let chosen = seals(answers);
    let about = desk.office().and_then(|(house, _)| {
        let ledger = house.laboratory.ledger();
        let subject = ledger.get(&suspension)?.kind().subject();
        let (person, workflow) = (subject.person?, subject.workflow?.clone());
        // Assessments of others do not show that this person can go on.
        let own = |seal: &Seal| {
            let subject = ledger.get(seal).map(|one| one.kind().subject());
            subject.is_some_and(|one| one.person == Some(person) && one.workflow == Some(&workflow))
        };
        let evidence = chosen.into_iter().filter(own).collect();
        Some((person, workflow.clone(), evidence))
    });
    let (person, workflow, evidence) = about.ok_or_else(missing)?;
    let fact = Reinstated {
        person,
        workflow,
        suspension,
        evidence,
        proof: proof(answers, desk)?,
    };
    to_sign(Deed::now(fact).because(why(answers)?), desk)
}

pub(super) fn withdraw_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![whom(about, desk), reason()]
}

pub(super) fn withdraw<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let Whom { person, scope } = answers.needed(WHOM)?;
    let deed = Deed::now(Withdrawn { person, scope });
    to_sign(deed.because(why(answers)?), desk)
}

pub(super) fn call_in_rows<S: System>(about: &About, desk: &mut Desk<S>) -> Vec<Row> {
    vec![
        whom(about, desk),
        words(CAUSE, Cause::ALL, Cause::word, cause, &desk.words),
        reason(),
        happened(),
    ]
}

pub(super) fn call_in<S: System>(
    answers: &mut Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Turn<S>, Not> {
    let Whom { person, scope } = answers.needed(WHOM)?;
    let cause = answers.word(CAUSE, Cause::ALL, Cause::word)?;
    let fact = CalledIn {
        person,
        scope,
        cause,
    };
    let at = answers.time(HAPPENED, Moment::Begins)?;
    to_sign(Deed::now(fact).at(at).because(why(answers)?), desk)
}
