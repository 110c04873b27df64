//! Words for what contradicts itself or cannot be done, although it can be read.

use super::{Told, at, known, meant, told, with_fix};
use crate::syllabus::check::{CheckFault, ClashLink, ClashReason, NameKind};
use crate::syllabus::module::{MOST_COUNTED, MOST_MONTHS, SignOffFault, Which};
use crate::syllabus::plan::{Because, Plan, Stretch};
use crate::syllabus::profile::ProfileFault;
use crate::text::{Value, Words};

/// Words for a kind of name, in the singular.
fn kind(kind: NameKind, words: &Words) -> String {
    words.say(
        match kind {
            NameKind::Step => "problems-name-step",
            NameKind::Act => "problems-name-act",
            NameKind::Station => "problems-name-station",
            NameKind::StationKind => "problems-name-station-kind",
            NameKind::Part => "problems-name-part",
            NameKind::Aspect => "problems-name-aspect",
            NameKind::Value => "problems-name-value",
            NameKind::Repeat => "problems-name-repeat",
            NameKind::NamedPlace => "problems-name-named-place",
            NameKind::Choice => "problems-name-choice",
            NameKind::ChoiceValue => "problems-name-choice-value",
            NameKind::Product => "problems-name-product",
            NameKind::Item => "problems-name-item",
            NameKind::Way => "problems-name-way",
            NameKind::Option => "problems-name-option",
            NameKind::Consequence => "problems-name-consequence",
            NameKind::Disturbance => "problems-name-disturbance",
            NameKind::Hazard => "problems-name-hazard",
            NameKind::Fault => "problems-name-fault",
            NameKind::Source => "problems-name-source",
            NameKind::Module => "problems-name-module",
        },
        &[],
    )
}

