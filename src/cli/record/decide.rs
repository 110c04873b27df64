//! What is decided about a person: `sign-off`, `suspend`, `reinstate`, `withdraw`, `call-in`.

use clap::{Arg, ArgAction, ArgMatches, Command};

use super::lab::name as lab_name;
use crate::app::System;
use crate::app::laboratory::{Deed, Document};
use crate::cli::failure::{Ended, Failure};
use crate::cli::files;
use crate::cli::help;
use crate::cli::office::{self, Moment, Office};
use crate::cli::out::Out;
use crate::record::entry::{
    Allowed, Basis, CalledIn, Cause, Established, HowEstablished, OutsideEvidence, OutsideWay,
    Reinstated, SignedOff, Suspended, Withdrawn,
};
use crate::record::seal::Seal;
use crate::standing::{Reading, Standing};
use crate::text::Words;

fn about(words: &Words, name: &'static str, id: &'static str) -> Command {
    help::command(words, name, id, Some(office::person(words))).arg(office::workflow(words))
}

fn evidence(words: &Words) -> Arg {
    help::option(words, "evidence", "ENTRY,…", "cli-option.evidence")
        .action(ArgAction::Append)
        .value_delimiter(',')
}

fn proof(words: &Words) -> Arg {
    help::option(words, "proof", "FILE", "cli-option.proof")
        .value_parser(clap::value_parser!(std::path::PathBuf))
}

/// Says what `sign-off` takes.
pub(in crate::cli) fn sign_off(words: &Words) -> Command {
    about(words, "sign-off", "cli-sign-off")
        .args(office::scope(words))
        .arg(office::revision(words))
        .arg(help::option(words, "from", "TIME", "cli-sign-off.from"))
        .arg(evidence(words))
        .arg(
            help::option(
                words,
                "first-assessor",
                "WORD",
                "cli-sign-off.first-assessor",
            )
            .requires("proof")
            .conflicts_with("evidence"),
        )
        .arg(
            help::option(words, "outside", "WORD", "cli-sign-off.outside")
                .requires("proof")
                .requires("assessor")
                .conflicts_with_all(["evidence", "first-assessor"]),
        )
        .arg(help::option(
            words,
            "assessor",
            "TEXT",
            "cli-sign-off.assessor",
        ))
        .arg(proof(words))
        .args(office::signing(words))
}

/// Says what `suspend` takes.
pub(in crate::cli) fn suspend(words: &Words) -> Command {
    about(words, "suspend", "cli-suspend")
        .arg(help::option(
            words,
            "allowed",
            "WORD",
            "cli-suspend.allowed",
        ))
        .arg(office::happened(words))
        .args(office::signing(words))
}

/// Says what `reinstate` takes.
pub(in crate::cli) fn reinstate(words: &Words) -> Command {
    about(words, "reinstate", "cli-reinstate")
        .arg(help::option(
            words,
            "suspension",
            "ENTRY",
            "cli-reinstate.suspension",
        ))
        .arg(evidence(words))
        .arg(proof(words))
        .args(office::signing(words))
}

/// Says what `withdraw` takes.
pub(in crate::cli) fn withdraw(words: &Words) -> Command {
    about(words, "withdraw", "cli-withdraw")
        .args(office::scope(words))
        .args(office::signing(words))
}

/// Says what `call-in` takes.
pub(in crate::cli) fn call_in(words: &Words) -> Command {
    about(words, "call-in", "cli-call-in")
        .args(office::scope(words))
        .arg(help::option(words, "cause", "WORD", "cli-call-in.cause").required(true))
        .arg(office::happened(words))
        .args(office::signing(words))
}

