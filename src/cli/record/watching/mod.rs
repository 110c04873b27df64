//! `drybench observe run`: somebody is watched at a real case, in plain lines, from the keyboard or a pipe.

mod dialog;

use std::sync::Arc;

use clap::{ArgAction, ArgMatches, Command};

use crate::app::System;
use crate::app::laboratory::edition_of;
use crate::app::rehearse::StartProblem;
use crate::app::shelf::Shelf;
use crate::app::watching::{
    BenchCard, FORMAT, Head, Mark, OpenRun, Reading, Watch, open_runs, problems,
};
use crate::cli::failure::{Ended, Failure};
use crate::cli::files;
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::record::entry::Method;
use crate::report::problems::Told;
use crate::report::record::id_of;
use crate::syllabus::case::CaseCard;
use crate::text::Words;
use crate::units::PersonCode;
use dialog::{Dialog, Left};

/// Says what the command takes.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let option = |id, value, help: &str| help::option(words, id, value, help);
    help::command(
        words,
        "run",
        "cli-observe-run",
        Some(office::workflow(words)),
    )
    .arg(office::person(words))
    .arg(
        option("case-ref", "REF", "cli-observe-run.case-ref")
            .required_unless_present("resume")
            .conflicts_with("resume"),
    )
    .arg(help::case(words).conflicts_with("resume"))
    .args(office::scope(words))
    .arg(option("lot", "TEXT", "cli-observe-run.lot").action(ArgAction::Append))
    .arg(option("method", "WORD", "cli-observe-run.method"))
    .arg(option("module", "ID|FILE", "cli-observe-enter.module"))
    .arg(help::flag(words, "resume", "cli-observe-run.resume"))
    .args(office::signing(words))
}

/// Watches, and signs what was seen.
pub(super) fn run<S: System>(office: &mut Office<'_, S>, out: &mut Out) -> Result<Ended, Failure> {
    let matches = office.matches;
    let observer = office.signer()?;
    let person = office.person("person")?;
    let mut shelf = Shelf::shipped();
    let module = help::text(matches, "module").unwrap_or_default();
    files::module_of(&mut shelf, &module, data(matches).as_deref(), office.system)?;
    let watch = if matches.get_flag("resume") {
        taken_up(office, person, &shelf)?
    } else {
        begun(office, person, observer, &shelf)?
    };
    let left = Dialog::new(watch, office, out).run();
    out.go_on_unread();
    match left {
        // Whoever no longer reads has every tap kept.
        Err(Failure::Closed) => Ok(Ended::WithFindings),
        Err(failure) => Err(failure),
        Ok(Left::Quit) => Ok(Ended::Done),
        Ok(Left::LinesEnded) => {
            out.message(&office.words.say("watching-lines-ended", &[]))?;
            Ok(Ended::WithFindings)
        }
        Ok(Left::Over(watch)) => signed(*watch, office, out),
    }
}

/// The two clocks now.
fn reading<S: System>(office: &Office<'_, S>) -> Reading {
    Reading {
        at: office.laboratory.now(),
        elapsed: office.system.elapsed(),
    }
}

fn problem(lines: Vec<String>) -> Failure {
    let mut lines = lines.into_iter();
    let what = lines.next().unwrap_or_default();
    let rest: Vec<String> = lines.collect();
    Failure::Told(Told {
        what,
        fix: (!rest.is_empty()).then(|| rest.join("\n")),
    })
}

fn data(matches: &ArgMatches) -> Option<std::path::PathBuf> {
    help::path(matches, "data")
}