/// Words a problem with the meaning of a module. `files` are those that places refer to.
#[must_use]
pub fn check_fault(fault: &CheckFault, files: &[String], words: &Words) -> Told {
    let say = |id: &str, values: &[(&str, Value)]| told(words, id, values);
    let name = |text: &str| [("name", Value::from(text))];
    match fault {
        CheckFault::Unknown {
            kind: of,
            found,
            suggestion,
            known: all,
        } => {
            let values = [
                ("kind", kind(*of, words).into()),
                ("found", found.as_str().into()),
            ];
            let fix = meant(words, suggestion.as_ref()).or(Some(known(words, all)));
            with_fix(say("problems-unknown-name", &values), fix)
        }
        CheckFault::Duplicate {
            kind: of,
            id,
            first,
        } => say(
            "problems-duplicate-id",
            &[
                ("kind", kind(*of, words).into()),
                ("name", id.as_str().into()),
                ("first", at(files, *first, words).into()),
            ],
        ),
        CheckFault::TakenWord { id } => say("problems-taken-word", &[("name", id.as_str().into())]),
        CheckFault::NotExpected {
            stage,
            kind: of,
            name,
        } => say(
            "problems-not-expected",
            &[
                ("stage", stage.as_str().into()),
                ("kind", kind(*of, words).into()),
                ("name", name.as_str().into()),
            ],
        ),
        CheckFault::ExpectedMissing { stage, name } => say(
            "problems-expected-missing",
            &[
                ("stage", stage.as_str().into()),
                ("name", name.as_str().into()),
            ],
        ),
        CheckFault::WrongKind {
            name,
            found,
            expected,
        } => say(
            "problems-wrong-kind",
            &[
                ("name", name.as_str().into()),
                ("found", found.as_str().into()),
                ("expected", (*expected).into()),
            ],
        ),
        CheckFault::MakesNotOne { aspect } => say("problems-makes-not-one", &name(aspect)),
        CheckFault::GaugeValues { aspect, expected } => say(
            "problems-gauge-values",
            &[
                ("name", aspect.as_str().into()),
                ("expected", expected.to_vec().into()),
            ],
        ),
        CheckFault::SignNotDecided { aspect } => say("problems-sign-not-decided", &name(aspect)),
        CheckFault::TooManyValues { aspect, most } => say(
            "problems-too-many-values",
            &[("name", aspect.as_str().into()), ("most", (*most).into())],
        ),
        CheckFault::RepeatUnresolved { repeat } => say("problems-repeat-unresolved", &name(repeat)),
        CheckFault::ShapesPlan { choice } => say("problems-shapes-plan", &name(choice)),
        CheckFault::Circle { labels } => {
            say("problems-plan-circle", &[("chain", labels.clone().into())])
        }
        CheckFault::GoesWithCircle { steps } => {
            let chain = [("chain", steps.clone().into())];
            say("problems-goes-with-circle", &chain)
        }
        CheckFault::WindowOrder { step, card } => say(
            "problems-window-order",
            &[
                ("name", step.as_str().into()),
                ("card", card.as_str().into()),
            ],
        ),
        CheckFault::Clash { card, chain } => {
            let it = say("problems-clash", &[("card", card.as_str().into())]);
            with_fix(it, Some(links(chain, words)))
        }
        CheckFault::TargetsClash { card, chain } => {
            let it = say("problems-targets-clash", &[("card", card.as_str().into())]);
            with_fix(it, Some(links(chain, words)))
        }
        CheckFault::CapTooSmall {
            card,
            cap,
            sum,
            when_done,
        } => {
            let values = [
                ("card", card.as_str().into()),
                ("most", (*cap).into()),
                ("sum", (*sum).into()),
                ("steps", when_done.clone().into()),
            ];
            if when_done.is_empty() {
                say("problems-cap-too-small", &values)
            } else {
                say("problems-raised-cap-too-small", &values)
            }
        }
        CheckFault::NobodyMakes {
            step,
            aspect,
            values,
        } => say(
            "problems-nobody-makes",
            &[
                ("step", step.as_str().into()),
                ("aspect", aspect.as_str().into()),
                ("values", values.clone().into()),
            ],
        ),
        CheckFault::MadeTooLate {
            card,
            task,
            aspect,
            makers,
        } => say(
            "problems-made-too-late",
            &[
                ("card", card.as_str().into()),
                ("task", task.as_str().into()),
                ("aspect", aspect.as_str().into()),
                ("makers", makers.clone().into()),
            ],
        ),
        CheckFault::Undone {
            card,
            task,
            aspect,
            by,
        } => say(
            "problems-undone",
            &[
                ("card", card.as_str().into()),
                ("task", task.as_str().into()),
                ("aspect", aspect.as_str().into()),
                ("by", by.as_str().into()),
            ],
        ),
        CheckFault::TooLarge { name, most } => say(
            "problems-plan-too-large",
            &[("name", name.as_str().into()), ("most", (*most).into())],
        ),
        CheckFault::TooManyCards { compiled, of } => say(
            "problems-too-many-cards",
            &[("compiled", (*compiled).into()), ("all", (*of).into())],
        ),
        CheckFault::CriticalWithoutConsequence { step } => {
            say("problems-critical-without-consequence", &name(step))
        }
        CheckFault::NoPrecautions { hazard } => say("problems-no-precautions", &name(hazard)),
        CheckFault::HazardNotListed { hazard } => say("problems-hazard-not-listed", &name(hazard)),
        CheckFault::NoRightOption { way } => say("problems-no-right-option", &name(way)),
        CheckFault::NoRightResponse { disturbance } => {
            say("problems-no-right-response", &name(disturbance))
        }
        CheckFault::ConsequenceUnused { consequence } => {
            say("problems-consequence-unused", &name(consequence))
        }
        CheckFault::TierOrder { step } => say("problems-tier-order", &name(step)),
        CheckFault::NoCautions => say("problems-no-cautions", &[]),
        CheckFault::SignOff(fault) => sign_off_fault(*fault, words),
        CheckFault::NoReason { step } => say("problems-no-reason", &name(step)),
        CheckFault::NoTime { step } => say("problems-no-time", &name(step)),
        CheckFault::TitleTooLong { columns, most } => say(
            "problems-title-too-long",
            &[("columns", (*columns).into()), ("most", (*most).into())],
        ),
        CheckFault::WordTooLong { word, most } => say(
            "problems-word-too-long",
            &[("word", word.as_str().into()), ("most", (*most).into())],
        ),
    }
}

