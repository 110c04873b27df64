//! `drybench observe`: an observed run, from a sheet that was filled in.

use clap::{ArgMatches, Command};

use crate::app::System;
use crate::app::laboratory::worded::sheet_problem;
use crate::app::laboratory::{Sheet, SheetProblem, blank};
use crate::app::rehearse::StartProblem;
use crate::app::shelf::{Shelf, Taken};
use crate::cli::failure::{Ended, Failure};
use crate::cli::files;
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::text::Words;

/// Says what the commands take.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let id = help::place(words, "id", "ID", "cli-option.id").required(true);
    let sheet = help::place(words, "sheet", "FILE", "cli-observe-enter.sheet")
        .required(true)
        .value_parser(clap::value_parser!(std::path::PathBuf));
    help::group(words, "observe", "cli-observe")
        .subcommand(help::command(words, "sheet", "cli-observe-sheet", Some(id)))
        .subcommand(
            help::command(words, "enter", "cli-observe-enter", Some(sheet))
                .arg(help::option(
                    words,
                    "module",
                    "ID|FILE",
                    "cli-observe-enter.module",
                ))
                .args(office::signing(words)),
        )
        .subcommand(super::watching::command(words))
}

/// Prints an empty sheet.
pub(in crate::cli) fn sheet<S: System>(
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let wanted = help::text(matches, "id").unwrap_or_default();
    // It is printed without a record, so without its folder too.
    let mut shelf = Shelf::shipped();
    let id = files::module(&mut shelf, &wanted, system)?;
    let taken = taken(&shelf, &id)?;
    let title = words.say("laboratory-sheet-title", &[]);
    out.line(blank(&taken, None, &title).trim_end())?;
    Ok(Ended::Done)
}

/// Enters a filled sheet.
pub(in crate::cli) fn enter<S: System>(
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, system, words) = (office.matches, office.system, office.words);
    let path = help::path(matches, "sheet").unwrap_or_default();
    let bytes = system.read(&path, files::limit())?;
    let text = String::from_utf8(bytes).map_err(|_| Failure::NoText(files::shown(&path)))?;
    let told = |office: &Office<'_, S>, problem: &SheetProblem| {
        Failure::Told(office.told(|telling| sheet_problem(problem, telling)))
    };
    let sheet = Sheet::read(&text).map_err(|problem| told(office, &problem))?;
    let wanted = help::text(matches, "module").unwrap_or_else(|| sheet.workflow.clone());
    let mut shelf = Shelf::shipped();
    let data = help::path(matches, "data");
    let id = files::module_of(&mut shelf, &wanted, data.as_deref(), system)?;
    let taken = taken(&shelf, &id)?;
    let entered = sheet.enter(&text, &mut office.laboratory, &taken);
    let entered = entered.map_err(|problem| told(office, &problem))?;
    if !entered.left_out.is_empty() {
        let values = [("steps", entered.left_out.clone().into())];
        out.message(&words.say("laboratory-steps-left-out", &values))?;
    }
    let deed = match office.reason()? {
        Some(reason) => entered.deed.because(Some(reason)),
        None => entered.deed,
    };
    office.sign(deed, out)
}

fn taken(shelf: &Shelf, id: &str) -> Result<Taken, Failure> {
    shelf
        .take(id, None)
        .map_err(|problem| Failure::Start(StartProblem::Shelf(problem)))
}
