//! `drybench lab`: opens a record, and says what it is.

use clap::{ArgMatches, Command};

use crate::app::System;
use crate::app::demonstration::{NoDemonstration, write_into};
use crate::app::laboratory::{Founding, Laboratory, Place as _};
use crate::app::rehearse::StartProblem;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::people::Name;
use crate::record::scope::Id;
use crate::report::record::{fingerprint, name_problem};
use crate::text::Words;

/// The name of the workstation where none is given.
const WORKSTATION: &str = "front-desk";

/// Says what the commands take.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let open = help::command(words, "open", "cli-lab-open", None)
        .arg(help::option(words, "name", "TEXT", "cli-lab-open.name").required(true))
        .arg(help::option(words, "owner", "TEXT", "cli-lab-open.owner").required(true))
        .arg(help::option(
            words,
            "workstation",
            "NAME",
            "cli-lab-open.workstation",
        ))
        .arg(office::passphrase_fd(words))
        .arg(office::data(words));
    let show = help::command(words, "show", "cli-lab-show", None).arg(office::data(words));
    let invented = help::command(words, "demonstration", "cli-lab-demonstration", None)
        .arg(office::data(words).required(true));
    help::group(words, "lab", "cli-lab")
        .subcommand(open)
        .subcommand(show)
        .subcommand(invented)
}

/// Writes the invented laboratory into a folder, and says how to sign in as whom.
pub(in crate::cli) fn invented<S: System>(
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let data = system.data_folder(help::path(matches, "data").as_deref())?;
    let made = write_into(system, &data, words);
    let (made, _) = made.map_err(|problem| match problem {
        NoDemonstration::Shelf(problem) => Failure::Start(StartProblem::Shelf(problem)),
        NoDemonstration::Problem(problem) => Failure::Laboratory(problem),
        NoDemonstration::Fault(fault) => fault.into(),
    })?;
    let values = [
        ("entries", made.laboratory.ledger().entries().len().into()),
        ("today", made.today.day().to_string().into()),
    ];
    out.line(&words.say("laboratory-demonstration", &[]))?;
    out.line(&words.say("laboratory-demonstration-made", &values))?;
    for one in &made.people {
        let role = words.part("laboratory-role", one.role.word());
        let values = [
            ("code", one.code.to_string().into()),
            ("name", one.name.as_str().into()),
            ("role", role.into()),
            // Everybody knows it: nothing in the demonstration is secret.
            (
                "passphrase",
                String::from_utf8_lossy(one.passphrase.bytes())
                    .as_ref()
                    .into(),
            ),
            ("here", if one.left { "left" } else { "here" }.into()),
        ];
        out.line(&words.say("laboratory-demonstration-person", &values))?;
    }
    Ok(Ended::Done)
}

/// A name that an option gives.
pub(super) fn name(matches: &ArgMatches, option: &str, words: &Words) -> Result<Name, Failure> {
    let text = help::text(matches, option).unwrap_or_default();
    text.parse()
        .map_err(|problem| Failure::Usage(name_problem(problem, words)))
}

/// Opens a record.
pub(in crate::cli) fn found<S: System>(
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let named: Option<Id> = office::value(matches, "workstation", WORKSTATION)?;
    let workstation = match named {
        Some(named) => named,
        None => WORKSTATION
            .parse()
            .map_err(|_| Failure::value("workstation", WORKSTATION, &[]))?,
    };
    let owner = name(matches, "owner", words)?;
    let laboratory = name(matches, "name", words)?;
    let place = system.place(&office::folder(matches, system)?)?;
    if !place.log().strands()?.is_empty() {
        return Err(crate::app::laboratory::Problem::OpenedAlready.into());
    }
    let accountability = words.say("laboratory-accountability", &[]);
    out.message(&accountability)?;
    let passphrase = office::new_passphrase(owner.as_str(), matches, system, words, out)?;
    let asked = Founding {
        laboratory,
        workstation,
        owner,
        passphrase,
        accountability,
    };
    let (laboratory, owner) = Laboratory::found(place, &asked)?;
    let values = [
        ("code", owner.person.to_string().into()),
        ("seal", fingerprint(&owner.founded.0).into()),
    ];
    out.line(&words.say("laboratory-founded", &values))?;
    out.line(&words.say("laboratory-founded-next", &values))?;
    let office = Office::on(laboratory, matches, system, words)?;
    show(&office, out)
}

/// Says what the record is.
pub(in crate::cli) fn show<S: System>(
    office: &Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let laboratory = &office.laboratory;
    let title = laboratory.place().title()?;
    let name = title.map(|title| title.name.as_str().to_owned());
    let values = [
        ("name", name.unwrap_or_default().into()),
        ("workstation", laboratory.workstation().to_string().into()),
        ("entries", laboratory.ledger().entries().len().into()),
        ("people", laboratory.people().count().into()),
    ];
    out.line(&office.words.say("laboratory-is", &values))?;
    if laboratory.is_demonstration() {
        out.line(&office.words.say("laboratory-demonstration", &[]))?;
    }
    Ok(Ended::Done)
}
