//! `drybench person`: people join, leave, are named otherwise, are entitled to things, are forgotten.

use clap::{ArgMatches, Command};

use super::lab;
use crate::app::System;
use crate::app::laboratory::Deed;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::record::entry::Left;
use crate::record::scope::{Authority, Id, Meaning};
use crate::report::record::declaration;
use crate::text::Words;

/// Says what the commands take.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let granting = |name: &'static str, id: &'static str| {
        let authority = help::place(words, "authority", "AUTHORITY", "cli-person.authority");
        let authority = authority.required(true);
        help::command(words, name, id, Some(office::person(words)))
            .arg(if name == "grant" {
                authority.num_args(1..)
            } else {
                authority
            })
            .arg(help::option(
                words,
                "workflow",
                "WORKFLOW",
                "cli-person.workflow",
            ))
            .args(office::signing(words))
    };
    help::group(words, "person", "cli-person")
        .subcommand(
            help::command(words, "add", "cli-person-add", None)
                .arg(help::option(words, "name", "TEXT", "cli-person-add.name").required(true))
                .args(office::signing(words)),
        )
        .subcommand(
            help::command(words, "list", "cli-person-list", None)
                .arg(help::flag(words, "all", "cli-person-list.all"))
                .arg(office::data(words)),
        )
        .subcommand(
            help::command(
                words,
                "leave",
                "cli-person-leave",
                Some(office::person(words)),
            )
            .args(office::signing(words)),
        )
        .subcommand(granting("grant", "cli-person-grant"))
        .subcommand(granting("revoke", "cli-person-revoke"))
        .subcommand(
            help::command(
                words,
                "rename",
                "cli-person-rename",
                Some(office::person(words)),
            )
            .arg(help::option(words, "name", "TEXT", "cli-person-add.name").required(true))
            .args(office::signed_in(words)),
        )
        .subcommand(
            help::command(
                words,
                "erase",
                "cli-person-erase",
                Some(office::person(words)),
            )
            .args(office::signed_in(words)),
        )
}

/// Does what was asked about people.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, words) = (office.matches, office.words);
    match what {
        "add" => add(office, matches, out),
        "list" => list(office, matches.get_flag("all"), out),
        "leave" => {
            let person = office.person("person")?;
            let deed = Deed::now(Left { person }).because(office.reason()?);
            office.sign(deed, out)
        }
        "grant" | "revoke" => entitle(office, what == "grant", matches, out),
        "rename" => {
            let (by, person) = (office.signer()?, office.person("person")?);
            let name = lab::name(matches, "name", words)?;
            let passphrase = office.passphrase(by, out)?;
            let renamed = office.laboratory.rename(by, &passphrase, person, name);
            office.ok(renamed)?;
            office.learn_names()?;
            let person = office.told(|telling| telling.person(person));
            out.line(&words.say("laboratory-renamed", &[("person", person.into())]))?;
            Ok(Ended::Done)
        }
        "erase" => {
            let (by, person) = (office.signer()?, office.person("person")?);
            let who = office.told(|telling| telling.person(person));
            out.message(&words.say("laboratory-erase-for-good", &[("person", who.into())]))?;
            let passphrase = office.passphrase(by, out)?;
            let erased = office.laboratory.erase(by, &passphrase, person);
            office.ok(erased)?;
            let code = [("code", person.to_string().into())];
            out.line(&words.say("laboratory-erased", &code))?;
            Ok(Ended::Done)
        }
        _ => Err(Failure::NotThere("person")),
    }
}

fn add<S: System>(
    office: &mut Office<'_, S>,
    matches: &ArgMatches,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let by = office.signer()?;
    let name = lab::name(matches, "name", office.words)?;
    let sentence = declaration(Meaning::Authored, office.words);
    out.message(&sentence)?;
    let passphrase = office.passphrase(by, out)?;
    let reason = office.reason()?;
    let joined = office
        .laboratory
        .join(by, &passphrase, name, reason, &sentence);
    let (person, done) = office.ok(joined)?;
    office.learn_names()?;
    if !matches.get_flag("json") {
        let who = office.told(|telling| telling.person(person));
        let values = [("person", who.into()), ("code", person.to_string().into())];
        out.line(&office.words.say("laboratory-joined", &values))?;
    }
    office.answer(&done, out)
}

fn list<S: System>(office: &Office<'_, S>, all: bool, out: &mut Out) -> Result<Ended, Failure> {
    let staff = office.laboratory.ledger().staff();
    let mut people = office.laboratory.ledger().people().collect::<Vec<_>>();
    people.retain(|person| all || staff.is_here(*person));
    for person in people {
        let mut rights: Vec<String> = staff
            .grants_of(person)
            .map(|(_, held, workflow)| {
                let held = held.word().to_owned();
                workflow.map_or_else(|| held.clone(), |of| format!("{held} ({of})"))
            })
            .collect();
        rights.sort();
        let here = if staff.is_here(person) {
            "here"
        } else {
            "left"
        };
        let values = [
            (
                "person",
                office.told(|telling| telling.person(person)).into(),
            ),
            ("here", here.into()),
            (
                "key",
                if staff.key_of(person).is_some() {
                    "yes"
                } else {
                    "no"
                }
                .into(),
            ),
            ("count", rights.len().into()),
            ("rights", rights.into()),
        ];
        out.line(&office.words.say("laboratory-person", &values))?;
    }
    Ok(Ended::Done)
}

fn entitle<S: System>(
    office: &mut Office<'_, S>,
    given: bool,
    matches: &ArgMatches,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (by, person) = (office.signer()?, office.person("person")?);
    let workflow: Option<Id> = office::value(matches, "workflow", "stock-teeth")?;
    let reason = office.reason()?;
    if given {
        let authorities = authorities(matches)?;
        let deeds = Deed::grants(person, authorities, workflow.as_ref(), reason.as_ref());
        return office.sign_all(deeds, out);
    }
    let authority = office::one_of(matches, "authority", Authority::ALL, Authority::word)?;
    let sentence = declaration(Meaning::Approved, office.words);
    let of = workflow.as_ref();
    let draft = office
        .laboratory
        .revoke(by, person, authority, of, reason, &sentence);
    let draft = office.ok(draft)?;
    office.sign_draft(&draft, out)
}

/// The rights that were named, each once, in the order in which they were named.
fn authorities(matches: &ArgMatches) -> Result<Vec<Authority>, Failure> {
    let mut found = Vec::new();
    for text in matches
        .get_many::<String>("authority")
        .into_iter()
        .flatten()
    {
        let one = Authority::ALL.iter().find(|one| one.word() == text);
        let one = one.copied().ok_or_else(|| {
            let known: Vec<&str> = Authority::ALL.iter().map(|one| one.word()).collect();
            Failure::value("authority", text, &known)
        })?;
        if !found.contains(&one) {
            found.push(one);
        }
    }
    Ok(found)
}