/// Says what is wrong with the numbers of a sign-off.
#[must_use]
pub fn sign_off_fault(fault: SignOffFault, words: &Words) -> Told {
    let say = |id: &str, values: &[(&str, Value)]| told(words, id, values);
    let of = |id: &str, which: Which| {
        let which = match which {
            Which::First => "first",
            Which::Again => "again",
        };
        say(id, &[("which", which.into())])
    };
    match fault {
        SignOffFault::MoreDaysThanRehearsals => {
            say("problems-sign-off-more-days-than-rehearsals", &[])
        }
        SignOffFault::NothingObserved(which) => of("problems-sign-off-nothing-observed", which),
        SignOffFault::NoAssessor(which) => of("problems-sign-off-no-assessor", which),
        SignOffFault::MoreAssessorsThanRuns(which) => {
            of("problems-sign-off-more-assessors-than-runs", which)
        }
        SignOffFault::RowLongerThanRuns(which) => {
            of("problems-sign-off-row-longer-than-runs", which)
        }
        SignOffFault::TooMany => {
            let most = [("most", i64::from(MOST_COUNTED).into())];
            say("problems-sign-off-too-many", &most)
        }
        SignOffFault::Months => {
            let most = [("most", i64::from(MOST_MONTHS).into())];
            say("problems-sign-off-months", &most)
        }
        SignOffFault::EffectWindow => say("problems-sign-off-effect-window", &[]),
    }
}

/// A chain of rules that clash, in one text: each link with its time.
fn links(chain: &[ClashLink], words: &Words) -> String {
    let links: Vec<String> = chain.iter().map(|link| clash(link, words)).collect();
    words.say("problems-clash-chain", &[("links", links.into())])
}

/// Words one link of a chain of rules that clash.
#[must_use]
pub fn clash(link: &ClashLink, words: &Words) -> String {
    let time = ("time", Value::from(link.time));
    match &link.because {
        ClashReason::Duration(task) => {
            let values = [("task", task.as_str().into()), time];
            if link.at_most {
                words.say("problems-clash-takes-at-most", &values)
            } else {
                words.say("problems-clash-takes", &values)
            }
        }
        ClashReason::Order(first, then) => {
            let values = [
                ("first", first.as_str().into()),
                ("then", then.as_str().into()),
            ];
            words.say("problems-clash-order", &values)
        }
        ClashReason::Gap { from, to, .. } => {
            let values = [
                ("from", from.as_str().into()),
                ("to", to.as_str().into()),
                time,
            ];
            if link.at_most {
                words.say("problems-clash-gap-at-most", &values)
            } else {
                words.say("problems-clash-gap-at-least", &values)
            }
        }
    }
}

/// Words for the chain of rules that keeps a plan from being finished, a sentence each.
#[must_use]
pub fn stretches(chain: &[Stretch], plan: &Plan, words: &Words) -> Vec<String> {
    let label = |task: usize| Value::from(plan.tasks[task].label.as_str());
    let say = |one: &Stretch| {
        let time = ("time", Value::from(one.time));
        match one.because {
            Because::Duration(task) => {
                let values = [("task", label(task)), time];
                if one.at_most {
                    words.say("problems-clash-takes-at-most", &values)
                } else {
                    words.say("problems-clash-takes", &values)
                }
            }
            Because::Order(first, then) => {
                let values = [("first", label(first)), ("then", label(then))];
                words.say("problems-clash-order", &values)
            }
            Because::Gap(gap) => {
                let gap = &plan.gaps[gap];
                let values = [("from", label(gap.from)), ("to", label(gap.to)), time];
                if one.at_most {
                    words.say("problems-clash-gap-at-most", &values)
                } else {
                    words.say("problems-clash-gap-at-least", &values)
                }
            }
            Because::Done(task) => {
                let values = [("task", label(task))];
                words.say("problems-clash-done", &values)
            }
        }
    };
    chain.iter().map(say).collect()
}

/// Words why a profile does not fit a module.
#[must_use]
pub fn profile_fault(fault: &ProfileFault, words: &Words) -> Told {
    match fault {
        ProfileFault::NotCovered { module } => told(
            words,
            "problems-profile-not-covered",
            &[("module", module.as_str().into())],
        ),
        ProfileFault::NoSuchModule { found, suggestion } => {
            let found = [("found", found.as_str().into())];
            let it = told(words, "problems-profile-no-such-module", &found);
            with_fix(it, meant(words, suggestion.as_ref()))
        }
        ProfileFault::Unknown {
            found, suggestion, ..
        } => {
            let found = [("found", found.as_str().into())];
            let it = told(words, "problems-profile-unknown", &found);
            with_fix(it, meant(words, suggestion.as_ref()))
        }
        ProfileFault::NoSuchCap => told(words, "problems-profile-no-such-cap", &[]),
        ProfileFault::NoSuchGap => told(words, "problems-profile-no-such-gap", &[]),
        ProfileFault::OtherKeeping { step } => told(
            words,
            "problems-profile-other-keeping",
            &[("step", step.as_str().into())],
        ),
    }
}
