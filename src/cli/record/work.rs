//! What others see of a person's work: `supervise`, `check-case`, `evaluate`.

use clap::Command;

use crate::app::System;
use crate::app::laboratory::Deed;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Moment, Office};
use crate::cli::out::Out;
use crate::record::entry::{CaseChecked, Effect, Evaluated, Judgement, Stage, SupervisedBy};
use crate::text::Words;

fn about(words: &Words, name: &'static str, id: &'static str) -> Command {
    help::command(words, name, id, Some(office::person(words)))
        .arg(office::workflow(words))
        .args(office::scope(words))
}

/// Says what `supervise` takes.
pub(in crate::cli) fn supervise(words: &Words) -> Command {
    about(words, "supervise", "cli-supervise")
        .arg(help::option(words, "from", "TIME", "cli-supervise.from"))
        .arg(help::option(words, "until", "TIME", "cli-supervise.until").required(true))
        .args(office::signing(words))
}

/// Says what `check-case` takes.
pub(in crate::cli) fn check_case(words: &Words) -> Command {
    about(words, "check-case", "cli-check-case")
        .arg(help::option(words, "case", "ID", "cli-check-case.case").required(true))
        .arg(help::option(words, "judgement", "WORD", "cli-check-case.judgement").required(true))
        .arg(office::revision(words))
        .arg(office::happened(words))
        .args(office::signing(words))
}

/// Says what `evaluate` takes.
pub(in crate::cli) fn evaluate(words: &Words) -> Command {
    about(words, "evaluate", "cli-evaluate")
        .arg(help::option(words, "stage", "WORD", "cli-evaluate.stage").required(true))
        .arg(help::option(words, "effect", "WORD", "cli-evaluate.effect").required(true))
        .arg(office::revision(words))
        .arg(office::happened(words))
        .args(office::signing(words))
}

/// Writes one of them down.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let matches = office.matches;
    let person = office.person("person")?;
    let scope = office.scope(person)?;
    let deed = match what {
        "supervise" => {
            let (from, until) = (
                office.moment("from", Moment::Begins)?,
                office.moment("until", Moment::Ends)?,
            );
            Deed::now(SupervisedBy {
                person,
                scope,
                from: from.unwrap_or_else(|| office.laboratory.now()),
                until: until.ok_or_else(|| Failure::value("until", "", &["2026-03-31"]))?,
            })
        }
        "check-case" => {
            let fact = CaseChecked {
                person,
                scope,
                edition: office.edition()?,
                case: office::required(matches, "case", "c-0312")?,
                judgement: office::one_of(matches, "judgement", Judgement::ALL, Judgement::word)?,
            };
            Deed::now(fact).at(office.happened()?)
        }
        _ => {
            let fact = Evaluated {
                person,
                scope,
                edition: office.edition()?,
                stage: office::one_of(matches, "stage", Stage::ALL, Stage::word)?,
                effect: office::one_of(matches, "effect", Effect::ALL, Effect::word)?,
            };
            Deed::now(fact).at(office.happened()?)
        }
    };
    let deed = deed.because(office.reason()?);
    office.sign(deed, out)
}
