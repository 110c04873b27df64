//! What is decided about a person.

use std::path::Path;

use super::Refused;
use super::fields::{
    Answers, Asked, Source, allowed, cause, how, may, must, outside as outside_ways,
};
use crate::app::laboratory::{Deed, Document, Moment};
use crate::app::{System, complain};
use crate::people::Name;
use crate::record::entry::{
    Allowed, Basis, CalledIn, Cause, Established, HowEstablished, OutsideEvidence, OutsideWay,
    Reinstated, SignedOff, Suspended, Withdrawn,
};
use crate::report::record::name_problem;
use crate::tui::screen::{Desk, Notice};

/// The longest document that is kept as proof, in bytes. Our default.
const PROOF_MOST: u64 = 32 * 1024 * 1024;

pub(super) const SIGN_OFF: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    must("edition", Source::Edition),
    may("evidence", Source::Evidence),
    may("from", Source::Begins),
    may("reason", Source::Line),
];

/// On everything that was seen of the person in the scope since the sign-off before, but what was left out.
pub(super) fn sign_off<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    signed_off(answers, Basis::Evidence(answers.several("evidence")))
}

fn signed_off(answers: &Answers<'_>, basis: Basis) -> Result<Deed, Refused> {
    let from = answers.time("from", Moment::Begins)?;
    let signed = SignedOff {
        person: answers.person("person")?,
        scope: answers.scope()?,
        edition: answers.edition()?,
        valid_from: from.unwrap_or(answers.now),
        basis,
    };
    Ok(Deed::now(signed).because(answers.reason()?))
}

pub(super) const FIRST_ASSESSOR: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    must("edition", Source::Edition),
    must("how", Source::Words(how)),
    must("proof", Source::Line),
    may("from", Source::Begins),
    may("reason", Source::Line),
];

pub(super) fn first_assessor<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let how = answers.word("how", HowEstablished::ALL, HowEstablished::word)?;
    let document = proof(answers, desk)?.ok_or("proof")?;
    let proof = document.digest();
    let deed = signed_off(answers, Basis::FirstAssessor(Established { how, proof }))?;
    Ok(deed.with(Some(document)))
}

pub(super) const OUTSIDE: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    must("edition", Source::Edition),
    must("way", Source::Words(outside_ways)),
    must("assessor", Source::Line),
    must("proof", Source::Line),
    may("from", Source::Begins),
    may("reason", Source::Line),
];

pub(super) fn outside<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let way = answers.word("way", OutsideWay::ALL, OutsideWay::word)?;
    let typed = answers.found("assessor").ok_or("assessor")?;
    let name = typed
        .parse::<Name>()
        .map_err(|problem| Refused::Told(Notice::told(name_problem(problem, &desk.words))))?;
    let document = proof(answers, desk)?.ok_or("proof")?;
    let Some((house, words)) = desk.office() else {
        return Err("assessor".into());
    };
    let committed = house.laboratory.commit(&name);
    let assessor = committed.map_err(|problem| Refused::Told(house.problem(&problem, words)))?;
    let evidence = OutsideEvidence {
        way,
        assessor,
        proof: document.digest(),
    };
    let deed = signed_off(answers, Basis::Outside(evidence))?;
    Ok(deed.with(Some(document)))
}

/// The document that is named.
fn proof<S: System>(answers: &Answers<'_>, desk: &Desk<S>) -> Result<Option<Document>, Refused> {
    let Some(path) = answers.found("proof") else {
        return Ok(None);
    };
    let content = desk.system.read(Path::new(path), PROOF_MOST);
    let content = content
        .map_err(|fault| Refused::Told(Notice::new(complain::machine(&fault, &desk.words))))?;
    Ok(Some(Document::new(content)))
}

pub(super) const SUSPEND: &[Asked] = &[
    must("person", Source::Person),
    must("workflow", Source::Workflow),
    must("allowed", Source::Words(allowed)),
    must("reason", Source::Line),
    may("happened", Source::Begins),
];

pub(super) fn suspend<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let suspended = Suspended {
        person: answers.person("person")?,
        workflow: answers.workflow().ok_or("workflow")?,
        allowed: answers.word("allowed", Allowed::ALL, Allowed::word)?,
    };
    let happened = answers.time("happened", Moment::Begins)?;
    Ok(Deed::now(suspended).at(happened).because(answers.reason()?))
}

pub(super) const REINSTATE: &[Asked] = &[
    must("person", Source::Person),
    must("suspension", Source::Suspension),
    may("evidence", Source::Evidence),
    may("proof", Source::Line),
    must("reason", Source::Line),
];

/// On everything that was seen of the person in the workflow since the suspension, but what was left out.
pub(super) fn reinstate<S: System>(
    answers: &Answers<'_>,
    desk: &mut Desk<S>,
) -> Result<Deed, Refused> {
    let (person, suspension) = (answers.person("person")?, answers.seal("suspension")?);
    let document = proof(answers, desk)?;
    let Some((house, _)) = desk.office() else {
        return Err("suspension".into());
    };
    let found = house.laboratory.reinstating(person, &suspension);
    let (workflow, _) = found.ok_or("suspension")?;
    let reinstated = Reinstated {
        person,
        workflow,
        suspension,
        evidence: answers.several("evidence"),
        proof: document.as_ref().map(Document::digest),
    };
    let deed = Deed::now(reinstated).because(answers.reason()?);
    Ok(deed.with(document))
}

pub(super) const WITHDRAW: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    must("reason", Source::Line),
];

pub(super) fn withdraw<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let withdrawn = Withdrawn {
        person: answers.person("person")?,
        scope: answers.scope()?,
    };
    Ok(Deed::now(withdrawn).because(answers.reason()?))
}

pub(super) const CALL_IN: &[Asked] = &[
    must("person", Source::Person),
    must("scope", Source::Scope),
    must("cause", Source::Words(cause)),
    must("reason", Source::Line),
    may("happened", Source::Begins),
];

pub(super) fn call_in<S: System>(answers: &Answers<'_>, _: &mut Desk<S>) -> Result<Deed, Refused> {
    let called = CalledIn {
        person: answers.person("person")?,
        scope: answers.scope()?,
        cause: answers.word("cause", Cause::ALL, Cause::word)?,
    };
    let happened = answers.time("happened", Moment::Begins)?;
    Ok(Deed::now(called).at(happened).because(answers.reason()?))
}
