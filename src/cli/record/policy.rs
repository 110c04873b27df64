//! `drybench policy`: the laboratory's own numbers.

use clap::Command;

use crate::app::System;
use crate::app::laboratory::Deed;
use crate::cli::failure::{Ended, Failure};
use crate::cli::help;
use crate::cli::office::{self, Office};
use crate::cli::out::Out;
use crate::record::entry::{Independence, PolicySet};
use crate::report::record::independence;
use crate::standing::Reading;
use crate::text::Words;

/// Says what the commands take.
pub(in crate::cli) fn command(words: &Words) -> Command {
    let number = |id: &'static str, help_id: &'static str| {
        help::option(words, id, "NUMBER", help_id).value_parser(clap::value_parser!(u16))
    };
    help::group(words, "policy", "cli-policy")
        .subcommand(help::command(words, "show", "cli-policy-show", None).arg(office::data(words)))
        .subcommand(
            help::command(words, "set", "cli-policy-set", None)
                .arg(number("due-days", "cli-policy-set.due-days"))
                .arg(number("grace-days", "cli-policy-set.grace-days"))
                .arg(number("late-hours", "cli-policy-set.late-hours"))
                .arg(help::option(
                    words,
                    "independence",
                    "WORD",
                    "cli-policy-set.independence",
                ))
                .args(office::signing(words)),
        )
}

/// Shows the numbers in force, or sets others.
pub(in crate::cli) fn run<S: System>(
    what: &str,
    office: &mut Office<'_, S>,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (matches, words) = (office.matches, office.words);
    let now = office.laboratory.now().instant();
    let held = office.laboratory.view(now, Reading::AsNowKnown).policy();
    if what == "show" {
        let values = [
            ("due", i64::from(held.due_days).into()),
            ("grace", i64::from(held.grace_days).into()),
            ("late", i64::from(held.late_hours).into()),
            (
                "independence",
                independence(held.independence, words).into(),
            ),
        ];
        out.line(&words.say("laboratory-policy", &values))?;
        return Ok(Ended::Done);
    }
    let number = |name: &str, held: u16| matches.get_one::<u16>(name).copied().unwrap_or(held);
    let independence = office::chosen(
        matches,
        "independence",
        Independence::ALL,
        Independence::word,
    )?;
    let set = PolicySet {
        due_days: number("due-days", held.due_days),
        grace_days: number("grace-days", held.grace_days),
        late_hours: number("late-hours", held.late_hours),
        independence: independence.unwrap_or(held.independence),
    };
    let deed = Deed::now(set).because(office.reason()?);
    office.sign(deed, out)
}