/// Writes one of them down.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, words) = (office.matches, office.words);
    let person = office.person("person")?;
    let workflow = office.workflow()?;
    let deed = match what {
        "sign-off" => signed_off(office, matches)?,
        "suspend" => {
            let allowed = office::chosen(matches, "allowed", Allowed::ALL, Allowed::word)?;
            let fact = Suspended {
                person,
                workflow,
                allowed: allowed.unwrap_or(Allowed::Nothing),
            };
            Deed::now(fact).at(office.happened()?)
        }
        "reinstate" => {
            let suspension = suspension(office, matches)?;
            let evidence = named(office, matches)?.unwrap_or_default();
            let document = document(office, matches)?;
            Deed::now(Reinstated {
                person,
                workflow,
                suspension,
                evidence,
                proof: document.as_ref().map(Document::digest),
            })
            .with(document)
        }
        "withdraw" => {
            let scope = office.scope(person)?;
            Deed::now(Withdrawn { person, scope })
        }
        _ => {
            let fact = CalledIn {
                person,
                scope: office.scope(person)?,
                cause: office::one_of(matches, "cause", Cause::ALL, Cause::word)?,
            };
            Deed::now(fact).at(office.happened()?)
        }
    };
    let deed = deed.because(office.reason()?);
    let ended = office.sign(deed, out)?;
    if what == "reinstate" {
        out.message(&words.say("laboratory-then-second", &[]))?;
    }
    Ok(ended)
}

fn signed_off<S: System>(
    office: &mut Office<'_, S>,
    matches: &ArgMatches,
) -> Result<Deed, Failure> {
    let person = office.person("person")?;
    let (scope, edition) = (office.scope(person)?, office.edition()?);
    let first = office::chosen(
        matches,
        "first-assessor",
        HowEstablished::ALL,
        HowEstablished::word,
    )?;
    let outside = office::chosen(matches, "outside", OutsideWay::ALL, OutsideWay::word)?;
    let document = document(office, matches)?;
    let proof = document.as_ref().map(Document::digest);
    let basis = match (first, outside, proof) {
        (Some(how), _, Some(proof)) => Basis::FirstAssessor(Established { how, proof }),
        (_, Some(way), Some(proof)) => {
            let assessor = lab_name(matches, "assessor", office.words)?;
            let assessor = office.laboratory.commit(&assessor)?;
            Basis::Outside(OutsideEvidence {
                way,
                assessor,
                proof,
            })
        }
        _ => Basis::Evidence(match named(office, matches)? {
            Some(named) => named,
            None => office.laboratory.evidence(person, &scope),
        }),
    };
    let from = office.moment("from", Moment::Begins)?;
    Ok(Deed::now(SignedOff {
        person,
        scope,
        edition,
        valid_from: from.unwrap_or_else(|| office.laboratory.now()),
        basis,
    })
    .with(document))
}

/// The entries that `--evidence` names.
fn named<S: System>(
    office: &Office<'_, S>,
    matches: &ArgMatches,
) -> Result<Option<Vec<Seal>>, Failure> {
    let Some(named) = matches.get_many::<String>("evidence") else {
        return Ok(None);
    };
    let seals = named.map(|found| office.seal(found));
    seals.collect::<Result<_, _>>().map(Some)
}

/// The document that `--proof` names.
fn document<S: System>(
    office: &Office<'_, S>,
    matches: &ArgMatches,
) -> Result<Option<Document>, Failure> {
    let Some(path) = help::path(matches, "proof") else {
        return Ok(None);
    };
    let content = office.system.read(&path, files::limit())?;
    Ok(Some(Document::new(content)))
}

/// The suspension that ends: the one that is named, or the one that holds.
fn suspension<S: System>(office: &Office<'_, S>, matches: &ArgMatches) -> Result<Seal, Failure> {
    if let Some(found) = help::text(matches, "suspension") {
        return office.seal(&found);
    }
    let person = office.person("person")?;
    let wanted = office.workflow()?;
    let view = office
        .laboratory
        .view(office.laboratory.now().instant(), Reading::AsNowKnown);
    let held = view
        .scopes(person, Some(&wanted))
        .into_iter()
        .find_map(|scope| match view.standing(person, &scope) {
            Ok(Standing::Suspended { by, .. }) => Some(by),
            _ => None,
        });
    held.ok_or_else(|| Failure::value("suspension", "", &["front-desk/12"]))
}