fn begun<S: System>(
    office: &mut Office<'_, S>,
    person: PersonCode,
    observer: PersonCode,
    shelf: &Shelf,
) -> Result<Watch<S>, Failure> {
    let matches = office.matches;
    let scope = office.scope(person)?;
    let (workflow, profile) = (scope.workflow.to_string(), scope.profile.to_string());
    let taken = shelf
        .take(&workflow, Some(&profile))
        .map_err(|problem| Failure::Start(StartProblem::Shelf(problem)))?;
    let first = CaseCard::picked(&taken.module, |_| 0);
    let typed = help::spelled(&help::choices(matches));
    let chosen = CaseCard::parse_over(&typed, &taken.module, first)
        .map_err(|problem| Failure::Start(StartProblem::Case(problem)))?;
    let edition = office.ok(edition_of(&taken))?;
    let numbers = taken.numbers.clone();
    let card = BenchCard::new(Arc::new(taken), &chosen).map_err(Failure::Start)?;
    let now = reading(office);
    let lots = matches.get_many::<String>("lot");
    let head = Head {
        format: FORMAT,
        person,
        observer,
        scope,
        numbers,
        edition,
        card: chosen,
        case: office::required(matches, "case-ref", "c-0312")?,
        method: office::chosen(matches, "method", Method::ALL, Method::word)?
            .unwrap_or(Method::Direct),
        started: now.at,
        lots: lots.map(|all| all.cloned().collect()).unwrap_or_default(),
    };
    Watch::begin(
        office.system,
        data(matches).as_deref(),
        Arc::new(card),
        head,
        now,
    )
    .map_err(|why| problem(problems::watch_problem(&why, office.words)))
}

fn taken_up<S: System>(
    office: &mut Office<'_, S>,
    person: PersonCode,
    shelf: &Shelf,
) -> Result<Watch<S>, Failure> {
    let words = office.words;
    let told = |why| problem(problems::watch_problem(&why, words));
    let workflow = office.workflow()?;
    let open = open_runs(office.system, data(office.matches).as_deref()).map_err(told)?;
    let fits = |one: &OpenRun| {
        let head = one.run.head();
        head.person == person && head.scope.workflow == workflow
    };
    let Some(found) = open.runs.iter().find(|one| fits(one)) else {
        // A run that cannot be read may be the one that is meant.
        let why = open.refused.into_iter().next().map(told);
        return Err(why.unwrap_or_else(|| problem(vec![words.say("watching-none-open", &[])])));
    };
    let now = reading(office);
    let watch = Watch::take_up(office.system, shelf, &found.path, now).map_err(told)?;
    Ok(watch)
}

/// Signs what was seen, and says how the person who was watched signs too.
fn signed<S: System>(
    mut watch: Watch<S>,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let path = [("path", files::shown(watch.path()).into())];
    let kept = office.words.say("watching-kept-unsigned", &path);
    let done = sign(&watch, office, out);
    let (seal, done) = match done {
        Ok(done) => done,
        Err(failure) => {
            let _the_failure_follows = out.message(&kept);
            return Err(failure);
        }
    };
    let entry = seal.to_string();
    let now = reading(office);
    if let Err(why) = watch.tap(Mark::Signed { entry }, now) {
        // The entry is stored all the same; taken up again, the run is found to be signed.
        for line in problems::tap_failure(&why, office.words) {
            out.message(&line)?;
        }
    }
    let Some(done) = done else {
        out.message(&office.words.say("watching-signed-before", &[]))?;
        return Ok(Ended::Done);
    };
    let ended = office.answer(&done, out)?;
    let values = [
        ("entry", id_of(&done.entry).into()),
        ("person", watch.run().head().person.to_string().into()),
    ];
    out.message(&office.words.say("watching-countersign", &values))?;
    Ok(ended)
}

type Stored = (
    crate::record::seal::Seal,
    Option<crate::app::laboratory::Done>,
);

/// Signs; where it was signed before the program was cut off, only says with which seal.
fn sign<S: System>(
    watch: &Watch<S>,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Stored, Failure> {
    if let Some(seal) = office.ok(office.laboratory.signed_already(watch.run()))? {
        return Ok((seal, None));
    }
    let deed = office.laboratory.watched(watch.run(), watch.card());
    let Some(deed) = office.ok(deed)? else {
        return Err(Failure::NotSigned);
    };
    let reason = office.reason()?;
    let done = office.signed(deed.because(reason), out)?;
    Ok((done.entry.seal(), Some(done)))
}
