//! Why an entry may not be recorded: what the rule is, its number where it has one, and what to do.

use super::faults::authority_fault;
use super::needs::need;
use super::telling::Telling;
use super::terms;
use crate::record::seal::Seal;
use crate::report::problems::{Told, told};
use crate::standing::{Holders, Need, Refusal};
use crate::text::Value;
use crate::units::PersonCode;

/// Words a refusal.
#[must_use]
pub fn refusal(refusal: &Refusal, telling: &Telling<'_>) -> Told {
    let mut it = worded(refusal, telling);
    if let Some(rule) = refusal.rule() {
        let values = [
            ("what", it.what.as_str().into()),
            ("rule", format!("{rule:?}").into()),
        ];
        it.what = telling.say("standing-by-rule", &values);
    }
    it
}

/// The most people that are named. Our default: more are no longer read.
const NAMED_MOST: usize = 8;

/// People by name and code, the first few of many.
pub(super) fn people(who: &[PersonCode], telling: &Telling<'_>) -> Vec<String> {
    let named = who.iter().take(NAMED_MOST);
    let mut names: Vec<String> = named.map(|one| telling.person(*one)).collect();
    let more = who.len().saturating_sub(NAMED_MOST);
    if more > 0 {
        names.push(telling.say("deeds-more-people", &[("count", more.into())]));
    }
    names
}

/// Adds to a refusal who could sign instead, and who could do what is missing.
#[must_use]
pub fn who_could(
    it: Told,
    instead: &[PersonCode],
    lacking: &[(Need, Vec<PersonCode>)],
    telling: &Telling<'_>,
) -> Told {
    let mut texts: Vec<String> = it.fix.into_iter().collect();
    if !instead.is_empty() {
        let names = crate::text::Either(people(instead, telling));
        texts.push(telling.say("deeds-could-sign", &[("people", names.into())]));
    }
    // What the same people could do stands together, so that their names are read once.
    let mut groups: Vec<(&[PersonCode], Vec<String>)> = Vec::new();
    for (missing, able) in lacking {
        let wanted = need(missing, telling.words);
        match groups.iter_mut().find(|(who, _)| *who == able.as_slice()) {
            Some((_, needs)) => needs.push(wanted),
            None => groups.push((able, vec![wanted])),
        }
    }
    let what = if groups.is_empty() {
        it.what
    } else {
        telling.say("deeds-refused-lacking", &[])
    };
    for (able, needs) in groups {
        let needs = ("needs", needs.into());
        texts.push(if able.is_empty() {
            telling.say("deeds-could-nobody", &[needs])
        } else {
            let names = crate::text::Either(people(able, telling));
            telling.say("deeds-could-do", &[needs, ("people", names.into())])
        });
    }
    let fix = telling.say("deeds-could", &[("texts", texts.join(" ").into())]);
    Told {
        what,
        fix: Some(fix),
    }
}

/// Says who has a right that somebody lacks, and that more speaks against what they wanted to sign; where nobody has it, who could give it.
#[must_use]
pub fn holders(held: &Holders, telling: &Telling<'_>) -> String {
    of_holders(held, "deeds-could-has", telling)
}

/// Says who has a right that somebody lacks, before anything was to be signed; where nobody has it, who could give it.
#[must_use]
pub fn not_yours(held: &Holders, telling: &Telling<'_>) -> String {
    of_holders(held, "deeds-not-yours-has", telling)
}

fn of_holders(held: &Holders, has: &str, telling: &Telling<'_>) -> String {
    let (id, who) = if held.have.is_empty() {
        ("deeds-could-give", &held.give)
    } else {
        (has, &held.have)
    };
    let names = crate::text::Either(people(who, telling));
    telling.say(id, &[("people", names.into())])
}

fn worded(refusal: &Refusal, telling: &Telling<'_>) -> Told {
    let say = |id: &str, values: &[(&str, Value)]| told(telling.words, id, values);
    let person = |id: &str, person: &PersonCode| {
        let person = telling.person(*person);
        told(telling.words, id, &[("person", person.into())])
    };
    let entry = |id: &str, seal: &Seal| {
        let entry = telling.entry(seal);
        told(telling.words, id, &[("entry", entry.into())])
    };
    let revision = |id: &str, revision: &u32| {
        let revision = revision.to_string();
        told(telling.words, id, &[("revision", revision.into())])
    };
    match refusal {
        Refusal::Authority(fault) => authority_fault(fault, telling),
        Refusal::DatedAhead => say("standing-refused-dated-ahead", &[]),
        Refusal::LateWithoutReason => say("standing-refused-late-without-reason", &[]),
        Refusal::BeforeSignature => say("standing-refused-before-signature", &[]),
        Refusal::SignedAtAnotherTime => say("standing-refused-signed-at-another-time", &[]),
        Refusal::Missing(needs) => {
            let needs = needs.iter().map(|one| need(one, telling.words));
            let needs: Vec<String> = needs.collect();
            say("standing-refused-missing", &[("needs", needs.into())])
        }
        Refusal::LeftOutWithoutReason(count) => {
            let count = [("count", (*count).into())];
            say("standing-refused-left-out-without-reason", &count)
        }
        Refusal::NoEvidence(seal) => entry("standing-refused-no-evidence", seal),
        Refusal::SelfSignOff => say("standing-refused-self-sign-off", &[]),
        Refusal::SelfAssessment => say("standing-refused-self-assessment", &[]),
        Refusal::AssessorNotInForce(who) => person("standing-refused-assessor-not-in-force", who),
        Refusal::TrainerNotInForce(who) => person("standing-refused-trainer-not-in-force", who),
        Refusal::SupervisorNotInForce(who) => {
            person("standing-refused-supervisor-not-in-force", who)
        }
        Refusal::NotTheSupervisor(who) => person("standing-refused-not-the-supervisor", who),
        Refusal::SupervisionTooLong(days) => {
            let days = [("days", i64::from(*days).into())];
            say("standing-refused-supervision-too-long", &days)
        }
        Refusal::NotTheFirst(who) => person("standing-refused-not-the-first", who),
        Refusal::NotAlone => say("standing-refused-not-alone", &[]),
        Refusal::NotAdopted(number) => revision("standing-refused-not-adopted", number),
        Refusal::OtherText(number) => revision("standing-refused-other-text", number),
        Refusal::Superseded(number) => revision("standing-refused-superseded", number),
        Refusal::NotNewer(number) => revision("standing-refused-not-newer", number),
        Refusal::OtherImpact(impact) => {
            let impact = terms::impact(*impact, telling.words);
            say(
                "standing-refused-other-impact",
                &[("impact", impact.into())],
            )
        }
        Refusal::NoSuchSuspension(seal) => entry("standing-refused-no-such-suspension", seal),
        Refusal::NoReinstatingEvidence => say("standing-refused-no-reinstating-evidence", &[]),
        Refusal::SelfReinstatement => say("standing-refused-self-reinstatement", &[]),
        Refusal::NotASecondPerson => say("standing-refused-not-a-second-person", &[]),
        Refusal::SecondNotEntitled => say("standing-refused-second-not-entitled", &[]),
        Refusal::NotTheirs => say("standing-refused-not-theirs", &[]),
        Refusal::NotAmendable => say("standing-refused-not-amendable", &[]),
        Refusal::NotCorrectable => say("standing-refused-not-correctable", &[]),
        Refusal::OldDiffers => say("standing-refused-old-differs", &[]),
        Refusal::NewWrong => say("standing-refused-new-wrong", &[]),
        Refusal::VoidAlready => say("standing-refused-void-already", &[]),
    }
}
