//! `drybench key`: keys are issued, taken over, lost; passphrases change.

use clap::{ArgMatches, Command};

use crate::app::System;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::record::scope::{Meaning, Text};
use crate::report::record::{declaration, id_of};
use crate::text::Words;

/// Says what the commands take.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let own = |name: &'static str, id: &'static str| {
        help::command(words, name, id, Some(office::person(words)))
            .arg(office::passphrase_fd(words))
            .arg(office::data(words))
            .arg(help::json(words))
    };
    help::group(words, "key", "cli-key")
        .subcommand(
            help::command(words, "issue", "cli-key-issue", Some(office::person(words)))
                .arg(
                    help::option(words, "identity", "TEXT", "cli-key-issue.identity")
                        .required(true),
                )
                .args(office::signing(words)),
        )
        .subcommand(own("accept", "cli-key-accept"))
        .subcommand(own("passphrase", "cli-key-passphrase"))
        .subcommand(
            help::command(words, "lost", "cli-key-lost", Some(office::person(words)))
                .args(office::signing(words)),
        )
}

/// Does what was asked about keys.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, words) = (office.matches, office.words);
    match what {
        "issue" => issue(office, matches, out),
        "accept" => {
            let person = office.person("person")?;
            let sentence = words.say("laboratory-accountability", &[]);
            out.message(&sentence)?;
            let passphrase = office.passphrase(person, out)?;
            let done = office.laboratory.accept_key(person, &passphrase, &sentence);
            office.answer(&office.ok(done)?, out)
        }
        "passphrase" => {
            let person = office.person("person")?;
            let old = office.passphrase(person, out)?;
            let who = office.told(|telling| telling.person(person));
            let new = office.new_passphrase(&who, out)?;
            let changed = office.laboratory.change_passphrase(person, &old, &new);
            office.ok(changed)?;
            out.line(&words.say("laboratory-passphrase-changed", &[]))?;
            Ok(Ended::Done)
        }
        "lost" => {
            let (by, person) = (office.signer()?, office.person("person")?);
            let sentence = declaration(Meaning::Authored, words);
            let reason = office.reason()?;
            let draft = office.laboratory.lose_key(by, person, reason, &sentence);
            let draft = office.ok(draft)?;
            office.sign_draft(&draft, out)
        }
        _ => Err(Failure::NotThere("key")),
    }
}

fn issue<S: System>(
    office: &mut Office<'_, S>,
    matches: &ArgMatches,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let words = office.words;
    let (by, person) = (office.signer()?, office.person("person")?);
    let identity: Text = office::required(matches, "identity", "passport seen")?;
    let sentence = declaration(Meaning::Approved, words);
    let who = office.told(|telling| telling.person(person));
    out.message(&sentence)?;
    out.message(&words.say(
        "laboratory-key-two-people",
        &[("person", who.as_str().into())],
    ))?;
    let passphrase = office.passphrase(by, out)?;
    let accountability = words.say("laboratory-accountability", &[]);
    out.message(&accountability)?;
    let chosen = office.new_passphrase(&who, out)?;
    let new = office.laboratory.new_key(person, chosen);
    let new = office.ok(new)?;
    let issued = office
        .laboratory
        .issue_key(by, &passphrase, &new, identity, &sentence);
    let issued = office.ok(issued)?;
    office.answer(&issued, out)?;
    // A key in the place of an earlier one takes a second person first.
    if office
        .laboratory
        .ledger()
        .staff()
        .waiting_key_of(person)
        .is_some()
    {
        let values = [
            ("code", person.to_string().into()),
            ("entry", id_of(&issued.entry).into()),
        ];
        out.message(&words.say("laboratory-key-then-accept", &values))?;
        return Ok(Ended::Done);
    }
    let accepted = office
        .laboratory
        .accept_key(person, new.passphrase(), &accountability);
    let accepted = office.ok(accepted)?;
    office.answer(&accepted, out)
}
