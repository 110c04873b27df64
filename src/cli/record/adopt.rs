//! `drybench adopt` and `drybench retire`: which revisions the laboratory works by.

use clap::Command;

use crate::app::System;
use crate::app::laboratory::{Adoption, Deed, Number, OwnNumbers, edition_of};
use crate::app::rehearse::StartProblem;
use crate::app::shelf::{Shelf, ShelfProblem};
use crate::cli::failure::{Ended, Failure};
use crate::cli::files;
use crate::cli::help;
use crate::cli::office::{self, Moment, Office};
use crate::cli::out::Out;
use crate::record::entry::{Impact, WorkflowRetired};
use crate::text::Words;

/// Says what adopting takes.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let id = help::place(words, "id", "ID", "cli-adopt.id").required(true);
    help::command(words, "adopt", "cli-adopt", Some(id))
        .arg(help::option(
            words,
            "effective",
            "DATE",
            "cli-adopt.effective",
        ))
        .arg(help::option(words, "impact", "WORD", "cli-adopt.impact"))
        .args(Number::ALL.map(|number| {
            let shown = match number {
                Number::ValidMonths => "MONTHS",
                Number::EffectCheckDays => "DAYS",
                _ => "NUMBER",
            };
            let about = format!("cli-adopt.{}", number.word());
            help::option(words, number.word(), shown, &about)
        }))
        .args(office::signing(words))
}

/// Says what retiring takes.
pub(in crate::cli) fn retire(words: &Words) -> Command {
    help::command(words, "retire", "cli-retire", Some(office::workflow(words)))
        .args(office::signing(words))
}

/// Adopts the revision that a module is.
pub(in crate::cli) fn run<S: System>(
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, words, system) = (office.matches, office.words, office.system);
    let mut shelf = Shelf::shipped();
    let wanted = help::text(matches, "id").unwrap_or_default();
    let data = help::path(matches, "data");
    let id = files::module_of(&mut shelf, &wanted, data.as_deref(), system)?;
    let taken = match shelf.take_sound(&id) {
        Ok(taken) => taken,
        Err(problem) => {
            if !matches!(problem, ShelfProblem::NoSuchModule { .. }) {
                out.message(&words.say("laboratory-module-faulty", &[]))?;
            }
            return Err(Failure::Start(StartProblem::Shelf(problem)));
        }
    };
    let effective = office.moment("effective", Moment::Begins)?;
    let impact = office::chosen(matches, "impact", Impact::ALL, Impact::word)?;
    // What the revision asks of others was decided when it was adopted first.
    let decided_before = || {
        let edition = edition_of(&taken).ok()?;
        let workflow = taken.module.identity.id.value.parse().ok()?;
        office.laboratory.impact_of(&workflow, &edition)
    };
    let decided = Adoption {
        effective: effective.unwrap_or_else(|| office.laboratory.now()),
        impact: impact.or_else(decided_before).unwrap_or_default(),
        reason: office::required(matches, "reason", "first revision")?,
        numbers: numbers(office)?,
    };
    let deed = office.laboratory.adoption(&taken, decided);
    let deed = office.ok(deed)?;
    let ended = office.sign(deed, out)?;
    out.message(&words.say("laboratory-adopted-next", &[]))?;
    Ok(ended)
}

/// The numbers that were given.
fn numbers<S: System>(office: &Office<'_, S>) -> Result<OwnNumbers, Failure> {
    let mut own = OwnNumbers::default();
    for number in Number::ALL {
        let option = number.word();
        let Some(text) = help::text(office.matches, option) else {
            continue;
        };
        let set = number.read(&text);
        let set = set.ok_or_else(|| Failure::value(option, &text, &[number.example()]))?;
        own = own.with(number, set);
    }
    Ok(own)
}

/// Retires a workflow.
pub(in crate::cli) fn run_retire<S: System>(
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let workflow = office.workflow()?;
    let deed = Deed::now(WorkflowRetired { workflow }).because(office.reason()?);
    office.sign(deed, out)
}
