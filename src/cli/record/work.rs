//! What others see of a person's work: `supervise`, `check-case`, `evaluate`.

use clap::{ArgMatches, Command};

use crate::app::System;
use crate::app::laboratory::Deed;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Moment, Office};
use crate::cli::out::Out;
use crate::record::entry::{CaseChecked, Effect, Evaluated, Judgement, Stage, SupervisedBy};
use crate::record::scope::Id;
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
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let mut office = Office::open(matches, system, words)?;
    let person = office.person("person")?;
    let wanted = office.wanted()?;
    let scope = office.laboratory.scope(person, &wanted);
    let scope = scope.map_err(|problem| office.failed(&problem))?;
    let revision = |office: &Office<'_, S>| {
        let named = matches.get_one::<u32>("revision").copied();
        let edition = office.laboratory.edition(&wanted.workflow, named);
        edition.map_err(|problem| office.failed(&problem))
    };
    let missing = |option: &'static str| Failure::value(option, "", &[]);
    let deed = match what {
        "supervise" => {
            let now = office.laboratory.now();
            let from = office.moment("from", Moment::Begins)?;
            let until = office.moment("until", Moment::Ends)?;
            Deed::now(SupervisedBy {
                person,
                scope,
                from: from.unwrap_or(now),
                until: until.ok_or_else(|| missing("until"))?,
            })
        }
        "check-case" => {
            let case: Option<Id> = office::value(matches, "case", "c-0312")?;
            let judged = office::chosen(matches, "judgement", Judgement::ALL, Judgement::word)?;
            let fact = CaseChecked {
                person,
                scope,
                edition: revision(&office)?,
                case: case.ok_or_else(|| missing("case"))?,
                judgement: judged.ok_or_else(|| missing("judgement"))?,
            };
            Deed::now(fact).at(office.happened()?)
        }
        _ => {
            let stage = office::chosen(matches, "stage", Stage::ALL, Stage::word)?;
            let effect = office::chosen(matches, "effect", Effect::ALL, Effect::word)?;
            let fact = Evaluated {
                person,
                scope,
                edition: revision(&office)?,
                stage: stage.ok_or_else(|| missing("stage"))?,
                effect: effect.ok_or_else(|| missing("effect"))?,
            };
            Deed::now(fact).at(office.happened()?)
        }
    };
    let deed = deed.because(office.reason()?);
    office.sign(deed, out)
}
